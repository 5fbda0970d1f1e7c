#pragma once
// The path of grain and mats through the barn as a directed graph of stations, and the minutes it takes.
// Method, sources and what is left out: docs/models/route.md, docs/models/chores.md.

#include <string>
#include <vector>

#include "models/base/quantity.hpp"

namespace rackwright::route {

/// A place where trays are handled: each tray spends `minutes_per_tray` of the keeper there.
struct Station {
  std::string name;
  double trays_per_day = 0.0;     ///< what it can pass in a day; 0 means no limit of its own
  double minutes_per_tray = 0.0;  ///< keeper's time
};

struct Path { int from{}, to{}; Metres distance{}; };

struct Layout { std::vector<Station> stations; std::vector<Path> paths; int first{}, last{}; };

/// How trays are handled: all move a place a day, or each stays where it was sown.
enum class Handling { ladder, fixed };

/// Minutes each act takes; defaults are common practice, no source.
struct Times {
  double soak_per_batch = 3.0, drain_per_batch = 2.0, sow_per_tray = 2.0, move_per_tray = 0.25, harvest_per_tray = 1.5;
  double feed_per_group = 3.0, wash_per_tray = 2.0;
  double walking_speed = 60.0;  ///< [m/min], loaded
};

/// The line as the route sees it.
struct LineShape {
  int positions = 40;
  int trays_per_batch = 4;
  double batches_per_day = 1.0;
  Hours days_on_rack{192.0};
  Hours soak{10.0};
  int soak_buckets = 2;
  double trays_per_bucket = 4.0;
  double feedings_per_day = 3.0;  ///< of one group each: a group fed twice counts twice
  double wash_trays_per_day = 60.0;
  double keeper_minutes_per_day = 90.0;
  Metres store_to_soak{6.0}, soak_to_rack{4.0}, rack_to_animals{30.0}, animals_to_wash{20.0};
};

/// Store -> soak buckets -> draining -> rack -> feeding -> wash, with the capacities that shape gives: a bucket is taken
/// for every batch time its soak covers, the rack by Little's law (ladder handling: by whole lanes of one place a day,
/// where there is room for one).
Layout usual_layout(const LineShape& shape, Handling handling, const Times& times);

/// What the route allows and what the planned rate costs.
struct Plan {
  double daily_ceiling{};   ///< trays a day by maximum flow
  std::string bottleneck;       ///< station of the minimum cut
  double minutes_per_day{}; ///< handling and walking at the planned rate
  Metres walk_per_day{};
};

/// Maximum flow through the stations, each with its own limit, and through the keeper's minutes; the bottleneck is the
/// minimum cut nearest the store ("keeper's time" where that binds; several stations are joined by commas; "no path" where
/// first and last are not joined). Walking is the shortest way from first to last and back, once a batch.
Plan plan(const Layout& layout, const LineShape& shape, Handling handling, const Times& times);

/// Places by Little's law: rate times residence, the soak counted apart.
struct Positions { double on_rack{}, in_soak{}; };
Positions littles_law(double trays_per_day, Hours days_on_rack, Hours soak);

/// What was done in one session.
struct SessionWork { int trays_sown = 0, trays_moved = 0, trays_harvested = 0, groups_fed = 0, trays_washed = 0, batches_soaked = 0; };

/// Minutes of handling in one session, walking left out.
double session_minutes(const Times& times, const SessionWork& work);

/// How long the lifting of a day's work lasts at a stretch, for the frequency multiplier.
enum class LiftDuration { up_to_1_hour, up_to_2_hours, up_to_8_hours };

/// Recommended weight limit (NIOSH revised lifting equation, NIOSH 94-110): horizontal distance of the hands from the
/// ankles, their height and the vertical travel in m, asymmetry 0..135 degrees, lifts per minute, coupling (grip) 0 good,
/// 1 fair, 2 poor. Zero outside the equation's limits (63 cm out, 175 cm high or of travel, 135 degrees, 15 lifts a minute).
Kilograms lifting_limit(Metres horizontal, Metres vertical, Metres travel, Degrees asymmetry, double lifts_per_minute, int coupling,
                        LiftDuration duration = LiftDuration::up_to_1_hour);

/// The equation's frequency multiplier [1]: linear between the table's rows; below 0.2 lifts a minute that of 0.2.
double frequency_multiplier(double lifts_per_minute, Metres vertical, LiftDuration duration = LiftDuration::up_to_1_hour);

}  // namespace rackwright::route
