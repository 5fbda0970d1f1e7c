#pragma once
// Blocks of a measured record that go past its last day, and which lengths of block it has all year.

#include "models/climate/record.hpp"

namespace rackwright::climate {

/// Do its dew points replace what the parameters say of dryness? (300 of them, as fit_record wants.)
bool tells_dew(const Record& record);

/// Index of the day that follows within a block: the next one, or, after the record's last day, the same day of the year of the first year that has
/// it, so that one whole year is enough. Expects such a year there. Where some year has a whole block, none is taken past the end (next_block).
std::size_t day_after(const RecordedWeather& weather, std::size_t index);

/// The longest block that some year has from each day of the year on; 0 where a day of the year is in none. Never more than `most`.
int longest_block(const RecordedWeather& weather, int most);

}  // namespace rackwright::climate
