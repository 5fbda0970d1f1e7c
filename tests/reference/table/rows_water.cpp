// Hydraulics against published tables, an independent network program and plain formulas.
#include <algorithm>
#include <fmt/core.h>

#include "models/water/hydraulics.hpp"
#include "tests/reference/table/models.hpp"

namespace rackwright::validation {
namespace {

using namespace rackwright::water;

constexpr double gpm = 3.785411784 * 60.0;  // in L/h
constexpr double inch = 0.0254, foot = 0.3048;

double feet_per_100_feet(double gallons, double inches) {
  return pipe_loss(LitresPerHour(gallons * gpm), Metres(inches * inch), Metres(100.0 * foot)).value() / foot;
}

void friction(Sheet& sheet) {
  sheet.from("Illinois Administrative Code, Title 77, Part 906, Appendix A, Exhibit I: Schedule 40, C = 150; 3 % or one unit of "
             "the last printed place", Standing::found);
  const struct { double inches, gallons, feet; } table[] = {
      {1.049, 1, 0.07}, {1.049, 2, 0.28}, {1.049, 3, 0.60},  {1.049, 4, 1.01},  {1.049, 5, 1.52},
      {1.049, 6, 2.14}, {1.049, 8, 3.63}, {1.049, 10, 5.50}, {1.380, 10, 1.46}, {1.380, 20, 5.23},
      {1.610, 5, 0.18}, {1.610, 10, 0.70}, {2.067, 10, 0.21}};
  for (const auto& row : table)
    sheet.near(fmt::format("friction, {} in inside, {} gal/min", row.inches, row.gallons), "ft/100 ft", row.feet,
               std::max(0.01, 0.03 * row.feet), feet_per_100_feet(row.gallons, row.inches));
  sheet.from("the US form 10.44 L Q^1.852/(C^1.852 d^4.8704), C = 150, worked by hand", Standing::worked);
  const struct { double inches, gallons, psi; } small[] = {
      {0.622, 1, 0.43}, {0.622, 2, 1.54}, {0.622, 3, 3.26}, {0.622, 4, 5.55}, {0.622, 5, 8.39},
      {0.824, 2, 0.39}, {0.824, 4, 1.41}, {0.824, 5, 2.13}, {0.824, 8, 5.09}, {0.824, 10, 7.70}};
  for (const auto& row : small)
    sheet.near(fmt::format("friction, {} in inside, {} gal/min", row.inches, row.gallons), "psi/100 ft", row.psi,
               std::max(0.006, 0.005 * row.psi), feet_per_100_feet(row.gallons, row.inches) * 0.4331);
}

void laminar_side(Sheet& sheet) {
  sheet.from("Darcy-Weisbach, Swamee-Jain, smooth, 1 in Schedule 40, 5 gal/min, 20 degC (Re 15,020); Hazen-Williams is known "
             "to run 10 to 15 % low there", Standing::worked);
  sheet.near("velocity, 1 in, 5 gal/min", "m/s", 0.566, 0.001, velocity(LitresPerHour(5.0 * gpm), Metres(1.049 * inch)));
  sheet.near("friction against Darcy, 1 in, 5 gal/min", "ft/100 ft", 1.70, 0.15 * 1.70, feet_per_100_feet(5.0, 1.049));
  sheet.from("EPANET engine (epanet-js 0.9.0), Darcy-Weisbach, roughness 0.0015 mm: 5 L/min in 16 mm (Re 6,600), same allowance",
             Standing::worked);
  sheet.near("velocity, 16 mm, 5 L/min", "m/s", 0.414469, 1e-5, velocity(LitresPerHour(300.0), Metres(0.016)));
  sheet.near("friction against Darcy, 10 m of 16 mm, 5 L/min", "m", 0.192258, 0.15 * 0.192258,
             pipe_loss(LitresPerHour(300.0), Metres(0.016), Metres(10.0)).value());
}

void fittings(Sheet& sheet) {
  sheet.from("irrigation texts (agriinfo.in, irriworks.com): exponents of emitters", Standing::found);
  const struct { double exponent, at_four_times_head; } kinds[] = {{1.0, 4.0}, {0.57, 2.2038}, {0.5, 2.0}, {0.0, 1.0}};
  for (const auto& row : kinds)
    sheet.near(fmt::format("flow at four times the head, exponent {}", row.exponent), "1", row.at_four_times_head,
               1e-4 * row.at_four_times_head,
               emitter_flow({LitresPerHour(10.0), Metres(5.0), row.exponent}, Metres(20.0)).value() / 10.0);
  sheet.from("usual emitters", Standing::practice);
  sheet.near("the usual emitter's flow", "gal/h", 14.0, 0.14, Emitter{}.reference_flow.value() / 3.785411784);
  sheet.from("Torricelli, sqrt(2 g 1 m) = 4.429 m/s, discharge coefficient 0.61", Standing::worked);
  sheet.near("orifice of 10 mm under 1 m", "L/s", 0.2122, 1e-4, orifice_flow(Metres(0.010), Metres(1.0)).value() / 3600.0);
  sheet.from("Manning's formula by hand, n 0.009", Standing::worked);
  sheet.near("40 mm drain at 1 %, full", "L/s", 0.65, 0.005, drain_capacity(Metres(0.040), 0.01, 0.009).value() / 3600.0);
}

}  // namespace

Sheet water_rows() {
  Sheet sheet("water");
  friction(sheet);
  laminar_side(sheet);
  fittings(sheet);
  return sheet;
}

}  // namespace rackwright::validation
