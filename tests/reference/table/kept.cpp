#include "tests/reference/table/kept.hpp"

#include <string>

namespace rackwright::validation {

void add_kept(Sheet& sheet, std::string_view model) {
  for (const Kept& row : kept_rows) {
    if (row.model != model) continue;
    sheet.from(std::string(row.source), Standing::worked, row.bound);
    sheet.near(std::string(row.what), std::string(row.unit), row.expected, row.tolerance, row.got);
  }
}

}  // namespace rackwright::validation
