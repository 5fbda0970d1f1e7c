#pragma once
// A germination trial with scatter between trays, and what two lots' trials say of each other. See docs/models/lot.md.

#include <functional>
#include <vector>

#include "models/base/quantity.hpp"

namespace rackwright::grain {

/// One tray or one replicate: so many sprouted of so many sown.
struct TrialTray { int germinated = 0, sown = 0; };

/// A Beta(germinated, failed) law of a lot's germinable fraction before any trial.
struct BetaPrior { double germinated = 1.0, failed = 1.0; };
/// The beta law with this mean in (0, 1) and over-dispersion rho in (0, 1): variance mean (1 - mean) rho.
BetaPrior prior_of(double mean, double rho);

/// Chance of `germinated` of `sown` in one tray of a lot with germinable fraction `fraction` in (0, 1), trays scattering by
/// rho in [0, 1): beta-binomial; binomial at 0. Natural logarithm.
double log_chance(const TrialTray& tray, double fraction, double rho);

/// The law of a lot's germinable fraction on a grid of equal cells over (0, 1).
class FractionLaw {
 public:
  static constexpr int cells = 2000;
  /// From a prior and trays that scatter by rho.
  FractionLaw(const BetaPrior& prior, const std::vector<TrialTray>& trays, double rho);

  /// Middle of a cell.
  static double at(int cell) { return (cell + 0.5) / cells; }
  [[nodiscard]] const std::vector<double>& chance() const { return chance_; }
  [[nodiscard]] double mean() const;
  [[nodiscard]] double deviation() const;
  /// Error below a cell's width, 0.0005. `share` in (0, 1).
  [[nodiscard]] double quantile(double share) const;

 private:
  explicit FractionLaw(std::vector<double> chance) : chance_(std::move(chance)) {}
  std::vector<double> chance_;  ///< sums to 1
};

/// Whether replicates differ by more than chance: by the printed table where they are 2 or 4 of 100, else by a chi-square
/// of equal fractions with 2.5 % false alarms, its statistic divided by 1 + (n - 1) rho for the scatter of trays.
struct Agreement {
  bool judged = false;     ///< there are at least two trays and they say something
  bool from_table = false;
  double found = 0.0;      ///< range [%], or chi-square
  double allowed = 0.0;    ///< of the same
  [[nodiscard]] bool agree() const { return !judged || found <= allowed; }
};
Agreement agreement(const std::vector<TrialTray>& trays, double rho);

/// What a kilogram of grain is worth at each germinable fraction: rising, on FractionLaw's grid, any one unit.
using Worth = std::vector<double>;

/// Two lots: what a unit of money buys of each.
struct Comparison {
  double pays = 0.0;            ///< chance that the candidate gives more for the money
  double candidate = 0.0, current = 0.0;  ///< expected worth per money
  std::vector<double> pays_at;  ///< the same chance were the candidate's fraction known, by cell
};
/// Prices above zero, per kilogram.
Comparison compare(const FractionLaw& candidate, double candidate_price, const FractionLaw& current, double current_price,
                   const Worth& worth);

/// What `more` further kernels (in trays of `tray`, scattering by rho) are expected to bring before they are sown.
struct TrialValue {
  int kernels = 0;
  double wrong = 0.0;  ///< expected chance of choosing the worse lot after it
  double gain = 0.0;   ///< expected gain in worth per money over choosing now
};
TrialValue value_of_trial(const FractionLaw& candidate, double candidate_price, const Comparison& now, const Worth& worth,
                          int more, double rho, int tray = 100);

/// How quick a lot is to germinate (usual is 1), by the days until its mats stood at a height: median and 95 % range.
struct Vigour { double mean = 1.0, low = 1.0, high = 1.0; };
/// Bayes' rule over ln vigour: normal between lots with sd `spread`, the logarithm of one reading of the days with sd `reading`. `days_at`
/// tells the days at a vigour, fewer at a greater one; infinite where the height is never reached, which it must be at 1.
Vigour vigour_of(const std::function<double(double)>& days_at, double seen_days, double spread, double reading);

}  // namespace rackwright::grain
