// The sentences of sizing: what a design had of its target, where it fails, and in which seasons.

#include "sim/study/limits.hpp"
#include "sim/study/verdict_words.hpp"
#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::study;

TEST_CASE("a cost limit has no season, a limit with its own share says how often it held") {
  Candidate candidate;
  candidate.replications = 20;
  candidate.success.mean = 0.5;
  candidate.broken = {{"yearly cost", 1.0}};
  candidate.short_seasons = {0, 0, 1, 0};
  CHECK(failure_words(candidate, 365.0) == "meets the target in only 50 % of years (10 of 20 played): costs too much");
  candidate.success.mean = 1.0;
  candidate.broken = {{"spoiled mats fed", 1.0}};
  candidate.kept = {{"the limits together", {1.0, 0.8, 1.0, 0, 0, 0}, 0.9, false},
                    {"spoiled mats fed", {0.93, 0.8, 1.0, 0, 0, 0}, 0.99, false}};
  CHECK(failure_words(candidate, 365.0) == "keeps the limit on spoiled mats fed in only 93 % of years, 99 % are asked for");
  CHECK(gap(candidate) == Approx(-0.06));
  candidate.kept[1] = {"mean yearly cost", {-1300.0, 0, 0, 0, 0, 0}, -1200.0, true};
  CHECK(failure_words(candidate, 365.0) == "mean yearly cost 1300, above the 1200 allowed");
  candidate.kept[1] = {"mean fill rate", {0.95, 0, 0, 0, 0, 0}, 0.97, true};
  CHECK(failure_words(candidate, 365.0) == "mean fill rate 0.95, below the 0.97 asked for");
}

TEST_CASE("what a design had of its target is told limit by limit, and of those taken together only where there are any") {
  Candidate candidate;
  candidate.replications = 40;
  candidate.success.mean = 1.0;
  candidate.kept = {{"the limits together", {1.0, 0.9, 1.0, 0, 0, 0}, 0.9, false}};
  Target target;
  target.fill_rate = 0.96;
  CHECK(had_words(candidate, target, 365.0) == "meets the target in 100 % of years (40 of 40 played)");
  candidate.kept.push_back({"fill rate", {0.38, 0.2, 0.5, 0, 0, 0}, 0.8, false});
  target.fill_rate_years = 0.8;
  target.unripe_fed = 1.0;  // asks nothing
  CHECK_FALSE(asks_together(target));
  CHECK(had_words(candidate, target, 60.0) == "keeps the limit on fill rate in 38 % of runs, 80 % are asked for");
  target.short_days = 10.0;
  CHECK(asks_together(target));
  CHECK(had_words(candidate, target, 365.0) == "keeps the limits taken together in 100 % of years (40 of 40 played); keeps the limit on fill rate in 38 % of years, 80 % are asked for");
  candidate.kept[1] = {"mean yearly cost", {-1300.0, 0, 0, 0, 0, 0}, -1200.0, true};
  CHECK(had_words(candidate, target, 365.0).ends_with("; mean yearly cost 1300, 1200 allowed"));
  candidate.success.mean = 0.5;
  candidate.kept.front().value.mean = 0.5;
  candidate.broken = {{"short days", 1.0}};
  CHECK(failure_words(candidate, 365.0).starts_with("keeps the limits taken together in only 50 % of years (20 of 40 played)"));
}

TEST_CASE("seasons in words") {
  CHECK(season_words({0, 0, 0, 0}) == "");
  CHECK(season_words({0.1, 0.1, 0.7, 0.1}) == "mostly in June to August");
  CHECK(season_words({0.45, 0.05, 0.05, 0.45}) == "mostly in September to February");
  CHECK(season_words({0.25, 0.25, 0.25, 0.25}) == "all year round");
  CHECK(season_words({0.34, 0.16, 0.3, 0.2}) == "all year round");
  // Neither one season alone nor the whole year.
  CHECK(season_words({0.35, 0.08, 0.38, 0.19}) == "most in June to August (38 %), least in March to May (8 %)");
  CHECK(season_words({0.26, 0.11, 0.51, 0.12}) == "most in June to August (51 %), least in March to May (11 %)");
  CHECK(season_words({0.41, 0.0, 0.39, 0.2}) == "most in December to February (41 %), least in March to May (0 %)");
}

TEST_CASE("failures in words") {
  Candidate candidate;
  candidate.replications = 24;
  candidate.success.mean = 14.0 / 24.0;
  candidate.broken = {{"fill rate", 0.8}, {"yearly cost", 0.3}};
  candidate.short_seasons = {0, 0, 1, 0};
  const std::string failure = "meets the target in only 58.3 % of years (14 of 24 played): too little of the fodder served";
  CHECK(failure_words(candidate, 365.0) == failure + "; short mostly in June to August");
  CHECK(failure_words(candidate, 120.0) == "meets the target in only 58.3 % of runs (14 of 24 played): too little of the fodder served");
  candidate.success.mean = 0.0;
  CHECK(failure_words(candidate, 120.0) == "meets the target in none of 24 runs played: too little of the fodder served");
  CHECK(difference_words(41.2, "EUR") == "on the same years costs 41 EUR a year more than the chosen design");
  CHECK(difference_words(-0.5, "EUR") == "on the same years costs 0.50 EUR a year less than the chosen design");
}
