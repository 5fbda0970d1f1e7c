#pragma once
// The hard times a stress study tries, and what a keeper might do about each.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/scenario/scenario.hpp"
#include "sim/study/against.hpp"

namespace rackwright::study {

/// A hard time to try: the scenario's own, or one of the built-in list laid at its worst season.
struct Planned {
  HardTime hard{};
  bool own = false;
};

/// The scenario's own, then one of every kind it has none of. Built-in heat and cold come at the warmest and coldest time
/// of the run; a power cut likewise where the room is cooled or heated (then in the cold); the next lot, the next order, litters and prices
/// go wrong from the run's start; the rest strike a third of the way in. All but those from the start on days when most animals are there.
std::vector<Planned> hard_list(const Scenario& scenario);

/// Why a hard time cannot strike this farm, as a sentence; empty when it can.
std::string cannot_strike(const Scenario& scenario, const HardTime& hard);

/// Last day on which a hard time may still begin to show at the animals' end, counted from the start of the run.
int shows_until(const Scenario& scenario, const HardTime& hard);

/// Something a keeper might do, as settings.
struct Countermeasure {
  std::string_view name;
  Settings settings{};
  bool priced = true;   ///< its own price is among the costs
  std::string needs{};  ///< what the keeper must have for it that he has not: "room for 425 kg of barley (the bin holds 300 kg)"
};

/// What may help against a kind of hard time and is not done yet, in a fixed order. `day` of the run on which it is at its worst: by that, doors and windows
/// stand open or not; not stated: they are shut. `freezes`: frost is what gives way in it, so that what keeps the room from freezing is tried as well, and
/// no water that would freeze with it.
std::vector<Countermeasure> countermeasures(const Scenario& scenario, HardTimeKind kind, std::optional<int> day = std::nullopt, bool freezes = false);

/// Day of the run in the middle of a hard time.
int middle_of(const HardTime& hard);

}  // namespace rackwright::study
