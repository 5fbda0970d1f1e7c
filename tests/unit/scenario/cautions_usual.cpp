// Numbers out of the usual are told; those within are not.
#include "sim/scenario/cautions.hpp"

#include <algorithm>

#include "sim/scenario/read.hpp"
#include "tests/catch.hpp"
#include "tests/unit/scenario/sample.hpp"

using namespace rackwright;

namespace {

const std::string two_grains = sample::small + "[[grain]]\nname = \"cheap\"\n";

Scenario farm(const std::vector<std::string>& settings, const std::string& text = sample::small) {
  const Reading reading = read_scenario(text, settings);
  for (const Problem& p : reading.problems) UNSCOPED_INFO(p.key << ": " << p.why);
  REQUIRE(reading.scenario.has_value());
  return *reading.scenario;
}

bool warns(const Scenario& s, const std::string& of) {
  const auto all = cautions(s);
  return std::any_of(all.begin(), all.end(), [&](const std::string& c) { return c.find(of) != std::string::npos; });
}

}  // namespace

TEST_CASE("births sooner than a pregnancy, or than the next heat, are told") {
  const auto every = [](const char* time, const char* kind = "goat-milking") {
    return farm({"run.start=2026-03-01", "group.goats.first_births=2026-09-10", std::string("group.goats.class=") + kind, std::string("group.goats.births_every=") + time, "group.goats.ration=none"});
  };
  CHECK(warns(every("60 d"), "goats: births every 60 d, but they carry their young for about 150 d: no animal gives birth so often"));
  CHECK(warns(every("160 d"), "leave 10 d between a birth and the next mating"));
  CHECK_FALSE(warns(every("365 d"), "births every"));
  CHECK_FALSE(warns(every("200 d"), "births every"));
  CHECK(warns(every("28 d", "rabbit"), "no animal gives birth so often"));
  CHECK_FALSE(warns(every("42 d", "rabbit"), "births every"));  // mated eleven days after
  CHECK_FALSE(warns(farm({"group.goats.births_every=60 d"}), "births every"));  // none are dated
}

TEST_CASE("sowing and soak water far from the usual are told in the keeper's units") {
  CHECK_FALSE(warns(farm({}), "is usual"));
  CHECK(warns(farm({"line.sowing_density=14.6 kg/m2"}), "14.6 kg/m2 is sown, where 3 to 8 kg/m2"));
  CHECK(warns(farm({"units=us", "line.sowing_density=3 lb/ft2"}), "3 lb/ft2 is sown"));
  CHECK(warns(farm({"line.sowing_density=1 kg/m2"}), "so thin"));
  CHECK_FALSE(warns(farm({"line.sowing_density=3 kg/m2"}), "is usual"));
  CHECK_FALSE(warns(farm({"line.sowing_density=8 kg/m2"}), "is usual"));
  CHECK_FALSE(warns(farm({"line.soak_water=5 degC"}), "Soak water of"));
  CHECK(warns(farm({"line.soak_water=3 degC"}), "Soak water of 3 degC: what is known of soaking is for 5 degC to 35 degC."));
  CHECK(warns(farm({"line.soak_water=38 degC"}), "kills grain"));
  CHECK(warns(farm({"units=us", "line.soak_water=38 degF"}), "Soak water of 38 degF: what is known of soaking is for 41 degF to 95 degF."));
}

TEST_CASE("a tier much longer than its room is told with both lengths") {
  CHECK_FALSE(warns(farm({}), "side by side"));
  CHECK(warns(farm({"rack.trays_per_tier=30", "rack.tray_width=30 cm", "room.floor_area=16 m2"}), "A tier of 30 trays side by side is 9 m long; a square room of 16 m2 is only 4 m long"));
  CHECK_FALSE(warns(farm({"rack.trays_per_tier=26", "rack.tray_width=30 cm", "room.floor_area=16 m2"}), "side by side"));
}

TEST_CASE("an order that comes too late by plan is told with what is sown meanwhile") {
  // 8 trays of 0.6 by 0.3 m at 5 kg/m2 are 7.2 kg a day, 50.4 in a week.
  const std::vector<std::string> line{"line.trays_per_batch=8", "rack.tray_length=60 cm", "rack.tray_width=30 cm", "line.sowing_density=5 kg/m2", "grain.barley.delivery=7 d"};
  const auto reorder = [&](const char* kg, const std::string& text = sample::small, const char* of = "barley") {
    auto all = line;
    all.push_back(std::string("grain.") + of + ".reorder=" + kg);
    return farm(all, text);
  };
  CHECK(warns(reorder("40 kg"), "grain.barley: ordered when 40 kg are left, but 50.4 kg are sown in the 7 d that a delivery takes: it runs out by plan"));
  CHECK_FALSE(warns(reorder("60 kg"), "runs out by plan"));
  CHECK_FALSE(warns(reorder("5 kg", two_grains, "cheap"), "grain.cheap: ordered"));  // not sown with one batch a day
  // What is kept back until a new lot has been tried is ordered for as well; as wanted, nobody knows beforehand what will be sown.
  Scenario tried = reorder("40 kg");
  tried.grains[0].policy.keep_back = Kilograms(30.0);
  CHECK(warns(tried, "it runs out by plan"));
  tried.grains[0].policy.trial = 100;
  CHECK_FALSE(warns(tried, "it runs out by plan"));
  Scenario wanted = reorder("40 kg");
  wanted.line.sow = SowRule::as_wanted;
  CHECK_FALSE(warns(wanted, "it runs out by plan"));
}

TEST_CASE("grain that the planned use does not reach before it is too old is told, with what would be used in time") {
  const auto farm = [](std::vector<std::string> settings) {
    for (const char* usual : {"line.trays_per_batch=15", "line.sowing_density=5 kg/m2", "rack.tray_length=60 cm", "rack.tray_width=30 cm", "rack.tiers=5", "rack.trays_per_tier=26",
                              "grain.1.order_up_to=700 kg", "grain.1.reorder=200 kg", "grain.1.bin=1000 kg", "grain.1.delivery=3 d"})
      settings.insert(settings.begin(), usual);
    const Reading reading = read_scenario(sample::small, settings);
    for (const Problem& p : reading.problems) UNSCOPED_INFO(p.key << ": " << p.why);
    REQUIRE(reading.scenario.has_value());
    return *reading.scenario;
  };
  // 15 trays of 0.18 m2 at 5 kg/m2 are 13.5 kg a day: 700 kg last 51.9 days, 3 of them under way.
  CHECK_FALSE(warns(farm({"grain.1.use_by=90 d"}), "use_by"));
  CHECK_FALSE(warns(farm({"grain.1.use_by=49 d"}), "use_by"));
  CHECK(warns(farm({"grain.1.use_by=20 d"}), "which lasts 49 days at 13.5 kg a day, longer than the 20 days of use_by: what is too old by then is thrown out. With order_up_to = 310 kg or less"));
  CHECK(warns(farm({"grain.1.use_by=20 d", "line.sow=as-wanted"}), "13.5 kg a day at most, longer"));
  CHECK(warns(farm({"grain.1.use_by=20 d", "grain.1.bag=300 kg"}), "a bag of 300 kg lasts 22 days"));
}

TEST_CASE("a grain named in line.grains for which there is no batch is told, with what would sow it") {
  const Scenario both = farm({"line.grains=barley, cheap"}, two_grains);
  CHECK(warns(both, "grain.cheap: no batch is sown of it"));
  CHECK(warns(both, "the line sows 1 batch a day, each of one grain, in the order of line.grains, and cheap stands at place 2 there: it takes line.batches_per_day = 2"));
  CHECK_FALSE(warns(farm({"line.grains=barley, cheap", "line.batches_per_day=2"}, two_grains), "no batch is sown"));
  CHECK(warns(farm({"line.grains=barley"}, two_grains), "that takes as many batches a day (line.batches_per_day) as grains are named"));
}

TEST_CASE("choices of line.grains that sow the same are told as one line tried twice") {
  const auto choose = [](const std::vector<std::string>& more) {
    Scenario s = farm(more, two_grains);
    s.choose.choices.push_back({"line.grains", {"barley", "cheap", "barley, cheap"}});
    return s;
  };
  CHECK(warns(choose({}), "line.grains = [barley, cheap] is the same line as [barley], tried twice: with 1 batch a day, each of one grain, only barley is sown"));
  CHECK_FALSE(warns(choose({"line.batches_per_day=2"}), "is the same line"));
  Scenario either = choose({});
  either.choose.choices.push_back({"line.batches_per_day", {"1", "2"}});
  CHECK_FALSE(warns(either, "is the same line"));
}

TEST_CASE("a refusal quotes values as this keeper writes them") {
  const auto value = [](const std::vector<std::string>& settings) {
    const Reading reading = read_scenario(sample::small, settings);
    REQUIRE_FALSE(reading.problems.empty());
    return reading.problems[0].value + ": " + reading.problems[0].why;
  };
  CHECK(value({"units=us", "grain.barley.order_up_to=500 lb", "grain.barley.bin=300 lb"}) == "300 lb: is smaller than order_up_to (500 lb)");
  CHECK(value({"grain.barley.order_up_to=500 kg", "grain.barley.bin=300 kg"}) == "300 kg: is smaller than order_up_to (500 kg)");
  const std::string cold = value({"units=us", "climate.mean=-20 degF", "climate.amplitude=45 degF", "climate.anomaly_sd=14 degF"});
  INFO(cold);
  CHECK(cold.starts_with("-20 degF: with its swings and spells gives hours of "));
  CHECK(cold.ends_with("the models hold from -94 degF to 167 degF"));
  CHECK(value({"units=us", "water.pump_shutoff=3 ft"}).starts_with("3 ft: "));
}

TEST_CASE("a bin that takes a bag only when it is nearly empty is told, and a share that hardly is one") {
  const std::vector<std::string> one_bag{"grain.barley.bag=25 kg", "grain.barley.on_hand=25 kg", "grain.barley.order_up_to=25 kg", "grain.barley.reorder=20 kg", "grain.barley.bin=26 kg"};
  CHECK(warns(farm(one_bag), "a bag of 25 kg goes into the bin only when 1 kg or less are left there, whatever reorder says"));
  std::vector<std::string> larger = one_bag;
  larger.back() = "grain.barley.bin=80 kg";
  CHECK_FALSE(warns(farm(larger), "goes into the bin only when"));
  CHECK(warns(farm({"target.fill_rate=0.95 %"}), "target.fill_rate is 0.95 %: is 95 % meant?"));
  CHECK(warns(farm({"line.wash=0.9 %"}), "line.wash is 0.9 %: is 90 % meant?"));
  CHECK_FALSE(warns(farm({"target.fill_rate=95 %"}), "meant?"));
}
