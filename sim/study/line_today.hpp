#pragma once
// From what the keeper wrote of today to a run that opens with it.

#include <chrono>
#include <vector>

#include "sim/replication/opening.hpp"
#include "sim/replication/plan.hpp"
#include "sim/scenario/forecast.hpp"
#include "sim/scenario/scenario.hpp"
#include "sim/scenario/today.hpp"

namespace rackwright::study {

/// The scenario of a run of `days` from that day on. Hard times and spells are left out: they are of a year, not of this one.
Scenario from_day(const Scenario& scenario, std::chrono::sys_days day, int days);

/// What the run opens with. `begun`: the first day of the scenario as written, for births and a ration brought in.
Opening opening_of(const Scenario& scenario, const Today& today, const Forecast& forecast, std::chrono::sys_days begun);

/// Share of the mats that are sound, mean of some plays with luck from that opening on [1]: what a keeper knows of the season. 1 where every tray is sown
/// whatever is wanted. `scenario`: from_day.
double usual_sound(const Scenario& scenario, Opening opening);

/// Trays of each batch that the line sows on the days `first` to `last`, batch after batch, from the opening's day, which is 0: all of them, or what
/// the animals are to want, in mats as heavy as usual of which as many are sound as the opening says. `scenario`: from_day.
std::vector<int> usual_trays(const Scenario& scenario, Opening opening, int first, int last);

/// An empty rack at the beginning of a day.
Today empty_today(std::chrono::sys_days day);
/// A rack as it stands on a usual morning of that day, less its youngest `behind` batches, or with `ahead` batches that were not needed.
Today usual_today(const Scenario& scenario, std::chrono::sys_days day, int behind, int ahead);

/// Trays that a line that has kept its days has in soak at that time.
int usual_in_soak(const Scenario& scenario, const Today& today);

/// Batches (of as many trays as the line sows on the mean) that stand on the rack or in soak less those of a line that has kept its days; negative: behind. Two halves make a whole.
double batches_ahead(const Scenario& scenario, const Today& today);

}  // namespace rackwright::study
