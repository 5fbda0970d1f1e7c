// Records of a comma-separated file, as spreadsheets of any country write them.
#include "sim/scenario/csv_records.hpp"

#include "tests/catch.hpp"

using namespace rackwright;

namespace {

using Cells = std::vector<std::string>;

std::vector<CsvRecord> all_of(std::string_view text) {
  CsvRecords records(text);
  std::vector<CsvRecord> all;
  while (auto record = records.next()) all.push_back(std::move(*record));
  return all;
}

Cells first(std::string_view text) {
  const auto all = all_of(text);
  REQUIRE_FALSE(all.empty());
  INFO(all.front().fault);
  CHECK(all.front().fault.empty());
  return all.front().cells;
}

std::string fault(std::string_view text) { return all_of(text).at(0).fault; }

}  // namespace

TEST_CASE("csv: the separator is a comma unless the first line has none, and a quoted one does not count") {
  CHECK(first("a,b;c\n") == Cells{"a", "b;c"});
  CHECK(first("a;b\n") == Cells{"a", "b"});
  CHECK(first("a\tb;c\n") == Cells{"a", "b;c"});  // the first of the two that stands there
  CHECK(first("\"a, b\";c\n") == Cells{"a, b", "c"});
  CHECK(first("\"a\nb, c\";d\n") == Cells{"a b, c", "d"});
  CHECK(first("# made by hand, of late\na;b\n") == Cells{"a", "b"});
  CHECK(first("alone\n") == Cells{"alone"});
}

TEST_CASE("csv: lines end in any of three ways, and lines of nothing or of remarks are passed over with their numbers") {
  for (const char* end : {"\n", "\r\n", "\r"}) {
    const std::string e = end, text = "a,b" + e + e + "  # remark, with a comma" + e + "   " + e + "c,d" + e;
    const auto all = all_of(text);
    REQUIRE(all.size() == 2);
    CHECK(all[0].line == 1);
    CHECK(all[1].line == 5);
    CHECK(all[1].cells == Cells{"c", "d"});
  }
  CHECK(all_of("").empty());
  CHECK(all_of("  \t ").empty());
  CHECK(all_of("# nothing but this").empty());
  CHECK(all_of("\xEF\xBB\xBF").empty());
  CHECK(first("\xEF\xBB\xBF" "a,b") == Cells{"a", "b"});
}

TEST_CASE("csv: cells are trimmed, empty ones stay, and quotes hold separators, quotes and ends of line") {
  CHECK(first("  a \t, ,b,\n") == Cells{"a", "", "b", ""});
  CHECK(first(",\n") == Cells{"", ""});
  CHECK(first("  \" a,b \" \t,c") == Cells{"a,b", "c"});
  CHECK(first("\"the \"\"old\"\" rack\",c") == Cells{"the \"old\" rack", "c"});
  CHECK(first("\"two\r\nlines\",c") == Cells{"two lines", "c"});
  CHECK(first("\"two\rlines\",c") == Cells{"two lines", "c"});
  CHECK(first("\"\"") == Cells{""});
  CHECK(first("a\t b\t\n") == Cells{"a", "b", ""});
  const auto all = all_of("\"two\nlines\",c\nd,e\n");
  REQUIRE(all.size() == 2);
  CHECK(all[0].line == 1);
  CHECK(all[1].line == 3);  // as an editor counts them
}

TEST_CASE("csv: what is no record says so and gives no cells, and the next is read") {
  CHECK(fault("a,\"b\n") == "has a quote that is never closed");
  CHECK(fault("a,\"") == "has a quote that is never closed");
  CHECK(fault("\"a\"b,c\n").starts_with("has letters behind a closing quote"));
  CHECK(fault(std::string(10001, 'x')) == "is longer than 10000 letters");
  CHECK(fault(std::string(10000, 'x')).empty());
  CHECK(fault("\"a\"b," + std::string(10001, 'x')).starts_with("has letters behind a closing quote"));  // the first fault is told
  const auto all = all_of("\"a\"b,c\nd,e\n");
  REQUIRE(all.size() == 2);
  CHECK(all[0].cells.empty());
  CHECK(all[1].cells == Cells{"d", "e"});
}

TEST_CASE("csv: headings are the same however they are spaced, dashed and capitalised") {
  for (const char* written : {"Date sown", "date_sown", "DATE-SOWN", "date.sown", "datesown"}) CHECK(plain_heading(written) == "datesown");
  CHECK(trimmed_cell(" \t a b\r") == "a b");
  CHECK(trimmed_cell(" \t\r").empty());
}
