// Frost as a keeper meets it: cautions, the journal, the worklist.

#include <string>
#include <vector>

#include "tests/catch.hpp"
#include "tests/program.hpp"

using namespace rackwright::test;

namespace {

const std::vector<std::string> stone_barn{"--set", "climate.mean=5 degC", "--set", "climate.amplitude=18 K", "--set", "climate.anomaly_sd=5 K"};

Said said(const std::string& command, std::vector<std::string> more) {
  std::vector<std::string> all{command, shipped("hillside.toml")};
  all.insert(all.end(), stone_barn.begin(), stone_barn.end());
  all.insert(all.end(), more.begin(), more.end());
  return run(all);
}

// Without the breaks that wrap a paragraph.
std::string flat(const std::string& text) {
  std::string line;
  bool blank = false;
  for (const char c : text) {
    const bool is_blank = c == ' ' || c == '\n';
    if (is_blank && blank) continue;
    line += is_blank ? ' ' : c;
    blank = is_blank;
  }
  return line;
}

}  // namespace

TEST_CASE("program: check tells of a room that freezes, what to do, and of a heater too small") {
  const Said bare = said("check", {"--set", "room.heater=0 W"});
  REQUIRE(bare.code == 0);
  for (const char* part : {"Frost: the room freezes in 20 of 20 runs", "drain them", " killed, ", " not sown)", "mats that have sprouted die"}) CHECK(contains(flat(bare.out), part));
  CHECK_FALSE(contains(bare.out, "The heater is too small"));
  // Each once, though the weather and the plays both ask for it.
  for (const char* part : {"Pipes, pump, emitters and tank burst", "A heater in a wet, dusty barn is a risk of fire and shock"}) {
    INFO(part);
    CHECK(contains(flat(bare.out), part));
    CHECK(flat(bare.out).find(part) == flat(bare.out).rfind(part));
  }
  const Said small = said("check", {"--set", "room.heater=200 W", "--set", "units=us"});
  CHECK(contains(flat(small.out), "The heater is too small"));
  CHECK(contains(small.out, "degF"));
  // Strong enough for frost and too weak for its set point: both lines say what for.
  const Said between = said("check", {"--set", "room.heater=3 kW", "--set", "room.heater_set=23 degC", "--set", "water.power_between_cuts=20 d", "--set", "water.power_cut=3 d"});
  CHECK(contains(flat(between.out), "The heater is strong enough to keep 5 degC through nine winters in ten, as long as it has power"));
  CHECK(contains(flat(between.out), "The heater is too small for the coldest day of one run in ten"));
  CHECK(contains(flat(between.out), "to hold 23 degC takes about"));
  const Said enough = said("check", {"--set", "room.heater=20 kW"});
  CHECK_FALSE(contains(enough.out, "Frost:"));
  CHECK_FALSE(contains(flat(enough.out), "The heater is too small"));
}

TEST_CASE("program: the journal tells of frost as a cause of its own") {
  const Said told = said("journal", {"--replication", "0", "--set", "room.heater=0 W"});
  REQUIRE(told.code == 0);
  for (const char* part : {"no water runs", "killed by frost and thrown out", "frost -> mats killed"}) CHECK(contains(told.out, part));
}

TEST_CASE("program: a worklist from an empty rack opens in a heated room, not outdoors") {
  const Said words = said("schedule", {"--from", "2027-01-18", "--forecast", "-20/-30 -18/-28", "--set", "room.heater=20 kW", "--set", "room.heater_set=15 degC"});
  REQUIRE(words.code == 0);
  CHECK(contains(words.out, "room 15 to 15 degC"));
  CHECK_FALSE(contains(words.out, "below freezing"));
  const Said bare = said("schedule", {"--from", "2027-01-18", "--forecast", "-20/-30 -18/-28", "--set", "room.heater=0 W"});
  CHECK(contains(bare.out, "the room is below freezing: soak no"));
}

TEST_CASE("program: check reckons with doors and windows that stand open on the coldest days") {
  const auto watts = [](std::vector<std::string> settings) {
    std::vector<std::string> words{"--set", "room.heater=200 W"};
    for (const std::string& one : settings) words.insert(words.end(), {"--set", one});
    const std::string text = flat(said("check", words).out);
    const auto at = text.find("takes about ", text.find("The heater is too small"));
    REQUIRE(at != std::string::npos);
    return std::pair{std::stod(text.substr(at + 12)), contains(text, "Doors and windows stand open in the coldest weeks")};
  };
  const auto shut = watts({}), always = watts({"room.air_changes=10"});
  const auto winter = watts({"room.open_air_changes=10", "room.open_from=2026-10-01", "room.open_until=2026-05-01"});
  const auto summer = watts({"room.open_air_changes=10", "room.open_from=2026-05-01", "room.open_until=2026-10-01"});
  CHECK(always.first > 1.2 * shut.first);
  CHECK(winter.first == always.first);
  CHECK(summer.first == shut.first);
  CHECK(winter.second);
  CHECK_FALSE(summer.second);
  CHECK_FALSE(always.second);
}

TEST_CASE("program: a heater that size or stress advise comes with what it may do, where there is none, and not else") {
  const Folder folder;
  const std::string fire = "A heater in a wet, dusty barn is a risk of fire and shock";
  const auto bare = [&](std::vector<std::string> words, const std::string& mean) {
    for (const std::string& more : {"climate.mean=" + mean, std::string("climate.amplitude=1.5 K"), std::string("climate.anomaly_sd=0.5 K"), std::string("room.heater=0 W")})
      words.insert(words.end(), {"--set", more});
    words.insert(words.end(), {"--out", folder / "bare.h5", "--force", "--quiet"});
    return flat(run(words).out);
  };
  const std::string cold = bare({"stress", shipped("minimal.toml"), "--hard-time", "cold-snap", "--replications", "4"}, "20 degC");
  CHECK(contains(cold, fire));
  const std::string dry = bare({"stress", shipped("minimal.toml"), "--hard-time", "pump-stop", "--replications", "4"}, "20 degC");
  CHECK(contains(dry, "mouldy"));
  CHECK_FALSE(contains(dry, fire));
  const std::string missed = bare({"size", shipped("minimal.toml"), "--years", "0.5", "--set", "choose.rack.tiers=3, 4", "--set", "line.days_on_rack=6"}, "11 degC");
  CHECK(contains(missed, "room.heater = 500 W"));
  CHECK(missed.find("00000000") == std::string::npos);  // 15 cm of insulation is no 0.15000000000000002 m
  CHECK(contains(missed, fire));
  CHECK_FALSE(contains(bare({"simulate", shipped("minimal.toml"), "--replications", "2"}, "20 degC"), fire));
}
