#pragma once
// The comparison with the outside as one table: the tests assert its rows and docs/validation.md prints them.

#include <string>
#include <string_view>
#include <vector>

namespace rackwright::validation {

/// How an expected value was come by.
enum class Standing {
  found,    ///< read in the source or a stored copy of it
  worked,   ///< arithmetic done apart from our code on a formula or data that was read
  memory,   ///< recalled from the source named, not read again
  practice  ///< common practice, no source
};

/// Where the width of a tolerance comes from.
enum class Bound {
  source,    ///< the source states it: its own tolerance, range or spread
  rounding,  ///< at most one unit of the last digit that was printed or kept; nothing for whole numbers
  scatter,   ///< the sampling error of the data, or of our own drawn runs, by a rule beside the row
  ours       ///< our reading: no source states it
};

/// One comparison. It is a hit when `got` lies within `tolerance` of `expected`.
struct Row {
  std::string model, what, unit;
  double expected = 0.0, tolerance = 0.0, got = 0.0;
  std::string source;
  Standing standing = Standing::found;
  Bound bound = Bound::ours;

  [[nodiscard]] bool hit() const;
};

/// The rows of one model, gathered source by source.
class Sheet {
 public:
  explicit Sheet(std::string model) : model_(std::move(model)) {}
  /// Rows that follow rest on this work, and so do their tolerances unless `bounds` says otherwise.
  void from(std::string source, Standing standing, Bound bound);
  /// Where the tolerances of the rows that follow come from, under the same work.
  void bounds(Bound bound) { bound_ = bound; }
  /// A value with its tolerance.
  void near(std::string what, std::string unit, double expected, double tolerance, double got);
  /// A range, ends included: its middle, give or take half.
  void within(std::string what, std::string unit, double least, double most, double got);
  std::vector<Row> rows;

 private:
  std::string model_, source_;
  Standing standing_ = Standing::found;
  Bound bound_ = Bound::ours;
};

/// Every row, models in the order of the page.
const std::vector<Row>& all_rows();

/// A row that is known to miss, and why it is left so. Anything else that misses is a failure, and so is a listed row
/// that has come to hit.
struct KnownMiss { std::string_view model, what, why; };
const std::vector<KnownMiss>& known_misses();

/// docs/validation.md.
std::string page();

std::string_view word(Standing standing);
std::string_view word(Bound bound);

}  // namespace rackwright::validation
