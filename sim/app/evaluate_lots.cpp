// Grades, harvests and the rule for a new lot behind `evaluate`.

#include <cmath>
#include <string>

#include "models/grain/acceptance.hpp"
#include "models/grain/grades.hpp"
#include "sim/app/evaluate_biology.hpp"

namespace rackwright::app {
namespace {

std::vector<Result> run_grade(const Arguments& given) {
  const auto name = grain::find_grade(given.word("grade"));
  if (!name) throw BadArguments{"grade is own, feed, bulk or seed"};
  grain::StatedGrade stated;
  if (given.has("germination")) stated.germination_mean = given.number("germination") / 100.0;
  if (given.has("germination_spread")) stated.germination_rho = given.number("germination_spread");
  const grain::GradeTerms terms = grain::terms_of(*name, stated, {});
  const grain::Grade law = grain::in_harvest(terms.law, given.number("year_spread"), given.number("year_score"));
  const double mean = law.germination_mean, rho = law.germination_rho;
  return {{"germination", 100.0 * mean, "%"},
          {"sd_between_lots", 100.0 * std::sqrt(mean * (1.0 - mean) * rho), "%"},
          {"poor_lot", 100.0 * grain::lot_quantile(law, 0.05), "%"},
          {"good_lot", 100.0 * grain::lot_quantile(law, 0.95), "%"},
          {"germination_spread", rho, "1"},
          {"vigour_spread", law.vigour_sd, "1"},
          {"inoculum", law.inoculum, "1"},
          {"price_multiple", terms.price_multiple, "1"}};
}

std::vector<Result> run_rule(const Arguments& given) {
  const grain::TrialRule rule{static_cast<int>(given.number("kernels")), given.number("accept") / 100.0};
  grain::Grade grade;
  grade.germination_mean = given.number("germination") / 100.0;
  grade.germination_rho = given.number("germination_spread");
  grade.tray_rho = given.number("tray_spread");
  const grain::Sieve sieve = grain::sieve(grade, rule);
  return {{"least_sprouted", static_cast<double>(grain::least_sprouted(rule)), "1"},
          {"passes", 100.0 * sieve.kept, "%"},
          {"germination_kept", 100.0 * sieve.mean, "%"},
          {"germination_refused", 100.0 * sieve.refused, "%"}};
}

Argument left_out(Argument argument) {
  argument.optional = true;
  return argument;
}

}  // namespace

Evaluator grade_evaluator() {
  return {.name = "grade",
          .sentence = "What lots of a grade are like, in a usual harvest or another; of 20 lots one is poorer than poor_lot, one better than good_lot.",
          .source = "assumed: feed lots run from 60 to 95 %, trade minima of seed are 80 to 90 %, grain sold as seed costs 3 to 5 times bulk (common "
                    "practice, no source)",
          .arguments = {{.name = "grade", .unit = "", .standard = "own", .sentence = "own, feed, bulk or seed"},
                        left_out(quantity("germination", "%", "", 2.0, 99.9, "mean over lots; that of the grade when left out")),
                        left_out(quantity("germination_spread", "1", "", 0.0001, 0.5, "over-dispersion between lots; that of the grade when left out")),
                        quantity("year_spread", "1", "0", 0.0, 3.0, "sd of the logit of the mean between harvests; a harvest may fall outside the range that germination itself may have, as in a run"),
                        quantity("year_score", "1", "0", -5.0, 5.0, "how this harvest turned out, in those sds; -1 is worse than five in six")},
          .run = run_grade};
}

Evaluator lot_rule_evaluator() {
  return {.name = "lot-rule",
          .sentence = "Share of lots that pass a trial, and how those kept and those refused germinate.",
          .source = "upper tail of the beta-binomial (textbook), summed over the beta law of lots",
          .arguments = {quantity("germination", "%", "", 2.0, 99.9, "mean over lots, or of the one lot where germination_spread is 0"),
                        quantity("germination_spread", "1", "0", 0.0, 0.5, "over-dispersion between lots"),
                        count("kernels", "100", 1.0, 2000.0, "laid out, in trays of a hundred"),
                        quantity("accept", "%", "80", 0.0, 100.0, "least share that must sprout"),
                        quantity("tray_spread", "1", "0.01", 0.0, 0.5, "over-dispersion between trays of one lot")},
          .run = run_rule};
}

}  // namespace rackwright::app
