#pragma once
// How much of an answer's spread each input accounts for: first-order and total Sobol' indices.

#include <cstddef>
#include <cstdint>
#include <vector>

namespace rackwright::study {

/// An index with its 95 % interval.
struct Index { double value = 0.0, low = 0.0, high = 0.0; };
struct InputIndices {
  Index first_order;  ///< share of the variance that goes when this input alone is known
  Index total;        ///< share that is left when all others are known
};

/// Gathers rows of f(A), f(B) and f(A with column i of B), A and B independent points of the unit cube (Saltelli,
/// Annoni, Azzini, Campolongo, Ratto & Tarantola 2010, Comput. Phys. Commun. 181, 259-270). Memory does not grow with
/// the rows: they are added up in batches, and the batches of equal size are what the bootstrap draws from.
class SobolIndices {
 public:
  explicit SobolIndices(std::size_t inputs);
  /// `mixed`: by input. Values must be finite.
  void add(double a, double b, const std::vector<double>& mixed);
  [[nodiscard]] std::uint64_t rows() const { return rows_; }

  /// First order as mean((f(B) - m) (f(A_i) - f(A))) / V (their table 2, b, with the mean m taken off to lessen noise), total as mean((f(A) - f(A_i))^2) / 2V (Jansen
  /// 1999), V the variance over A and B together; intervals by the percentile bootstrap over batches, 1,000 resamples.
  /// All zero when the answer does not vary or there are fewer than 16 rows.
  [[nodiscard]] std::vector<InputIndices> indices(std::uint64_t random_seed) const;
  [[nodiscard]] double mean() const;
  [[nodiscard]] double variance() const;

 private:
  /// Sums over rows, each value less the first row's, which keeps them small.
  struct Batch {
    double rows = 0.0, sum_a = 0.0, sum_b = 0.0, squares = 0.0;
    std::vector<double> crossed{}, differences{}, mixed{};  ///< by input
    void add(const Batch& other, double times);
  };
  [[nodiscard]] Batch none() const;
  [[nodiscard]] std::vector<double> estimate(const Batch& all) const;
  void halve();

  static constexpr std::size_t most_batches = 1024;
  std::size_t inputs_;
  std::uint64_t rows_ = 0, batch_rows_ = 1;
  double shift_ = 0.0;
  std::vector<Batch> batches_{};
};

}  // namespace rackwright::study
