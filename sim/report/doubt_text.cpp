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

std::string doubt_text(const results::ResultFile& file) {
  const auto fill = place_of(file, "fill_rate"), met = place_of(file, "success");
  if (!fill || !met) return "";
  const auto at = [&](const char* path, std::size_t i) { return file.at(path).numbers.at(i); };
  const auto luck = [&](std::size_t i) {
    study::Estimate e;
    e.mean = at("doubt/luck_mean", i);
    e.low = at("doubt/luck_low", i);
    e.high = at("doubt/luck_high", i);
    return e;
  };
  std::string out = fmt::format(
      "How sure: of the differences between replications in the fodder served, {:.0f} % ({:.0f} to {:.0f} %) come from what nobody has "
      "measured of sprouting, the rest from luck. With luck alone, every such parameter at its central value, the animals would get {} "
      "of their fodder",
      100.0 * at("doubt/share", *fill), 100.0 * at("doubt/share_low", *fill), 100.0 * at("doubt/share_high", *fill),
      share_with_interval(luck(*fill)));
  if (!target_words(file).empty()) out += fmt::format(", and {} of years would meet the target", share_with_interval(luck(*met)));
  return wrapped(out + ". A log of your own trays narrows the first part.");
}

}  // namespace rackwright::report
