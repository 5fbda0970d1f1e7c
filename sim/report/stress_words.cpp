#include "sim/report/stress_words.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>

#include <fmt/format.h>

#include "sim/report/parts.hpp"

namespace rackwright::report {
namespace {

/// Is so much avoided of a harm? A hundredth or more of it (assumed): what is certain may still be nothing.
bool matters(double avoided, double harm) { return avoided > 0.0 && avoided >= 0.01 * harm; }

}  // namespace

std::string signed_words(const study::Estimate& e, double scale, const std::string& unit) {
  const double half = 0.5 * scale * (e.high - e.low), mean = scale * e.mean;
  const std::string after = unit.empty() ? "" : " " + unit;
  if (std::isfinite(half) && e.low == 0.0 && e.high == 0.0) return "0" + after;
  const int digits = decimals_for(std::isfinite(half) ? half : 0.0, mean);
  const auto with_sign = [&](double value) {
    const std::string bare = plain(value, digits);
    return (bare.front() == '-' || bare.find_first_not_of("0.") == std::string::npos ? "" : "+") + bare;
  };
  if (!std::isfinite(half)) return with_sign(mean) + after;
  return fmt::format("{}{} ({} to {})", with_sign(mean), after, with_sign(scale * e.low), with_sign(scale * e.high));
}

namespace {

// Of one replication there is no interval: what it had is all that can be told.
bool more(const study::Estimate& e) { return std::isfinite(e.low) ? e.low > 0.0 : e.mean > 0.0; }
bool less(const study::Estimate& e) { return std::isfinite(e.high) ? e.high < 0.0 : e.mean < 0.0; }

}  // namespace

StressWords::StressWords(const results::ResultFile& file) : file_(file), us_(in_us_units(file)) {}

std::size_t StressWords::count() const { return file_.at("stress/hard_time").texts.size(); }

std::string StressWords::text(std::string_view path, std::size_t i) const { return file_.at(path).texts.at(i); }
double StressWords::number(const std::string& path, std::size_t i) const { return file_.at(path).numbers.at(i); }
study::Estimate StressWords::estimate(const std::string& path, std::size_t i) const {
  return {number(path, i), number(path + "_low", i), number(path + "_high", i), 0.0, 0.0, 0.0};
}

std::string StressWords::date(std::size_t i) const {
  int year = 2000;
  unsigned month = 1, day = 1;
  std::sscanf(file_.header.start_date.c_str(), "%d-%u-%u", &year, &month, &day);
  const std::chrono::year_month_day start{std::chrono::year(year), std::chrono::month(month), std::chrono::day(day)};
  const auto after = static_cast<int>(std::floor(number("stress/day", i)));
  const std::chrono::year_month_day at{std::chrono::sys_days(start) + std::chrono::days(after)};
  return fmt::format("{:04d}-{:02d}-{:02d}", static_cast<int>(at.year()), static_cast<unsigned>(at.month()),
                     static_cast<unsigned>(at.day()));
}

std::string StressWords::first(std::size_t i) const {
  const auto& signs = file_.at("stress/sign").texts;
  const auto& shares = file_.at("stress/first").numbers;
  std::vector<std::pair<double, std::string>> order;
  for (std::size_t s = 0; s < signs.size(); ++s)
    if (const double share = shares.at(i * signs.size() + s); share > 0.0) order.emplace_back(-share, signs[s]);
  if (order.empty()) return "nothing";
  std::stable_sort(order.begin(), order.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  std::string out = fmt::format("{}, in {} of runs", order[0].second, whole_percent(-order[0].first));
  if (order.size() > 1 && order[1].first < -0.1)
    out += fmt::format(" ({}, in {})", order[1].second, whole_percent(-order[1].first));
  return out + fmt::format("; {} days in", plain(number("stress/first_day", i), 1));
}

std::string StressWords::first_short(std::size_t i) const {
  const double any = number("stress/any_short", i);
  if (any == 0.0) return "none";
  return fmt::format("in {} of runs, {} days in", whole_percent(any), plain(number("stress/first_short", i), 1));
}

std::string StressWords::recovery(std::size_t i) const {
  const study::Estimate e = estimate("stress/recovery", i);
  // The mean of runs that all end too soon would tell the run's length.
  if (number("stress/not_over", i) >= 1.0) return "not before the end of the run";
  std::string out = e.high == 0.0 ? "0" : with_interval(e, {});
  if (const double late = number("stress/not_over", i); late > 0.0)
    out += fmt::format("; not before the end of the run in {}", whole_percent(late));
  return out;
}

std::string StressWords::shown(std::string_view group, std::string_view quantity, std::size_t i) const {
  const study::Estimate e = estimate(fmt::format("{}/{}", group, quantity), i);
  if (quantity == "fill_rate") return signed_words(e, 100.0, "percentage points");
  return signed_words(e, 1.0, quantity == "cost" ? file_.header.currency : "");
}

std::string StressWords::helped_bare(std::string_view quantity, std::size_t t) const {
  return signed_words(estimate(fmt::format("countermeasure/{}", quantity), t), quantity == "fill_rate" ? 100.0 : 1.0, "");
}

std::string StressWords::limit_words(const std::string& group, std::size_t i) const {
  const std::string kind = text(group + "/limit_kind", i);
  if (kind.empty()) return "";
  if (kind == "never") return "not even an ordinary summer";
  const Shown degrees = shown_in("degC", us_);
  const study::Estimate e = estimate(group + "/limit", i);
  const auto at = [&](double celsius) { return plain(degrees.scale * celsius + degrees.offset, 1); };
  if (kind == "beyond") return fmt::format("{} {} and more", at(e.mean), degrees.unit);
  return fmt::format("{} {} ({} to {})", at(e.mean), degrees.unit, at(e.low), at(e.high));
}

std::vector<std::size_t> StressWords::trials(std::size_t i) const {
  std::vector<std::size_t> all;
  const auto* names = file_.find("countermeasure/hard_time");
  if (names == nullptr) return all;
  for (std::size_t t = 0; t < names->texts.size(); ++t)
    if (names->texts[t] == name(i)) all.push_back(t);
  return all;
}

bool StressWords::one_replication() const {
  const auto& played = file_.at("stress/replications").numbers;
  return !played.empty() && *std::max_element(played.begin(), played.end()) == 1.0;
}

std::string StressWords::advice(std::size_t i) const {
  if (one_replication() && !trials(i).empty()) return "One replication cannot show what helps: play more of them (--replications).";
  const double shorter_days = number("stress/short_days", i), less_fodder = -number("stress/fill_rate", i);
  const bool of_money = text("stress/kind", i) == "price-jump";  // then what costs less is what helps
  std::size_t best = 0, fullest = 0, cheapest = 0;
  bool helps = false, feeds = false, saves = false;
  std::string unpriced, needing;
  for (const std::size_t t : trials(i)) {
    if (number("countermeasure/priced", t) == 0.0) unpriced += (unpriced.empty() ? "" : ", ") + trial(t);
    if (!trial_why_not(t).empty()) continue;
    if (const std::string needs = trial_needs(t); !needs.empty()) needing += fmt::format("{}for {}: {}", needing.empty() ? "" : "; ", trial(t), needs);
    const study::Estimate shorter = estimate("countermeasure/short_days", t), fed = estimate("countermeasure/fill_rate", t);
    if (number("countermeasure/by_service", t) == 1.0) best = t, helps = shorter.high < 0.0 && matters(-shorter.mean, shorter_days);
    // What leaves the animals shorter is cheap in the wrong way.
    if (shorter.low > 0.0) continue;
    const bool fills = fed.low > 0.0 && matters(fed.mean, less_fodder), spares = shorter.high < 0.0 && matters(-shorter.mean, shorter_days);
    if (fills && (!feeds || fed.mean > number("countermeasure/fill_rate", fullest))) fullest = t, feeds = true;
    if (fed.high < 0.0 || !(estimate("countermeasure/cost", t).high < 0.0)) continue;
    if (!fills && !spares && !of_money) continue;  // cheap, and no cure
    // These two are of the whole run: it is no saving to feed worse mats in other seasons.
    if (estimate("countermeasure/unripe_fed", t).low > 0.0 || estimate("countermeasure/spoiled_fed", t).low > 0.0) continue;
    if (!saves || number("countermeasure/cost", t) < number("countermeasure/cost", cheapest)) cheapest = t, saves = true;
  }
  std::string out = "Nothing that was tried is shown to avoid short days or to save fodder.";
  if (helps) out = fmt::format("Most short days are avoided by {} ({}).", trial(best), settings(best));
  else if (feeds)
    out = fmt::format("Nothing that was tried is shown to avoid short days, but most fodder is saved by {} ({}): {}.",
                      trial(fullest), settings(fullest), helped("fill_rate", fullest));
  if (helps && feeds && fullest != best && estimate("countermeasure/fill_rate", fullest).low > estimate("countermeasure/fill_rate", best).high)
    out += fmt::format(" Most fodder is saved by {} ({}): {}.", trial(fullest), settings(fullest), helped("fill_rate", fullest));
  // What a larger rack does for ordinary days is no cure of this trouble.
  if (helps && -estimate("countermeasure/short_days", best).high > std::max(0.0, estimate("stress/short_days", i).high))
    out += " It avoids more of them than this hard time brings, so it makes up for short days of ordinary times as well.";
  if (saves && ((helps && cheapest == best) || (!helps && feeds && cheapest == fullest))) out += " It costs least, too.";
  else if (saves)
    out += fmt::format(" Cheapest of those that {}, and bring no more unripe or spoiled mats in the whole run: {} ({}).",
                       of_money ? "bring no more short days and no less fodder then" : "are shown to help then", trial(cheapest), settings(cheapest));
  if (out.find("water.header_tank") != std::string::npos) out += " A tank above the rack is heavy (a kilogram a litre) and its water warms: `check` of the changed farm says what to mind.";
  if (!needing.empty()) out += " To be had first: " + needing + ".";
  if (!unpriced.empty()) out += " Without a price in the scenario, so not among the costs: " + unpriced + ".";
  return out;
}

std::string StressWords::lead() const {
  return (one_replication() ? "One replication shows nothing for certain. As it was played: " : "") + lead_by_short_days();
}

std::string StressWords::lead_by_short_days() const {
  std::size_t worst = count();
  for (std::size_t i = 0; i < count(); ++i) {
    if (!why_not(i).empty() || !more(estimate("stress/short_days", i))) continue;
    if (worst == count() || number("stress/short_days", i) > number("stress/short_days", worst)) worst = i;
  }
  if (worst == count()) return lead_by_fodder();
  std::string out = fmt::format("Hardest of those tried, by short days: {}, {}. Short days: {}; what gives way first: {}.", name(worst),
                                what(worst), hard("short_days", worst), first(worst));
  // Where most days are short already, another may take more of the fodder.
  std::size_t hungriest = worst;
  for (std::size_t i = 0; i < count(); ++i)
    if (why_not(i).empty() && number("stress/fill_rate", i) < number("stress/fill_rate", hungriest)) hungriest = i;
  if (estimate("stress/fill_rate", hungriest).high < estimate("stress/fill_rate", worst).low)
    out += fmt::format(" In their own time most fodder is lost in {}: {}.", name(hungriest), hard("fill_rate", hungriest));
  return out;
}

std::string StressWords::grave() const {
  std::string list;
  for (std::size_t i = 0; i < count(); ++i) {
    if (!why_not(i).empty() || !more(estimate("stress/spoiled_fed", i))) continue;
    list += fmt::format("{}{} more in {}", list.empty() ? "" : "; ", hard("spoiled_fed", i), name(i));
  }
  return list.empty() ? "" : fmt::format("Grave: spoiled mats are fed because nobody saw them: {}.", list);
}

// Where every day is short already no hard time can bring more of them; the fodder served still tells.
std::string StressWords::lead_by_fodder() const {
  std::size_t worst = count();
  for (std::size_t i = 0; i < count(); ++i) {
    if (!why_not(i).empty() || !less(estimate("stress/fill_rate", i))) continue;
    if (worst == count() || number("stress/fill_rate", i) < number("stress/fill_rate", worst)) worst = i;
  }
  if (worst == count()) return lead_of_none();
  return fmt::format("Hardest of those tried, by the fodder served: {}, {}. It is not shown to bring more short days, but it leaves the animals "
                     "with less: fodder served {}; what gives way first: {}.", name(worst), what(worst),
                     hard("fill_rate", worst), first(worst));
}

std::string StressWords::lead_of_none() const {
  std::string untried;
  for (std::size_t i = 0; i < count(); ++i)
    if (const std::string why = why_not(i); !why.empty()) untried += fmt::format("{}{}: {}", untried.empty() ? "" : "; ", name(i), why);
    else return "None of the hard times that were tried is shown to leave the animals short.";
  return fmt::format("Nothing was tried. {}.", untried);
}

std::string StressWords::trial_needs(std::size_t t) const {
  return file_.find("countermeasure/needs") == nullptr ? std::string() : text("countermeasure/needs", t);
}

std::string StressWords::method() const {
  const auto& played = file_.at("stress/replications").numbers;
  const double most = played.empty() ? 0.0 : *std::max_element(played.begin(), played.end());
  if (most <= 0.0) return "";
  return fmt::format(
      "Each hard time was played {} time{} of {} days with and without it on the same luck; days in are counted from its first day; figures are mean differences, "
      "with their 95 % intervals. In its time: from its first day until a fortnight after it can last show; whole run: from the run's first day to its last. Fed as usual: from that day on, a fortnight without a day worse fed than "
      "undisturbed. A remedy holds for the whole run, and its short days and fodder are those of the hard time: what it does in other seasons simulate --against tells. Enough up to: the hottest hour outdoors of a wave (mean of the runs) in which at least {:.4g} % of the "
      "fodder wanted is served from its first day until a week after it can still show; found to {}, with "
      "the span in which the 95 % interval of that share holds the {:.4g} %.",
      most, most == 1.0 ? "" : "s", file_.header.horizon_days, 100.0 * file_.number("stress/asked").value_or(0.0),
      us_ ? "half a degree Fahrenheit" : "a quarter of a degree Celsius", 100.0 * file_.number("stress/asked").value_or(0.0));
}

}  // namespace rackwright::report
