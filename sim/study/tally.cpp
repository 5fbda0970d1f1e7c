#include "sim/study/tally.hpp"

#include "sim/study/intervals.hpp"
#include "sim/study/limits.hpp"

namespace rackwright::study {

std::vector<double> Tally::add(const Outcome& outcome, const Target& target) {
  const double scale = outcome.days > 0.0 ? 365.0 / outcome.days : 0.0;
  fill_rate.add(outcome.fill_rate);
  cost_year.add(outcome.cost_total * scale);
  short_days.add(outcome.short_days * scale);
  spoiled_trays.add((outcome.spoiled_mould + outcome.spoiled_sour) * scale);
  overdue_trays.add(outcome.overdue_trays * scale);
  labour.add(outcome.labour * scale);
  for (std::size_t season = 0; season < short_seasons.size(); ++season) {
    short_seasons[season] += outcome.short_days_by_season[season];
  }
  const auto limits = broken_limits(outcome, target);
  for (const std::string& limit : limits) ++broken[limit];
  ++years;
  if (limits.empty()) ++faultless;
  std::vector<double> values = given_by(outcome, target);
  if (values.front() > 0.0) ++successes;
  keeping.add(values);
  return values;
}

void Tally::describe(Candidate& candidate, const Target& target) const {
  candidate.replications = static_cast<std::uint32_t>(years);
  if (years == 0) return;
  candidate.success = share_estimate(successes, years);
  candidate.fill_rate = mean_estimate(fill_rate);
  candidate.cost_year = mean_estimate(cost_year);
  candidate.short_days = mean_estimate(short_days);
  candidate.spoiled_trays = mean_estimate(spoiled_trays);
  candidate.overdue_trays = mean_estimate(overdue_trays);
  candidate.labour = mean_estimate(labour);
  double short_in_all = 0.0;
  for (const double days : short_seasons) short_in_all += days;
  for (std::size_t season = 0; season < short_seasons.size(); ++season) {
    candidate.short_seasons[season] = short_in_all > 0.0 ? short_seasons[season] / short_in_all : 0.0;
  }
  candidate.kept = keeping.kept(target);
  const auto failed = static_cast<double>(years - faultless);
  candidate.broken.clear();
  for (const auto& [limit, count] : broken) candidate.broken.emplace_back(limit, static_cast<double>(count) / failed);
}

}  // namespace rackwright::study
