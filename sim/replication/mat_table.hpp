#pragma once
// growth::mat worked out over growth time for one grain at the scenario's density; linear between rows.
//
// A mat is linear in its sprouted share, so two mats - all sprouted, none sprouted - stand for every tray. Rows are 0.05
// growth days apart: against growth::mat itself masses agree to 2e-4 relative, and all balances hold exactly, because
// every column is a linear function of the others along a row.

#include <algorithm>
#include <cstddef>
#include <vector>

#include "models/growth/mat.hpp"

namespace rackwright {

/// One growth age, per kilogram of grain as bought.
struct MatRow {
  double fresh = 0.0;          ///< all sprouted [kg/kg]
  double loss = 0.0;           ///< all sprouted, of dry matter [1]
  double height_cm = 0.0;
  double water = 0.0;          ///< all sprouted, net of drainage [L/kg]
  double soaked_water = 0.0;   ///< none sprouted [L/kg]
  double heat = 0.0;           ///< all sprouted, at one growth day a day [W/kg]
};

class MatTable {
 public:
  static constexpr double step = 0.05, last = 40.0;  ///< growth days

  MatTable() = default;
  MatTable(const growth::Parameters& parameters, KilogramsPerSquareMetre density, double grain_dry_matter);
  [[nodiscard]] MatRow at(double growth_days) const;
  /// Only the heat of that row [W/kg].
  [[nodiscard]] double heat(double growth_days) const {
    const auto [row, share] = place(growth_days);
    return rows_[row].heat + share * (rows_[row + 1].heat - rows_[row].heat);
  }
  /// From age 0, `step` apart; the last is beyond `last`.
  [[nodiscard]] const std::vector<MatRow>& rows() const { return rows_; }
  /// Fresh mass of grain that only soaked [kg/kg].
  [[nodiscard]] double soaked_fresh() const { return soaked_fresh_; }

 private:
  // Row below an age, and the share of the way to the next.
  struct Place {
    std::size_t row;
    double share;
  };
  static Place place(double growth_days) {
    const double at = std::min(last / step, std::max(0.0, growth_days * (1.0 / step)));
    const int row = static_cast<int>(at);
    return {static_cast<std::size_t>(row), at - row};
  }

  std::vector<MatRow> rows_;
  double soaked_fresh_ = 0.0;
};

}  // namespace rackwright
