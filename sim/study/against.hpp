#pragma once
// One change to a scenario against the scenario as it is: paired differences on common fortunes.

#include <array>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "sim/scenario/problem.hpp"
#include "sim/scenario/scenario.hpp"
#include "sim/study/moments.hpp"
#include "sim/study/paired.hpp"
#include "sim/study/piece_memory.hpp"
#include "sim/study/summary.hpp"

namespace rackwright::study {

/// A column compared, and which way is better: +1 more, -1 less, 0 neither is.
struct Compared {
  std::string_view column;
  int better = 0;
};
inline constexpr std::size_t compared_count = 9;
std::span<const Compared> compared();

/// Key and value as set_key takes them.
using Setting = std::pair<std::string, std::string>;
using Settings = std::vector<Setting>;

/// Reads "line.soak=8 h, group.milkers.count+=5, grain.barley.price*=1.2": KEY=VALUE sets, += and -= add and take away in
/// the key's unit or by a share ("+=20 %"), *= multiplies. The settings are absolute afterwards.
std::variant<Settings, Problem> read_change(const Scenario& scenario, std::string_view text);

/// The scenario with the settings, checked; or what is wrong with that.
std::variant<Scenario, Problems> changed(const Scenario& scenario, const Settings& settings);

/// One column before and after, and the mean of the paired differences with its 95 % interval (Student's t).
struct Difference {
  Estimate before{}, after{}, difference{};
};
/// "better", "worse", "more", "less" or "no difference shown": the interval must lie on one side of zero.
std::string verdict(const Estimate& difference, int better);

struct Comparison {
  std::string change{};                    ///< as typed
  Settings settings{};
  std::uint32_t replications = 0;          ///< that were played under both
  std::vector<Difference> columns{};       ///< as compared()
};

/// Differences of all compared() columns of pairs as they come.
class Differences {
 public:
  Differences();
  using Record = std::array<std::array<double, 2>, compared_count>;  ///< before and after, as compared()
  static Record judge(const Side& before, const Side& after);
  void add(const Record& record);
  [[nodiscard]] std::vector<Difference> columns() const;

 private:
  struct Column { Moments before{}, after{}, difference{}; };
  std::vector<Column> columns_;
};

/// `memory` (may be nullptr) keeps what was played, under `name`.
Comparison compare(const Scenario& before, const Scenario& after, const PairRequest& request,
                   PieceMemory* memory = nullptr, const std::string& name = "");

}  // namespace rackwright::study
