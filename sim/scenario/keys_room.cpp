// Keys of the room and of the rack in it.
#include <chrono>
#include <cstdint>

#include "sim/scenario/key_at.hpp"
#include "sim/scenario/key_table.hpp"
#include "sim/scenario/year_day.hpp"

namespace rackwright::keys {
namespace {

using S = Scenario;
constexpr std::string_view yours = "yours";
constexpr std::string_view practice = "common practice, no source";

/// A date that comes every year; told in the year in which the run starts.
template <YearPart S::*Part, int YearPart::*Day>
Key<S> yearly_date(std::string_view name, std::string_view sentence) {
  Key<S> key = declare<S>(name, Kind::date, sentence, yours);
  key.optional = true;
  key.get = [](const S& s, const S&) -> Value {
    if (s.*Part.*Day < 1) return {};
    const std::chrono::year_month_day when{plain_new_year + std::chrono::days(s.*Part.*Day - 1)};
    return std::chrono::sys_days(s.run.start.year() / when.month() / when.day()).time_since_epoch().count();
  };
  key.set = [](S& s, const Value& value, const S&) -> std::optional<std::string> {
    const std::int64_t* date = std::get_if<std::int64_t>(&value);
    s.*Part.*Day = date == nullptr ? 0 : plain_day_of_year(std::chrono::sys_days(std::chrono::days(*date)));
    return std::nullopt;
  };
  return key;
}

}  // namespace

Table<S> room_keys() {
  return {
      real<S>("room.floor_area", {0.5, 2000.0}, AT(room.floor_area), "Floor of the room the rack stands in.", yours),
      real<S>("room.height", {1.5, 12.0}, AT(room.height), "Height of the room.", yours),
      real<S>("room.shell_area", {2.0, 10000.0}, AT(room.shell_area), "Walls and roof that face outdoors. The floor is left out: for an uninsulated slab add 1.26 W/m/K times its edge over the shell's transmittance (docs/models/room.md).", yours),
      real<S>("room.shell", {0.05, 8.0}, AT(room.shell),
              "Heat let through by walls and roof as they stand; single sheet steel about 6, insulated about 0.5.", "assumed"),
      real<S>("room.insulation", {0.0, 1.0}, AT(room.insulation),
              "Thickness of insulation put on those walls and roof, outside the masonry; priced by prices.insulation.", yours),
      real<S>("room.insulation_conductivity", {0.005, 0.5}, AT(room.insulation_conductivity),
              "Heat it conducts: boards of mineral wool or foam 0.03 to 0.04, straw about 0.06.", "from memory").in("W/m/K"),
      real<S>("room.air_changes", {0.0, 60.0}, AT(room.air_changes),
              "How often an hour the air of the room is renewed.", "assumed").or_in("1/h"),
      real<S>("room.open_air_changes", {0.0, 60.0}, AT(open_air_changes),
              "The same while doors, windows or vents stand open for a part of every year, day and night; with room.open_from and room.open_until.", yours).or_in("1/h"),
      yearly_date<&S::opened, &YearPart::from>("room.open_from", "Date from which they stand open, every year, whatever year is written."),
      yearly_date<&S::opened, &YearPart::until>("room.open_until", "Date from which they are shut again, every year."),
      real<S>("room.heat_capacity", {50.0, 1.0e7}, AT(room.heat_capacity),
              "Heat that warms the room by one degree; stone walls make it large.", "assumed"),
      real<S>("room.solar_aperture", {0.0, 200.0}, AT(room.solar_aperture),
              "Area through which the full sun would heat the room.", "assumed"),
      real<S>("room.shade", {0.0, 1.0}, AT(room.shade), "Share of that sun kept out by shade.", yours),
      yearly_date<&S::shaded, &YearPart::from>("room.shade_from", "Date from which the shade is up, every year, whatever year is written; with room.shade_until. Neither: all the year."),
      yearly_date<&S::shaded, &YearPart::until>("room.shade_until", "Date from which it is down again, every year."),
      real<S>("room.heater", {0.0, 50000.0}, AT(room.heater), "Power of the heater; 0 W is none.", yours),
      real<S>("room.heater_set", {0.0, 35.0}, AT(room.heater_set), "Temperature at which the heater comes on.", yours),
      real<S>("room.cooler", {0.0, 50000.0}, AT(room.cooler), "Heat the cooler moves; 0 W is none.", yours),
      real<S>("room.cooler_set", {5.0, 45.0}, AT(room.cooler_set), "Temperature at which the cooler comes on.", yours),
      real<S>("room.cooler_efficiency", {0.3, 12.0}, AT(room.cooler_efficiency),
              "Heat moved for each unit of electricity.", "assumed"),
      real<S>("room.evaporation_film", {0.1, 200.0}, AT(room.evaporation_film),
              "Water given off by a square metre of wet surface an hour, for each unit of dryness of the air in kg/kg.",
              "Lewis relation at 3 W/m2/K, assumed").in("kg/m2/h"),
      real<S>("room.tier_gradient", {-3.0, 5.0}, AT(tier_gradient),
              "How much warmer the air is higher up.", "assumed").in("K/m"),
      whole<S>("rack.tiers", {1, 40}, AT(rack.tiers), "Levels of the rack.", yours),
      whole<S>("rack.trays_per_tier", {1, 200}, AT(rack.trays_per_tier), "Places for a tray on each level.", yours),
      real<S>("rack.tray_length", {0.1, 3.0}, AT(rack.tray_length), "Length of a tray, inside.", yours),
      real<S>("rack.tray_width", {0.05, 2.0}, AT(rack.tray_width), "Width of a tray, inside.", yours),
      real<S>("rack.tier_spacing", {0.1, 2.0}, AT(rack.tier_spacing), "Height from one level to the next.", yours),
      real<S>("rack.lowest_tier", {0.0, 2.0}, AT(rack.lowest_tier),
              "Height of the lowest level above the floor.", yours),
      real<S>("rack.tray_mass", {0.05, 30.0}, AT(rack.tray_mass), "An empty tray.", practice),
      real<S>("rack.water_film", {0.0, 50.0}, AT(rack.water_film),
              "Water held on a tray just after watering.", "assumed"),
  };
}

}  // namespace rackwright::keys
