#pragma once
// Quantiles of a stream from counts in fixed bins. Counts only add up, so neither the order of values, nor threads, nor
// how parts are merged changes a bit of the answer, and memory is bounded whatever the number of values.

#include <cstdint>
#include <limits>
#include <vector>

namespace rackwright::study {

/// Bins: 64 equal steps within each power of two, the same below zero, and one bin for zero. Bin edges come from the
/// bits of the number, not from a logarithm, so every machine agrees.
///
/// quantile(p) differs from the exact one (the value of rank ceil(p n), at least 1) by at most `relative_error` of it,
/// for magnitudes between `smallest` and `largest`. Smaller magnitudes count as zero, larger ones as `largest`; least()
/// and most() are exact. When every value was a whole number so is the answer, which is then exact up to 128.
class QuantileSketch {
 public:
  static constexpr double relative_error = 1.0 / 128.0;
  static constexpr double smallest = 1.0 / (1U << 30U);                ///< about 1e-9
  static constexpr double largest = static_cast<double>(1ULL << 40U);  ///< about 1e12

  /// Value must be finite (EXPECTS).
  void add(double value);
  void merge(const QuantileSketch& other);

  [[nodiscard]] std::uint64_t count() const { return count_; }
  /// p in [0, 1]; p = 0 gives least(), p = 1 most(). 0 when empty.
  [[nodiscard]] double quantile(double p) const;
  [[nodiscard]] double least() const { return count_ == 0 ? 0.0 : least_; }
  [[nodiscard]] double most() const { return count_ == 0 ? 0.0 : most_; }
  /// Bytes held for counts: grows with the spread of the values, a few hundred as a rule and at most about 73 kB, never
  /// with their number.
  [[nodiscard]] std::size_t bytes() const;

  /// The sketch as plain numbers, for a file, and back.
  struct Entry {
    std::int32_t bin = 0;
    std::uint32_t count = 0;
    friend bool operator==(const Entry&, const Entry&) = default;
  };
  struct Parts { std::vector<Entry> entries{}; double least = 0.0, most = 0.0; bool whole = true; };
  [[nodiscard]] Parts parts() const;
  static QuantileSketch from(const Parts& parts);

  friend bool operator==(const QuantileSketch&, const QuantileSketch&) = default;

 private:
  /// Counts of neighbouring bins, from `first` on; only as wide as what was met.
  struct Window {
    std::int32_t first = 0;
    std::vector<std::uint32_t> counts{};
    void add(std::int32_t bin, std::uint32_t n);
    void widen(std::int32_t bin);  ///< until the bin has a place
    friend bool operator==(const Window&, const Window&) = default;
  };
  void add_bin(std::int32_t bin, std::uint32_t n);
  [[nodiscard]] double answer(std::int32_t bin) const;

  Window below_{}, above_{};  ///< negative and positive values, by bin of the magnitude
  std::uint64_t zeros_ = 0, count_ = 0;
  double least_ = std::numeric_limits<double>::infinity(), most_ = -std::numeric_limits<double>::infinity();
  bool whole_ = true;         ///< every value so far was a whole number
};

}  // namespace rackwright::study
