// Moist air and the room against published values.
#include <string>

#include "models/room/heat_balance.hpp"
#include "models/room/moist_air.hpp"
#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::room;

namespace {

struct PressureRow { double celsius, pascal, tolerance; const char* source; };

}  // namespace

TEST_CASE("saturation pressure agrees with the printed tables") {
  const char* ashrae = "ASHRAE Handbook Fundamentals 2017, ch. 1 table of saturated moist air, as quoted with tolerance "
                       "3e-4 by the test suite of PsychroLib";
  const char* library = "PsychroLib 1.1.1 run on the same input";
  const PressureRow rows[] = {
      {-5.0, 401.74, 3e-4, ashrae},     {5.0, 872.6, 3e-4, ashrae},       {25.0, 3169.7, 3e-4, ashrae},
      {100.0, 101418.0, 3e-4, ashrae},  {20.0, 2338.8037, 1e-7, library}, {-5.0, 401.7641, 1e-6, library},
  };
  for (const PressureRow& row : rows) {
    INFO(row.source << ": " << row.celsius << " degC, want " << row.pascal << " Pa");
    CHECK(saturation_pressure(Celsius(row.celsius)).value() == Approx(row.pascal).epsilon(row.tolerance));
  }
}

TEST_CASE("saturated humidity ratio agrees with the printed table but for the enhancement factor") {
  // ASHRAE Handbook Fundamentals, table of saturated moist air at 101325 Pa, from memory. The table counts the
  // enhancement factor of real moist air (about 1.004), which this ideal mixture leaves out: tolerance 0.6 %.
  const struct { double celsius, ratio; } rows[] = {{20.0, 0.014758}, {25.0, 0.020170}};
  for (const auto& row : rows) {
    INFO("at " << row.celsius << " degC, want " << row.ratio << " within 0.6 %");
    CHECK(saturation_humidity_ratio(Celsius(row.celsius)) == Approx(row.ratio).epsilon(0.006));
    CHECK(saturation_humidity_ratio(Celsius(row.celsius)) < row.ratio);
  }
}

TEST_CASE("state at 20 degC and 50 % agrees with an independent program") {
  INFO("PsychroLib 1.1.1 at 20 degC, 50 %, 101325 Pa: W 0.00726174, wet bulb 13.78337, dew point 9.27239");
  const MoistAir air = from_relative_humidity(Celsius(20.0), 0.5);
  CHECK(air.humidity_ratio == Approx(0.00726174).epsilon(1e-6));
  CHECK(air.dew_point.value() == Approx(9.27239).margin(1e-4));
  CHECK(wet_bulb(Celsius(20.0), air.humidity_ratio).value() == Approx(13.78337).margin(1e-3));  // its own solve stops at 1e-3
  CHECK(from_wet_bulb(Celsius(20.0), Celsius(13.78337)).humidity_ratio == Approx(0.00726174).epsilon(1e-4));
}

TEST_CASE("state at 20 degC and 80 % agrees with hand arithmetic on the ASHRAE forms") {
  INFO("worked by hand from the ASHRAE equations: W 0.01170, dew point 16.45 degC, enthalpy 49.82 kJ/kg");
  const MoistAir air = from_relative_humidity(Celsius(20.0), 0.8);
  CHECK(air.humidity_ratio == Approx(0.01170).margin(0.000006));
  CHECK(air.dew_point.value() == Approx(16.45).margin(0.01));
  CHECK(air.enthalpy == Approx(49.82).margin(0.02));
}

TEST_CASE("dry air at 0 degC and one atmosphere has the density of the standard atmosphere") {
  // International Standard Atmosphere: 1.225 kg/m3 at 15 degC and 101325 Pa, from memory.
  const MoistAir air = from_relative_humidity(Celsius(15.0), 0.0);
  CHECK(1.0 / air.volume == Approx(1.225).epsilon(0.0005));
}

TEST_CASE("infiltration is 0.33 W per m3/h and kelvin") {
  // 30 m3, one air change an hour, 10 K: 99 W (building-services rule 0.33 N V dT).
  Parameters p;
  p.floor_area = SquareMetres(12.0);
  p.height = Metres(2.5);
  p.shell_area = SquareMetres(0.0);
  p.air_changes = 1.0;
  CHECK(prepare(p).conductance * 10.0 == Approx(99.0).epsilon(1e-9));
}
