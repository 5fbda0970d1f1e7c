// Mould that spreads, water that fails, and what is not known: each does what it says, and only that.

#include <cmath>
#include <fstream>
#include <sstream>

#include "models/water/demand.hpp"
#include "sim/replication/fortune.hpp"
#include "sim/replication/ignorance.hpp"
#include "sim/replication/replicate.hpp"
#include "sim/scenario/cautions.hpp"
#include "sim/scenario/watering.hpp"
#include "sim/study/moments.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"
#include "tests/paths.hpp"

using namespace rackwright;

namespace {

template <class Get>
double mean(const Scenario& scenario, std::uint32_t replications, Get get) {
  const Plan plan = make_plan(scenario);
  Replicator replicator(plan);
  double sum = 0.0;
  for (std::uint32_t r = 0; r < replications; ++r) sum += static_cast<double>(get(replicator.run(3, r)));
  return sum / replications;
}

double mouldy(const Outcome& o) { return o.spoiled_mould + o.spoiled_fed; }

Scenario mouldy_farm() {
  Scenario farm = test::quiet_farm();
  farm.spoilage.mould_rate = 0.012;
  return farm;
}

bool warns(const Scenario& scenario, const char* of) {
  for (const std::string& line : cautions(scenario)) {
    if (line.find(of) != std::string::npos) return true;
  }
  return false;
}

}  // namespace

TEST_CASE("mould spreads by dripping and by a shared tank, less where each level drains by itself") {
  Scenario farm = mouldy_farm();
  farm.water.schedule.on_time = Hours(0.25);  // enough for the lowest tier of a cascade too: thirst is not asked about here
  const double own_drain = mean(farm, 12, mouldy);
  Scenario dripping = farm, shared = farm, none = farm;
  dripping.water.feed = water::Feed::cascade;
  shared.water.schedule.recirculating = true;
  none.spoilage.shed = 0.0;
  CHECK(mean(none, 12, mouldy) < own_drain);
  CHECK(mean(dripping, 12, mouldy) > 1.1 * own_drain);
  CHECK(mean(shared, 12, mouldy) > mean(dripping, 12, mouldy));
}

TEST_CASE("what drips meets other ages on a ladder than at fixed places, and only dripping makes them differ") {
  // On a ladder the young stand on top and drip on the old, which mould sooner; at fixed places ages stand as the places come free.
  Scenario ladder = mouldy_farm();
  ladder.water.feed = water::Feed::cascade;
  ladder.water.schedule.on_time = Hours(0.25);  // or who stands below would lack water, not only be dripped on
  ladder.tier_gradient = Kelvins(0.0);
  ladder.keeper.minutes_per_day = 1000.0;
  Scenario fixed = ladder;
  fixed.keeper.handling = route::Handling::fixed;
  const Plan ladder_plan = make_plan(ladder), fixed_plan = make_plan(fixed);
  Replicator on_ladder(ladder_plan), at_places(fixed_plan);
  study::Moments more;
  for (std::uint32_t r = 0; r < 32; ++r) more.add(mouldy(on_ladder.run(3, r)) - mouldy(at_places.run(3, r)));
  CAPTURE(more.mean(), more.standard_error());
  CHECK(more.mean() > 3.89 * more.standard_error());
  ladder.spoilage.shed = fixed.spoilage.shed = 0.0;
  CHECK(mean(ladder, 6, mouldy) == mean(fixed, 6, mouldy));
}

TEST_CASE("spores carry over to the next batch: washing and a dip of the trays keep them down") {
  Scenario farm = mouldy_farm();
  const double washed = mean(farm, 12, mouldy);
  Scenario dipped = farm, dirty = farm;
  dipped.line.tray_dip.strength_percent = 0.5;
  dirty.line.wash = 0.3;
  CHECK(mean(dipped, 12, mouldy) < washed);
  CHECK(mean(dirty, 12, mouldy) > 1.2 * washed);
}

TEST_CASE("a mouldy mat that nobody sees is fed, and counted") {
  Scenario farm = mouldy_farm();
  farm.keeper.notice_spoiled = 1.0;
  CHECK(mean(farm, 6, [](const Outcome& o) { return o.spoiled_fed; }) == 0.0);
  farm.keeper.notice_spoiled = 0.5;
  CHECK(mean(farm, 6, [](const Outcome& o) { return o.spoiled_fed; }) > 5.0);
}

TEST_CASE("a tank filled by hand runs empty when it is small, and the mats suffer") {
  Scenario farm = test::quiet_farm();
  farm.water.top_up = TopUp::by_hand;
  farm.water.tank_litres = 2000.0;
  CHECK(mean(farm, 2, [](const Outcome& o) { return o.tank_empties; }) == 0.0);
  CHECK_FALSE(warns(farm, "lasts"));
  const auto growth = [](const Outcome& o) { return o.mat_growth_days; };
  const auto water = [](const Outcome& o) { return o.water_used; };
  const double moist = mean(farm, 2, growth), used = mean(farm, 2, water);
  farm.water.tank_litres = 0.5 * in_days(Hours(24.0)) * water::daily_use(farm.water.schedule, watering_of(farm).solution.pump_flow,
                                                                        Watts(0.0), 0.0, 0.0, 0.0).through_litres;
  CHECK(mean(farm, 2, [](const Outcome& o) { return o.tank_empties; }) > 100.0);
  CHECK(mean(farm, 2, [](const Outcome& o) { return o.dry_hours; }) > 0.0);
  CHECK(mean(farm, 2, growth) < moist - 0.2);
  CHECK(mean(farm, 2, water) < 0.8 * used);  // an idle pump passes nothing
  CHECK(warns(farm, "lasts"));
  farm.water.top_up = TopUp::float_valve;
  CHECK(mean(farm, 2, [](const Outcome& o) { return o.tank_empties; }) == 0.0);
}

TEST_CASE("a tier that gets less water than its mats drink is told and grows more slowly") {
  Scenario farm = test::quiet_farm();
  farm.water.schedule.on_time = Hours(0.07);
  CHECK_FALSE(warns(farm, "Too little water"));
  const auto growth = [](const Outcome& o) { return o.mat_growth_days; };
  const double enough = mean(farm, 2, growth);
  farm.water.schedule.on_time = Hours(0.01);
  CHECK(warns(farm, "Too little water"));
  CHECK(mean(farm, 2, growth) < enough);
}

TEST_CASE("the thirstiest day of a mat is well above its mean") {
  const auto barley = *growth::preset("barley");
  double most = 0.0, sum = 0.0;
  for (int day = 0; day < 8; ++day) {
    const double drunk = daily_drink(barley, day + 0.5, growth::growth_rate(barley, barley.optimum), 0.93, KilogramsPerSquareMetre(5.0), 0.88);
    most = std::max(most, drunk);
    sum += drunk;
  }
  CHECK(most > 1.2);
  CHECK(most < 1.6);
  CHECK(sum / 8.0 < 0.8 * most);
}

TEST_CASE("an outage of pump and power together is one dry spell, and a longer one does more harm") {
  // Power cuts far rarer than the pump's failures and inside them as often as not change little; the same hours twice as often do.
  Scenario farm = test::quiet_farm();
  farm.water.pump_between_failures = days(20);
  farm.water.pump_repair = Hours(15.0);
  const auto dry = [](const Outcome& o) { return o.dry_hours; };
  const double pump = mean(farm, 6, dry);
  Scenario both = farm;
  both.water.power_between_cuts = days(20);
  both.water.power_cut = Hours(15.0);
  const double together = mean(both, 6, dry);
  CHECK(together > 1.4 * pump);
  CHECK(together < 2.3 * pump);
  Scenario always = farm;  // a power cut all the time: dry throughout, and no hour counted twice
  always.water.pump_between_failures = always.water.power_between_cuts = Hours(24.0);
  always.water.pump_repair = always.water.power_cut = Hours(2000.0);
  CHECK(mean(always, 2, [](const Outcome& o) { return o.dry_hours / (24.0 * o.tray_days); }) < 1.001);
}

TEST_CASE("assumptions are one identity: shared when asked for, central when there is no ignorance") {
  Scenario farm = test::small_farm();
  farm.run.ignorance = true;
  const Plan plan = make_plan(farm);
  Fortune own, other, shared;
  own.draw(plan, 5, 1);
  other.draw(plan, 5, 2);
  shared.draw(plan, 5, 2, 1);
  CHECK(own.ignorance().mould == shared.ignorance().mould);
  CHECK(own.ignorance().mould != other.ignorance().mould);
  CHECK(other.weather(7).maximum == shared.weather(7).maximum);
  Plan certain = plan;
  certain.scenario.run.ignorance = false;
  own.draw(certain, 5, 1);
  for (const IgnoranceLaw& law : ignorance_laws()) {
    INFO(law.name);
    CHECK(own.ignorance().*drawn_by(*find_law(law.name)) == (law.name == "flatness" ? 0.0 : 1.0));
  }
}

TEST_CASE("each law of ignorance has the spread it states") {
  // 4,000 draws: the standard deviation is within 5 % in all but one of 10^5 runs a law (flatness, cut at 1, has a little less).
  constexpr std::uint32_t draws = 4000;
  for (const IgnoranceLaw& law : ignorance_laws()) {
    double sum = 0.0, square = 0.0;
    for (std::uint32_t i = 0; i < draws; ++i) {
      const double value = draw_ignorance(Scenario{}, random::make_key(11, i)).*drawn_by(*find_law(law.name));
      const double score = law.name == "flatness" ? value : std::log(value);
      sum += score;
      square += score * score;
    }
    INFO(law.name);
    CHECK(std::abs(sum / draws) < 4.5 * law.spread / std::sqrt(draws));
    CHECK(std::sqrt(square / draws) == Approx(law.spread).epsilon(law.name == "flatness" ? 0.12 : 0.05));
  }
}

TEST_CASE("docs/models/ignorance.md lists every law with its spread") {
  std::ifstream page(RACKWRIGHT_SOURCE_DIR "/docs/models/ignorance.md");
  std::stringstream text;
  text << page.rdbuf();
  for (const IgnoranceLaw& law : ignorance_laws()) {
    const std::string row = "| " + std::string(law.name) + " | ";
    const auto at = text.str().find(row);
    INFO(law.name);
    REQUIRE(at != std::string::npos);
    const std::string line = text.str().substr(at, text.str().find('\n', at) - at);
    std::ostringstream spread;
    spread << "| " << law.spread << " |";
    CHECK(line.find(spread.str()) != std::string::npos);
  }
}

TEST_CASE("draws stand about what the scenario says, as far apart and as tied as it says") {
  // 4,000 draws: a correlation is within 0.05 of its truth, and a spread within 5 %, in all but one of 10^4 runs.
  Scenario scenario;
  scenario.own_line.warmth = 1.5;
  scenario.own_line.flatness = 0.25;
  scenario.ignorance.spread[place_of(Law::warmth)] = 0.1;
  scenario.ignorance.ties = {{Law::loss, Law::swelling, -0.7}};
  CHECK(central(scenario).warmth == 1.5);
  CHECK(central(scenario).flatness == 0.25);
  constexpr std::uint32_t draws = 4000;
  double product = 0.0, loss2 = 0.0, swell2 = 0.0, warm = 0.0, warm2 = 0.0;
  for (std::uint32_t i = 0; i < draws; ++i) {
    const Ignorance drawn = draw_ignorance(scenario, random::make_key(12, i));
    const double loss = std::log(drawn.loss), swell = std::log(drawn.swell), w = std::log(drawn.warmth / 1.5);
    product += loss * swell, loss2 += loss * loss, swell2 += swell * swell, warm += w, warm2 += w * w;
  }
  CHECK(product / std::sqrt(loss2 * swell2) == near(-0.7, 0.04));
  CHECK(std::sqrt(swell2 / draws) == Approx(0.2).epsilon(0.05));
  CHECK(std::sqrt(warm2 / draws) == Approx(0.1).epsilon(0.05));
  CHECK(std::abs(warm / draws) < 0.008);
}

TEST_CASE("what is drawn of dead grain and of mould's lag does what the same keys do") {
  Scenario drawn = mouldy_farm();
  drawn.run.ignorance = true;
  drawn.ignorance.spread = {};
  for (const Law law : {Law::dead, Law::lag, Law::dead_power}) drawn.ignorance.spread[place_of(law)] = 0.5;
  constexpr std::uint64_t seed = 3;
  const Ignorance factors = draw_ignorance(drawn, random::make_key(seed, 0));
  REQUIRE(std::abs(factors.dead_power - 1.0) > 0.05);
  Scenario own = mouldy_farm();
  own.spoilage.dead_grain_power *= factors.dead_power;
  own.spoilage.dead_grain_floor *= factors.dead;
  own.spoilage.mould_lag *= factors.lag;
  const Plan drawn_plan = make_plan(drawn), own_plan = make_plan(own), usual_plan = make_plan(mouldy_farm());
  const Outcome a = Replicator(drawn_plan).run(seed, 0), b = Replicator(own_plan).run(seed, 0);
  CHECK(a.spoiled_mould == b.spoiled_mould);
  CHECK(a.fodder_fresh == b.fodder_fresh);
  CHECK(a.spoiled_mould != Replicator(usual_plan).run(seed, 0).spoiled_mould);
  // However far it is drawn, dead grain never counts by more than the sixth power, as its key.
  Ignorance far = factors;
  far.dead_power = 100.0;
  CHECK(assumed(spoilage::Parameters{}, far).dead_grain_power == 6.0);
}

TEST_CASE("a factor on the own line does what the same factor does when it is drawn") {
  // One identity: rounding of tables apart, a line at 1.2 times the pace is a replication that takes 1.2 to be true. Rations are stated, so
  // that nothing else asks for the mats.
  Scenario drawn = test::quiet_farm();
  drawn.run.ignorance = true;
  drawn.ignorance.spread = {};
  for (const Law law : {Law::pace, Law::loss, Law::swelling, Law::height}) drawn.ignorance.spread[place_of(law)] = 0.2;
  constexpr std::uint64_t seed = 3;
  const Ignorance factors = draw_ignorance(drawn, random::make_key(seed, 0));
  REQUIRE(std::abs(factors.clock - 1.0) > 0.02);
  Scenario own = test::quiet_farm();
  own.own_line.pace = factors.clock;
  own.own_line.loss = factors.loss;
  own.own_line.swelling = factors.swell;
  own.own_line.height = factors.height;
  const Plan drawn_plan = make_plan(drawn), own_plan = make_plan(own);
  const Outcome a = Replicator(drawn_plan).run(seed, 0), b = Replicator(own_plan).run(seed, 0);
  CHECK(b.mat_growth_days == Approx(a.mat_growth_days).epsilon(1e-3));
  CHECK(b.mat_height == Approx(a.mat_height).epsilon(1e-3));
  CHECK(b.fodder_fresh == Approx(a.fodder_fresh).epsilon(2e-3));
  CHECK(b.fodder_dry_matter == Approx(a.fodder_dry_matter).epsilon(2e-3));
}
