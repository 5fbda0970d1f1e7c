#pragma once
// Where a run begins to count: how long the line needs to forget that it began empty.

#include <cstddef>
#include <cstdint>
#include <span>

#include "sim/scenario/scenario.hpp"

namespace rackwright::study {

/// MSER-5: values to cut from the front of a series so that the mean of the rest is known best, that is, with the least
/// (sum of squares about the mean of the rest) / (number left)^2, over batches of five (White 1997, Simulation 69: 323-334;
/// White, Cobb & Spratt 2000, Winter Simulation Conference: 755-765). Cuts in the first half of the series are tried; if the
/// last of them is best, the series is too short to tell.
struct Cut { std::size_t values = 0; bool told = true; };
Cut mser5(std::span<const double> series);

/// Days of warm-up for a steady answer: MSER-5 on the daily fresh weight served by the line that starts empty, mean over
/// `replications`, with the herd as on day 0 and without the yearly wave, spells and births, which are no transient. At least
/// the usual run-in. Throws std::runtime_error when more than lead_days would be needed or it cannot be told.
int steady_warm_up(const Scenario& scenario, std::uint32_t replications = 24);

}  // namespace rackwright::study
