#include "sim/app/lot_study.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "models/base/expects.hpp"
#include "sim/app/evaluate_tray.hpp"
#include "sim/replication/ignorance.hpp"
#include "sim/replication/species_models.hpp"
#include "sim/scenario/sowing_order.hpp"

namespace rackwright::app {

namespace {

constexpr Celsius usual_temperature(20.0);
constexpr std::array<int, 7> trial_sizes{50, 100, 200, 400, 800, 1600, 3200};
constexpr grain::BetaPrior before_a_count{0.5, 0.5};  // Jeffreys's law, as of lots tried in a tray log: a flat one tells a good lot too poor
constexpr double reading_spread = 0.08;  // sd of the logarithm of one reading of days to a height (assumed)

struct Yield { double fresh = 0.0, sound = 1.0; };
/// A tray of the scenario's line in a room at that temperature, its soak water that of the scenario or of the room.
SteadyTray tray_of(const Scenario& scenario, const GrainSupply& supply, double fraction, Celsius air, Celsius soak_water) {
  const auto models = species_models(scenario, supply.species);
  EXPECTS(models.has_value());
  SteadyTray tray;
  tray.germination = models->germination;
  tray.growth = models->growth;
  tray.spoilage = scenario.spoilage;
  tray.air = air;
  tray.density = scenario.line.sowing_density;
  tray.days = scenario.line.days_on_rack;
  tray.fraction = fraction;
  const Ignorance line = central(scenario);
  tray.vigour = 1.0 / line.germination_time(models->germination.origin);
  tray.warmth = line.warmth;
  tray.grain_dry_matter = 1.0 - supply.moisture;
  tray.undrained = 1.0 - scenario.line.drainage;
  tray.soak = soak::effect(models->soak, soak_water, supply.moisture, scenario.line.soak);
  return tray;
}

Yield yield_at(const Scenario& scenario, const GrainSupply& supply, double fraction) {
  const SteadyEnd end = grow(tray_of(scenario, supply, fraction, usual_temperature, scenario.line.soak_water));
  return {end.mat.fresh_ratio, 1.0 - end.mould - end.sour};
}

constexpr double never = std::numeric_limits<double>::infinity();

/// The days that mats of a lot so quick take to a height; infinite if they never reach it.
double days_to_height(SteadyTray tray, double height) {
  double before = 0.0;
  for (int quarter = 1; quarter <= 4 * 30; ++quarter) {
    tray.days = 0.25 * quarter;
    const double now = grow(tray).mat.height_cm;
    if (now >= height) return tray.days - 0.25 * (now - height) / std::max(1e-9, now - before);
    before = now;
  }
  return never;
}

/// How quick the lot is by what was seen of its height, and what that makes of the line's days on the rack at the temperature of the rest
/// of the answer. Nothing where usual mats never stand so high.
void see_speed(LotAnswer& answer, const Scenario& scenario, const GrainSupply& supply, const LotQuestion& question) {
  const double air = question.height_temperature.value_or(usual_temperature.value());
  SteadyTray seen = tray_of(scenario, supply, 0.92, Celsius(air), Celsius(std::max(0.0, air)));
  const double usual = seen.vigour;
  const auto days_at = [&](double vigour) {
    seen.vigour = vigour * usual;
    return days_to_height(seen, *question.height_cm);
  };
  if (days_at(1.0) == never) return;
  answer.vigour = grain::vigour_of(days_at, *question.height_days, std::max(0.01, supply.grade.vigour_sd), reading_spread);
  SteadyTray own = tray_of(scenario, supply, 0.92, usual_temperature, scenario.line.soak_water);
  const double ripe = grow(own).growth_days;
  own.vigour *= answer.vigour->mean;
  own.days = 100.0;
  answer.days_as_ripe = days_until(own, ripe);
}

/// The smallest trial with most of the gain that any of them brings, where that gain is worth the trouble.
std::optional<int> worth_trying(const LotAnswer& answer) {
  double most = 0.0;
  for (const grain::TrialValue& trial : answer.trials) most = std::max(most, trial.gain);
  if (most < 0.01 * std::max(answer.money.candidate, answer.money.current)) return std::nullopt;
  for (const grain::TrialValue& trial : answer.trials) {
    if (trial.gain >= 0.8 * most) return trial.kernels;
  }
  return std::nullopt;
}

Advice advice_of(const LotAnswer& answer, double sure) {
  if (!answer.agreement.agree()) return Advice::repeat;
  if (answer.money.pays >= sure) return Advice::change;
  if (answer.money.pays <= 1.0 - sure) return Advice::stay;
  if (answer.worth_trying) return Advice::larger;
  const double ratio = answer.money.candidate / answer.money.current;
  if (std::abs(ratio - 1.0) < 0.03) return Advice::alike;
  return ratio > 1.0 ? Advice::change : Advice::stay;
}

/// Days in store until the current lot has aged to the fraction at which the candidate gives as much for the money.
std::optional<double> days_to(const Scenario& scenario, const GrainSupply& supply, double from, double to) {
  if (!(to < from) || to < 0.02) return std::nullopt;
  const auto models = species_models(scenario, supply.species);
  EXPECTS(models.has_value());
  const double moisture = std::clamp(100.0 * supply.moisture, 5.0, 25.0);
  const double sigma = grain::sigma_days(models->viability, moisture, supply.store_temperature.value_or(scenario.climate.mean.mean));
  return (grain::probit(std::min(from, 0.9999)) - grain::probit(to)) * sigma;
}

}  // namespace

grain::Worth green_fodder(const Scenario& scenario, const GrainSupply& supply) {
  const double soaked = yield_at(scenario, supply, 0.0).fresh;
  constexpr int knots = 100;
  std::array<double, knots + 1> green{};
  double top = 0.0;
  for (int i = 0; i <= knots; ++i) {
    const double fraction = static_cast<double>(i) / knots;
    const Yield yield = yield_at(scenario, supply, fraction);
    top = std::max(top, std::max(0.0, yield.fresh - soaked * (1.0 - fraction)) * std::clamp(yield.sound, 0.0, 1.0));
    green[static_cast<std::size_t>(i)] = top;  // more sprouts are never worth less
  }
  grain::Worth worth(grain::FractionLaw::cells);
  for (int cell = 0; cell < grain::FractionLaw::cells; ++cell) {
    const double x = knots * grain::FractionLaw::at(cell);
    const auto i = static_cast<std::size_t>(x);
    worth[static_cast<std::size_t>(cell)] = green[i] + (x - static_cast<double>(i)) * (green[i + 1] - green[i]);
  }
  return worth;
}

LotAnswer study_lot(const Scenario& scenario, std::size_t grain, const LotQuestion& question) {
  using grain::FractionLaw;
  const GrainSupply& supply = scenario.grains[grain];
  const double rho = supply.grade.tray_rho;
  const double stated = std::clamp(supply.grade.germination_mean, 0.001, 0.999);
  const grain::BetaPrior grade = grain::prior_of(stated, std::clamp(supply.grade.germination_rho, 1e-4, 0.5));
  const bool tested = !question.current.empty();
  LotAnswer answer{.candidate = FractionLaw(before_a_count, question.candidate, rho),
                   .current = FractionLaw(tested ? before_a_count : grade, question.current, rho),
                   .agreement = grain::agreement(question.candidate, rho)};
  const grain::Worth worth = green_fodder(scenario, supply);
  answer.money = grain::compare(answer.candidate, question.candidate_price, answer.current, supply.price(), worth);
  for (const int more : trial_sizes) {
    answer.trials.push_back(grain::value_of_trial(answer.candidate, question.candidate_price, answer.money, worth, more, rho));
    if (!answer.decides && answer.trials.back().wrong <= 1.0 - question.sure) answer.decides = more;
  }
  answer.worth_trying = worth_trying(answer);
  answer.advice = advice_of(answer, question.sure);
  constexpr double surely = 0.975;
  answer.poorer = answer.candidate.quantile(surely) < answer.current.mean();
  answer.break_even_price = answer.money.current > 0.0 ? question.candidate_price * answer.money.candidate / answer.money.current : 0.0;
  answer.thickest = species_models(scenario, supply.species)->growth.plateau_density.value();
  answer.same_sprouts = scenario.line.sowing_density.value() * answer.current.mean() / std::max(0.01, answer.candidate.mean());
  if (question.height_cm && question.height_days) see_speed(answer, scenario, supply, question);
  // The old lot feeds on until the first mats of the new one are ripe and, should they fail, until others are delivered.
  answer.keep_days = in_days(scenario.line.soak) + scenario.line.days_on_rack + in_days(supply.store.delivery) +
                     2.0 * in_days(supply.delivery_sd);
  answer.keep_back = most_sown_a_day(scenario, grain) * answer.keep_days;
  // Worth per money of the current lot that equals the candidate's.
  const double equal = answer.money.candidate * supply.price();
  const auto cell = std::lower_bound(worth.begin(), worth.end(), equal) - worth.begin();
  answer.ageing_days = days_to(scenario, supply, answer.current.mean(), FractionLaw::at(static_cast<int>(cell)));
  return answer;
}

}  // namespace rackwright::app
