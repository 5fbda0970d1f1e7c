#pragma once
// From text to a Scenario, all problems at once. The key table (key_table.hpp) is the only list of keys.

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "sim/scenario/problem.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// What reading gave: the scenario is there only when there are no problems.
struct Reading {
  std::optional<Scenario> scenario;
  Problems problems;
  std::string text;  ///< as read, for the result file
};

/// Reads and checks TOML text; `settings` are KEY=VALUE overrides applied before the checks.
/// Files it names are read from `folder`; where that is empty none is read.
Reading read_scenario(std::string_view text, const std::vector<std::string>& settings = {}, const std::string& folder = {});
/// The same from a file; an unreadable file is a Problem. A setting "@FILE" stands for the single keys that FILE states.
Reading read_scenario_file(const std::string& path, const std::vector<std::string>& settings = {});

/// Sets one key from text, as in a choice or --set; returns the problem if it does not fit. Lists of tables are
/// addressed by name or position: "group.milkers.count", "grain.1.price".
std::optional<Problem> set_key(Scenario& scenario, std::string_view key, std::string_view value_text);

/// Two of these keys, by their places, that set one thing: one key twice, an entry by its name and by its position, or two ways of stating it.
/// The later first, of the earliest such pair; nothing where there is none. Of keys that nobody knows only equal ones. `owners`, where given one for
/// each key: keys of one owner are not held against each other.
std::optional<std::pair<std::size_t, std::size_t>> stated_twice(const Scenario& scenario, const std::vector<std::string>& keys,
                                                                const std::vector<std::size_t>& owners = {});

/// Current value of a key as text in the scenario's units; nothing if there is no such key.
std::optional<std::string> get_key(const Scenario& scenario, std::string_view key);

/// Cross-checks that no single key shows (names that must exist, positions against trays a day, no herd ...).
Problems check_scenario(const Scenario& scenario);

/// Every key with its resolved value, as a TOML text that reads back to an equal scenario. What a grain's grade says of it, and the keeper does
/// not, stands in remarks.
std::string resolved_text(const Scenario& scenario);

}  // namespace rackwright
