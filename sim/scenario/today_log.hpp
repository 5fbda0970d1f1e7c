#pragma once
// What stands in the barn, from the keeper's log of trays in place of a state file. docs/how-to/run-the-line.md.

#include <string>
#include <vector>

#include "sim/scenario/today.hpp"
#include "sim/scenario/tray_log.hpp"

namespace rackwright {

struct LoggedToday {
  std::optional<Today> today{};            ///< there only when there are no problems
  std::vector<std::string> remarks{};      ///< what was taken from elsewhere or left out, in sentences
  Problems problems{};                     ///< with the lines of the log
};

/// The log has no column of harvests: a tray is gone at its sowing and its `days`; without them as soon as its row has a weight, a height or a
/// judgement; a spoiled one in any case; and one without an end after oldest_mat_days. A row sown at `at` or later is in the bucket
/// where its soak (else the line's) began before, and otherwise left out and told.
LoggedToday today_from_log(const TrayLog& log, const Scenario& scenario, const When& at);
/// The same from a file, whose bare numbers are in the scenario's units; an unreadable file is a Problem.
LoggedToday today_from_log_file(const std::string& path, const Scenario& scenario, const When& at);

/// "Line 7" or "Lines 3 to 5, 9 and 12"; of very many only the first, with the number of the others. Rising, at least one.
std::string lines_words(const std::vector<int>& lines);

}  // namespace rackwright
