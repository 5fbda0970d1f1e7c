#pragma once
// The room as a tray log tells it: a maximum and a minimum a day, with gaps; and what a mat makes of a day in it.

#include <chrono>
#include <optional>
#include <vector>

#include "sim/replication/species_models.hpp"
#include "sim/scenario/tray_log.hpp"

namespace rackwright::study {

/// Daily extremes of the room from the first day of a log on. Days between two readings lie on the line between them; where the nearest
/// reading is further than `bridged_days` nothing is known.
class LoggedRoom {
 public:
  static constexpr int bridged_days = 4;
  static constexpr int mean_days = 7;

  /// Readings up to `until` (not of that day or later) where given: then the days from there on take the mean of the last seven readings,
  /// as somebody would who forecasts on that morning.
  explicit LoggedRoom(const TrayLog& log, std::optional<std::chrono::sys_days> until = {});

  [[nodiscard]] bool any() const { return readings_ > 0; }
  [[nodiscard]] std::chrono::sys_days first() const { return first_; }
  [[nodiscard]] int day_of(std::chrono::sys_days date) const { return static_cast<int>((date - first_).count()); }
  [[nodiscard]] int days() const { return static_cast<int>(maximum_.size()); }
  /// Is the room known on all of [from, to]?
  [[nodiscard]] bool known(int from, int to) const;
  /// Temperature of an hour of the day: lowest at 6, highest at 15, half cosines between (assumed shape) [degC].
  [[nodiscard]] double at(int day, double hour) const;
  /// Mean of what was read [degC].
  [[nodiscard]] double mean() const { return mean_; }
  /// How far the mean of a week strays from that of the week before, by the log; 2 K where it does not say (assumed) [K].
  [[nodiscard]] double weekly_step() const { return weekly_step_; }

 private:
  void fill(const std::vector<int>& days);
  void hold(int from);
  void take_weeks(const std::vector<int>& days);

  std::chrono::sys_days first_{};
  std::vector<double> maximum_, minimum_;
  std::vector<char> known_;
  int readings_ = 0;
  double mean_ = 20.0, weekly_step_ = 2.0;
};

/// What a day, from a morning to the next, does to a mat warmer than the room's air by so much.
struct DayIncrement {
  double mould = 0.0, sour = 0.0;          ///< days at the hazard's best temperature
  double growth = 0.0;                     ///< growth days
  double rate = 0.0, rate_fraction = 0.0;  ///< germination progress, and times the fraction that can germinate
};

/// Those of every day of a room for one species.
class RoomResponse {
 public:
  RoomResponse(const LoggedRoom& room, const SpeciesModels& species, const spoilage::Parameters& spoil);
  [[nodiscard]] DayIncrement of(int day, double warmer) const;
  static constexpr double morning = 7.0;   ///< when trays are sown and cut [h] (assumed)

 private:
  static constexpr int nodes = 13;
  static constexpr double first_node = -10.0, node_step = 2.5;  ///< [K]
  std::vector<DayIncrement> rows_;         ///< [day][node]
};

}  // namespace rackwright::study
