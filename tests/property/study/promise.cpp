// The promise of docs/models/sizing.md at the size of a real grid: hundreds of designs, several requirements near their
// bounds, costs skewed by hard years, common luck. RACKWRIGHT_LONG=1 in the environment (scripts/test --long) plays each
// problem 500 times, else 60 times; seeds are fixed. The error allowed is 0.05. If wrong answers came that often, 47 or more
// in 500 would come with probability 2e-5, 11 or more in 60 with 2e-4: the false-alarm rates of the checks.

#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <vector>

#include <boost/random/exponential_distribution.hpp>
#include <boost/random/normal_distribution.hpp>
#include <boost/random/uniform_01.hpp>

#include "sim/random/philox_stream.hpp"
#include "sim/study/elimination.hpp"
#include "tests/catch.hpp"

using namespace rackwright::study;
namespace rnd = rackwright::random;

namespace {

bool whole_test() { return std::getenv("RACKWRIGHT_LONG") != nullptr; }
int games() { return whole_test() ? 500 : 60; }
int too_many() { return whole_test() ? 47 : 11; }

/// What is true of a design: chances of a good year by two limits, a mean, and the cost of a good year.
struct Design { double fill = 1.0, sound = 1.0, mean = 1.0, cost = 100.0; };

struct Problem {
  std::vector<Design> designs;
  ChoiceRules rules;
  double dear_year = 15.0;  ///< a year that fails by its fill costs so much more: reserve feed
  double skew = 3.0;        ///< scale of an exponential share of every design's own luck
};

double true_cost(const Problem& p, std::size_t d) {
  return p.designs[d].cost + p.dear_year * (1.0 - p.designs[d].fill) + p.skew;
}

bool meets(const Problem& p, std::size_t d) {
  const Design& design = p.designs[d];
  return design.fill >= p.rules.requirements[0].least && design.sound >= p.rules.requirements[1].least &&
         design.mean >= p.rules.requirements[2].least;
}

void answer(const Problem& p, std::uint32_t seed, Elimination& choice, const Elimination::Work& work) {
  const Design& design = p.designs[work.design];
  for (std::uint32_t year = work.first; year < work.first + work.count; ++year) {
    const auto key = rnd::make_key(seed, year);
    rnd::Stream shared(key, rnd::Purpose::test, 0);
    rnd::Stream own(key, rnd::Purpose::test, 1 + static_cast<std::uint32_t>(work.design));
    boost::random::uniform_01<double> uniform;
    boost::random::normal_distribution<double> normal;
    boost::random::exponential_distribution<double> skewed;
    const double hardship = uniform(shared), foulness = uniform(shared), weather = normal(shared);
    const bool filled = hardship < design.fill;  // a hard year is hard for all
    const double given[] = {filled ? 1.0 : 0.0, foulness < design.sound ? 1.0 : 0.0,
                            design.mean + 0.05 * weather + 0.02 * normal(own)};
    const double cost = design.cost + 6.0 * weather + p.skew * skewed(own) + (filled ? 0.0 : p.dear_year);
    choice.record(work.design, given, cost);
  }
}

struct Played { bool wrong = false, settled = false; std::uint64_t years = 0; };

Played play(const Problem& p, const ChoiceRules& rules, std::uint32_t seed) {
  Elimination choice(p.designs.size(), rules);
  for (auto work = choice.next(); !work.empty(); work = choice.next()) {
    for (const auto& each : work) answer(p, seed, choice, each);
  }
  Played played{choice.best() && !meets(p, *choice.best()), choice.settled(), 0};
  for (std::size_t d = 0; d < p.designs.size(); ++d) {
    played.years += choice.years(d);
    if (!choice.settled() || !meets(p, d)) continue;
    played.wrong = played.wrong || !choice.best() ||
                   true_cost(p, d) < (1.0 - rules.indifference) * true_cost(p, *choice.best());
  }
  return played;
}

struct Score { int wrong = 0, settled = 0; double years = 0.0; };

Score play(const Problem& p, std::uint32_t first_seed) {
  Score score;
  for (int game = 0; game < games(); ++game) {
    const Played played = play(p, p.rules, first_seed + static_cast<std::uint32_t>(game));
    score.wrong += played.wrong;
    score.settled += played.settled;
    score.years += static_cast<double>(played.years) / games();
  }
  return score;
}

const ChoiceRules rules{.requirements = {{Requirement::Kind::share, 0.9}, {Requirement::Kind::share, 0.98},
                                         {Requirement::Kind::mean, 1.0}},
                        .most = 4000};

/// A grid as racks give it: more money buys better years, with designs of equal cost that differ in what they miss.
Problem like_a_rack(std::size_t levels) {
  Problem p{{}, rules};
  for (std::size_t level = 0; level < levels; ++level) {
    const double x = static_cast<double>(level) / static_cast<double>(levels - 1);
    for (int kind = 0; kind < 6; ++kind) {
      Design d;
      d.fill = std::min(1.0 - 1e-4, 0.2 + 1.1 * x);
      d.sound = kind == 1 ? 0.9 : 0.999;
      d.mean = kind == 2 ? 0.9 : 1.05;
      d.cost = 300.0 + 300.0 * x + 25.0 * kind;
      p.designs.push_back(d);
    }
  }
  return p;
}

// Least equal number of years for every design that settles the search with one look: what equal allocation has to spend.
std::uint64_t equal_allocation(const Problem& p, std::uint32_t seed) {
  for (std::uint32_t years = 32; years <= p.rules.most; years += years / 8) {
    ChoiceRules once = p.rules;
    once.first_stage = once.most = years;
    const Played played = play(p, once, seed);
    if (played.settled) return played.years;
  }
  return std::uint64_t{p.rules.most} * p.designs.size();
}

}  // namespace

TEST_CASE("promise: 240 designs with three requirements, and far fewer years than equal allocation") {
  const Problem p = like_a_rack(40);
  const Score score = play(p, 5000);
  CHECK(score.wrong < too_many());
  CHECK(score.settled > games() * 9 / 10);
  double equal = 0.0;
  constexpr int tries = 3;
  for (std::uint32_t seed = 0; seed < tries; ++seed) equal += static_cast<double>(equal_allocation(p, 5000 + seed)) / tries;
  WARN("240 designs: " << games() << " searches, " << score.wrong << " wrong, " << score.settled << " settled; " << score.years
                       << " years a search, equal allocation " << equal << ", " << equal / score.years << " times as many");
  CHECK(equal > 10.0 * score.years);
}

TEST_CASE("promise: forty cheap designs just under one of three bounds are not taken for good") {
  Problem p{{}, rules};
  for (int d = 0; d < 40; ++d) {
    Design design{0.999, 0.999, 1.05, 100.0 + d};
    if (d % 3 == 0) design.fill = 0.899;
    if (d % 3 == 1) design.sound = 0.979;
    if (d % 3 == 2) design.mean = 0.9995;
    p.designs.push_back(design);
  }
  p.designs.push_back({0.999, 0.9995, 1.05, 200.0});
  p.rules.most = 1500;
  const Score score = play(p, 6000);
  WARN("just under: " << score.wrong << " wrong of " << games() << ", " << score.settled << " settled");
  CHECK(score.wrong < too_many());
}

TEST_CASE("promise: a best design just over all its bounds is not lost, whatever the others cost") {
  Problem p{{{0.93, 0.993, 1.004, 100.0}}, rules};
  for (int d = 0; d < 60; ++d) p.designs.push_back({0.99, 0.9995, 1.05, 101.0 + 0.5 * d});
  p.rules.most = 1500;
  const Score score = play(p, 7000);
  WARN("just over: " << score.wrong << " wrong of " << games() << ", " << score.settled << " settled");
  CHECK(score.wrong < too_many());
}

TEST_CASE("promise: costs skewed by rare dear years are compared within the indifference") {
  Problem p{{}, rules};
  p.dear_year = 60.0;  // one year in fifty or in a hundred
  for (int d = 0; d < 60; ++d)
    p.designs.push_back({d % 2 == 0 ? 0.99 : 0.98, 0.9995, 1.05, 100.0 + 0.4 * (d / 2) + (d % 2 == 0 ? 0.6 : 0.0)});
  const Score score = play(p, 8000);
  WARN("rare dear years: " << score.wrong << " wrong of " << games() << ", " << score.settled << " settled");
  CHECK(score.wrong < too_many());
}

TEST_CASE("promise: a design that looks surely cheaper until its first dear year comes does not win by being cheap in few") {
  // Nothing differs from year to year but the dear years of one in twenty-five: sixteen years may well hold none of them.
  Problem p{{{0.96, 0.9999, 1.05, 100.0}}, rules};
  for (int d = 0; d < 10; ++d) p.designs.push_back({0.9999, 0.9999, 1.05, 106.0 + d});
  p.dear_year = 300.0;
  p.skew = 0.0;
  p.rules.requirements[0].least = 0.9;
  const Score score = play(p, 9000);
  WARN("dear years unseen at first: " << score.wrong << " wrong of " << games() << ", " << score.settled << " settled");
  CHECK(score.wrong < too_many());
}
