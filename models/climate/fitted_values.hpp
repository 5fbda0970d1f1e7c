#pragma once
// What a fit of a record finds, one value after another, under the names of their keys.

#include <span>
#include <string_view>

#include "models/climate/climate.hpp"

namespace rackwright::climate {

/// One value that fit_record sets, in its native unit.
struct FittedValue {
  std::string_view key;
  double parts;   ///< of a unit, to which a record can tell it: 100 for a hundredth
  double period;  ///< after which it comes round again (days of a year or of half a year), or 0
  double (*get)(const Parameters&);
  void (*set)(Parameters&, double);
  bool told = true;  ///< do its intervals hold? Those of the share that lasts and of the tails' mean do in 53 to 90 of 100 records of twenty years
};

/// All of them, in the order of the keys; those of the dew point, which few records have, apart.
std::span<const FittedValue> fitted_values();
std::span<const FittedValue> fitted_dew_values();

}  // namespace rackwright::climate
