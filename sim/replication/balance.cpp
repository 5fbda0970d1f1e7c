#include "sim/replication/balance.hpp"

#include <cmath>

#include "models/base/expects.hpp"

namespace rackwright {

Outcome::Residuals Balance::residuals(int trays_left, double grain_left, double money_total) const {
  Outcome::Residuals left;
  left.dry_matter = dry_matter_sown - dry_matter_fed - dry_matter_thrown - dry_matter_respired - dry_matter_leached - dry_matter_left;
  left.water = water_with_grain + water_supplied + water_made - water_fed - water_thrown - water_evaporated - water_left;
  left.trays = static_cast<double>(trays_sown - trays_fed - trays_thrown - trays_left);
  left.grain = grain_start + grain_bought - grain_sown - grain_spilt - grain_aged_out - grain_refused - grain_tried - grain_left;
  left.money = money_booked - money_total;
  left.heat = heat_unexplained;
  return left;
}

void require_closed(const Outcome::Residuals& residuals, const Balance& b) {
  constexpr double rounding = 1e-9;
  ENSURES(std::abs(residuals.dry_matter) <= rounding * (1.0 + b.dry_matter_sown));
  ENSURES(std::abs(residuals.water) <= rounding * (1.0 + b.water_with_grain + std::abs(b.water_supplied)));
  ENSURES(residuals.trays == 0.0);
  ENSURES(std::abs(residuals.grain) <= rounding * (1.0 + b.grain_start + b.grain_bought));
  ENSURES(std::abs(residuals.money) <= rounding * (1.0 + std::abs(b.money_booked)));
  ENSURES(std::abs(residuals.heat) <= rounding * (1.0 + b.heat_moved));
}

}  // namespace rackwright
