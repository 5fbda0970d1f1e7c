#pragma once
// Points of a sweep played: what each yields.

#include <array>
#include <atomic>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "sim/replication/outcome.hpp"
#include "sim/study/sweep.hpp"

namespace rackwright::study {

/// What a sweep keeps of each point: a quantity of a replication, scaled to 365 days where it is an amount.
struct SweepColumn {
  std::string_view name, unit, long_name;
  double (*get)(const Outcome&);
};
constexpr std::size_t sweep_column_count = 14;
const std::array<SweepColumn, sweep_column_count>& sweep_columns();
/// Places of the two columns that tables and effects are made of.
constexpr std::size_t fill_rate_column = 0, cost_year_column = 1;

/// What became of a point.
enum class PointStatus : std::int32_t {
  played = 0,
  hopeless = 1,  ///< arithmetic alone rules out that it meets the target
  invalid = 2,   ///< no sound scenario
  failed = 3,    ///< a replication broke off
};

/// A quantity over the replications of a point. The quantiles are those of the values themselves: of rank ceil(p n).
struct Spread { double mean = 0.0, standard_error = 0.0, sd = 0.0, low = 0.0, median = 0.0, high = 0.0; };

struct SweepRow {
  std::uint64_t point = 0;
  PointStatus status = PointStatus::played;
  std::vector<double> values{};                       ///< by axis
  std::string why{};                                  ///< of a point not played, or ruled out
  double success = 0.0;                               ///< share of replications that keep the limits taken together
  double gap = 0.0;                                   ///< of the worst kept requirement of the target, kept.hpp: 0 or more meets it
  std::array<Spread, sweep_column_count> spreads{};   ///< by sweep_columns(); all NaN when not played
  [[nodiscard]] bool has_numbers() const;
};

/// Plays points of one sweep, one after the other, on replications 0, 1, ... of its seed. One a thread.
class SweepPlayer {
 public:
  SweepPlayer(const Scenario& scenario, const Sweep& sweep, const std::atomic<bool>* stop);
  /// Points first .. first + count - 1; nothing when stopped before the last.
  std::optional<std::vector<SweepRow>> play(std::uint64_t first, std::uint64_t count);

 private:
  std::optional<SweepRow> play_point(std::uint64_t point);
  bool replicate(const Scenario& design, SweepRow& row);

  Scenario scenario_;
  const Sweep& sweep_;
  const std::atomic<bool>* stop_;
  SweepPoints points_;
  std::array<std::vector<double>, sweep_column_count> values_{};
};

}  // namespace rackwright::study
