#include <array>
#include <cmath>
#include <random>

#include "sim/study/sequential.hpp"
#include "tests/catch.hpp"

using namespace rackwright::study;

namespace {
constexpr std::array<std::uint64_t, 6> looks{24, 48, 96, 192, 384, 768};

struct Shares { double shown = 0.0, refuted = 0.0; };

/// How often a test over all looks ends in each verdict when trials succeed with `share`.
Shares verdicts(double share, const ShareTest& test, int rounds, unsigned seed) {
  std::mt19937 engine(seed);
  Shares ended;
  for (int i = 0; i < rounds; ++i) {
    std::uint64_t successes = 0, trials = 0;
    for (std::size_t look = 0; look < looks.size(); ++look) {
      const auto more = static_cast<int>(looks[look] - trials);
      successes += static_cast<std::uint64_t>(std::binomial_distribution<int>(more, share)(engine));
      trials = looks[look];
      const Proof proof = test.at(look, successes, trials);
      if (proof == Proof::open) continue;
      (proof == Proof::shown ? ended.shown : ended.refuted) += 1.0 / rounds;
      break;
    }
  }
  return ended;
}
}  // namespace

TEST_CASE("looking six times keeps the promised error", "[property][statistics]") {
  // 20,000 rounds, error 0.05: at most 0.05 + 4 binomial sd (0.0062); the exact bounds are conservative, so a false
  // alarm is rarer than 1 in 30,000 (seeds fixed).
  for (const Spending spending : {Spending::even, Spending::late}) {
    const ShareTest test(0.9, 0.05, 0.05, looks.size(), spending);
    CHECK(verdicts(0.8999, test, 20000, 51).shown <= 0.0562);
    CHECK(verdicts(0.9, test, 20000, 52).refuted <= 0.0562);
  }
}

TEST_CASE("clear cases are nearly always decided, and rightly", "[property][statistics]") {
  const ShareTest test(0.9, 0.05, 0.05, looks.size());
  CHECK(verdicts(0.96, test, 2000, 53).shown > 0.99);
  CHECK(verdicts(0.80, test, 2000, 54).refuted > 0.99);
}

TEST_CASE("looking six times without spreading the error breaks the promise", "[property][statistics]") {
  // The same test at the full error at each look: shows that the division is needed, and that this test can fail.
  std::mt19937 engine(55);
  const ShareTest each(0.9, 0.05, 0.05, 1);
  int wrong = 0;
  for (int i = 0; i < 20000; ++i) {
    std::uint64_t successes = 0, trials = 0;
    for (const std::uint64_t size : looks) {
      successes +=
          static_cast<std::uint64_t>(std::binomial_distribution<int>(static_cast<int>(size - trials), 0.8999)(engine));
      trials = size;
      if (each.at(0, successes, trials) != Proof::shown) continue;
      ++wrong;
      break;
    }
  }
  CHECK(wrong / 20000.0 > 0.07);
}

TEST_CASE("more successes never turn a verdict down", "[property][statistics]") {
  const ShareTest test(0.85, 0.02, 0.03, 3);
  const auto rank = [](Proof proof) { return proof == Proof::refuted ? 0 : proof == Proof::open ? 1 : 2; };
  for (std::size_t look = 0; look < 3; ++look) {
    for (std::uint64_t n = 1; n < 120; n += 7) {
      int before = 0;
      for (std::uint64_t k = 0; k <= n; ++k) {
        const int here = rank(test.at(look, k, n));
        REQUIRE(here >= before);
        before = here;
      }
    }
  }
}

TEST_CASE("the chance to show a claim never passes the error when the claim is false", "[property][statistics]") {
  for (std::uint64_t n = 1; n < 600; n += 13) REQUIRE(chance_to_show(0.9, 0.9000001, 0.05, n) <= 0.05);
}

TEST_CASE("comparing costs is even-handed", "[property][statistics]") {
  std::mt19937 engine(56);
  std::normal_distribution<double> law(0.3, 1.0);
  for (int i = 0; i < 500; ++i) {
    Moments there, back;
    for (int j = 0; j < 12; ++j) {
      const double x = law(engine);
      there.add(x);
      back.add(-x);
    }
    const Costs one = compare_costs(there, 0.05, 0.2), other = compare_costs(back, 0.05, 0.2);
    if (one == Costs::first_cheaper) REQUIRE(other == Costs::second_cheaper);
    else if (one == Costs::second_cheaper) REQUIRE(other == Costs::first_cheaper);
    else REQUIRE(one == other);
  }
}

TEST_CASE("costs that do not differ are seldom called different", "[property][statistics]") {
  // Each side 0.05 exactly for normal differences: 20,000 rounds, 4 sd = 0.0062 (false alarm 1 in 16,000, seed fixed).
  std::mt19937 engine(57);
  std::normal_distribution<double> law(0.0, 1.0);
  int first = 0, second = 0;
  for (int i = 0; i < 20000; ++i) {
    Moments difference;
    for (int j = 0; j < 8; ++j) difference.add(law(engine));
    const Costs said = compare_costs(difference, 0.05, 0.0);
    first += said == Costs::first_cheaper;
    second += said == Costs::second_cheaper;
  }
  CHECK(first / 20000.0 == Approx(0.05).margin(0.0062).epsilon(0));
  CHECK(second / 20000.0 == Approx(0.05).margin(0.0062).epsilon(0));
}
