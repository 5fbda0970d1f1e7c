#pragma once
// growth::mat worked out over growth time for one grain at the scenario's density; linear between rows.
//
// A mat is linear in its sprouted share, so two mats - all sprouted, none sprouted - stand for every tray. Rows are 0.05
// growth days apart: against growth::mat itself masses agree to 2e-4 relative, and all balances hold exactly, because masses
// and water are made from the row's loss and swelling alone.

#include <algorithm>
#include <cstddef>
#include <vector>

#include "models/growth/mat.hpp"

namespace rackwright {

/// One growth age, all sprouted, per kilogram of grain as bought.
struct MatRow {
  double loss = 0.0;           ///< of dry matter [1]
  double swell = 0.0;          ///< fresh mass over dry matter, beyond that of soaked grain [1]
  double height_cm = 0.0;      ///< of a full stand
  double heat = 0.0;           ///< at one growth day a day [W/kg]
};

/// Two mats of one age: all sprouted and none sprouted, per kilogram of grain.
struct MatPair {
  double loss = 0.0;                               ///< of dry matter, all sprouted [1]
  double fresh = 0.0, soaked_fresh = 0.0;          ///< [kg/kg]
  double taken_up = 0.0, soaked_taken_up = 0.0;    ///< water held, less the grain's own and what respiration made [L/kg]
  double height_cm = 0.0;                          ///< of a full stand
};

class MatTable {
 public:
  static constexpr double step = 0.05, last = 40.0;  ///< growth days

  MatTable() = default;
  MatTable(const growth::Parameters& parameters, KilogramsPerSquareMetre density, double grain_dry_matter);
  /// Factors on dry matter lost and on swelling stand for what is not known of them.
  [[nodiscard]] MatPair at(double growth_days, double loss_factor = 1.0, double swell_factor = 1.0) const {
    constexpr double most_lost = 0.95;
    const auto [row, share] = place(growth_days);
    const MatRow& a = rows_[row];
    const MatRow& b = rows_[row + 1];
    MatPair mats;
    mats.loss = std::min(most_lost, loss_factor * (a.loss + share * (b.loss - a.loss)));
    const double solids = grain_dry_matter_ * (1.0 - mats.loss);
    const double brought = 1.0 - grain_dry_matter_;
    mats.fresh = solids * (soaked_ratio_ + swell_factor * (a.swell + share * (b.swell - a.swell)));
    mats.soaked_fresh = grain_dry_matter_ * soaked_ratio_;
    mats.taken_up = mats.fresh - solids - brought - made_ * mats.loss;
    mats.soaked_taken_up = mats.soaked_fresh - grain_dry_matter_ - brought;
    mats.height_cm = a.height_cm + share * (b.height_cm - a.height_cm);
    return mats;
  }
  /// Only the heat of that row [W/kg].
  [[nodiscard]] double heat(double growth_days) const {
    const auto [row, share] = place(growth_days);
    return rows_[row].heat + share * (rows_[row + 1].heat - rows_[row].heat);
  }
  /// From age 0, `step` apart; the last is beyond `last`.
  [[nodiscard]] const std::vector<MatRow>& rows() const { return rows_; }
  /// Share of sprouts that the sowing density leaves room for [1].
  [[nodiscard]] double uncrowded() const { return uncrowded_; }

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
  double uncrowded_ = 1.0;
  double grain_dry_matter_ = 0.88, soaked_ratio_ = 1.0;  ///< of the grain; fresh mass over dry matter of soaked grain [1]
  double made_ = 0.0;                                    ///< water made by a unit of loss [L/kg]
};

}  // namespace rackwright
