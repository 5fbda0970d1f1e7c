#pragma once
// What the answer owes to numbers that nobody measured: each assumed key halved and doubled, the rest held, on the same luck.

#include <array>
#include <atomic>
#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "sim/scenario/scenario.hpp"
#include "sim/study/piece_memory.hpp"
#include "sim/study/summary.hpp"

namespace rackwright::study {

/// How the years differ from those of the scenario as it stands, paired year by year; for 365 days.
struct Shift {
  std::string value{};  ///< what the key was set to, as text in the scenario's units
  Estimate fill_rate{}, short_days{}, cost_year{};
};

/// One key. Keys of a list of tables ("grain", "group") are changed in every entry at once.
struct Influence {
  std::string key{};      ///< dotted; of a list without the entry's name: "grain.inoculum"
  std::string sentence{}, source{}, used{};
  Shift less{}, more{};   ///< halved and doubled; of shares their odds. Within the range of the key
};

struct InfluenceRequest {
  std::uint64_t random_seed = 1;
  std::uint32_t replications = 24;  ///< a side; at least 2 (EXPECTS)
  int threads = 0;
  std::function<void(std::size_t done, std::size_t of)> progress{};
  const std::atomic<bool>* stop = nullptr;
  PieceMemory* memory = nullptr;    ///< keeps what was played
};

/// The keys whose source says that they are assumed and that are numbers other than 0, those first that move the fill rate
/// most. Keys whose halved or doubled value the scenario does not bear are left out. The scenario has passed
/// check_scenario. Empty when stopped. Does not depend on the number of threads.
std::vector<Influence> influences(const Scenario& scenario, const InfluenceRequest& request);

}  // namespace rackwright::study
