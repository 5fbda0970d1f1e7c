#include "models/herd/growth_fit.hpp"

#include <algorithm>
#include <boost/math/tools/minima.hpp>
#include <cmath>

#include "models/base/expects.hpp"

namespace rackwright::herd {
namespace {

// ln W = a - b e^(-k t): given k, a and b are a straight line, so that one number is searched for at a time. `pull` is the
// weight of the prior on a.
struct Line { double a = 0.0, b = 0.0, squares = 0.0, loss = 0.0; };

Line line_at(const std::vector<Weighing>& weighings, double k, double expected_a, double pull) {
  double n = pull, sx = 0.0, sy = pull * expected_a, sxx = 0.0, sxy = 0.0;
  for (const Weighing& w : weighings) {
    const double x = -std::exp(-k * in_days(w.age)), y = std::log(w.weight.value());
    n += 1.0;
    sx += x;
    sy += y;
    sxx += x * x;
    sxy += x * y;
  }
  Line line;
  line.b = (n * sxy - sx * sy) / (n * sxx - sx * sx);
  line.a = (sy - line.b * sx) / n;
  for (const Weighing& w : weighings) {
    const double off = std::log(w.weight.value()) - line.a + line.b * std::exp(-k * in_days(w.age));
    line.squares += off * off;
  }
  line.loss = line.squares + pull * (line.a - expected_a) * (line.a - expected_a);
  return line;
}

}  // namespace

GrowthFit fit_growth(const std::vector<Weighing>& weighings, const GrowthCurve& expected, double doubt, double scatter) {
  EXPECTS(weighings.size() >= 3 && doubt > 0.0 && scatter > 0.0);
  for (const Weighing& w : weighings) EXPECTS(w.weight.value() > 0.0 && w.age.value() >= 0.0);
  const double pull = scatter * scatter / (doubt * doubt), expected_a = std::log(expected.mature.value());
  const auto loss = [&](double log_k) { return line_at(weighings, std::exp(log_k), expected_a, pull).loss; };
  // Coarse first: the loss may have a shoulder far from its least value.
  double best = std::log(expected.rate_per_day), least = loss(best);
  const double lowest = std::log(1e-4), step = 0.1;
  const int steps = static_cast<int>(std::ceil((std::log(0.5) - lowest) / step));
  for (int i = 0; i < steps; ++i) {
    const double log_k = lowest + step * i;
    if (loss(log_k) >= least) continue;
    least = loss(log_k);
    best = log_k;
  }
  const double k = std::exp(boost::math::tools::brent_find_minima(loss, best - 0.15, best + 0.15, 40).first);
  const Line line = line_at(weighings, k, expected_a, pull);
  GrowthFit fit;
  fit.curve = {Kilograms(std::exp(line.a)), k, Kilograms(std::exp(line.a - std::max(0.0, line.b)))};
  fit.residual = std::sqrt(line.squares / static_cast<double>(weighings.size()));
  return fit;
}

}  // namespace rackwright::herd
