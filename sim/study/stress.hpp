#pragma once
// The design as written through hard times, each paired with the undisturbed run on the same fortunes, and what helps.

#include <array>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "sim/study/day_signs.hpp"
#include "sim/study/hard_list.hpp"
#include "sim/study/heat_limit.hpp"
#include "sim/study/piece_memory.hpp"

namespace rackwright::study {

/// Paired differences, struck minus undisturbed (or helped minus not helped), each with a 95 % interval. Days, mats and fill
/// are those of the hard time itself, from its first day until a fortnight after it can last show; a mat counts on the day
/// it turns. Spoiled and unripe mats fed and cost are over the whole run.
struct Effects {
  Estimate short_days{}, spoiled{}, spoiled_fed{}, unripe_fed{}, fill_rate{}, cost{};
};

/// One countermeasure in one hard time.
struct Trial {
  std::size_t hard_time = 0;        ///< index into StressResult::hard_times
  Countermeasure what{};
  std::string why_not{};            ///< why it could not be tried; the rest is then empty
  std::uint32_t replications = 0;
  Effects effects{};                ///< against doing nothing, in the same hard time
  int by_service = 0, by_cost = 0;  ///< places, 1 the best, of those tried in the same hard time
  std::optional<HeatLimit> limit{};
};

struct Struck {
  HardTime hard{};
  bool own = false;
  std::string why_not{};            ///< why it was not tried
  std::uint32_t replications = 0;
  Effects effects{};                ///< against the undisturbed run
  Estimate recovery{};              ///< days until fed as ever again [d]
  double not_over = 0.0;            ///< share of replications in which it was not over at the end of the run [1]
  std::array<double, sign_names.size()> first{};  ///< share of replications in which each sign came first [1]
  Estimate first_day{};             ///< days from its start to the first sign, of those that had one [d]
  Estimate first_short{};           ///< likewise to the first day with less fodder than undisturbed [d]
  double any_short = 0.0;           ///< share of replications with such a day [1]
  std::optional<HeatLimit> limit{}; ///< of the design as written
  bool freezes = false;             ///< more is lost to frost, in a tenth of the replications or more
};

struct StressRequest {
  PairRequest pairs{};
  std::vector<std::string> names{};  ///< of the hard times to try; empty: all
  std::function<void(const std::string& stage, std::size_t done, std::size_t of)> progress{};
  PieceMemory* memory = nullptr;     ///< keeps what was played
};

struct StressResult {
  std::vector<Struck> hard_times{};
  std::vector<Trial> trials{};       ///< by hard time, best by service first
  bool stopped = false;
};

/// The scenario has passed check_scenario; its own hard times are tried one by one, not all at once. Names that are not
/// in hard_list() are ignored (the caller has refused them). The result does not depend on the number of threads.
StressResult stress(const Scenario& scenario, const StressRequest& request);

}  // namespace rackwright::study
