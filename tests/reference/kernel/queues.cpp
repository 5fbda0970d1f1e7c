// Queues run on the kernel against closed forms. Each comparison is one t test of batch means at a two-sided level of
// 1e-4 with a fixed seed; 16 comparisons here, so a right kernel with another seed would fail one of them about once in
// 600 runs.

#include <boost/math/distributions/students_t.hpp>

#include "sim/kernel/queue_precise.hpp"
#include "sim/random/philox_stream.hpp"
#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::kernel;

namespace {

// Erlang's delay formula by the loss formula's recursion, B(0) = 1, B(n) = a B(n-1) / (n + a B(n-1)),
// C = c B / (c - a (1 - B)). Textbook, e.g. Gross & Harris, Fundamentals of Queueing Theory, M/M/c.
double erlang_b(int servers, double load) {
  double b = 1.0;
  for (int n = 1; n <= servers; ++n) b = load * b / (n + load * b);
  return b;
}
double erlang_c(int servers, double load) {
  const double b = erlang_b(servers, load);
  return servers * b / (servers - load * (1.0 - b));
}

void agrees(const char* what, const Estimate& found, double expected, double relative_precision) {
  const double limit = quantile(boost::math::students_t(29), 1.0 - 0.5e-4);
  INFO(what << ": found " << found.mean << " +- " << found.standard_error << ", expected " << expected);
  CHECK(std::abs(found.mean - expected) <= limit * found.standard_error);
  CHECK(found.standard_error <= relative_precision * expected);  // or the line above would prove nothing
}

QueueResult run(const QueueModel& model, std::uint64_t replication) {
  random::Stream engine(random::make_key(20240501, replication), random::Purpose::test);
  return run_queue(model, plan_for(model), engine);
}

}  // namespace

TEST_CASE("Erlang formulas give the tabled values") {
  // Worked out from the formulas for this project; six digits.
  CHECK(erlang_c(2, 1.0) == near(1.0 / 3.0, 1e-12));
  CHECK(erlang_c(2, 1.6) == near(0.711111, 5e-7));
  CHECK(erlang_c(3, 2.0) == near(4.0 / 9.0, 1e-12));
  CHECK(erlang_c(3, 2.4) == near(0.647191, 5e-7));
  CHECK(erlang_c(4, 3.0) == near(0.509434, 5e-7));
  CHECK(erlang_b(2, 1.0) == near(0.2, 1e-12));
  CHECK(erlang_b(3, 2.0) == near(0.210526, 5e-7));
  CHECK(erlang_b(5, 4.0) == near(0.199067, 5e-7));
  CHECK(erlang_b(10, 8.0) == near(0.121661, 5e-7));
}

TEST_CASE("M/M/1 at utilisation 0.8 has L = 4 and Wq = 4") {
  // L = rho / (1 - rho), Wq = rho / (mu - lambda), mu = 1.
  const QueueResult found = run({1, 0.8, 1.0, ServiceLaw::exponential}, 1);
  agrees("L", found.number_in_system, 4.0, 0.02);
  agrees("Wq", found.wait, 4.0, 0.02);
  agrees("P(wait)", found.wait_probability, 0.8, 0.005);
  agrees("Lq", found.number_waiting, 3.2, 0.02);
}

TEST_CASE("M/D/1 at utilisation 0.8 has Lq = 1.6") {
  // Pollaczek-Khinchine: Lq = rho^2 / (2 (1 - rho)).
  const QueueResult found = run({1, 0.8, 1.0, ServiceLaw::constant}, 2);
  agrees("Lq", found.number_waiting, 1.6, 0.02);
  agrees("Wq", found.wait, 2.0, 0.02);
}

TEST_CASE("M/M/c delays follow Erlang C") {
  const std::pair<int, double> rows[] = {{2, 1.0}, {2, 1.6}, {3, 2.0}, {3, 2.4}, {4, 3.0}};
  std::uint64_t replication = 10;
  for (const auto& [servers, load] : rows) {
    INFO("servers " << servers << ", load " << load << " erlang, service rate 0.25");
    const QueueResult found = run({servers, 0.25 * load, 0.25, ServiceLaw::exponential}, ++replication);
    const double c = erlang_c(servers, load);
    agrees("P(wait)", found.wait_probability, c, 0.01);
    agrees("Wq", found.wait, c / (0.25 * (servers - load)), 0.03);
  }
}

TEST_CASE("M/M/1 from empty: mean wait of the first 1000 customers is 0.497") {
  // Law, Simulation Modeling and Analysis, single-server example (mean interarrival 1, mean service 0.5, 1000 delays).
  // The expected mean over runs, 0.497 +- 0.003 (standard error), and the sd between runs, 0.085, were worked out for
  // this project by an independent program. 10 000 replications have standard error 0.00085; with that of the
  // reference, 3.89 combined standard errors (0.0122) are passed once in 10 000 right runs.
  Averager mean;
  for (std::uint64_t i = 0; i < 10000; ++i) {
    random::Stream engine(random::make_key(20240502, i), random::Purpose::test);
    Queue queue({1, 1.0, 2.0, ServiceLaw::exponential}, engine);
    mean.add(queue.serve(1000).wait / 1000.0);
  }
  INFO("found " << mean.estimate().mean << " +- " << mean.estimate().standard_error);
  CHECK(std::abs(mean.estimate().mean - 0.497) <= 3.89 * std::hypot(0.003, mean.estimate().standard_error));
  CHECK(std::sqrt(mean.variance()) == Approx(0.085).epsilon(0.1));
  CHECK(mean.estimate().standard_error < 0.001);
}

// Erlang C again, run until the wait is known to 0.2 %: each within four of its own standard errors (with a right
// program, one such case in about 8 000 is not), and within 1 % of the formula.
TEST_CASE("a queue run to a stated precision reaches it") {
  const std::pair<int, double> rows[] = {{1, 0.3}, {1, 0.8}, {2, 1.6}, {4, 3.0}};
  for (const auto& [servers, load] : rows) {
    INFO("servers " << servers << ", load " << load << " erlang");
    random::Stream engine(random::make_key(20240503, static_cast<std::uint64_t>(servers)), random::Purpose::test);
    const PreciseQueue found = run_queue_precisely({servers, load, 1.0, ServiceLaw::exponential}, {}, engine);
    const double c = erlang_c(servers, load), wait = c / (servers - load);
    CHECK(found.wait.standard_error <= 0.002 * found.wait.mean);
    CHECK(std::abs(found.wait.mean - wait) <= 4.0 * found.wait.standard_error);
    CHECK(std::abs(found.wait.mean - wait) <= 0.01 * wait);
    CHECK(std::abs(found.wait_probability.mean - c) <= 4.0 * found.wait_probability.standard_error);
  }
}

// The stated standard errors are honest though the run stops when they are small enough: over 60 runs of M/M/1 at 0.6 the mean squared t is near 1. Were it chi-square
// over 60 with 60 degrees of freedom (the batches make it a little wider), 0.5 to 1.75 is left once in about 2 000.
TEST_CASE("standard errors with control variates are honest") {
  double squares = 0.0;
  int longer = 0;
  for (std::uint64_t i = 0; i < 60; ++i) {
    random::Stream engine(random::make_key(20240504, i), random::Purpose::test);
    const PreciseQueue found = run_queue_precisely({1, 0.6, 1.0, ServiceLaw::exponential}, {.relative = 0.004}, engine);
    longer += found.customers > 40 * 20'000 ? 1 : 0;  // than the batches that every run has
    squares += std::pow((found.wait.mean - 1.5) / found.wait.standard_error, 2) / 60.0;
  }
  INFO("mean squared t " << squares);
  CHECK(squares > 0.5);
  CHECK(squares < 1.75);
  CHECK(longer >= 20);
}
