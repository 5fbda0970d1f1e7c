// `rackwright report --out`: the page is written whole or not at all, and says what the file says.

#include <sys/resource.h>
#include <unistd.h>

#include <filesystem>
#include <nlohmann/json.hpp>

#include "tests/catch.hpp"
#include "tests/program.hpp"

using namespace rackwright::test;
using nlohmann::json;

namespace {

Said simulate(const Folder& folder, const std::string& title = "") {
  std::vector<std::string> words{"simulate", shipped("minimal.toml"), "--replications", "24",
                                 "--out",    folder / "runs.h5",      "--quiet"};
  if (!title.empty()) words.insert(words.end(), {"--set", "title=" + title});
  return run(words);
}

}  // namespace

TEST_CASE("report page: written beside the file, with its numbers, and sound") {
  const Folder folder;
  REQUIRE(simulate(folder).code == 0);
  const Said said = run({"report", folder / "runs.h5", "--out", folder / "page.html"});
  INFO(said.err);
  CHECK(said.code == 0);
  CHECK(contains(said.err, "written: "));
  CHECK(said.out.empty());
  const std::string page = whole_file(folder / "page.html");
  CHECK(page.starts_with("<!DOCTYPE html>"));
  CHECK(page.ends_with("</html>\n"));
  CHECK(page.size() < 400'000);
  // The first sentence of the terminal page gives the same share, with the same digits.
  const std::string text = run({"report", folder / "runs.h5", "--text"}).out;
  const auto from = text.find("The animals get ") + 16;
  CHECK(contains(page, text.substr(from, text.find(" of the fodder", from) - from)));
  // What follows from the scenario alone is there too, as check tells it.
  const json facts = json::parse(run({"check", shipped("minimal.toml"), "--json"}).out);
  CHECK(contains(page, "a full tier weighs"));
  for (const auto& caution : facts["cautions"]) {
    // By a quick look of check's own; the page tells the run's.
    const auto& told = caution.get<std::string>();
    if (told.starts_with("This line serves about") || told.starts_with("The heater is too small") || told.starts_with("Frost: ")) continue;
    const std::string start =
        caution.get<std::string>().substr(0, 20);  // before any unit, which the page writes with signs
    INFO(start);
    CHECK(contains(page, start));
  }
  for (const char* id : {"rack-t", "chance-t", "fodder-t", "room-t", "seasons-t", "cost-t", "drymatter-t"})
    CHECK(contains(page, std::string("<title id=\"") + id + "\">"));
  if (std::filesystem::exists("/usr/bin/xmllint")) {
    // Behind the doctype the page is XML as well.
    const std::string xml = folder.write("page.xml", page.substr(page.find('\n')));
    const Said judged = Running({"/usr/bin/xmllint", "--noout", xml}).wait();
    INFO(judged.err);
    CHECK(judged.code == 0);
  } else {
    WARN("xmllint is not here: the page was not read as XML");
  }
}

TEST_CASE("report page: the same file gives the same bytes, and a title with markup shows as text") {
  const Folder folder;
  REQUIRE(simulate(folder, "<img src=x onerror=alert(1)> & \"goats\"").code == 0);
  REQUIRE(run({"report", folder / "runs.h5", "--out", folder / "a.html"}).code == 0);
  REQUIRE(run({"report", folder / "runs.h5", "--out", folder / "b.html", "--quiet"}).code == 0);
  const std::string page = whole_file(folder / "a.html");
  CHECK(page == whole_file(folder / "b.html"));
  CHECK(contains(page, "<h1>&lt;img src=x onerror=alert(1)&gt; &amp; &quot;goats&quot;</h1>"));
  CHECK_FALSE(contains(page, "<img"));
}

TEST_CASE("report page: of a sizing, with the design that is recommended") {
  const Folder folder;
  const std::string farm =
      folder.write("farm.toml", whole_file(shipped("minimal.toml")) +
                                    "\n[target]\nfill_rate = 0.5\nyears = \"70 %\"\n[choose]\n\"rack.tiers\" = "
                                    "[3, 4, 5]\n\"line.trays_per_batch\" = [3, 4]\n");
  const Said sized = run({"size", farm, "--out", folder / "size.h5", "--json", "--quiet"});
  REQUIRE(sized.code == 0);
  const json all = json::parse(sized.out);
  const json& best = all["designs"][all["chosen"].get<std::size_t>()];
  REQUIRE(run({"report", folder / "size.h5", "--out", folder / "page.html", "--quiet"}).code == 0);
  const std::string page = whole_file(folder / "page.html"), tiers = best["choices"]["rack.tiers"].get<std::string>();
  CHECK(contains(page, "Build " + tiers + " tiers of 10 trays"));
  // The weights and places of the table are of that design, not of the one written down.
  CHECK(contains(page, tiers + " tiers of 10;"));
}

TEST_CASE("report page: what a grade says of a grain is not told as stated, and another grade is another grain") {
  const Folder folder;
  const auto page = [&](const std::string& name) {
    REQUIRE(run({"report", folder / (name + ".h5"), "--out", folder / (name + ".html"), "--quiet"}).code == 0);
    return whole_file(folder / (name + ".html"));
  };
  const std::string farm = shipped("minimal.toml");
  REQUIRE(run({"simulate", farm, "--set", "grain.barley.grade=feed", "--replications", "4", "--out", folder / "feed.h5", "--quiet"}).code == 0);
  const std::string feed = page("feed");
  CHECK_FALSE(contains(feed, "let the grade say"));
  CHECK(contains(feed, "germination</th><td class=\"w\">0.85</td>"));  // and yet it stands among the settings
  REQUIRE(run({"simulate", farm, "--set", "grain.barley.grade=feed", "--set", "grain.barley.germination=70 %", "--replications", "4", "--out", folder / "own.h5",
               "--quiet"}).code == 0);
  CHECK(contains(page("own"), "germination is stated, and stays the same whatever the grade"));
  const std::string chosen = folder.write("farm.toml", whole_file(farm) + "\n[target]\nfill_rate = 0.1\nyears = \"50 %\"\n[choose]\n\"grain.barley.grade\" = [\"feed\", \"seed\"]\n");
  REQUIRE(run({"size", chosen, "--set", "grain.barley.grade=seed", "--set", "choose.most_replications=200", "--out", folder / "size.h5", "--quiet"}).code == 0);
  CHECK_FALSE(contains(page("size"), "let the grade say"));
}

TEST_CASE("report page: what is there is kept unless forced, and what cannot be written is said") {
  const Folder folder;
  REQUIRE(simulate(folder).code == 0);
  const std::string kept = folder.write("kept.html", "do not touch");
  const auto report = [&](std::vector<std::string> more) {
    more.insert(more.begin(), {"report", folder / "runs.h5"});
    return run(more);
  };
  Said said = report({"--out", kept});
  CHECK(said.code == 2);
  CHECK(contains(said.err, "--force"));
  CHECK(whole_file(kept) == "do not touch");
  CHECK(report({"--out", kept, "--force"}).code == 0);
  CHECK(contains(whole_file(kept), "</html>"));

  CHECK(report({"--out", folder / "none/page.html"}).code == 2);
  CHECK(report({"--out", folder.path().string()}).code == 2);
  CHECK(report({"--out", ""}).code == 2);
  said = report({"--out", folder / "runs.h5", "--force"});
  CHECK(said.code == 2);
  CHECK(contains(said.err, "result file itself"));
  CHECK(report({"--text"}).code == 0);
  CHECK(report({}).code == 2);
  CHECK(report({"--text", "--out", folder / "x.html"}).code == 2);
  CHECK(run({"report", kept, "--out", folder / "x.html"}).code == 2);  // not a result file
  if (geteuid() != 0) {
    std::filesystem::create_directory(folder / "locked");
    std::filesystem::permissions(folder / "locked",
                                 std::filesystem::perms::owner_read | std::filesystem::perms::owner_exec);
    CHECK(report({"--out", folder / "locked/page.html"}).code == 2);
    std::filesystem::permissions(folder / "locked", std::filesystem::perms::owner_all);
  }
  auto names = folder.names();
  std::erase(names, "locked");
  CHECK(names.size() == 2);  // the runs and the page that was forced; nothing half-written
}

TEST_CASE("report page: no room for it leaves nothing behind and ends with 1") {
  const Folder folder;
  REQUIRE(simulate(folder).code == 0);
  struct rlimit before {};
  REQUIRE(getrlimit(RLIMIT_FSIZE, &before) == 0);
  struct rlimit tight = before;
  tight.rlim_cur = 16'384;  // enough for what the program says, too little for a page
  REQUIRE(setrlimit(RLIMIT_FSIZE, &tight) == 0);
  const Said said = run({"report", folder / "runs.h5", "--out", folder / "page.html"});
  setrlimit(RLIMIT_FSIZE, &before);
  INFO(said.err);
  CHECK(said.code == 1);
  CHECK(contains(said.err, "page.html was not written"));
  CHECK(folder.names() == std::vector<std::string>{"runs.h5"});
}
