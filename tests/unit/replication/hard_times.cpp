// Each kind of hard time does what it says and only that: every other piece of luck stays where it was.

#include <algorithm>
#include <set>
#include <string>
#include <vector>

#include "sim/replication/fortune.hpp"
#include "sim/replication/replicate.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;

namespace {

Scenario with(Scenario farm, HardTime hard) {
  hard.name = "it";
  farm.hard_times.push_back(std::move(hard));
  return farm;
}

HardTime hard(HardTimeKind kind, double day) {
  HardTime time;
  time.kind = kind;
  time.first_day = day;
  return time;
}

struct Pair {
  explicit Pair(const HardTime& time) : Pair(test::small_farm(), time) {}
  Pair(const Scenario& farm, const HardTime& time) : plain(make_plan(farm)), struck(make_plan(with(farm, time))) {
    before.draw(plain, 5, 9);
    after.draw(struck, 5, 9);
  }
  Plan plain, struck;
  Fortune before, after;

  // Names of the kinds of luck that differ anywhere.
  [[nodiscard]] std::set<std::string> moved() const {
    std::set<std::string> names;
    const auto note = [&](bool same, const char* what) { if (!same) names.insert(what); };
    for (int day = -lead_days; day <= plain.horizon_days; ++day) {
      note(before.weather(day).maximum == after.weather(day).maximum, "weather");
      note(before.weather(day).minimum == after.weather(day).minimum, "weather");
      for (std::size_t g = 0; g < plain.groups.size(); ++g)
        note(before.wanted(g, day) == after.wanted(g, day), "wants");
      for (int hour = 0; hour < 24; ++hour) {
        const std::int64_t minute = minutes_per_day * day + 60 * hour;
        note(Fortune::away(plain, minute) == Fortune::away(struck, minute), "away");
      }
      for (const int session : {0, 1}) {
        note(before.missed(day, session) == after.missed(day, session), "rounds");
        note(before.notice(day, session, 1) == after.notice(day, session, 1), "notice");
      }
    }
    note(before.pump().size() == after.pump().size(), "pump");
    note(before.power().size() == after.power().size(), "power");
    note(before.clogs().size() == after.clogs().size(), "clogs");
    for (std::uint32_t n = 0; n < 9; ++n) {
      note(before.lot(plain, 0, n).germinable == after.lot(struck, 0, n).germinable, "lots");
      note(before.delivery_hours(plain, 0, n) == after.delivery_hours(struck, 0, n), "delivery");
    }
    note(before.price_factor(plain, 0, 150 * minutes_per_day) == after.price_factor(struck, 0, 150 * minutes_per_day), "price");
    return names;
  }
};

using Names = std::set<std::string>;
using Kind = HardTimeKind;

Outcome year(const Scenario& farm) { return Replicator(make_plan(farm)).run(3, 1); }

}  // namespace

TEST_CASE("a heat wave warms its days by what it says, a cold snap cools them") {
  for (const auto& [kind, change] : {std::pair{Kind::heat_wave, 9.0}, std::pair{Kind::cold_snap, -6.0}}) {
    HardTime time = hard(kind, 150);
    time.change = Kelvins(std::abs(change));
    time.length = days(6);
    const Pair pair(time);
    CHECK(pair.moved() == Names{"weather"});
    for (int day = 0; day < 300; ++day) {
      const double rise = pair.after.weather(day).maximum - pair.before.weather(day).maximum;
      const double share = day < 150 || day > 155 ? 0.0 : day == 150 || day == 155 ? 0.5 : 1.0;
      CHECK(rise == near(change * share, 1e-9));
    }
  }
}

TEST_CASE("an overlay of [[spell]] and the same heat wave as a hard time are the same weather") {
  Scenario spelled = test::small_farm();
  spelled.spells.push_back({100.0, 10.0, Kelvins(9.0)});
  const Outcome a = year(spelled), b = year(with(test::small_farm(), hard(Kind::heat_wave, 100)));
  CHECK(a.fingerprint == b.fingerprint);
  CHECK(a.cost_total == b.cost_total);
}

TEST_CASE("a dead pump and a power cut are one outage more, at their time") {
  HardTime time = hard(Kind::pump_stop, 100);
  time.at = Hours(14.0);
  time.length = Hours(30.0);
  const Pair pump(time);
  CHECK(pump.moved() == Names{"pump"});
  CHECK(pump.after.pump().back().start == 100 * minutes_per_day + 14 * 60);
  CHECK(pump.after.pump().back().end == 101 * minutes_per_day + 20 * 60);
  time.kind = Kind::power_cut;
  CHECK(Pair(time).moved() == Names{"power"});
  Scenario quiet = test::quiet_farm();
  CHECK(year(quiet).dry_hours == 0.0);
  time.kind = Kind::pump_stop;
  const double dry = year(with(quiet, time)).dry_hours;
  CHECK(dry > 0.0);
  quiet.water.header_tank = Hours(20.0);
  CHECK(year(with(quiet, time)).dry_hours < 0.5 * dry);
  quiet.water.header_tank = Hours(0.0);
  quiet.water.spare_pump = true;  // 14:00 to the evening round, and half an hour's work
  const Outcome spared = year(with(quiet, time));
  CHECK(spared.dry_hours < dry);
  quiet.water.battery = Hours(48.0);  // of no use to a dead pump
  CHECK(year(with(quiet, time)).dry_hours == spared.dry_hours);
  time.kind = Kind::power_cut;
  CHECK(year(with(quiet, time)).dry_hours == 0.0);
}

TEST_CASE("missed rounds are those of its hours, an absence leaves nothing soaked either, a second keeper covers both") {
  HardTime time = hard(Kind::missed_rounds, 100);
  const Pair pair(time);
  CHECK(pair.moved() == Names{"rounds"});
  const Scenario quiet = test::quiet_farm();
  CHECK(year(with(quiet, time)).missed_rounds == 2);
  CHECK(year(with(quiet, time)).grain_used == Approx(year(quiet).grain_used));
  time.kind = Kind::keeper_away;
  CHECK(Pair(time).moved() == Names{"rounds", "away"});
  const Outcome away = year(with(quiet, time));
  CHECK(away.missed_rounds == 14);
  const double a_day = year(quiet).grain_used / year(quiet).days;
  CHECK(away.grain_used == Approx(year(quiet).grain_used - 7.0 * a_day).epsilon(0.01));
  CHECK(away.fill_rate < year(quiet).fill_rate);
  Scenario helped = quiet;
  helped.keeper.second_keeper = true;
  CHECK(year(with(helped, time)).missed_rounds == 0);
  CHECK(year(with(helped, time)).fill_rate == year(quiet).fill_rate);
}

TEST_CASE("a larger litter wants so much more, from the births of its time on, in its group") {
  HardTime time = hard(Kind::larger_litter, 0);
  time.share = 0.5;
  time.group = "goats";
  const Pair pair(time);
  CHECK(pair.moved() == Names{"wants"});
  double most = 0.0;
  for (int day = 0; day < pair.plain.horizon_days; ++day) {
    CHECK(pair.after.wanted(0, day) >= pair.before.wanted(0, day));
    most = std::max(most, pair.after.wanted(0, day) - pair.before.wanted(0, day));
    CHECK(pair.after.wanted(1, day) == pair.before.wanted(1, day));
  }
  CHECK(most > 0.0);
  time.group = "hens";  // have no births
  CHECK(Pair(time).moved().empty());
}

TEST_CASE("a price jump makes grain ordered while it lasts so much dearer, and moves nothing else") {
  HardTime time = hard(Kind::price_jump, 0);
  time.length = days(365);
  time.share = 0.25;
  CHECK(Pair(time).moved() == Names{"price"});
  Scenario farm = test::quiet_farm();
  farm.run.rack_full_at_start = false;
  for (GrainSupply& grain : farm.grains) grain.on_hand = Kilograms(0.0);
  const Outcome plain = year(farm), dear = year(with(farm, time));
  CHECK(dear.fingerprint == plain.fingerprint);
  CHECK(dear.cost.grain == Approx(1.25 * plain.cost.grain));
  time.grain = "wheat";
  const Outcome wheat = year(with(farm, time));
  CHECK(wheat.cost.grain > 1.05 * plain.cost.grain);
  CHECK(wheat.cost.grain < 1.20 * plain.cost.grain);
}

TEST_CASE("a poor lot is the next that comes, with so much of its living grain dead, others are as they were") {
  HardTime time = hard(Kind::poor_lot, 60);
  time.share = 0.4;
  CHECK(Pair(time).moved().empty());  // which lot it is depends on when orders fall due
  const Pair pair(time);
  for (std::uint32_t n = 0; n < 5; ++n) {
    const grain::Lot usual = pair.before.lot(pair.plain, 0, n), poor = pair.before.lot(pair.plain, 0, n, 0.6);
    CHECK(poor.germinable == Approx(0.6 * usual.germinable));
    CHECK(poor.vigour <= usual.vigour);
    CHECK(poor.inoculum == usual.inoculum);
  }
  const Scenario quiet = test::quiet_farm();
  const double one = year(with(quiet, time)).germination, none = year(quiet).germination;
  time.times = 3;
  const double three = year(with(quiet, time)).germination;
  CHECK(one < none - 0.01);
  CHECK(three < one - 0.01);
}

TEST_CASE("a late delivery is the next order, so much later") {
  struct Deliveries : Journal {
    void tell(std::int64_t minutes, const std::string& sentence) override {
      if (sentence.ends_with(" kg of barley came")) came.push_back(static_cast<double>(minutes) / minutes_per_day);
    }
    std::vector<double> came{};
  };
  Scenario quiet = test::quiet_farm();
  quiet.grains[0].delivery_sd = Hours(0.0);
  HardTime time = hard(Kind::late_delivery, 60);
  time.length = days(5);
  CHECK(Pair(time).moved().empty());
  Deliveries usual, late;
  Replicator(make_plan(quiet)).run(3, 1, &usual);
  Replicator(make_plan(with(quiet, time))).run(3, 1, &late);
  REQUIRE(usual.came.size() >= 2);
  std::size_t first = 0;
  while (first + 1 < usual.came.size() && usual.came[first] == late.came[first]) ++first;
  CHECK(usual.came[first] > 60.0);
  CHECK(late.came[first] == Approx(usual.came[first] + 5.0));
}

TEST_CASE("the journal tells when a hard time begins") {
  struct All : Journal {
    void tell(std::int64_t, const std::string& sentence) override { said += sentence + "\n"; }
    std::string said{};
  };
  All all;
  Replicator(make_plan(with(test::small_farm(), hard(Kind::keeper_away, 100)))).run(3, 1, &all);
  CHECK(all.said.find("hard time \"it\" begins today: nobody at the rack for 7 days") != std::string::npos);
  CHECK(all.said.find("hard time \"it\" ends today") != std::string::npos);
  CHECK(all.said.find("nobody was there to put grain to soak") != std::string::npos);
  Scenario spelled = test::small_farm();
  spelled.spells = {{100.0, 10.0, Kelvins(9.0)}, {200.0, 4.0, Kelvins(-6.0)}};
  All spells;
  Replicator(make_plan(spelled)).run(3, 1, &spells);
  CHECK(spells.said.find("a heat wave begins: 9 K warmer for 10 days") != std::string::npos);
  CHECK(spells.said.find("the heat wave is over") != std::string::npos);
  CHECK(spells.said.find("a cold snap begins: 6 K colder for 4 days") != std::string::npos);
  CHECK(spells.said.find("the cold snap is over") != std::string::npos);
}
