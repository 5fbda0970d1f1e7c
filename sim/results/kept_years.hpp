#pragma once
// Years of designs that `size` has simulated, kept as parts.

#include <chrono>
#include <cstdint>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "sim/results/parts.hpp"
#include "sim/study/year_memory.hpp"

namespace rackwright::results {

/// Writes a part a few times a second: that is what a sudden end may cost.
class KeptYears : public study::YearMemory {
 public:
  /// Reads all parts there are.
  explicit KeptYears(Parts& parts);

  std::vector<Outcome> recall(std::size_t design, std::uint32_t first, std::uint32_t most) override;
  std::uint32_t next_known(std::size_t design, std::uint32_t first, std::uint32_t end) override;
  void keep(std::size_t design, std::uint32_t first, std::span<const Outcome> years) override;
  /// Writes what waits for the next part.
  void flush();
  /// Years read from parts.
  [[nodiscard]] std::uint64_t known() const { return known_count_; }

 private:
  using Clock = std::chrono::steady_clock;
  struct Run { std::uint64_t design = 0; std::uint32_t first = 0; std::vector<Outcome> years{}; };
  void read(const std::string& name);

  Parts& parts_;
  std::map<std::pair<std::size_t, std::uint32_t>, Outcome> known_{};  ///< by design and year
  std::uint64_t known_count_ = 0;
  std::vector<Run> waiting_{};
  Clock::time_point flushed_ = Clock::now();
  std::uint64_t next_part_ = 0;
};

}  // namespace rackwright::results
