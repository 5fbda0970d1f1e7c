#include "sim/study/weather_advice.hpp"

#include <algorithm>
#include <cmath>

#include "sim/study/worklist.hpp"

namespace rackwright::study {
namespace {

constexpr double least_soak_hours = 4.0, soak_step_hours = 0.5, charge_step = 0.05, least_charge = 0.5;

/// Trays for which grain is put to soak, or is to be.
int trays_put(const Scenario& scenario, const Worklist& list, int day, int session) {
  for (const Task& task : list.tasks)
    if (task.kind == Task::Kind::soak && task.day == day && task.session == session) return task.trays + task.undone;
  return scenario.line.trays_per_batch;
}

/// With some batches soaked and sown otherwise than in `coming`, as many trays.
Worklist played(const Scenario& scenario, Opening opening, const Worklist& coming, const BatchKeys& batches, std::optional<double> soak, double charge) {
  for (const auto& [day, session] : batches) {
    Sowing sowing{day, session, trays_put(scenario, coming, day, session), charge, {}};
    if (soak) sowing.soak = Hours(*soak);
    opening.course.sowings.push_back(sowing);
  }
  return work(make_plan(scenario, opening));
}

double risk_of(const Worklist& list, const BatchKeys& batches) {
  double sum = 0.0;
  int trays = 0;
  for (const auto& key : batches) {
    const auto at = list.batches.find(key);
    if (at == list.batches.end()) continue;
    sum += at->second.risk * at->second.left;
    trays += at->second.left;
  }
  return trays > 0 ? sum / trays : 0.0;
}

/// From the least change on: the first that brings the chance down to `enough`, else the best of all, if that is worth a word.
template <class Try>
std::optional<HeatAdvice::Step> search(double from, double step, double least, double now, double enough, const Try& chance) {
  std::optional<HeatAdvice::Step> best;
  for (int k = 1; from - k * step >= least - 1e-9; ++k) {
    const double value = from - k * step, risk = chance(value);
    if (!best || risk < best->risk) best = HeatAdvice::Step{value, risk};
    if (risk <= enough) break;
  }
  if (best && best->risk > now - 0.5 * worth_a_word) best.reset();
  return best;
}

std::optional<HeatAdvice> against_heat(const Scenario& scenario, const Opening& opening, const Worklist& usual, const Worklist& coming, int days) {
  HeatAdvice advice;
  for (const auto& [key, fate] : coming.batches) {
    const auto same = usual.batches.find(key);
    if (same == usual.batches.end() || fate.left == 0 || fate.risk - same->second.risk < worth_a_word) continue;
    const bool to_be_soaked = std::any_of(coming.tasks.begin(), coming.tasks.end(), [&key = key](const Task& task) {
      return task.kind == Task::Kind::soak && task.day == key.first && task.session == key.second;
    });
    if (!to_be_soaked) {
      advice.standing.push_back(key);
      if (fate.risk > advice.standing_risk) advice.standing_risk = fate.risk, advice.standing_usual = same->second.risk;
    } else if (key.first < days) {
      advice.batches.push_back(key);
    }
  }
  if (advice.batches.empty() && advice.standing.empty()) return std::nullopt;
  advice.usual = risk_of(usual, advice.batches);
  advice.risk = risk_of(coming, advice.batches);
  if (advice.batches.empty()) return advice;
  const double enough = advice.usual + worth_a_word, density = scenario.line.sowing_density.value();
  const auto by_soak = [&](double hours) { return risk_of(played(scenario, opening, coming, advice.batches, hours, 1.0), advice.batches); };
  advice.soak = search(scenario.line.soak.value(), soak_step_hours, least_soak_hours, advice.risk, enough, by_soak);
  const auto by_charge = [&](std::optional<double> soak) {
    return [&, soak](double share) { return risk_of(played(scenario, opening, coming, advice.batches, soak, share), advice.batches); };
  };
  const auto in_density = [&](std::optional<HeatAdvice::Step> step) {
    if (step) step->value *= density;
    return step;
  };
  advice.charge = in_density(search(1.0, charge_step, least_charge, advice.risk, enough, by_charge({})));
  const bool enough_alone = (advice.soak && advice.soak->risk <= enough) || (advice.charge && advice.charge->risk <= enough);
  if (!enough_alone && advice.soak)
    advice.both = in_density(search(1.0, charge_step, least_charge, advice.soak->risk, enough, by_charge(advice.soak->value)));
  return advice;
}

/// Days after its days on the rack until a batch may be fed. One that left unripe would have gone on at its pace so far; one that is
/// there unripe at the end of the run takes that long at least.
double late_by(const Scenario& s, const std::pair<int, int>& key, const BatchFate& fate, int horizon) {
  const Keeper& keeper = s.keeper;
  const double sown = key.first + (key.second == 0 ? keeper.morning : keeper.evening).value() / 24.0;
  double ripe = fate.ripe ? static_cast<double>(*fate.ripe) / minutes_per_day : horizon;
  if (!fate.ripe && fate.left > 0)
    ripe = sown + (static_cast<double>(fate.left_at) / minutes_per_day - sown) / std::clamp(fate.grown, 0.01, 1.0);
  return ripe - (sown + s.line.days_on_rack);
}

std::optional<ColdAdvice> against_cold(const Scenario& scenario, const Worklist& usual, const Worklist& coming, int days, int horizon) {
  ColdAdvice advice;
  for (const auto& [key, fate] : coming.batches) {
    const auto same = usual.batches.find(key);
    if (key.first >= days || fate.trays == 0 || same == usual.batches.end()) continue;
    const double late = late_by(scenario, key, fate, horizon), before = late_by(scenario, key, same->second, horizon);
    if (late < worth_a_wait_days || late - std::max(0.0, before) < worth_a_wait_days) continue;
    advice.batches.push_back(key);
    // No mat stays longer than twice its days.
    if (!fate.ripe && late > scenario.line.days_on_rack) advice.never.push_back(key);
    else if (late > advice.late) advice.late = late, advice.usual_late = std::max(0.0, before);
  }
  if (advice.batches.empty()) return std::nullopt;
  return advice;
}

}  // namespace

WeatherAdvice weather_advice(const Scenario& scenario, const Opening& opening, int days) {
  WeatherAdvice advice;
  Opening without = opening;
  std::erase_if(without.weather, [](const Opening::Known& known) { return known.day >= 0; });
  if (without.weather.size() == opening.weather.size()) return advice;
  const Plan plan = make_plan(scenario, opening);
  const Worklist usual = work(make_plan(scenario, without)), coming = work(plan);
  advice.heat = against_heat(scenario, opening, usual, coming, days);
  advice.cold = against_cold(scenario, usual, coming, days, plan.horizon_days);
  return advice;
}

}  // namespace rackwright::study
