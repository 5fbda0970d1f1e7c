// Prints docs/validation.md; with the word "curves" what scripts/plot_models draws, with "rows" the rows as CSV.
#include <cstdio>
#include <string_view>

#include <fmt/core.h>

#include "tests/reference/table/curves.hpp"
#include "tests/reference/table/sheet.hpp"

int main(int count, char** words) {
  using namespace rackwright::validation;
  const std::string_view what = count > 1 ? words[1] : "";
  if (what == "curves") {
    fmt::print("{}", curves_csv());
  } else if (what == "rows") {
    for (const Row& row : all_rows())
      fmt::print("{};{};{:.10g};{:.10g};{:.10g};{}\n", row.model, row.what, row.expected, row.tolerance, row.got, word(row.standing));
  } else {
    fmt::print("{}", page());
  }
  return 0;
}
