// `evaluate`: the room, its walls and the watering line, called as the simulator calls them.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "models/frost/frost.hpp"
#include "models/room/heat_balance.hpp"
#include "models/room/moist_air.hpp"
#include "models/room/stale_air.hpp"
#include "models/water/demand.hpp"
#include "models/water/network.hpp"
#include "sim/app/evaluate_keys.hpp"
#include "sim/scenario/network.hpp"

namespace rackwright::app {
namespace {

const std::vector<std::string_view> room_keys{"floor_area", "height", "shell_area", "shell", "insulation", "insulation_conductivity", "air_changes", "heat_capacity",
                                              "solar_aperture", "shade", "heater", "heater_set", "cooler", "cooler_set", "cooler_efficiency", "evaporation_film"};

// Evaporation takes a room no lower than the wet bulb of the air that comes in; where an hour's step does, it is too long for the room.
void check_wet(const room::Hour& now, double least) {
  constexpr double play = 0.5;  // [K] by the straight lines of the law
  if (now.cooler_wh > 0.0 || now.evaporated <= 0.0 || now.temperature >= least - play) return;
  throw BadArguments{fmt::format("so much wet surface would cool a room that stores so little heat to {:.1f} degC within an hour, below the wet bulb of the air ({:.1f} degC): "
                                 "steps of an hour are too long for it; take a larger heat_capacity or a smaller wet_area",
                                 now.temperature, least)};
}

std::vector<Result> room_hours(const Arguments& in) {
  Scenario scenario;
  set_given(scenario, in, "room", room_keys);
  scenario.room.wet_area = SquareMetres(in.number("wet_area"));
  const room::Parameters& barn = scenario.room;
  if (barn.heater.value() > 0.0 && barn.cooler.value() > 0.0 && barn.heater_set >= barn.cooler_set)
    throw BadArguments{"heater_set must be below cooler_set, or heater and cooler work against each other"};
  const room::Step step = room::prepare(barn);
  const Celsius outdoor(in.number("outdoor"));
  const double outdoor_ratio = room::from_relative_humidity(outdoor, in.number("outdoor_humidity") / 100.0).humidity_ratio;
  const double wet_bulb = room::wet_bulb(outdoor, outdoor_ratio).value();
  room::Hour now;
  now.temperature = in.number("temperature");
  double evaporated = 0.0, condensed = 0.0, heater = 0.0, cooler = 0.0;
  const int hours = static_cast<int>(in.number("hours"));
  for (int i = 0; i < hours; ++i) {
    if (!(now.temperature >= -60.0 && now.temperature <= 95.0)) throw BadArguments{"the room leaves what lives and what the model of moist air is for: -60 to 95 degC"};
    const double saturated = room::saturation_humidity_ratio(Celsius(now.temperature)), before = now.temperature;
    now = room::advance(step, now.temperature, outdoor.value(), outdoor_ratio, saturated, in.number("gain"), in.number("sun"));
    check_wet(now, std::min(before, wet_bulb));
    evaporated += now.evaporated;
    condensed += now.condensed;
    heater += now.heater_wh / 1000.0;
    cooler += now.cooler_wh / 1000.0;
  }
  return {{"temperature", now.temperature, "degC"},
          {"humidity_ratio", now.humidity_ratio, "1"},
          {"transmittance", room::insulated(barn.shell, barn.insulation, barn.insulation_conductivity).value(), "W/m2/K"},
          {"conductance", step.conductance, "W/K"},
          {"time_constant", barn.heat_capacity.value() / (3.6 * step.conductance), "h"},
          {"inner_wall", now.temperature - step.wall_fall * (now.temperature - outdoor.value()), "degC"},
          {"evaporated", evaporated, "kg"},
          {"condensed", condensed, "kg"},
          {"heater_energy", heater, "kWh"},
          {"cooler_energy", cooler, "kWh"}};
}

std::vector<Result> insulated_wall(const Arguments& in) {
  const Transmittance wall = room::insulated(Transmittance(in.number("shell")), Metres(in.number("insulation")), in.number("conductivity"));
  return {{"transmittance", wall.value(), "W/m2/K"}, {"resistance", 1.0 / wall.value(), "m2 K/W"}};
}

const std::vector<std::string_view> rack_keys{"tiers", "tier_spacing", "lowest_tier"};
const std::vector<std::string_view> water_keys{"pump_shutoff", "pump_full_flow", "emitters_per_tier", "emitter_flow", "emitter_head", "emitter_exponent",
                                               "riser_diameter", "branch_diameter", "run_length"};

std::vector<Result> watering(const Arguments& in) {
  Scenario scenario;
  set_given(scenario, in, "rack", rack_keys);
  set_given(scenario, in, "water", water_keys);
  const water::Network network = network_of(scenario);
  const auto faults = water::find_faults(network);
  if (!faults.empty()) throw BadArguments{faults.front().node + ": " + faults.front().why};
  const water::Solution found = water::solve(network);
  const auto [least, most] = std::minmax_element(found.tier_flow.begin(), found.tier_flow.end());
  return {{"pump_flow", found.pump_flow.value(), "L/h"},
          {"pump_head", found.pump_head.value(), "m"},
          {"least_tier_flow", least->value(), "L/h"},
          {"greatest_tier_flow", most->value(), "L/h"},
          {"drain_needed", found.drain_needed.value(), "L/h"}};
}

std::vector<Result> dry_spell(const Arguments& in) {
  const water::DryDamage damage = water::dry_damage(Hours(in.number("dry")), Celsius(in.number("temperature")));
  return {{"growth_lost", damage.growth_lost_days, "d"}, {"sprouts_killed", 100.0 * damage.sprouts_killed, "%"}};
}

std::vector<Result> stale_air(const Arguments& in) {
  const Watts heat(in.number("heat"));
  const double share = room::carbon_dioxide(heat, in.number("air_changes"), CubicMetres(in.number("volume")));
  return {{"carbon_dioxide", 100.0 * share, "%"}, {"given", room::carbon_dioxide_given(heat), "kg/h"}};
}

const std::vector<std::string_view> frost_keys{"frost_kill", "frost_sprouted"};

std::vector<Result> frost_hour(const Arguments& in) {
  Scenario scenario;
  set_given(scenario, in, "spoilage", frost_keys);
  const Celsius air(in.number("temperature"));
  const double sprouted = in.number("sprouted") / 100.0;
  return {{"water_runs", frost::water_stands(air) ? 0.0 : 1.0, "1"},
          {"is_mat", frost::is_mat(scenario.frost, sprouted) ? 1.0 : 0.0, "1"},
          {"dies", frost::kills(scenario.frost, air, sprouted) ? 1.0 : 0.0, "1"}};
}

}  // namespace

std::vector<Evaluator> room_evaluators() {
  std::vector<Argument> hours{{"temperature", "degC", "", -30.0, 60.0, "of the room to begin with"},
                              {"outdoor", "degC", "", -50.0, 60.0, "outdoors, all the while"},
                              {"outdoor_humidity", "%", "50", 1.0, 100.0, "relative humidity outdoors"},
                              {.name = "hours", .unit = "1", .standard = "1", .least = 1.0, .most = 10000.0, .sentence = "whole hours to go on for", .whole = true},
                              {"sun", "W/m2", "0", 0.0, 1200.0, "sun on level ground"},
                              {"gain", "W", "0", 0.0, 1e5, "heat of mats, pump and people"},
                              {"wet_area", "m2", "0", 0.0, 5000.0, "that evaporates; in the simulator that of the trays on the rack"}};
  for (const Argument& key : key_arguments("room", room_keys)) hours.push_back(key);
  std::vector<Argument> cold{{"temperature", "degC", "", -60.0, 60.0, "of the air at the tray, at its coldest"},
                             {"sprouted", "%", "100", 0.0, 100.0, "share of the grain whose time to sprout has come"}};
  for (const Argument& key : key_arguments("spoilage", frost_keys)) cold.push_back(key);
  std::vector<Argument> line = key_arguments("rack", rack_keys);
  for (const Argument& key : key_arguments("water", water_keys)) line.push_back(key);
  return {
      {"room", "The barn room after some hours of one weather: warmth, moisture, and what heater and cooler used; dew on its walls is left out.",
       "one heat store, exact by the hour (docs/models/room.md)", hours, room_hours},
      {"insulated-wall", "Heat that walls and roof let through once insulation is put on them.", "ISO 6946: resistances in a row add",
       {{"shell", "W/m2/K", "", 0.01, 10.0, "let through without it"},
        {"insulation", "m", "", 0.0, 2.0, "thickness"},
        {"conductivity", "W/m/K", "0.037", 0.001, 5.0, "of the insulation"}},
       insulated_wall},
      {"stale-air", "Carbon dioxide of mats that breathe, in the steady air of a room, by volume (0.5 % is the usual limit for a day's work, 4 % endangers life at once).",
       "glucose: six CO2 for 2802 kJ; the room well mixed, at 20 degC (docs/models/room.md)",
       {{"heat", "W", "", 0.0, 1e6, "of all mats"}, {"air_changes", "1/h", "1", 0.0, 60.0, "how often an hour the air is renewed"}, {"volume", "m3", "", 0.1, 1e5, "of the room"}},
       stale_air},
      {"watering", "The usual watering line, tiers side by side: what the pump gives and what the tiers get.", "Darcy-Weisbach network against the pump's curve (docs/models/water.md)", line,
       watering},
      {"dry-spell", "What hours without water do to a mat.", "assumed law, doubling every 8 K (docs/models/water.md)",
       {{"dry", "h", "", 0.0, 1000.0, "without water, beyond the usual pause"}, {"temperature", "degC", "", 0.0, 50.0, "of the mat"}},
       dry_spell},
      {"frost", "What a cold hour does, 1 for yes and 0 for no: does the water run, is the tray a mat (or still grain, which frost leaves as it is and nobody feeds), does it die?",
       "Fowler, Limin & Ritchie 1999, Crop Sci. 39:626-633, of cereals never hardened (from memory); the rest assumed (docs/models/frost.md)", cold, frost_hour},
  };
}

}  // namespace rackwright::app
