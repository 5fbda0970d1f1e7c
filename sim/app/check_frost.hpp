#pragma once
// What a few played runs say of cold, and how large a heater the coldest days ask for.

#include <array>
#include <string>
#include <vector>

#include "sim/replication/plan.hpp"
#include "sim/study/run.hpp"

namespace rackwright::app {

/// Frost in the runs played: added up run by run.
struct Winters {
  int runs = 0, with_frost = 0;
  double frozen_hours = 0.0, killed = 0.0, unsown = 0.0, days = 0.0;  ///< summed
  double coldest = 1e9;                     ///< hour in the room of all runs [degC]
  std::array<int, 12> frozen_days{};        ///< by month
  std::vector<double> coldest_rooms{};  ///< by run: coldest hour [degC]
  struct Day { double outdoors; int of_year; };  ///< mean [degC]
  std::vector<Day> coldest_days{};      ///< by run

  /// `block` with the daily rows of all its runs.
  void add(const Plan& plan, const study::Block& block);
};

/// The first `runs` replications of the scenario, with all their daily rows.
study::RunRequest with_rows(const Plan& plan, int runs);

/// Cautions of frost in the room and of a heater too small for it, in the scenario's units; none where neither is to be expected. With frost
/// come what to do about it and the caution of heaters, which `cautions` may have said.
std::vector<std::string> frost_cautions(const Plan& plan, const Winters& winters);

/// What holds the room at `inside` [degC] through the winter of all but one run in ten, as long as there is power [W]; found by playing.
double heater_for(const Plan& plan, const Winters& winters, double inside);

}  // namespace rackwright::app
