#pragma once
// Things that are bought together: a pump has its flow, its power and its price, a tray its size and its price. A key "kit.PART" means whichever kit
// of that part is in the scenario; to set it is to set all its keys.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/scenario/problem.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// PART of "kit.PART" where the scenario has a kit of that part; nothing otherwise.
std::optional<std::string> kit_part(const Scenario& scenario, std::string_view key);

/// The parts that kits are for, in order, each once.
std::vector<std::string> kit_parts(const Scenario& scenario);

/// Says that a key is not known, and the nearest one that is; of "kit.PART", that no kit is of that part.
Problem no_such_key(const Scenario& scenario, std::string_view key, std::string_view value);

/// Puts the kit of that name in, all of it or nothing; a problem is the key's, "kit.PART", and says what in the kit. "none" leaves the scenario as it is.
std::optional<Problem> take_kit(Scenario& scenario, std::string_view part, std::string_view name);

/// The first kit of that part whose keys are all as they stand now; "none" if there is none such.
std::string kit_taken(const Scenario& scenario, std::string_view part);

/// Keys that the kits of a part set; with a name, those of that kit alone.
std::vector<std::string> kit_keys_of(const Scenario& scenario, std::string_view part, std::string_view name = "");

/// A key that is set, or a kit that is taken: which one, or, where none is named, any of its part.
struct Stated { std::string key{}, value{}; };
/// Two of them, by their places, that set one key, which is told as the later one names it.
struct Clash { std::size_t later = 0, earlier = 0; std::string key{}; };
/// The first that is found, the contents of kits counted; nothing where each key is set once.
std::optional<Clash> clash(const Scenario& scenario, const std::vector<Stated>& stated);
/// The same told of keys among which one is chosen, a verb for what they do ("vary", "choose"): the key it is told of, and why. `twice`: "varies twice".
struct Told { std::string key{}, why{}; };
std::optional<Told> told_clash(const Scenario& scenario, const std::vector<Stated>& stated, std::string_view twice, std::string_view verb);

}  // namespace rackwright
