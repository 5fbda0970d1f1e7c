#pragma once
// A worklist with all that is said around it, and how it is written.

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/replication/opening.hpp"
#include "sim/scenario/scenario.hpp"
#include "sim/study/recovery.hpp"
#include "sim/study/weather_advice.hpp"
#include "sim/study/worklist.hpp"
#include "sim/study/worklist_luck.hpp"

namespace rackwright::app {

struct Sheet {
  Scenario scenario{};                     ///< from the first day on
  Opening opening{};
  std::chrono::sys_days first{};
  int days = 7;                            ///< that are shown
  study::Worklist list{};
  std::vector<study::GrainOutlook> grains{};
  study::WeatherAdvice advice{};
  double ahead = 0.0;                      ///< batches more than a line that has kept its days; less than none: behind
  int unseen_soak = 0;                     ///< trays that a line that keeps its days has in soak now, where the keeper's log shows none
  bool from_state = false;                 ///< does it open with something the keeper wrote?
  std::vector<std::string> remarks{};      ///< where that was taken from, and what was left out
  std::optional<study::Luck> luck{};       ///< the same opening, played with luck
  std::optional<study::Recovery> recovery{};  ///< what brings it back, where it is a batch or more off
};

/// Tasks of the days that are shown.
std::vector<study::Task> shown_tasks(const Sheet& sheet);

/// Is it a feeding that is missing more than the scenario's tolerance?
bool is_short(const Sheet& sheet, const study::Task& task);
/// Share of the plays with luck in which that feeding is short; nothing where there are no plays.
std::optional<double> short_chance(const Sheet& sheet, const study::Task& task);
/// From this share of plays on a feeding is likely to be short, and may be.
inline constexpr double likely_short = 0.5, maybe_short = 0.2;
/// Minutes of work of a day, what is put to soak after its last round with it.
double work_minutes(const Sheet& sheet, std::size_t day);

/// "Tuesday 14 July 2026", and "14 July".
std::string long_date(std::chrono::sys_days day);
std::string short_date(std::chrono::sys_days day);
/// One task as a sentence without its time; and the first word of it.
std::string task_words(const Sheet& sheet, const study::Task& task);
std::string_view task_name(study::Task::Kind kind);
/// What to do with fodder of unripe mats; nothing of a task that has none.
std::string unripe_words(const Sheet& sheet, const study::Task& task);
/// Once for all days: what unripe mats are, and what to do with them; empty where none are cut.
std::string unripe_advice(const Sheet& sheet);
/// The sentences about the weather and about unripe mats, one a warning.
std::vector<std::string> advice_words(const Sheet& sheet);

/// What begins or ends on a day.
struct Turn {
  std::string_view what;      ///< "animals come", "animals go", "shade up", "shade down", "open", "shut", "first fodder", "fodder again"
  std::string of{};           ///< the animals, where it is of one group
  std::string words{};        ///< as a sentence
  std::string_view brief{};   ///< a few words where there is little room, of what is told in sentences; of others nothing
};
std::vector<Turn> turns_of_day(const Sheet& sheet, int day);

/// What to do where a log shows nothing in soak; nothing where that is as it should be.
std::string unseen_soak_words(const Sheet& sheet);
/// Is it behind by what the log has, and may it be on schedule by what stands in a bucket?
bool behind_unless_soaking(const Sheet& sheet);
/// On what the moves of a line that is behind depend; nothing where it is plain what is in soak.
std::string soak_proviso(const Sheet& sheet);
std::string recovery_text(const Sheet& sheet, const study::Recovery& recovery);
std::string schedule_text(const Sheet& sheet);
std::string schedule_csv(const Sheet& sheet);
std::string schedule_json(const Sheet& sheet);
std::string schedule_calendar(const Sheet& sheet);

}  // namespace rackwright::app
