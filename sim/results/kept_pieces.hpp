#pragma once
// Finished pieces of a study, other than replications in order, kept as parts.

#include <chrono>
#include <cstdint>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "sim/results/parts.hpp"
#include "sim/study/piece_memory.hpp"

namespace rackwright::results {

/// Writes a part a few times a second: that is what a sudden end may cost.
class KeptPieces : public study::PieceMemory {
 public:
  /// Reads all parts there are.
  explicit KeptPieces(Parts& parts);

  std::optional<std::string> recall(const std::string& name) override;
  void keep(const std::string& name, std::string_view bytes) override;
  /// Writes what waits for the next part.
  void flush();

 private:
  using Clock = std::chrono::steady_clock;
  void read(const std::string& part);

  Parts& parts_;
  std::map<std::string, std::string> known_{};  ///< bytes by name
  std::vector<std::string> waiting_{};          ///< names
  Clock::time_point flushed_ = Clock::now();
  std::uint64_t next_part_ = 0;
};

}  // namespace rackwright::results
