// Luck and ignorance, in words.

#include <optional>

#include <fmt/format.h>

#include "sim/report/parts.hpp"
#include "sim/report/words.hpp"

namespace rackwright::report {
namespace {

// Where a quantity stands in /doubt.
std::optional<std::size_t> place_of(const results::ResultFile& file, std::string_view quantity) {
  const results::Array* names = file.find("doubt/quantity");
  for (std::size_t i = 0; names != nullptr && i < names->texts.size(); ++i)
    if (names->texts[i] == quantity) return i;
  return std::nullopt;
}

}  // namespace

std::string doubt_words(const results::ResultFile& file) {
  const auto fill = place_of(file, "fill_rate"), met = place_of(file, "success");
  if (!fill || !met) return "";
  const auto at = [&](const char* path, std::size_t i) { return file.at(path).numbers.at(i); };
  const auto estimate = [&](const std::string& which, std::size_t i) {
    study::Estimate e;
    e.mean = at(("doubt/" + which + "_mean").c_str(), i);
    e.low = at(("doubt/" + which + "_low").c_str(), i);
    e.high = at(("doubt/" + which + "_high").c_str(), i);
    return e;
  };
  const auto words = [&](const std::string& which) {
    std::string out = fmt::format("the animals get {} of their fodder", share_with_interval(estimate(which, *fill)));
    if (!target_words(file).empty() && counts_years(file)) out += fmt::format(" and {} of {} {}", share_with_interval(estimate(which, *met)), years_or_runs(file), asks_more(file) ? "keep the limits taken together" : "meet the target");
    return out;
  };
  return fmt::format(
      "How sure: with every number of sprouting that nobody has measured at its middle value, {}. If those numbers may be off as far as "
      "the literature leaves open (docs/models/ignorance.md), {}; of the differences between replications in the fodder served {:.0f} % "
      "({:.0f} to {:.0f} %) then come from not knowing, the rest from luck. A log of your own trays narrows the first part; until then keep "
      "some places to spare.",
      words("luck"), words("both"), 100.0 * at("doubt/share", *fill), 100.0 * at("doubt/share_low", *fill),
      100.0 * at("doubt/share_high", *fill));
}

std::string doubt_text(const results::ResultFile& file) {
  const std::string words = doubt_words(file);
  return words.empty() ? words : wrapped(words);
}

}  // namespace rackwright::report
