// rackwright fit trays as a stranger would use it: the answer, the block and its use, the forecast, and what is refused.
#include <filesystem>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "tests/catch.hpp"
#include "tests/program.hpp"

using namespace rackwright::test;

namespace {

const std::string log_path = RACKWRIGHT_SOURCE_DIR "/scenarios/tray-log.csv";

std::string farm(const Folder& folder) {
  const std::string path = folder / "farm.toml";
  REQUIRE(run({"new", path, "--from", "goats", "--quiet"}).code == 0);
  return path;
}

double number_after(const std::string& text, const std::string& words) {
  const auto at = text.find(words);
  REQUIRE(at != std::string::npos);
  return std::stod(text.substr(at + words.size()));
}

}  // namespace

TEST_CASE("program: fit trays finds what the invented log was made with") {
  const Folder folder;
  const Said said = run({"fit", "trays", log_path, "--scenario", farm(folder), "--json", "--quiet"});
  REQUIRE(said.code == 0);
  const auto all = nlohmann::json::parse(said.out);
  CHECK(all["used"] == 112);
  CHECK(all["settled"] == true);
  const auto holds = [&](const char* law, double truth) {
    const auto& after = all["laws"][law]["after"];
    INFO(law << ": " << after.dump());
    CHECK(after["low"].get<double>() < truth);
    CHECK(after["high"].get<double>() > truth);
  };
  holds("pace", 1.08);
  holds("loss", 0.9);
  holds("swelling", 1.1);
  holds("height", 0.85);
  holds("mould", 2.0);
  CHECK(all["laws"]["height"]["told"].get<double>() > 0.9);
  CHECK(all["laws"]["ageing"]["told"].get<double>() == 0.0);
  CHECK(all["usual_tray"]["after"]["fresh_ratio"]["high"].get<double>() - all["usual_tray"]["after"]["fresh_ratio"]["low"].get<double>() <
        0.5 * (all["usual_tray"]["before"]["fresh_ratio"]["high"].get<double>() - all["usual_tray"]["before"]["fresh_ratio"]["low"].get<double>()));
}

TEST_CASE("program: fit trays says in words what changed, and its block moves check and simulate") {
  const Folder folder;
  const std::string scenario = farm(folder), block = folder / "mine.toml";
  const Said said = run({"fit", "trays", log_path, "--scenario", scenario, "--out", block});
  REQUIRE(said.code == 0);
  for (const char* words : {"112 of 112 trays are used, 3 lots", "A usual tray: barley, 7 days", "fresh weight, times the grain", "The log cannot tell:", "ageing of grain in store",
                            "lot 2", "Like trays differ in weight", "--set @"})
    CHECK(contains(said.out, words));
  const std::string text = whole_file(block);
  CHECK(contains(text, "[own_line]\npace = "));
  CHECK(contains(text, "# was 1"));
  CHECK(contains(text, "ties = [\""));
  CHECK(run({"fit", "trays", log_path, "--out", block}).code == 2);  // it is there
  CHECK(run({"fit", "trays", log_path, "--out", block, "--force"}).code == 0);
  // Without a scenario: the laws as they are, for a usual line.
  CHECK(run({"check", scenario, "--set", "@" + block}).code == 0);
  CHECK(run({"check", scenario, "--set", "@" + (folder / "none.toml")}).code == 2);
  const auto height = [&](std::vector<std::string> more) {
    std::vector<std::string> all{"simulate", scenario, "--out", folder / "runs.h5", "--force", "--replications", "10", "--years", "0.3", "--json", "--quiet"};
    all.insert(all.end(), more.begin(), more.end());
    const Said runs = run(all);
    REQUIRE(runs.code == 0);
    return nlohmann::json::parse(runs.out);
  };
  const auto usual = height({}), own = height({"--set", "@" + block});
  INFO(usual.dump().substr(0, 2000));
  CHECK(own != usual);
  // The fitted centre stands in the resolved scenario.
  const double pace = number_after(text, "pace = ");
  CHECK(pace > 1.0);
}

TEST_CASE("program: fit trays foretells each week and says whether to trust it") {
  const Folder folder;
  const std::string scenario = farm(folder);
  const Said said = run({"fit", "trays", log_path, "--scenario", scenario, "--predict", "--quiet"});
  REQUIRE(said.code == 0);
  CHECK(said.err.empty());
  CHECK(contains(said.out, "One week ahead: "));
  CHECK(contains(said.out, "CRPS"));
  CHECK(contains(said.out, "90 % interval"));
  CHECK(contains(said.out, "Brier score"));
  CHECK(contains(said.out, "rust its weights"));
  const Said numbers = run({"fit", "trays", log_path, "--scenario", scenario, "--predict", "--json", "--quiet"});
  REQUIRE(numbers.code == 0);
  const auto forecast = nlohmann::json::parse(numbers.out)["forecast"];
  CHECK(forecast["weeks"].get<int>() > 1);
  CHECK(forecast["weights"].get<int>() > 10);
  CHECK(forecast["crps_kg"].get<double>() > 0.0);
  CHECK(forecast["within_90"].get<double>() >= forecast["within_50"].get<double>());
  CHECK(forecast["fifths"].size() == 5);
}

TEST_CASE("program: fit trays refuses what it cannot use, all at once") {
  const Folder folder;
  const auto fit = [&](const std::string& text, std::vector<std::string> more = {}) {
    std::vector<std::string> all{"fit", "trays", folder.write("log.csv", text)};
    all.insert(all.end(), more.begin(), more.end());
    return run(all);
  };
  const std::string head = "sown,grain [kg],room max [degC],room min [degC],days,fresh [kg],species\n";
  const Said bad = fit(head + "2026-03-01,x,20,15,7,4,barley\n2026-13-01,1,10,15,7,4,barley\n");
  CHECK(bad.code == 2);
  for (const char* words : {"log.csv:2: dry grain = \"x\"", "log.csv:3: date sown", "log.csv:3: room min", "above the maximum"}) CHECK(contains(bad.err, words));
  CHECK(bad.out.empty());
  const Said unknown = fit(head + "2026-03-01,1,20,15,7,4,barly\n");
  CHECK(unknown.code == 2);
  CHECK(contains(unknown.err, "did you mean barley"));
  CHECK(contains(fit(head + "2026-03-01,1,20,15,7,4,barley\n").err, "0 trays can be used, and 5 or more are wanted (1 of them: no row within four days of some of their days on the rack states the room's temperature"));
  CHECK(contains(fit("sown,grain [kg],days,fresh [kg]\n2026-03-01,1,7,4\n").err, "no row states the room's maximum and minimum"));
  CHECK(contains(fit("sown,grain,days,fresh\n2026-03-01,1,7,4\n").err, "has no unit"));
  CHECK(contains(fit(head, {"--units", "furlongs"}).err, "write metric or us"));
  std::string many = "sown,lot,room max [degC],room min [degC],days,spoiled\n";
  for (int i = 0; i < 301; ++i) many += fmt::format("2026-03-{:02},purchase {},20,15,5,no\n", 1 + i % 28, i);
  CHECK(contains(fit(many).err, "holds 301 lots"));
  CHECK(run({"fit", "trays"}).code == 2);
  CHECK(run({"fit", "trays", folder / "none.csv"}).code == 2);
  CHECK(run({"fit", "trays", log_path, "--set", "line.soak=8 h"}).code == 2);
  CHECK(run({"fit", "weather", log_path, "--predict"}).code == 2);
}

TEST_CASE("program: a log in pounds and Fahrenheit says the same") {
  const Folder folder;
  std::string us = "sown,grain,room max,room min,days,fresh,height,spoiled\n", metric = us;
  for (int i = 0; i < 12; ++i) {
    const int days = 6 + i % 3;
    const double fresh = 4.4 + 0.4 * (i % 3), high = 22.0 + i % 4, low = 16.0 + i % 2;
    const auto row = [&](double kg, double celsius_factor, double celsius_zero, double cm) {
      return fmt::format("2026-03-{:02},{:.6f},{:.4f},{:.4f},{},{:.6f},{:.5f},no\n", 1 + i, kg, celsius_zero + celsius_factor * high,
                         celsius_zero + celsius_factor * low, days, kg * fresh, 14.0 * cm);
    };
    us += row(1.0 / 0.45359237, 1.8, 32.0, 1.0 / 2.54);
    metric += row(1.0, 1.0, 0.0, 1.0);
  }
  const auto centre = [&](const std::string& text, const char* units) {
    const Said said = run({"fit", "trays", folder.write("log.csv", text), "--units", units, "--json", "--quiet"});
    REQUIRE(said.code == 0);
    return nlohmann::json::parse(said.out)["laws"]["swelling"]["after"]["centre"].get<double>();
  };
  CHECK(centre(us, "us") == Approx(centre(metric, "metric")).epsilon(1e-3));
}

TEST_CASE("program: fit trays tells a species it does not know beside what else is wrong") {
  const Folder folder;
  const std::string log = folder.write("log.csv", "date sown,species,dry grain [kg],room max [degC],room min [degC],days,fresh weight [kg],spoiled\n"
                                                  "2026-03-01,barley,0.9,20,17,8,41,no\n2026-03-06,quinoa,0.9,20,17,8,4.2,no\n2026-03-07,barley,-1,20,17,8,4.2,no\n");
  const Said said = run({"fit", "trays", log});
  CHECK(said.code == 2);
  CHECK(contains(said.err, "log.csv:2: fresh weight"));
  CHECK(contains(said.err, "log.csv:3: species = \"quinoa\": is not a species the program knows"));
  CHECK(contains(said.err, "log.csv:4: dry grain"));
}
