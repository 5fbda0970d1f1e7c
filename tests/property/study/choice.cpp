// The promise of docs/models/sizing.md on synthetic farms whose truth is known. Fixed seeds. Each farm is searched afresh
// 300 times; if a wrong answer really came with probability 0.10 (the error allowed), 46 or more wrong ones in 300 would
// come with probability 0.0021 (binomial), the false-alarm rate of each check of a rate. The bounds are conservative, so
// wrong answers are in fact far rarer.

#include <cmath>
#include <cstdint>
#include <vector>

#include <boost/random/normal_distribution.hpp>
#include <boost/random/uniform_01.hpp>

#include "sim/random/philox_stream.hpp"
#include "sim/study/elimination.hpp"
#include "tests/catch.hpp"

using namespace rackwright::study;

namespace {

struct Truth { double success = 0.0, cost = 0.0; };

/// A farm: designs differ in chance and cost, and share the luck of the year with correlation.
class Farm {
 public:
  Farm(std::vector<Truth> truths, std::uint32_t seed) : truths_(std::move(truths)), seed_(seed) {}

  // The luck of a year is keyed by the year, as in the simulator, so designs meet it whatever order they are asked in.
  void answer(Elimination& choice, const Elimination::Work& work) const {
    for (std::uint32_t year = work.first; year < work.first + work.count; ++year) {
      const auto key = rackwright::random::make_key(seed_, year);
      rackwright::random::Stream shared(key, rackwright::random::Purpose::test, 0);
      rackwright::random::Stream own(key, rackwright::random::Purpose::test, 1 + static_cast<std::uint32_t>(work.design));
      boost::random::uniform_01<double> uniform;
      boost::random::normal_distribution<double> normal;
      const double hardship = uniform(shared), weather = normal(shared);
      const Truth& truth = truths_[work.design];
      const bool success = hardship < truth.success;  // a hard year is hard for all: nested successes
      choice.record(work.design, success, truth.cost + 8.0 * weather + 2.0 * normal(own) + (success ? 0.0 : 5.0));
    }
  }

  // True mean cost: a failed year costs 5 more (reserve feed).
  [[nodiscard]] double cost(std::size_t d) const { return truths_[d].cost + 5.0 * (1.0 - truths_[d].success); }
  [[nodiscard]] bool meets(std::size_t d, double years) const { return truths_[d].success >= years; }
  [[nodiscard]] std::size_t designs() const { return truths_.size(); }

 private:
  std::vector<Truth> truths_;
  std::uint32_t seed_;
};

struct Score { int wrong = 0, settled = 0, chosen = 0; };

Score play(const std::vector<Truth>& truths, const ChoiceRules& rules, double truth_asked, int games) {
  Score score;
  for (int game = 0; game < games; ++game) {
    const Farm farm(truths, 1000U + static_cast<std::uint32_t>(game));
    Elimination choice(farm.designs(), rules);
    for (auto work = choice.next(); !work.empty(); work = choice.next()) {
      for (const auto& each : work) farm.answer(choice, each);
    }
    bool wrong = choice.best() && !farm.meets(*choice.best(), truth_asked);
    for (std::size_t d = 0; d < farm.designs() && choice.settled(); ++d) {
      if (!farm.meets(d, truth_asked)) continue;
      wrong = wrong || !choice.best() || farm.cost(d) < (1.0 - rules.indifference) * farm.cost(*choice.best());
    }
    score.wrong += wrong;
    score.settled += choice.settled();
    score.chosen += choice.best().has_value();
  }
  return score;
}

constexpr int games = 300;
constexpr int too_many = 46;
constexpr double asked = 0.9;
const ChoiceRules rules{.requirements = {{Requirement::Kind::share, asked}}, .confidence = 0.90, .indifference = 0.02, .first_stage = 16, .most = 1500};

}  // namespace

TEST_CASE("well-spread designs: the right one is chosen at least as often as promised, and the search settles") {
  const Score score = play({{0.50, 60}, {0.75, 70}, {0.97, 80}, {0.99, 90}, {0.999, 100}, {0.60, 110}}, rules, asked, games);
  CHECK(score.wrong < too_many);
  CHECK(score.settled > games * 9 / 10);
  CHECK(score.chosen == games);
}

TEST_CASE("a design just under the target is not chosen more often than promised") {
  const Score score = play({{0.895, 60}, {0.895, 61}, {0.895, 62}, {0.895, 63}, {0.98, 100}}, rules, asked, games);
  CHECK(score.wrong < too_many);
}

TEST_CASE("a best design just over the target is not lost more often than promised") {
  const Score score = play({{0.905, 60}, {0.98, 80}, {0.99, 90}}, rules, asked, games);
  CHECK(score.wrong < too_many);
}

TEST_CASE("nothing meets the target: nothing is chosen more often than promised") {
  const Score score = play({{0.80, 60}, {0.85, 70}, {0.89, 80}}, rules, asked, games);
  CHECK(score.wrong < too_many);
  CHECK(score.chosen < too_many);
}

TEST_CASE("many near-equal costs: what is chosen is within the indifference as often as promised") {
  std::vector<Truth> truths;
  for (int d = 0; d < 20; ++d) truths.push_back({0.99, 100.0 + 0.3 * d});
  const Score score = play(truths, rules, asked, games / 3);
  CHECK(score.wrong < 22);  // of 100: probability 0.0003 at one in ten
  CHECK(score.settled == games / 3);
}

TEST_CASE("wrong answers are seen: a search that asks too little of its designs is caught") {
  ChoiceRules lax = rules;
  lax.requirements[0].least = 0.85;
  const Score score = play({{0.895, 60}, {0.98, 100}}, lax, 0.9, games / 3);
  CHECK(score.wrong > 50);
}
