#pragma once
// Measured weather and the keys of [climate]: it goes before most of them.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// Does the measured weather of this scenario go before that key, so that its value changes nothing?
bool given_by_weather(const Scenario& scenario, std::string_view key);
/// Why such a key cannot vary, said of it.
inline constexpr std::string_view given_words =
    "changes nothing while climate.file gives the weather: the measured days go before it (drawn weather: climate.file = \"none\", and what rackwright fit weather finds)";

/// Such keys that `without`, the same scenario read without its weather file, states otherwise than they stand where nothing is stated and otherwise
/// than the file says.
/// `written`: the keys that the keeper wrote, where they are known; monthly means are told by their own key, not by those that they were turned into.
std::vector<std::string> stated_in_vain(const Scenario& scenario, const Scenario& without, const std::vector<std::string>& written = {});

/// Single keys that a scenario's text, settings typed with it and files of settings state.
std::vector<std::string> written_keys(std::string_view text, const std::vector<std::string>& settings);

/// The first key of a climate fitted to a record whose value no scenario may state, and why: a fault of the record. Nothing where there is none.
std::optional<std::string> beyond_keys(const Scenario& fitted);

}  // namespace rackwright
