// What is told of targets whose limits have shares of their own, of runs that are no years, of one replication, and of names like units.

#include <fmt/format.h>
#include <string>

#include "sim/report/words.hpp"
#include "tests/catch.hpp"
#include "tests/program.hpp"

using namespace rackwright;
using namespace rackwright::test;

namespace {

constexpr const char* small_farm = R"([rack]
tiers = 4
trays_per_tier = 10
[line]
days_on_rack = 8
trays_per_batch = 4
soak = "10 h"
[[grain]]
name = "barley"
species = "barley"
price = "9 / 25 kg"
[[group]]
name = "ram2 milkers"
class = "goat-milking"
count = 8
ration = "1.5 kg"
[room]
heater = "800 W"
[target]
fill_rate = "96 %"
fill_rate_years = "80 %"
unripe_fed = "100 %"
[choose]
"rack.tiers" = [4, 6]
"line.trays_per_batch" = [4, 5]
most_replications = 40
)";

/// One line, whatever the width of the terminal page.
std::string joined(std::string text) {
  std::string out;
  for (const char c : text)
    if (c != '\n' && c != ' ') out += c;
    else if (!out.empty() && out.back() != ' ') out += ' ';
  return out;
}

std::string page_of(const Folder& folder, const std::string& file) {
  const std::string page = folder / "page.html";
  REQUIRE(run({"report", folder / file, "--out", page, "--force"}).code == 0);
  return whole_file(page);
}

}  // namespace

TEST_CASE("told apart: a limit with its own share of years is told by that share, never by the years that keep no other limit") {
  const Folder folder;
  const std::string farm = folder.write("farm.toml", small_farm);
  const Said said = run({"size", farm, "--out", folder / "size.h5", "--set", "run.length=60 d", "--quiet"});
  REQUIRE((said.code == 0 || said.code == 3));
  CHECK(contains(said.out, "kept: fill rate"));
  CHECK_FALSE(contains(said.out, "that meet the target"));
  CHECK_FALSE(contains(said.out, "meets the target in 100"));
  CHECK_FALSE(contains(said.out, "the target is met in 100"));
  CHECK_FALSE(contains(joined(said.out), ") of years"));  // a run of 60 days is none
  const std::string page = page_of(folder, "size.h5");
  CHECK(contains(page, "the limit on fill rate is kept in"));
  CHECK_FALSE(contains(page, "the limits taken together are kept in 100"));
  CHECK_FALSE(contains(page, "target met in 100"));
  CHECK(contains(page, "fodder served upwards"));
  // Names are the keeper's, whatever they look like; units are not.
  CHECK(contains(page, "ram2 milkers"));
  CHECK_FALSE(contains(page, "ram² milkers"));
  CHECK(contains(page, "m²"));
}

TEST_CASE("told apart: points of a sweep of short runs say what a year of them is, and count runs") {
  const Folder folder;
  const std::string farm = folder.write("farm.toml", small_farm);
  const Said said = run({"sweep", farm, "--out", folder / "sweep.h5", "--vary", "rack.tiers=4,6", "--replications", "4", "--set", "run.length=60 d", "--quiet"});
  REQUIRE(said.code == 0);
  CHECK(contains(joined(said.out), "is for 365 such days"));
  CHECK_FALSE(contains(said.out, "limits kept"));
  CHECK(contains(page_of(folder, "sweep.h5"), "is for 365 such days"));
  const Said together = run({"sweep", farm, "--out", folder / "two.h5", "--vary", "rack.tiers=4,6", "--replications", "4", "--set", "run.length=60 d", "--set",
                             "target.unripe_fed=50 %", "--quiet"});
  REQUIRE(together.code == 0);
  CHECK(contains(joined(together.out), "the limits taken together are kept in 100.0 % of runs"));
}

TEST_CASE("told apart: a month of a run of a year and a half is told by the day, whether it came once or twice") {
  const Folder folder;
  const std::string farm = folder.write("farm.toml", small_farm);
  REQUIRE(run({"simulate", farm, "--out", folder / "runs.h5", "--set", "run.length=548 d", "--replications", "2", "--quiet"}).code == 0);
  const std::string page = page_of(folder, "runs.h5");
  // Eight goats want 12 kg a day, every month.
  for (const char* month : {"January", "March", "July"}) {
    const auto at = page.find(fmt::format("<th scope=\"row\">{}</th>", month));
    INFO(month);
    REQUIRE(at != std::string::npos);
    const std::string row = page.substr(at, 90);
    INFO(row);
    const auto kilograms = row.find("</th><td>");
    REQUIRE(kilograms != std::string::npos);
    CHECK(std::stod(row.substr(kilograms + 9)) == Approx(12.0).epsilon(0.1));
  }
}

TEST_CASE("told apart: one replication has no interval, and its comparison shows nothing") {
  const Folder folder;
  const std::string farm = folder.write("farm.toml", small_farm);
  const Said said = run({"simulate", farm, "--out", folder / "one.h5", "--replications", "1", "--against", "grain.barley.price=12 / 25 kg", "--quiet"});
  REQUIRE(said.code == 0);
  CHECK_FALSE(contains(said.out, "(0.0 to 100.0)"));
  CHECK_FALSE(contains(said.out, "(0 to 365)"));
  CHECK(contains(joined(said.out), "One pair of runs: no difference can be shown by it."));
  CHECK(contains(joined(said.out), "Means over 1 run,"));
  const auto at = said.out.find("price of the fresh fodder served");
  REQUIRE(at != std::string::npos);
  CHECK(contains(said.out.substr(at, 160), "+0.0"));
  CHECK_FALSE(contains(said.out.substr(at, 160), " 0.0 EUR/kg,"));
  const std::string page = page_of(folder, "one.h5");
  CHECK(contains(page, "Of one replication"));
  CHECK(contains(page, "One pair of runs"));
}

TEST_CASE("told apart: all and none are told only where it is all or none") {
  CHECK(report::whole_percent(1.0) == "100 %");
  CHECK(report::whole_percent(0.9967) == "more than 99 %");
  CHECK(report::whole_percent(0.99) == "99 %");
  CHECK(report::whole_percent(0.0033) == "less than 1 %");
  CHECK(report::whole_percent(0.0) == "0 %");
}
