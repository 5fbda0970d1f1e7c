#pragma once
// A reference queue run until its mean wait is known as well as was asked for. See docs/models/queue.md.

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "models/base/expects.hpp"
#include "sim/kernel/estimate.hpp"
#include "sim/kernel/queue_models.hpp"

namespace rackwright::kernel {

/// When to stop: the standard error of the mean wait, as a share of it, or the customers spent.
struct QueuePrecision {
  double relative = 0.002;
  std::int64_t most_customers = 150'000'000;
  std::int64_t most_below_ninety = 30'000'000;  ///< the same where utilisation is below 0.9: only rare waits need so many
  std::int64_t none_waits = 10'000'000;  ///< given up after so many of whom none waited
};

struct PreciseQueue {
  Estimate wait_probability;  ///< share of customers that find no free server
  Estimate wait;              ///< mean wait before service, those who do not wait included
  std::int64_t customers = 0;
  std::int64_t waited = 0;
};

namespace detail {

/// 200 relaxation times of M/M/1, rho / (1 - sqrt rho)^2 customers, and no less than 20 000.
inline std::int64_t precise_batch(const QueueModel& model) {
  const double rho = model.utilisation();
  return static_cast<std::int64_t>(std::fmax(200.0 * rho / std::pow(1.0 - std::sqrt(rho), 2), 2e4));
}

/// So that the clock (a millionth of a service time a tick) cannot run out.
inline std::int64_t clock_lasts(const QueueModel& model) {
  return static_cast<std::int64_t>(std::fmin(4e12 * model.utilisation() * model.servers, 4e18));
}

}  // namespace detail

/// Batch means with the mean gap and the mean service of the batch as control variates: at least 40 batches after a
/// warm-up of one, then ten at a time. Where nobody waited, the standard error is that of the chance's posterior under
/// an even prior, 1/(n + 2), and the wait's is that of one customer's usual wait among n.
template <class Engine>
PreciseQueue run_queue_precisely(const QueueModel& model, const QueuePrecision& precision, Engine& engine) {
  EXPECTS(precision.relative > 0.0);
  const std::int64_t batch = detail::precise_batch(model);
  const std::int64_t most = std::min(
      model.utilisation() < 0.9 ? precision.most_below_ninety : precision.most_customers, detail::clock_lasts(model));
  Queue<Engine> queue(model, engine);
  queue.serve(batch);
  ControlledAverager chance, wait;
  PreciseQueue result;
  while (true) {
    const int round = result.customers == 0 ? 40 : 10;
    for (int i = 0; i < round; ++i) {
      const QueueTotals t = queue.serve(batch);
      const double n = static_cast<double>(t.customers);
      const double gap = t.gaps / static_cast<double>(t.arrivals) - 1.0 / model.arrival_rate;
      const double service = t.services / n - 1.0 / model.service_rate;
      chance.add(static_cast<double>(t.waited) / n, gap, service);
      wait.add(t.wait / n, gap, service);
      result.customers += t.customers;
      result.waited += t.waited;
    }
    result.wait_probability = chance.estimate();
    result.wait = wait.estimate();
    const bool known = result.waited > 0 && result.wait.standard_error <= precision.relative * result.wait.mean;
    const bool hopeless = result.waited == 0 && result.customers >= precision.none_waits;
    if (known || hopeless || result.customers + 10 * batch > most) break;
  }
  if (result.waited == 0) {
    const double n = static_cast<double>(result.customers);
    result.wait_probability = {0.0, 1.0 / (n + 2.0)};
    result.wait = {0.0, 1.0 / (n + 2.0) / (model.servers * model.service_rate)};
  }
  return result;
}

}  // namespace rackwright::kernel
