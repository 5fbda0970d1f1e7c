#include "sim/app/check_frost.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <functional>
#include <numeric>
#include <string>

#include <fmt/core.h>

#include "models/base/expects.hpp"
#include "sim/scenario/cautions_place.hpp"
#include "sim/scenario/room_of.hpp"
#include "sim/scenario/units.hpp"
#include "sim/scenario/year_day.hpp"

namespace rackwright::app {
namespace {

constexpr double safe = 5.0;  // to keep a room at, so that no corner of it freezes [degC] (common practice, no source)

using Day = Winters::Day;
bool colder(const Day& a, const Day& b) { return a.outdoors < b.outdoors; }

/// The one that one run in ten or so falls short of.
template <class Value, class Less = std::less<>>
Value one_in_ten(std::vector<Value> values, Less less = {}) {
  EXPECTS(!values.empty());
  std::sort(values.begin(), values.end(), less);
  return values[values.size() / 10];
}

std::string degrees(const Plan& plan, double celsius) { return write_quantity(celsius, "degC", plan.scenario.units == Units::us, 2); }

/// ", November to March": the longest way round the year is left out.
std::string months(const std::array<int, 12>& days) {
  constexpr const char* names[] = {"January", "February", "March",     "April",   "May",      "June",
                                   "July",    "August",   "September", "October", "November", "December"};
  int best = 0, longest = -1;  // months without frost before it
  for (int m = 0; m < 12; ++m) {
    if (days[static_cast<std::size_t>(m)] == 0) continue;
    int gap = 0;
    while (gap < 11 && days[static_cast<std::size_t>((m + 11 - gap) % 12)] == 0) ++gap;
    if (gap > longest) longest = gap, best = m;
  }
  if (longest < 0) return "";  // for less than an hour, and no day's coldest
  const int last = (best + 11 - longest) % 12;
  return last == best ? fmt::format(", in {}", names[best]) : fmt::format(", {} to {}", names[best], names[last]);
}

/// What holds the room at `inside` [degC] through a day, with so much of its night as the room's stored heat lets through [W].
double watts_for(const Plan& plan, const Day& day, double inside) {
  const Scenario& s = plan.scenario;
  const bool open = s.opened.holds(day.of_year);
  const double range = std::max(0.0, s.climate.range_mean.value() - s.climate.range_amplitude.value());
  return std::max(0.0, conductance_of(s, open) * (inside - day.outdoors + night_share(s, open) * range));
}

/// Of so many runs, those in which the room falls below `inside` [degC] in the winter about that day of the year: a cold night of spring with the
/// doors open asks for no larger heater.
int runs_colder(const Plan& plan, int runs, double inside, int midwinter) {
  constexpr double felt = 0.1;  // [K]
  constexpr int half_winter = 60;  // [d]
  const std::chrono::sys_days start(plan.scenario.run.start);
  int colder_runs = 0;
  study::run_replications(plan, with_rows(plan, runs), nullptr, [&](const study::Block& block) {
    for (const study::Series& series : block.series) {
      bool cold = false;
      for (std::size_t day = 0; day < series.rows.size() && !cold; ++day) {
        if (static_cast<double>(series.rows[day].room_min) >= inside - felt) continue;
        const int apart = std::abs(plain_day_of_year(start + std::chrono::days(day)) - midwinter);
        cold = std::min(apart, 365 - apart) <= half_winter;
      }
      colder_runs += cold;
    }
  });
  return colder_runs;
}

}  // namespace

study::RunRequest with_rows(const Plan& plan, int runs) {
  study::RunRequest request;
  request.random_seed = plan.scenario.run.random_seed;
  request.replications = static_cast<std::uint32_t>(runs);
  request.block = 10;
  request.series.resize(request.replications);
  std::iota(request.series.begin(), request.series.end(), 0U);
  return request;
}

void Winters::add(const Plan& plan, const study::Block& block) {
  const std::chrono::sys_days start(plan.scenario.run.start);
  for (const Outcome& outcome : block.outcomes) {
    ++runs;
    with_frost += outcome.frozen_hours > 0.0;
    frozen_hours += outcome.frozen_hours;
    killed += outcome.frost_killed;
    unsown += outcome.frost_unsown;
    days += outcome.days;
    coldest = std::min(coldest, outcome.room_min);
    coldest_rooms.push_back(outcome.room_min);
  }
  for (const study::Series& series : block.series) {
    Day least{1e9, 1};
    for (std::size_t day = 0; day < series.rows.size(); ++day) {
      const DailyRow& row = series.rows[day];
      const Day today{static_cast<double>(row.outdoor_mean), plain_day_of_year(start + std::chrono::days(day))};
      if (colder(today, least)) least = today;
      if (row.room_min >= 0.0F) continue;
      const std::chrono::year_month_day date(start + std::chrono::days(day));
      ++frozen_days[static_cast<unsigned>(date.month()) - 1];
    }
    coldest_days.push_back(least);
  }
}

double heater_for(const Plan& plan, const Winters& winters, double inside) {
  // What evaporates, and nights colder than usual, are in no day's balance: played until it holds.
  constexpr int most_steps = 12;
  const int runs = 4 * winters.runs;
  Scenario s = plan.scenario;
  s.room.heater_set = Celsius(inside);
  s.water.power_between_cuts = Hours(1e6);
  std::erase_if(s.hard_times, [](const HardTime& hard) { return hard.kind == HardTimeKind::power_cut; });
  const Day coldest = one_in_ten(winters.coldest_days, colder);
  double watts = std::max(50.0, 0.9 * watts_for(plan, coldest, inside));
  for (int step = 0; step < most_steps; ++step, watts *= 1.1) {
    s.room.heater = Watts(watts);
    if (10 * runs_colder(make_plan(s), runs, inside, coldest.of_year) <= runs) break;
  }
  return watts;
}

std::vector<std::string> frost_cautions(const Plan& plan, const Winters& winters) {
  std::vector<std::string> out;
  if (winters.runs == 0 || winters.coldest_days.empty()) return out;
  const Scenario& s = plan.scenario;
  const bool us = s.units == Units::us;
  const auto watts = [us](double power) { return write_quantity(power, "W", us, 2); };
  const double years = std::max(1e-9, winters.days / 365.0);
  if (winters.with_frost > 0) {
    std::string text = fmt::format("Frost: the room freezes in {} of {} runs played, {} hours a year on average{}, and at the coldest it is {} in it. Then no water runs and "
                                   "nothing is put to soak, and mats that have sprouted die where the air falls below {}",
                                   winters.with_frost, winters.runs, write_quantity(winters.frozen_hours / years, "1", us, 2), months(winters.frozen_days),
                                   degrees(plan, winters.coldest), degrees(plan, s.frost.kill.value()));
    const auto a_year = [years](double sum, const char* what) {
      const auto count = std::llround(sum / years);
      return fmt::format("{} {}{} a year", count > 0 ? std::to_string(count) : "fewer than one", what, count > 1 ? "s" : "");
    };
    if (winters.killed > 0.0 || winters.unsown > 0.0)
      text += fmt::format(" (about {} killed, {} not sown)", a_year(winters.killed, "mat"), a_year(winters.unsown, "tray"));
    text += ". ";
    const double takes = heater_for(plan, winters, safe);
    if (s.room.heater.value() >= takes && s.room.heater_set.value() >= safe)
      text += fmt::format("The heater is strong enough to keep {} through nine winters in ten, as long as it has power: look to power cuts first. Insulate, let in less air, or have heat that "
                          "needs no current.",
                          degrees(plan, safe));
    else
      text += fmt::format("Insulate, let in less air, or heat: to keep {} through nine winters in ten takes about {}, as long as there is power: a cut lets the room cool.", degrees(plan, safe), watts(takes));
    out.push_back(text);
    out.push_back(frost_caution());
    out.push_back(heater_caution());
  }
  const double set = s.room.heater_set.value(), has = s.room.heater.value();
  constexpr double worth_telling = 3.0, enough = 0.95;  // [K, 1]
  if (has <= 0.0 || one_in_ten(winters.coldest_rooms) >= set - worth_telling) return out;
  if (const double needs = heater_for(plan, winters, set); has < enough * needs)
    out.push_back(fmt::format("The heater is too small for the coldest day of one run in ten, {} outdoors on average: to hold {} takes about {}, and it has {}. More insulation or "
                              "less air makes it do with less. A power cut lets the room cool, however strong the heater.",
                              degrees(plan, one_in_ten(winters.coldest_days, colder).outdoors), degrees(plan, set), watts(needs), write_quantity(has, "W", us, 4)));
  return out;
}

}  // namespace rackwright::app
