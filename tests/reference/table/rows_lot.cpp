// Germination-test statistics against the regulation's table and exact intervals.
#include <fmt/core.h>

#include "models/grain/acceptance.hpp"
#include "models/grain/lot.hpp"
#include "models/grain/scatter.hpp"
#include "tests/reference/table/models.hpp"

namespace rackwright::validation {

Sheet lot_rows() {
  Sheet sheet("lot and trial");
  sheet.from("US 7 CFR 201.55, Maximum Tolerated Ranges Between 100-Seed Replicates, four replicates, 70 to 99 %", Standing::found, Bound::rounding);
  const struct { double mean, range; } four[] = {
      {99, 5},  {98, 6},  {97, 7},  {96, 8},  {95, 9},  {94, 10}, {93, 10}, {92, 11}, {90, 12}, {89, 12}, {88, 13},
      {86, 14}, {84, 14}, {83, 15}, {80, 16}, {77, 17}, {73, 17}, {72, 18}, {70, 18}, {2, 5},   {11, 12}, {21, 16}};
  for (const auto& row : four)
    sheet.near(fmt::format("largest range of four at {} %", row.mean), "%", row.range, 0.0, grain::tolerated_range(row.mean, 4));
  sheet.from("the same table, lower rows", Standing::memory, Bound::rounding);
  for (const auto& [mean, range] : {std::pair{60.0, 19.0}, std::pair{51.0, 20.0}, std::pair{50.0, 20.0}})
    sheet.near(fmt::format("largest range of four at {} %", mean), "%", range, 0.0, grain::tolerated_range(mean, 4));
  sheet.from("the same table, two replicates, read in a copy that runs the columns together", Standing::found, Bound::rounding);
  const struct { double mean, range; } two[] = {{97, 6}, {96, 6}, {95, 7},  {94, 8},  {93, 8}, {92, 9},
                                                {91, 9}, {90, 9}, {89, 10}, {88, 10}, {87, 11}};
  for (const auto& row : two)
    sheet.near(fmt::format("largest range of two at {} %", row.mean), "%", row.range, 0.0, grain::tolerated_range(row.mean, 2));
  sheet.from("exact 95 % binomial limits of 400 kernels; a flat prior lies within a quarter of a percent of them", Standing::worked, Bound::ours);
  const struct { int germinated; double low, high; } trials[] = {{320, 75.74, 83.81}, {360, 86.63, 92.76}, {380, 92.38, 96.92}};
  for (const auto& row : trials) {
    const auto posterior = grain::trial_posterior(row.germinated, 400, 1.0, 1.0);
    sheet.near(fmt::format("lower limit, {} of 400", row.germinated), "%", row.low, 0.25, 100.0 * posterior.low);
    sheet.near(fmt::format("upper limit, {} of 400", row.germinated), "%", row.high, 0.25, 100.0 * posterior.high);
  }
  sheet.from("beta-binomial of Crowder 1978 (Appl. Statist. 27:34-37, 21 plates of seeds) by VGAM 1.1-7 in R", Standing::worked, Bound::ours);
  const grain::ScatterFit fit = grain::fit_scatter({{10, 39}, {23, 62}, {23, 81}, {26, 51}, {17, 39}, {5, 6},   {53, 74},
                                                    {55, 72}, {32, 51}, {46, 79}, {10, 13}, {8, 16},  {10, 30}, {8, 28},
                                                    {23, 45}, {0, 4},   {3, 12},  {22, 41}, {15, 30}, {32, 51}, {3, 7}});
  sheet.near("mean of the plates", "1", 0.4935705, 1e-4, fit.mean);
  sheet.near("over-dispersion of the plates", "1", 0.0815748, 1e-4, fit.rho);
  sheet.near("log-likelihood of the plates", "1", -64.5162829, 1e-6, fit.log_likelihood);
  sheet.from("chance that a lot passes a trial: 1 - pbetabinom of VGAM 1.1-7 in R (one tray); all of them by sums of exact fractions in Python",
             Standing::worked, Bound::ours);
  const struct { double fraction; int kernels; double accept, rho, passes; } passes[] = {
      {0.90, 50, 0.8, 0.0, 99.0645398}, {0.80, 100, 0.8, 0.0, 55.9461585}, {0.85, 100, 0.8, 0.01, 86.0441268},
      {0.75, 100, 0.8, 0.01, 23.7691211}, {0.92, 50, 0.9, 0.02, 74.5907820}, {0.85, 400, 0.8, 0.01, 97.3972083},
      {0.78, 400, 0.8, 0.02, 30.8862175}};
  for (const auto& row : passes)
    sheet.near(fmt::format("lot of {:g} %, {} kernels, {:g} % asked, scatter {:g}", 100.0 * row.fraction, row.kernels, 100.0 * row.accept, row.rho),
               "%", row.passes, 1e-5, 100.0 * grain::chance_kept(row.fraction, {row.kernels, row.accept}, row.rho));
  sheet.from("what a trial makes of a beta law of lots, by a midpoint sum of 4,000 in Python", Standing::worked, Bound::ours);
  const struct { double mean, rho; int kernels; double accept, kept, good, bad; } sieves[] = {
      {0.85, 1.0 / 11.0, 100, 0.80, 72.84266, 89.88990, 71.86004}, {0.89, 0.03, 100, 0.80, 90.04719, 89.94861, 80.41753},
      {0.92, 0.01, 200, 0.85, 95.50340, 92.21913, 87.34588}};
  for (const auto& row : sieves) {
    grain::Grade grade;
    grade.germination_mean = row.mean;
    grade.germination_rho = row.rho;
    const grain::Sieve sieve = grain::sieve(grade, {row.kernels, row.accept});
    const std::string of = fmt::format("lots of {:g} %, {} kernels, {:g} % asked: ", 100.0 * row.mean, row.kernels, 100.0 * row.accept);
    sheet.near(of + "pass", "%", row.kept, 0.1, 100.0 * sieve.kept);
    sheet.near(of + "germination of those kept", "%", row.good, 0.05, 100.0 * sieve.mean);
    sheet.near(of + "of those refused", "%", row.bad, 0.2, 100.0 * sieve.refused);
  }
  sheet.from("beta-binomial counts of trays of 100 and a smaller one (85 % germinating, over-dispersion 0.01) summed exactly, apart from the program; 80 % asked",
             Standing::worked, Bound::ours);
  for (const auto& [kernels, share] : {std::pair{150, 90.6254}, std::pair{250, 94.6353}, std::pair{400, 97.3997}})
    sheet.near(fmt::format("lots that pass a trial of {}", kernels), "%", share, 0.02, 100.0 * grain::chance_kept(0.85, {kernels, 0.8}, 0.01));
  return sheet;
}

}  // namespace rackwright::validation
