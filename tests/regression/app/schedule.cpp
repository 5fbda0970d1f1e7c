// `rackwright schedule` as a keeper meets it: what it says, writes and refuses.

#include <algorithm>
#include <map>

#include <nlohmann/json.hpp>

#include "tests/catch.hpp"
#include "tests/program.hpp"

using namespace rackwright::test;

namespace {

const std::string farm = shipped("hillside.toml");
const char* state = R"(at = 2026-07-14T06:00
[[batch]]
sown = 2026-07-06
trays = 4
[[batch]]
sown = 2026-07-06T18:30
trays = 4
[[batch]]
sown = 2026-07-08
trays = 4
[[soaking]]
since = 2026-07-13T21:00
trays = 4
)";

Said schedule(std::vector<std::string> words) {
  std::vector<std::string> all{"schedule", farm};
  all.insert(all.end(), words.begin(), words.end());
  return run(all);
}

}  // namespace

TEST_CASE("schedule: a state gives a worklist in the farm's own words, the same at every run") {
  const Folder folder;
  const std::string rack = folder.write("rack.toml", state);
  const Said said = schedule({"--state", rack, "--days", "3"});
  CHECK(said.code == 0);
  CHECK(said.err.empty());
  for (const char* part : {"3 days from Tuesday 14 July 2026", "batches behind", "Played 200 times with luck as it comes, these 3 days feed", "one play with even luck", "  07:00  harvest", "feed milkers", "sow 4 trays of barley",
                           "  08:30  soak 3.6 kg of wheat for 4 trays (to be sown 14 July, evening, after 10 h)", "move 12 trays", "order by", "Thursday 16 July",
                           "fine-dust mask"})
    CHECK(contains(said.out, part));
  CHECK_FALSE(contains(said.out, "Friday"));
  CHECK(schedule({"--state", rack, "--days", "3"}).out == said.out);
  // Only what luck is asked about is drawn: the list itself is the same for another seed.
  const auto listed = [&](const char* seed) {
    auto tasks = nlohmann::json::parse(schedule({"--state", rack, "--days", "3", "--json", "--set", std::string("run.random_seed=") + seed}).out)["tasks"];
    for (auto& task : tasks) task.erase("with_luck");
    return tasks;
  };
  CHECK(listed("1").size() > 10);
  CHECK(listed("1") == listed("99"));
}

TEST_CASE("schedule: without a state the rack is empty, and nothing can be cut before its days are over") {
  const Said said = schedule({"--from", "2026-03-02", "--days", "12", "--json"});
  REQUIRE(said.code == 0);
  const auto all = nlohmann::json::parse(said.out);
  std::string first_sow, first_harvest;
  for (const auto& task : all["tasks"]) {
    if (task["task"] == "sow" && first_sow.empty()) first_sow = task["time"];
    if (task["task"] == "harvest" && first_harvest.empty()) first_harvest = task["time"];
  }
  CHECK(first_sow.substr(0, 10) == "2026-03-02");
  CHECK(first_harvest.substr(0, 10) == "2026-03-10");
}

TEST_CASE("schedule: heat and cold are told with what helps, and only then") {
  const Folder folder;
  const std::string rack = folder.write("rack.toml", state);
  const Said hot = schedule({"--state", rack, "--forecast", "40/24 41/25 42/25 41/24 40/24 40/24 40/24 40/24"});
  CHECK(contains(hot.out, "! Warm spell"));
  CHECK(contains(hot.out, "Sow them thinner, down to"));
  CHECK_FALSE(contains(hot.out, "Cold spell"));
  const Said cold = schedule({"--behind", "1", "--from", "2026-04-10", "--forecast", "-5/-12 -5/-12 -5/-12 -5/-12 -5/-12 -5/-12 -5/-12"});
  CHECK(contains(cold.out, "! Cold spell"));
  CHECK(contains(cold.out, "d earlier"));
  CHECK_FALSE(contains(cold.out, "Warm spell"));
  CHECK_FALSE(contains(schedule({"--state", rack}).out, "spell"));
}

TEST_CASE("schedule: mats that a cold spell leaves unripe are marked where they are cut and fed, and counted in the head") {
  const Said said = schedule({"--behind", "1", "--from", "2026-01-14", "--days", "12", "--set", "room.heater=400 W", "--forecast", "-2/-6 -2/-6 -2/-6 -2/-6 -2/-6 -2/-6 -2/-6", "--json"});
  REQUIRE(said.code == 0);
  const auto all = nlohmann::json::parse(said.out);
  int trays = 0, meals = 0;
  for (const auto& task : all["tasks"]) {
    if (!task.contains("unripe_kilograms")) continue;
    CHECK(contains(task["caution"].get<std::string>(), "UNRIPE"));
    if (task["task"] == "harvest") trays += task["trays"].get<int>();
    else ++meals;
  }
  CHECK(trays > 10);
  CHECK(meals > 10);
  const std::string warnings = all["warnings"].dump();
  CHECK(contains(warnings, "Unripe: " + std::to_string(trays) + " trays of those that the list cuts"));
  CHECK(contains(warnings, "are fed unripe, for want of riper mats"));
}

TEST_CASE("schedule: files are written whole, by their ending, and nothing is replaced unasked") {
  const Folder folder;
  const std::string rack = folder.write("rack.toml", state);
  for (const char* name : {"work.txt", "work.csv", "work.ics"}) {
    const std::string out = folder / name;
    CHECK(schedule({"--state", rack, "--out", out, "--quiet"}).code == 0);
    const std::string text = whole_file(out);
    CHECK(text.size() > 1000);
    CHECK(schedule({"--state", rack, "--out", out}).code == 2);
    CHECK(schedule({"--state", rack, "--out", out, "--force"}).code == 0);
    CHECK(whole_file(out) == text);
  }
  const std::string calendar = whole_file(folder / "work.ics");
  CHECK(calendar.starts_with("BEGIN:VCALENDAR\r\n"));
  CHECK(contains(calendar, "DTSTAMP:20260714T000000Z\r\n"));
  CHECK(contains(calendar, "DTSTART:20260714T070000\r\n"));
  CHECK(folder.names().size() == 4);
  CHECK(schedule({"--state", rack, "--out", folder / "work.pdf"}).code == 2);
  CHECK(folder.names().size() == 4);
}

TEST_CASE("schedule: what is wrong is told with its line, and nothing is written") {
  const Folder folder;
  const auto refused = [&](const std::string& text, const std::string& part) {
    const std::string rack = folder.write("rack.toml", text);
    const Said said = schedule({"--state", rack, "--out", folder / "work.txt"});
    INFO(text << "\n" << said.err);
    CHECK(said.code == 2);
    CHECK(said.out.empty());
    CHECK(contains(said.err, part));
    CHECK(folder.names().size() == 1);
  };
  refused("", "at: is missing");
  refused("at = 2026-07-14\n[[batch]]\nsown = 2026-07-10\ntrays = 999\n", "more than the rack has places: 70");
  refused("at = 2026-07-14\n[[batch]]\nsown = 2026-07-10\ntrays = 4\ngrain = \"rye\"\n", "rack.toml:5:");
  refused("at = 2026-07-14\n[[batch]]\nsown = 2026-07-10\ntrays = -3\n", "trays");
  refused("at = 2026-07-14\nbatch = 3\n", "[[batch]]");
  refused("at = 2026-07-14\n\"\\u001b[31mred\" = 1\n", "?[31mred = \"1\"");
  refused(std::string("at = 2026\0-07", 12), "");
  CHECK(schedule({"--state", folder / "none.toml"}).code == 2);
  CHECK(contains(schedule({"--state", folder.write("rack.toml", state), "--from", "2026-07-15"}).err, "--from 2026-07-15: the state file speaks of another day"));
  CHECK(schedule({"--from", "tomorrow"}).code == 2);
  CHECK(schedule({"--days", "0"}).code == 2);
  CHECK(schedule({"--days", "61"}).code == 2);
  CHECK(schedule({"--behind", "2", "--ahead", "2"}).code == 2);
  CHECK(schedule({"--forecast", "22/38"}).code == 2);
}

TEST_CASE("schedule: behind and ahead are told with moves, ranked by what they feed, on schedule nothing is") {
  const Said behind = schedule({"--from", "2026-03-14", "--behind", "2", "--json"});
  REQUIRE(behind.code == 0);
  const auto all = nlohmann::json::parse(behind.out);
  CHECK(all["batches_ahead"].get<double>() < -1.5);
  const auto& moves = all["recovery"]["moves"];
  REQUIRE(moves.size() >= 8);
  const std::vector<std::string> order{"feeds more", "alike", "both ways", "feeds less"};
  const auto place = [&](std::size_t i) { return std::find(order.begin(), order.end(), moves[i]["verdict"].get<std::string>()); };
  for (std::size_t i = 1; i < moves.size(); ++i) CHECK(place(i - 1) <= place(i));
  for (const auto& move : moves) CHECK((move["verdict"] == "feeds less" || move["short_feedings"]["low"].get<double>() <= 0.0 || move["short_feedings"]["mean"].get<double>() < 1.0));
  const Said ahead = schedule({"--from", "2026-03-14", "--ahead", "2", "--set", "rack.tiers=6"});
  CHECK(contains(ahead.out, "2 batches ahead"));
  CHECK(contains(ahead.out, "skip the next 2 sowings"));
  CHECK(contains(schedule({"--ahead", "9"}).err, "has places for 1 batch more"));
  CHECK(schedule({"--from", "2026-03-14", "--behind", "2"}).out == schedule({"--from", "2026-03-14", "--behind", "2"}).out);
  CHECK_FALSE(contains(schedule({"--from", "2026-03-14"}).out, "against going on as usual"));
}

TEST_CASE("schedule: heat that its list does not show is told with what luck makes of it") {
  const Folder folder;
  const std::string rack = folder.write("rack.toml", state);
  const Said hot = schedule({"--state", rack, "--days", "12", "--forecast", "36/24 36/24 36/24 36/24 36/24 36/24 36/24 36/24 36/24 36/24 36/24 36/24"});
  REQUIRE(hot.code == 0);
  CHECK(contains(hot.out, "  with luck, on the mean: "));
  CHECK(contains(hot.out, " mats spoil, "));
}

TEST_CASE("schedule: grain past its use-by is said to be, in the list and below it") {
  const Folder folder;
  const std::string rack = folder.write("rack.toml", std::string(state) + "[[store]]\ngrain = \"wheat\"\namount = \"300 kg\"\ncame = 2026-03-01\n");
  const Said said = schedule({"--state", rack, "--days", "6", "--set", "grain.wheat.use_by=90 d"});
  REQUIRE(said.code == 0);
  CHECK(contains(said.out, "the wheat in store is too old (past its use-by of 90 d): soak no wheat for 4 trays"));
  CHECK(contains(said.out, "wheat: 300 kg there, too old to sow (use-by 90 d)"));
}

TEST_CASE("schedule: animals that leave are fed until then by the calendar of farm.toml, whatever day the list begins") {
  const Said said = schedule({"--from", "2026-07-14", "--behind", "1", "--days", "6", "--json", "--set", "group.milkers.leaves=2026-07-17"});
  REQUIRE(said.code == 0);
  const auto all = nlohmann::json::parse(said.out);
  std::string last;
  for (const auto& task : all["tasks"])
    if (task["task"] == "feed" && task["of"] == "milkers") last = task["time"];
  CHECK(last.substr(0, 10) == "2026-07-16");
}

TEST_CASE("schedule: minutes that are too few are kept, and all that they leave undone is told") {
  const Folder folder;
  const std::string rack = folder.write("rack.toml", state);
  const auto of = [&](const char* minutes) { return schedule({"--state", rack, "--days", "4", "--json", "--set", std::string("keeper.minutes_per_day=") + minutes}); };
  const auto all = nlohmann::json::parse(of("55").out);
  std::map<std::string, bool> undone;
  for (const auto& task : all["tasks"])
    if (task.contains("no_time")) undone[task["task"]] = true;
  INFO(all["work"].dump() << nlohmann::json(undone).dump());
  CHECK(undone["move"]);
  for (const auto& day : all["work"]) CHECK(day["minutes"].get<double>() < 55.5);
}
