#pragma once
// Years that were simulated before and need not be again.

#include <cstddef>
#include <cstdint>
#include <functional>
#include <span>
#include <string>
#include <vector>

#include "sim/study/design_runs.hpp"

namespace rackwright::study {

/// Remembers outcomes by design and year. Used from one thread.
class YearMemory {
 public:
  virtual ~YearMemory() = default;
  /// Known years of a design from `first` on without a gap, at most `most`.
  virtual std::vector<Outcome> recall(std::size_t design, std::uint32_t first, std::uint32_t most) = 0;
  /// The next year that is known, or `end` when none before it is.
  virtual std::uint32_t next_known(std::size_t design, std::uint32_t first, std::uint32_t end) = 0;
  /// Years just simulated, from `first` on.
  virtual void keep(std::size_t design, std::uint32_t first, std::span<const Outcome> years) = 0;
};

/// run_designs, but what request.memory (may be nullptr) knows is not simulated, and what is simulated it is given to
/// keep. The sink sees the same years in the same order either way.
bool run_or_recall(const Scenario& scenario, const std::vector<std::vector<std::string>>& values,
                   const std::vector<Elimination::Work>& work, const SizeRequest& request,
                   const std::function<void(const DesignYears&)>& sink);

}  // namespace rackwright::study
