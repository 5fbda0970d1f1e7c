#pragma once
// The estimates of a `simulate` file in words, and its table.

#include <string>
#include <string_view>
#include <vector>

#include "sim/report/words.hpp"
#include "sim/results/result_file.hpp"

namespace rackwright::report {

/// How a line's number is shown.
enum class Told {
  year,    ///< a total, for 365 days
  value,   ///< as it is
  share,   ///< in per cent
  money,   ///< a total, for 365 days, in the currency
  price,   ///< currency by mass
};

struct Line;

/// What can be said of counts that were the same in every replication, so that no interval stands beside them: that a year in so many may
/// still differ (rule of three: Hanley & Lippman-Hand 1983, JAMA 249, 1743-1745: of n without an event the 95 % upper bound is about 3/n).
/// Empty where every one of these quantities varied, or of fewer than three replications.
std::string unvaried_words(const results::ResultFile& file, const std::vector<std::string_view>& quantities);

/// How long single replications are, where they are no years: "of 3 years each", "of 73 days each"; least and most of a mean of a year are then of such. Else empty.
std::string range_words(const results::ResultFile& file);

/// The estimates of a file, as the page words them.
class Page {
 public:
  explicit Page(const results::ResultFile& file);
  [[nodiscard]] bool has(std::string_view quantity) const;
  /// Expects a quantity that the file has.
  [[nodiscard]] study::Estimate get(std::string_view quantity) const;
  [[nodiscard]] study::Estimate year(std::string_view quantity) const;
  [[nodiscard]] study::Estimate as(std::string_view quantity, Told how) const;
  [[nodiscard]] Shown shown(std::string_view quantity, Told how) const;
  [[nodiscard]] std::string words(std::string_view quantity, Told how) const;
  [[nodiscard]] std::string table() const;
  /// That the keeper has too few minutes; empty where he has enough.
  [[nodiscard]] std::string too_little_time() const;
  /// Is that so on one day in ten or more? Then it belongs beside the answer.
  [[nodiscard]] bool often_too_little_time() const;
  /// That grain is thrown out for its age; empty where it is less than a fiftieth of what is sown.
  [[nodiscard]] std::string stale_grain() const;
  /// That what is said of a year is for 365 days like those played; empty where a run is a year or longer.
  [[nodiscard]] std::string short_runs() const;
  /// That groups are here on no day of the runs; empty where all are on some.
  [[nodiscard]] std::string absent() const;
  /// That spoiled mats are fed; empty where none is, or the file does not say.
  [[nodiscard]] std::string grave() const;
  /// That mats are fed unripe; empty where they are one in a hundred or fewer.
  [[nodiscard]] std::string unripe() const;

 private:
  [[nodiscard]] std::string row(const Line& line) const;
  [[nodiscard]] bool happened(std::size_t line) const;
  [[nodiscard]] bool counted(const Line& line) const;
  [[nodiscard]] std::string_view unit(std::string_view quantity) const;

  const results::ResultFile& file_;
  bool us_;
  double per_year_ = 1.0;
};

}  // namespace rackwright::report
