// Asserts the table: every row hits or is a known miss, and the table is as wide as was promised.
#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <map>
#include <set>
#include <string>

#include "tests/catch.hpp"
#include "tests/paths.hpp"
#include "tests/reference/table/sheet.hpp"

using namespace rackwright::validation;

TEST_CASE("every reference value is met, or is a miss that is stated") {
  std::set<std::pair<std::string, std::string>> stated, missed;
  for (const KnownMiss& miss : known_misses()) stated.emplace(miss.model, miss.what);
  for (const Row& row : all_rows()) {
    INFO(row.model << ", " << row.what << ": expected " << row.expected << " +- " << row.tolerance << " " << row.unit
                   << ", got " << row.got << " (" << row.source << ")");
    CHECK(std::isfinite(row.got));
    const bool known = stated.count({row.model, row.what}) > 0;
    if (!row.hit()) missed.emplace(row.model, row.what);
    CHECK(row.hit() != known);  // a new miss, or a stated miss that has come to hit: say so in misses.cpp
  }
  CHECK(missed == stated);  // every stated miss is a row of the table
}

TEST_CASE("rows are named once and say where they come from") {
  std::set<std::pair<std::string, std::string>> names;
  for (const Row& row : all_rows()) {
    INFO(row.model << ", " << row.what);
    CHECK(names.emplace(row.model, row.what).second);
    CHECK_FALSE(row.source.empty());
    CHECK(row.tolerance >= 0.0);
    CHECK(row.what.find('|') == std::string::npos);  // a column mark of the page
  }
}

TEST_CASE("a hundred and twenty values, three a model from two sources at least") {
  std::map<std::string, std::set<std::string>> sources;
  std::map<std::string, int> count;
  for (const Row& row : all_rows()) {
    sources[row.model].insert(row.source);
    ++count[row.model];
  }
  CHECK(all_rows().size() >= 120);
  for (const auto& [model, rows] : count) {
    INFO(model);
    CHECK(rows >= 3);
    CHECK(sources[model].size() >= 2);
  }
}

TEST_CASE("docs/validation.md is what the table prints") {
  std::ifstream file(RACKWRIGHT_SOURCE_DIR "/docs/validation.md");
  const std::string shipped{std::istreambuf_iterator<char>(file), {}};
  INFO("regenerate: build/dev/tests/validation_page > docs/validation.md");
  CHECK(shipped == page());
}
