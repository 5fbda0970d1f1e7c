#include "sim/app/check_work.hpp"

#include <variant>

#include "sim/scenario/watering.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;
using namespace rackwright::app;

namespace {

const Fact& fact(const Section& section, const std::string& key) {
  for (const Fact& one : section.facts)
    if (one.key == key) return one;
  FAIL("no fact " << key);
  return section.facts.front();
}

double number(const Section& section, const std::string& key) { return std::get<double>(fact(section, key).value); }
std::string word(const Section& section, const std::string& key) { return std::get<std::string>(fact(section, key).value); }

/// A keeper of so many minutes a day, none of them in the evening, when half is to be fed.
Scenario without_evenings(double minutes) {
  Scenario farm = test::small_farm();
  farm.keeper.minutes_per_day = minutes;
  farm.keeper.evening_minutes = 0.0;
  for (Group& group : farm.groups) group.feedings = 2;
  return farm;
}

}  // namespace

TEST_CASE("each round's work is held against the minutes of that round where they are told apart") {
  Scenario farm = test::small_farm();
  farm.keeper.minutes_per_day = 600.0;
  const Plan whole = make_plan(farm);
  REQUIRE(rounds_of(whole).size() == 1);
  CHECK(rounds_of(whole)[0].minutes == Approx(whole.route.minutes_per_day));

  farm.keeper.evening_minutes = 0.0;
  for (Group& group : farm.groups) group.feedings = 2;
  const Plan plan = make_plan(farm);
  const auto rounds = rounds_of(plan);
  REQUIRE(rounds.size() == 2);
  // What the rounds take is what the day takes.
  CHECK(rounds[0].minutes + rounds[1].minutes == Approx(plan.route.minutes_per_day));
  CHECK(rounds[0].has == 600.0);
  CHECK(rounds[1].has == 0.0);
  CHECK(rounds[1].most_trays == 0.0);
  const Section facts = work_facts(plan);
  CHECK(number(facts, "daily_ceiling") == 0.0);
  CHECK(word(facts, "bottleneck") == "keeper's time in the evening");
  CHECK(fact(facts, "minutes_evening").remark.find("too few") != std::string::npos);
  CHECK(fact(facts, "minutes_morning").remark.find("too few") == std::string::npos);

  // With just the minutes that a round takes, the planned trays are the most.
  farm.keeper.minutes_per_day = plan.route.minutes_per_day;
  farm.keeper.evening_minutes = rounds[1].minutes;
  for (const RoundWork& round : rounds_of(make_plan(farm)))
    CHECK(round.most_trays == Approx(farm.line.trays_per_batch * farm.line.batches_per_day));
}

TEST_CASE("buckets are judged as they are when played: a batch waits for one, and its soak is cut short") {
  Scenario farm = test::small_farm();
  farm.keeper.minutes_per_day = 600.0;
  farm.line.soak = Hours(26.0);
  farm.keeper.soak_buckets = 1;
  farm.keeper.trays_per_bucket = farm.line.trays_per_batch;
  const Plan plan = make_plan(farm);
  REQUIRE(plan.route.daily_ceiling < farm.line.trays_per_batch);  // were no soak cut short
  CHECK(number(work_facts(plan), "daily_ceiling") >= farm.line.trays_per_batch);
  const auto said = work_cautions(plan, study::Summary(farm.target));
  REQUIRE(said.size() == 1);
  CHECK(said[0].find("though never below 19.5 h of the 26 h of line.soak") != std::string::npos);
  farm.line.soak = Hours(20.0);
  CHECK(work_cautions(make_plan(farm), study::Summary(farm.target)).empty());
}

TEST_CASE("where little is served, what the plays lack is named") {
  Scenario farm = test::small_farm();
  farm.line.trays_per_batch = 1;
  const std::string few = lacking_words(make_plan(farm), 0.3, 18.7);  // 9 goats, 40 hens and 4 ewes
  INFO(few);
  CHECK(few.find("The 2 trays a day give about ") != std::string::npos);
  CHECK(few.find(" where nothing is lost, and 18.7 kg are wanted: it takes more trays a batch") != std::string::npos);
  const std::string words = lacking_words(make_plan(without_evenings(600.0)), 0.56, 18.7);
  INFO(words);
  CHECK(words.find("work left undone for want of time") != std::string::npos);
  CHECK(words.find("keeper.evening_minutes") != std::string::npos);
  CHECK(words.find("more trays") == std::string::npos);
}

TEST_CASE("where more is to be fed than is usual at most, the ration is to be cut before more trays are named") {
  Scenario farm = test::quiet_farm();
  farm.line.trays_per_batch = 1;
  const std::string within = lacking_words(make_plan(farm), 0.3, 18.7);
  INFO(within);
  CHECK(within.find("it takes more trays a batch") != std::string::npos);
  CHECK(within.find("more trays a batch, with places for them") != std::string::npos);
  farm.groups[2].ration = Kilograms(5.0);  // ewes
  const std::string above = lacking_words(make_plan(farm), 0.3, 34.7);
  INFO(above);
  CHECK(above.find("First of all cut the fodder of ewes: it is above the usual upper limit, and more trays are no help before. The 2 trays a day give about ") != std::string::npos);
  CHECK(above.find("trays_per_batch") == std::string::npos);
  farm.groups[2].count = 0;
  CHECK(lacking_words(make_plan(farm), 0.3, 14.7).find("First of all") == std::string::npos);
}

TEST_CASE("against want of water it is told what there is to mend: a tank that runs empty, a tier that never gets enough, or outages") {
  const auto words = [](const Scenario& farm) { return lacking_words(make_plan(farm), 0.5, 18.7); };
  const auto has = [](const std::string& text, const char* part) { return text.find(part) != std::string::npos; };
  Scenario empty = test::quiet_farm();
  empty.water.top_up = TopUp::by_hand;
  empty.water.tank_litres = 20.0;
  empty.water.schedule.on_time = Hours(0.5);
  const std::string tank = words(empty);
  INFO(tank);
  CHECK(has(tank, "for want of water"));
  CHECK(has(tank, "less water at a time (water.on_time; longer makes it worse), a larger one (water.tank), or a float valve (water.top_up)"));
  CHECK_FALSE(has(tank, "more often"));  // it lasts an hour: no round comes so soon
  CHECK_FALSE(has(tank, "the pump on longer"));
  Scenario nights = empty;  // one that lasts from morning to morning, but is to be filled every third
  nights.line.batches_per_day = 1;
  nights.line.trays_per_batch = 6;
  nights.line.grains = {"barley"};
  for (Group& group : nights.groups) group.feedings = 1;
  nights.water.top_up_every = Hours(72.0);
  nights.water.tank_litres = 20.0 * 25.0 / watering_of(nights).tank_lasts.value();
  const std::string daily = words(nights);
  INFO(daily);
  CHECK(has(daily, "a larger one (water.tank), or filling it more often (water.top_up_every), or a float valve (water.top_up)"));
  Scenario thirsty = test::quiet_farm();
  thirsty.water.schedule.on_time = Hours(0.005);
  const std::string little = words(thirsty);
  INFO(little);
  CHECK(has(little, "more water where it lacks: wider pipes on its way, more or larger emitters, or the pump on longer or more often"));
  CHECK_FALSE(has(little, "runs empty"));
  Scenario broken = test::quiet_farm();
  broken.water.schedule.on_time = Hours(0.1);
  broken.water.pump_between_failures = days(6);
  broken.water.pump_repair = days(4);
  const std::string outages = words(broken);
  INFO(outages);
  CHECK(has(outages, "water through outages: a spare pump, a battery, a tank above the rack"));
  CHECK_FALSE(has(outages, "longer or more often"));
}

TEST_CASE("the pipe that slows a tier which gets too little stands beside what the tier gets") {
  Scenario farm = test::quiet_farm();
  farm.water.schedule.on_time = Hours(0.1);
  for (const Fact& one : water_facts(make_plan(farm)).facts) CHECK(one.key != "tier_4_pipe");
  farm.water.branch_diameter = Metres(0.003);
  const Section section = water_facts(make_plan(farm));
  CHECK(word(section, "tier_4_pipe") == "riser 4 to tier 4");
  CHECK(fact(section, "tier_4_pipe").remark.find(" of what the pump lifts") != std::string::npos);
}

TEST_CASE("where minutes are short, minutes are advised, and neither more trays nor fewer") {
  // Too few trays and too few minutes: more of either alone is no help.
  Scenario both = without_evenings(40.0);
  both.line.trays_per_batch = 1;
  const std::string few = lacking_words(make_plan(both), 0.2, 18.7);
  INFO(few);
  CHECK(few.find("work left undone for want of time") != std::string::npos);
  CHECK(few.find("too few trays for what is wanted") != std::string::npos);
  CHECK(few.find("it takes more trays a batch, with places and minutes for them") != std::string::npos);
  CHECK(few.find("more minutes in the round that lacks them") != std::string::npos);
  CHECK(few.find("more trays a batch, with places for them (line.trays_per_batch)") == std::string::npos);
  CHECK(few.find("fewer trays") == std::string::npos);
  // The same farm without the lack of minutes is told to have more trays.
  both.keeper.minutes_per_day = 600.0;
  both.keeper.evening_minutes.reset();
  const std::string rested = lacking_words(make_plan(both), 0.2, 18.7);
  INFO(rested);
  CHECK(rested.find("more trays a batch, with places for them (line.trays_per_batch)") != std::string::npos);
  CHECK(rested.find("minutes") == std::string::npos);
  Scenario buried = test::small_farm();
  buried.line.trays_per_batch = 12;
  buried.rack.trays_per_tier = 50;
  buried.keeper.minutes_per_day = 45.0;
  const std::string much = lacking_words(make_plan(buried), 0.5, 18.7);
  INFO(much);
  CHECK(much.find("What would help: more minutes in the round that lacks them (keeper.minutes_per_day, keeper.evening_minutes). rackwright size") != std::string::npos);
}

TEST_CASE("far more mats than are wanted are told, unless only the wanted ones are sown") {
  Scenario farm = test::small_farm();
  const double grown = farm.line.trays_per_batch * farm.line.batches_per_day * make_plan(farm).standard_mat;
  CHECK(surplus_words(make_plan(farm), grown / 2.0).empty());
  CHECK(surplus_words(make_plan(farm), grown / 100.0).find(" 100 times the ") != std::string::npos);
  CHECK(surplus_words(make_plan(farm), 0.0).empty());
  farm.line.sow = SowRule::as_wanted;
  CHECK(surplus_words(make_plan(farm), grown / 100.0).empty());
}

TEST_CASE("against souring a soak is named only where it is hard on the grain") {
  Scenario farm = test::small_farm();
  farm.climate.mean = {Celsius(32.0), Kelvins(2.0)};
  farm.climate.dew_depression_mean = Kelvins(4.0);
  farm.line.soak = Hours(8.0);
  farm.line.soak_water = Celsius(14.0);
  const std::string easy = lacking_words(make_plan(farm), 0.2, 18.7);
  INFO(easy);
  REQUIRE(easy.find("mats thrown out sour") != std::string::npos);
  CHECK(easy.find("a cooler room (a cooler, insulation, shade)") != std::string::npos);
  CHECK(easy.find("cooler soak") == std::string::npos);
  farm.line.soak = Hours(30.0);
  farm.line.soak_water = Celsius(30.0);
  const std::string hard = lacking_words(make_plan(farm), 0.2, 18.7);
  INFO(hard);
  CHECK(hard.find("a shorter or cooler soak") != std::string::npos);
}
