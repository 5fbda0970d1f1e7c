#include "sim/scenario/cautions_water.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "models/water/way.hpp"
#include "sim/scenario/cautions_pump.hpp"
#include "sim/scenario/kits.hpp"
#include "sim/scenario/network.hpp"
#include "sim/scenario/raw_text.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/units.hpp"
#include "sim/scenario/watering_pipes.hpp"

namespace rackwright {
namespace {

using Lines = std::vector<std::string>;

std::string amount(const Scenario& s, double value, std::string_view unit, int digits = 3) { return write_quantity(value, unit, s.units == Units::us, digits); }

/// A pipe's width as pipes are sold.
std::string bore(const Scenario& s, Metres width) {
  return s.units == Units::us ? fmt::format("{:.2g} in", convert(width.value(), "m", "in")) : fmt::format("{:.3g} mm", 1000.0 * width.value());
}

std::string minutes(Hours time) { return write_quantity(60.0 * time.value(), "1", false, 2) + " min"; }

/// So many in two figures, rounded up: less would not do.
double rounded_up(double amount) {
  const double step = std::pow(10.0, std::floor(std::log10(amount)) - 1.0);
  return step * std::ceil(amount / step - 1e-9);
}

/// In two figures, rounded up, as minutes() tells it; what is infinite or nothing stays.
Hours rounded_up(Hours time) { return std::isfinite(time.value()) && time.value() > 0.0 ? Hours(rounded_up(60.0 * time.value()) / 60.0) : time; }

/// Minutes below two hours, else hours.
std::string time_words(Hours time) { return time.value() < 2.0 ? minutes(time) : fmt::format("{:.0f} h", time.value()); }

/// May that be stated?
bool may_be(const Scenario& s, std::string_view key, const std::string& value) {
  Scenario tried = s;
  return !set_key(tried, key, value);
}

/// "from riser mid to t4", and the key that says how wide such pipes are where a key does.
std::string pipe_words(const Scenario& s, const water::Network& network, int index) {
  const water::Pipe& pipe = network.pipes[static_cast<std::size_t>(index)];
  const water::Node &from = network.nodes[static_cast<std::size_t>(pipe.from)], &to = network.nodes[static_cast<std::size_t>(pipe.to)];
  const char* key = !s.water.nodes.empty() ? "" : to.kind == water::NodeKind::tier ? " (water.branch_diameter)" : " (water.riser_diameter)";
  return fmt::format("from {} to {}{}", from.name, to.name, key);
}

/// Which pipe costs the driest tier most, and what wider ones would do; empty where pipes are not what it lacks.
std::string pipe_advice(const Scenario& s, const Watering& water, const Widening& widening) {
  constexpr double much = 0.25;  // of what the pump lifts
  const std::size_t tier = driest_tier(water).tier;
  const int pipe = water::costliest_pipe(water.network, water.solution, tier);
  if (pipe < 0) return "";
  const Metres lost = water::head_lost(water.network, water.solution, pipe);
  if (widening.pipes.empty() && lost < much * water.solution.pump_head) return "";
  std::string text = fmt::format(" On the way to tier {} most is lost in the pipe {}, {} wide: {} of the {} that the pump lifts.", tier + 1, pipe_words(s, water.network, pipe),
                                 bore(s, water.network.pipes[static_cast<std::size_t>(pipe)].diameter), amount(s, lost.value(), "m", 2),
                                 amount(s, water.solution.pump_head.value(), "m", 2));
  std::string wider;
  for (const Wider& one : widening.pipes) {
    const std::string where = one.pipe == pipe ? "there" : pipe_words(s, water.network, one.pipe);
    wider += fmt::format("{}{} {}", wider.empty() ? "" : " and ", bore(s, one.to), where);
  }
  if (wider.empty()) return text;
  return text + (widening.share >= watered_enough ? fmt::format(" With {} every tier would get all that its mats drink.", wider)
                                                  : fmt::format(" With {} every tier would get {:.0f} % or more.", wider, 100.0 * widening.share));
}

/// A pump that hardly reaches the driest tier: more head comes before more minutes.
std::string lift_advice(const Scenario& s, const Watering& water, const Lift& lift) {
  return fmt::format(" The pump hardly lifts to tier {}: of the {} that it can, {} are left there while it runs. With a pump that lifts {} (water.pump_shutoff) every tier would get {}.",
                     driest_tier(water).tier + 1, amount(s, s.water.pump.shutoff.value(), "m"), s.units == Units::us ? fmt::format("{:.2g} in", convert(lift.left.value(), "m", "in")) : fmt::format("{:.2g} cm", 100.0 * lift.left.value()),
                     amount(s, lift.shutoff.value(), "m"), lift.share >= watered_enough ? "all that its mats drink" : fmt::format("{:.0f} % or more", 100.0 * lift.share));
}

void enough_water(const Scenario& s, const Watering& water, Lines& out) {
  std::string dry;
  for (std::size_t tier = 0; tier < water.tiers.size(); ++tier) {
    const double share = water.tiers[tier].share();
    if (share < watered_enough) dry += fmt::format("{}{} ({:.0f} %)", dry.empty() ? "" : ", ", tier + 1, 100.0 * share);
  }
  if (dry.empty()) return;
  const Widening widening = widening_of(s, water);
  const bool piped = widening.share >= watered_enough;
  const Lift lift = piped ? Lift{} : higher_lift(s, water);
  const bool enough = piped || (lift.helps() && lift.share >= watered_enough), partly = !enough && (lift.helps() || !widening.pipes.empty());
  const Hours a_day = water::pump_time(s.water.schedule);
  const Hours needed = !partly ? pump_time_for(water, 1.0) : lift.helps() ? lift.pump_time : widening.pump_time;
  const double longer = needed / a_day;
  std::string text = fmt::format("Too little water: at their thirstiest the mats of tier {} get only part of what they drink, and grow so much the slower while they are.", dry);
  text += lift.helps() ? lift_advice(s, water, lift) : pipe_advice(s, water, widening);
  if (constexpr double worth_it = 1.05; longer < worth_it) {
    out.push_back(text + " So little is lacking that more pumping would gain next to nothing.");
    return;
  }
  const char* before = enough ? " Instead you may " : partly ? " Besides, " : "";
  const auto begins = [&](const char* plain, const char* capital) { return *before == 0 ? std::string(" ") + capital : before + std::string(plain); };
  const std::string on_time = minutes(rounded_up(needed * (1.0 / s.water.schedule.cycles_per_day)));
  const std::string cycles = write_quantity(std::ceil(s.water.schedule.cycles_per_day * longer), "1", false, 3);
  if (needed > Hours(24.0)) {
    text += begins("let", "Let") + " more water come at once, with larger or more emitters, or a stronger pump: at what comes now not even a pump that never stops would give them enough.";
  } else if (may_be(s, "water.on_time", on_time)) {
    text += begins("let", "Let") + fmt::format(" the pump run {:.1f} times as long, or water more often; where little is lacking that may gain nothing: see `rackwright simulate FARM.toml --against \"water.on_time={}\" --out against.h5`.", longer, on_time);
  } else if (may_be(s, "water.cycles_per_day", cycles)) {
    text += begins("water", "Water") + fmt::format(" {:.1f} times as often: see `rackwright simulate FARM.toml --against \"water.cycles_per_day={}\" --out against.h5`.", longer, cycles);
  } else {
    text += begins("let", "Let") + " the pump run longer and water more often.";
  }
  if (runs_empty(s, water)) text += " That takes more water than the tank gives, which runs empty as it is.";
  out.push_back(text);
}

void tank(const Scenario& s, const Watering& water, Lines& out) {
  if (!runs_empty(s, water)) return;
  const Hours gap = fill_gap(s, s.water.top_up_every);
  const std::string rounds = gap == s.water.top_up_every ? "" : fmt::format(" at a round, up to {:.0f} h after the last time", gap.value());
  std::string text = fmt::format("The tank of {} lasts {} and is filled every {:.0f} h{}: it runs empty, and the mats go dry.", amount(s, s.water.tank_litres, "L"),
                                 time_words(water.tank_lasts), s.water.top_up_every.value(), rounds);
  Hours lasts = water.tank_lasts;
  const Hours ample = rounded_up(ample_on_time(s, water));
  if (constexpr double clearly = 0.9; !s.water.schedule.recirculating && ample < clearly * s.water.schedule.on_time && may_be(s, "water.on_time", minutes(ample))) {
    Scenario thrifty = s;
    thrifty.water.schedule.on_time = ample;
    lasts = watering_of(thrifty).tank_lasts;
    text += fmt::format(" Let less run: water.on_time = \"{}\" would still give every tier half as much again as its mats drink at their thirstiest, and the tank would last {}.",
                        minutes(ample), time_words(lasts));
  }
  if (lasts < gap) {
    const double needed = rounded_up(s.water.tank_litres * (gap / lasts));
    const std::optional<Hours> every = filled_in_time(s, lasts);
    text += fmt::format(" {} a tank of {} or more (water.tank){} fit a float valve (water.top_up).", lasts > water.tank_lasts ? "Besides, take" : "Take", amount(s, needed, "L"),
                        every ? fmt::format(", fill it every {:.0f} h (water.top_up_every), or", every->value()) : ", or");
  }
  out.push_back(text);
}

/// Most of what is poured may run past the mats.
void spare_water(const Scenario& s, const Watering& water, Lines& out) {
  if (s.water.schedule.recirculating) return;
  const double poured = water.solution.pump_flow.value() * water::pump_time(s.water.schedule).value();
  double drunk = 0.0, least = 1e9;
  for (std::size_t tier = 0; tier < water.tiers.size(); ++tier) {
    drunk += water.tiers[tier].need;
    if (water.tiers[tier].need > 0.0) least = std::min(least, water.tiers[tier].supplied / water.tiers[tier].need);
  }
  constexpr double lavish = 2.0;  // on the driest tier, at its thirstiest
  if (drunk <= 0.0 || least < lavish || poured < 4.0 * drunk) return;
  const std::string ample = minutes(rounded_up(ample_on_time(s, water)));
  out.push_back(fmt::format("Much of the water runs past the mats: {} are poured a day, and at their thirstiest they drink {}. ", amount(s, poured, "L"), amount(s, drunk, "L", 2)) +
                (may_be(s, "water.on_time", ample) ? fmt::format("A pump time of {} a watering would still give every tier 150 % of that.", ample) : "Fewer waterings a day would do (water.cycles_per_day)."));
}

/// Joints that water passes although it stands lower there.
void suction(const Scenario& s, const Watering& water, Lines& out) {
  for (std::size_t i = 0; i < water.network.nodes.size(); ++i) {
    const water::Node& node = water.network.nodes[i];
    const double above = node.height.value() - water.solution.head[i].value();
    if (node.kind != water::NodeKind::junction || above <= 0.0) continue;
    double most = 0.0;
    for (std::size_t p = 0; p < water.network.pipes.size(); ++p)
      if (const water::Pipe& pipe = water.network.pipes[p]; pipe.from == static_cast<int>(i) || pipe.to == static_cast<int>(i))
        most = std::max(most, std::abs(water.solution.pipe_flow[p].value()));
    if (most <= 1e-6 * water.solution.pump_flow.value()) continue;  // nothing goes over it
    out.push_back(fmt::format("{} lies {} above where water stands there while the tiers run: the water goes over it by suction alone, and stops where a joint lets in air. Lay it "
                              "lower, or see that all joints about it are tight.",
                              node.name, amount(s, above, "m", 2)));
  }
}

/// What is stated of the usual network beside one of the keeper's own.
void no_say(const Scenario& s, Lines& out) {
  if (s.water.nodes.empty()) return;
  Scenario plain;
  plain.units = s.units;
  std::vector<std::string> stated;
  for (const std::string_view key : usual_network_keys) {
    if (get_key(s, key) != get_key(plain, key)) stated.emplace_back(key);
    for (const Kit& kit : s.kits) {
      const std::vector<std::string> sets = kit_keys_of(s, kit.part, kit.name);
      if (std::find(sets.begin(), sets.end(), key) != sets.end()) stated.push_back(fmt::format("{} (in kit {})", key, kit.name));
    }
  }
  if (stated.empty()) return;
  out.push_back(fmt::format("{} {} nothing beside [[water.node]]: what is played is your own network, with its own ways, widths and lengths.", listed(stated),
                            stated.size() == 1 ? "changes" : "change"));
}

}  // namespace

void water_cautions(const Scenario& scenario, std::vector<std::string>& out) {
  const Watering water = watering_of(scenario);
  enough_water(scenario, water, out);
  tank(scenario, water, out);
  spare_water(scenario, water, out);
  pump_cautions(scenario, water, out);
  suction(scenario, water, out);
  no_say(scenario, out);
}

}  // namespace rackwright
