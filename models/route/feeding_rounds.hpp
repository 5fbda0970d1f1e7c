#pragma once
// The walk of rounds on which animals are fed and nothing is sown.

#include "models/route/stations.hpp"

namespace rackwright::route {

/// The usual layout with the walk of further rounds: where there are more rounds a day than batches, each of them goes from the rack by the
/// animals to the washing place and back. What is walked so is laid on the ways of the day's batches, in equal parts, between the rack and the
/// animals. Expects that a batch is sown.
Layout with_feeding_rounds(Layout usual, const LineShape& shape, double rounds_per_day);

}  // namespace rackwright::route
