#include "models/grain/trial.hpp"

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <cmath>
#include <cstddef>
#include <limits>

#include "models/base/expects.hpp"
#include "models/grain/acceptance.hpp"
#include "models/grain/lot.hpp"

namespace rackwright::grain {

namespace {

double log_choose(double n, double k) { return std::lgamma(n + 1.0) - std::lgamma(k + 1.0) - std::lgamma(n - k + 1.0); }
double log_beta(double a, double b) { return std::lgamma(a) + std::lgamma(b) - std::lgamma(a + b); }

/// Logarithms to shares that sum to 1.
std::vector<double> normalised(std::vector<double> logs) {
  const double top = *std::max_element(logs.begin(), logs.end());
  double sum = 0.0;
  for (double& x : logs) sum += x = std::exp(x - top);
  for (double& x : logs) x /= sum;
  return logs;
}

/// Where that share of all chance lies below, in cells and parts of one.
double quantile_cell(const std::vector<double>& chance, double share) {
  double below = 0.0;
  for (std::size_t i = 0; i < chance.size(); ++i) {
    if (below + chance[i] >= share) return static_cast<double>(i) + (share - below) / chance[i];
    below += chance[i];
  }
  return static_cast<double>(chance.size());
}

}  // namespace

BetaPrior prior_of(double mean, double rho) {
  EXPECTS(mean > 0.0 && mean < 1.0 && rho > 0.0 && rho < 1.0);
  const double worth = (1.0 - rho) / rho;
  return {mean * worth, (1.0 - mean) * worth};
}

double log_chance(const TrialTray& tray, double fraction, double rho) {
  EXPECTS(tray.sown > 0 && tray.germinated >= 0 && tray.germinated <= tray.sown);
  EXPECTS(fraction > 0.0 && fraction < 1.0 && rho >= 0.0 && rho < 1.0);
  const double n = tray.sown, x = tray.germinated;
  if (rho < 1e-9) return log_choose(n, x) + x * std::log(fraction) + (n - x) * std::log1p(-fraction);
  const double worth = (1.0 - rho) / rho, a = fraction * worth, b = (1.0 - fraction) * worth;
  return log_choose(n, x) + log_beta(a + x, b + n - x) - log_beta(a, b);
}

FractionLaw::FractionLaw(const BetaPrior& prior, const std::vector<TrialTray>& trays, double rho) {
  EXPECTS(prior.germinated > 0.0 && prior.failed > 0.0);
  std::vector<double> logs(cells);
  for (int i = 0; i < cells; ++i) {
    const double p = at(i);
    double sum = (prior.germinated - 1.0) * std::log(p) + (prior.failed - 1.0) * std::log1p(-p);
    for (const TrialTray& tray : trays) sum += log_chance(tray, p, rho);
    logs[static_cast<std::size_t>(i)] = sum;
  }
  chance_ = normalised(std::move(logs));
}

double FractionLaw::mean() const {
  double sum = 0.0;
  for (int i = 0; i < cells; ++i) sum += at(i) * chance_[static_cast<std::size_t>(i)];
  return sum;
}

double FractionLaw::deviation() const {
  const double middle = mean();
  double sum = 0.0;
  for (int i = 0; i < cells; ++i) sum += (at(i) - middle) * (at(i) - middle) * chance_[static_cast<std::size_t>(i)];
  return std::sqrt(sum);
}

double FractionLaw::quantile(double share) const {
  EXPECTS(share > 0.0 && share < 1.0);
  return quantile_cell(chance_, share) / cells;
}

Agreement agreement(const std::vector<TrialTray>& trays, double rho) {
  Agreement result;
  if (trays.size() < 2) return result;
  double germinated = 0.0, sown = 0.0;
  int least = 100, most = 0;
  bool hundreds = trays.size() == 2 || trays.size() == 4;
  for (const TrialTray& tray : trays) {
    germinated += tray.germinated;
    sown += tray.sown;
    hundreds = hundreds && tray.sown == 100;
    least = std::min(least, tray.germinated);
    most = std::max(most, tray.germinated);
  }
  const double mean = germinated / sown;
  if (hundreds) {
    const double allowed = tolerated_range(100.0 * mean, static_cast<int>(trays.size()));
    if (allowed >= 0.0) return {true, true, static_cast<double>(most - least), allowed};
  }
  if (mean <= 0.0 || mean >= 1.0) return result;
  for (const TrialTray& tray : trays) {
    const double n = tray.sown, off = tray.germinated - n * mean;
    result.found += off * off / (n * mean * (1.0 - mean) * (1.0 + (n - 1.0) * rho));
  }
  result.judged = true;
  result.allowed = boost::math::quantile(boost::math::chi_squared(static_cast<double>(trays.size() - 1)), 0.975);
  return result;
}

Comparison compare(const FractionLaw& candidate, double candidate_price, const FractionLaw& current, double current_price,
                   const Worth& worth) {
  EXPECTS(candidate_price > 0.0 && current_price > 0.0 && worth.size() == FractionLaw::cells);
  Comparison result;
  result.pays_at.resize(FractionLaw::cells);
  // worth rises, so the current lots that are beaten are those up to a moving limit; half of the limit's own cell.
  std::size_t beaten = 0;
  double below = 0.0;
  for (std::size_t i = 0; i < worth.size(); ++i) {
    const double mine = worth[i] / candidate_price;
    while (beaten < worth.size() && worth[beaten] / current_price < mine) below += current.chance()[beaten++];
    const bool equal = beaten < worth.size() && worth[beaten] / current_price == mine;
    result.pays_at[i] = std::min(1.0, below + (equal ? 0.5 * current.chance()[beaten] : 0.0));
    result.pays += candidate.chance()[i] * result.pays_at[i];
    result.candidate += candidate.chance()[i] * mine;
    result.current += current.chance()[i] * worth[i] / current_price;
  }
  return result;
}

TrialValue value_of_trial(const FractionLaw& candidate, double candidate_price, const Comparison& now, const Worth& worth,
                          int more, double rho, int tray) {
  EXPECTS(more > 0 && tray > 0);
  const double scatter = pooled_scatter(more, rho, tray);
  constexpr int step = 5;  // of the grid: 400 fractions are enough here
  std::vector<double> share, pays, gives, fraction;
  for (std::size_t i = 0; i < worth.size(); i += step) {
    double s = 0.0, p = 0.0, g = 0.0;
    for (std::size_t j = i; j < i + step; ++j) {
      s += candidate.chance()[j];
      p += candidate.chance()[j] * now.pays_at[j];
      g += candidate.chance()[j] * worth[j] / candidate_price;
    }
    if (s < 1e-9) continue;
    share.push_back(s);
    pays.push_back(p / s);
    gives.push_back(g / s);
    fraction.push_back((static_cast<double>(i) + 0.5 * step) / FractionLaw::cells);
  }
  TrialValue value{more, 0.0, -std::max(now.candidate, now.current)};
  for (int x = 0; x <= more; ++x) {
    double all = 0.0, pay = 0.0, give = 0.0;
    for (std::size_t i = 0; i < share.size(); ++i) {
      const double chance = share[i] * std::exp(log_chance({x, more}, fraction[i], scatter));
      all += chance;
      pay += chance * pays[i];
      give += chance * gives[i];
    }
    // The lot that is expected to give more is chosen; it may be the wrong one.
    const bool change = give > all * now.current;
    value.wrong += change ? all - pay : pay;
    value.gain += std::max(give, all * now.current);
  }
  value.gain = std::max(0.0, value.gain);
  return value;
}

Vigour vigour_of(const std::function<double(double)>& days_at, double seen_days, double spread, double reading) {
  EXPECTS(seen_days > 0.0 && spread > 0.0 && reading > 0.0);
  // The days bend gently with the score: asked at few of them, straight between.
  constexpr int nodes = 80, fine = 20, cells = nodes * fine;
  constexpr double furthest = 4.0;
  const auto score_at = [](double cell) { return furthest * (2.0 * cell / cells - 1.0); };
  std::vector<double> log_days;
  for (int node = 0; node <= nodes; ++node) log_days.push_back(std::log(days_at(std::exp(spread * score_at(node * fine)))));
  std::vector<double> logs(cells);
  for (int cell = 0; cell < cells; ++cell) {
    const double at = (cell + 0.5) / fine;
    const auto node = static_cast<std::size_t>(at);
    const double miss = (std::log(seen_days) - std::lerp(log_days[node], log_days[node + 1], at - std::floor(at))) / reading;
    const double score = score_at(cell + 0.5);
    logs[static_cast<std::size_t>(cell)] = std::isfinite(miss) ? -0.5 * (score * score + miss * miss) : -std::numeric_limits<double>::infinity();
  }
  EXPECTS(std::isfinite(*std::max_element(logs.begin(), logs.end())));
  const std::vector<double> chance = normalised(std::move(logs));
  const auto quantile = [&](double share) { return std::exp(spread * score_at(quantile_cell(chance, share))); };
  return {quantile(0.5), quantile(0.025), quantile(0.975)};
}

}  // namespace rackwright::grain
