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

MatPair MatTable::at(double growth_days, double loss_factor, double swell_factor) const {
  constexpr double most_lost = 0.95;
  const auto [index, share] = place(growth_days);
  const MatRow& a = rows_[index];
  const MatRow& b = rows_[index + 1];
  const auto mix = [part = share](double low, double high) { return low + part * (high - low); };
  MatPair mats;
  mats.loss = std::min(most_lost, loss_factor * mix(a.loss, b.loss));
  const double solids = grain_dry_matter_ * (1.0 - mats.loss);
  const double brought = 1.0 - grain_dry_matter_;
  mats.fresh = solids * (soaked_ratio_ + swell_factor * mix(a.swell, b.swell));
  mats.soaked_fresh = grain_dry_matter_ * soaked_ratio_;
  mats.taken_up = mats.fresh - solids - brought - made_ * mats.loss;
  mats.soaked_taken_up = mats.soaked_fresh - grain_dry_matter_ - brought;
  mats.height_cm = mix(a.height_cm, b.height_cm);
  return mats;
}

}  // namespace rackwright
