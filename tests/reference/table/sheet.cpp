#include "tests/reference/table/sheet.hpp"

#include <cmath>
#include <utility>

#include "tests/reference/table/models.hpp"

namespace rackwright::validation {

bool Row::hit() const { return std::abs(got - expected) <= tolerance * (1.0 + 1e-9) + 1e-12 * std::abs(expected); }

void Sheet::from(std::string source, Standing standing, Bound bound) {
  source_ = std::move(source);
  standing_ = standing;
  bound_ = bound;
}

void Sheet::near(std::string what, std::string unit, double expected, double tolerance, double got) {
  rows.push_back({model_, std::move(what), std::move(unit), expected, tolerance, got, source_, standing_, bound_});
}

void Sheet::within(std::string what, std::string unit, double least, double most, double got) {
  near(std::move(what), std::move(unit), 0.5 * (least + most), 0.5 * (most - least), got);
}

std::string_view word(Standing standing) {
  switch (standing) {
    case Standing::found: return "found";
    case Standing::worked: return "worked out";
    case Standing::memory: return "from memory";
    default: return "common practice";
  }
}

std::string_view word(Bound bound) {
  switch (bound) {
    case Bound::source: return "source's own";
    case Bound::rounding: return "rounding";
    case Bound::scatter: return "scatter";
    default: return "our reading";
  }
}

const std::vector<Row>& all_rows() {
  static const std::vector<Row> rows = [] {
    std::vector<Row> all;
    for (const Sheet& sheet :
         {soak_rows(), germination_rows(), mat_rows(), spoilage_rows(), climate_rows(), room_rows(), water_rows(),
          route_rows(), herd_rows(), intake_rows(), feed_rows(), cost_rows(), design_rows(), grain_rows(),
          viability_rows(), lot_rows(), queue_rows(), statistics_rows(), random_rows(), sensitivity_rows(), unit_rows()})
      all.insert(all.end(), sheet.rows.begin(), sheet.rows.end());
    return all;
  }();
  return rows;
}

}  // namespace rackwright::validation
