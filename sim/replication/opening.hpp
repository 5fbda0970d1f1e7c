#pragma once
// A run that opens with what stands in the barn today, in place of a line run in by itself: batches, buckets, grain and orders as the
// keeper finds them, weather that is known or forecast, and a course that leaves the scenario's for some days.

#include <cstdint>
#include <optional>
#include <vector>

#include "models/base/quantity.hpp"

namespace rackwright {

/// A sowing that is otherwise than the scenario's.
struct Sowing {
  int day = 0, session = 0;            ///< of the round that sows it
  int trays = 0;
  double charge = 1.0;                 ///< of the usual sowing density [1]
  std::optional<Hours> soak{};
};

/// What is done otherwise than the scenario says, from the opening on.
struct Course {
  int days = 0;                        ///< for which all but the sowings holds
  int younger = 0;                     ///< days before their time that mats may be cut
  double ready = 0.0;                  ///< share of ripe growth that is enough; 0: the line's [1]
  double ration = 1.0;                 ///< share of what is wanted that is given at most [1]
  bool reserve = true;                 ///< is what is missing made up from the reserve?
  Kelvins warmer{0.0};                 ///< that the heater is set
  Watts heater{0.0};                   ///< and has at least
  std::vector<Sowing> sowings{};
};

/// Days count from the opening's, which is day 0; grains are places in Scenario::grains; charges are of the usual grain on a tray.
struct Opening {
  struct Sown { int day = 0, session = 0, trays = 0, grain = 0; std::optional<double> germinable{}; Hours soak{0.0}; double charge = 1.0; };
  struct Wet { std::int64_t since = 0; int day = 0, session = 0, trays = 0, grain = 0; double charge = 1.0; };
  struct Kept { int grain = 0; double kilograms = 0.0; std::optional<double> germinable{}; std::int64_t came = 0; };
  struct Ordered { int grain = 0; double kilograms = 0.0; std::int64_t due = 0; };
  struct Known { int day = 0; double maximum = 0.0, minimum = 0.0; };  ///< outdoors [degC]

  std::int64_t now = 0;                ///< minute of day 0 from which on the run goes by itself
  bool usual_luck = false;             ///< nothing is drawn: everything falls out as it does on the whole
  double sound = 1.0;                  ///< share of the mats of late that were sound: what one reckons with who sows as wanted [1]
  int days_gone = 0;                   ///< since the scenario's start, for births and a ration brought in
  std::vector<Sown> sown{};            ///< what stands on the rack, oldest first
  std::vector<Wet> wet{};              ///< grain in soak
  std::vector<std::optional<std::vector<Kept>>> kept{};  ///< by grain; nothing: as the scenario says
  std::vector<Ordered> ordered{};
  std::vector<Known> weather{};        ///< by day, days missing between them allowed
  Course course{};
};

struct Scenario;
/// Batches in soak that were put there after the last round before the opening: their minutes count with the round that comes.
int soaked_since_round(const Scenario& scenario, const Opening& opening);

}  // namespace rackwright
