// What a keeper might do about each kind of hard time, as changes of keys from what the scenario has now. How far each
// goes is a usual step, not the best one: sizing finds that.

#include <algorithm>
#include <charconv>
#include <chrono>
#include <cmath>

#include <fmt/format.h>

#include "sim/replication/sown.hpp"
#include "sim/scenario/hard_time.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/units.hpp"
#include "sim/scenario/year_day.hpp"
#include "sim/study/hard_list.hpp"
#include "sim/study/lot_policies.hpp"

namespace rackwright::study {
namespace {

using Kind = HardTimeKind;

constexpr std::string_view tank_name = "a tank above the rack for a day";

template <class Number>
Setting set(const char* key, Number value, const char* unit = "") {
  return {key, fmt::format("{:.6g}{}{}", static_cast<double>(value), *unit == '\0' ? "" : " ", unit)};
}

/// One tray more in every batch, and places for as many as it takes.
Settings one_tray_more(const Scenario& s, int more_days = 0) {
  const int trays = s.line.trays_per_batch + (more_days > 0 ? 0 : 1);
  const int places = trays * s.line.batches_per_day * (s.line.days_on_rack + more_days);
  const int a_tier = std::max(s.rack.trays_per_tier, (places + s.rack.tiers - 1) / std::max(1, s.rack.tiers));
  Settings all;
  if (more_days > 0) all.push_back(set("line.days_on_rack", s.line.days_on_rack + more_days));
  else all.push_back(set("line.trays_per_batch", trays));
  if (a_tier > s.rack.trays_per_tier) all.push_back(set("rack.trays_per_tier", a_tier));
  return all;
}

Settings more_grain_kept(const Scenario& s) {
  Settings all;
  const Plan plan = make_plan(s);
  for (std::size_t i = 0; i < s.grains.size(); ++i) {
    if (!is_sown(plan, i)) continue;
    const std::string head = fmt::format("grain.{}.", i + 1);
    const double reorder = s.grains[i].store.reorder_point.value(), up_to = s.grains[i].store.order_up_to.value();
    const double kept = std::max(2.0 * reorder, 20.0);
    const double room = up_to + kept + s.grains[i].policy.keep_back.value();
    if (room > s.grains[i].store.bin.value()) all.push_back(set((head + "bin").c_str(), room, "kg"));
    all.push_back(set((head + "order_up_to").c_str(), up_to + kept - reorder, "kg"));
    all.push_back(set((head + "reorder").c_str(), kept, "kg"));
  }
  return all;
}

/// A trial of every lot of grain that is sown and not yet tried, with grain kept back meanwhile.
Settings trials(const Scenario& s) {
  Settings all;
  const Plan plan = make_plan(s);
  for (std::size_t i = 0; i < s.grains.size(); ++i) {
    const LotWays ways = lot_ways_of(s, i);
    if (!ways.usual_trial || !is_sown(plan, i)) continue;
    const std::string head = fmt::format("grain.{}.", i + 1);
    if (ways.bin > s.grains[i].store.bin) all.push_back(set((head + "bin").c_str(), ways.bin.value(), "kg"));
    all.push_back(set((head + "trial").c_str(), ways.kept.trial));
    all.push_back(set((head + "keep_back").c_str(), ways.kept.keep_back.value(), "kg"));
  }
  return all;
}

Countermeasure more_insulation(const Scenario& s) {
  const double board = s.units == Units::us ? 0.0508 : 0.05;  // as it is sold: 2 in, 5 cm
  return {"insulation", {set("room.insulation", s.room.insulation.value() + board, "m")}, s.prices.insulation_per_m3 > 0.0};
}

/// More of it than a board, as far as keeps a room without heat above freezing for a day or two. What is added is told in the farm's own measure.
void thicker_insulation(const Scenario& s, std::vector<Countermeasure>& out) {
  struct Thickness { double metric, us; const char *metric_name, *us_name; };  // [m]
  constexpr double most = 1.0;                                                  // of the key
  for (const Thickness& more : {Thickness{0.05, 0.0508, "5 cm more insulation", "2 in more insulation"}, Thickness{0.1, 0.1016, "10 cm more insulation", "4 in more insulation"},
                                Thickness{0.2, 0.2032, "20 cm more insulation", "8 in more insulation"}}) {
    const bool us = s.units == Units::us;
    const double thick = s.room.insulation.value() + (us ? more.us : more.metric);
    if (thick <= most) out.push_back({us ? more.us_name : more.metric_name, {set("room.insulation", thick, "m")}, s.prices.insulation_per_m3 > 0.0});
  }
}

/// The key that says how often the air is renewed on a day, and what it says.
struct Air { const char* key; double changes; };
Air air_on(const Scenario& s, std::optional<int> day) {
  const bool open = day && s.opened.holds(plain_day_of_year(std::chrono::sys_days(s.run.start) + std::chrono::days(*day)));
  return open ? Air{"room.open_air_changes", s.open_air_changes} : Air{"room.air_changes", s.room.air_changes};
}

void against_heat(const Scenario& s, const Air& air, std::vector<Countermeasure>& out) {
  const Line& line = s.line;
  const room::Parameters& room = s.room;
  if (line.soak.value() > 5.0)
    out.push_back({"a shorter soak", {set("line.soak", std::max(4.0, std::round(0.6 * line.soak.value())), "h")}});
  if (line.soak_water.value() > 8.0)
    out.push_back({"cooler soak water", {set("line.soak_water", std::max(6.0, line.soak_water.value() - 6.0), "degC")}});
  if (line.batches_per_day == 2)
    out.push_back({"soaking at night only",
                   {set("line.batches_per_day", 1), set("line.trays_per_batch", 2 * line.trays_per_batch)}});
  out.push_back({"thinner sowing", {set("line.sowing_density", 0.75 * line.sowing_density.value(), "kg/m2")}});
  if (line.days_on_rack > 5) out.push_back({"two days less on the rack", {set("line.days_on_rack", line.days_on_rack - 2)}});
  if (room.shade < 0.85) out.push_back({"shade", {set("room.shade", 0.95)}, s.prices.shade_per_m2 > 0.0});
  out.push_back({"more air", {set(air.key, std::clamp(3.0 * air.changes, 4.0, 60.0))}, false});
  out.push_back(more_insulation(s));
  out.push_back({"a cooler", {set("room.cooler", room.cooler.value() + 2500.0, "W")}});
  out.push_back({"a tray more in every batch", one_tray_more(s)});
}

void against_cold(const Scenario& s, const Air& air, std::vector<Countermeasure>& out) {
  const room::Parameters& room = s.room;
  Countermeasure heater{"a heater", {set("room.heater", room.heater.value() + 1500.0, "W")}};
  // The set point of a heater that is not there says nothing, and may lie above the cooler's.
  constexpr double usual_set = 16.0, apart = 2.0;  // [degC, K]
  if (room.heater.value() <= 0.0 && room.cooler.value() > 0.0 && room.heater_set >= room.cooler_set)
    heater.settings.push_back(set("room.heater_set", std::min(usual_set, room.cooler_set.value() - apart), "degC"));
  out.push_back(heater);
  out.push_back(more_insulation(s));
  if (air.changes > 0.3) out.push_back({"less air", {set(air.key, 0.5 * air.changes)}, false});
  if (s.line.soak_water.value() < 20.0) out.push_back({"warmer soak water", {set("line.soak_water", 22.0, "degC")}, false});
  out.push_back({"a day more on the rack", one_tray_more(s, 1)});
  out.push_back({"a tray more in every batch", one_tray_more(s)});
}

/// In place of a board of insulation and half the air as against a cold snap, both in steps. A tank above the rack freezes with it.
void against_frost(const Scenario& s, const Air& air, std::vector<Countermeasure>& out) {
  std::erase_if(out, [](const Countermeasure& what) { return what.name == "insulation" || what.name == "less air" || what.name == tank_name; });
  thicker_insulation(s, out);
  if (air.changes > 0.1) out.push_back({"half the air", {set(air.key, 0.5 * air.changes)}, false});
  if (air.changes > 0.4) out.push_back({"a quarter of the air", {set(air.key, 0.25 * air.changes)}, false});
}

/// To three digits; what must hold as much as something else is rounded up.
std::string rounded(const std::string& text, bool up) {
  double number = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc{} || number == 0.0 || number == std::floor(number)) return text;
  const double step = std::pow(10.0, std::floor(std::log10(std::abs(number))) - 2.0);
  const double places = number / step, whole = up ? std::ceil(places - 1e-4) : std::round(places);
  return fmt::format("{:.6g}{}", whole * step, end);
}

/// Settings as a keeper of this farm would write them: in its units and in few digits. What is told is what is tried.
void in_own_units(const Scenario& s, Settings& settings) {
  Scenario after = s;
  for (auto& [key, value] : settings) {
    if (set_key(after, key, value)) continue;  // told as it is where it is tried
    const bool up = key.ends_with(".bin") || key.ends_with(".order_up_to");
    if (const auto own = get_key(after, key)) value = rounded(*own, up);
  }
}

/// More room in store than there is.
std::string room_for_grain(const Scenario& s, const Settings& settings) {
  std::string needs;
  for (std::size_t i = 0; i < s.grains.size(); ++i)
    for (const auto& [key, value] : settings)
      if (key == fmt::format("grain.{}.bin", i + 1))
        needs += fmt::format("{}room for {} of {} (the bin holds {})", needs.empty() ? "" : ", ", value, s.grains[i].name,
                             write_quantity(s.grains[i].store.bin.value(), "kg", s.units == Units::us, 3));
  return needs;
}

std::vector<Countermeasure> steps(const Scenario& s, Kind kind, const Air& air) {
  std::vector<Countermeasure> out;
  const Countermeasure more{"a tray more in every batch", one_tray_more(s)};
  const Countermeasure thicker{"thicker sowing", {set("line.sowing_density", 1.2 * s.line.sowing_density.value(), "kg/m2")}};
  const Countermeasure store{"more grain kept back", more_grain_kept(s)};
  const Countermeasure tank{tank_name, {set("water.header_tank", 24.0, "h")}, false};
  const Countermeasure second{"a second keeper", {{"keeper.second_keeper", "true"}}, false};
  switch (kind) {
    case Kind::heat_wave: against_heat(s, air, out); break;
    case Kind::cold_snap: against_cold(s, air, out); break;
    case Kind::poor_lot:
      out = {thicker, more, store};
      if (const Settings tried = trials(s); !tried.empty()) out.push_back({"a trial of every new lot, grain kept back", tried});
      break;
    case Kind::late_delivery: out = {store}; break;
    case Kind::pump_stop:
      if (!s.water.spare_pump) out.push_back({"a spare pump", {{"water.spare_pump", "true"}}, false});
      if (s.water.header_tank.value() < 24.0) out.push_back(tank);
      out.push_back(more);
      break;
    case Kind::power_cut:
      if (s.water.battery.value() < 24.0) out.push_back({"a battery for a day", {set("water.battery", 24.0, "h")}, false});
      if (s.water.header_tank.value() < 24.0) out.push_back(tank);
      out.push_back(more);
      break;
    case Kind::missed_rounds:
      if (!s.keeper.second_keeper) out.push_back(second);
      out.push_back({"two days more of grace", {set("line.grace_days", s.line.grace_days + 2)}});
      out.push_back(more);
      break;
    case Kind::keeper_away:
      if (!s.keeper.second_keeper) out.push_back(second);
      break;
    case Kind::larger_litter: out = {more, thicker, store}; break;
    case Kind::price_jump:
      out.push_back({"thinner sowing", {set("line.sowing_density", 0.85 * s.line.sowing_density.value(), "kg/m2")}});
      break;
  }
  return out;
}

}  // namespace

int middle_of(const HardTime& hard) { return static_cast<int>(hard.first_day + 0.5 * in_days(length_of(hard))); }

std::vector<Countermeasure> countermeasures(const Scenario& scenario, Kind kind, std::optional<int> day, bool freezes) {
  const Air air = air_on(scenario, day);
  std::vector<Countermeasure> all = steps(scenario, kind, air);
  if (freezes) against_frost(scenario, air, all);
  for (Countermeasure& what : all) {
    in_own_units(scenario, what.settings);
    what.needs = room_for_grain(scenario, what.settings);
  }
  return all;
}

}  // namespace rackwright::study
