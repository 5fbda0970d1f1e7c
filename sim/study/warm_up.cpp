#include "sim/study/warm_up.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <vector>

#include <fmt/format.h>

#include "sim/replication/replicate.hpp"

namespace rackwright::study {
namespace {

constexpr std::size_t batch = 5;
constexpr int pilot_days = 240;

// The same line in a climate without seasons, from empty, its herd fed as on day 0.
Scenario pilot_of(Scenario s) {
  s.run.length = days(pilot_days);
  s.run.rack_full_at_start = false;
  s.run.warm_up_length = Hours(0.0);
  s.climate.mean.amplitude = s.climate.mean.second = Kelvins(0.0);
  s.climate.range_amplitude = s.climate.range_half_year = s.climate.range_sd_summer = s.climate.range_sd_half_year = Kelvins(0.0);
  s.climate.range_follow_summer = s.climate.range_follow_half_year = s.climate.anomaly_season = s.climate.anomaly_half_year = 0.0;
  s.climate.dew_depression_amplitude = Kelvins(0.0);
  for (climate::Leaning* leaning : {&s.climate.highs, &s.climate.lows})
    leaning->skew_summer = leaning->skew_half_year = leaning->tail_summer = leaning->tail_half_year = 0.0;
  s.spells.clear();
  s.hard_times.clear();
  s.weather = {};  // a measured record has its seasons
  for (Group& group : s.groups) {
    group.breeding.first_birth_day = -1.0;
    group.introduction = Hours(0.0);
    group.stay = {};
    group.yearly_death = group.growth = 0.0;
  }
  return s;
}

}  // namespace

Cut mser5(std::span<const double> series) {
  const std::size_t n = series.size() / batch;
  std::vector<double> means(n, 0.0);
  for (std::size_t i = 0; i < n * batch; ++i) means[i / batch] += series[i] / static_cast<double>(batch);
  if (n < 4) return {0, false};
  // Sums from the back give every cut in one pass.
  double sum = 0.0, squares = 0.0, least = std::numeric_limits<double>::infinity();
  const double centre = means.back();  // keeps the sums small
  std::size_t best = 0;
  for (std::size_t left = 1; left <= n; ++left) {
    const double value = means[n - left] - centre;
    sum += value;
    squares += value * value;
    if (n - left > n / 2) continue;  // few values left may look steady by chance: the first half is searched
    const auto count = static_cast<double>(left);
    const double statistic = std::max(0.0, squares - sum * sum / count) / (count * count);
    if (statistic <= least) least = statistic, best = n - left;
  }
  return {best * batch, best < n / 2};
}

int steady_warm_up(const Scenario& scenario, std::uint32_t replications) {
  const Plan usual = make_plan(scenario);
  const Plan plan = make_plan(pilot_of(scenario));
  Replicator replicator(plan);
  std::vector<double> served(static_cast<std::size_t>(plan.horizon_days), 0.0);
  for (std::uint32_t k = 0; k < replications; ++k) {
    replicator.run(scenario.run.random_seed, k);
    const auto rows = replicator.daily();
    for (std::size_t day = 0; day < served.size(); ++day) served[day] += rows[day].served / static_cast<double>(replications);
  }
  const Cut cut = mser5(served);
  const int days_needed = std::max(static_cast<int>(cut.values), usual.warm_up_days);
  if (!cut.told || days_needed > lead_days) {
    throw std::runtime_error(fmt::format(
        "no steady state was found within {} days: the line does not settle in so long; set run.warm_up_length by hand",
        std::min(pilot_days / 2, lead_days)));
  }
  return days_needed;
}

}  // namespace rackwright::study
