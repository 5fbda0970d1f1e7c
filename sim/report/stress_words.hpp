#pragma once
// A file of stress, value by value in words: the terminal and the page say the same.

#include <string>
#include <string_view>
#include <vector>

#include "sim/report/words.hpp"
#include "sim/results/result_file.hpp"

namespace rackwright::report {

/// A difference with its interval, the sign always shown and as many digits as the interval deserves: "+12.4 h (+11.9 to
/// +12.9)".
std::string signed_words(const study::Estimate& difference, double scale, const std::string& unit);

class StressWords {
 public:
  explicit StressWords(const results::ResultFile& file);

  [[nodiscard]] std::size_t count() const;
  [[nodiscard]] std::string name(std::size_t i) const { return text("stress/hard_time", i); }
  [[nodiscard]] std::string what(std::size_t i) const { return text("stress/what", i); }
  [[nodiscard]] std::string why_not(std::size_t i) const { return text("stress/why_not", i); }
  [[nodiscard]] std::string date(std::size_t i) const;      ///< "2026-07-18"
  [[nodiscard]] std::string first(std::size_t i) const;     ///< "souring, in 96 % of runs, on day 3.2 of it"
  [[nodiscard]] std::string first_short(std::size_t i) const;
  [[nodiscard]] std::string recovery(std::size_t i) const;
  [[nodiscard]] std::string limit(std::size_t i) const { return limit_words("stress", i); }
  /// A difference of /stress or of /countermeasure with its interval and sign: "+12.4 (11.9 to 12.9)".
  [[nodiscard]] std::string hard(std::string_view quantity, std::size_t i) const { return shown("stress", quantity, i); }
  [[nodiscard]] std::string helped(std::string_view quantity, std::size_t t) const { return shown("countermeasure", quantity, t); }
  /// The same of a countermeasure without its unit, for a column that names it: % points of fill_rate, money of cost.
  [[nodiscard]] std::string helped_bare(std::string_view quantity, std::size_t t) const;

  /// Trials of a hard time in the order of the file, which is best by service first.
  [[nodiscard]] std::vector<std::size_t> trials(std::size_t i) const;
  [[nodiscard]] std::string trial(std::size_t t) const { return text("countermeasure/name", t); }
  [[nodiscard]] std::string settings(std::size_t t) const { return text("countermeasure/settings", t); }
  [[nodiscard]] std::string trial_why_not(std::size_t t) const { return text("countermeasure/why_not", t); }
  /// What must be had for it and is not there; empty: nothing, or a file of an earlier version.
  [[nodiscard]] std::string trial_needs(std::size_t t) const;
  [[nodiscard]] std::string trial_limit(std::size_t t) const { return limit_words("countermeasure", t); }
  /// Which helps most, which is cheapest, and what to beware of in these figures.
  [[nodiscard]] std::string advice(std::size_t i) const;

  [[nodiscard]] std::string lead() const;    ///< the hard time that costs most short days, else most fodder
  /// That more spoiled mats are fed in some hard time; empty where that is shown of none.
  [[nodiscard]] std::string grave() const;
  [[nodiscard]] std::string method() const;  ///< how to read it

 private:
  [[nodiscard]] bool one_replication() const;
  [[nodiscard]] std::string lead_by_short_days() const;
  [[nodiscard]] std::string lead_by_fodder() const;
  [[nodiscard]] std::string lead_of_none() const;
  [[nodiscard]] std::string text(std::string_view path, std::size_t i) const;
  [[nodiscard]] double number(const std::string& path, std::size_t i) const;
  [[nodiscard]] study::Estimate estimate(const std::string& path, std::size_t i) const;
  [[nodiscard]] std::string shown(std::string_view group, std::string_view quantity, std::size_t i) const;
  [[nodiscard]] std::string limit_words(const std::string& group, std::size_t i) const;

  const results::ResultFile& file_;
  bool us_;
};

}  // namespace rackwright::report
