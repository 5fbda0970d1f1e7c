#pragma once
// Temperature response curves side by side, so that one look-up an hour serves every curve at several warmths.

#include <array>
#include <cstddef>
#include <vector>

namespace rackwright {

/// Rows of curve values by temperature; columns 0 and 1 are mould and souring (hazard growth factor per hour), then for
/// each species growth, germination rate and rate times germinable fraction (each per hour).
class ResponseTable {
 public:
  static constexpr double coldest = -20.0, warmest = 70.0;  ///< [degC]; beyond, the end row holds
  static constexpr double bin = 0.25;                       ///< [K]; linear between bins
  static constexpr int nodes = 5;                           ///< a mat is warmer than room air by one of these, or between
  static constexpr double first_node = -2.0, node_step = 3.5;  ///< [K]

  ResponseTable() = default;
  explicit ResponseTable(std::size_t curves);
  [[nodiscard]] std::size_t curves() const { return curves_; }
  /// Columns padded to a multiple of 8 so that a row is whole vector registers.
  [[nodiscard]] std::size_t stride() const { return stride_; }
  [[nodiscard]] std::size_t bins() const { return bins_; }
  float& at(std::size_t row, std::size_t curve) { return values_[2 * row * stride_ + curve]; }
  /// The row's values, and behind them, from `stride()` on, what each gains up to the next row; see close().
  [[nodiscard]] const float* row(std::size_t r) const { return values_.data() + 2 * r * stride_; }
  /// Works out the gains, once all values are set.
  void close();

  static constexpr std::size_t mould = 0, sour = 1;
  static constexpr std::size_t growth(int species) { return 2 + 3 * static_cast<std::size_t>(species); }
  static constexpr std::size_t rate(int species) { return growth(species) + 1; }
  static constexpr std::size_t rate_fraction(int species) { return growth(species) + 2; }

 private:
  std::size_t curves_ = 0, stride_ = 0, bins_ = 0;
  std::vector<float> values_;  ///< [row][value or gain][curve]
};

}  // namespace rackwright
