// What the answer owes to each assumed key.

#include "sim/study/influence.hpp"

#include <algorithm>

#include "sim/replication/plan.hpp"
#include "sim/scenario/read.hpp"
#include "sim/study/run.hpp"
#include "tests/catch.hpp"
#include "tests/unit/study/small_farm.hpp"

using namespace rackwright;
using namespace rackwright::study;
using rackwright::test::goat_farm;

namespace {

const Influence* find(const std::vector<Influence>& all, const std::string& key) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const Influence& i) { return i.key == key; });
  return found == all.end() ? nullptr : &*found;
}

std::vector<Influence> weighed(const Scenario& scenario, int threads) {
  InfluenceRequest request;
  request.replications = 6;
  request.threads = threads;
  return influences(scenario, request);
}

double mean_fill_rate(const Scenario& scenario) {
  RunRequest request;
  request.replications = 6;
  double sum = 0.0;
  run_replications(make_plan(scenario), request, nullptr, [&](const Block& block) {
    for (const Outcome& outcome : block.outcomes) sum += outcome.fill_rate;
  });
  return sum / 6.0;
}

}  // namespace

TEST_CASE("each assumed number is halved and doubled, shares by their odds, and what matters comes first") {
  Scenario farm = goat_farm();
  farm.spoilage.mould_rate *= 20.0;  // so much that what it costs outweighs the places it clears
  const auto all = weighed(farm, 1);
  REQUIRE(all.size() > 25);
  const Influence* mould = find(all, "spoilage.mould_rate");
  REQUIRE(mould != nullptr);
  CHECK(mould->used == *get_key(farm, "spoilage.mould_rate"));
  CHECK(mould->source == "assumed");
  CHECK(mould->more.fill_rate.mean < mould->less.fill_rate.mean);
  const Influence* seen = find(all, "keeper.notice_spoiled");
  REQUIRE(seen != nullptr);
  const double odds = farm.keeper.notice_spoiled / (1.0 - farm.keeper.notice_spoiled);
  Scenario turned = farm;
  REQUIRE_FALSE(set_key(turned, "keeper.notice_spoiled", seen->less.value));
  CHECK(turned.keeper.notice_spoiled == Approx(0.5 * odds / (1.0 + 0.5 * odds)).epsilon(0.005));
  for (const Influence& i : all) {
    INFO(i.key);
    CHECK(i.less.value != i.more.value);
    CHECK(i.less.value != i.used);
    CHECK(i.source.starts_with("assumed"));
    CHECK_FALSE(i.sentence.empty());
  }
  const auto moved = [](const Influence& i) {
    return std::max(std::abs(i.less.fill_rate.mean), std::abs(i.more.fill_rate.mean));
  };
  CHECK(std::is_sorted(all.begin(), all.end(),
                       [&](const Influence& a, const Influence& b) { return moved(a) > moved(b); }));
  CHECK(moved(all.front()) > 0.0);
  // Nothing measured or the keeper's own is among them.
  for (const char* key : {"line.soak", "rack.tiers", "climate.mean", "water.emitter_flow", "group.count"})
    CHECK(find(all, key) == nullptr);
}

TEST_CASE("a shift is the mean difference of the years with the key set by hand") {
  const Scenario farm = goat_farm();
  const auto all = weighed(farm, 2);
  for (const char* key : {"spoilage.mould_rate", "keeper.notice_spoiled", "room.shell"}) {
    INFO(key);
    const Influence* found = find(all, key);
    REQUIRE(found != nullptr);
    for (const Shift* shift : {&found->less, &found->more}) {
      Scenario turned = farm;
      REQUIRE_FALSE(set_key(turned, key, shift->value));
      CHECK(shift->fill_rate.mean == near(mean_fill_rate(turned) - mean_fill_rate(farm), 1e-12));
    }
  }
}

TEST_CASE("the influences do not depend on the number of threads, and a stopped study has none") {
  const Scenario farm = goat_farm();
  const auto one = weighed(farm, 1), three = weighed(farm, 3);
  REQUIRE(one.size() == three.size());
  for (std::size_t i = 0; i < one.size(); ++i) {
    CHECK(one[i].key == three[i].key);
    CHECK(one[i].more.fill_rate.mean == three[i].more.fill_rate.mean);
    CHECK(one[i].less.cost_year.high == three[i].less.cost_year.high);
  }
  const std::atomic<bool> stop{true};
  InfluenceRequest request;
  request.replications = 2;
  request.stop = &stop;
  CHECK(influences(farm, request).empty());
}
