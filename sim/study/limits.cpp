#include "sim/study/limits.hpp"

#include <algorithm>
#include <array>

namespace rackwright::study {
namespace {

double per_year(const Outcome& outcome, double amount) {
  return outcome.days > 0.0 ? amount * 365.0 / outcome.days : 0.0;
}

constexpr std::array limit_table{
    Limit{"fill rate", "too little of the fodder served", true, [](const Target&) { return true; },
          [](const Outcome& o, const Target& t) { return o.fill_rate < t.fill_rate; }, &Target::fill_rate_years},
    Limit{"short days", "too many short days", true, [](const Target& t) { return t.short_days.has_value(); },
          [](const Outcome& o, const Target& t) { return per_year(o, o.short_days) > *t.short_days; },
          &Target::short_days_years},
    Limit{"short days in a row", "too many short days in a row", true,
          [](const Target& t) { return t.longest_short_run.has_value(); },
          [](const Outcome& o, const Target& t) { return o.longest_short_run > *t.longest_short_run; },
          &Target::longest_short_run_years},
    Limit{"worst season", "too little served in the worst season", true,
          [](const Target& t) { return t.season_fill_rate.has_value(); },
          [](const Outcome& o, const Target& t) { return o.worst_season_fill_rate < *t.season_fill_rate; },
          &Target::season_fill_rate_years},
    Limit{"spoiled mats fed", "too many spoiled mats fed", false,
          [](const Target& t) { return t.spoiled_fed.has_value(); },
          [](const Outcome& o, const Target& t) { return per_year(o, o.spoiled_fed) > *t.spoiled_fed; },
          &Target::spoiled_fed_years},
    Limit{"unripe mats fed", "too many mats fed unripe", false,
          [](const Target& t) { return t.unripe_fed < 1.0; },
          [](const Outcome& o, const Target& t) { return o.unripe_fed > t.unripe_fed * o.trays_fed; },
          &Target::unripe_fed_years},
    Limit{"yearly cost", "costs too much", false, [](const Target& t) { return t.yearly_cost.has_value(); },
          [](const Outcome& o, const Target& t) { return per_year(o, o.cost_total) > *t.yearly_cost; },
          &Target::yearly_cost_years},
};

bool apart(const Limit& limit, const Target& target) { return (target.*limit.years).has_value(); }

}  // namespace

std::span<const Limit> limits() { return limit_table; }

std::vector<std::string> broken_limits(const Outcome& outcome, const Target& target) {
  std::vector<std::string> broken;
  for (const Limit& limit : limit_table) {
    if (limit.stated(target) && limit.breaks(outcome, target)) broken.emplace_back(limit.name);
  }
  return broken;
}

bool succeeds(const Outcome& outcome, const Target& target) {
  for (const Limit& limit : limit_table) {
    if (limit.stated(target) && !apart(limit, target) && limit.breaks(outcome, target)) return false;
  }
  return true;
}

bool asks_together(const Target& target) {
  return std::any_of(limit_table.begin(), limit_table.end(), [&](const Limit& limit) { return limit.stated(target) && !apart(limit, target); });
}

std::vector<Requirement> requirements(const Target& target) {
  std::vector<Requirement> all{{Requirement::Kind::share, target.years}};
  for (const Limit& limit : limit_table) {
    if (limit.stated(target) && apart(limit, target)) all.push_back({Requirement::Kind::share, *(target.*limit.years)});
  }
  if (target.mean_fill_rate) all.push_back({Requirement::Kind::mean, *target.mean_fill_rate});
  if (target.mean_yearly_cost) all.push_back({Requirement::Kind::mean, -*target.mean_yearly_cost});
  return all;
}

std::vector<double> given_by(const Outcome& outcome, const Target& target) {
  std::vector<double> all{succeeds(outcome, target) ? 1.0 : 0.0};
  for (const Limit& limit : limit_table) {
    if (limit.stated(target) && apart(limit, target)) all.push_back(limit.breaks(outcome, target) ? 0.0 : 1.0);
  }
  if (target.mean_fill_rate) all.push_back(outcome.fill_rate);
  if (target.mean_yearly_cost) all.push_back(-per_year(outcome, outcome.cost_total));
  return all;
}

std::vector<std::string> requirement_names(const Target& target) {
  std::vector<std::string> all{"the limits together"};
  for (const Limit& limit : limit_table) {
    if (limit.stated(target) && apart(limit, target)) all.emplace_back(limit.name);
  }
  if (target.mean_fill_rate) all.emplace_back("mean fill rate");
  if (target.mean_yearly_cost) all.emplace_back("mean yearly cost");
  return all;
}

}  // namespace rackwright::study
