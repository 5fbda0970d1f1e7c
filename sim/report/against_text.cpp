// Changes tried against the scenario as it is.

#include <fmt/format.h>

#include "sim/replication/columns.hpp"
#include "sim/report/parts.hpp"
#include "sim/report/stress_words.hpp"
#include "sim/report/words.hpp"

namespace rackwright::report {

std::vector<AgainstLine> against_lines(const results::ResultFile& file, std::size_t change) {
  std::vector<AgainstLine> lines;
  const auto& quantities = file.at("against/quantity").texts;
  const auto& units = file.at("against/unit").texts;
  for (std::size_t q = 0; q < quantities.size(); ++q) {
    const std::size_t at = change * quantities.size() + q;
    const auto estimate = [&](const std::string& path) {
      return study::Estimate{file.at(path).numbers.at(at), file.at(path + "_low").numbers.at(at),
                             file.at(path + "_high").numbers.at(at), 0.0, 0.0, 0.0};
    };
    Shown unit = shown_in(units[q], in_us_units(file));
    if (quantities[q] == "fill_rate") unit = {100.0, 0.0, "%"};
    if (in_money(quantities[q])) unit.unit = file.header.currency + (units[q] == "1" ? "" : "/" + unit.unit.substr(unit.unit.find('/') + 1));
    const Column* column = find_column(quantities[q]);
    lines.push_back({std::string(column != nullptr ? column->long_name : quantities[q]),
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
    out += wrapped(fmt::format("Means over {} runs, and the mean difference between runs on the same luck, with their 95 % intervals. One percentage point: "
                               "from 85 % to 86 %.",
                               file.at("against/replications").numbers.at(c)), 2);
  }
  return out;
}

}  // namespace rackwright::report
