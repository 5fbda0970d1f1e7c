#include "sim/replication/mat_table.hpp"

#include <cmath>

namespace rackwright {

MatTable::MatTable(const growth::Parameters& parameters, KilogramsPerSquareMetre density, double grain_dry_matter) {
  const auto count = static_cast<std::size_t>(std::lround(last / step)) + 2;
  for (std::size_t i = 0; i < count; ++i) {
    const double age = step * static_cast<double>(i);
    const growth::Mat grown = growth::mat(parameters, age, 1.0, density, grain_dry_matter);
    const growth::Mat soaked = growth::mat(parameters, age, 0.0, density, grain_dry_matter);
    const double growing = growth::growing_share(parameters, 1.0, density);
    rows_.push_back({grown.fresh_ratio, grown.dry_matter_loss, grown.height_cm, grown.water_litres, soaked.water_litres,
                     growth::heat_watts(parameters, age, growing, 1.0, grain_dry_matter)});
    soaked_fresh_ = soaked.fresh_ratio;
  }
}

MatRow MatTable::at(double growth_days) const {
  const auto [index, share] = place(growth_days);
  const MatRow& a = rows_[index];
  const MatRow& b = rows_[index + 1];
  const auto mix = [part = share](double low, double high) { return low + part * (high - low); };
  return {mix(a.fresh, b.fresh), mix(a.loss, b.loss), mix(a.height_cm, b.height_cm), mix(a.water, b.water),
          mix(a.soaked_water, b.soaked_water), mix(a.heat, b.heat)};
}

}  // namespace rackwright
