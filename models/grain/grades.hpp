#pragma once
// Grades a merchant sells, and how one brand changes from harvest to harvest. See docs/models/lot.md.

#include <array>
#include <optional>
#include <string_view>

#include "models/grain/lot.hpp"

namespace rackwright::grain {

/// own: the keeper's own figures. The others are laws of a trade grade.
enum class GradeName { own, feed, bulk, seed };
inline constexpr std::array<std::string_view, 4> grade_names{"own", "feed", "bulk", "seed"};

/// What a grade is said to be: the law of its lots, and its price against that of bulk grain [1].
struct GradeTerms {
  Grade law;
  double price_multiple = 1.0;
};

/// The terms of a grade; `own` gives the standard figures of Grade at the grain's own price. All are assumed: feed lots run
/// from 60 to 95 % (common practice, no source), seed lots lie above the trade minima of 80 to 90 %, and grain sold as seed
/// costs 3 to 5 times bulk (common practice, no source).
GradeTerms terms_of(GradeName grade);

/// The grade of that name, or nothing.
std::optional<GradeName> find_grade(std::string_view name);

/// What a keeper has stated of a grade; it stands over the grade's own terms.
struct StatedGrade {
  std::optional<double> germination_mean{}, germination_rho{}, vigour_sd{}, inoculum{}, price_multiple{};
};
/// The terms of `grade` with what is stated in their place. Link of vigour and scatter of trays are not a grade's: they are
/// those of `as_it_is`.
GradeTerms terms_of(GradeName grade, const StatedGrade& stated, const Grade& as_it_is);

/// Mean germinable fraction of a brand in one harvest: `mean` in (0, 1) moved on the logit by `score` times `spread` >= 0, where
/// score is standard normal over harvests. `mean` itself without spread; it is the median of the harvests.
double harvest_mean(double mean, double spread, double score);

/// A grade in one harvest.
Grade in_harvest(Grade grade, double spread, double score);

}  // namespace rackwright::grain
