// What a soak does beyond wetting: progress made in the water, hours lost to dryness or want of air, a dip's kill.
// The forms are assumed. They rest on the solubility of oxygen, a respiration that doubles in 10 K, and on what trials
// and maltings agree about: a short soak works, a day in warm water does harm.

#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"
#include "models/soak/uptake.hpp"

namespace rackwright::soak {
namespace {

constexpr double usual_store_moisture = 0.12;  // wet basis, the dry end of "how dry is it still"
constexpr double air_hours_at_20 = 12.0;       // [h] still water at 20 degC carries the grain this long (assumed)
constexpr double dry_sowing_delay = 18.0;      // [h at 20 degC] lost by sowing dry grain on a draining tray (assumed)
constexpr double shock_delay = 24.0;  // [h at 20 degC] lost at full stress (Davidson & Jangaard 1978: 24 h or more)
constexpr double stress_scale = 1.5;  // excess over the air hours that gives 63 % stress (assumed)
constexpr double stress_kill = 0.3;   // share of germination lost at full stress (assumed)

// Oxygen in fresh water under air, mg/L; standard tables 10 to 30 degC (11.3, 10.1, 9.1, 8.3, 7.6), within 0.1 of them.
double oxygen_solubility(double t) { return 468.0 / (31.6 + std::clamp(t, 0.0, 45.0)); }

// Breathing of wet grain relative to 20 degC, Q10 = 2 (malting texts give 2 to 2.5).
double respiration(double t) { return std::exp2((t - 20.0) / 10.0); }

}  // namespace

Effect effect(const Parameters& parameters, Celsius water, double start_moisture, Hours time) {
  EXPECTS(time.value() >= 0.0);
  const double t = water.value();
  const double hours = time.value();
  const double breathing = respiration(t);
  const double air_hours = air_hours_at_20 * oxygen_solubility(t) / oxygen_solubility(20.0) / breathing;

  Effect result;
  result.moisture = moisture_after(parameters, water, start_moisture, time);
  // Progress as on wet paper while the water still holds air, then less and less.
  result.head_start = breathing * air_hours * (1.0 - std::exp(-hours / air_hours));
  const double excess = std::max(0.0, hours / air_hours - 1.0);
  result.stress = excess > 0.0 ? 1.0 - std::exp(-excess / stress_scale) : 0.0;
  const double span = parameters.full_moisture - usual_store_moisture;
  const double dryness = std::clamp((parameters.full_moisture - result.moisture) / span, 0.0, 1.0);
  // Squared: the last few percent are taken from the first waterings without loss of time.
  result.delay = dry_sowing_delay * dryness * dryness + shock_delay * result.stress;
  result.survival = 1.0 - stress_kill * result.stress * result.stress;
  return result;
}

Celsius bucket_temperature(Celsius water, Celsius room, Hours time) {
  constexpr double bucket_hours = 6.0;  // time constant (assumed)
  if (time.value() <= 0.0) return water;
  const double x = time.value() / bucket_hours;
  const double mean = room.value() + (water - room).value() * (1.0 - std::exp(-x)) / x;
  return Celsius(std::clamp(mean, 0.0, 100.0));  // while it is water
}

DipEffect dip_effect(const Dip& dip) {
  EXPECTS(dip.strength_percent >= 0.0 && dip.time.value() >= 0.0);
  // Dose as strength times minutes (Chick & Watson). 0.6 % for a quarter of an hour is taken as three tenfold steps on
  // what the liquid reaches; hulls and internal fungi shelter a tenth (Ramakrishna et al. 1991: internal Alternaria
  // lived).
  constexpr double sheltered = 0.1;               // (assumed)
  constexpr double tenfold_per_dose = 1.0 / 3.0;  // [1/(% min)] (assumed within the published range)
  constexpr double harmful_dose = 300.0;  // [% min] e-fold of germination (assumed; 9 does no harm: Foods 2023 12:747)
  const double dose = dip.strength_percent * dip.time.value() * 60.0;
  DipEffect result;
  result.surface_left = std::pow(10.0, -tenfold_per_dose * dose);
  result.inoculum_left = sheltered + (1.0 - sheltered) * result.surface_left;
  result.germination_kept = std::exp(-(dose / harmful_dose) * (dose / harmful_dose));
  return result;
}

}  // namespace rackwright::soak
