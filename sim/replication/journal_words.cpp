#include "sim/replication/journal_words.hpp"

#include <fmt/format.h>

namespace rackwright {

std::string mass_words(Units units, double kilograms, int decimals) {
  constexpr double pounds_per_kilogram = 1.0 / 0.45359237;
  return units == Units::us ? fmt::format("{:.{}f} lb", kilograms * pounds_per_kilogram, decimals)
                            : fmt::format("{:.{}f} kg", kilograms, decimals);
}

std::string temperature_words(Units units, double celsius) {
  return units == Units::us ? fmt::format("{:.0f} degF", 32.0 + 1.8 * celsius) : fmt::format("{:.0f} degC", celsius);
}

}  // namespace rackwright
