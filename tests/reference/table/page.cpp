// docs/validation.md from the rows.
#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "tests/reference/table/sheet.hpp"

namespace rackwright::validation {
namespace {

struct Count { std::size_t rows = 0, hits = 0; };

std::string first_part(const std::vector<Row>& rows) {
  std::map<Standing, Count> by_standing;
  std::map<Bound, Count> by_bound;
  Count all;
  for (const Row& row : rows) {
    Count& count = by_standing[row.standing];
    for (Count* c : {&count, &by_bound[row.bound], &all}) {
      ++c->rows;
      c->hits += row.hit() ? 1U : 0U;
    }
  }
  std::string text = fmt::format(
      "# How far the models are from the outside\n\n"
      "Made by `build/dev/tests/validation_page`; a test compares. Every row is also a test: a new miss fails it, and so\n"
      "does a known miss that has come to hit. *Worked out* is arithmetic done apart from the program on a formula or\n"
      "data that was read; *from memory* was recalled from the work named and not read again. A range is written as its\n"
      "middle give or take half. Beside every tolerance stands whose it is: the *source's own* (its stated tolerance, range or\n"
      "spread), *rounding* (a unit of the last digit printed, at most), *scatter* (the sampling error of the data, or of our own\n"
      "drawn runs), or *our reading*: no source states how near is near. Those rows say least; {} of them. Tests of\n"
      "`tests/reference` beside this table hold our own figures where they stand, and count for nothing here.\n\n"
      "{} values, {} hit, {} miss.\n\n| how come by | values | hits |\n|---|---|---|\n",
      by_bound[Bound::ours].rows, all.rows, all.hits, all.rows - all.hits);
  for (const auto& [standing, count] : by_standing)
    text += fmt::format("| {} | {} | {} |\n", word(standing), count.rows, count.hits);
  text += "\n| tolerance | values | hits |\n|---|---|---|\n";
  for (const auto& [bound, count] : by_bound) text += fmt::format("| {} | {} | {} |\n", word(bound), count.rows, count.hits);
  return text + "\n![How far every value is off, in tolerances](images/validation.svg)\n";
}

std::string misses_part(const std::vector<Row>& rows) {
  std::string text;
  for (const Row& row : rows) {
    if (row.hit()) continue;
    std::string_view why = "not yet looked into";
    for (const KnownMiss& miss : known_misses())
      if (miss.model == row.model && miss.what == row.what) why = miss.why;
    text += fmt::format("- **{}**, {}: {:.4g}, expected {:.4g} ± {:.2g}{}. {}\n", row.model, row.what, row.got,
                        row.expected, row.tolerance, row.unit == "1" ? "" : " " + row.unit, why);
  }
  return text.empty() ? text : "\n## Misses\n\n" + text;
}

std::string model_part(const std::string& model, const std::vector<Row>& rows) {
  // Sources are numbered below each table, so that the table itself stays readable.
  std::vector<std::string> sources;
  std::string text = fmt::format("\n## {}\n\n| case | expected | tolerance | whose | got | unit | source | come by | |\n"
                                 "|---|---|---|---|---|---|---|---|---|\n", model);
  for (const Row& row : rows) {
    if (row.model != model) continue;
    auto at = std::find(sources.begin(), sources.end(), row.source);
    if (at == sources.end()) at = sources.insert(sources.end(), row.source);
    text += fmt::format("| {} | {:.6g} | {:.2g} | {} | {:.5g} | {} | {} | {} | {} |\n", row.what, row.expected, row.tolerance,
                        word(row.bound), row.got, row.unit == "1" ? "" : row.unit, at - sources.begin() + 1, word(row.standing),
                        row.hit() ? "hit" : "**miss**");
  }
  text += "\n";
  for (std::size_t i = 0; i < sources.size(); ++i) text += fmt::format("{}. {}\n", i + 1, sources[i]);
  return text;
}

}  // namespace

std::string page() {
  const std::vector<Row>& rows = all_rows();
  std::string text = first_part(rows) + misses_part(rows);
  std::set<std::string> seen;
  for (const Row& row : rows)
    if (seen.insert(row.model).second) text += model_part(row.model, rows);
  return text;
}

}  // namespace rackwright::validation
