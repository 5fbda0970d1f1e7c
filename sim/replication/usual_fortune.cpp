// Luck as it falls out on the whole, and weather that is known, laid over the fortune that was drawn.

#include <algorithm>
#include <cmath>

#include "sim/replication/fortune.hpp"

namespace rackwright {

// Births spread evenly over their season, as many as are to be expected.
void Fortune::expect_births(const Plan& plan, std::size_t g) {
  const Group& group = plan.scenario.groups[g];
  const GroupPlan& want = plan.groups[g];
  if (!want.litter || want.young.empty()) return;
  const herd::Breeding& breeding = group.breeding;
  const double every = std::max(1.0, in_days(breeding.every));
  const double reared = breeding.conception * want.litter_mean * (1.0 - breeding.neonatal_death);
  double first = want.first_birth;
  while (first < horizon_) {
    const int dams = dams_at(group, first);
    for (int dam = 0; dam < dams; ++dam) {
      const int born_on = static_cast<int>(std::floor(first + breeding.spread_days * (dam + 0.5) / dams));
      double* wanted = wanted_.data() + g * days_ + lead_days;
      const int last = std::min(horizon_ + 1, born_on + static_cast<int>(want.young.size()));
      for (int day = std::max(-lead_days, born_on); day < last; ++day)
        wanted[day] += reared * want.ration * static_cast<double>(want.young[static_cast<std::size_t>(day - born_on)]);
    }
    first += every;
  }
}

namespace {

double mean_of(const climate::Day& day) { return 0.5 * (day.maximum + day.minimum); }

}  // namespace

// Known days are as they are; the others keep their luck and move with the known day before them, those before the first with it, by the anomaly's autocorrelation,
// which is what is to be expected once one of its values is given.
void Fortune::lay_known_weather(const Plan& plan) {
  const auto& known = plan.opening->weather;
  if (known.empty()) return;
  std::vector<double> shift(days_, 0.0);
  const climate::Parameters& site = plan.scenario.climate;
  const double fast_memory = climate::fast_memory(site);
  const climate::Recall recall = climate::recall(site);
  const auto spread = [&](int day) {
    return plan.days[static_cast<std::size_t>(plan.day_of_year(day))].normal.spread;
  };
  const auto move = [&](int from, int to, int step, double by) {
    double fast = (1.0 - site.slow_share) * by, before = 0.0, slow = site.slow_share * by;
    const double known_spread = spread(from - step);
    for (int day = from; day != to; day += step) {
      // The day beside the known one has one day to go by, those further off two.
      const double next = day == from ? fast_memory * fast : recall.yesterday * fast + recall.before * before;
      before = fast;
      fast = next;
      slow *= site.slow_memory;
      const double now = spread(day);
      shift[index(day)] += now == known_spread ? fast + slow : (fast + slow) * (now / known_spread);
    }
  };
  for (std::size_t k = 0; k < known.size(); ++k) {
    const double by = 0.5 * (known[k].maximum + known[k].minimum) - mean_of(weather_[index(known[k].day)]);
    if (k == 0) move(known[k].day - 1, -lead_days - 1, -1, by);
    move(known[k].day + 1, k + 1 < known.size() ? known[k + 1].day : horizon_ + 1, 1, by);
  }
  for (std::size_t i = 0; i < days_; ++i) {
    weather_[i].maximum += shift[i];
    weather_[i].minimum += shift[i];
  }
  for (const Opening::Known& day : known) {
    weather_[index(day.day)].maximum = day.maximum;
    weather_[index(day.day)].minimum = day.minimum;
  }
  // What comes in warm brings no water with it; a cold night sheds what it cannot hold.
  for (climate::Day& day : weather_)
    day.humidity_ratio = std::min(day.humidity_ratio, climate::humidity_ratio_at_dew_point(Celsius(day.minimum)));
}

Scenario without_luck(Scenario s) {
  s.climate.anomaly_sd = s.climate.range_sd = s.climate.range_sd_summer = s.climate.dew_depression_sd = Kelvins(0.0);
  s.weather = {};
  s.spells.clear();
  s.hard_times.clear();
  s.run.ignorance = false;
  s.keeper.miss_chance = 0.0;
  s.keeper.notice_spoiled = 1.0;
  constexpr Hours never(1e12);
  s.water.pump_between_failures = s.water.power_between_cuts = s.water.emitter_between_clogs = never;
  for (GrainSupply& grain : s.grains) grain.delivery_sd = Hours(0.0);
  for (Group& group : s.groups) group.demand_sd = group.yearly_death = group.growth = 0.0;
  return s;
}

}  // namespace rackwright
