#include "sim/results/schema.hpp"

#include <udunits2.h>

#include <algorithm>
#include <set>

#include "sim/results/header.hpp"
#include "tests/catch.hpp"
#include "tests/unit/results/sample.hpp"
#include "tests/paths.hpp"

using namespace rackwright::results;

TEST_CASE("docs/results-format.md is what the schema table says") {
  const std::string page = sample::bytes(RACKWRIGHT_SOURCE_DIR "/docs/results-format.md");
  INFO("make it anew: rackwright describe results > docs/results-format.md");
  CHECK(page == describe_results());
}

TEST_CASE("every path stands once, in a known group, with its dimensions before it") {
  std::set<std::string> seen;
  for (const Dataset& d : datasets()) {
    INFO(d.path);
    CHECK(seen.insert(d.path).second);
    CHECK(std::any_of(groups().begin(), groups().end(), [&](const Group& g) { return g.name == d.group; }));
    for (const std::string& dimension : d.dimensions) CHECK(seen.count(d.group + "/" + dimension) == 1);
    CHECK_FALSE(d.long_name.empty());
  }
  std::set<std::string_view> names;
  for (const Attribute& a : header_attributes()) CHECK(names.insert(a.name).second);
}

TEST_CASE("UDUNITS reads every unit") {
  ut_set_error_message_handler(ut_ignore);
  ut_system* const system = ut_read_xml(nullptr);
  REQUIRE(system != nullptr);
  for (const Dataset& d : datasets()) {
    INFO(d.path << ": " << d.unit);
    if (d.type == Type::text) {
      CHECK(d.unit.empty());
      continue;
    }
    const std::string unit = d.unit == "days since" ? "days since 2026-03-01" : d.unit;
    ut_unit* const parsed = ut_parse(system, unit.c_str(), UT_UTF8);
    CHECK(parsed != nullptr);
    ut_free(parsed);
  }
  for (const RatioOfTotals& r : ratios()) {
    ut_unit* const parsed = ut_parse(system, std::string(r.unit).c_str(), UT_UTF8);
    CHECK(parsed != nullptr);
    ut_free(parsed);
  }
  ut_free_system(system);
}
