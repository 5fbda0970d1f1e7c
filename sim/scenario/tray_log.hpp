#pragma once
// The keeper's log of trays from a CSV file: what was sown, how warm the room was, what came of it. docs/how-to/log-trays-and-fit.md.

#include <chrono>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "models/base/quantity.hpp"
#include "sim/scenario/problem.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// Whether a mat was lost, and to what where the keeper says so.
enum class LoggedSpoil { sound, spoiled, mould, sour };

/// One tray. What was left empty is absent; only the date is always there.
struct LoggedTray {
  int line = 0;                              ///< of the file
  std::chrono::sys_days sown{};
  std::optional<int> minute{};               ///< of the day, where a time stands behind the date
  std::string lot{}, species{};              ///< as written; empty: not stated
  std::optional<double> germination{};       ///< share of its lot's kernels, as tried [1]
  std::optional<Kilograms> grain{};          ///< dry, as bought
  std::optional<Hours> soak{};
  std::optional<SquareMetres> area{};        ///< of the tray
  std::optional<Celsius> room_max{}, room_min{};  ///< of the day it was sown
  std::optional<double> days{};              ///< from sowing to harvest, or to being thrown out [d]
  std::optional<Kilograms> fresh{};          ///< the mat's weight at harvest
  std::optional<double> height_cm{};
  std::optional<LoggedSpoil> spoiled{};
  std::string notes{};

  /// Is it over: weighed, measured, judged, or its days stated?
  [[nodiscard]] bool ended() const { return days || fresh || height_cm || spoiled; }
};

/// Trays in the order of their dates, those of one day as in the file.
struct TrayLog {
  std::vector<LoggedTray> trays{};
  std::vector<std::string> set_aside{};      ///< names of columns the program does not know, as written
  std::string hash{};                        ///< of the bytes as read (FNV-1a)
};

/// What reading gave: the log is there only when there are no problems. Problems carry the line of the file; `key` is the column and
/// `value` what stands there. At most fifty are kept, then one that counts the rest.
struct TrayLogReading {
  std::optional<TrayLog> log;
  Problems problems;
};

/// What else is wrong with rows that could be read, asked where something is; of a row without a good date the date is 1970-01-01.
using AlsoWrong = std::function<Problems(const TrayLog&)>;

/// A header with units, "date sown, lot, germination [%], dry grain [kg], soak [h], room max [degC], room min [degC], days, fresh weight [kg],
/// height [cm], spoiled", in any order; any column but the date may be missing and any cell be empty. A cell may bring its own unit ("5 lb"),
/// and where neither does, `units` says it; hours and days need none. Never throws on bad text.
TrayLogReading read_tray_log(std::string_view text, std::optional<Units> units = std::nullopt, const AlsoWrong& also = {});

/// The same from a file of at most 16 MiB and 20000 trays; what cannot be read is a Problem with the path as its key.
TrayLogReading read_tray_log_file(const std::string& path, std::optional<Units> units = std::nullopt, const AlsoWrong& also = {});

}  // namespace rackwright
