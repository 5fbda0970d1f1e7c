#pragma once
// What a tray log says of the uncertain parameters: their laws of ignorance updated by Bayes' rule, as a Laplace approximation at the most
// probable values. docs/models/tray-fit.md.

#include <array>
#include <vector>

#include "models/base/symmetric.hpp"
#include "sim/study/fit_log.hpp"

namespace rackwright::study {

/// Scale of ln fresh mass, and of ln (height + 1 cm), before anything is known of it, and the spread of its logarithm (assumed).
inline constexpr double usual_weight_scatter = 0.05, usual_height_scatter = 0.08, scatter_spread = 0.5;

/// One draw of all that is unknown.
struct Drawn {
  LineFactors line;
  std::vector<LotState> lots;
  double weight_scatter = usual_weight_scatter, height_scatter = usual_height_scatter;
};

/// What a lot of that grade is, at two standard normal scores: beta law of germination, then vigour given it, as in a replication. Of a lot
/// that was tried germination is what the count says of it, whatever its grade.
LotState lot_at(const grain::Grade& grade, double germination_score, double vigour_score, const LotTrial& trial = {});
LotState lot_at(const LoggedLot& lot, double germination_score, double vigour_score);

/// A normal law of all unknowns in standard scores: one a law of ignorance, then each lot's germination, each lot's vigour, then the scatter
/// of weights and of heights. Before a log the mean is 0 and the covariance 1, but for the scenario's ties.
struct Posterior {
  std::vector<double> mean;
  Matrix covariance;
  bool settled = true;                       ///< did the search end where it should?

  [[nodiscard]] double sd(std::size_t score) const;
};

class TrayFit {
 public:
  /// All three must outlive the fit.
  TrayFit(const Scenario& scenario, const TrayModel& model, const FitLog& log);
  TrayFit(const Scenario&&, const TrayModel&, const FitLog&) = delete;

  [[nodiscard]] std::size_t unknowns() const { return law_count + 2 * lots_ + 2; }
  [[nodiscard]] std::size_t weight_scatter_place() const { return law_count + 2 * lots_; }
  [[nodiscard]] Posterior prior() const;
  /// Most probable scores and their covariance; the search begins at `start` where given.
  [[nodiscard]] Posterior fit(const std::vector<double>* start = nullptr) const;
  [[nodiscard]] Drawn at(const std::vector<double>& scores) const;
  /// Minus the logarithm of the posterior density, up to a constant; its slope by every score where asked for. `spent`: so many weights and
  /// so many heights go to what else is fitted, and tell nothing of the scatter (restricted likelihood).
  [[nodiscard]] double minus_log_density(const std::vector<double>& scores, std::vector<double>* slope = nullptr,
                                         std::array<double, 2> spent = {}) const;
  /// By how many scales each weight misses what is most probable, in the order of the log; NaN where none was seen.
  [[nodiscard]] std::vector<double> weight_misses(const std::vector<double>& scores) const;

 private:
  struct Ends { double fresh = 0.0, height = 0.0, mould = 0.0, sour = 0.0; };  ///< logarithms; height of height + 1 cm
  /// What one tray adds to the slope by its ends and by ln of its two scales, and to their curvature.
  struct Pull {
    std::array<double, 4> slope{};
    std::array<std::array<double, 4>, 4> curvature{};
    std::array<double, 2> scale_slope{}, scale_curvature{}, own{};  ///< own: of the scale in what both scale and ruler make
    double minus_log = 0.0;
  };
  [[nodiscard]] std::vector<Ends> ends(const std::vector<double>& scores) const;
  [[nodiscard]] std::vector<std::pair<std::size_t, std::vector<Ends>>> rises(const std::vector<double>& scores, const std::vector<Ends>& here) const;
  [[nodiscard]] Pull pull(const Seen& seen, const Ends& at, double weight_scatter, double height_scatter, bool expected,
                          bool curved) const;
  [[nodiscard]] Matrix curvature(const std::vector<double>& scores, bool expected, std::array<double, 2> spent) const;
  /// Weights and heights that the fitted values take up, given their covariance.
  [[nodiscard]] std::array<double, 2> spent(const std::vector<double>& scores, const Matrix& covariance) const;
  /// Triangle of the curvature, which is made sure to be positive definite.
  [[nodiscard]] Matrix triangle(const std::vector<double>& scores, std::array<double, 2> spent) const;
  struct Search;
  void search(std::vector<double>& scores, const Matrix& lower, std::array<double, 2> spent) const;
  [[nodiscard]] std::size_t place_in(std::size_t rise, const Seen& seen) const;
  static double search_step(unsigned count, const double* y, double* slope, void* data);

  const Scenario* scenario_;
  const TrayModel* model_;
  const FitLog* log_;
  std::size_t lots_;
  std::vector<std::size_t> felt_;            ///< laws that some tray of the log could tell
  Matrix prior_;                             ///< correlation of the laws
  Matrix prior_inverse_;
};

/// The scenario with the fit's centres, spreads and ties in place of its own.
Scenario with_fit(const Scenario& scenario, const Posterior& posterior);

}  // namespace rackwright::study
