#include "sim/scenario/fits.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "models/design/rack.hpp"
#include "sim/scenario/sowing_order.hpp"
#include "sim/scenario/units.hpp"
#include "sim/scenario/watering.hpp"

namespace rackwright {

namespace {

growth::Mat mat_at(const Scenario& s, const GrainSupply& grain, double growth_days) {
  return growth::mat(growth_of(s, grain.species), growth_days, 1.0, s.line.sowing_density, 1.0 - grain.moisture);
}

/// After its days on the rack at 20 degC, or ripe where that comes before.
growth::Mat mat_due(const Scenario& s, const GrainSupply& grain) {
  const growth::Parameters growth = growth_of(s, grain.species);
  return mat_at(s, grain, std::min(growth.ripe, growth_at_20(growth, s.line.days_on_rack)));
}

}  // namespace

growth::Mat ripe_mat(const Scenario& s, const GrainSupply& grain) { return mat_at(s, grain, growth_of(s, grain.species).ripe); }

std::vector<std::string> what_does_not_fit(const Scenario& s) {
  const bool us = s.units == Units::us;
  const auto metres = [us](double length) { return write_quantity(length, "m", us, 3); };
  const auto square = [us](double area) { return write_quantity(area, "m2", us, 3); };
  std::vector<std::string> out;
  const double floor = s.room.floor_area.value(), stands_on = design::footprint(s.rack).value();
  if (stands_on > floor) out.push_back(fmt::format("The rack would stand on {}, but the room's floor is {}: it does not fit", square(stands_on), square(floor)));
  const Metres high = design::total_height(s.rack);
  if (high > s.room.height)
    out.push_back(fmt::format("The rack would be {} high, but the room is {} high: it does not fit", metres(high.value()), metres(s.room.height.value())));
  constexpr double tray_m = 0.05;  // depth of a tray and its support (common practice, no source)
  double mat_m = 0.0;
  const std::vector<std::string> sown = sowing_order(s);
  for (const GrainSupply& grain : s.grains)
    if (std::find(sown.begin(), sown.end(), grain.name) != sown.end()) mat_m = std::max(mat_m, mat_due(s, grain).height_cm / 100.0);
  if (s.rack.tier_spacing.value() < mat_m + tray_m)
    out.push_back(fmt::format("Tiers {} apart leave no room for a mat that is due: it grows about {} high, and tray and support take about {}",
                              metres(s.rack.tier_spacing.value()), metres(mat_m), metres(tray_m)));
  return out;
}

}  // namespace rackwright
