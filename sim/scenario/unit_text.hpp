#pragma once
// Words keepers write for units, turned into what UDUNITS understands, and what to call each of our native units.

#include <optional>
#include <string>
#include <string_view>

namespace rackwright {

/// Rewrites a unit as people write it ("gal/h", "lbs per sq ft", "/25 kg", "kWh") into UDUNITS' own spelling. US
/// customary volumes are spelled out from their exact definitions in cubic inches.
std::string unit_for_udunits(std::string_view written);

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
