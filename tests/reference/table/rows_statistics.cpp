// Intervals and moments against other programs and tables; units against NIST.
#include <fmt/core.h>

#include "sim/scenario/units.hpp"
#include "sim/study/intervals.hpp"
#include "sim/study/moments.hpp"
#include "sim/study/sequential.hpp"
#include "tests/reference/table/models.hpp"

namespace rackwright::validation {

Sheet statistics_rows() {
  using namespace rackwright::study;
  Sheet sheet("statistics");
  sheet.from("statsmodels 0.13.5, proportion_confint, printed digits", Standing::worked, Bound::rounding);
  sheet.near("8 of 10, exact, low", "1", 0.443905, 5e-7, clopper_pearson(8, 10).low);
  sheet.near("8 of 10, exact, high", "1", 0.974789, 5e-7, clopper_pearson(8, 10).high);
  sheet.near("8 of 10, score, low", "1", 0.490162, 5e-7, wilson(8, 10).low);
  sheet.near("8 of 10, score, high", "1", 0.943318, 5e-7, wilson(8, 10).high);
  sheet.from("R and GSL, which agree to 1e-14", Standing::worked, Bound::rounding);
  sheet.near("t quantile 0.975, 9 degrees", "1", 2.2621571627982, 3e-12, t_quantile(0.975, 9));
  sheet.from("printed tables of Student's t", Standing::memory, Bound::rounding);
  sheet.near("t quantile 0.95, 1 degree", "1", 6.314, 5e-4, t_quantile(0.95, 1));
  sheet.near("t quantile 0.975, 30 degrees", "1", 2.042, 5e-4, t_quantile(0.975, 30));
  sheet.from("Student 1908, Biometrika 6:1, sleep data; interval as R's t.test prints it", Standing::memory, Bound::rounding);
  const double first[] = {0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0};
  const double second[] = {1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4};
  Moments difference;
  for (int i = 0; i < 10; ++i) difference.add(second[i] - first[i]);
  sheet.near("paired interval, low", "h", 0.7001142, 5e-8, mean_interval(difference).low);
  sheet.near("paired interval, high", "h", 2.4598858, 5e-8, mean_interval(difference).high);
  sheet.from("Wilks 1941, first-order tolerance limits", Standing::memory, Bound::rounding);
  sheet.near("runs without failure, 95 % at 95 %", "1", 59, 0.0, static_cast<double>(trials_without_failure(0.95, 0.05)));
  sheet.near("runs without failure, 99 % at 95 %", "1", 299, 0.0, static_cast<double>(trials_without_failure(0.99, 0.05)));
  sheet.near("runs without failure, 90 % at 95 %", "1", 29, 0.0, static_cast<double>(trials_without_failure(0.90, 0.05)));
  return sheet;
}

Sheet unit_rows() {
  Sheet sheet("units");
  const auto in = [](const char* text, const char* native) { return std::get<double>(read_quantity(text, native)); };
  const char* b8 = "NIST Special Publication 811 (2008), Appendix B.8";
  sheet.from(b8, Standing::memory, Bound::rounding);
  sheet.near("1 lb", "kg", 0.45359237, 1e-12, in("1 lb", "kg"));
  sheet.near("1 ft2", "m2", 0.09290304, 1e-12, in("1 ft2", "m2"));
  sheet.near("1 acre", "m2", 4046.873, 5e-4, in("1 acre", "m2"));
  sheet.near("1 gal/min", "L/h", 227.1247, 1e-4, in("1 gal/min", "L/h"));
  sheet.near("1 psi", "Pa", 6894.757, 5e-4, in("1 psi", "Pa"));
  sheet.near("212 degF", "degC", 100.0, 1e-10, in("212 degF", "degC"));
  sheet.from("NIST Handbook 44, Appendix C", Standing::memory, Bound::rounding);
  sheet.near("1 gal", "L", 3.785411784, 1e-11, in("1 gal", "L"));
  sheet.near("1 cup", "L", 0.2365882365, 1e-12, in("1 cup", "L"));
  sheet.near("1 bushel", "L", 35.23907016688, 1e-9, in("1 bushel", "L"));
  return sheet;
}

}  // namespace rackwright::validation
