#pragma once
// THE table of what a result file holds. Writer, reader and the reference page are made from it.

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace rackwright::results {

enum class Type { real, single, whole, text };
enum class When { simulate, size, stress, sweep, sometimes };  ///< in files of that kind always; or only if there is something to say

/// One group of the file. A streamed dimension grows as replications arrive.
struct Group {
  std::string_view name, streamed_dimension, sentence;
};

/// What a row of the table stands for: one dataset, one for each column of an Outcome, of a DailyRow or of a sweep, or a mean
/// with the two ends of its 95 % interval.
enum class Each { one, outcome, daily, sweep, interval };

/// One row. In rows for columns "{}" in the path is the column's name, the unit is the column's, and `long_name`
/// follows the column's.
struct Row {
  std::string_view path, dimensions;  ///< dimensions: words; each is a coordinate dataset of the same group
  Type type;
  std::string_view unit,
      long_name;  ///< unit: UDUNITS text, empty for text; "days since" is completed with the start date; "currency" (with "kg-1" or alone) is money
  When when;
  Each each = Each::one;
};

std::span<const Group> groups();

/// A dataset as it stands in a file: a row with its column filled in.
struct Dataset {
  std::string path, group, name;
  std::vector<std::string> dimensions;
  Type type;
  std::string unit, long_name;
  When when;
  /// A dimension's own values: the dataset bears the dimension's name.
  /// Grows with the work done, so that what only wants the gist leaves it out.
  bool streamed = false;
  /// Counted in the scenario's currency, which the unit leaves out.
  bool money = false;
  [[nodiscard]] bool coordinate() const { return dimensions.size() == 1 && dimensions.front() == name; }
};

/// All datasets in file order, coordinates first in each group.
const std::vector<Dataset>& datasets();
/// The dataset at that path, or nullptr.
const Dataset* find_dataset(std::string_view path);

/// The reference page of the result file, in Markdown.
std::string describe_results();

}  // namespace rackwright::results
