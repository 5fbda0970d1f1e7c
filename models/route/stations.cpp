#include "models/route/stations.hpp"

#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"

namespace rackwright::route {

namespace {

// Trays a day the buckets can soak: a bucket stays taken for every batch time that falls within its soak.
double soak_capacity(const LineShape& shape) {
  const double batches_covered = std::max(1.0, std::ceil(shape.soak.value() * shape.batches_per_day / 24.0 - 1e-9));
  return shape.soak_buckets * shape.trays_per_bucket * shape.batches_per_day / batches_covered;
}

// Trays a day the rack can finish. On a ladder a tray takes one place a day, so lanes are whole; a rack too short for one lane has a tray less often than daily.
double rack_capacity(const LineShape& shape, Handling handling) {
  const double days = in_days(shape.days_on_rack), lanes = std::floor(shape.positions / std::ceil(days - 1e-9) + 1e-9);
  return handling == Handling::fixed || lanes < 1.0 ? shape.positions / days : lanes;
}

}  // namespace

Layout usual_layout(const LineShape& shape, Handling handling, const Times& times) {
  EXPECTS(shape.positions > 0 && shape.trays_per_batch > 0 && shape.batches_per_day > 0.0);
  EXPECTS(shape.days_on_rack.value() > 0.0 && shape.soak.value() >= 0.0 && shape.soak_buckets >= 0);
  const double per_batch = 1.0 / shape.trays_per_batch;
  const double moves = handling == Handling::ladder ? in_days(shape.days_on_rack) : 0.0;
  const double on_rack = times.sow_per_tray + times.harvest_per_tray + times.move_per_tray * moves;
  Layout layout;
  layout.stations = {{"store", 0.0, 0.0},
                     {"soak buckets", soak_capacity(shape), times.soak_per_batch * per_batch},
                     {"draining", 0.0, times.drain_per_batch * per_batch},
                     {"rack", rack_capacity(shape, handling), on_rack},
                     {"feeding", 0.0, 0.0},
                     {"wash", shape.wash_trays_per_day, times.wash_per_tray}};
  layout.paths = {{0, 1, shape.store_to_soak},
                  {1, 2, Metres(0.0)},
                  {2, 3, shape.soak_to_rack},
                  {3, 4, shape.rack_to_animals},
                  {4, 5, shape.animals_to_wash}};
  layout.first = 0;
  layout.last = 5;
  return layout;
}

Positions littles_law(double trays_per_day, Hours days_on_rack, Hours soak) {
  EXPECTS(trays_per_day >= 0.0 && days_on_rack.value() >= 0.0 && soak.value() >= 0.0);
  return {trays_per_day * in_days(days_on_rack), trays_per_day * in_days(soak)};
}

double session_minutes(const Times& times, const SessionWork& work) {
  return times.sow_per_tray * work.trays_sown + times.move_per_tray * work.trays_moved +
         times.harvest_per_tray * work.trays_harvested + times.feed_per_group * work.groups_fed +
         times.wash_per_tray * work.trays_washed + (times.soak_per_batch + times.drain_per_batch) * work.batches_soaked;
}

}  // namespace rackwright::route
