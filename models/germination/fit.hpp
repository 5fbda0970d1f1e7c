#pragma once
// Fitting the germination model to counts. Kernels are looked at now and then, so a count says only that so many germinated
// between two looks: the likelihood is that of interval-censored times, with "not seen to germinate" as the last class.

#include <array>
#include <string_view>
#include <vector>

#include "models/germination/germination.hpp"

namespace rackwright::germination {

/// Dishes at one constant temperature, taken together.
struct Dish {
  Celsius temperature{};
  double sown = 0.0;                   ///< kernels
  std::vector<double> day{};           ///< of each look, rising [d since wetting]
  std::vector<double> germinated{};    ///< seen up to that look, never falling; as long as `day`
};

/// What is fitted, in this order. The ceiling is that of rate and fraction alike.
inline constexpr std::size_t fitted_count = 8;
inline constexpr std::array<std::string_view, fitted_count> fitted_names{
    "base", "toe", "decline", "ceiling", "theta", "fraction scale", "shape", "germinable"};
using FittedValues = std::array<double, fitted_count>;
FittedValues values_of(const Parameters& parameters, double germinable);

/// Multinomial log-likelihood without its constant.
double log_likelihood(const Parameters& parameters, double germinable, const std::vector<Dish>& dishes);

/// How the counts scatter about a fit. Cells are joined along the days until five are expected in each.
struct Scatter {
  double chi_square = 0.0;
  int degrees = 0;             ///< cells less dishes less parameters
  double inflation = 1.0;      ///< chi_square / degrees, at least 1: variances are this much larger than multinomial ones
};
Scatter scatter(const Parameters& parameters, double germinable, const std::vector<Dish>& dishes);

struct Fit {
  Parameters parameters{};
  double germinable = 1.0;
  FittedValues standard_error{};   ///< by the observed information, times the square root of the scatter's inflation
  std::array<FittedValues, fitted_count> covariance{};
  double log_likelihood = 0.0;
  Scatter scatter{};
};

/// Maximum likelihood from a start (subplex, NLopt), all eight parameters free. Throws std::runtime_error if the information
/// is singular there: the counts then do not say what some parameter is. Needs dishes at four temperatures or more.
Fit fit(const std::vector<Dish>& dishes, const Parameters& start, double germinable);

/// Median time at a temperature with its standard error by the delta method [d].
struct Median { double days = 0.0, standard_error = 0.0; };
Median median_at(const Fit& fit, Celsius temperature);

/// The open barley counts behind the preset: three dishes of 50 kernels at each of seven temperatures (Onofri, Benincasa,
/// Mesgaran & Ritz 2018, Eur. J. Agron. 101:129-139, data set of the R package drcSeedGerm). At 1 degC only the days by which
/// 10, 50 and 90 % of those that germinated had done so are at hand; they stand for looks.
const std::vector<Dish>& barley_counts();
inline constexpr double barley_counts_germinable = 0.94;  ///< fitted fraction of that lot at its best temperature

}  // namespace rackwright::germination
