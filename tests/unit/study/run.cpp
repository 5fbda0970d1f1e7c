#include "sim/study/run.hpp"

#include <stdexcept>
#include <vector>

#include "sim/replication/columns.hpp"
#include "sim/replication/replicate.hpp"
#include "tests/catch.hpp"
#include "tests/unit/study/small_farm.hpp"

using namespace rackwright;
using namespace rackwright::study;

namespace {

const Plan& plan() {
  static const Plan made = make_plan(test::goat_farm());
  return made;
}

std::vector<Outcome> outcomes_of(const RunRequest& request, Bands* bands = nullptr) {
  std::vector<Outcome> outcomes;
  run_replications(plan(), request, bands, [&](const Block& block) {
    CHECK(block.failures.empty());
    outcomes.insert(outcomes.end(), block.outcomes.begin(), block.outcomes.end());
  });
  return outcomes;
}

void check_same(const Outcome& a, const Outcome& b) {
  CHECK(a.replication == b.replication);
  CHECK(a.fingerprint == b.fingerprint);
  for (const Column& column : outcome_columns()) {
    CAPTURE(column.name);
    CHECK(column.get(a) == column.get(b));
  }
}

}  // namespace

TEST_CASE("the number of threads and the size of blocks change no bit of outcomes or bands") {
  Bands alone(60), shared(60);
  const auto one = outcomes_of({.replications = 30, .block = 30, .threads = 1}, &alone);
  const auto three = outcomes_of({.replications = 30, .block = 4, .threads = 3}, &shared);
  REQUIRE(one.size() == 30);
  REQUIRE(three.size() == 30);
  for (std::size_t i = 0; i < one.size(); ++i) check_same(one[i], three[i]);
  CHECK(alone.replications() == 30);
  for (int day = 0; day < 60; ++day) {
    for (std::size_t column = 0; column < daily_columns().size(); ++column) {
      CHECK(alone.mean(day, column) == shared.mean(day, column));
      for (const double p : {0.0, 0.05, 0.5, 0.95, 1.0}) {
        CHECK(alone.quantile(day, column, p) == shared.quantile(day, column, p));
      }
    }
  }
}

TEST_CASE("a replication is the same alone as among many") {
  const auto many = outcomes_of({.replications = 25, .block = 5, .threads = 2});
  const auto alone = outcomes_of({.first = 17, .replications = 1, .threads = 1});
  REQUIRE(alone.size() == 1);
  check_same(alone.front(), many.at(17));
  CHECK(many.at(17).fingerprint != many.at(18).fingerprint);
}

TEST_CASE("blocks come in order, the last one short, from the first replication asked") {
  std::vector<std::uint32_t> firsts, sizes, progress;
  RunRequest request{.first = 100, .replications = 10, .block = 4, .threads = 2};
  request.progress = [&](std::uint32_t done) { progress.push_back(done); };
  const auto done = run_replications(plan(), request, nullptr, [&](const Block& block) {
    firsts.push_back(block.first);
    sizes.push_back(static_cast<std::uint32_t>(block.outcomes.size()));
    for (std::size_t i = 0; i < block.outcomes.size(); ++i) CHECK(block.outcomes[i].replication == block.first + i);
  });
  CHECK(done == 10);
  CHECK(firsts == std::vector<std::uint32_t>{100, 104, 108});
  CHECK(sizes == std::vector<std::uint32_t>{4, 4, 2});
  CHECK(progress == std::vector<std::uint32_t>{4, 8, 10});
}

TEST_CASE("daily rows are delivered for the replications asked and no others") {
  std::vector<Series> found;
  const RunRequest request{.replications = 9, .block = 3, .threads = 2, .series = {2, 7}};
  run_replications(plan(), request, nullptr, [&](const Block& block) {
    found.insert(found.end(), block.series.begin(), block.series.end());
  });
  REQUIRE(found.size() == 2);
  CHECK(found[0].replication == 2);
  CHECK(found[1].replication == 7);
  CHECK(found[0].rows.size() == 60);
  Replicator again(plan());
  again.run(1, 7);
  for (std::size_t day = 0; day < 60; ++day) CHECK(found[1].rows[day].served == again.daily()[day].served);
}

TEST_CASE("a stop delivers an unbroken beginning, and the bands hold just that") {
  std::atomic<bool> stop{false};
  Bands bands(60);
  std::uint32_t next = 0;
  RunRequest request{.replications = 400, .block = 2, .threads = 2};
  request.stop = &stop;
  const auto done = run_replications(plan(), request, &bands, [&](const Block& block) {
    CHECK(block.first == next);
    next += static_cast<std::uint32_t>(block.outcomes.size());
    if (next >= 8) stop = true;
  });
  CHECK(done == next);
  CHECK(done >= 8);
  CHECK(done < 100);
  CHECK(bands.replications() == done);
}

TEST_CASE("an exception of the sink is passed on and nothing is added to the bands") {
  Bands bands(60);
  const auto full = [](const Block& block) {
    if (block.first >= 4) throw std::runtime_error("disk full");
  };
  CHECK_THROWS_WITH(run_replications(plan(), {.replications = 40, .block = 2, .threads = 2}, &bands, full), "disk full");
  CHECK(bands.replications() == 0);
}

TEST_CASE("replications that throw are recorded with their number and the run goes on") {
  Bands wrong(59);  // a day too few: adding to it breaks a contract in every replication
  std::vector<std::uint32_t> failed;
  const RunRequest request{.first = 5, .replications = 7, .block = 3, .threads = 2};
  const auto done = run_replications(plan(), request, &wrong, [&](const Block& block) {
    CHECK(block.outcomes.empty());
    for (const Failure& failure : block.failures) {
      failed.push_back(failure.replication);
      CHECK(failure.what.find("expects") != std::string::npos);
    }
  });
  CHECK(done == 7);
  CHECK(failed == std::vector<std::uint32_t>{5, 6, 7, 8, 9, 10, 11});
  CHECK(wrong.replications() == 0);
}

TEST_CASE("no replications: nothing is delivered") {
  CHECK(run_replications(plan(), {.replications = 0}, nullptr, [](const Block&) { FAIL("a block"); }) == 0);
}
