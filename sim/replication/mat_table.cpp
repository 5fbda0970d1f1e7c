#include "sim/replication/mat_table.hpp"

#include <cmath>

namespace rackwright {

MatTable::MatTable(const growth::Parameters& parameters, KilogramsPerSquareMetre density, double grain_dry_matter)
    : uncrowded_(growth::growing_share(parameters, 1.0, density)),
      grain_dry_matter_(grain_dry_matter),
      soaked_ratio_(1.0 / parameters.mat_dry_matter_start),
      made_(growth::respiration_water * parameters.respired_share * grain_dry_matter) {
  const auto count = static_cast<std::size_t>(std::lround(last / step)) + 2;
  const double full_stand = growth::stand(uncrowded_);
  for (std::size_t i = 0; i < count; ++i) {
    const double age = step * static_cast<double>(i);
    const growth::Mat grown = growth::mat(parameters, age, 1.0, density, grain_dry_matter);
    rows_.push_back({grown.dry_matter_loss, 1.0 / grown.dry_matter - soaked_ratio_, grown.height_cm / full_stand,
                     growth::heat_watts(parameters, age, 1.0, 1.0, grain_dry_matter)});
  }
}

}  // namespace rackwright
