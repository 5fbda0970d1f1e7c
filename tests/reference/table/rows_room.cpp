// Moist air and the room against published values.
#include <cmath>

#include <fmt/core.h>

#include "models/room/heat_balance.hpp"
#include "models/room/moist_air.hpp"
#include "models/room/stale_air.hpp"
#include "tests/reference/table/models.hpp"

namespace rackwright::validation {
namespace {

using namespace rackwright::room;

constexpr double slab_watts_per_metre = 1.26;  // [W/m/K] the figure of docs/models/room.md

void saturation(Sheet& sheet) {
  sheet.from("ASHRAE Handbook Fundamentals 2017, ch. 1, as quoted with tolerance 3e-4 by the test suite of PsychroLib", Standing::found, Bound::source);
  const struct { double celsius, pascal; } printed[] = {{-5.0, 401.74}, {5.0, 872.6}, {25.0, 3169.7}, {100.0, 101418.0}};
  for (const auto& row : printed)
    sheet.near(fmt::format("saturation pressure at {} degC", row.celsius), "Pa", row.pascal, 3e-4 * row.pascal,
               saturation_pressure(Celsius(row.celsius)).value());
  sheet.from("PsychroLib 1.1.1 run on the same input", Standing::worked, Bound::rounding);
  sheet.near("saturation pressure at 20 degC, other program", "Pa", 2338.8037, 2.4e-4, saturation_pressure(Celsius(20.0)).value());
  sheet.near("saturation pressure at -5 degC, other program", "Pa", 401.7641, 4e-4, saturation_pressure(Celsius(-5.0)).value());
  const MoistAir air = from_relative_humidity(Celsius(20.0), 0.5);
  sheet.near("humidity ratio at 20 degC, 50 %", "kg/kg", 0.00726174, 1e-8, air.humidity_ratio);
  sheet.bounds(Bound::ours);
  sheet.near("dew point at 20 degC, 50 %", "degC", 9.27239, 1e-4, air.dew_point.value());
  sheet.near("wet bulb at 20 degC, 50 %", "degC", 13.78337, 1e-3, wet_bulb(Celsius(20.0), air.humidity_ratio).value());
  sheet.near("humidity ratio at 20 degC, wet bulb 13.78 degC", "kg/kg", 0.00726174, 1e-6,
             from_wet_bulb(Celsius(20.0), Celsius(13.78337)).humidity_ratio);
  sheet.from("ASHRAE Handbook Fundamentals, table of saturated moist air; it counts the enhancement factor of real air, about "
             "1.004, which the model leaves out", Standing::memory, Bound::ours);
  for (const auto& [celsius, ratio] : {std::pair{0.0, 0.003790}, std::pair{10.0, 0.007661}, std::pair{20.0, 0.014758},
                                       std::pair{25.0, 0.020170}, std::pair{30.0, 0.027329}, std::pair{40.0, 0.049141}})
    sheet.near(fmt::format("humidity ratio of saturated air at {} degC", celsius), "kg/kg", ratio, 0.006 * ratio,
               saturation_humidity_ratio(Celsius(celsius)));
  for (const auto& [celsius, enthalpy] : {std::pair{0.0, 9.473}, std::pair{10.0, 29.35}, std::pair{30.0, 100.006}, std::pair{40.0, 166.68}})
    sheet.near(fmt::format("enthalpy of saturated air at {} degC", celsius), "kJ/kg", enthalpy, 0.006 * enthalpy,
               from_relative_humidity(Celsius(celsius), 1.0).enthalpy);
}

void walls(Sheet& sheet) {
  sheet.from("resistances in a row (ISO 6946), worked by hand: surfaces 0.12 and 0.03 m2K/W, plywood 0.12 W/m/K", Standing::worked, Bound::rounding);
  const double plywood = 1.0 / (0.12 + 0.03 + 2.0 * 0.012 / 0.12);
  sheet.near("two plywood boards of 12 mm with 50 mm of foam of 0.037 W/m/K between", "W/m2/K", 0.588, 0.0005, insulated(Transmittance(plywood), Metres(0.05), 0.037).value());
  sheet.near("solid brick wall of 2.1 W/m2/K under 100 mm of mineral wool of 0.035 W/m/K", "W/m2/K", 0.300, 0.0005, insulated(Transmittance(2.1), Metres(0.1), 0.035).value());
}

void charts(Sheet& sheet) {
  sheet.from("ASHRAE Handbook Fundamentals, ch. 1, example: 40 degC, wet bulb 20 degC, read off the chart, in the digits it prints", Standing::memory, Bound::rounding);
  const MoistAir hot = from_wet_bulb(Celsius(40.0), Celsius(20.0));
  sheet.near("humidity ratio at 40 degC, wet bulb 20 degC", "kg/kg", 0.0065, 1e-4, hot.humidity_ratio);
  sheet.near("enthalpy there", "kJ/kg", 56.7, 0.1, hot.enthalpy);
  sheet.near("dew point there", "degC", 7.0, 0.5, hot.dew_point.value());
  sheet.near("relative humidity there", "%", 14.0, 0.5, 100.0 * hot.relative_humidity);
  sheet.near("volume there", "m3/kg", 0.896, 5e-4, hot.volume);
  sheet.from("any psychrometric chart at sea level, as far as one can be read", Standing::memory, Bound::ours);
  const MoistAir mild = from_relative_humidity(Celsius(24.0), 0.5);
  sheet.near("wet bulb at 24 degC, 50 %", "degC", 17.0, 0.2, wet_bulb(Celsius(24.0), mild.humidity_ratio).value());
  sheet.near("dew point at 24 degC, 50 %", "degC", 12.9, 0.2, mild.dew_point.value());
}

void breath(Sheet& sheet) {
  sheet.from("physiology's table for carbohydrate alone (Lusk 1924): 5.047 kcal (4.186 kJ each) for each litre of carbon dioxide at 0 degC, of 1.977 g", Standing::memory, Bound::ours);
  sheet.near("carbon dioxide of a kilowatt hour of breathing", "kg", 3600.0 / (5.047 * 4.186) * 1.977e-3, 0.005, 3.6 * carbon_dioxide_per_mj);
  sheet.from("steady state worked by hand: 1 kW of mats gives 185.4 L of carbon dioxide an hour at 20 degC, 28.8 m3 renewed once", Standing::worked, Bound::rounding);
  sheet.near("carbon dioxide in that room", "%", 0.042 + 100.0 * 0.1854 / 28.8, 0.001, 100.0 * carbon_dioxide(Watts(1000.0), 1.0, CubicMetres(28.8)));
}

}  // namespace

Sheet room_rows() {
  Sheet sheet("room");
  saturation(sheet);
  charts(sheet);
  walls(sheet);
  breath(sheet);
  sheet.from("ASHRAE forms worked by hand", Standing::worked, Bound::rounding);
  const MoistAir air = from_relative_humidity(Celsius(20.0), 0.8);
  sheet.near("humidity ratio at 20 degC, 80 %", "kg/kg", 0.01170, 6e-6, air.humidity_ratio);
  sheet.near("dew point at 20 degC, 80 %", "degC", 16.45, 0.01, air.dew_point.value());
  sheet.near("enthalpy at 20 degC, 80 %", "kJ/kg", 49.82, 0.01, air.enthalpy);
  sheet.from("International Standard Atmosphere", Standing::memory, Bound::rounding);
  sheet.near("density of dry air at 15 degC", "kg/m3", 1.225, 0.0006, 1.0 / from_relative_humidity(Celsius(15.0), 0.0).volume);
  sheet.from("building-services rule 0.33 N V dT: 30 m3, one air change an hour, 10 K", Standing::worked, Bound::rounding);
  Parameters p;
  p.floor_area = SquareMetres(12.0);
  p.height = Metres(2.5);
  p.shell_area = SquareMetres(0.0);
  p.air_changes = 1.0;
  sheet.near("heat carried off by air", "W", 99.0, 1.0, prepare(p).conductance * 10.0);
  sheet.from("Washington State energy code, WAC 51-11C-61061, table A106.1: uninsulated slab on the ground, 0.73 Btu/(h ft degF) of its edge; a square room of 12 m2",
             Standing::found, Bound::rounding);
  const double without = prepare(p).conductance, edge = 4.0 * std::sqrt(p.floor_area.value());
  p.shell_area += SquareMetres(slab_watts_per_metre / p.shell.value() * edge);  // as docs/models/room.md tells the keeper to
  sheet.near("what the page adds to the shell for a slab lets through", "W/K", 17.5, 0.12, prepare(p).conductance - without);
  return sheet;
}

}  // namespace rackwright::validation
