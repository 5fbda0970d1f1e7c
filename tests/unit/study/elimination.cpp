#include "sim/study/elimination.hpp"

#include <cmath>
#include <cstdint>
#include <functional>

#include "tests/catch.hpp"

using namespace rackwright::study;

namespace {

// Answers every request for work from a table of (success, cost) by design and year.
struct Answer { bool success = false; double cost = 0.0; };
using World = std::function<Answer(std::size_t design, std::uint32_t year)>;

void search(Elimination& choice, const World& world) {
  while (true) {
    const auto work = choice.next();
    if (work.empty()) return;
    for (const auto& each : work) {
      REQUIRE(each.first == choice.years(each.design));
      REQUIRE(each.count > 0);
      for (std::uint32_t year = each.first; year < each.first + each.count; ++year) {
        const Answer answer = world(each.design, year);
        choice.record(each.design, answer.success, answer.cost);
      }
    }
  }
}

double ripple(std::uint32_t year) { return 3.0 * std::sin(1.7 * year); }  // the same fortune for every design

}  // namespace

TEST_CASE("fewer years than are needed at least show nothing, so many show a design that keeps its target in all of them") {
  for (const double share : {0.8, 0.9, 0.99})
    for (const std::size_t designs : {1U, 6U, 100U}) {
      INFO(share << " " << designs);
      const ChoiceRules asked{.requirements = {Requirement{Requirement::Kind::share, share}}, .most = 10};
      const auto needed = static_cast<std::uint32_t>(least_years(asked, designs));
      const auto shown = [&](std::uint32_t most) {
        ChoiceRules rules = asked;
        rules.most = most;
        Elimination choice(designs, rules);
        search(choice, [](std::size_t design, std::uint32_t) { return Answer{true, 100.0 + 10.0 * static_cast<double>(design)}; });
        return choice.best().has_value();
      };
      CHECK(shown(needed));
      CHECK_FALSE(shown(needed - 1 - needed / 20));  // fewer looks ask for a little less
    }
  CHECK(least_years({.requirements = {Requirement{Requirement::Kind::mean, 0.9}}}, 5) == 0);
}

TEST_CASE("looks grow by half from the first stage and end at the most") {
  CHECK(looks({.first_stage = 16, .most = 200}) == std::vector<std::uint32_t>{16, 24, 36, 54, 81, 122, 183, 200});
  CHECK(looks({.first_stage = 24, .most = 24}) == std::vector<std::uint32_t>{24});
  CHECK(looks({.first_stage = 50, .most = 10}) == std::vector<std::uint32_t>{10});
}

TEST_CASE("levels of all bounds together spend the error allowed and no more") {
  const ChoiceRules rules{.confidence = 0.9, .first_stage = 10, .most = 30};  // looks at 10, 15, 23, 30
  const Levels level = levels(rules, 5);
  // Of cost: two questions, four others, four looks.
  const double spent = 5 * level.meets + level.fails + 2 * 4 * 4 * level.dearer;
  CHECK(spent == Approx(0.1).epsilon(1e-12));
  ChoiceRules three = rules;  // the best must not be lost to any of them; to be shown, a bad one must pass all
  three.requirements.resize(3);
  CHECK(levels(three, 5).fails == Approx(level.fails / 3.0));
  CHECK(levels(three, 5).meets == Approx(level.meets));
}

TEST_CASE("a clear case: the cheapest design that always succeeds is chosen, the cheaper ones that never do are out") {
  Elimination choice(4, {});
  search(choice, [](std::size_t d, std::uint32_t year) {
    return Answer{d >= 2, 100.0 + 10.0 * static_cast<double>(d) + ripple(year)};
  });
  REQUIRE(choice.best() == 2);
  CHECK(choice.settled());
  CHECK(choice.standing(0) == Standing::fails);
  CHECK(choice.standing(1) == Standing::fails);
  CHECK(choice.standing(3) == Standing::costlier);
  CHECK(choice.cost_difference(3, 2) == Approx(10.0));
  CHECK(choice.years(0) == 16);  // hopeless designs get no second stage
}

TEST_CASE("designs that never succeed leave nothing, and that is settled") {
  Elimination choice(3, {});
  search(choice, [](std::size_t, std::uint32_t year) { return Answer{year % 2 == 0, 100.0}; });
  CHECK_FALSE(choice.best());
  CHECK(choice.settled());
  for (std::size_t d = 0; d < 3; ++d) CHECK(choice.standing(d) == Standing::fails);
}

TEST_CASE("a design on the limit spends its years and stays open") {
  Elimination choice(2, {.most = 400});
  search(choice, [](std::size_t d, std::uint32_t year) {
    if (d == 0) return Answer{year % 10 != 9, 90.0};  // nine of ten exactly, and cheaper
    return Answer{true, 100.0 + ripple(year)};
  });
  CHECK(choice.best() == 1);
  CHECK_FALSE(choice.settled());
  CHECK(choice.standing(0) == Standing::open);
  CHECK(choice.rival(0));
  CHECK(choice.years(0) == 400);
}

TEST_CASE("a difference within the indifference ends the search early") {
  const auto world = [](std::size_t d, std::uint32_t year) {
    const double own = 0.4 * std::cos(2.3 * year * (1.0 + static_cast<double>(d)));
    return Answer{true, (d == 0 ? 100.0 : 100.5) + ripple(year) + own};
  };
  Elimination wide(2, {.indifference = 0.02});
  search(wide, world);
  CHECK(wide.settled());
  CHECK(wide.best() == 0);
  CHECK(wide.years(0) < 400);
}

TEST_CASE("designs of identical cost are told apart by none, and neither is called dearer") {
  Elimination choice(2, {.indifference = 0.02});
  search(choice, [](std::size_t, std::uint32_t year) { return Answer{true, 100.0 + ripple(year)}; });
  CHECK(choice.best() == 0);  // the first of equals
  CHECK(choice.standing(1) != Standing::costlier);
  CHECK(choice.settled());
}

TEST_CASE("a dropped design is never asked for again and the choice is not called settled") {
  Elimination choice(2, {});
  choice.drop(0);
  search(choice, [](std::size_t d, std::uint32_t year) {
    CHECK(d == 1);
    return Answer{true, 100.0 + ripple(year)};
  });
  CHECK(choice.best() == 1);
  CHECK_FALSE(choice.settled());
}

TEST_CASE("what was dearer than a best design that breaks off is so no longer") {
  Elimination choice(3, {});
  search(choice, [](std::size_t d, std::uint32_t year) { return Answer{d != 1, 100.0 + 10.0 * static_cast<double>(d) + ripple(year)}; });
  REQUIRE(choice.best() == 0);
  REQUIRE(choice.standing(2) == Standing::costlier);
  choice.drop(0);
  CHECK(choice.best() != 0);
  CHECK(choice.standing(2) != Standing::costlier);
  search(choice, [](std::size_t d, std::uint32_t year) { return Answer{d != 1, 100.0 + 10.0 * static_cast<double>(d) + ripple(year)}; });
  CHECK(choice.best() == 2);
  CHECK_FALSE(choice.settled());
}

TEST_CASE("every requirement must hold, a mean as well as a share") {
  const ChoiceRules rules{.requirements = {{Requirement::Kind::share, 0.9}, {Requirement::Kind::mean, 5.0}}};
  Elimination choice(3, rules);
  for (auto work = choice.next(); !work.empty(); work = choice.next()) {
    for (const auto& each : work) {
      for (std::uint32_t year = each.first; year < each.first + each.count; ++year) {
        // The first keeps the share alone, the second the mean alone, the third both.
        const double share = each.design == 1 ? 0.0 : 1.0, mean = (each.design == 0 ? 4.0 : 6.0) + 0.1 * ripple(year);
        const double given[] = {share, mean};
        choice.record(each.design, given, 100.0 + 10.0 * static_cast<double>(each.design) + ripple(year));
      }
    }
  }
  CHECK(choice.standing(0) == Standing::fails);
  CHECK(choice.standing(1) == Standing::fails);
  CHECK(choice.best() == 2);
  CHECK(choice.settled());
}

TEST_CASE("no designs at all: nothing to do") {
  Elimination choice(0, {});
  CHECK(choice.next().empty());
  CHECK_FALSE(choice.best());
}
