#include <algorithm>
#include <limits>
#include <map>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "sim/report/parts.hpp"
#include "sim/report/simulate_page.hpp"
#include "sim/report/words.hpp"

namespace rackwright::report {
namespace {

using results::ResultFile;
using study::Estimate;

std::size_t keys_of(const ResultFile& file) {
  const results::Array* keys = file.find("design/choice");
  return keys == nullptr ? 0 : keys->texts.size();
}

/// "rack.tiers = 6, line.soak = 10 h".
std::string design_words(const ResultFile& file, std::size_t candidate) {
  std::string words;
  const std::size_t n = keys_of(file);
  for (std::size_t k = 0; k < n; ++k)
    words += fmt::format("{}{} = {}", k == 0 ? "" : ", ", file.at("design/choice").texts[k],
                         file.at("design/value").texts[candidate * n + k]);
  return words.empty() ? "the design as written" : words;
}

Shown money(const ResultFile& file) { return {1.0, 0.0, file.header.currency}; }

std::string success_words(const ResultFile& file, std::size_t candidate) {
  return share_with_interval(file.design("success", candidate));
}

bool played(const ResultFile& file, std::size_t candidate) { return file.at("design/replications").numbers[candidate] > 0.0; }

/// What was reached of the requirements that are asked for by themselves, one a line.
template <class Line>
void kept_lines(const ResultFile& file, std::size_t candidate, const Line& line) {
  const bool own = told_by_replications(file) && file.find("summary/requirement") != nullptr;
  const std::string group = own ? "summary/" : "design/";
  const results::Array* names = file.find(group + "requirement");
  if (names == nullptr) return;
  for (std::size_t r = 1; r < names->texts.size(); ++r) {
    const auto at = [&](const char* name) { return file.at(group + name).numbers[(own ? 0 : candidate * names->texts.size()) + r]; };
    const Estimate got{at("reached"), at("reached_low"), at("reached_high"), 0.0, 0.0, 0.0};
    if (names->texts[r] == "mean yearly cost") continue;  // stands above
    line(names->texts[r].starts_with("mean") ? names->texts[r].c_str() : ("kept: " + names->texts[r]).c_str(), share_with_interval(got));
  }
}

/// The design line by line, then what it does in the years it was played; nothing of that where arithmetic ruled it out.
std::string portrait(const ResultFile& file, std::size_t candidate) {
  std::string out;
  const std::size_t n = keys_of(file);
  std::size_t longest = 0;
  for (std::size_t k = 0; k < n; ++k) longest = std::max(longest, width(file.at("design/choice").texts[k]));
  for (std::size_t k = 0; k < n; ++k)
    out += "    " + left(file.at("design/choice").texts[k], longest) + " = " +
           file.at("design/value").texts[candidate * n + k] + "\n";
  if (!played(file, candidate)) return out;
  const auto line = [&](const char* label, const std::string& value) { out += "  " + left(label, 28) + value + "\n"; };
  out += "\n";
  const Page page(file);
  const bool own = told_by_replications(file);
  const auto told = [&](const char* of_replications, const char* of_search, Told how, const Shown& shown) {
    return own && page.has(of_replications) ? page.words(of_replications, how) : with_interval(file.design(of_search, candidate), shown);
  };
  line("cost a year", told("cost_total", "cost_year", Told::money, money(file)));
  if (counts_years(file))
    line(asks_more(file) ? "kept: all other limits" : fmt::format("{} that meet the target", years_or_runs(file)).c_str(), own ? share_with_interval(page.get("success")) : success_words(file, candidate));
  kept_lines(file, candidate, line);
  line("fodder served", share_with_interval(own && page.has("served/wanted") ? page.get("served/wanted") : file.design("fill_rate", candidate)));
  line("short days a year", told("short_days", "short_days", Told::year, days_a_year()));
  line("spoiled mats a year", told("spoiled_trays", "spoiled_trays", Told::year, {}));
  line("overgrown mats a year", told("overdue_trays", "overdue_trays", Told::year, {}));
  line("work a year", told("labour", "labour", Told::year, shown_in("h", in_us_units(file))));
  line("replications played", own ? fmt::format("{}", file.header.replications_completed) : plain(file.at("design/replications").numbers[candidate], 0));
  if (const std::string searched = searched_words(file); !searched.empty()) out += wrapped(searched, 4);
  return out;
}

/// An index the file holds, if it names a candidate of the file.
std::pair<bool, std::size_t> candidate_at(const ResultFile& file, std::string_view path) {
  const double value = file.number(path).value_or(-1.0);
  if (!(value >= 0.0) || value >= static_cast<double>(file.candidates())) return {false, 0};
  return {true, static_cast<std::size_t>(value)};
}

std::string runners_up(const ResultFile& file) {
  std::vector<std::pair<double, std::size_t>> places;
  const auto& numbers = file.at("design/runner_up").numbers;
  for (std::size_t i = 0; i < numbers.size(); ++i)
    if (numbers[i] > 0.0) places.emplace_back(numbers[i], i);
  if (places.empty()) return "\nNo other design comes near.\n";
  std::sort(places.begin(), places.end());
  const char* runs = years_or_runs(file);
  std::string out = "\nRunners-up\n";
  int place = 0;
  for (const auto& [number, i] : places) {
    out += wrapped(fmt::format("{}. {}", ++place, design_words(file, i)), 2, 3);
    out += wrapped(fmt::format("{} a year over its {} {}; {}", with_interval(file.design("cost_year", i), money(file)),
                               plain(file.at("design/replications").numbers[i], 0), runs, met_words(file, static_cast<int>(i), file.design("success", i))),
                   5);
    out += wrapped(fmt::format("{}: {}", file.at("design/verdict").texts[i], file.at("design/why").texts[i]), 5);
  }
  std::vector<std::size_t> told;
  told.reserve(places.size() + 2);
  for (const auto& [number, i] : places) told.push_back(i);
  for (const char* path : {"design/chosen", "design/nearest"})
    if (const auto [found, i] = candidate_at(file, path); found) told.push_back(i);
  if (const std::string beware = unequal_years_words(file, told); !beware.empty()) out += wrapped(beware, 2);
  return out;
}

/// What the choice promises, what a bit more money buys, what would help, how long the rack lasts.
std::string advice(const ResultFile& file) {
  std::string out;
  if (const std::string promise = file.text("design/promise"); !promise.empty()) out += wrapped("Promise: " + promise + ".");
  const auto list = [&](const char* path, const char* heading) {
    const results::Array* lines = file.find(path);
    if (lines == nullptr) return;
    out += std::string("\n") + heading + "\n";
    for (const std::string& line : lines->texts) out += wrapped("- " + line, 2, 2);
  };
  list("design/help", "What would help the nearest miss, told of years other than those it was found in");
  list("design/buys", "What a bit more money buys");
  // Where no design meets the target, the place beyond which money buys least is still short of it: no advice.
  const bool met = file.number("design/chosen").value_or(-1.0) >= 0.0;
  if (const auto [bends, knee] = candidate_at(file, "design/knee"); bends && met) {
    const auto& places = file.at("design/frontier").numbers;
    out += wrapped(fmt::format("Of {} designs none is served better for less money. Beyond {} ({} a year, {} of the fodder served) more money buys "
                               "least.", plain(*std::max_element(places.begin(), places.end()), 0),
                               design_words(file, knee), with_interval(file.design("cost_year", knee), money(file)),
                               share_with_interval(file.design("fill_rate", knee))), 2);
  }
  if (const std::string thrift = file.text("design/thrift"); !thrift.empty()) out += "\n" + wrapped("What would be cheaper still: " + thrift + ".");
  if (const std::string runway = file.text("design/runway"); !runway.empty()) out += "\n" + wrapped("How long the rack lasts: " + runway + ".");
  return out;
}

std::string tried(const ResultFile& file) {
  static const std::vector<std::pair<std::string, const char*>> meaning{
      {"screened", "ruled out by arithmetic alone"}, {"fails", "miss the target"}, {"costlier", "cost more"},
      {"meets", "meet it too, at a cost too close to tell apart"}, {"undecided", "left undecided"}};
  std::map<std::string, int> counts;
  for (const std::string& verdict : file.at("design/verdict").texts) ++counts[verdict];
  std::string out = fmt::format("\n{} {} tried", file.candidates(), file.candidates() == 1 ? "design was" : "designs were");
  const char* separator = ": ";
  for (const auto& [verdict, words] : meaning) {
    if (counts[verdict] == 0) continue;
    out += fmt::format("{}{} {}", std::exchange(separator, ", "), counts[verdict], words);
  }
  out += fmt::format(". {} replications (the line played once) of {} days were spent, random seed {}.",
                     plain(file.number("design/spent").value_or(0.0), 0), file.header.horizon_days,
                     file.header.random_seed);
  const double spent = file.number("design/spent").value_or(0.0), equal = file.number("design/equal_allocation").value_or(0.0);
  if (equal > 1.5 * spent)
    out += fmt::format(" Playing every design as often as the closest contest asked for would have taken {} times as many.",
                       plain(equal / spent, 0));
  const auto& verdicts = file.at("design/verdict").texts;
  const auto screened = std::find(verdicts.begin(), verdicts.end(), "screened");
  if (screened != verdicts.end())
    out += fmt::format(" What arithmetic says, for one of them: {}.",
                       file.at("design/why").texts[static_cast<std::size_t>(screened - verdicts.begin())]);
  if (file.number("design/stopped").value_or(0.0) != 0.0)
    out += " The search was stopped early; the verdicts are those reached by then.";
  else if (file.number("design/settled").value_or(1.0) == 0.0)
    out += fmt::format(
        " Some verdicts lack the confidence asked for: raise choose.most_replications (now {}) to settle them.",
        file.header.replications_asked);
  return "\n" + wrapped(out + " Figures in brackets are 95 % intervals.");
}

}  // namespace

std::string why_words(const ResultFile& file, std::size_t candidate) {
  const std::string& why = file.at("design/why").texts[candidate];
  return (file.at("design/verdict").texts[candidate] == "screened" ? "Arithmetic alone rules it out: " : "It ") + why + ".";
}

std::optional<std::size_t> design_shown(const ResultFile& file) {
  for (const char* path : {"design/chosen", "design/nearest"})
    if (const auto [found, candidate] = candidate_at(file, path); found) return candidate;
  return std::nullopt;
}

bool told_by_replications(const ResultFile& file) {
  const auto shown = design_shown(file);
  return shown && file.estimate("success") && static_cast<double>(file.header.replications_completed) >= file.at("design/replications").numbers[*shown];
}

bool whole_years(const ResultFile& file) { return file.header.horizon_days == 365 || file.header.horizon_days == 366; }

const char* years_or_runs(const ResultFile& file) { return whole_years(file) ? "years" : "runs"; }

std::string searched_words(const ResultFile& file) {
  const auto shown = design_shown(file);
  if (!shown || !told_by_replications(file) || !played(file, *shown)) return "";
  const double searched = file.at("design/replications").numbers[*shown];
  const auto completed = file.header.replications_completed;
  if (!(static_cast<double>(completed) > searched)) return "";
  return fmt::format("These are of the {0} {1} that were played of this design to the end. The search itself had played {2} of them, which cost {3} a year: that figure is held "
                     "against the other designs, whose costs are of the search, too.",
                     completed, years_or_runs(file), plain(searched, 0), with_interval(file.design("cost_year", *shown), money(file)));
}

std::string unequal_years_words(const ResultFile& file, const std::vector<std::size_t>& designs) {
  double least = std::numeric_limits<double>::infinity(), most = 0.0;
  for (const std::size_t design : designs) {
    const double years = file.at("design/replications").numbers[design];
    if (years <= 0.0) continue;
    least = std::min(least, years), most = std::max(most, years);
  }
  if (!(most > least)) return "";
  return fmt::format("Beware of comparing the costs of two designs: each is the mean of the years that design was played ({} to {} of them), and "
                     "some had dearer years than others. \"On the same years\" compares the years both were played, and decides.",
                     plain(least, 0), plain(most, 0));
}

std::string size_text(const ResultFile& file) {
  std::string out = file.header.title + "\n\n";
  if (const std::string grave = grave_text(file); !grave.empty()) out += grave + "\n";
  if (const auto [found, chosen] = candidate_at(file, "design/chosen"); found) {
    const bool settled = file.number("design/settled").value_or(0.0) != 0.0;
    out += settled ? "Recommended: the cheapest design that meets the target\n\n"
                   : "Recommended: the cheapest design shown to meet the target\n\n";
    out += portrait(file, chosen) + cost_parts_text(file) + "\n";
  } else {
    const bool stopped = file.number("design/stopped").value_or(0.0) != 0.0;
    out += stopped ? "The search was stopped before any design was shown to meet the target.\n"
                   : "No design that was tried is shown to meet the target.\n";
    if (const auto [near, nearest] = candidate_at(file, "design/nearest"); near) {
      const bool open = file.at("design/verdict").texts[nearest] == "undecided";
      out += std::string(stopped ? "The best so far" : open ? "The nearest to it, shown neither to meet nor to miss it" : "The nearest miss") + "\n\n" + portrait(file, nearest) + cost_parts_text(file) + "\n" + wrapped(why_words(file, nearest));
    }
  }
  if (const std::string grave = Page(file).grave(); !grave.empty()) out += wrapped(grave);
  if (const std::string unripe = Page(file).unripe(); !unripe.empty()) out += wrapped(unripe);
  const std::string time = Page(file).too_little_time(), runs = Page(file).short_runs(), stale = Page(file).stale_grain();
  const bool often = Page(file).often_too_little_time();
  if (often) out += wrapped(time);
  if (!stale.empty()) out += wrapped(stale);
  if (!runs.empty()) out += wrapped(runs);
  if (const std::string absent = Page(file).absent(); !absent.empty()) out += wrapped(absent);
  if (const std::string target = target_words(file); !target.empty()) out += wrapped("Target: " + target + ".");
  // On a miss the design and why it fails stand above already.
  if (const std::string binding = file.text("design/binding"); !binding.empty() && file.number("design/chosen").value_or(-1.0) >= 0.0)
    out += wrapped("What keeps a cheaper design from being chosen: " + binding + ".");
  if (!often && !time.empty()) out += wrapped(time);
  if (const std::string worth = worth_words(file); !worth.empty()) out += wrapped(worth);
  out += doubt_text(file);
  out += shortage_text(file);
  return out + advice(file) + runners_up(file) + tried(file) + cautions_text(file);
}

}  // namespace rackwright::report
