// What a tray log says: the room it tells, one tray as the simulator grows it, the slope of the posterior, and what comes of no data at all.
#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/replication/replicate.hpp"
#include "sim/scenario/read.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"
#include "tests/logged.hpp"

using namespace rackwright;
using namespace rackwright::study;
using std::chrono::sys_days;
using namespace std::chrono_literals;

namespace {

TrayLog room_of(const std::vector<std::pair<int, double>>& readings) {
  TrayLog log;
  for (const auto& [day, celsius] : readings) {
    LoggedTray tray;
    tray.sown = sys_days(2026y / 3 / 1) + std::chrono::days(day);
    if (!std::isnan(celsius)) {
      tray.room_max = Celsius(celsius + 2.0);
      tray.room_min = Celsius(celsius - 2.0);
    }
    log.trays.push_back(tray);
  }
  return log;
}

struct Fitted {
  Scenario scenario;  // the fit looks at it
  test::MadeUp made;
  LoggedRoom room;
  TrayModel model;
  FitLog used;
  TrayFit fit;
  Fitted(const Scenario& farm, const test::LogPlan& plan, std::uint32_t number, const std::vector<double>& given = {})
      : scenario(farm), made(test::made_up(scenario, plan, 41, number, given)), room(made.log), model(scenario, room, {plan.species}),
        used(fit_log(made.log, scenario, true, room, model)), fit(scenario, model, used) {}
};

}  // namespace

TEST_CASE("a logged room lies between its readings, and is not known far from them") {
  const double none = std::numeric_limits<double>::quiet_NaN();
  const LoggedRoom room(room_of({{0, none}, {2, 18.0}, {4, 22.0}, {20, 20.0}}));
  CHECK(room.at(2, 15.0) == Approx(20.0));  // the day's maximum
  CHECK(room.at(2, 6.0) == Approx(16.0));
  CHECK(room.at(3, 15.0) == Approx(22.0));  // between 20 and 24
  CHECK(room.known(0, 8));
  CHECK_FALSE(room.known(0, 9));
  CHECK(room.known(16, 24));
  CHECK_FALSE(room.known(20, 25));
  CHECK(room.mean() == Approx(20.0));
  CHECK_FALSE(LoggedRoom(room_of({{0, none}})).any());
}

TEST_CASE("who forecasts on a morning knows no later reading") {
  std::vector<std::pair<int, double>> readings;
  for (int day = 0; day < 20; ++day) readings.emplace_back(day, day < 10 ? 18.0 + day % 2 : 30.0);
  const LoggedRoom room(room_of(readings), sys_days(2026y / 3 / 11));
  for (int day = 10; day < 25; ++day) CHECK(room.at(day, 15.0) == Approx(20.0 + 4.0 / 7.0));  // days 3 to 9: 19 18 19 18 19 18 19
  CHECK(room.known(0, 25));
}

TEST_CASE("one tray by the fit's model is as old and as tall as the simulator's mats in a steady room") {
  // Same laws, other code: the replication settles mornings from its own room. Lots and trays alike, no heat from the mats.
  Scenario farm = test::quiet_farm();
  farm.climate.range_mean = Kelvins(0.0);
  farm.climate.dew_depression_sd = Kelvins(0.0);
  farm.tier_gradient = Kelvins(0.0);
  farm.line.grains = {"barley", "barley"};
  farm.line.drainage = 1.0;
  farm.line.grace_days = 0;  // what is fed is as old as stated
  farm.own_line.pace = 1.1;
  farm.own_line.height = 0.8;
  for (GrainSupply& grain : farm.grains) {
    grain.grade.germination_rho = grain.grade.tray_rho = grain.grade.vigour_sd = 0.0;
  }
  const Plan plan = make_plan(farm);
  const Outcome outcome = Replicator(plan).run(3, 0);
  REQUIRE(outcome.room_max - outcome.room_min < 3.0);
  const LoggedRoom room(room_of({{0, outcome.room_mean}}));
  const TrayModel model(farm, room, {"barley"});
  TrayCase tray;
  tray.days = farm.line.days_on_rack;
  tray.density = farm.line.sowing_density.value();
  tray.grain_dry_matter = 1.0 - farm.grains[0].moisture;
  model.soak(tray, room, farm.line.soak);
  const TrayEnd end = model.grow(tray, {}, {farm.grains[0].grade.germination_mean, 1.0});
  CHECK(end.growth_days == Approx(outcome.mat_growth_days).epsilon(0.03));
  CHECK(end.height_cm == Approx(outcome.mat_height).epsilon(0.06));
}

TEST_CASE("the slope of the posterior is its slope") {
  test::LogPlan plan{.trays = 40, .lot_days = 10};
  const Fitted f(Scenario{}, plan, 1);
  REQUIRE(f.used.lots.size() == 2);
  for (const double away : {0.0, 0.4}) {
    std::vector<double> at(f.fit.unknowns(), away), slope;
    for (std::size_t i = 0; i < at.size(); i += 2) at[i] = -away;
    (void)f.fit.minus_log_density(at, &slope, {3.0, 2.0});
    for (std::size_t i = 0; i < at.size(); ++i) {
      constexpr double step = 1e-4;
      std::vector<double> up = at, down = at;
      up[i] += step;
      down[i] -= step;
      const double numeric = (f.fit.minus_log_density(up, nullptr, {3.0, 2.0}) - f.fit.minus_log_density(down, nullptr, {3.0, 2.0})) / (2.0 * step);
      INFO("unknown " << i << " at " << away);
      CHECK(slope[i] == Approx(numeric).margin(2e-3).epsilon(2e-3));
    }
  }
}

TEST_CASE("what no tray feels stays as it was, and a fit changes the scenario by what it found") {
  test::LogPlan plan{.trays = 60};
  const Fitted f(Scenario{}, plan, 2);
  const Posterior after = f.fit.fit();
  CHECK(after.settled);
  for (const Law law : {Law::ageing, Law::carry, Law::borrowed_time}) {  // barley only, and no store
    CHECK(after.mean[place_of(law)] == near(0.0, 1e-6));
    CHECK(after.sd(place_of(law)) == near(1.0, 1e-6));
  }
  CHECK(after.sd(place_of(Law::pace)) < 0.6);
  const Scenario fitted = with_fit(Scenario{}, after);
  const double spread = Scenario{}.ignorance.spread[place_of(Law::pace)];
  CHECK(fitted.own_line.pace == near(std::exp(spread * after.mean[place_of(Law::pace)]), 6e-4));
  CHECK(fitted.ignorance.spread[place_of(Law::pace)] == near(spread * after.sd(place_of(Law::pace)), 6e-5));
  REQUIRE(tied_scores(fitted.ignorance));
  // What was learnt before is where the next log begins: the prior of a fitted scenario is that fit.
  const TrayFit again(fitted, f.model, f.used);
  const Posterior prior = again.prior();
  const std::size_t loss = place_of(Law::loss), swelling = place_of(Law::swelling);
  CHECK(prior.covariance(loss, swelling) == near(after.covariance(loss, swelling) / (after.sd(loss) * after.sd(swelling)), 0.06));
}

TEST_CASE("a wild entry is told apart and does not carry the fit away") {
  test::LogPlan plan{.trays = 60, .gaps = 0.0};
  const std::vector<double> truth(law_count + 2 * 2 + 2, 0.0);
  Fitted clean(Scenario{}, plan, 3, truth);
  const Posterior before = clean.fit.fit();
  clean.used.seen[30].log_fresh = *clean.used.seen[30].log_fresh + std::log(2.0);
  clean.used.seen[31].log_fresh = *clean.used.seen[31].log_fresh + std::log(2.0);
  const Posterior after = clean.fit.fit();
  const auto misses = clean.fit.weight_misses(after.mean);
  CHECK(misses[30] > 4.0);
  CHECK(misses[31] > 4.0);
  for (const Law law : {Law::pace, Law::loss, Law::swelling})
    CHECK(std::abs(after.mean[place_of(law)] - before.mean[place_of(law)]) < 0.5 * before.sd(place_of(law)));
}

TEST_CASE("lots are drawn as a replication draws them") {
  const grain::Grade grade;
  CHECK(lot_at(grade, 0.0, 0.0).germinable == near(0.923, 0.01));  // the median of a beta law skewed to the left
  double sum = 0.0;
  random::Stream luck{random::make_key(5, 0), random::Purpose::test, 0, 0};
  constexpr int draws = 20000;  // the mean is within 0.001 in all but one of 10^7 runs
  for (int i = 0; i < draws; ++i) sum += lot_at(grade, random::normal(luck), 0.0).germinable;
  CHECK(sum / draws == near(grade.germination_mean, 0.001));
  grain::Grade sure = grade;
  sure.germination_rho = 0.0;
  CHECK(lot_at(sure, 2.0, 1.0).germinable == sure.germination_mean);
  CHECK(lot_at(sure, 2.0, 1.0).vigour == Approx(std::exp(sure.vigour_sd * std::sqrt(1.0 - sure.vigour_correlation * sure.vigour_correlation))));
}

TEST_CASE("mouldy and sour are two ways to be spoiled: their chances make the chance of either, and each has its slope") {
  Fitted f(Scenario{}, {.trays = 40}, 3);
  const auto tray = std::find_if(f.used.seen.begin(), f.used.seen.end(), [](const Seen& seen) { return seen.spoiled.has_value(); });
  REQUIRE(tray != f.used.seen.end());
  const std::vector<double> at(f.fit.unknowns(), 0.3);
  const auto density = [&](LoggedSpoil what) {
    tray->spoiled = what;
    return f.fit.minus_log_density(at);
  };
  const double sound = density(LoggedSpoil::sound), either = density(LoggedSpoil::spoiled);
  CHECK(std::exp(sound - density(LoggedSpoil::mould)) + std::exp(sound - density(LoggedSpoil::sour)) == Approx(std::exp(sound - either)).epsilon(1e-9));
  for (const LoggedSpoil what : {LoggedSpoil::mould, LoggedSpoil::sour}) {
    tray->spoiled = what;
    std::vector<double> slope;
    (void)f.fit.minus_log_density(at, &slope);
    for (const Law law : {Law::mould, Law::sour}) {
      std::vector<double> up = at, down = at;
      constexpr double step = 1e-4;
      up[place_of(law)] += step;
      down[place_of(law)] -= step;
      INFO(static_cast<int>(what) << " by law " << place_of(law));
      CHECK(slope[place_of(law)] == Approx((f.fit.minus_log_density(up) - f.fit.minus_log_density(down)) / (2.0 * step)).margin(2e-3).epsilon(2e-3));
    }
  }
}

TEST_CASE("a log that says which way a tray spoiled is fitted to its end") {
  Fitted f(Scenario{}, {.trays = 60}, 4);
  int number = 0;
  for (Seen& seen : f.used.seen)
    if (seen.spoiled && ++number % 4 == 0) seen.spoiled = number % 8 == 0 ? LoggedSpoil::mould : LoggedSpoil::sour;
  const Posterior after = f.fit.fit();
  CHECK(after.settled);
  CHECK(after.mean[place_of(Law::mould)] > 0.0);  // far more spoil than is usual
  CHECK(after.mean[place_of(Law::sour)] > 0.0);
  CHECK(after.sd(place_of(Law::mould)) < 1.0);
}

TEST_CASE("a tray whose days on the rack nobody wrote down has the line's where a scenario states them, and is left out where none does") {
  Fitted f(Scenario{}, {.trays = 40}, 5);
  TrayLog log = f.made.log;
  const std::size_t one = 20;
  log.trays[one].soak = Hours(10.0);
  log.trays[one].days.reset();
  Scenario line;
  line.line.days_on_rack = 6;
  const FitLog stated = fit_log(log, line, true, f.room, f.model), bare = fit_log(log, line, false, f.room, f.model);
  CHECK(stated.assumed.at("days on the rack") == 1);
  const auto seen = std::find_if(stated.seen.begin(), stated.seen.end(), [&](const Seen& s) { return s.line == log.trays[one].line; });
  REQUIRE(seen != stated.seen.end());
  CHECK(stated.cases[static_cast<std::size_t>(seen->tray_case)].days == 6.0);
  CHECK(seen->ended == log.trays[one].sown + std::chrono::days(6));
  CHECK_FALSE(bare.assumed.contains("days on the rack"));
  CHECK(bare.unused.at("their days on the rack are not stated").size() == 1);
  CHECK(bare.seen.size() + 1 == stated.seen.size());
}

TEST_CASE("a tray thrown out before its time is judged over the days that the others were left to stand") {
  Fitted f(Scenario{}, {.trays = 240, .mean = 27.0}, 5);
  TrayLog whole = f.made.log;
  for (LoggedTray& tray : whole.trays) tray.days = 8.0;
  TrayLog thrown = whole;
  int lost = 0;
  for (LoggedTray& tray : thrown.trays)
    if (tray.spoiled == LoggedSpoil::spoiled) tray.days = 4.0 + lost++ % 4;
  REQUIRE(lost > 20);
  const FitLog full = fit_log(whole, f.scenario, true, f.room, f.model), early = fit_log(thrown, f.scenario, true, f.room, f.model);
  REQUIRE(early.seen.size() >= full.seen.size());
  int shorter = 0;
  for (const Seen& seen : early.seen) {
    const double days = early.cases[static_cast<std::size_t>(seen.tray_case)].days;
    const auto tray = std::find_if(thrown.trays.begin(), thrown.trays.end(), [&](const LoggedTray& t) { return t.line == seen.line; });
    CHECK(seen.ended == tray->sown + std::chrono::days(static_cast<int>(*tray->days)));
    shorter += days < 8.0;
    if (days < 8.0) CHECK(tray->sown + std::chrono::days(8) > thrown.trays.back().sown);  // the log's room ends before
  }
  CHECK(shorter <= 4);
  const std::size_t mould = place_of(Law::mould);
  const Posterior by_full = TrayFit(f.scenario, f.model, full).fit(), by_early = TrayFit(f.scenario, f.model, early).fit();
  CHECK(by_early.mean[mould] == near(by_full.mean[mould], 0.1 * by_full.sd(mould)));
  // Harvested on another day each, as made up: what was lost on a day on which others are harvested had its own days.
  for (const Seen& seen : f.used.seen) {
    const auto tray = std::find_if(f.made.log.trays.begin(), f.made.log.trays.end(), [&](const LoggedTray& t) { return t.line == seen.line; });
    if (tray->days) CHECK(f.used.cases[static_cast<std::size_t>(seen.tray_case)].days == *tray->days);
  }
}

TEST_CASE("a density is told as what it is: the line's, or the grain of the log over the size of the scenario's tray") {
  Fitted f(Scenario{}, {.trays = 40}, 5);
  TrayLog log = f.made.log;
  log.trays.resize(12);
  for (LoggedTray& tray : log.trays) tray.area.reset();
  REQUIRE(log.trays[3].grain.has_value());
  log.trays[5].grain.reset();
  log.trays[5].fresh.reset();
  log.trays[5].spoiled = LoggedSpoil::sound;
  const std::string by_size = "the size of a tray (its grain by that is the sowing density)";
  const FitLog used = fit_log(log, Scenario{}, true, f.room, f.model);
  CHECK(used.assumed.at(by_size) == static_cast<int>(used.seen.size()) - 1);
  CHECK(used.assumed.at("sowing density") == 1);
  Scenario larger, thicker;
  larger.rack.tray_length = Metres(2.0 * larger.rack.tray_length.value());
  thicker.line.sowing_density = KilogramsPerSquareMetre(2.0 * thicker.line.sowing_density.value());
  const auto density = [&](const Scenario& s, int line) {
    const FitLog again = fit_log(log, s, true, f.room, f.model);
    const auto seen = std::find_if(again.seen.begin(), again.seen.end(), [&](const Seen& one) { return one.line == line; });
    return again.cases[static_cast<std::size_t>(seen->tray_case)].density;
  };
  const int line = log.trays[3].line;
  CHECK(density(thicker, line) == density(Scenario{}, line));
  CHECK(density(larger, line) == Approx(0.5 * density(Scenario{}, line)));
  // What is not used is not counted as taken from the scenario, and its line is named.
  log.trays[3].fresh.reset();
  log.trays[3].height_cm.reset();
  log.trays[3].spoiled.reset();
  const FitLog less = fit_log(log, Scenario{}, true, f.room, f.model);
  CHECK(less.assumed.at(by_size) == used.assumed.at(by_size) - 1);
  CHECK(less.unused.at("neither weight, height nor spoiling is stated") == std::vector<int>{line});
}

TEST_CASE("trays alike in all that counts are one case, and come to the same") {
  Fitted f(Scenario{}, {.trays = 30}, 6);
  TrayLog log = f.made.log;
  const int line = f.used.seen.back().line;
  const auto last = std::find_if(log.trays.begin(), log.trays.end(), [&](const LoggedTray& tray) { return tray.line == line; });
  REQUIRE(last != log.trays.end());
  LoggedTray alike = *last;
  alike.line = 999;
  log.trays.push_back(alike);
  const FitLog used = fit_log(log, Scenario{}, true, f.room, f.model);
  CHECK(used.seen.size() == f.used.seen.size() + 1);
  CHECK(used.cases.size() == f.used.cases.size());
  CHECK(used.seen.back().tray_case == used.seen[used.seen.size() - 2].tray_case);
  log.trays.back().soak = Hours(4.0);
  CHECK(fit_log(log, Scenario{}, true, f.room, f.model).cases.size() == f.used.cases.size() + 1);
}
