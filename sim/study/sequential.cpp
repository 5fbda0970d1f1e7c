#include "sim/study/sequential.hpp"

#include <boost/math/distributions/binomial.hpp>
#include <cmath>

#include "models/base/expects.hpp"
#include "sim/study/intervals.hpp"

namespace rackwright::study {
namespace {

bool is_chance(double p) { return p > 0.0 && p < 1.0; }

/// First k in 0..trials for which `holds`, a condition that stays true once it is; trials + 1 when none.
template <class Condition>
std::uint64_t first_count(std::uint64_t trials, const Condition& holds) {
  std::uint64_t low = 0, high = trials + 1;
  while (low < high) {
    const std::uint64_t middle = low + (high - low) / 2;
    if (holds(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}

}  // namespace

std::vector<double> spend(double error, std::size_t looks, Spending spending) {
  EXPECTS(is_chance(error) && looks > 0 && looks < 1000);
  std::vector<double> weights(looks, 1.0);
  if (spending == Spending::late) {
    for (std::size_t look = 0; look < looks; ++look)
      weights[look] = std::ldexp(1.0, static_cast<int>(look) - static_cast<int>(looks));
  }
  double sum = 0.0;
  for (const double weight : weights) sum += weight;
  for (double& weight : weights) weight *= error / sum;
  return weights;
}

ShareTest::ShareTest(double least_share, double error_shown, double error_refuted, std::size_t looks, Spending spending)
    : least_share_(least_share),
      shown_(spend(error_shown, looks, spending)),
      refuted_(spend(error_refuted, looks, spending)) {
  EXPECTS(least_share >= 0.0 && least_share <= 1.0);
}

Proof ShareTest::at(std::size_t look, std::uint64_t successes, std::uint64_t trials) const {
  EXPECTS(look < looks());
  if (share_lower_bound(successes, trials, shown_[look]) >= least_share_) return Proof::shown;
  if (share_upper_bound(successes, trials, refuted_[look]) < least_share_) return Proof::refuted;
  return Proof::open;
}

std::uint64_t ShareTest::needed(std::size_t look, std::uint64_t trials) const {
  EXPECTS(look < looks());
  return first_count(trials,
                     [&](std::uint64_t k) { return share_lower_bound(k, trials, shown_[look]) >= least_share_; });
}

std::uint64_t ShareTest::refuted_below(std::size_t look, std::uint64_t trials) const {
  EXPECTS(look < looks());
  return first_count(trials,
                     [&](std::uint64_t k) { return share_upper_bound(k, trials, refuted_[look]) >= least_share_; });
}

double chance_to_show(double share, double least_share, double error, std::uint64_t trials) {
  EXPECTS(share >= 0.0 && share <= 1.0);
  const ShareTest test(least_share, error, error, 1);
  const std::uint64_t needed = test.needed(0, trials);
  if (needed == 0) return 1.0;
  if (needed > trials) return 0.0;
  const boost::math::binomial law(static_cast<double>(trials), share);
  return boost::math::cdf(boost::math::complement(law, static_cast<double>(needed - 1)));
}

std::uint64_t trials_without_failure(double least_share, double error) {
  EXPECTS(is_chance(least_share) && is_chance(error));
  return static_cast<std::uint64_t>(std::ceil(std::log(error) / std::log(least_share)));
}

Costs compare_costs(const Moments& difference, double error, double indifference) {
  EXPECTS(is_chance(error) && indifference >= 0.0);
  const double low = mean_lower_bound(difference, error);
  const double high = mean_upper_bound(difference, error);
  if (low >= -indifference && high <= indifference) return Costs::alike;
  if (low > 0.0) return Costs::second_cheaper;
  if (high < 0.0) return Costs::first_cheaper;
  return Costs::open;
}

}  // namespace rackwright::study
