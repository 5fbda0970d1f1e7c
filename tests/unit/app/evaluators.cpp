#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include <fmt/format.h>

#include "models/climate/climate.hpp"
#include "sim/app/evaluate_arguments.hpp"
#include "models/design/rack.hpp"
#include "sim/scenario/units.hpp"
#include "sim/scenario/watering.hpp"
#include "tests/farm.hpp"
#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::app;

TEST_CASE("evaluators: the models of the public face are all there, once each") {
  std::multiset<std::string> names;
  for (const Evaluator& e : evaluators()) names.emplace(e.name);
  for (const char* name :
       {"saturation-pressure", "moist-air", "viability", "soak", "germination", "mould-growth", "mat", "test-tolerance",
        "germination-trial", "pipe-loss", "emitter", "orifice", "growth-curve", "dairy-intake", "lifting-limit",
        "daily-temperature", "yearly-wave", "grain-mass", "queue", "sun", "intake", "drain", "grade", "lot-rule", "leaning-score", "day-extremes", "room", "insulated-wall", "stale-air",
        "watering", "dry-spell", "hazard", "rack", "places", "order", "feed-value", "annuity", "births", "thirst"}) {
    INFO(name);
    CHECK(names.count(name) == 1);
  }
  for (const std::string& name : names) CHECK(names.count(name) == 1);
}

TEST_CASE("evaluators: each says what it is, whence it is, and takes keys that make sense") {
  for (const Evaluator& e : evaluators()) {
    INFO(e.name);
    CHECK_FALSE(e.sentence.empty());
    CHECK_FALSE(e.source.empty());
    CHECK(e.run != nullptr);
    std::set<std::string_view> keys;
    for (const Argument& a : e.arguments) {
      INFO(a.name);
      CHECK(keys.insert(a.name).second);
      CHECK_FALSE(a.sentence.empty());
      if (a.unit.empty()) continue;
      CHECK(convert(1.0, a.unit, a.unit) == 1.0);
      CHECK(a.least < a.most);
      if (a.standard.empty() || a.list) continue;
      const auto read = read_quantity(a.standard, a.unit);
      REQUIRE(std::holds_alternative<double>(read));
      CHECK(std::get<double>(read) >= a.least);
      CHECK(std::get<double>(read) <= a.most);
    }
  }
}

TEST_CASE("evaluators: units of results are units") {
  const auto results_of = [](const char* name, const std::vector<std::string>& words) {
    Problems problems;
    const Evaluator* e = find_evaluator(name);
    REQUIRE(e != nullptr);
    const Arguments arguments = read_arguments(*e, words, problems);
    REQUIRE(problems.empty());
    return e->run(arguments);
  };
  for (const auto& results :
       {results_of("mat", {"temperature=20"}), results_of("moist-air", {"temperature=20", "relative_humidity=50"}),
        results_of("pipe-loss", {"flow=500", "diameter=16 mm", "length=10"}),
        results_of("soak", {"temperature=16", "time=10"})})
    for (const Result& r : results) {
      INFO(r.name << " " << r.unit);
      CHECK(std::holds_alternative<double>(read_quantity("1 " + r.unit, r.unit)));
      CHECK(std::isfinite(r.value));
    }
}

TEST_CASE("evaluators: a room left alone ends at the temperature outdoors, heated and insulated it needs less") {
  const auto room = [](std::vector<std::string> words) {
    Problems problems;
    for (const char* always : {"temperature=20", "outdoor=5", "hours=3000"}) words.emplace_back(always);
    const Arguments arguments = read_arguments(*find_evaluator("room"), words, problems);
    REQUIRE(problems.empty());
    std::map<std::string, double> told;
    for (const Result& r : find_evaluator("room")->run(arguments)) told[r.name] = r.value;
    return told;
  };
  CHECK(room({})["temperature"] == near(5.0, 1e-6));
  CHECK(room({"gain=300"})["temperature"] == near(5.0 + 300.0 / room({})["conductance"], 1e-6));
  auto bare = room({"heater=3 kW", "heater_set=15 degC"}), clad = room({"heater=3 kW", "heater_set=15 degC", "insulation=5 cm"});
  CHECK(bare["temperature"] == Approx(15.0));
  CHECK(clad["temperature"] == Approx(15.0));
  CHECK(clad["transmittance"] == Approx(1.8 / (1.0 + 1.8 * 0.05 / 0.037)));
  CHECK(clad["inner_wall"] > bare["inner_wall"]);
  // Held for long, both use what goes out: conductance times ten kelvin; a little of the first hours comes from the store.
  CHECK(bare["heater_energy"] == Approx(bare["conductance"] * 10.0 * 3.0).epsilon(0.02));
  CHECK(clad["heater_energy"] == Approx(clad["conductance"] * 10.0 * 3.0).epsilon(0.02));
  CHECK_THROWS_AS(room({"heater=1 kW", "cooler=1 kW", "heater_set=25", "cooler_set=20"}), BadArguments);
}

TEST_CASE("evaluators: a mat warms itself unless it is held, and drier grain and better drained trays count") {
  const auto mat = [](std::vector<std::string> words) {
    Problems problems;
    const Arguments arguments = read_arguments(*find_evaluator("mat"), words, problems);
    REQUIRE(problems.empty());
    std::map<std::string, double> told;
    for (const Result& r : find_evaluator("mat")->run(arguments)) told[r.name] = r.value;
    return told;
  };
  auto own = mat({"temperature=20"}), held = mat({"temperature=20", "own_warmth=no"});
  CHECK(own["dry_matter_loss"] > held["dry_matter_loss"] + 1.0);
  CHECK(own["mat_excess"] > 3.0);
  CHECK(held["mat_excess"] == 0.0);
  CHECK(mat({"temperature=20", "moisture=12 %", "drainage=0.95", "own_warmth=yes"})["fresh_ratio"] == own["fresh_ratio"]);
  CHECK(mat({"temperature=20", "moisture=8 %"})["fresh_ratio"] > own["fresh_ratio"]);
  CHECK(mat({"temperature=30", "drainage=1"})["spoiled_sour"] < mat({"temperature=30"})["spoiled_sour"]);
  CHECK_THROWS_AS(mat({"temperature=20", "days=20"}), BadArguments);
}

TEST_CASE("evaluators: a word that names nothing known is refused with those that do") {
  const auto refusal = [](const char* name, const std::vector<std::string>& words) -> std::string {
    Problems problems;
    const Arguments arguments = read_arguments(*find_evaluator(name), words, problems);
    REQUIRE(problems.empty());
    try {
      (void)find_evaluator(name)->run(arguments);
    } catch (const BadArguments& bad) {
      return bad.why;
    }
    return "taken";
  };
  const std::string species = refusal("mat", {"temperature=20", "species=barly"});
  CHECK(species.find("no species is called \"barly\"") == 0);
  CHECK(species.find("did you mean barley?") != std::string::npos);
  CHECK(species.find("triticale") != std::string::npos);
  const std::string animal = refusal("intake", {"class=goat-milkin"});
  CHECK(animal.find("no class is called \"goat-milkin\"") == 0);
  CHECK(animal.find("did you mean goat-milking?") != std::string::npos);
  CHECK(animal.find("laying-hen") != std::string::npos);
  CHECK(refusal("intake", {"class=dairy-cow", "weight=10", "milk=50"}).find("is taken for 195 to 3250 kg") != std::string::npos);
  CHECK(refusal("intake", {"class=goat-milking", "weight=0.01"}).find("is taken for") != std::string::npos);
  CHECK(refusal("intake", {"class=goat-milking", "weight=20", "milk=5"}).find("a fifth of its weight") != std::string::npos);
  CHECK(refusal("intake", {"class=growing-chicken", "weight=50 g"}) == "taken");
  CHECK(refusal("dairy-intake", {"weight=60", "milk=50", "fat=4", "week=10"}).find("a fifth of its weight") != std::string::npos);
  CHECK(refusal("mat", {"own_warmth=maybe"}) == "own_warmth is yes or no, not \"maybe\"");
  CHECK(refusal("room", {"temperature=30", "outdoor=0", "heat_capacity=50", "wet_area=100"}).find("below the wet bulb") != std::string::npos);
  CHECK(refusal("room", {"temperature=30", "outdoor=0", "heat_capacity=4000", "wet_area=100"}) == "taken");
  CHECK(refusal("germination-trial", {"germinated=80", "sown=100", "prior=strong"}) == "prior is weak, jeffreys, feed-grade or seed-grade");
  CHECK(refusal("lifting-limit", {"horizontal=40 cm", "vertical=50 cm", "distance=60 cm", "frequency=2", "coupling=firm"}) ==
        "coupling is good, fair or poor (or 0, 1, 2), not \"firm\"");
}

// Erlang C for 3 servers and 2 erlang is 4/9, hence a wait of 4/9 service times; M/D/1 at 0.5 waits half a service time
// (Pollaczek-Khinchine). Four standard errors: a false alarm in about 2 of 10,000 seeds; the seed is fixed.
TEST_CASE("evaluators: the queue on the kernel agrees with Erlang and Pollaczek") {
  const auto queue = [](const std::vector<std::string>& words) {
    Problems problems;
    const Arguments arguments = read_arguments(*find_evaluator("queue"), words, problems);
    REQUIRE(problems.empty());
    return find_evaluator("queue")->run(arguments);
  };
  const auto erlang = queue({"servers=3", "arrival=2", "service=1"});
  REQUIRE(erlang.size() == 5);
  CHECK(std::abs(erlang[0].value - 4.0 / 9.0) < 4.0 * erlang[1].value);
  CHECK(std::abs(erlang[2].value - 4.0 / 9.0) < 4.0 * erlang[3].value);
  const auto constant = queue({"kind=md1", "arrival=0.5", "service=1"});
  CHECK(std::abs(constant[2].value - 0.5) < 4.0 * constant[3].value);
  CHECK(constant[3].value < 0.005 * 0.5);
  CHECK(erlang[3].value < 0.005 * 4.0 / 9.0);
  // Five of fifty servers busy: Erlang's chance is of the order of 1e-30, and a run can only bound it.
  const auto idle = queue({"servers=50", "arrival=5", "service=1"});
  CHECK(idle[0].value == 0.0);
  CHECK(idle[1].value > 0.0);
  CHECK(idle[1].value < 1e-6);
  CHECK(idle[3].value > 0.0);
  CHECK(queue({"kind=mm1", "arrival=0.5", "service=1"})[2].unit == "1");
  CHECK(queue({"arrival=4 /h", "service=0.2 /min"})[2].unit == "h");
  CHECK_THROWS_AS(queue({"arrival=4 /h", "service=12"}), BadArguments);
  // One in a thousand waits: the limit of customers stops it, and the standard error says how well it is known.
  const auto rare = queue({"arrival=0.001", "service=1"});
  CHECK(rare[4].value <= 30e6);
  CHECK(std::abs(rare[0].value - 0.001) < 4.0 * rare[1].value);
  CHECK_THROWS_AS(queue({"kind=md1", "servers=2", "arrival=0.5", "service=1"}), BadArguments);
  CHECK_THROWS_AS(queue({"servers=1", "arrival=2", "service=1"}), BadArguments);
  CHECK_THROWS_AS(queue({"servers=1.5", "arrival=1", "service=1"}), BadArguments);
  CHECK_THROWS_AS(queue({"kind=mg1", "arrival=0.5", "service=1"}), BadArguments);
}

// The handbook's formula with its multipliers written out: 23 (25/H) (1 - 0.003 |V - 75|) (0.82 + 4.5/D) (1 - 0.0032 A) F C.
TEST_CASE("evaluators: counts are whole, and a percentage as a fraction is a share") {
  const auto asked = [](const char* name, const std::vector<std::string>& words) {
    Problems problems;
    const Evaluator* model = find_evaluator(name);
    REQUIRE(model != nullptr);
    const Arguments given = read_arguments(*model, words, problems);
    return std::pair(problems, given);
  };
  for (const auto& [name, key] : {std::pair{"rack", "tiers=4.5"}, std::pair{"rack", "trays_per_tier=1.5"}, std::pair{"watering", "emitters_per_tier=1.5"},
                                  std::pair{"room", "hours=1.4"}, std::pair{"queue", "random_seed=1.5"}}) {
    INFO(name << " " << key);
    const Problems problems = asked(name, {key}).first;
    CHECK(std::any_of(problems.begin(), problems.end(), [](const Problem& p) { return p.why == "must be a whole number"; }));
  }
  CHECK(asked("drain", {"diameter=50 mm", "slope=1/50"}).second.number("slope") == 2.0);
  CHECK(asked("drain", {"diameter=50 mm", "slope=1/65"}).second.number("slope") == Approx(100.0 / 65.0));
  const Problems endless = asked("drain", {"diameter=50 mm", "slope=" + std::string(100000, 'x')}).first;
  REQUIRE(endless.size() == 1);
  CHECK(endless.front().value.size() < 80);
  CHECK(endless.front().why.size() < 300);
}

TEST_CASE("evaluators: births are counted as a keeper counts them") {
  const Evaluator* births = find_evaluator("births");
  REQUIRE(births != nullptr);
  const auto asked = [&](std::vector<std::string> words) {
    Problems problems;
    const Arguments given = read_arguments(*births, words, problems);
    REQUIRE(problems.empty());
    std::map<std::string, double> values;
    for (const Result& result : births->run(given)) values[result.name] = result.value;
    return values;
  };
  // Kids of September, kept for 190 days: those of last year's are there in March where there were any (dates counted by hand).
  const std::vector<std::string> september{"first_births=193", "sale=190", "spread=10", "conception=0.9", "litter=2", "young_death=0.1"};
  auto here = september;
  here.emplace_back("before=yes");
  CHECK(asked(september).at("season") == 193.0);
  CHECK(asked(here).at("season") == -172.0);
  CHECK(asked(here).at("weaned") == Approx(1.62));
  CHECK(asked(here).at("mating") == Approx(43.0));  // 150 d before
  here.emplace_back("age=59");
  CHECK(asked(here).at("share") == 0.0);
  Problems problems;
  CHECK_THROWS_AS(births->run(read_arguments(*births, {"first_births=1", "before=maybe"}, problems)), BadArguments);
}

TEST_CASE("evaluators: a soak tells what it is worth, frozen grain has no median, and a store must fill above where it orders") {
  const auto asked = [](const char* name, const std::vector<std::string>& words) {
    Problems problems;
    const Evaluator* model = find_evaluator(name);
    REQUIRE(model != nullptr);
    const Arguments given = read_arguments(*model, words, problems);
    REQUIRE(problems.empty());
    std::map<std::string, double> values;
    for (const Result& result : model->run(given)) values[result.name] = result.value;
    return values;
  };
  const auto short_soak = asked("soak", {"species=barley", "temperature=18", "time=8"}), long_soak = asked("soak", {"species=barley", "temperature=18", "time=60"});
  CHECK(short_soak.at("stress") == 0.0);
  CHECK(short_soak.at("survival") == 100.0);
  CHECK(long_soak.at("stress") > 0.5);
  CHECK(long_soak.at("survival") < 100.0);
  CHECK(long_soak.at("head_start") > short_soak.at("head_start"));
  CHECK(std::isinf(asked("germination", {"species=barley", "temperature=-3", "time=200"}).at("median_time")));
  CHECK_THROWS_AS(asked("order", {"on_hand=10", "on_order=0", "reorder=300", "order_up_to=250"}), BadArguments);
}

TEST_CASE("evaluators: lifting all day is less than lifting for an hour") {
  const auto limit = [](const std::vector<std::string>& more) {
    std::vector<std::string> words{"horizontal=40 cm", "vertical=50 cm", "distance=60 cm", "asymmetry=30", "frequency=2",
                                   "coupling=poor"};
    words.insert(words.end(), more.begin(), more.end());
    Problems problems;
    const Arguments arguments = read_arguments(*find_evaluator("lifting-limit"), words, problems);
    REQUIRE(problems.empty());
    return find_evaluator("lifting-limit")->run(arguments).at(0).value;
  };
  const double rest = 23.0 * (25.0 / 40.0) * (1.0 - 0.003 * 25.0) * (0.82 + 4.5 / 60.0) * (1.0 - 0.0032 * 30.0) * 0.90;
  CHECK(limit({}) == Approx(rest * 0.91));
  CHECK(limit({"duration=90 min"}) == Approx(rest * 0.84));
  CHECK(limit({"duration=8 h"}) == Approx(rest * 0.65));
}

TEST_CASE("evaluators: a day's extremes are those a run would have of the same luck and keys") {
  const auto day = [](const std::vector<std::string>& words) {
    Problems problems;
    const Arguments arguments = read_arguments(*find_evaluator("day-extremes"), words, problems);
    REQUIRE(problems.empty());
    return find_evaluator("day-extremes")->run(arguments);
  };
  climate::Parameters site;
  const auto plain = climate::day_from(site, 200.0, {1.5, 0.0, -0.5}, Kelvins(0.0));
  CHECK(day({"day=200", "anomaly=1.5", "range=-0.5"}).at(0).value == plain.maximum);
  CHECK(day({"day=200", "anomaly=1.5", "range=-0.5"}).at(1).value == plain.minimum);
  site.highs = {-0.3, -0.1, 0.0, 0.2, 0.0, 0.0};
  site.range_sd = Kelvins(3.0);
  site.anomaly_season = 0.2;
  site.anomaly_season_peak = 30.0;
  const auto leaning = climate::day_from(site, 200.0, {1.5, 0.0, -0.5}, Kelvins(0.0));
  const auto said = day({"day=200", "anomaly=1.5", "range=-0.5", "highs_skew=-0.3", "highs_skew_summer=-0.1", "highs_tail=0.2", "range_sd=3 K",
                         "anomaly_season=0.2", "anomaly_season_peak=30"});
  CHECK(said.at(0).value == leaning.maximum);
  CHECK(said.at(1).value == leaning.minimum);
}

TEST_CASE("evaluate's thirst, added up over a tier's trays, is the tier's need") {
  Scenario farm = test::small_farm();
  farm.line.grains = {"barley"};
  farm.climate.mean = {Celsius(20.0), Kelvins(0.0)};
  farm.climate.range_mean = Kelvins(1.0);
  farm.climate.range_amplitude = farm.climate.dew_depression_amplitude = Kelvins(0.0);
  farm.climate.dew_depression_mean = Kelvins(25.0);
  farm.room.air_changes = 12.0;
  farm.rack.trays_per_tier *= farm.rack.tiers;
  farm.rack.tiers = 1;
  const int a_day = farm.line.trays_per_batch * farm.line.batches_per_day;
  const int trays = std::min(farm.rack.trays_per_tier, a_day * farm.line.days_on_rack);
  const double area = design::tray_area(farm.rack).value(), grain = farm.line.sowing_density.value() * area;
  const Evaluator* thirst = find_evaluator("thirst");
  REQUIRE(thirst != nullptr);
  double sum = 0.0;
  for (int tray = 0; tray < trays; ++tray) {
    Problems problems;
    const GrainSupply& supply = farm.grains.front();
    const Arguments in = read_arguments(*thirst,
                                        {"species=" + supply.species, fmt::format("age={}", (tray + 0.5) / a_day), fmt::format("sprouted={}", 100.0 * supply.grade.germination_mean),
                                         fmt::format("sowing_density={}", farm.line.sowing_density.value()), fmt::format("moisture={}", 100.0 * supply.moisture), "dew_point=-5",
                                         "air_changes=12", fmt::format("volume={}", farm.room.floor_area.value() * farm.room.height.value()), fmt::format("mats={}", trays * area)},
                                        problems);
    REQUIRE(problems.empty());
    const auto results = thirst->run(in);
    CHECK(results[1].value == Approx(results[2].value));  // dry air counts here
    sum += grain * results[0].value;
  }
  CHECK(watering_of(farm).tiers.front().usual == Approx(sum).epsilon(1e-6));
}
