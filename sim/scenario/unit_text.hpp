#pragma once
// Words keepers write for units, turned into what UDUNITS understands, and what to call each of our native units.

#include <optional>
#include <string>
#include <string_view>

namespace rackwright {

/// Rewrites a unit as people write it ("gal/h", "lbs per sq ft", "/25 kg", "kWh") into UDUNITS' own spelling. US
/// customary volumes are spelled out from their exact definitions in cubic inches.
std::string unit_for_udunits(std::string_view written);

/// "180 / ton", "2 tons": a ton of 907, 1000 or 1016 kg, by where one lives. Not so short_ton, long_ton, t and tonne.
bool bare_ton(std::string_view written);
/// What to write instead.
inline constexpr std::string_view which_ton =
    "does not say which ton: write t for 1000 kg, short_ton for 2000 lb (the ton of the US) or long_ton for 2240 lb (the old British one)";

/// How a native unit is talked about.
struct UnitWords {
  std::string_view native;    ///< as in models/base/quantity.hpp or the key table
  std::string_view kind;      ///< "a mass"
  std::string_view example;   ///< "25 kg or 55 lb"
  std::string_view us;        ///< the unit shown when the scenario says units = "us"
};

/// Words for a native unit; nothing where it has none.
std::optional<UnitWords> unit_words(std::string_view native);

}  // namespace rackwright
