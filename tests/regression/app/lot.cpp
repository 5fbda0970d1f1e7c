// `rackwright lot` on cases whose best answer is known.

#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "models/germination/germination.hpp"
#include "tests/catch.hpp"
#include "tests/program.hpp"

using namespace rackwright;
using namespace rackwright::test;
using Json = nlohmann::json;

namespace {

Json asked(std::vector<std::string> words) {
  words.insert(words.begin(), {"lot", shipped("minimal.toml")});
  words.emplace_back("--json");
  const Said said = run(words);
  INFO(said.err);
  REQUIRE(said.code == 0);
  return Json::parse(said.out);
}

const std::vector<std::string> good_now{"--current", "372/400"};

std::string advice(std::vector<std::string> words) {
  words.insert(words.end(), good_now.begin(), good_now.end());
  return asked(words).at("advice");
}

}  // namespace

TEST_CASE("lot: switch to a better one at the same price, stay with the better one") {
  CHECK(advice({"--trial", "392/400"}) == "switch");
  CHECK(advice({"--trial", "280/400"}) == "stay");
  CHECK(advice({"--trial", "370/400", "--price", "5 / 25 kg"}) == "switch");
  CHECK(advice({"--trial", "370/400", "--price", "14 / 25 kg"}) == "stay");
}

TEST_CASE("lot: whatever a lot costs, dressed, musty or ergoty seed is refused first") {
  CHECK(asked({"--trial", "392/400"}).at("caution").get<std::string>().find("only untreated grain") != std::string::npos);
  CHECK(run({"lot", shipped("minimal.toml"), "--trial", "392/400"}).out.find("Before any trial: only untreated grain") != std::string::npos);
}

TEST_CASE("lot: under half germinating does not pay at half the price (common practice, no source)") {
  // Official tests: four replicates of 100.
  for (const char* counts : {"45/100 44/100 47/100 46/100", "40/100 43/100 41/100 38/100", "25/100 24/100 28/100 22/100"}) {
    INFO(counts);
    const Json said = asked({"--trial", counts, "--price", "4.5 / 25 kg", "--current", "93/100 94/100 92/100 93/100"});
    CHECK(said.at("advice") == "stay");
    CHECK(said.at("switch_pays").at("value") < 0.1);
    CHECK(said.at("break_even_price").at("value") < 4.5 / 25.0);
  }
}

TEST_CASE("lot: a few kernels ask for more, and trays that disagree for another trial") {
  CHECK(advice({"--trial", "19/20"}) == "try again larger");
  CHECK(asked({"--trial", "95/100", "90/100", "88/100", "70/100"}).at("advice") == "repeat the trial");
  const Json four = asked({"--trial", "95/100", "90/100", "93/100", "91/100"});
  CHECK(four.at("replicates").at("judged_by") == "table");
  CHECK(four.at("replicates").at("found") == 5.0);
  // The same four in one word with commas.
  CHECK(asked({"--trial", "95/100,90/100,93/100,91/100"}) == four);
}

TEST_CASE("lot: every tray of either lot counts, as one word or as several") {
  const Json one = asked({"--trial", "80/100 76/100", "--current", "94/100 93/100 95/100"});
  CHECK(asked({"--trial", "80/100", "76/100", "--current", "94/100", "93/100", "95/100"}) == one);
  CHECK(asked({"--current", "94/100", "93/100,95/100", "--trial=80/100", "76/100"}) == one);
  CHECK(asked({"--trial", "80/100 76/100 94/100", "--current", "93/100 95/100"}) != one);
  const Said loose = run({"lot", shipped("minimal.toml"), "46/50"});
  CHECK(loose.code == 2);
  CHECK(contains(loose.err, "46/50: counts of which lot?"));
}

TEST_CASE("lot: buying grain that is never sown is no question, and its page counts no orders of it") {
  const Folder folder;
  const std::string farm = folder.write("farm.toml", whole_file(shipped("minimal.toml")) + "\n[[grain]]\nname = \"spare\"\nspecies = \"wheat\"\n");
  const Said policies = run({"lot", farm, "--policies", "--of", "spare", "--replications", "2"});
  CHECK(policies.code == 2);
  CHECK(contains(policies.err, "no batch is sown of spare"));
  CHECK(run({"lot", farm, "--of", "spare", "--trial", "372/400"}).code == 0);
  REQUIRE(run({"simulate", farm, "--replications", "2", "--out", folder / "runs.h5", "--quiet"}).code == 0);
  REQUIRE(run({"report", folder / "runs.h5", "--out", folder / "runs.html"}).code == 0);
  const std::string page = whole_file(folder / "runs.html");
  CHECK(contains(page, "barley: orders a year"));
  CHECK_FALSE(contains(page, "spare: orders a year"));
  CHECK_FALSE(contains(page, "every inf days"));
}

TEST_CASE("lot: the same lot at the same price is alike, and the density for as many sprouts follows the fractions") {
  const char* both = "93/100 94/100 92/100 93/100";
  const Json same = asked({"--trial", both, "--current", both});
  CHECK(same.at("advice") == "alike");
  CHECK(same.at("switch_pays").at("value").get<double>() == near(0.5, 1e-6));
  CHECK(same.at("same_sprouts_density").at("value").get<double>() == near(5.0, 1e-6));
  CHECK(same.at("break_even_price").at("value").get<double>() == near(9.0 / 25.0, 1e-6));
  const Json poor = asked({"--trial", "320/400", "--current", "384/400"});
  const double ratio = poor.at("current").at("mean").get<double>() / poor.at("candidate").at("mean").get<double>();
  CHECK(poor.at("same_sprouts_density").at("value").get<double>() == Approx(5.0 * ratio));
  CHECK(poor.at("keep_back").at("value") > 0.0);
  const Json quick = asked({"--trial", "372/400", "--height", "10 cm", "--after", "4 d"});
  CHECK(quick.at("vigour").at("mean") > 1.0);
}

TEST_CASE("lot: what its height after some days tells of its speed is said in words, and nothing where usual mats never grow so tall") {
  const Said quick = run({"lot", shipped("minimal.toml"), "--trial", "372/400", "--height", "10 cm", "--after", "4 d"});
  REQUIRE(quick.code == 0);
  CHECK(contains(quick.out, "speed of sprouting, usual is 1"));
  // Late or early by what it takes to germinate, as in a run; its own warmth makes that a little less than in days at 20 degC.
  const Json told = asked({"--trial", "372/400", "--height", "10 cm", "--after", "4 d"});
  const double vigour = told.at("vigour").at("mean"), days = told.at("days_as_ripe").at("value");
  const double sooner = (1.0 - 1.0 / vigour) / germination::rate(*germination::preset("barley"), Celsius(20.0));
  CHECK(vigour > 1.05);
  CHECK(days < 8.0 - 0.7 * sooner);
  CHECK(days > 8.0 - sooner);
  CHECK(contains(quick.out, fmt::format("8 d on the rack become about {:.1f}", days)));
  const Json never = asked({"--trial", "372/400", "--height", "40 cm", "--after", "4 d", "--at", "4 degC"});
  CHECK(never.at("vigour").is_null());
  CHECK(never.at("advice") == asked({"--trial", "372/400"}).at("advice"));
}

TEST_CASE("lot: a line whose grain is slow to germinate makes no lot slow, and its warm mats make more of their heat") {
  const Json usual = asked({"--trial", "372/400", "--height", "12 cm", "--after", "6 d"});
  const Json slow_line = asked({"--trial", "372/400", "--height", "12 cm", "--after", "6 d", "--set", "own_line.measured_time=1.5"});
  CHECK(slow_line.at("vigour").at("mean").get<double>() > usual.at("vigour").at("mean").get<double>() + 0.05);
  const Json warm_line = asked({"--trial", "372/400", "--set", "own_line.warmth=2"}), cool_line = asked({"--trial", "372/400", "--set", "own_line.warmth=0.5"});
  CHECK(warm_line.at("green_fodder_candidate").at("value") != cool_line.at("green_fodder_candidate").at("value"));
}

TEST_CASE("lot: a lot that is as good as the other but for a little is stayed with on the balance") {
  const Said said = run({"lot", shipped("minimal.toml"), "--trial", "360/400", "--current", "372/400"});
  REQUIRE(said.code == 0);
  CHECK(contains(said.out, "Stay, on the balance: the new lot is expected to give 4 % less for the money"));
}

TEST_CASE("lot: one that germinates notably worse is to be played first, however cheap, and nothing says switch without saying what was weighed") {
  const Said poor = run({"lot", shipped("minimal.toml"), "--trial", "84/100 88/100 79/100 90/100", "--price", "6 / 25 kg"});
  REQUIRE(poor.code == 0);
  CHECK(poor.out.starts_with("Play it first: for the money the new lot is expected to give "));
  CHECK(contains(poor.out, "germinates notably"));
  CHECK_FALSE(contains(poor.out.substr(0, poor.out.find("This weighs")), "witch"));
  const Said good = run({"lot", shipped("minimal.toml"), "--trial", "95/100 93/100 96/100 94/100", "--price", "6 / 25 kg"});
  CHECK(good.out.starts_with("For the money, switch: "));
  CHECK(asked({"--trial", "84/100 88/100 79/100 90/100"}).at("germinates_notably_worse") == true);
  CHECK(asked({"--trial", "95/100 93/100"}).at("germinates_notably_worse") == false);
}

TEST_CASE("lot: a species of the keeper's own is judged as the one it was copied from") {
  const Json usual = asked({"--trial", "372/400"});
  const Folder folder;
  std::string text = whole_file(shipped("minimal.toml"));
  const std::string species = "species = \"barley\"";
  REQUIRE(contains(text, species));
  text.replace(text.find(species), species.size(), "species = \"hill barley\"");
  const std::string farm = folder.write("farm.toml", text + "\n[[species]]\nname = \"hill barley\"\nlike = \"barley\"\n");
  const Said said = run({"lot", farm, "--trial", "372/400", "--json"});
  INFO(said.err);
  REQUIRE(said.code == 0);
  CHECK(Json::parse(said.out).at("switch_pays") == usual.at("switch_pays"));
}

TEST_CASE("lot: what cannot be read is refused") {
  for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
           {}, {"--trial", "51/50"}, {"--trial", "50"}, {"--trial", "0/0"}, {"--trial", "-1/50"}, {"--trial", "1e3/50"},
           {"--trial", ""}, {"--trial", "46/50", "--price", "3 kg"}, {"--trial", "46/50", "--price", "0 /kg"},
           {"--trial", "46/50", "--of", "rye"}, {"--trial", "46/50", "--sure", "2"}, {"--trial", "46/50", "--height", "10 cm"},
           {"--trial", "999999999999/999999999999"}}) {
    std::vector<std::string> all{"lot", shipped("minimal.toml")};
    all.insert(all.end(), words.begin(), words.end());
    const Said said = run(all);
    INFO(said.out << said.err);
    CHECK(said.code == 2);
    CHECK_FALSE(said.err.empty());
  }
  CHECK(contains(run({"lot", shipped("minimal.toml"), "--trial", "46/50", "--sure", "100%"}).err, "must be between 50 % and 99.9 %\n"));
  CHECK(contains(run({"lot", shipped("minimal.toml"), "--trial", "46/50", "--price", "0"}).err, "must be between 0.000001 and 10000 a kg\n"));
  CHECK(run({"lot", "--trial", "46/50"}).code == 2);
  CHECK(contains(run({"lot", shipped("minimal.toml"), "--trial", "46/50", "--set", "grain.barley.price=0"}).err,
                 "grain.barley.price is 0: without a price nothing can be said of money"));
  const Said text = run({"lot", shipped("minimal.toml"), "--trial", "0/100", "100/100"});
  CHECK(text.code == 0);
  CHECK(contains(text.out, "Repeat the trial"));
}

TEST_CASE("lot: how far trays differ is told in words, with what chance makes of them") {
  const Said few = run({"lot", shipped("minimal.toml"), "--trial", "45/50", "30/50", "48/50"});
  CHECK(few.code == 0);
  CHECK(contains(few.out, "Repeat the trial: its trays differ more than chance explains"));
  CHECK(contains(few.out, "in one trial of 40 only"));
  CHECK(contains(few.out, "(*) Each tray's distance"));
  CHECK(contains(few.out, "statisticians say chi-square"));
  CHECK_FALSE(contains(few.out, "(chi-square)"));
  const Said hundreds = run({"lot", shipped("minimal.toml"), "--trial", "95/100", "90/100", "88/100", "70/100"});
  CHECK(contains(hundreds.out, "by 25 %, and chance explains up to"));
  CHECK_FALSE(contains(hundreds.out, "chi-square"));
}

namespace {

/// What trying new lots of the first grain is worth, over few runs.
Json policies(std::vector<std::string> words) {
  words.insert(words.begin(), {"--policies", "--replications", "60"});
  return asked(words);
}

const std::vector<std::string> mixed{"--set", "grain.barley.germination=75 %", "--set", "grain.barley.germination_spread=0.15",
                                     "--set", "grain.barley.refused_worth=90 %", "--set", "prices.reserve=0.6"};

}  // namespace

TEST_CASE("lot: trying every lot pays where lots are poor and mixed, and costs its own where they are good and alike") {
  const Json poor = policies(mixed);
  const Json& gain = poor.at("differences").at("trial_less_no_trial");
  CHECK(gain.at("money").at("high") < 0.0);
  CHECK(gain.at("short_days").at("high") < 0.0);
  CHECK(poor.at("sentence").get<std::string>().starts_with("Try new lots before you sow them"));
  CHECK(poor.at("replications") == 60);
  CHECK(poor.at("rule").at("trial") == 100);
  CHECK(poor.at("ways").at("no_trial").at("lots_refused").at("mean") == 0.0);
  const Json good = policies({"--set", "grain.barley.germination=95 %", "--set", "grain.barley.germination_spread=0.0001",
                              "--set", "prices.labour=15", "--set", "grain.barley.trial_minutes=60"});
  CHECK(good.at("differences").at("trial_less_no_trial").at("money").at("low") > 0.0);
  CHECK(good.at("lots").at("pass") > 0.999);
  CHECK(good.at("sentence").get<std::string>().starts_with("Do not try new lots"));
  // Six years of luck show nothing of a trial that takes no time.
  CHECK(asked({"--policies", "--replications", "6", "--set", "grain.barley.trial_minutes=0"}).at("sentence").get<std::string>().starts_with(
      "It makes no difference that so many years of luck show."));
}

TEST_CASE("lot: the policies' page tells the rule, the lots it keeps, and the three ways") {
  std::vector<std::string> words{"lot", shipped("minimal.toml"), "--policies", "--replications", "20"};
  words.insert(words.end(), mixed.begin(), mixed.end());
  const Said said = run(words);
  REQUIRE(said.code == 0);
  for (const char* part : {"100 kernels of each new lot", "of 100 lots pass", "no trial", "kept back", "lots refused", "On the same luck, with 95 % ranges", "a year ("}) {
    INFO(part);
    CHECK(contains(said.out, part));
  }
  CHECK(run({"lot", shipped("minimal.toml"), "--policies", "--trial", "46/50"}).code == 2);
  CHECK(run({"lot", shipped("minimal.toml"), "--policies", "--replications", "1"}).code == 2);
  CHECK(run({"lot", shipped("minimal.toml"), "--policies", "--of", "spelt"}).code == 2);
}

TEST_CASE("lot: answers for mats that stand longer than any trial of them, and of a height that only such reach") {
  for (const std::vector<std::string>& more : {std::vector<std::string>{"--set", "line.days_on_rack=20"}, {"--height", "25 cm", "--after", "16 d"}}) {
    std::vector<std::string> all{"lot", shipped("minimal.toml"), "--trial", "84/100"};
    all.insert(all.end(), more.begin(), more.end());
    const Said said = run(all);
    CHECK(said.code == 0);
    CHECK(contains(said.out, "Germination, with a 95 % range"));
  }
}

TEST_CASE("lot: what it does not weigh is said, and the command that shows it runs") {
  const Folder folder;
  const std::string farm = shipped("minimal.toml");
  const Said said = run({"lot", farm, "--trial", "328/400", "--price", "5 / 25 kg"});
  REQUIRE(said.code == 0);
  CHECK(contains(said.out, "Not weighed: the warmth of your room"));
  CHECK(contains(said.out, "in a room of 20 degC"));
  CHECK(contains(run({"lot", farm, "--trial", "328/400", "--set", "units=us"}).out, "in a room of 68 degF"));
  CHECK(contains(said.out, "    rackwright simulate " + farm + " --against \"grain.barley.germination="));
  CHECK(contains(said.out, "grain.barley.price=5 / 25 kg\" --out lots.h5"));
  const Json json = asked({"--trial", "328/400", "--price", "5 / 25 kg"});
  const std::string command = json.at("command");
  CHECK(contains(said.out, command));
  const auto open = command.find('"') + 1;
  const Said shown = run({"simulate", farm, "--replications", "4", "--against", command.substr(open, command.rfind('"') - open), "--out", folder / "lots.h5"});
  INFO(shown.err);
  CHECK(shown.code == 0);
  CHECK(contains(shown.out, "spoiled mats fed unnoticed"));
  // A second lot's command does not write onto the file of the first.
  folder.write("lots.h5", "of the first lot");
  const Said second = Running({"sh", "-c", "cd '" + folder.path().string() + "' && '" + program() + "' lot '" + farm + "' --trial 300/400"}).wait();
  CHECK(contains(second.out, "\" --out lots2.h5\n"));
  // The comparison asked for: the lot in use as tested, the price as asked, the settings of the question.
  const std::string whole = asked({"--trial", "40/50", "41/50", "--current", "25/50", "26/50", "--price", "0.5 /kg", "--set", "grain.barley.grade=seed", "--set", "grain.barley.vigour_spread=0.2"}).at("command");
  for (const char* part : {"--set \"grain.barley.vigour_spread=0.2\"", "--set \"grain.barley.germination=51", "grain.barley.price=0.5 /kg, grain.barley.price_multiple=1\""}) {
    INFO(part << " in " << whole);
    CHECK(contains(whole, part));
  }
  const Said played = Running({"sh", "-c", "PATH='" RACKWRIGHT_BINARY_DIR "':$PATH; cd '" + folder.path().string() + "' && " + whole + " --replications 4 --force"}).wait();
  INFO(played.err);
  CHECK(played.code == 0);
}
