#include "models/grain/grades.hpp"

#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"

namespace rackwright::grain {

GradeTerms terms_of(GradeName grade) {
  GradeTerms terms;
  Grade& law = terms.law;
  switch (grade) {
    case GradeName::own: break;
    case GradeName::feed:  // mean and spread of the prior word feed-grade: worth ten kernels
      law.germination_mean = 0.85;
      law.germination_rho = 1.0 / 11.0;
      law.vigour_sd = 0.20;
      law.inoculum = 2.0;
      terms.price_multiple = 0.9;
      break;
    case GradeName::bulk:
      law.germination_mean = 0.89;
      law.germination_rho = 0.03;
      break;
    case GradeName::seed:
      law.germination_mean = 0.92;
      law.germination_rho = 0.01;
      law.vigour_sd = 0.10;
      law.inoculum = 0.5;
      terms.price_multiple = 4.0;
      break;
  }
  return terms;
}

std::optional<GradeName> find_grade(std::string_view name) {
  const auto at = std::find(grade_names.begin(), grade_names.end(), name);
  if (at == grade_names.end()) return std::nullopt;
  return static_cast<GradeName>(at - grade_names.begin());
}

GradeTerms terms_of(GradeName grade, const StatedGrade& stated, const Grade& as_it_is) {
  GradeTerms terms = terms_of(grade);
  terms.law.vigour_correlation = as_it_is.vigour_correlation;
  terms.law.tray_rho = as_it_is.tray_rho;
  terms.law.germination_mean = stated.germination_mean.value_or(terms.law.germination_mean);
  terms.law.germination_rho = stated.germination_rho.value_or(terms.law.germination_rho);
  terms.law.vigour_sd = stated.vigour_sd.value_or(terms.law.vigour_sd);
  terms.law.inoculum = stated.inoculum.value_or(terms.law.inoculum);
  terms.price_multiple = stated.price_multiple.value_or(terms.price_multiple);
  return terms;
}

double harvest_mean(double mean, double spread, double score) {
  EXPECTS(mean > 0.0 && mean < 1.0 && spread >= 0.0);
  if (spread == 0.0) return mean;
  const double odds = mean / (1.0 - mean) * std::exp(spread * score);
  return odds / (1.0 + odds);
}

Grade in_harvest(Grade grade, double spread, double score) {
  grade.germination_mean = harvest_mean(grade.germination_mean, spread, score);
  return grade;
}

}  // namespace rackwright::grain
