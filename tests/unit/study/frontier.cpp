#include "sim/study/frontier.hpp"

#include "tests/catch.hpp"

using namespace rackwright::study;

namespace {
std::vector<std::size_t> names(const std::vector<CostAndService>& points) {
  std::vector<std::size_t> all;
  for (const auto& point : points) all.push_back(point.design);
  return all;
}
}  // namespace

TEST_CASE("the frontier keeps what nothing cheaper or equal serves better than") {
  const auto curve = frontier({{0, 100, 0.90}, {1, 110, 0.90}, {2, 120, 0.95}, {3, 115, 0.94}, {4, 120, 0.93}, {5, 90, 0.5},
                               {6, 120, 0.95}});
  CHECK(names(curve) == std::vector<std::size_t>{5, 0, 3, 2});
  CHECK(frontier({}).empty());
}

TEST_CASE("the knee is where the curve bends most") {
  CHECK(knee({{0, 0, 0.0}, {1, 1, 0.75}, {2, 2, 0.9}, {3, 10, 1.0}}) == 2);
  CHECK(knee({{0, 0, 0.0}, {1, 1, 0.85}, {2, 2, 0.9}, {3, 10, 1.0}}) == 1);
  CHECK(knee({{0, 0, 0.0}, {1, 5, 0.2}, {2, 10, 1.0}}) == -1);  // it bends the other way
  CHECK(knee({{0, 0, 0.0}, {1, 10, 1.0}}) == -1);
}

TEST_CASE("a step is told by paired differences, and what is not more than luck is said to be so") {
  YearValues from, to;
  for (int year = 0; year < 40; ++year) {
    const double luck = year % 5;
    from.cost.push_back(100 + luck), to.cost.push_back(120 + luck + 0.1 * (year % 2));
    from.fill_rate.push_back(0.90 + 0.01 * luck), to.fill_rate.push_back(0.92 + 0.01 * luck + 0.001 * (year % 3));
    from.short_days.push_back(20 - luck), to.short_days.push_back(20 - luck + (year % 2 == 0 ? 1 : -1));
  }
  const Step step = step_up(from, to);
  CHECK(step.cost.mean == Approx(20.05));
  CHECK(step.cost.sd < 0.1);  // the shared luck is gone
  CHECK(step.fill_rate.low > 0.0);
  const std::string words = step_words(step, "EUR");
  CHECK(words.find("20.05 (20.03 to 20.07) EUR a year more buys 2.10") == 0);
  CHECK(words.find("short days") == std::string::npos);
  CHECK(buys_something(step));
  YearValues worse = to;
  for (double& days : worse.short_days) days += 5.0;
  CHECK_FALSE(buys_something(step_up(from, worse)));  // more fodder, and more short days
  CHECK_FALSE(buys_something(step_up(to, from)));
  to.fill_rate = from.fill_rate;
  CHECK_FALSE(buys_something(step_up(from, to)));
  CHECK(step_words(step_up(from, to), "EUR").find("buys nothing that can be told from luck") != std::string::npos);
}
