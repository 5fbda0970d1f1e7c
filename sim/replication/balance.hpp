#pragma once
// Books of what must come out even, kept over the whole run, the run-in included.

#include "sim/replication/outcome.hpp"

namespace rackwright {

/// Running totals [kg, L, trays, currency, kWh]; each pair of in and out must meet at the end.
struct Balance {
  double dry_matter_sown = 0.0, dry_matter_fed = 0.0, dry_matter_thrown = 0.0, dry_matter_respired = 0.0,
         dry_matter_leached = 0.0, dry_matter_left = 0.0;
  double water_with_grain = 0.0, water_supplied = 0.0, water_made = 0.0, water_fed = 0.0, water_thrown = 0.0,
         water_evaporated = 0.0, water_left = 0.0;
  long trays_sown = 0, trays_fed = 0, trays_thrown = 0;
  double grain_start = 0.0, grain_bought = 0.0, grain_sown = 0.0, grain_spilt = 0.0, grain_aged_out = 0.0,
         grain_refused = 0.0, grain_tried = 0.0;
  double money_booked = 0.0;   ///< entry by entry, as it is spent
  double heat_moved = 0.0, heat_unexplained = 0.0;  ///< of the room, see RoomMarch::Heat [kWh]

  [[nodiscard]] Outcome::Residuals residuals(int trays_left, double grain_left, double money_total) const;
};

/// Throws std::logic_error when a residual is more than rounding.
void require_closed(const Outcome::Residuals& residuals, const Balance& balance);

}  // namespace rackwright
