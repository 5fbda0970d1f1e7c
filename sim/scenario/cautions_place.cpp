#include "sim/scenario/cautions_place.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "models/design/rack.hpp"
#include "models/growth/mat.hpp"
#include "models/room/stale_air.hpp"
#include "sim/scenario/cautions_plans.hpp"
#include "sim/scenario/hard_time.hpp"
#include "sim/scenario/kits.hpp"
#include "sim/scenario/room_of.hpp"
#include "sim/scenario/units.hpp"
#include "sim/scenario/watering.hpp"

namespace rackwright {
namespace {

/// Is there a heater, or may sizing or a kit bring one?
bool may_heat(const Scenario& s) {
  constexpr std::string_view key = "room.heater";
  if (s.room.heater.value() > 0.0) return true;
  for (const Choice& choice : s.choose.choices)
    if (choice.key == key && std::any_of(choice.values.begin(), choice.values.end(), [](const std::string& value) { return is_some(value, "W"); })) return true;
  return std::any_of(s.kits.begin(), s.kits.end(), [&](const Kit& kit) {
    Scenario with = s;
    return !take_kit(with, kit.part, kit.name) && with.room.heater.value() > 0.0;
  });
}

/// The coldest an unheated room is to get: a day two standard deviations colder than its time of year, or the coldest that was measured, and so much of its night
/// as the room's stored heat lets through [degC].
double coldest_unheated(const Scenario& s) {
  double colder = 0.0;
  for (const climate::Overlay& spell : s.spells) colder = std::min(colder, spell.rise.value());
  for (const HardTime& hard : s.hard_times) colder = std::min(colder, change_of(hard).value());
  double coldest = 1e9;
  const double shut = night_share(s, false), open = night_share(s, true);
  const auto night = [&](int day_of_year) { return s.opened.holds(day_of_year) ? open : shut; };
  if (s.weather.record) {
    const climate::Record& record = s.weather.record->record;
    for (std::size_t day = 0; day < record.size(); ++day) {
      if (!record.has(day)) continue;
      const double range = static_cast<double>(record.maximum[day] - record.minimum[day]);
      coldest = std::min(coldest, record.mean(day) - night(static_cast<int>(day % 365) + 1) * range);
    }
  } else {
    const double range = std::max(0.0, s.climate.range_mean.value() - std::abs(s.climate.range_amplitude.value()));
    for (int day = 1; day <= 365; ++day) coldest = std::min(coldest, climate::wave_at(s.climate.mean, day).value() - night(day) * range);
    coldest -= 2.0 * s.climate.anomaly_sd.value();
  }
  return coldest + colder;
}

/// Heat that goes out by open doors in the coldest time of the year.
void open_in_the_cold(const Scenario& s, std::vector<std::string>& out) {
  if (s.room.heater.value() <= 0.0 || s.open_air_changes <= s.room.air_changes) return;
  int coldest = 1;
  for (int day = 2; day <= 365; ++day)
    if (climate::wave_at(s.climate.mean, day) < climate::wave_at(s.climate.mean, coldest)) coldest = day;
  if (!s.opened.holds(coldest)) return;
  const double shut = conductance_of(s, false), open = conductance_of(s, true);
  out.push_back(fmt::format("Doors and windows stand open in the coldest weeks (room.open_from, room.open_until): {:.0f} % of what the heater gives then goes out by them.",
                            100.0 * (open - shut) / open));
}

/// Heat of all mats of a full rack, in the mean of their days at 20 degC, of the grain that gives most.
Watts full_rack_heat(const Scenario& s) {
  const double days = s.line.days_on_rack, grain = trays_in_use(s) * (s.line.sowing_density * design::tray_area(s.rack)).value();
  double most = 0.0;  // [MJ/kg] of grain
  for (const GrainSupply& sown : s.grains) {
    const growth::Parameters growth = growth_of(s, sown.species);
    most = std::max(most, growth::respiration_heat_mj * growth.respired_share * (1.0 - sown.moisture) * sown.grade.germination_mean * growth::loss(growth, growth_at_20(growth, days)));
  }
  return Watts(grain * most * 1e6 / (86400.0 * days));
}

}  // namespace

std::string heater_caution() {
  return "A heater in a wet, dusty barn is a risk of fire and shock: fixed and guarded, away from bedding, hay and dust, on a protected circuit of its own. None that burns fuel "
         "without a flue to the open air: its fumes (carbon monoxide) kill people and animals, and give no smell.";
}

std::string frost_caution() {
  return "Pipes, pump, emitters and tank burst if water is left in them when the room freezes: drain them before, and open what holds water. Mats that froze are thrown out: never "
         "feed frozen fodder.";
}

void say_once(std::vector<std::string>& out, std::string caution) {
  if (std::find(out.begin(), out.end(), caution) == out.end()) out.push_back(std::move(caution));
}

void stale_air_cautions(const Scenario& s, std::vector<std::string>& out) {
  const double share = room::carbon_dioxide(full_rack_heat(s), s.room.air_changes, s.room.floor_area * s.room.height);
  if (share <= room::carbon_dioxide_for_a_day) return;
  const bool danger = share >= room::carbon_dioxide_of_danger;
  out.push_back(fmt::format("Mats breathe: with the rack full and the room shut (room.air_changes) its air comes to {} of carbon dioxide, where {:.1f} % is the usual limit for a day's work and {:.0f} % endangers "
                            "life at once. {}Open up and air it well before anybody works there; animals must not live in it. More air (room.air_changes) mends it.",
                            share >= 0.2 ? std::string("a fifth, all that mats can make,") : fmt::format("{:.2g} %", 100.0 * share), 100.0 * room::carbon_dioxide_for_a_day,
                            100.0 * room::carbon_dioxide_of_danger, danger ? "Build no room so tight. " : ""));
}

void bleach_cautions(const Scenario& s, std::vector<std::string>& out) {
  if (s.line.dip.strength_percent <= 0.0 && s.line.tray_dip.strength_percent <= 0.0) return;
  out.push_back(
      "Chlorine bleach never together with an acid (chlorine gas) nor with ammonia, urine or manure (chloramines): both can kill. Ventilate, wear gloves and goggles, rinse grain and "
      "trays well, and before any other disinfectant. Bleach eats zinc, steel and aluminium, and weakens with heat, light and time.");
}

void place_cautions(const Scenario& s, std::vector<std::string>& out) {
  out.push_back(
      "Water and mains electricity share this room: every socket behind a residual-current device (RCD or GFCI, 30 mA or less), drip loops, splash-proof fittings, pump unplugged when "
      "hands are in the tank. Wiring is a licensed electrician's work, by your local code.");
  const double winter = s.climate.mean.mean.value() - std::abs(s.climate.mean.amplitude.value());
  const bool one_is_advised = !s.weather.record && winter < stands_still;
  if (may_heat(s) || one_is_advised) out.push_back(heater_caution());
  open_in_the_cold(s, out);
  if (coldest_unheated(s) < 0.0) out.push_back(frost_caution());
}

}  // namespace rackwright
