// Handling against the lifting manual's example and common practice.
#include <fmt/core.h>

#include "models/route/stations.hpp"
#include "tests/reference/table/models.hpp"

namespace rackwright::validation {
namespace {

using namespace rackwright::route;

double limit(double h, double v, double d, int coupling) {
  return lifting_limit(Metres(h * 0.0254), Metres(v * 0.0254), Metres(d * 0.0254), Degrees(0.0), 0.2, coupling).value();
}

void lifting(Sheet& sheet) {
  const double upright = 0.75 / 0.0254;  // hands at 75 cm: vertical factor 1
  sheet.from("NIOSH 94-110, worked example in US units; it rounds each factor to two places and takes 10 in and 51 lb where "
             "the metric form has 25 cm and 23 kg", Standing::memory, Bound::ours);
  sheet.near("limit, hands 23 in out, 15 in up, travel 48 in, fair grip", "lb", 16.3, 0.65, limit(23, 15, 48, 1) / 0.45359237);
  sheet.near("horizontal factor at 23 in", "1", 0.44, 0.0125, limit(23, upright, 5, 0) / 23.0);
  sheet.bounds(Bound::rounding);
  sheet.near("vertical factor at 15 in", "1", 0.89, 0.005, limit(5, 15, 5, 0) / 23.0);
  sheet.near("distance factor at 48 in", "1", 0.86, 0.005, limit(5, upright, 48, 0) / 23.0);
  sheet.near("grip factor, fair", "1", 0.95, 1e-9, limit(5, 15, 5, 1) / limit(5, 15, 5, 0));
  sheet.from("lifting equation in metric form (ccohs.ca)", Standing::found, Bound::rounding);
  sheet.near("load constant", "kg", 23.0, 1e-9, limit(5, upright, 5, 0));
  sheet.from("NIOSH 94-110 table 5: lifts a minute, hands at 75 cm or above", Standing::memory, Bound::rounding);
  const struct { double lifts; LiftDuration duration; const char* hours; double multiplier; } rows[] = {
      {0.2, LiftDuration::up_to_1_hour, "1 h", 1.00},   {1.0, LiftDuration::up_to_1_hour, "1 h", 0.94},
      {5.0, LiftDuration::up_to_1_hour, "1 h", 0.80},   {10.0, LiftDuration::up_to_1_hour, "1 h", 0.45},
      {15.0, LiftDuration::up_to_1_hour, "1 h", 0.28},  {0.2, LiftDuration::up_to_2_hours, "2 h", 0.95},
      {5.0, LiftDuration::up_to_2_hours, "2 h", 0.60},  {0.2, LiftDuration::up_to_8_hours, "8 h", 0.85},
      {5.0, LiftDuration::up_to_8_hours, "8 h", 0.35},  {9.0, LiftDuration::up_to_8_hours, "8 h", 0.15}};
  for (const auto& row : rows)
    sheet.near(fmt::format("frequency factor, {} lifts a minute for {}", row.lifts, row.hours), "1", row.multiplier, 1e-9,
               frequency_multiplier(row.lifts, Metres(0.75), row.duration));
}

}  // namespace

Sheet route_rows() {
  Sheet sheet("route and chores");
  lifting(sheet);
  sheet.from("eight days on the rack with one harvest a day need eight positions a daily tray, and the soak", Standing::practice, Bound::rounding);
  const Positions places = littles_law(1.0, days(8), Hours(12.0));
  sheet.near("places on the rack, a tray a day for 8 d", "trays", 8.0, 1e-9, places.on_rack);
  sheet.near("places in soak, 12 h", "trays", 0.5, 1e-9, places.in_soak);
  LineShape shape;
  shape.keeper_minutes_per_day = 1000.0;
  shape.soak_buckets = 100;
  shape.positions = 32;
  for (const auto& [handling, word] : {std::pair{Handling::ladder, "ladder"}, std::pair{Handling::fixed, "fixed"}})
    sheet.near(fmt::format("trays a day 32 positions carry for 8 d, {}", word), "1/d", 4.0, 1e-9,
               plan(usual_layout(shape, handling, {}), shape, handling, {}).daily_ceiling);
  return sheet;
}

}  // namespace rackwright::validation
