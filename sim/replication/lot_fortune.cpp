// Luck of seasons and harvests: is a grain short, how did a brand turn out, what does a trial show. Each draw belongs to its grain and
// year or to its lot, so that designs that buy and try otherwise share it.

#include <cmath>

#include "models/base/floor_quotient.hpp"
#include "sim/random/beta_gamma.hpp"
#include "sim/random/laws.hpp"
#include "sim/replication/fortune.hpp"

namespace rackwright {
namespace {

constexpr int year_days = 365;
constexpr int new_harvest = 182;  // day of the year from which lots are of the new harvest: 1 July (assumed)

// The year, from that of the run's start, in which the last `day_of_year` before the end of `day` fell.
int year_since(const Plan& plan, int day, int day_of_year) {
  return floor_quotient(plan.first_day_of_year + day - day_of_year, year_days);
}

}  // namespace

bool Fortune::is_short(const Plan& plan, int grain, int day) const {
  const ShortSeason& season = plan.scenario.grains[static_cast<std::size_t>(grain)].shortage;
  if (season.chance <= 0.0 || season.from <= 0 || season.until <= 0) return false;
  const int lasts = (season.until - season.from + year_days) % year_days;
  const int year = year_since(plan, day, season.from);
  if (plan.first_day_of_year + day - season.from - year * year_days > lasts) return false;
  if (usual_) return season.chance > 0.5;
  auto luck = stream(random::Purpose::shortage, static_cast<std::uint32_t>(grain), year);
  return random::uniform01(luck) < season.chance;
}

double Fortune::harvest_score(const Plan& plan, int grain, int day) const {
  if (usual_) return 0.0;
  auto luck = stream(random::Purpose::harvest, static_cast<std::uint32_t>(grain), year_since(plan, day, new_harvest));
  return random::normal(luck);
}

int Fortune::sprouted(int grain, std::uint32_t number, double germinable, int kernels, double scatter) const {
  if (usual_) return static_cast<int>(std::lround(kernels * germinable));
  random::Stream luck{key_, random::Purpose::trial, static_cast<std::uint32_t>(grain), number};
  return random::binomial(luck, kernels, random::beta(luck, germinable, scatter));
}

}  // namespace rackwright
