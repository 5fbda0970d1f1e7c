#include "sim/scenario/cautions_pump.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "models/water/demand.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright {
namespace {

using Lines = std::vector<std::string>;

std::string amount(const Scenario& s, double value, std::string_view unit, int digits = 2) { return write_quantity(value, unit, s.units == Units::us, digits); }

/// No pump gives the water more power than it takes. At 1 W, the least that may be stated, there is none: the mains, or a tank above the rack.
void power(const Scenario& s, Lines& out) {
  constexpr double no_pump = 1.0, weight = 9806.65 / 3.6e6;  // W; W per (L/h) m
  const water::Pump& pump = s.water.pump;
  // H Q is greatest where H is two thirds of the shut-off head.
  const double given = weight * pump.shutoff.value() * pump.full_flow.value() * 2.0 / (3.0 * std::sqrt(3.0));
  if (pump.power.value() <= no_pump || given <= pump.power.value()) return;
  out.push_back(fmt::format("No pump is like that: by water.pump_shutoff ({}) and water.pump_full_flow ({}) it would give the water up to {} and take only {} (water.pump_power). Read its plate again; most small "
                            "pumps take several times what they give.",
                            amount(s, pump.shutoff.value(), "m", 3), amount(s, pump.full_flow.value(), "L/h", 3), amount(s, given, "W"), amount(s, pump.power.value(), "W", 3)));
}

/// Emitters whose flow is to follow no head, where there is too little for that.
void regulating(const Scenario& s, const Watering& water, Lines& out) {
  constexpr double regulates = 0.3, far_below = 0.5;  // exponents up to this are not plain holes'; of emitter_head (our choice, no source)
  const water::Emitter& emitter = s.water.emitter;
  if (emitter.exponent > regulates) return;
  std::optional<std::size_t> worst;
  double least = far_below * emitter.reference_head.value();
  for (std::size_t i = 0; i < water.network.nodes.size(); ++i) {
    const water::Node& node = water.network.nodes[i];
    const double head = water.solution.head[i].value() - node.height.value();  // nothing where no pressure reaches
    if (node.kind != water::NodeKind::tier || head <= 0.0 || head >= least) continue;
    least = head;
    worst = i;
  }
  if (!worst) return;
  out.push_back(fmt::format("Emitters that regulate themselves (water.emitter_exponent is {:.2g}) do so from about water.emitter_head on ({}), and at {} there are {}: here they are reckoned with {:.0f} % of their flow, "
                            "and plain holes of their size would pass {:.0f} %. Take a pump that lifts higher (water.pump_shutoff), or plain emitters made for little head (water.emitter_exponent of 0.5).",
                            emitter.exponent, amount(s, emitter.reference_head.value(), "m"), water.network.nodes[*worst].name, amount(s, least, "m"),
                            100.0 * std::pow(least / emitter.reference_head.value(), emitter.exponent), 100.0 * std::sqrt(least / emitter.reference_head.value())));
}

void timer(const Scenario& s, Lines& out) {
  const water::Schedule& schedule = s.water.schedule;
  const double between = 24.0 / schedule.cycles_per_day, pause = between - schedule.on_time.value();
  if (pause <= 0.0) {
    out.push_back(fmt::format("Water would run all day: {:.3g} waterings a day (water.cycles_per_day) of {:.3g} min (water.on_time) leave no pause. Mats that never drain drown and sour; the simulator knows nothing of that.",
                              schedule.cycles_per_day, 60.0 * schedule.on_time.value()));
    return;
  }
  constexpr Celsius usual(18.0);
  constexpr double told = 0.02;  // of the sprouts: fewer waterings than two a day
  const water::DryDamage damage = water::dry_damage(Hours(pause), usual);
  if (damage.sprouts_killed < told) return;
  out.push_back(fmt::format("Between waterings the mats get nothing for {:.3g} h (water.cycles_per_day is {:.3g}). The simulator takes the usual pause as harmless, but a dry spell of that length would by its law cost {:.2g} d of growth and {:.0f} % "
                            "of the sprouts at {}, each time. Water twice a day or more often.",
                            pause, schedule.cycles_per_day, damage.growth_lost_days, 100.0 * damage.sprouts_killed, amount(s, usual.value(), "degC")));
}

/// Water that hangs over heads, and exhaust (common practice, no source).
void standby(const Scenario& s, const Watering& watering, Lines& out) {
  const Hours lasts = s.water.header_tank;
  if (lasts > Hours(0.0)) {
    const water::Schedule& schedule = s.water.schedule;
    // What returns is not poured twice from above: then it is what the mats drink.
    double a_day = 0.0;
    if (schedule.recirculating)
      for (const TierWater& tier : watering.tiers) a_day += tier.need;
    else a_day = watering.solution.pump_flow.value() * water::pump_time(schedule).value();
    out.push_back(fmt::format("A tank above the rack that waters it for {:.3g} h holds some {} of water: have its support and the floor judged by someone who builds, give it a lid, a drain and an overflow that wets no wiring, and empty and clean "
                              "it while its water is above {} (Legionella).",
                              lasts.value(), amount(s, a_day * lasts.value() / 24.0, "kg"), amount(s, 20.0, "degC")));
  }
  if (s.water.battery > Hours(0.0))
    out.push_back("A generator runs outdoors only, away from doors and windows: its exhaust kills (carbon monoxide). What feeds the pump in a power cut is connected by a licensed electrician, so that it never feeds back into the mains; batteries are charged where air moves.");
}

}  // namespace

void pump_cautions(const Scenario& scenario, const Watering& watering, std::vector<std::string>& out) {
  power(scenario, out);
  regulating(scenario, watering, out);
  timer(scenario, out);
  standby(scenario, watering, out);
}

}  // namespace rackwright
