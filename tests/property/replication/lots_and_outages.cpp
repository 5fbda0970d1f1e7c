// What a fortune draws of lots and breakdowns keeps the laws it is said to follow, and a lot in store ages by the integral of
// its store. Fixed seeds; bounds are 3.89 standard errors (one false alarm in 10,000 for each).
#include <cmath>
#include <vector>

#include "models/grain/viability.hpp"
#include "sim/replication/fortune.hpp"
#include "sim/replication/grain_store.hpp"
#include "sim/replication/plan.hpp"
#include "sim/replication/replicate.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;

namespace {

/// Share of the time that nothing of `outages` lasts, over the run with its lead.
double availability(const std::vector<Outage>& outages, double minutes) {
  double down = 0.0;
  for (const Outage& outage : outages) down += std::min(static_cast<double>(outage.end), minutes) - static_cast<double>(outage.start);
  return 1.0 - down / (minutes + 1440.0 * lead_days);
}

void check_availability(const char* what, double mean, double up, double down, double hours) {
  // Alternating renewal with exponential times: variance of the time down in t is near 2 up^2 down^2 t / (up + down)^3.
  const double error = std::sqrt(2.0 * up * up * down * down / std::pow(up + down, 3) / hours);
  INFO(what << ": " << mean << ", MTBF/(MTBF + MTTR) = " << up / (up + down) << ", standard error " << error);
  CHECK(std::abs(mean - up / (up + down)) < 3.89 * error + 0.5 / 60.0 / (up + down));  // times are whole minutes
  CHECK(error < 0.1 * down / (up + down));  // or the line above would prove little
}

}  // namespace

TEST_CASE("pump and power are up for MTBF/(MTBF + MTTR) of the time") {
  Scenario farm = test::small_farm();
  farm.run.length = days(3650);
  farm.water.pump_between_failures = Hours(300.0);
  farm.water.pump_repair = Hours(20.0);
  farm.water.power_between_cuts = Hours(120.0);
  farm.water.power_cut = Hours(5.0);
  const Plan plan = make_plan(farm);
  const double minutes = 1440.0 * plan.horizon_days, hours = minutes / 60.0 + 24.0 * lead_days;
  Fortune fortune;
  double pump = 0.0, power = 0.0;
  constexpr std::uint32_t runs = 40;
  for (std::uint32_t r = 0; r < runs; ++r) {
    fortune.draw(plan, 17, r);
    pump += availability(fortune.pump(), minutes) / runs;
    power += availability(fortune.power(), minutes) / runs;
  }
  check_availability("pump", pump, 300.0, 20.0, runs * hours);
  check_availability("power", power, 120.0, 5.0, runs * hours);
}

TEST_CASE("a tier's emitters are open for MTBF/(MTBF + MTTR) of the time, mended by the rounds") {
  // A clog comes at a constant rate and is cleared at the next round, so between two rounds g apart a tier is dry for
  // g - (1 - exp(-rate g))/rate. The mean time to repair is the mean wait for a round.
  Scenario farm = test::quiet_farm();
  constexpr double between = 100.0;
  farm.water.emitter_between_clogs = Hours(between);
  farm.water.schedule.cycles_per_day = 96.0;  // a spell no longer than the gap between waterings is none
  farm.run.length = days(365);
  const double day_gap = farm.keeper.evening.value() - farm.keeper.morning.value();
  double dry_share = 0.0, wait = 0.0;
  for (const double gap : {day_gap, 24.0 - day_gap}) {
    dry_share += (gap - between * (1.0 - std::exp(-gap / between))) / 24.0;
    wait += gap * gap / 48.0;
  }
  CHECK(dry_share == Approx(wait / (between + wait)).epsilon(0.03));
  const Plan plan = make_plan(farm);
  Replicator replicator(plan);
  double dry = 0.0, all = 0.0, clogs = 0.0;
  for (std::uint32_t r = 0; r < 200; ++r) {
    const Outcome outcome = replicator.run(17, r);
    dry += outcome.dry_hours;
    all += 24.0 * outcome.tray_days;
    clogs += static_cast<double>(outcome.clogs);
  }
  // Waits are near uniform: their second moment is 4/3 of the square of their mean.
  const double error = dry_share * std::sqrt(4.0 / 3.0 / clogs);
  INFO("dry for " << dry / all << " of the time, by the law " << dry_share << " +- " << error);
  CHECK(clogs > 50000.0);
  CHECK(std::abs(dry / all - dry_share) < 3.89 * error);
}

TEST_CASE("germination and vigour of lots follow the grade's law and go together as it says") {
  Scenario farm = test::small_farm();
  grain::Grade& grade = farm.grains[0].grade;
  grade.germination_mean = 0.85;
  grade.germination_rho = 0.02;
  grade.vigour_sd = 0.2;
  grade.vigour_correlation = 0.6;
  const Plan plan = make_plan(farm);
  Fortune fortune;
  fortune.draw(plan, 5, 0);
  constexpr std::uint32_t lots = 20000;
  double x = 0.0, y = 0.0, xx = 0.0, yy = 0.0, xy = 0.0;
  for (std::uint32_t number = 0; number < lots; ++number) {
    const grain::Lot lot = fortune.lot(plan, 0, number);
    const double g = lot.germinable, v = std::log(lot.vigour);
    x += g / lots;
    y += v / lots;
    xx += g * g / lots;
    yy += v * v / lots;
    xy += g * v / lots;
  }
  const double sd_g = std::sqrt(xx - x * x), sd_v = std::sqrt(yy - y * y), root = std::sqrt(static_cast<double>(lots));
  CHECK(std::abs(x - 0.85) < 3.89 * sd_g / root);
  CHECK(sd_g == Approx(std::sqrt(0.02 * 0.85 * 0.15)).epsilon(0.03));
  CHECK(std::abs(y) < 3.89 * sd_v / root);
  CHECK(sd_v == Approx(0.2).epsilon(0.03));
  // Scores beyond three spreads are cut, which costs a little correlation.
  CHECK((xy - x * y) / (sd_g * sd_v) == near(0.6, 3.89 * (1.0 - 0.36) / root + 0.01));
}

TEST_CASE("a lot ages by the integral over its store's days") {
  Scenario farm = test::small_farm();
  farm.grains[0].moisture = 0.13;
  const grain::ViabilityConstants barley = *grain::viability_constants("barley");
  const Plan plan = make_plan(farm);
  Fortune fortune;
  fortune.draw(plan, 5, 0);
  GrainStore store(plan);
  store.start(fortune);
  double probits = 0.0;
  for (int day = 0; day < 200; ++day) {
    const Celsius warmth(12.0 + 10.0 * std::sin(day / 30.0));
    store.age(1.0, warmth, 1440L * (day + 1));
    probits += 1.0 / grain::sigma_days(barley, 13.0, warmth);
  }
  store.reckon();
  const double fresh = fortune.lot(plan, 0, 0).germinable, aged = store.withdraw(0, 1.0).lot.germinable;
  CHECK(aged == Approx(grain::viability_after(fresh, probits)).epsilon(1e-12));
  CHECK(aged < fresh);
  // A cellar of its own temperature: the weather is not asked.
  Scenario cellar = farm;
  cellar.grains[0].store_temperature = Celsius(9.0);
  const Plan below = make_plan(cellar);
  GrainStore cool(below);
  cool.start(fortune);
  for (int week = 0; week < 30; ++week) cool.age(1.0, Celsius(12.0 + week), 10080L * (week + 1));
  cool.reckon();
  CHECK(cool.withdraw(0, 1.0).lot.germinable ==
        Approx(grain::viability_after(fresh, 210.0 / grain::sigma_days(barley, 13.0, Celsius(9.0)))).epsilon(1e-12));
  // A lot that came on the fifth day is no older than it has been here, when the week is booked.
  GrainStore late(below);
  late.start(fortune);
  late.withdraw(0, late.on_hand(0));
  late.deliver(fortune, 0, 1, 25.0, 5L * 1440);
  late.age(1.5, Celsius(20.0), 10080);
  late.reckon();
  CHECK(late.withdraw(0, 1.0).lot.germinable ==
        Approx(grain::viability_after(fortune.lot(below, 0, 1).germinable, 1.5 * 2.0 / grain::sigma_days(barley, 13.0, Celsius(9.0)))).epsilon(1e-12));
  // Drier and in a steady cool store it would have kept better.
  CHECK(aged < grain::viability_after(fresh, 200.0 / grain::sigma_days(barley, 12.0, Celsius(10.0))));
}

TEST_CASE("grain past its use-by is thrown out, and what it cost is known") {
  Scenario farm = test::small_farm();
  farm.grains[0].store.use_by = days(30);
  const Plan plan = make_plan(farm);
  Fortune fortune;
  fortune.draw(plan, 5, 0);
  GrainStore store(plan);
  store.start(fortune);
  store.withdraw(0, store.on_hand(0));
  store.deliver(fortune, 0, store.numbered(0, 1.0), 25.0, 0);
  store.deliver(fortune, 0, store.numbered(0, 1.5), 40.0, 10L * 1440);
  CHECK(store.throw_old(0, 30L * 1440).kilograms == 0.0);
  const GrainStore::Thrown first = store.throw_old(0, 30L * 1440 + 1);
  CHECK(first.kilograms == 25.0);
  CHECK(first.paid == 25.0);
  CHECK(store.on_hand(0) == 40.0);
  CHECK(store.throw_old(0, 40L * 1440 + 1).paid == Approx(60.0));
}

TEST_CASE("orders bring what was ordered, and a store that is not refilled runs out") {
  Scenario farm = test::quiet_farm();
  farm.line.grains = {"barley", "barley"};
  farm.grains.resize(1);
  grain::StorePolicy& policy = farm.grains[0].store;
  policy.reorder_point = Kilograms(60.0);
  policy.order_up_to = Kilograms(200.0);
  farm.grains[0].on_hand = Kilograms(100.0);
  const Plan plan = make_plan(farm);
  Fortune fortune;
  fortune.draw(plan, 5, 0);
  GrainStore store(plan);
  store.start(fortune);
  CHECK(store.order(0) == 0.0);
  CHECK(store.withdraw(0, 45.0).kilograms == 45.0);
  CHECK(store.order(0) == 150.0);  // 55 kg in hand: six bags of 25 kg fill it to 200
  CHECK(store.order(0) == 0.0);    // they are on their way
  CHECK(store.withdraw(0, 80.0).kilograms == 55.0);
  CHECK(store.withdraw(0, 1.0).kilograms == 0.0);
  store.deliver(fortune, 0, 1, 150.0, 1440);
  CHECK(store.on_hand(0) == 150.0);
}
