// Looking keys up in the scenario a file keeps.

#include "sim/report/html_scenario.hpp"

#include "tests/catch.hpp"
#include "tests/unit/report/html_sample.hpp"

using namespace rackwright::report;

TEST_CASE("keys of the stored scenario are found by name, with what a design sets in their place") {
  const StoredScenario as_written(sample::resolved);
  CHECK(as_written.number("rack.tiers", "1") == Approx(3.0));
  CHECK(as_written.number("rack.tray_width", "m") == Approx(0.3));
  CHECK(as_written.number("rack.tray_width", "cm") == Approx(30.0));
  CHECK(as_written.text("grain.barley.price") == "0.36 /kg");
  CHECK(as_written.names("grain") == std::vector<std::string>{"barley"});
  CHECK_FALSE(as_written.text("rack.teirs").has_value());
  CHECK_FALSE(as_written.number("title", "m").has_value());

  const StoredScenario chosen(sample::resolved, {{"rack.tiers", "5"}, {"grain.barley.bag", "50 lb"}});
  CHECK(chosen.number("rack.tiers", "1") == Approx(5.0));
  CHECK(chosen.number("grain.barley.bag", "kg") == Approx(22.6796185));
  CHECK(chosen.text("rack.trays_per_tier") == "6");
  CHECK(chosen.text("choose.rack.tiers") == "[\"3\", \"5\"]");
}

TEST_CASE("what a grade says of a grain stands in a remark and is found as well") {
  const StoredScenario feed("[[grain]]\nname = \"cheap\"\ngrade = \"feed\"\n# germination = 0.85\n");
  CHECK(feed.number("grain.cheap.germination", "1") == Approx(0.85));
}

TEST_CASE("quotes in a stored text are those of the text") {
  CHECK(StoredScenario("title = \"the \\\"old\\\" barn \\\\ 2\"\n").text("title") == "the \"old\" barn \\ 2");
}
