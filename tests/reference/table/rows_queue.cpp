// Textbook systems run on the event kernel. Fixed seeds; tolerances are 3.89 standard errors (1e-4, two-sided).
#include <cmath>
#include <fmt/core.h>

#include "sim/kernel/inventory_model.hpp"
#include "sim/kernel/queue_models.hpp"
#include "sim/random/philox_stream.hpp"
#include "tests/reference/table/models.hpp"

namespace rackwright::validation {
namespace {

using namespace rackwright::kernel;

QueueResult run(const QueueModel& model, std::uint64_t replication) {
  random::Stream engine(random::make_key(20261125, replication), random::Purpose::test);
  QueuePlan plan = plan_for(model);
  plan.batch /= 8;  // the full length belongs to tests/reference/kernel
  return run_queue(model, plan, engine);
}

void near(Sheet& sheet, const char* what, const Estimate& found, double expected) {
  sheet.near(what, "1", expected, 3.89 * found.standard_error, found.mean);
}

}  // namespace

Sheet queue_rows() {
  Sheet sheet("event kernel");
  sheet.from("M/M/1 at utilisation 0.8, service rate 1: rho/(1 - rho), rho/(mu - lambda) (any queueing text)", Standing::worked, Bound::scatter);
  const QueueResult mm1 = run({1, 0.8, 1.0, ServiceLaw::exponential}, 1);
  near(sheet, "M/M/1, number in the system", mm1.number_in_system, 4.0);
  near(sheet, "M/M/1, wait", mm1.wait, 4.0);
  sheet.from("M/D/1 at utilisation 0.8, Pollaczek-Khinchine: rho^2/(2 (1 - rho))", Standing::worked, Bound::scatter);
  near(sheet, "M/D/1, number waiting", run({1, 0.8, 1.0, ServiceLaw::constant}, 2).number_waiting, 1.6);
  sheet.from("M/D/2 at utilisation 0.8, Crommelin's sums over Poisson tails worked out apart from the program (1 server: 2.00000)", Standing::worked, Bound::scatter);
  near(sheet, "M/D/2, wait", run({2, 1.6, 1.0, ServiceLaw::constant}, 5).wait, 0.903284);
  sheet.from("Erlang C worked from the formula", Standing::worked, Bound::scatter);
  near(sheet, "M/M/2 at 1.6 erlang, share that waits", run({2, 1.6, 1.0, ServiceLaw::exponential}, 3).wait_probability, 0.711111);
  near(sheet, "M/M/3 at 2.4 erlang, share that waits", run({3, 2.4, 1.0, ServiceLaw::exponential}, 4).wait_probability, 0.647191);
  sheet.from("(s, S) inventory of Law, Simulation Modeling and Analysis: mean of 300 runs of an independent R program "
             "(standard error 0.25 at most)", Standing::worked, Bound::scatter);
  const struct { int s, S; double mean; } rows[] = {{20, 40, 124.72}, {20, 60, 119.14}, {40, 80, 125.60}, {60, 100, 144.20}};
  std::uint32_t entity = 0;
  for (const auto& [s, S, mean] : rows) {
    InventoryModel model;
    model.reorder_below = s;
    model.order_up_to = S;
    random::Stream engine(random::make_key(20261126, 0), random::Purpose::test, ++entity);
    const Estimate found = run_inventory(model, 300, engine);
    sheet.near(fmt::format("inventory ({}, {}), cost a month", s, S), "money", mean, 3.89 * std::hypot(0.25, found.standard_error),
               found.mean);
  }
  return sheet;
}

}  // namespace rackwright::validation
