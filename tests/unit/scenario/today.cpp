#include "sim/scenario/today.hpp"

#include "tests/catch.hpp"
#include "tests/farm.hpp"
#include "tests/program.hpp"

using namespace rackwright;
using std::chrono::sys_days;

namespace {

constexpr sys_days july14{std::chrono::year(2026) / 7 / 14};

bool tells(const Problems& problems, const std::string& key, const std::string& why) {
  for (const Problem& p : problems)
    if (p.key.find(key) != std::string::npos && p.why.find(why) != std::string::npos) return true;
  return false;
}

}  // namespace

TEST_CASE("today: a whole state is read") {
  const auto reading = read_today(R"(at = 2026-07-14T06:00   # before the round
[[batch]]
sown = 2026-07-07
trays = 3
[[batch]]
sown = 2026-07-06T18:10
trays = 2
germination = "88 %"
soak = "12 h"
[[batch]]
sown = "2026-07-08 06:50"
trays = 3
grain = "wheat"
[[soaking]]
since = 2026-07-13T21:00:00
trays = 3
[[store]]
grain = "barley"
amount = "80 lb"
came = 2026-06-01
[[order]]
grain = "wheat"
amount = "100 kg"
due = 2026-07-16T10:00
)",
                                  test::small_farm());
  REQUIRE(reading.problems.empty());
  const Today& t = *reading.today;
  CHECK(t.at == When{july14, 360});
  REQUIRE(t.batches.size() == 3);  // oldest first, whatever the order of the file
  CHECK(t.batches[0].sown.day == sys_days(std::chrono::year(2026) / 7 / 6));
  CHECK(t.batches[0].session == 1);
  CHECK(t.batches[0].grain == "wheat");   // whose turn it is in the evening
  CHECK(t.batches[0].germination == 0.88);
  CHECK(t.batches[0].soak == Hours(12.0));
  CHECK(t.batches[1].session == 0);
  CHECK(t.batches[1].grain == "barley");
  CHECK(t.batches[2].session == 0);
  CHECK(t.batches[2].grain == "wheat");
  REQUIRE(t.soaking.size() == 1);
  CHECK(t.soaking[0].since.minute == 21 * 60);
  REQUIRE(t.store.size() == 1);
  CHECK(t.store[0].amount.value() == Approx(80.0 * 0.45359237));
  REQUIRE(t.orders.size() == 1);
  CHECK(t.orders[0].due.minute == 600);
}

TEST_CASE("today: where only mornings sow, every batch is a morning's") {
  Scenario farm = test::small_farm();
  farm.line.batches_per_day = 1;
  CHECK(nearest_session(farm, 1100) == 0);
  farm.line.batches_per_day = 2;
  CHECK(nearest_session(farm, 1100) == 1);
  CHECK(nearest_session(farm, std::nullopt) == 0);
}

TEST_CASE("today: moments are days, with or without a time") {
  CHECK(read_when("2026-07-14") == When{july14, {}});
  CHECK(read_when("2026-07-14 06:30") == When{july14, 390});
  CHECK(read_when("2026-07-14T00:00:00") == When{july14, 0});
  for (const char* wrong : {"", "2026-07-32", "2026-02-29", "14.7.2026", "2026-07-14T25:00", "tomorrow!!", "2026-07-14Tx"}) CHECK_FALSE(read_when(wrong));
}

TEST_CASE("today: everything that is wrong is told at once, with its line") {
  const auto reading = read_today(R"(at = 2026-07-14
[[batch]]
sown = 2026-07-15
trays = 3
[[batch]]
sown = 2026-05-01
trays = 60
grain = "rye"
colour = "green"
[[soaking]]
since = 2026-07-14T08:00
trays = 0
[[store]]
grain = "barley"
amount = "80"
)",
                                  test::small_farm());
  CHECK_FALSE(reading.today);
  CHECK(tells(reading.problems, "batch.2.grain", "it has barley, wheat"));
  CHECK(tells(reading.problems, "batch.2.colour", "not a known key"));
  CHECK(tells(reading.problems, "soaking.1.trays", "between"));
  CHECK(tells(reading.problems, "store.1.amount", "needs its unit"));
  for (const Problem& p : reading.problems) CHECK(p.line > 0);
}

TEST_CASE("today: what cannot be is refused") {
  const auto problems = [](const std::string& text) { return read_today("at = 2026-07-14T06:00\n" + text, test::small_farm()).problems; };
  CHECK(tells(problems("[[batch]]\nsown = 2026-07-14\ntrays = 3\n"), "batch.1.sown", "not before"));
  CHECK(tells(problems("[[batch]]\nsown = 2026-05-14\ntrays = 3\n"), "batch.1.sown", "more than 45 days ago"));
  CHECK(tells(problems("[[batch]]\nsown = 2026-07-10\ntrays = 53\n"), "batch", "more than the rack has places: 52"));
  CHECK(tells(problems("[[soaking]]\nsince = 2026-07-14\ntrays = 3\n"), "soaking.1.since", "needs its time"));
  CHECK(tells(problems("[[soaking]]\nsince = 2026-07-14T07:00\ntrays = 3\n"), "soaking.1.since", "after the time"));
  CHECK(tells(problems("[[soaking]]\nsince = 2026-07-11T07:00\ntrays = 3\n"), "soaking.1.since", "dead"));
  CHECK(tells(problems("[[store]]\ngrain = \"barley\"\namount = \"5 kg\"\ncame = 2027-01-01\n"), "store.1.came", "after"));
  CHECK(tells(problems("[[order]]\ngrain = \"barley\"\namount = \"5 kg\"\ndue = 2026-07-01\n"), "order.1.due", "within the year"));
  CHECK(tells(problems("[[rack]]\ntiers = 3\n"), "rack", "not a known"));
  CHECK(tells(read_today("", test::small_farm()).problems, "at", "is missing"));
  CHECK_FALSE(read_today("at = 2026-13-14", test::small_farm()).today);
  CHECK_FALSE(read_today("at = \"\xff\"", test::small_farm()).today);
  CHECK_FALSE(read_today("[[batch]", test::small_farm()).today);
  CHECK_FALSE(read_today(std::string(std::size_t{1} << 21U, 'a'), test::small_farm()).today);
  CHECK(read_today_file("/nowhere/rack.toml", test::small_farm()).problems.at(0).why == "there is no such file");
}

TEST_CASE("today: a file says what its text says") {
  const test::Folder folder;
  const std::string text = "at = 2026-07-14T06:00\n[[batch]]\nsown = 2026-07-13\ntrays = 2\n";
  const TodayReading read = read_today_file(folder.write("rack.toml", text), test::small_farm());
  REQUIRE(read.today);
  CHECK(read.today->at == When{july14, 360});
  REQUIRE(read.today->batches.size() == 1);
  CHECK(read.today->batches[0].trays == 2);
  CHECK(tells(read_today_file(folder.write("wrong.toml", "at = 2026-07-14\n[[rack]]\n"), test::small_farm()).problems, "rack", "not a known"));
}

TEST_CASE("today: a lot without its day came today, an order is of the year that comes, and the grain is by its turn") {
  const auto read = [](const std::string& text) { return read_today("at = 2026-07-14T06:00\n" + text, test::small_farm()); };
  const auto state = read("[[store]]\ngrain = \"barley\"\namount = \"5 kg\"\n[[order]]\ngrain = \"wheat\"\namount = \"5 kg\"\ndue = 2027-07-14\n");
  REQUIRE(state.today);
  CHECK(state.today->store[0].came == When{july14, 360});
  CHECK(tells(read("[[order]]\ngrain = \"wheat\"\namount = \"5 kg\"\ndue = 2027-07-15\n").problems, "order.1.due", "within the year"));
  CHECK(tells(read("[[soaking]]\nsince = 2026-07-13T20:00\ntrays = 53\n").problems, "soaking.1.trays", "more than the rack has places"));
  CHECK(tells(read("[[batch]]\nsown = 2026-07-13\ntrays = 2\n[[batch]]\nsown = 2026-07-14T06:30\ntrays = 2\n").problems, "batch.2.sown", "not before"));
}

TEST_CASE("today: a time without seconds is read outside quotes, in quotes and behind a remark, as it stands") {
  const auto at = [](const std::string& text) {
    const auto reading = read_today(text, test::small_farm());
    for (const Problem& p : reading.problems) UNSCOPED_INFO(p.why);
    return reading.today ? std::optional(reading.today->at) : std::nullopt;
  };
  const When six{july14, 360};
  for (const char* text : {"at = 2026-07-14T06:00", "at = 2026-07-14 06:00\n", "at = 2026-07-14t06:00", "at = 2026-07-14T06:00:00", "at = \"2026-07-14 06:00\"", "at = '2026-07-14T06:00'",
                           "# on 2026-07-13T05:00, \"nearly\n at = 2026-07-14T06:00 # not 2026-07-14T07:00\n"}) {
    INFO(text);
    CHECK(at(text) == six);
  }
  CHECK_FALSE(at("at = 2026-07-14x06:00").has_value());
  CHECK_FALSE(at("at = 2026-07-14T06:0").has_value());
}
