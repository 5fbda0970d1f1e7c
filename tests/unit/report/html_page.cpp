// The page: what it says is what the file says, it is sound markup, and nothing in it reaches out.

#include "sim/report/html_page.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sim/report/html_text.hpp"
#include "sim/report/words.hpp"
#include "sim/scenario/read.hpp"
#include "tests/catch.hpp"
#include "tests/paths.hpp"
#include "tests/unit/report/html_sample.hpp"

using namespace rackwright;
using namespace rackwright::report;

namespace {

bool has(const std::string& page, const std::string& part) { return page.find(part) != std::string::npos; }

std::size_t count(const std::string& page, const std::string& part) {
  std::size_t n = 0;
  for (auto at = page.find(part); at != std::string::npos; at = page.find(part, at + 1)) ++n;
  return n;
}

DesignFacts facts() {
  return {{{"rack", "The rack", {{"a full tier weighs", "85.6 kg", "ripe <mats>"}}}},
          {"Careful & calm."},
          {"tier 1 gets 300 L/h"}};
}

std::vector<std::string> pictures(const std::string& page) {
  std::vector<std::string> all;
  for (auto at = page.find("<svg"); at != std::string::npos; at = page.find("<svg", at + 1))
    all.push_back(page.substr(at, page.find("</svg>", at) - at));
  return all;
}

}  // namespace

TEST_CASE("markup in a text of the file shows as text") {
  CHECK(html::escaped("<b a='1' c=\"2\">&</b>\x01\n") == "&lt;b a=&#39;1&#39; c=&quot;2&quot;&gt;&amp;&lt;/b&gt; \n");
  const std::string evil = "<script>alert(1)</script>\"'><img src=x onerror=y>&";
  for (const bool sized : {false, true}) {
    results::ResultFile file = sized ? sample::size_file(1, -1) : sample::simulate_file();
    auto& h = file.header;
    for (std::string* text : {&h.title, &h.currency, &h.start_date, &h.command_line, &h.created_utc, &h.program_version,
                              &h.commit, &h.compiler, &h.flags, &h.dependencies})
      *text = evil;
    for (auto& [path, array] : file.arrays)
      for (std::string& text : array.texts)
        if (path != "summary/quantity" && path != "scenario/resolved" && path != "summary/unit") text += evil;
    file.arrays["scenario/resolved"].texts[0] += "name = \"" + evil + "\"\n";
    DesignFacts more = facts();
    more.sections[0].title = more.sections[0].facts[0].label = more.cautions[0] = more.tiers[0] = evil;
    const std::string page = html_page(file, more);
    CHECK(has(page, "&lt;script&gt;alert(1)"));
    CHECK_FALSE(has(page, "<script"));
    CHECK_FALSE(has(page, "<img"));
    CHECK(sample::markup_fault(page) == "");
  }
}

TEST_CASE("the markup is sound and the check of it can fail") {
  for (const auto& file :
       {sample::simulate_file(), sample::size_file(1, -1), sample::size_file(-1, 0), sample::size_file(-1, -1)})
    CHECK(sample::markup_fault(html_page(file, facts())) == "");
  for (const char* wrong : {"<!DOCTYPE html><p><b></p></b>", "<!DOCTYPE html><p>a & b</p>", "<!DOCTYPE html><p>",
                            "<!DOCTYPE html><p a=\"b></p>"})
    CHECK(sample::markup_fault(wrong) != "");
}

TEST_CASE("nothing on the page points outside of it, and it is small") {
  for (const auto& file : {sample::simulate_file(), sample::size_file(1, -1)}) {
    const std::string page = html_page(file, facts());
    for (const char* reach : {"http:", "https:", " src=", "url(", "@import", "<script", "<iframe", "<object", "<base",
                              " onload", "xlink"}) {
      INFO(reach);
      CHECK_FALSE(has(page, reach));
    }
    CHECK(has(page, "content=\"default-src 'none'; style-src 'unsafe-inline'; img-src data:;"));
    for (auto at = page.find("href=\""); at != std::string::npos; at = page.find("href=\"", at + 1)) {
      const std::string target = page.substr(at + 6, page.find('"', at + 6) - at - 6);
      INFO(target);
      if (target != "data:,") CHECK(has(page, "id=\"" + target.substr(1) + "\""));
    }
    CHECK(page.size() < 400'000);
  }
}

TEST_CASE("every picture is named, described, drawn and has its numbers") {
  for (const auto& [file, ids] :
       {std::pair{sample::simulate_file(),
                  std::vector<std::string>{"rack", "chance", "fodder", "room", "seasons", "cost", "drymatter"}},
        std::pair{sample::size_file(1, -1), std::vector<std::string>{"rack", "chance", "tradeoff", "seasons"}}}) {
    const std::string page = html_page(file, facts());
    const auto all = pictures(page);
    CHECK(all.size() == ids.size());
    CHECK(count(page, "The numbers behind this picture") == ids.size());
    for (const std::string& id : ids) {
      INFO(id);
      const auto found = std::find_if(all.begin(), all.end(),
                                      [&](const std::string& svg) { return has(svg, "<title id=\"" + id + "-t\">"); });
      REQUIRE(found != all.end());
      CHECK(has(*found, "role=\"img\""));
      CHECK(has(*found, "aria-labelledby=\"" + id + "-t " + id + "-d\""));
      CHECK(has(*found, "<desc id=\"" + id + "-d\">"));
      CHECK(count(*found, "<rect") + count(*found, "<circle") + count(*found, "<path") >= 2);
      CHECK(count(*found, "<title>") >= 1);  // tooltips
      CHECK_FALSE(has(*found, "nan"));
      CHECK_FALSE(has(*found, "inf"));
    }
  }
}

TEST_CASE("the numbers on the page of a simulation are those of the file") {
  const results::ResultFile file = sample::simulate_file();
  const std::string page = html_page(file, facts());
  const auto cost = file.estimate("cost_total").value();
  CHECK(has(page, cells(cost, {1.0, 0.0, "EUR"}).mean));
  CHECK(has(page, with_interval(file.estimate("short_days").value(), {})));
  CHECK(has(page, cells(file.estimate("grain_used").value(), shown_in("kg", false)).mean));
  CHECK(has(page, "18446744073709551601"));  // the seed, to the last digit
  // Of the bands, every day and quantile.
  const auto& served = file.at("daily/served").numbers;
  CHECK(
      has(page, "<tr><th scope=\"row\">1: 1 March</th><td>" + plain(file.at("daily/wanted").numbers[0], 1) + "</td>"));
  for (const std::size_t day : {std::size_t{0}, std::size_t{200}, std::size_t{364}}) {
    std::string line;
    for (std::size_t q = 0; q < 5; ++q) line += "<td>" + plain(served[5 * day + q], 1) + "</td>";
    CHECK(has(page, line + "</tr>"));
  }
  // Short days by season: a tenth of all fall in the first.
  CHECK(has(page, "<td>" + plain(0.1 * file.estimate("short_days")->mean, 1) + "</td><td>10 %</td>"));
  // The bad fifth of forty are replications 32 to 39: 100 + 3 x 35.5 mats on average, the others 100 + 3 x 15.5; three digits are shown.
  CHECK(has(page, "the 8 runs with most short days"));
  CHECK(has(page, "mats lost to mould</th><td>206</td><td>146</td>"));
  for (const char* part : {"85.6 kg", "ripe &lt;mats&gt;", "Careful &amp; calm.", "3 tiers of 6 trays", "60 kg",
                           "250 kg", "<td>0.36 EUR/kg</td>"})
    CHECK(has(page, part));
}

TEST_CASE("the page of a sizing shows what the chosen kit brings") {
  Scenario farm = read_scenario_file(std::string(RACKWRIGHT_SOURCE_DIR) + "/scenarios/minimal.toml").scenario.value();
  farm.kits = {{"tray", "large", {"rack.tray_length = 1.2 m", "prices.tray = 26"}}, {"tray", "small", {"rack.tray_length = 40 cm"}}};
  results::ResultFile file = sample::size_file(1, -1);
  file.arrays["scenario/resolved"] = results::text(resolved_text(farm));
  file.arrays["design/choice"] = results::row(std::vector<std::string>{"kit.tray"});
  file.arrays["design/value"] = {{3, 1}, {}, {"small", "large", "none"}};
  const std::string page = html_page(file, {});
  CHECK(has(page, ", with kit.tray = large: it meets the target"));
  CHECK(has(page, "1.2 m by "));
  CHECK_FALSE(has(page, "40 cm by "));
}

TEST_CASE("the page of a sizing shows the chosen design, not the one written") {
  const results::ResultFile file = sample::size_file(1, -1);
  CHECK(design_settings(file) == std::vector<Setting>{{"rack.tiers", "5"}});
  const std::string page = html_page(file, {});
  CHECK(has(page, "Build 5 tiers of 6 trays"));
  CHECK(has(page, "95.3 %"));
  CHECK(has(page, "1234 EUR"));
  CHECK(has(page, "<th scope=\"row\">places</th><td>30</td>"));
  CHECK(has(page, "--set &#39;rack.tiers=5&#39;"));
  CHECK(has(page, "60 cm by 30 cm"));
  CHECK(has(page, "2.25 m"));  // 0.25 and five times 0.4
  CHECK(has(page, "costlier: costs 99 EUR more"));
  CHECK(has(page, "3 tiers fall short in summer"));
  CHECK(has(page, "12.0 days"));  // three quarters of 16 in June to August
  CHECK(has(page, "3 designs were tried: 1 miss the target, 1 cost more. 456 replications were spent."));

  results::ResultFile more = file;
  more.arrays["scenario/resolved"] = results::text(std::string(sample::resolved) + "[room]\ninsulation = \"0 m\"\nheater = \"1 kW\"\n");
  more.arrays["design/choice"] = results::row(std::vector<std::string>{"rack.tiers", "room.insulation", "kit.cooler", "room.heater"});
  more.arrays["design/value"] = {{3, 4}, {}, {"3", "0 cm", "none", "0 W", "5", "5 cm", "small", "0 W", "6", "5 cm", "none", "0 W"}};
  CHECK(has(html_page(more, {}), ", with 50 mm of insulation, kit.cooler = small and no heater: it meets the target"));

  const std::string near = html_page(sample::size_file(-1, 0), {});
  CHECK(has(near, "None of the designs that were tried is shown to meet the target. The nearest is 3 tiers"));
  CHECK_FALSE(has(near, "Build 3"));
  CHECK(has(html_page(sample::size_file(-1, -1), {}), "None of the designs"));
  CHECK_FALSE(has(html_page(sample::size_file(17, 99), {}), "Build"));
}

TEST_CASE("files with little in them make a page too") {
  results::ResultFile file;
  file.header = results::sample::header("simulate", 400);
  CHECK(has(html_page(file, {}), "No replication was completed"));
  CHECK(sample::markup_fault(html_page(file, {})) == "");
  file = sample::simulate_file();
  file.arrays["scenario/resolved"] = results::text("[rack]\ntiers = 1e9\ntrays_per_tier = -3\nrubbish\n= \n[[\n");
  CHECK(sample::markup_fault(html_page(file, {})) == "");
  CHECK_FALSE(has(html_page(file, {}), "id=\"rack-t\""));
}

TEST_CASE("a line sown as wanted has its trays at most, and groups that come and go their days") {
  results::ResultFile file = sample::simulate_file();
  file.header.start_date = "2026-03-01";
  std::string text = sample::resolved;
  CHECK(has(html_page(file, {}), "1 batch of 2 trays soaked and sown, 2 ripe trays harvested, fed and washed. Rounds"));
  CHECK_FALSE(has(html_page(file, {}), "part of the time"));
  const std::string line = "soak = \"10 h\"\n";
  text.replace(text.find(line), line.size(), line + "sow = \"as-wanted\"\n");
  text += "\n[[group]]\nname = \"ewes\"\narrives_day = 61\nleaves_day = 122\nstays_each_year = true\n\n[[group]]\nname = \"kids\"\narrives_day = -1\nleaves_day = 92\n";
  file.arrays["scenario/resolved"] = results::text(text);
  const std::string page = html_page(file, {});
  CHECK(has(page, "1 batch of at most 2 trays soaked and sown, at most 2 ripe trays harvested, fed and washed, as many as are to be wanted."));
  CHECK(has(page, "No minutes are counted for the looking."));
  CHECK(has(page, "Fed here part of the time: ewes from 1 May until 30 June, each year; kids until 31 May."));
}

TEST_CASE("what is to be got says when the shade hangs and the doors stand open") {
  results::ResultFile file = sample::simulate_file();
  CHECK_FALSE(has(html_page(file, {}), "doors, windows or vents"));
  const std::string text = std::string(sample::resolved) + "\n[prices]\nshade = \"8 /m2\"\n\n[room]\nsolar_aperture = \"2 m2\"\nshade = 0.9\nair_changes = 0.5\nopen_air_changes = 12\n"
                           "open_from = 2026-04-15\nopen_until = 2026-10-01\nshade_from = 2026-05-01\nshade_until = 2026-09-20\n";
  file.arrays["scenario/resolved"] = results::text(text);
  const std::string page = html_page(file, {});
  CHECK(has(page, "of window or roof; up from 1 May until 20 September, every year"));
  CHECK(has(page, "open from 15 April until 1 October, every year"));
  CHECK(has(page, "to renew the air 12 times an hour; otherwise 0.5"));
}

TEST_CASE("a sizing that played its design shows the year, the money and the troubles of it") {
  results::ResultFile file = sample::size_file(1, -1);
  const results::ResultFile played = sample::simulate_file();
  for (const auto& [path, array] : played.arrays)
    if (!path.starts_with("scenario/") && !path.starts_with("series/")) file.arrays.insert({path, array});
  file.header.replications_completed = 40;
  const std::string page = html_page(file, facts());
  CHECK(sample::markup_fault(page) == "");
  for (const char* part : {"id=\"tradeoff-t\"", "id=\"fodder-t\"", "id=\"room-t\"", "id=\"cost-t\"", "id=\"drymatter-t\"",
                           "played 40 times on the luck of the search", "the 8 runs with most short days", "mats lost to mould"})
    CHECK(has(page, part));
  CHECK(has(page, cells(played.estimate("cost_total").value(), {1.0, 0.0, "EUR"}).mean));
  CHECK_FALSE(has(page, "This file keeps no days"));
  // The answer stays that of the search.
  CHECK(has(page, "Build 5 tiers of 6 trays"));
  CHECK(has(page, "1234 EUR"));
}

TEST_CASE("beside an own water network nothing is said of the way that the usual one would take") {
  results::ResultFile file = sample::simulate_file();
  std::string& resolved = file.arrays["scenario/resolved"].texts[0];
  const std::string keys = "feed = \"cascade\"\nriser_diameter = \"2 cm\"\nbranch_diameter = \"1.3 cm\"\nrun_length = \"4 m\"\nrecirculating = true\n";
  resolved.insert(resolved.find("pump_power"), keys);
  const std::string usual = html_page(file, facts());
  CHECK(has(usual, "Water rises from the tank through the pump, runs along the top tier, drips from tier to tier and drains back to the tank."));
  CHECK(has(usual, "pipe along the tiers"));
  resolved += "\n[[water.node]]\nname = \"tank\"\nkind = \"source\"\n";
  const std::string own = html_page(file, facts());
  CHECK(has(own, "Water goes from the tank through the pump and your own network, and back to the tank."));
  CHECK(has(own, "whose way through your own network is not drawn"));
  for (const char* way : {"Water rises", "drips from tier to tier", "runs along", "pipe along the tiers", "hose to the rack", "drain pipe", "show the way of the water"}) {
    INFO(way);
    CHECK_FALSE(has(own, way));
  }
}
