#pragma once
// From a tray log to what a fit can use: cases (how a tray was sown and kept) and what was seen of each, with reasons for what is not used.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "sim/scenario/tray_log.hpp"
#include "sim/study/fit_readings.hpp"
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
  ReadSpan fresh_span{}, height_span{};        ///< how far beside them the truth may lie
  double ruler = 0.0;                          ///< spread of log_height by the ruler
  std::optional<LoggedSpoil> spoiled{};
};

/// Seeds that the keeper tried of a lot, and how many of them came; none where no germination is stated.
struct LotTrial { double seeds = 0.0, came = 0.0; };
/// Seeds in a trial whose count nobody wrote down: the usual hundred (assumed).
inline constexpr double trial_seeds = 100.0;

/// A lot of the log: its name, species and the grade it is drawn from.
struct LoggedLot {
  std::string name;
  int species = 0;
  grain::Grade grade;
  std::vector<double> tried{};                 ///< shares stated of it that differ: a trial each
  [[nodiscard]] LotTrial trial() const;
};

struct FitLog {
  std::vector<std::string> species;
  std::vector<LoggedLot> lots;
  std::vector<TrayCase> cases;
  std::vector<Seen> seen;
  std::map<std::string, std::vector<int>> unused;  ///< why, and the lines of the trays
  std::map<std::string, int> assumed;          ///< what was taken from the scenario, and for how many of the trays used
  std::vector<std::string> unsown;             ///< species of trays used that the keeper's scenario has no grain of
  ReadColumn weight_column{}, height_column{};
  int weights = 0, heights = 0, judged = 0, spoiled = 0;
};

/// Species of a log that the scenario does not know, as problems with their lines.
Problems unknown_species(const TrayLog& log, const Scenario& scenario);

/// Species that a log is about; the scenario's first grain's (barley where it has none) stands for those left empty.
std::vector<std::string> species_of(const TrayLog& log, const Scenario& scenario);

/// `stated`: the scenario is the keeper's own, so that its days on the rack, soak, density and tray stand for empty cells. Without one the
/// soak and density do, but a tray whose days are not stated is not used.
FitLog fit_log(const TrayLog& log, const Scenario& scenario, bool stated, const LoggedRoom& room, const TrayModel& model);

/// Finds how finely weights and heights were read, and what each of them then tells; anew where trays were taken out.
void note_readings(FitLog& log);

/// How tall a mat was, as compared [1].
double log_of_height(double height_cm);

}  // namespace rackwright::study
