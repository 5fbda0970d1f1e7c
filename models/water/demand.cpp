#include "models/water/demand.hpp"

#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"

namespace rackwright::water {

Hours pump_time(const Schedule& schedule) { return std::min(Hours(24.0), schedule.on_time * schedule.cycles_per_day); }

Daily daily_use(const Schedule& schedule, LitresPerHour pump_flow, Watts pump_power, double taken_up, double evaporated,
                double tank, double idle) {
  EXPECTS(idle >= 0.0 && idle <= 1.0);
  EXPECTS(schedule.cycles_per_day >= 0.0 && schedule.on_time.value() >= 0.0 && schedule.renewals_per_week >= 0.0);
  EXPECTS(pump_flow.value() >= 0.0 && taken_up >= 0.0 && evaporated >= 0.0 && tank >= 0.0);
  Daily daily;
  daily.pump_time = pump_time(schedule) * (1.0 - idle);
  daily.through_litres = pump_flow.value() * daily.pump_time.value();
  daily.energy = KilowattHours(pump_power.value() * daily.pump_time.value() / 1000.0);
  const double used = std::min(daily.through_litres, taken_up + evaporated);
  daily.fresh_litres = schedule.recirculating ? used + tank * schedule.renewals_per_week / 7.0 : daily.through_litres;
  return daily;
}

Hours tank_lasts(const Schedule& schedule, LitresPerHour pump_flow, double tank, double kept) {
  EXPECTS(tank >= 0.0 && kept >= 0.0);
  const Daily daily = daily_use(schedule, pump_flow, Watts(0.0), 0.0, 0.0, 0.0);
  const double drawn = schedule.recirculating ? std::min(daily.through_litres, kept) : daily.through_litres;
  return Hours(drawn > 0.0 ? 24.0 * tank / drawn : HUGE_VAL);
}

double dry_weight(Celsius temperature, const DryLaw& law) {
  return std::exp2((std::clamp(temperature.value(), 0.0, 45.0) - 18.0) / law.doubling.value());
}

DryDamage dry_damage(Hours dry, Celsius temperature, const DryLaw& law) {
  return dry_damage(dry, dry * dry_weight(temperature, law), law);
}

DryDamage dry_damage(Hours dry, Hours counted, const DryLaw& law) {
  EXPECTS(dry.value() >= 0.0 && counted.value() >= 0.0);
  const double stalled = counted / law.stall;
  DryDamage damage;
  damage.growth_lost_days = in_days(dry) * -std::expm1(-stalled * stalled);
  damage.sprouts_killed = -std::expm1(-std::pow(counted / law.death, law.sharpness));
  return damage;
}

}  // namespace rackwright::water
