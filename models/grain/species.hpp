#pragma once
// Physical data of a grain: what weighs what before any water.

#include <optional>
#include <string_view>
#include <vector>

#include "models/base/origin.hpp"
#include "models/base/quantity.hpp"

namespace rackwright::grain {

/// One species of grain. Moisture is wet basis; dry matter of store-dry grain is 1 - moisture.
struct Species {
  std::string_view name;
  KilogramsPerCubicMetre bulk_density{};  ///< loose, store-dry
  double thousand_kernel_grams = 0.0;     ///< mass of 1,000 kernels [g]; varies by a third between lots
  double store_moisture = 0.11;           ///< usual moisture in store, wet basis [1]
  double crude_protein = 0.12;            ///< of dry matter [1]; a round figure
  Origin origin = Origin::measured;
};

/// All species with presets, in order of use.
const std::vector<Species>& all_species();

/// The preset of that name, or nothing.
std::optional<Species> find_species(std::string_view name);

/// Mass of a volume of loose, store-dry grain.
Kilograms mass_of_volume(const Species& species, CubicMetres volume);

}  // namespace rackwright::grain
