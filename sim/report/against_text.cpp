// Changes tried against the scenario as it is.

#include <algorithm>
#include <iterator>
#include <string_view>

#include <fmt/format.h>

#include "sim/replication/columns.hpp"
#include "sim/report/parts.hpp"
#include "sim/report/stress_words.hpp"
#include "sim/report/words.hpp"

namespace rackwright::report {
namespace {

bool total_of_run(std::string_view quantity) {
  constexpr std::string_view totals[] = {"spoiled_trays", "spoiled_fed", "unripe_fed", "labour", "grain_used"};
  return std::find(std::begin(totals), std::end(totals), quantity) != std::end(totals);
}

}  // namespace

std::string rare_words(const results::ResultFile& file, std::size_t change) {
  const double pairs = file.at("against/replications").numbers.at(change);
  if (pairs == 1.0) return "One pair of runs: no difference can be shown by it.";
  if (pairs < 3.0 || pairs >= 400.0) return "";
  return fmt::format("Where a change shows in few runs only (a run-out of grain, a rare bad day), {:.0f} pairs give too narrow an interval: a difference of 0 without one says "
                     "that all {:.0f} were alike, and up to {} in 100 may still differ (rule of three). Play some hundreds of replications before you decide by such a figure.",
                     pairs, pairs, plain(300.0 / pairs, pairs >= 30.0 ? 1 : 0));
}

std::vector<AgainstLine> against_lines(const results::ResultFile& file, std::size_t change) {
  std::vector<AgainstLine> lines;
  const auto& quantities = file.at("against/quantity").texts;
  const auto& units = file.at("against/unit").texts;
  const double days = static_cast<double>(file.header.horizon_days);
  for (std::size_t q = 0; q < quantities.size(); ++q) {
    // As in the table above: totals of the run for 365 days.
    const double a_year = total_of_run(quantities[q]) && days > 0.0 ? 365.0 / days : 1.0;
    const std::size_t at = change * quantities.size() + q;
    const auto estimate = [&](const std::string& path) {
      return study::Estimate{a_year * file.at(path).numbers.at(at), a_year * file.at(path + "_low").numbers.at(at),
                             a_year * file.at(path + "_high").numbers.at(at), 0.0, 0.0, 0.0};
    };
    Shown unit = shown_in(units[q], in_us_units(file));
    unit.top = most_possible(quantities[q], days);
    if (quantities[q] == "fill_rate") unit = as_share();
    if (in_money(quantities[q])) unit.unit = file.header.currency + (units[q] == "1" ? "" : "/" + unit.unit.substr(unit.unit.find('/') + 1));
    const Column* column = find_column(quantities[q]);
    lines.push_back({std::string(column != nullptr ? column->long_name : quantities[q]) + (a_year != 1.0 ? ", a year" : ""),
                     with_interval(estimate("against/before"), unit), with_interval(estimate("against/after"), unit),
                     signed_words(estimate("against/difference"), unit.scale, unit.unit == "%" ? "percentage points" : unit.unit), file.at("against/verdict").texts.at(at)});
  }
  return lines;
}

std::string against_text(const results::ResultFile& file) {
  const auto* changes = file.find("against/change");
  if (changes == nullptr) return "";
  std::string out;
  for (std::size_t c = 0; c < changes->texts.size(); ++c) {
    out += fmt::format("\nChanged: {} (against the scenario as it is)\n", changes->texts[c]);
    for (const AgainstLine& line : against_lines(file, c)) {
      out += wrapped(fmt::format("{}: {}", line.label, line.verdict), 2, 4);
      out += wrapped(fmt::format("{}, from {} to {}", line.difference, line.before, line.after), 6, 2);
    }
    const double pairs = file.at("against/replications").numbers.at(c);
    const std::string rare = rare_words(file, c);
    out += wrapped(fmt::format("Means over {} run{}, and the mean difference between runs on the same luck, with their 95 % intervals. One percentage point: "
                               "from 85 % to 86 %.",
                               pairs, pairs == 1.0 ? "" : "s") + (rare.empty() ? "" : " " + rare), 2);
  }
  return out;
}

}  // namespace rackwright::report
