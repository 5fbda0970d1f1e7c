#include "models/grain/lot.hpp"

#include <array>
#include <cmath>
#include <cstddef>

#include "models/base/beta.hpp"
#include "models/base/expects.hpp"

namespace rackwright::grain {
namespace {

struct Row {
  int lowest_mean, range;
};

// US 7 CFR 201.55, four replicates of 100. Down to 70 % read in a copy of the regulation; the rows for 67 to 72 %
// (its lower half), 56 to 66 % and 51 to 55 % are from memory of the same table.
constexpr std::array<Row, 16> four_replicates{{{99, 5},
                                               {98, 6},
                                               {97, 7},
                                               {96, 8},
                                               {95, 9},
                                               {93, 10},
                                               {91, 11},
                                               {89, 12},
                                               {87, 13},
                                               {84, 14},
                                               {81, 15},
                                               {78, 16},
                                               {73, 17},
                                               {67, 18},
                                               {56, 19},
                                               {51, 20}}};
// Two replicates, read in the same copy, which has no entry above 97 % and was cut off below 71 %.
constexpr std::array<Row, 9> two_replicates{
    {{96, 6}, {95, 7}, {93, 8}, {90, 9}, {88, 10}, {84, 11}, {81, 12}, {76, 13}, {71, 14}}};
constexpr int highest_of_four = 99, highest_of_two = 97;

template <std::size_t N>
double look_up(const std::array<Row, N>& rows, int highest, int mean) {
  if (mean > highest) return -1.0;
  for (const Row& row : rows) {
    if (mean >= row.lowest_mean) return row.range;
  }
  return -1.0;
}

}  // namespace

double tolerated_range(double mean_percent, int replicates) {
  EXPECTS(replicates == 2 || replicates == 4);
  if (!(mean_percent >= 0.0 && mean_percent <= 100.0)) return -1.0;
  const int rounded = static_cast<int>(std::lround(mean_percent));
  const int mean = rounded >= 51 ? rounded : 101 - rounded;  // the table pairs 99 with 2, 51 with 50
  return replicates == 4 ? look_up(four_replicates, highest_of_four, mean)
                         : look_up(two_replicates, highest_of_two, mean);
}

TrialPosterior trial_posterior(int germinated, int sown, double prior_germinated, double prior_failed) {
  EXPECTS(sown > 0 && germinated >= 0 && germinated <= sown);
  EXPECTS(prior_germinated > 0.0 && prior_failed > 0.0);
  const double a = prior_germinated + germinated;
  const double b = prior_failed + (sown - germinated);
  return {a / (a + b), beta_quantile(a, b, 0.025), beta_quantile(a, b, 0.975)};
}

}  // namespace rackwright::grain
