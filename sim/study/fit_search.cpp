// The most probable values, and the law of all unknowns about them.
#include <nlopt.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <string>

#include <fmt/format.h>

#include "models/base/expects.hpp"
#include "sim/study/fit_trays.hpp"

namespace rackwright::study {

struct TrayFit::Search {
  const TrayFit* fit;
  const Matrix* lower;               ///< of the curvature where the search began
  const std::vector<double>* from;
  std::array<double, 2> spent;
};

namespace {

constexpr double furthest = 12.0;    // of any score: beyond, exponents overflow before the prior's pull is felt

std::vector<double> stepped(const std::vector<double>& from, const Matrix& lower, const double* y) {
  const std::vector<double> step = solve_upper(lower, std::vector<double>(y, y + from.size()));
  std::vector<double> to = from;
  for (std::size_t i = 0; i < to.size(); ++i) to[i] = std::clamp(to[i] + step[i], -furthest, furthest);
  return to;
}

}  // namespace

Matrix TrayFit::triangle(const std::vector<double>& scores, std::array<double, 2> spent) const {
  if (auto observed = cholesky(curvature(scores, false, spent))) return *observed;
  const auto expected = cholesky(curvature(scores, true, spent));  // a sum of squares and the prior: always positive definite
  ENSURES(expected.has_value());
  return *expected;
}

double TrayFit::search_step(unsigned, const double* y, double* slope, void* data) {
  const Search& search = *static_cast<const Search*>(data);
  std::vector<double> by_score;
  const double value = search.fit->minus_log_density(stepped(*search.from, *search.lower, y), slope ? &by_score : nullptr, search.spent);
  if (slope) {
    const std::vector<double> by_y = solve_lower(*search.lower, by_score);
    std::copy(by_y.begin(), by_y.end(), slope);
  }
  return value;
}

// In coordinates in which the curvature where it begins is 1 in all directions.
void TrayFit::search(std::vector<double>& scores, const Matrix& lower, std::array<double, 2> spent) const {
  const auto n = static_cast<unsigned>(scores.size());
  const std::unique_ptr<nlopt_opt_s, decltype(&nlopt_destroy)> opt(nlopt_create(NLOPT_LD_LBFGS, n), &nlopt_destroy);
  const std::vector<double> from = scores;
  Search data{this, &lower, &from, spent};
  nlopt_set_min_objective(opt.get(), &TrayFit::search_step, &data);
  nlopt_set_ftol_abs(opt.get(), 1e-7);
  nlopt_set_maxeval(opt.get(), 80);
  std::vector<double> y(scores.size(), 0.0);
  double least = 0.0;
  // A search that stops for rounding has done what it could: whether it ended well is judged by the slope there.
  (void)nlopt_optimize(opt.get(), y.data(), &least);
  const std::vector<double> to = stepped(from, lower, y.data());
  if (minus_log_density(to, nullptr, spent) < minus_log_density(from, nullptr, spent)) scores = to;
}

Posterior TrayFit::fit(const std::vector<double>* start) const {
  constexpr int rounds = 6;
  constexpr double near = 1e-3;  // of the posterior's own scale, in the square
  Posterior p{start ? *start : std::vector<double>(unknowns(), 0.0), Matrix(unknowns()), false};
  EXPECTS(p.mean.size() == unknowns());
  std::array<double, 2> taken{};
  Matrix lower = triangle(p.mean, taken);
  for (int round = 0; round < rounds && !p.settled; ++round) {
    search(p.mean, lower, taken);
    taken = spent(p.mean, inverse_of(triangle(p.mean, taken)));
    lower = triangle(p.mean, taken);
    std::vector<double> slope;
    (void)minus_log_density(p.mean, &slope, taken);
    const std::vector<double> scaled = solve_lower(lower, slope);
    double square = 0.0;
    for (const double s : scaled) square += s * s;
    p.settled = square < near;
  }
  p.covariance = inverse_of(lower);
  return p;
}

namespace {

/// Correlations of the laws, as ties of two figures; weaker ones are left out, and all are eased until they fit together.
std::vector<Tie> ties_of(const Posterior& posterior) {
  constexpr double weakest = 0.05, strongest = 0.99;
  double ease = 1.0;
  while (ease > 0.0) {
    Doubts doubts;
    for (std::size_t i = 0; i < law_count; ++i) {
      for (std::size_t j = i + 1; j < law_count; ++j) {
        const double r = ease * posterior.covariance(i, j) / (posterior.sd(i) * posterior.sd(j));
        const double rounded = std::clamp(std::round(100.0 * r) / 100.0, -strongest, strongest);
        if (std::abs(r) >= weakest) doubts.ties.push_back({static_cast<Law>(i), static_cast<Law>(j), rounded});
      }
    }
    if (tied_scores(doubts)) return doubts.ties;
    ease -= 0.01;
  }
  return {};
}

/// To what a log can tell: three figures after the point of a factor.
double rounded(double value) { return std::round(1000.0 * value) / 1000.0; }

}  // namespace

Scenario with_fit(const Scenario& scenario, const Posterior& posterior) {
  Scenario s = scenario;
  const auto& before = scenario.ignorance.spread;
  const auto factor = [&](Law law) { return std::exp(before[place_of(law)] * posterior.mean[place_of(law)]); };
  const auto by = [&](double& value, Law law, double least, double most) { value = std::clamp(rounded(value * factor(law)), least, most); };
  const auto rate = [&](double& value, Law law) { value = std::stod(fmt::format("{:.3g}", value * factor(law))); };
  rate(s.spoilage.mould_rate, Law::mould);
  rate(s.spoilage.sour_rate, Law::sour);
  by(s.own_line.pace, Law::pace, 0.2, 5.0);
  by(s.own_line.loss, Law::loss, 0.05, 4.0);
  by(s.own_line.swelling, Law::swelling, 0.1, 5.0);
  by(s.own_line.height, Law::height, 0.1, 5.0);
  by(s.own_line.warmth, Law::warmth, 0.05, 10.0);
  by(s.own_line.measured_time, Law::measured_time, 0.2, 5.0);
  by(s.own_line.borrowed_time, Law::borrowed_time, 0.2, 5.0);
  const std::size_t flat = place_of(Law::flatness);
  s.own_line.flatness = std::clamp(rounded(s.own_line.flatness + before[flat] * posterior.mean[flat]), -1.0, 1.0);
  for (std::size_t i = 0; i < law_count; ++i) {
    const double spread = before[i] * posterior.sd(i);
    // A doubt that hardly moved stays in its own round figure.
    if (std::abs(spread / before[i] - 1.0) > 0.005) s.ignorance.spread[i] = std::round(1e4 * spread) / 1e4;
  }
  s.ignorance.ties = ties_of(posterior);
  return s;
}

}  // namespace rackwright::study
