#pragma once
// What stands in the barn today, as the keeper writes it down: a small TOML file beside the scenario. docs/how-to/run-the-line.md.

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "models/base/quantity.hpp"
#include "sim/scenario/problem.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// A day, and the minute of it where one is stated.
struct When {
  std::chrono::sys_days day{};
  std::optional<int> minute{};
  friend bool operator==(const When&, const When&) = default;
};

struct Today {
  /// A batch on the rack: what is left of it.
  struct Batch {
    When sown{};
    int session = 0;                       ///< of the round that sowed it: the nearest to the time stated, else the morning's
    int trays = 0;
    std::string grain{};
    std::optional<double> germination{};   ///< of its lot; else what the scenario says [1]
    std::optional<Hours> soak{};           ///< else the line's
    double charge = 1.0;                   ///< dry grain on a tray over what the scenario sows on one [1]
  };
  /// Grain in a bucket; its batch is sown in the first round that leaves it most of its soak.
  struct Soaking { When since{}; int trays = 0; std::string grain{}; double charge = 1.0; };
  struct Lot { std::string grain{}; Kilograms amount{}; std::optional<double> germination{}; When came{}; };
  struct Order { std::string grain{}; Kilograms amount{}; When due{}; };

  When at{};                               ///< a minute left out is the day's beginning
  std::vector<Batch> batches{};            ///< oldest first
  std::vector<Soaking> soaking{};
  std::vector<Lot> store{};                ///< of a grain not named here there is what the scenario says
  std::vector<Order> orders{};
};

/// Mats older than this are none that a scenario knows of.
inline constexpr int oldest_mat_days = 45;

struct TodayReading {
  std::optional<Today> today{};            ///< there only when there are no problems
  Problems problems{};
};

/// Reads and checks against the scenario. Never throws on bad text.
TodayReading read_today(std::string_view text, const Scenario& scenario);
/// The same from a file; an unreadable file is a Problem.
TodayReading read_today_file(const std::string& path, const Scenario& scenario);

/// "2026-07-14", "2026-07-14T18:30" or with a blank for the T; nothing if it is neither, or no such day.
std::optional<When> read_when(std::string_view text);
/// The round of the day that lies nearest to a minute: 0 morning, 1 evening; always 0 where only mornings sow.
int nearest_session(const Scenario& scenario, std::optional<int> minute);
/// Minute of the day at which a round begins.
int round_minute(const Scenario& scenario, int session);
/// The grain whose turn it is in a round.
const std::string& grain_of_turn(const Scenario& scenario, int session);
/// Minutes since 1970 began.
long minutes_of(const When& when);

/// Grain in a bucket for longer than this is dead [d].
inline constexpr int longest_wet_days = 2;

}  // namespace rackwright
