// Hydraulics against published tables, an independent network program and plain formulas.
#include <algorithm>
#include <fmt/core.h>

#include "models/water/friction.hpp"
#include "models/water/hydraulics.hpp"
#include "tests/reference/table/models.hpp"

namespace rackwright::validation {
namespace {

using namespace rackwright::water;

constexpr double gpm = 3.785411784 * 60.0;  // in L/h
constexpr double inch = 0.0254, foot = 0.3048;

double feet_per_100_feet(double gallons, double inches) {
  return hazen_williams_loss(LitresPerHour(gallons * gpm), Metres(inches * inch), Metres(100.0 * foot)).value() / foot;
}

void friction(Sheet& sheet) {
  sheet.from("Illinois Administrative Code, Title 77, Part 906, Appendix A, Exhibit I: Schedule 40, C = 150; 3 % or one unit of "
             "the last printed place", Standing::found, Bound::ours);
  const struct { double inches, gallons, feet; } table[] = {
      {1.049, 1, 0.07}, {1.049, 2, 0.28}, {1.049, 3, 0.60},  {1.049, 4, 1.01},  {1.049, 5, 1.52},
      {1.049, 6, 2.14}, {1.049, 8, 3.63}, {1.049, 10, 5.50}, {1.380, 10, 1.46}, {1.380, 20, 5.23},
      {1.610, 5, 0.18}, {1.610, 10, 0.70}, {2.067, 10, 0.21}};
  for (const auto& row : table)
    sheet.near(fmt::format("Hazen-Williams, {} in inside, {} gal/min", row.inches, row.gallons), "ft/100 ft", row.feet,
               std::max(0.01, 0.03 * row.feet), feet_per_100_feet(row.gallons, row.inches));
  sheet.from("the US form 10.44 L Q^1.852/(C^1.852 d^4.8704), C = 150, worked by hand", Standing::worked, Bound::rounding);
  const struct { double inches, gallons, psi; } small[] = {
      {0.622, 1, 0.43}, {0.622, 2, 1.54}, {0.622, 3, 3.26}, {0.622, 4, 5.55}, {0.622, 5, 8.39},
      {0.824, 2, 0.39}, {0.824, 4, 1.41}, {0.824, 5, 2.13}, {0.824, 8, 5.09}, {0.824, 10, 7.70}};
  for (const auto& row : small)
    sheet.near(fmt::format("Hazen-Williams, {} in inside, {} gal/min", row.inches, row.gallons), "psi/100 ft", row.psi,
               std::min(0.01, std::max(0.006, 0.005 * row.psi)), feet_per_100_feet(row.gallons, row.inches) * 0.4331);
}

// The law the watering line is solved with.
void darcy(Sheet& sheet) {
  sheet.from("Darcy-Weisbach, smooth, 1 in Schedule 40, 5 gal/min, 20 degC (Re 15,020), friction factor by the full formula of Colebrook & White",
             Standing::worked, Bound::rounding);
  sheet.near("velocity, 1 in, 5 gal/min", "m/s", 0.566, 0.001, velocity(LitresPerHour(5.0 * gpm), Metres(1.049 * inch)));
  sheet.bounds(Bound::source);  // what Swamee & Jain state of their formula
  sheet.near("friction, 1 in, 5 gal/min", "ft/100 ft", 1.70, 0.03 * 1.70,
             pipe_loss(LitresPerHour(5.0 * gpm), Metres(1.049 * inch), Metres(100.0 * foot)).value() / foot);
  sheet.bounds(Bound::ours);
  sheet.near("Hazen-Williams there, which is 10 to 15 % low", "ft/100 ft", 1.70, 0.15 * 1.70, feet_per_100_feet(5.0, 1.049));
  sheet.from("EPANET engine (epanet-js 0.9.0), Darcy-Weisbach, roughness 0.0015 mm: 5 L/min in 16 mm (Re 6,600); its water is 1.8 % more viscous",
             Standing::worked, Bound::ours);
  sheet.near("velocity, 16 mm, 5 L/min", "m/s", 0.414469, 1e-5, velocity(LitresPerHour(300.0), Metres(0.016)));
  sheet.near("friction, 10 m of 16 mm, 5 L/min", "m", 0.192258, 0.005 * 0.192258, pipe_loss(LitresPerHour(300.0), Metres(0.016), Metres(10.0)).value());
  sheet.from("Colebrook & White 1937, iterated apart from the program; Swamee & Jain 1976 state 3 % of it", Standing::worked, Bound::source);
  const struct { double reynolds, relative, factor; } moody[] = {{1e4, 0.0, 0.030885}, {1e5, 0.0, 0.017994}, {1e6, 0.0, 0.011646},
                                                                 {1e5, 0.001, 0.022174}, {1e4, 0.01, 0.043125}, {1e6, 0.0001, 0.013441}};
  for (const auto& row : moody)
    sheet.near(fmt::format("friction factor, Re {:g}, relative roughness {:g}", row.reynolds, row.relative), "1", row.factor, 0.03 * row.factor,
               friction_factor(row.reynolds, row.relative));
  sheet.from("Hagen & Poiseuille, 32 nu L v/(g d^2): 20 L/h in 10 mm (Re 705), 10 m, viscosity 1.0038e-6 m2/s", Standing::worked, Bound::rounding);
  sheet.near("friction of laminar flow", "m", 0.023170, 1e-5, pipe_loss(LitresPerHour(20.0), Metres(0.010), Metres(10.0)).value());
  sheet.from("any table of water's kinematic viscosity", Standing::memory, Bound::ours);
  const struct { double celsius, viscosity; } waters[] = {{0, 1.787}, {5, 1.519}, {10, 1.307}, {20, 1.004}, {30, 0.801}, {40, 0.658}};
  for (const auto& row : waters)
    sheet.near(fmt::format("viscosity of water at {} degC", row.celsius), "mm2/s", row.viscosity, 0.003 * row.viscosity,
               1e6 * kinematic_viscosity(Celsius(row.celsius)));
}

void fittings(Sheet& sheet) {
  sheet.from("irrigation texts (agriinfo.in, irriworks.com): exponents of emitters", Standing::found, Bound::rounding);
  const struct { double exponent, at_four_times_head; } kinds[] = {{1.0, 4.0}, {0.57, 2.2038}, {0.5, 2.0}, {0.0, 1.0}};
  for (const auto& row : kinds)
    sheet.near(fmt::format("flow at four times the head, exponent {}", row.exponent), "1", row.at_four_times_head,
               1e-4 * row.at_four_times_head,
               emitter_flow({LitresPerHour(10.0), Metres(5.0), row.exponent}, Metres(20.0)).value() / 10.0);
  sheet.from("usual emitters", Standing::practice, Bound::ours);
  sheet.near("the usual emitter's flow", "gal/h", 14.0, 0.14, Emitter{}.reference_flow.value() / 3.785411784);
  sheet.from("Torricelli, sqrt(2 g 1 m) = 4.429 m/s, discharge coefficient 0.61", Standing::worked, Bound::rounding);
  sheet.near("orifice of 10 mm under 1 m", "L/s", 0.2122, 1e-4, orifice_flow(Metres(0.010), Metres(1.0)).value() / 3600.0);
  sheet.from("Manning's formula by hand, n 0.009", Standing::worked, Bound::rounding);
  sheet.near("40 mm drain at 1 %, full", "L/s", 0.65, 0.005, drain_capacity(Metres(0.040), 0.01, 0.009).value() / 3600.0);
}

}  // namespace

Sheet water_rows() {
  Sheet sheet("water");
  friction(sheet);
  darcy(sheet);
  fittings(sheet);
  return sheet;
}

}  // namespace rackwright::validation
