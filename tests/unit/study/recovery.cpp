// Moves that bring a line back, each with an outcome that arithmetic tells beforehand.

#include "sim/study/recovery.hpp"

#include <algorithm>

#include "sim/replication/plan.hpp"
#include "sim/replication/replicate.hpp"
#include "sim/study/line_today.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;
using namespace rackwright::study;
using std::chrono::sys_days;

namespace {

constexpr sys_days start{std::chrono::year(2026) / 3 / 1};

Scenario farm() {
  Scenario f = from_day(test::quiet_farm(), start, 30);
  f.rack.trays_per_tier = 20;
  return f;
}
Opening opened(const Scenario& f, int behind, int ahead) { return opening_of(f, usual_today(f, start, behind, ahead), {}, start); }

Outcome played(const Scenario& f, Opening opening, const Course& course) {
  opening.course = course;
  const Plan plan = make_plan(f, opening);
  return Replicator(plan).run(1, 0);
}

const Move& named(const std::vector<Move>& all, const std::string& part) {
  const auto at = std::find_if(all.begin(), all.end(), [&](const Move& move) { return move.what.find(part) != std::string::npos; });
  REQUIRE(at != all.end());
  return *at;
}

}  // namespace

TEST_CASE("recovery: nothing is tried within half a batch, other moves behind than ahead") {
  const Scenario f = farm();
  const Opening opening = opened(f, 0, 0);
  CHECK(moves(f, opening, 0.4).empty());
  const auto behind = moves(f, opening, -2.0), ahead = moves(f, opening, 2.0);
  named(behind, "sow double");
  named(behind, "younger");
  named(behind, "thicker");
  named(behind, "heater");
  named(behind, "reserve feed for the rest");
  named(behind, "nothing for the rest");
  named(ahead, "skip the next 2 sowings");
  named(ahead, "thinner");
}

TEST_CASE("recovery: moves do what they are called") {
  const Scenario f = farm();
  const Opening opening = opened(f, 4, 0);
  const auto all = moves(f, opening, -4.0);
  const Outcome usual = played(f, opening, {});
  CHECK(usual.short_feedings > 0);
  CHECK(played(f, opening, named(all, "sow double").course).trays_sown == usual.trays_sown + 4 * f.line.trays_per_batch);
  CHECK(played(f, opening, named(all, "thicker").course).grain_used > usual.grain_used * 1.03);
  CHECK(played(f, opening, named(all, "reserve feed for the rest").course).reserve_feed > 0.0);
  const Outcome unfed = played(f, opening, named(all, "nothing for the rest").course), fed = played(f, opening, named(all, "reserve feed for the rest").course);
  CHECK(unfed.served == Approx(fed.served));
  CHECK(unfed.cost_total < fed.cost_total);
  CHECK(played(f, opening, named(all, "heater").course).energy_heater > usual.energy_heater);
  const Outcome young = played(f, opening, named(all, "2 days younger").course);
  CHECK(young.mat_growth_days < usual.mat_growth_days);
  const Opening full = opened(f, 0, 3);
  CHECK(played(f, full, named(moves(f, full, 3.0), "skip").course).trays_sown == played(f, full, {}).trays_sown - 3 * f.line.trays_per_batch);
}

TEST_CASE("recovery: a thicker charge changes what is sown with it alone") {
  const Scenario f = farm();
  const Opening opening = opened(f, 0, 0);
  Course course;
  course.sowings.push_back({20, 0, f.line.trays_per_batch, 1.3, {}});  // too late to be cut within the run
  const Outcome usual = played(f, opening, {}), thicker = played(f, opening, course);
  Scenario shorter = f;
  shorter.run.length = days(30);
  CHECK(thicker.grain_used == Approx(usual.grain_used + 0.3 * f.line.trays_per_batch * make_plan(f).grain_per_tray));
  CHECK(thicker.trays_sown == usual.trays_sown);
  course.sowings[0].charge = 1.0;
  CHECK(played(f, opening, course).cost_total == usual.cost_total);
}

TEST_CASE("recovery: moves are ranked by what they feed and then by loss, on common fortunes, whatever the threads") {
  Scenario f = farm();
  f.climate.anomaly_sd = Kelvins(2.0);
  f.spoilage = spoilage::Parameters{};
  const Opening opening = opened(f, 4, 0);
  const Recovery one = recover(f, opening, -4.0, {.random_seed = 3, .replications = 24, .threads = 1});
  const Recovery two = recover(f, opening, -4.0, {.random_seed = 3, .replications = 24, .threads = 2});
  REQUIRE(one.tried.size() == moves(f, opening, -4.0).size());
  CHECK(one.replications == 24);
  for (std::size_t i = 0; i < one.tried.size(); ++i) {
    CHECK(one.tried[i].what == two.tried[i].what);
    CHECK(one.tried[i].loss.mean == two.tried[i].loss.mean);
    CHECK(one.tried[i].loss.low <= one.tried[i].loss.mean);
    if (i > 0) CHECK(one.tried[i - 1].verdict <= one.tried[i].verdict);
  }
  // Who gets nothing in place of what is missing costs no money for it, and is as short.
  const auto of = [&](const std::string& part) {
    return *std::find_if(one.tried.begin(), one.tried.end(), [&](const Tried& tried) { return tried.what.find(part) != std::string::npos; });
  };
  CHECK(of("nothing for the rest").money.mean < of("reserve feed for the rest").money.mean);
  CHECK(of("nothing for the rest").missing.mean == of("reserve feed for the rest").missing.mean);
}

TEST_CASE("recovery: what makes meals short that would not be stands last, however cheap") {
  using Verdict = Tried::Verdict;
  Recovery recovery;
  recovery.wanted_a_day = 50.0;
  recovery.short_feedings = {1.5, 1.0, 2.0, 0, 0, 0};
  const auto add = [&](const char* what, double loss, double shorts, double missing) {
    const auto sure = [](double mean) { return Estimate{mean, mean - 0.01, mean + 0.01, 0, 0, 0}; };
    recovery.tried.push_back({what, {}, sure(loss), sure(shorts), sure(missing)});
  };
  add("part ration", -4.0, 34.5, 32.0);
  add("thicker", 8.0, -1.0, -12.0);
  add("double", 3.0, -1.0, -12.1);
  add("younger", -0.3, -0.05, -0.1);
  add("heater", 11.0, -0.05, 0.1);
  add("scarce", -9.0, 0.0, 2.0);
  rank(recovery);
  std::vector<std::string> order;
  for (const Tried& tried : recovery.tried) order.push_back(tried.what);
  CHECK(order == std::vector<std::string>{"double", "thicker", "younger", "heater", "scarce", "part ration"});
  CHECK(recovery.tried[1].verdict == Verdict::feeds_more);
  CHECK(recovery.tried[2].verdict == Verdict::alike);
  CHECK(recovery.tried[4].verdict == Verdict::feeds_less);
  // An interval that holds nought shows nothing.
  recovery.tried[0].missing = {-20.0, -50.0, 10.0, 0, 0, 0};
  recovery.tried[0].short_feedings = {};
  rank(recovery);
  CHECK(recovery.tried[0].what == "thicker");
}

TEST_CASE("recovery: where it is sown as wanted, moves change what would be sown, not all trays") {
  Scenario f = farm();
  f.line.sow = SowRule::as_wanted;
  f.groups[0].count = 5;
  const Opening opening = opened(f, 2, 0);
  const std::vector<int> usual = usual_trays(f, opening, 0, 3);
  REQUIRE(usual[0] > 0);
  REQUIRE(usual[0] < f.line.trays_per_batch);
  const auto all = moves(f, opening, -2.0);
  for (const Sowing& sowing : named(all, "sow double").course.sowings) CHECK(sowing.trays == 2 * usual[static_cast<std::size_t>(2 * sowing.day + sowing.session)]);
  for (const Sowing& sowing : named(all, "thicker").course.sowings)
    if (sowing.day <= 3) CHECK(sowing.trays == usual[static_cast<std::size_t>(2 * sowing.day + sowing.session)]);
}

TEST_CASE("recovery: what spares short meals and lacks more in all is neither better nor worse") {
  const auto sure = [](double mean) { return Estimate{mean, mean - 0.1, mean + 0.1, 0, 0, 0}; };
  Recovery recovery;
  recovery.wanted_a_day = 20.0;
  recovery.short_feedings = sure(12.0);
  recovery.tried = {{"younger", {}, sure(0.0), sure(-7.1), sure(1.3)}, {"double", {}, sure(0.0), sure(2.0), sure(-3.0)}, {"scarce", {}, sure(0.0), sure(2.0), sure(3.0)}};
  rank(recovery);
  CHECK(recovery.tried[0].what == "double");
  CHECK(recovery.tried[0].verdict == Tried::Verdict::both_ways);
  CHECK(recovery.tried[1].verdict == Tried::Verdict::both_ways);
  CHECK(recovery.tried[2].verdict == Tried::Verdict::feeds_less);
}
