#pragma once
// Running mean, variance and range without keeping the values, and the same for pairs, for ratios of sums.
// Welford 1962; merging after Chan, Golub & LeVeque 1979. Merging in a fixed order gives fixed bits.

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>

namespace rackwright::study {

/// Mean, variance, least and most of the values added so far. NaN in gives NaN out.
class Moments {
 public:
  void add(double value) {
    ++count_;
    const double before = value - mean_;
    mean_ += before / static_cast<double>(count_);
    squares_ += before * (value - mean_);
    least_ = std::min(least_, value);
    most_ = std::max(most_, value);
  }

  /// As if the other's values had been added here, to rounding.
  void merge(const Moments& other) {
    if (other.count_ == 0) return;
    const auto here = static_cast<double>(count_);
    const auto there = static_cast<double>(other.count_);
    const double apart = other.mean_ - mean_;
    mean_ = count_ == 0 ? other.mean_ : mean_ + apart * (there / (here + there));
    squares_ += other.squares_ + apart * apart * (here * there / (here + there));
    count_ += other.count_;
    least_ = std::min(least_, other.least_);
    most_ = std::max(most_, other.most_);
  }

  [[nodiscard]] std::uint64_t count() const { return count_; }
  /// 0 when empty.
  [[nodiscard]] double mean() const { return mean_; }
  /// Of the sample (n - 1); 0 below two values.
  [[nodiscard]] double variance() const { return count_ < 2 ? 0.0 : squares_ / static_cast<double>(count_ - 1); }
  [[nodiscard]] double sd() const { return std::sqrt(variance()); }
  /// Of the mean; infinite below two values, which say nothing about their spread.
  [[nodiscard]] double standard_error() const {
    return count_ < 2 ? std::numeric_limits<double>::infinity() : sd() / std::sqrt(static_cast<double>(count_));
  }
  /// 0 when empty.
  [[nodiscard]] double least() const { return count_ == 0 ? 0.0 : least_; }
  [[nodiscard]] double most() const { return count_ == 0 ? 0.0 : most_; }

 private:
  std::uint64_t count_ = 0;
  double mean_ = 0.0, squares_ = 0.0;  ///< squares: of deviations from the mean
  double least_ = std::numeric_limits<double>::infinity(), most_ = -std::numeric_limits<double>::infinity();
};

/// Sum of one quantity over the sum of another, e.g. money over kilograms, with its standard error by the delta method.
class RatioMoments {
 public:
  void add(double above, double below) {
    const double before = above - above_.mean();
    above_.add(above);
    below_.add(below);
    products_ += before * (below - below_.mean());
  }

  void merge(const RatioMoments& other) {
    const auto here = static_cast<double>(count());
    const auto there = static_cast<double>(other.count());
    if (there == 0.0) return;
    const double apart = (other.above_.mean() - above_.mean()) * (other.below_.mean() - below_.mean());
    products_ += other.products_ + apart * (here * there / (here + there));
    above_.merge(other.above_);
    below_.merge(other.below_);
  }

  [[nodiscard]] std::uint64_t count() const { return above_.count(); }
  [[nodiscard]] const Moments& above() const { return above_; }
  [[nodiscard]] const Moments& below() const { return below_; }
  [[nodiscard]] double covariance() const { return count() < 2 ? 0.0 : products_ / static_cast<double>(count() - 1); }
  /// 0 when the sum below is 0.
  [[nodiscard]] double ratio() const { return below_.mean() == 0.0 ? 0.0 : above_.mean() / below_.mean(); }
  /// Delta method: sd of (above - ratio below) over |mean below| and root n. Infinite below two pairs or over a zero
  /// sum.
  [[nodiscard]] double standard_error() const {
    if (count() < 2 || below_.mean() == 0.0) return std::numeric_limits<double>::infinity();
    const double r = ratio();
    const double variance = above_.variance() - 2.0 * r * covariance() + r * r * below_.variance();
    return std::sqrt(std::max(variance, 0.0) / static_cast<double>(count())) / std::abs(below_.mean());
  }

 private:
  Moments above_{}, below_{};
  double products_ = 0.0;  ///< of deviations from the two means
};

}  // namespace rackwright::study
