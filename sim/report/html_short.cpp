// When the animals are short, and what the bad years have in common.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "sim/report/html_parts.hpp"
#include "sim/report/html_text.hpp"
#include "sim/report/parts.hpp"
#include "sim/report/svg_charts.hpp"

namespace rackwright::report::html {
namespace {

/// Short days by season, a year.
std::string seasons(const Sheet& s) {
  const bool sized = s.searched();
  const results::Array* names = s.file.find(sized ? "design/season" : "summary/season");
  const results::Array* shares = s.file.find(sized ? "design/short_season" : "summary/short_season");
  if (names == nullptr || shares == nullptr || (s.sized() && s.design < 0)) return "";
  const std::size_t n = names->texts.size(), first = sized ? static_cast<std::size_t>(s.design) * n : 0;
  const auto short_days = sized ? std::optional(s.file.design("short_days", static_cast<std::size_t>(s.design)))
                                : s.estimate("short_days", As::year);
  if (!short_days || shares->numbers.size() < first + n) return "";
  if (short_days->mean <= 0.0) return paragraph("No day was short.");
  std::vector<svg::Bar> all;
  Table t{"short days by season, a year", {"season", "short days", "share of all short days"}, {}, ""};
  std::size_t worst = 0;
  for (std::size_t i = 0; i < n; ++i) {
    const double share = shares->numbers[first + i], days = share * short_days->mean;
    if (share > shares->numbers[first + worst]) worst = i;
    all.push_back({names->texts[i], plain(days, 1) + " days", days, "bar-alarm"});
    t.lines.push_back({names->texts[i], plain(days, 1), plain(100 * share, 0) + " %"});
  }
  const std::string most = names->texts[worst];
  return figure(
      svg::bars({"seasons", "Short days by season",
                 fmt::format("Bars of the mean number of short days in each season; most fall in {}.", most)},
                all),
      fmt::format("Days a year with a short meal, {} in all; most fall in {}.", plain(short_days->mean, 1), most),
      t);
}

/// Share of the fodder wanted that was served, by calendar month.
std::string months(const Sheet& s) {
  const results::Array* wanted = s.file.find("daily/wanted_mean");
  const results::Array* served = s.file.find("daily/served_mean");
  if (wanted == nullptr || served == nullptr || served->numbers.size() != wanted->numbers.size()) return "";
  const Calendar calendar(s.file.header.start_date);
  std::array<double, 13> want{}, got{}, days{};
  for (std::size_t d = 0; d < wanted->numbers.size(); ++d) {
    const auto m = static_cast<std::size_t>(calendar.month(static_cast<int>(d)));
    want[m] += wanted->numbers[d], got[m] += served->numbers[d], days[m] += 1.0;
  }
  Table t{"fodder by month, mean of the runs", {"month", "wanted a day", "served a day", "served of wanted"}, {}, ""};
  for (std::size_t m = 1; m <= 12; ++m)
    if (want[m] > 0.0)
      t.lines.push_back({std::string(month_name(static_cast<int>(m))), s.amount(want[m] / days[m], "kg"),
                         s.amount(got[m] / days[m], "kg"), plain(100 * got[m] / want[m], 1) + " %"});
  return t.lines.empty() ? "" : folded("Fodder wanted and served, month by month", table(t));
}

/// What may make a year short, as columns of /replication.
struct Cause {
  std::string_view column, label;
};
constexpr std::array causes{Cause{"wanted", "fodder wanted"},
                            Cause{"spoiled_mould", "mats lost to mould"},
                            Cause{"spoiled_sour", "mats lost to souring"},
                            Cause{"frost_killed", "mats killed by frost"},
                            Cause{"frost_unsown", "trays not sown for frost"},
                            Cause{"overdue_trays", "mats past their best"},
                            Cause{"missed_rounds", "rounds missed"},
                            Cause{"blocked_sowings", "trays that found no place"},
                            Cause{"unsown_trays", "trays not sown for want of grain"},
                            Cause{"dry_hours", "tray-hours without water, beyond the usual gap between waterings"},
                            Cause{"pump_failures", "pump failures"},
                            Cause{"germination", "share of grain that sprouted"},
                            Cause{"mat_height", "height of a mat fed"},
                            Cause{"room_mean", "mean room temperature"},
                            Cause{"room_max", "hottest hour in the room"},
                            Cause{"room_min", "coldest hour in the room"}};

/// Means over the worst fifth of the runs and over the others, and how far apart they are in standard deviations.
struct Contrast {
  double bad = 0.0, others = 0.0, apart = 0.0;
};

Contrast contrast(const std::vector<double>& values, const std::vector<std::size_t>& order, std::size_t worst) {
  Contrast c;
  double sum = 0.0, squares = 0.0;
  for (std::size_t i = 0; i < order.size(); ++i) {
    const double v = values[order[i]];
    (i < worst ? c.bad : c.others) += v;
    sum += v, squares += v * v;
  }
  const auto n = static_cast<double>(order.size()), bad = static_cast<double>(worst);
  c.bad /= bad, c.others /= n - bad;
  const double variance = squares / n - sum / n * (sum / n);
  if (variance > 1e-12 * squares / n) c.apart = (c.bad - c.others) / std::sqrt(variance);
  return c;
}

std::string bad_years(const Sheet& s) {
  const results::Array* short_days = s.file.find("replication/short_days");
  if (short_days == nullptr || short_days->numbers.size() < 20) return "";
  const auto& count = short_days->numbers;
  std::vector<std::size_t> order(count.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return count[a] > count[b]; });
  const std::size_t worst = order.size() / 5;
  if (count[order.front()] <= count[order.back()]) return "";
  std::vector<std::pair<double, std::vector<std::string>>> found;
  for (const Cause& cause : causes) {
    const results::Array* array = s.file.find("replication/" + std::string(cause.column));
    if (array == nullptr || array->numbers.size() != count.size()) continue;
    const Contrast c = contrast(array->numbers, order, worst);
    // Half a standard deviation between a fifth and the rest is seldom luck when there are a hundred runs or more.
    if (std::abs(c.apart) < 0.5) continue;
    const Shown unit = s.shown(cause.column, As::value);
    const double bad = unit.scale * c.bad + unit.offset, others = unit.scale * c.others + unit.offset;
    const int decimals = decimals_for(0.0, std::max(std::abs(bad), std::abs(others)));
    const std::string label = std::string(cause.label) + (unit.unit.empty() ? "" : with_signs(" [" + unit.unit + "]"));
    found.emplace_back(
        -std::abs(c.apart),
        std::vector<std::string>{label, plain(bad, decimals), plain(others, decimals),
                                 (c.apart > 0 ? "more" : "less") + fmt::format(", by {:.1f}", std::abs(c.apart))});
  }
  if (found.empty()) return "";
  std::stable_sort(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  Table t{"what sets the short years apart",
          {"mean of a run", fmt::format("the {} runs with most short days", worst), "the others", "apart, in standard deviations (the usual difference between runs)"},
          {},
          ""};
  for (auto& [apart, line] : found) t.lines.push_back(std::move(line));
  return paragraph(
             "What the fifth of runs with most short days have in common. Strongest first; a difference is a hint at a "
             "cause, not yet a proof.") +
         table(t);
}

/// Of a size file: the limits of the target that the missing years of the design broke.
std::string limits(const Sheet& s) {
  const results::Array* names = s.file.find("design/limit");
  const results::Array* broken = s.file.find("design/broken");
  if (!(s.in_search() > 0.0) || names == nullptr || broken == nullptr) return "";
  const std::size_t n = names->texts.size(), first = static_cast<std::size_t>(s.design) * n;
  Table t{"limits broken in the years that missed the target", {"limit", "share of those years"}, {}, ""};
  for (std::size_t i = 0; i < n; ++i)
    if (broken->numbers.at(first + i) > 0.0)
      t.lines.push_back({names->texts[i], plain(100 * broken->numbers[first + i], 0) + " %"});
  return t.lines.empty() ? "" : table(t);
}

}  // namespace

/// The main causes of short feedings, as bars of what they lacked.
std::string by_cause(const Sheet& s) {
  const auto lines = shortage_lines(s.file);
  if (lines.empty()) return "";
  const std::string count = plain(s.file.number("shortage/replications").value_or(0.0), 0);
  std::vector<svg::Bar> bars;
  Table t{"short feedings by main cause, a year", {"chain of causes", "share of the fodder missing", "fodder missing", "short feedings"}, {}, "lrrr"};
  for (const ShortageLine& line : lines) {
    const std::string share = plain(100.0 * line.share, 1) + " %";
    bars.push_back({line.cause.substr(0, line.cause.find(" -> ")), share, line.share});  // the chain is in the table
    t.lines.push_back({line.cause, share, line.missing, line.feedings});
  }
  const svg::Words words{"causes", "What makes feedings short", fmt::format("A bar for each of {} main causes, by the fodder that was missing.", lines.size())};
  return figure(svg::bars(words, bars),
                fmt::format("Each short feeding (a round, whatever groups eat then) of {} runs stands under what took most from it: the "
                            "batches that should have fed it are followed back to what happened to them. rackwright journal tells one run feeding by feeding.", count),
                t);
}

std::string short_part(const Sheet& s) {
  if (!s.sized() && !s.played()) return "";
  return seasons(s) + by_cause(s) + limits(s) + months(s) + bad_years(s);
}

}  // namespace rackwright::report::html
