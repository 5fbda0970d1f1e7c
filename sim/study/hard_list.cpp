#include "sim/study/hard_list.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <vector>

#include <fmt/format.h>

#include "models/herd/stay.hpp"
#include "sim/replication/plan.hpp"
#include "sim/scenario/horizon.hpp"

namespace rackwright::study {
namespace {

using Kind = HardTimeKind;

double day_of_year(const Run& run, int day) {
  const std::chrono::sys_days first{run.start};
  const std::chrono::year_month_day date{first + std::chrono::days(day)};
  const std::chrono::sys_days new_year{date.year() / std::chrono::January / 1};
  return static_cast<double>((first + std::chrono::days(day) - new_year).count() + 1);
}

/// By day of the run, what the grown animals that are fed here want [kg]; of a new feed, too, as if it were brought in.
std::vector<double> wanted_by_day(const Plan& plan) {
  std::vector<double> wanted(static_cast<std::size_t>(plan.horizon_days), 0.0);
  for (std::size_t g = 0; g < plan.groups.size(); ++g) {
    const Group& group = plan.scenario.groups[g];
    for (std::size_t day = 0; day < wanted.size(); ++day)
      if (herd::presence(group.stay, static_cast<double>(day)).here) wanted[day] += group.count * plan.groups[g].ration;
  }
  return wanted;
}

/// The days on which a hard time of that length would not fall, even in part, on days when few are there to feel it or nothing has grown yet: all of
/// them where that leaves none.
std::vector<bool> felt_days(const Plan& plan, double length) {
  constexpr double few = 0.5;  // of what is wanted at most (assumed)
  std::vector<double> wanted = wanted_by_day(plan);
  if (!plan.fodder.before) std::fill_n(wanted.begin(), std::min<std::ptrdiff_t>(plan.fodder.from, std::ssize(wanted)), 0.0);
  const double most = *std::max_element(wanted.begin(), wanted.end());
  std::vector<bool> felt(wanted.size(), false);
  int ahead = 0;  // days in a row from here on with many animals
  for (std::size_t day = wanted.size(); day-- > 0;) {
    ahead = wanted[day] > 0.0 && wanted[day] >= few * most ? ahead + 1 : 0;
    felt[day] = ahead >= std::ceil(length);
  }
  if (std::none_of(felt.begin(), felt.end(), [](bool one) { return one; })) felt.assign(felt.size(), true);
  return felt;
}

/// First day of a spell of that length whose middle is the warmest (or coldest) time of the run with animals there.
int at_the_extreme(const Plan& plan, double length, bool warm) {
  const Scenario& s = plan.scenario;
  int best = 0;
  double most = -1e9;
  const int last = std::max(0, plan.horizon_days - static_cast<int>(length));
  const std::vector<bool> felt = felt_days(plan, length);
  for (int day = 0; day <= last; ++day) {
    if (!felt[static_cast<std::size_t>(day)]) continue;
    const double mean = climate::wave_at(s.climate.mean, day_of_year(s.run, day + static_cast<int>(length / 2.0))).value();
    const double score = warm ? mean : -mean;
    if (score > most + 1e-9) most = score, best = day;
  }
  return best;
}

/// A third of the run in, or the first day after that with animals there; where none is, a third of the days with animals in.
int in_the_thick(const Plan& plan, double length) {
  const std::vector<bool> felt = felt_days(plan, length);
  std::vector<int> days;
  for (std::size_t day = 0; day < felt.size(); ++day)
    if (felt[day]) days.push_back(static_cast<int>(day));
  const auto later = std::lower_bound(days.begin(), days.end(), static_cast<int>(felt.size() / 3));
  return later != days.end() ? *later : days[days.size() / 3];
}

bool breeds(const Group& group) { return group.count > 0 && group.breeding.first_birth_day >= 0.0; }

/// Day of the run on which the first births of a season that reaches into it may fall.
double births_begin(const herd::Breeding& breeding) {
  double season = herd::first_season_felt(breeding, 0.0);
  while (season + breeding.spread_days < 0.0) season += in_days(breeding.every);
  return std::max(0.0, std::floor(season));
}

HardTime built_in(const Plan& plan, Kind kind) {
  const Scenario& s = plan.scenario;
  HardTime hard;
  hard.kind = kind;
  hard.name = std::string(hard_time_name(kind));
  const double length = in_days(length_of(hard));
  if (kind == Kind::heat_wave || kind == Kind::cold_snap) {
    hard.first_day = at_the_extreme(plan, length, kind == Kind::heat_wave);
  } else if (kind == Kind::pump_stop) {
    hard.first_day = at_the_extreme(plan, length, true);  // thirst is greatest then, and what stands dry sours soonest
  } else if (kind == Kind::power_cut) {
    // A room that is heated is soon as cold as outdoors without power; elsewhere it is the pump that is missed, and the cooler.
    hard.first_day = at_the_extreme(plan, length, s.room.heater.value() <= 0.0);
  } else if (kind == Kind::missed_rounds || kind == Kind::keeper_away) {
    hard.first_day = in_the_thick(plan, length);
  } else if (kind == Kind::larger_litter) {
    // From the first births on: nothing of it can be seen before, and days are counted from its start.
    double first = horizon_days(s);
    for (const Group& group : s.groups)
      if (breeds(group)) first = std::min(first, births_begin(group.breeding));
    if (first < horizon_days(s)) hard.first_day = first;
  }
  return hard;
}

}  // namespace

std::vector<Planned> hard_list(const Scenario& scenario) {
  std::vector<Planned> all;
  const Plan plan = make_plan(scenario);
  for (const HardTime& hard : scenario.hard_times) all.push_back({hard, true});
  for (std::size_t k = 0; k < hard_time_names.size(); ++k) {
    const auto kind = static_cast<Kind>(k);
    const auto& own = scenario.hard_times;
    if (std::any_of(own.begin(), own.end(), [&](const HardTime& h) { return h.kind == kind; })) continue;
    all.push_back({built_in(plan, kind), false});
  }
  return all;
}

std::string cannot_strike(const Scenario& scenario, const HardTime& hard) {
  const auto& groups = scenario.groups;
  if (hard.kind == Kind::larger_litter &&
      std::none_of(groups.begin(), groups.end(), [&](const Group& g) {
        return breeds(g) && (hard.group.empty() || g.name == hard.group) && births_begin(g.breeding) < horizon_days(scenario);
      }))
    return "no births fall into this run";
  if (hard.kind == Kind::larger_litter &&
      std::none_of(groups.begin(), groups.end(), [&](const Group& g) {
        return breeds(g) && (hard.group.empty() || g.name == hard.group) && births_begin(g.breeding) + in_days(g.breeding.weaning) < horizon_days(scenario);
      }))
    return "its young want fodder only after the end of this run; --years plays more";
  if (starts(hard) >= std::int64_t{1440} * horizon_days(scenario)) return "it begins after the end of this run";
  if (starts(hard) < 0) return "it begins before the start of this run";
  // Of what befalls grain, money or births something shows later.
  constexpr Kind of_days[] = {Kind::heat_wave, Kind::cold_snap, Kind::pump_stop, Kind::power_cut, Kind::missed_rounds, Kind::keeper_away};
  if (std::find(std::begin(of_days), std::end(of_days), hard.kind) == std::end(of_days)) return "";
  const std::vector<double> wanted = wanted_by_day(make_plan(scenario));
  const auto first = wanted.begin() + std::clamp<std::ptrdiff_t>(static_cast<std::ptrdiff_t>(std::floor(hard.first_day)), 0, std::ssize(wanted));
  const auto last = wanted.begin() + std::clamp<std::ptrdiff_t>(shows_until(scenario, hard), 0, std::ssize(wanted));
  if (first < last && std::all_of(first, last, [](double one) { return one <= 0.0; })) return "no animals are fed here then";
  return "";
}

int shows_until(const Scenario& scenario, const HardTime& hard) {
  const int cycle = scenario.line.days_on_rack + scenario.line.grace_days;
  const int first = static_cast<int>(std::floor(hard.first_day));
  const int last = static_cast<int>(std::ceil(static_cast<double>(ends(hard)) / 1440.0));
  // An order or a lot may be weeks away, and a lot lasts for weeks.
  if (hard.kind == Kind::poor_lot) return first + 90 + cycle;
  if (hard.kind == Kind::late_delivery) return last + 45 + cycle;
  return last + cycle;
}

}  // namespace rackwright::study
