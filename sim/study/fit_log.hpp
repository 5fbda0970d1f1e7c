#pragma once
// From a tray log to what a fit can use: cases (how a tray was sown and kept) and what was seen of each, with reasons for what is not used.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "sim/scenario/tray_log.hpp"
#include "sim/study/fit_tray.hpp"

namespace rackwright::study {

/// What was seen of one tray; absent is not seen. Weight and height only of sound mats.
struct Seen {
  int tray_case = 0;
  int line = 0;                                ///< of the file
  std::chrono::sys_days ended{};               ///< the day of its harvest
  double grain_kg = 0.0;                       ///< 0 where not stated
  std::optional<double> log_fresh{};           ///< ln of fresh mass over grain
  std::optional<double> log_height{};          ///< ln of height + 1 cm
  std::optional<LoggedSpoil> spoiled{};
};

/// A lot of the log: its name, species and the grade it is drawn from.
struct LoggedLot {
  std::string name;
  int species = 0;
  grain::Grade grade;
};

struct FitLog {
  std::vector<std::string> species;
  std::vector<LoggedLot> lots;
  std::vector<TrayCase> cases;
  std::vector<Seen> seen;
  std::map<std::string, std::vector<int>> unused;  ///< why, and the lines of the trays
  std::map<std::string, int> assumed;          ///< what was taken from the scenario, and for how many of the trays used
  int weights = 0, heights = 0, judged = 0, spoiled = 0;
};

/// Species of a log that the scenario does not know, as problems with their lines.
Problems unknown_species(const TrayLog& log, const Scenario& scenario);

/// Species that a log is about; the scenario's first grain's (barley where it has none) stands for those left empty.
std::vector<std::string> species_of(const TrayLog& log, const Scenario& scenario);

/// `stated`: the scenario is the keeper's own, so that its days on the rack, soak, density and tray stand for empty cells. Without one the
/// soak and density do, but a tray whose days are not stated is not used.
FitLog fit_log(const TrayLog& log, const Scenario& scenario, bool stated, const LoggedRoom& room, const TrayModel& model);

/// How tall a mat was, as compared [1].
double log_of_height(double height_cm);

}  // namespace rackwright::study
