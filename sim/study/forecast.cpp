#include "sim/study/forecast.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

#include "models/base/expects.hpp"
#include "sim/random/laws.hpp"
#include "sim/random/philox_stream.hpp"
#include "sim/study/fit_draws.hpp"

namespace rackwright::study {
namespace {

using std::chrono::sys_days;
constexpr std::uint32_t draws = 400;
constexpr std::uint64_t forecast_seed = 20260;
constexpr int week = 7;

/// What the earlier trays alone would let one say.
struct Naive {
  double mean = 0.0, sd = 0.0, spoiled = 0.0;
  explicit Naive(const std::vector<Seen>& past) {
    double n = 0.0, square = 0.0, judged = 0.0, lost = 0.0;
    for (const Seen& seen : past) {
      if (seen.log_fresh) {
        const double ratio = std::exp(*seen.log_fresh);
        n += 1.0;
        const double off = ratio - mean;
        mean += off / n;
        square += off * (ratio - mean);
      }
      if (!seen.spoiled) continue;
      judged += 1.0;
      lost += *seen.spoiled == LoggedSpoil::sound ? 0.0 : 1.0;
    }
    if (n > 1.0) sd = std::sqrt(square / (n - 1.0));
    spoiled = (lost + 0.5) / (judged + 1.0);
  }
};

void score_weight(ForecastCheck& all, WeekScore& here, std::vector<double>& sample, double y, const Naive& naive, double grain) {
  here.crps += crps_of_sample(sample, y);
  here.naive_crps += crps_of_normal(naive.mean * grain, naive.sd * grain, y);
  ++here.weights;
  const auto below = std::lower_bound(sample.begin(), sample.end(), y) - sample.begin();
  const double place = (static_cast<double>(below) + 0.5) / (static_cast<double>(sample.size()) + 1.0);
  all.within_50 += std::abs(place - 0.5) <= 0.25;
  all.within_90 += std::abs(place - 0.5) <= 0.45;
  ++all.fifths[static_cast<std::size_t>(std::min(4.0, 5.0 * place))];
  all.mean_weight += y;
}

void score_spoil(ForecastCheck& all, WeekScore& here, double chance, bool lost, const Naive& naive) {
  const auto brier = [&](double p) { return (p - lost) * (p - lost); };
  const auto surprise = [&](double p) { return -std::log(std::clamp(lost ? p : 1.0 - p, 1e-6, 1.0)); };
  all.brier += brier(chance);
  all.naive_brier += brier(naive.spoiled);
  all.log_score += surprise(chance);
  all.naive_log_score += surprise(naive.spoiled);
  here.expected_spoiled += chance;
  here.spoiled += lost;
  ++here.judged;
}

class Forecaster {
 public:
  Forecaster(const TrayLog& log, const Scenario& scenario, bool stated) : log_(log), scenario_(scenario), stated_(stated) {}

  /// Adds the week from that morning on.
  void add(ForecastCheck& all, sys_days from) {
    TrayLog sown;  // what is sown by the end of the week
    for (const LoggedTray& tray : log_.trays)
      if (tray.sown < from + std::chrono::days(week)) sown.trays.push_back(tray);
    if (sown.trays.empty()) return;
    const LoggedRoom room(sown, from);
    if (!room.any()) return;
    const TrayModel model(scenario_, room, species_of(sown, scenario_));
    FitLog known = fit_log(sown, scenario_, stated_, room, model);
    std::vector<Seen> coming;
    for (const Seen& seen : known.seen)
      if (seen.ended >= from && seen.ended < from + std::chrono::days(week)) coming.push_back(seen);
    std::erase_if(known.seen, [&](const Seen& seen) { return seen.ended >= from; });
    note_readings(known);
    if (coming.empty() || known.seen.size() < first_forecast_after) return;
    const TrayFit fit(scenario_, model, known);
    const std::vector<double> start = start_of(known, fit);
    const Posterior posterior = fit.fit(&start);
    last_ = posterior.mean;
    last_lots_ = known.lots.size();
    score(all, from, room, model, known, fit, posterior, coming);
  }

 private:
  /// Where last week's fit ended; lots that are new begin in the middle. Lots keep their order from week to week.
  [[nodiscard]] std::vector<double> start_of(const FitLog& known, const TrayFit& fit) const {
    std::vector<double> start(fit.unknowns(), 0.0);
    if (last_.empty()) return start;
    const std::size_t lots = known.lots.size(), kept = std::min(lots, last_lots_);
    std::copy_n(last_.begin(), law_count, start.begin());
    for (std::size_t kind = 0; kind < 2; ++kind)
      for (std::size_t lot = 0; lot < kept; ++lot) start[law_count + kind * lots + lot] = last_[law_count + kind * last_lots_ + lot];
    for (std::size_t k = 0; k < 2; ++k) start[law_count + 2 * lots + k] = last_[law_count + 2 * last_lots_ + k];
    return start;
  }

  void score(ForecastCheck& all, sys_days from, const LoggedRoom& room, const TrayModel& model, const FitLog& known, const TrayFit& fit,
             const Posterior& posterior, const std::vector<Seen>& coming) {
    const auto number = static_cast<std::uint32_t>(all.weeks.size());
    const std::vector<Drawn> drawn = draw(fit, posterior, draws, random::make_key(forecast_seed, number));
    const Naive naive(known.seen);
    WeekScore here;
    here.from = from;
    std::vector<double> weights(draws);
    std::uint32_t tray = 0;
    for (const Seen& seen : coming) {
      const TrayCase& what = known.cases[static_cast<std::size_t>(seen.tray_case)];
      double chance = 0.0;
      for (std::uint32_t d = 0; d < draws; ++d) {
        // The room's own week to come is one luck a draw, a tray's scatter one a tray.
        random::Stream weather{random::make_key(forecast_seed, number), random::Purpose::sample, 1, d};
        random::Stream luck{random::make_key(forecast_seed, number), random::Purpose::sample, 2 + tray, d};
        const double shift = room.weekly_step() * random::normal(weather);
        const TrayEnd end = model.grow(what, drawn[d].line, drawn[d].lots[static_cast<std::size_t>(what.lot)], shift, room.day_of(from));
        weights[d] = seen.grain_kg * end.fresh_ratio * std::exp(drawn[d].weight_scatter * student_draw(luck));
        chance += spoilage::spoiled_probability(end.mould + end.sour) / draws;
      }
      ++tray;
      if (seen.log_fresh) score_weight(all, here, weights, seen.grain_kg * std::exp(*seen.log_fresh), naive, seen.grain_kg);
      if (seen.spoiled) score_spoil(all, here, chance, *seen.spoiled != LoggedSpoil::sound, naive);
    }
    all.weeks.push_back(here);
  }

  const TrayLog& log_;
  const Scenario& scenario_;
  bool stated_;
  std::vector<double> last_;
  std::size_t last_lots_ = 0;
};

void sum_up(ForecastCheck& all) {
  for (const WeekScore& one : all.weeks) {
    all.weights += one.weights;
    all.judged += one.judged;
    all.spoiled += one.spoiled;
    all.crps += one.crps;
    all.naive_crps += one.naive_crps;
    all.expected_spoiled += one.expected_spoiled;
  }
  if (all.weights > 0) {
    for (double* mean : {&all.crps, &all.naive_crps, &all.within_50, &all.within_90, &all.mean_weight}) *mean /= all.weights;
  }
  if (all.judged > 0) {
    for (double* mean : {&all.brier, &all.naive_brier, &all.log_score, &all.naive_log_score}) *mean /= all.judged;
  }
}

}  // namespace

double crps_of_sample(std::span<double> sample, double y) {
  EXPECTS(sample.size() >= 2);
  std::sort(sample.begin(), sample.end());
  const auto n = static_cast<double>(sample.size());
  double off = 0.0, apart = 0.0;
  for (std::size_t i = 0; i < sample.size(); ++i) {
    off += std::abs(sample[i] - y);
    apart += (2.0 * static_cast<double>(i) - n + 1.0) * sample[i];  // each pair once
  }
  return off / n - apart / (n * (n - 1.0));
}

double crps_of_normal(double mean, double sd, double y) {
  if (!(sd > 0.0)) return std::abs(y - mean);
  const double z = (y - mean) / sd;
  const double density = std::exp(-0.5 * z * z) / std::sqrt(2.0 * std::numbers::pi);
  return sd * (z * std::erf(z / std::numbers::sqrt2) + 2.0 * density - 1.0 / std::sqrt(std::numbers::pi));
}

std::optional<ForecastCheck> forecast_check(const TrayLog& log, const Scenario& scenario, bool stated) {
  const LoggedRoom room(log);
  if (!room.any()) return std::nullopt;
  const TrayModel model(scenario, room, species_of(log, scenario));
  const FitLog used = fit_log(log, scenario, stated, room, model);
  std::multiset<sys_days> ended;
  for (const Seen& seen : used.seen) ended.insert(seen.ended);
  if (ended.size() <= first_forecast_after) return std::nullopt;
  ForecastCheck all;
  Forecaster forecaster(log, scenario, stated);
  sys_days first = *std::next(ended.begin(), first_forecast_after - 1) + std::chrono::days(1);
  const auto weeks = (*ended.rbegin() - first).count() / week + 1;
  if (weeks > most_weeks) first += std::chrono::days(week * (weeks - most_weeks));
  for (sys_days from = first; from <= *ended.rbegin(); from += std::chrono::days(week)) forecaster.add(all, from);
  if (all.weeks.empty()) return std::nullopt;
  sum_up(all);
  return all;
}

}  // namespace rackwright::study
