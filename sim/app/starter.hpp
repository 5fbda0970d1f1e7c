#pragma once
// A first scenario from a handful of answers: what `rackwright new` writes.

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "sim/scenario/scenario.hpp"

namespace rackwright::app {

struct StarterGroup {
  std::string name, animal_class;
  int count = 1;
  std::optional<double> ration_kg{};  ///< fresh fodder a head a day; absent: a usual share of what the class eats
  std::optional<double> weight_kg{};  ///< live weight a head; absent: the class's usual one
  bool eats_less = false;             ///< thrifty for that weight, by repute
};

/// The room the rack stands in, as people call it, and what the word stands for (assumed, common practice).
struct Place {
  std::string_view name;
  double shell = 2.0;         ///< heat let through by walls and roof [W/m2/K]
  double heat_per_m2 = 300;   ///< heat capacity for each square metre of floor [kJ/K]
  double air_changes = 1.0;   ///< an hour
  double sun_per_m2 = 0.05;   ///< share of the floor area through which the sun comes in, as it were [1]
};
const std::vector<Place>& places();

/// The answers.
struct Starter {
  std::string title = "A first rack";
  bool us = false;
  std::string currency = "EUR";
  std::vector<StarterGroup> groups;
  bool own_animals = false;           ///< the groups are the keeper's own, not those of a ready farm
  std::string grain = "barley";       ///< species
  std::string grain_price = "9 / 25 kg";
  std::string feed = "hay";           ///< what they eat now
  std::string feed_price = "0.25 /kg";
  Place place;
  double coldest = 8.0, hottest = 26.0;                  ///< monthly means outdoors [degC]
  double minutes = 120.0;                                ///< for the chores, a day
  std::optional<std::pair<double, double>> tray{};       ///< length and width [m]; absent: one that fits the work
  std::vector<std::string> assumed{};                    ///< units that answers did not state: "0.26 is taken to be 0.26 EUR/kg"
};

/// Ready farms of our own: goats, hens, sheep, cows, rabbits, mixed.
const std::vector<std::string>& starter_kinds();
/// The farm of that kind; nothing if there is none. `us` and money are the caller's to set.
std::optional<Starter> starter_kind(std::string_view kind);

/// A commented scenario that `check` accepts, with a [choose] grid wide enough for `size` to find a rack.
std::string starter_text(const Starter& farm);

/// Fresh fodder a day that would be all a head of that group eats [kg].
double most_eaten(const StarterGroup& group);

/// What the line as written asks of the keeper a day [min], as check tells it; more than he has means help or fewer animals.
double starter_minutes(const Scenario& scenario);

}  // namespace rackwright::app
