#pragma once
// Logs of trays made up for tests: sown on two shelves a day in a room that drifts and strays, with known truth and with gaps. Invented.

#include <cmath>
#include <string>

#include <fmt/format.h>

#include "sim/random/laws.hpp"
#include "sim/random/philox_stream.hpp"
#include "sim/study/fit_draws.hpp"

namespace rackwright::test {

/// How a made-up log is sown. Outcomes are placeholders until `outcome` gives them.
struct LogPlan {
  int trays = 60, a_day = 2, lot_days = 25;
  double mean = 22.0, drift = 5.0, gaps = 0.1;
  std::string species = "barley";
};

inline TrayLog sown(const LogPlan& plan, random::Stream& luck) {
  using namespace std::chrono_literals;
  TrayLog log;
  double stray = 0.0, day_mean = 0.0, swing = 0.0;
  for (int i = 0; i < plan.trays; ++i) {
    const int day = i / plan.a_day;
    if (i % plan.a_day == 0) {
      stray = 0.7 * stray + random::normal(luck, 0.0, 1.2);
      day_mean = plan.mean + plan.drift * std::sin(6.2831853 * day / 90.0) + stray;
      swing = random::uniform(luck, 2.0, 4.0);
    }
    LoggedTray tray;
    tray.line = i + 2;
    tray.sown = std::chrono::sys_days(2026y / 3 / 1) + std::chrono::days(day);
    tray.lot = fmt::format("lot {}", 1 + day / plan.lot_days);
    tray.species = plan.species;
    tray.grain = Kilograms(std::round(1000.0 * random::uniform(luck, 0.7, 1.1)) / 1000.0);
    tray.soak = Hours(std::round(random::uniform(luck, 7.0, 13.0)));
    tray.area = SquareMetres(0.18);
    tray.room_max = Celsius(std::round(10.0 * (day_mean + swing)) / 10.0);
    tray.room_min = Celsius(std::round(10.0 * (day_mean - swing)) / 10.0);
    tray.days = std::floor(random::uniform(luck, 5.0, 9.0));
    tray.fresh = Kilograms(4.0);
    tray.height_cm = 15.0;
    tray.spoiled = LoggedSpoil::sound;
    if (random::uniform01(luck) < plan.gaps) tray.soak.reset();
    if (random::uniform01(luck) < plan.gaps) tray.room_max.reset();
    log.trays.push_back(tray);
  }
  return log;
}

/// What truth makes of one tray, and what the keeper writes of it.
inline void outcome(LoggedTray& tray, const study::TrayEnd& end, const study::Drawn& truth, double gaps, random::Stream& luck) {
  const double weight = truth.weight_scatter * study::student_draw(luck), height = truth.height_scatter * study::student_draw(luck);
  const double mould = end.mould, sour = end.sour;
  const double first = random::exponential(luck), second = random::exponential(luck);
  const bool moulds = first < mould, sours = second < sour;
  tray.spoiled = moulds || sours ? LoggedSpoil::spoiled : LoggedSpoil::sound;
  tray.fresh = Kilograms(tray.grain->value() * end.fresh_ratio * std::exp(weight));
  tray.height_cm = std::max(0.0, (1.0 + end.height_cm) * std::exp(height) - 1.0);
  if (random::uniform01(luck) < gaps) tray.fresh.reset();
  if (random::uniform01(luck) < gaps) tray.height_cm.reset();
  if (random::uniform01(luck) < gaps) tray.spoiled.reset();
}

/// A log with the truth it was made from: scores drawn from the prior, or those given.
struct MadeUp {
  TrayLog log;
  std::vector<double> scores;   ///< of every unknown, as study::TrayFit orders them
};
inline MadeUp made_up(const Scenario& scenario, const LogPlan& plan, std::uint64_t seed, std::uint32_t number, const std::vector<double>& given = {}) {
  random::Stream luck{random::make_key(seed, number), random::Purpose::test, 0, 0};
  MadeUp made{sown(plan, luck), {}};
  const study::LoggedRoom room(made.log);
  const study::TrayModel model(scenario, room, {plan.species});
  const study::FitLog used = study::fit_log(made.log, scenario, true, room, model);
  const study::TrayFit fit(scenario, model, used);
  for (std::size_t i = 0; i < fit.unknowns(); ++i) {
    const double drawn = random::normal(luck);
    made.scores.push_back(i < given.size() ? given[i] : drawn);
  }
  const study::Drawn truth = fit.at(made.scores);
  for (std::size_t i = 0; i < used.seen.size(); ++i) {
    const study::TrayCase& what = used.cases[static_cast<std::size_t>(used.seen[i].tray_case)];
    LoggedTray& tray = made.log.trays[static_cast<std::size_t>(used.seen[i].line) - 2];
    outcome(tray, model.grow(what, truth.line, truth.lots[static_cast<std::size_t>(what.lot)]), truth, plan.gaps, luck);
  }
  return made;
}

}  // namespace rackwright::test
