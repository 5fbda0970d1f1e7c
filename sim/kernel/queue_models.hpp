#pragma once
// Reference queues run on the kernel: M/M/c and M/D/c, first come first served. See docs/models/queue.md.

#include <cmath>
#include <cstdint>
#include <queue>

#include "models/base/expects.hpp"
#include "sim/kernel/estimate.hpp"
#include "sim/kernel/simulation.hpp"

namespace rackwright::kernel {

enum class ServiceLaw { exponential, constant };

/// Rates are per unit of time of the user's choice; waits come out in that unit.
struct QueueModel {
  int servers = 1;
  double arrival_rate = 0.8;
  double service_rate = 1.0;  ///< of one server
  ServiceLaw service = ServiceLaw::exponential;

  [[nodiscard]] double utilisation() const { return arrival_rate / (service_rate * servers); }
};

/// What happened while some customers in a row began service.
struct QueueTotals {
  std::int64_t customers = 0;
  std::int64_t waited = 0;      ///< of these, how many found no free server
  double wait = 0.0;            ///< summed, excluding service
  double waiting_time = 0.0;    ///< integral of the number waiting over the elapsed time
  double in_system_time = 0.0;  ///< the same, those in service included
  double elapsed = 0.0;
  std::int64_t arrivals = 0;    ///< gaps drawn
  double gaps = 0.0;            ///< these gaps between arrivals, summed
  double services = 0.0;        ///< service times of the customers, summed
};

/// A queue that starts empty. Engine: uniform 64-bit results; held by reference.
template <class Engine, class Trace = NoTrace>
class Queue {
 public:
  /// Expects servers >= 1 and 1e-6 <= utilisation < 1. One tick is a millionth of the mean service time.
  Queue(const QueueModel& model, Engine& engine) : model_(model), engine_(engine), unit_(1e6 * model.service_rate) {
    EXPECTS(model.servers >= 1 && model.service_rate > 0.0);
    EXPECTS(model.utilisation() >= 1e-6 && model.utilisation() < 1.0);
    schedule_arrival();
  }

  /// Goes on until this many more customers have begun service.
  QueueTotals serve(std::int64_t customers) {
    EXPECTS(customers > 0);
    totals_ = {};
    const Ticks start = simulation_.now();
    simulation_.run([&](const auto& event) {
      settle(event.time());
      if (event.payload == What::arrival) arrive(); else depart();
      simulation_.trace(waiting_.size() * 65536 + static_cast<std::uint64_t>(busy_));
      if (totals_.customers >= customers) simulation_.stop();
    });
    totals_.elapsed = static_cast<double>(simulation_.now() - start) / unit_;
    return totals_;
  }

  [[nodiscard]] std::uint64_t fingerprint() const { return simulation_.fingerprint(); }

 private:
  // The values are the phases. Whoever leaves at the instant of an arrival frees the server for it.
  enum class What : std::uint8_t { departure, arrival };

  void schedule(What what, double delay) {
    simulation_.schedule_after(std::llround(delay * unit_), static_cast<std::uint8_t>(what), what);
  }
  void schedule_arrival() {
    const double gap = exponential_by_inversion(engine_, 1.0 / model_.arrival_rate);
    ++totals_.arrivals;
    totals_.gaps += gap;
    schedule(What::arrival, gap);
  }

  void settle(Ticks now) {
    const double since = static_cast<double>(now - settled_) / unit_;
    settled_ = now;
    totals_.waiting_time += since * static_cast<double>(waiting_.size());
    totals_.in_system_time += since * static_cast<double>(waiting_.size() + static_cast<std::size_t>(busy_));
  }

  void arrive() {
    schedule_arrival();
    if (busy_ == model_.servers) {
      waiting_.push(simulation_.now());
      return;
    }
    ++busy_;
    begin();
  }

  void depart() {
    if (waiting_.empty()) {
      --busy_;
      return;
    }
    totals_.wait += static_cast<double>(simulation_.now() - waiting_.front()) / unit_;
    ++totals_.waited;
    waiting_.pop();
    begin();
  }

  void begin() {
    ++totals_.customers;
    const double mean = 1.0 / model_.service_rate;
    const double service =
        model_.service == ServiceLaw::constant ? mean : exponential_by_inversion(engine_, mean);
    totals_.services += service;
    schedule(What::departure, service);
  }

  QueueModel model_;
  Engine& engine_;
  double unit_;  ///< ticks in the user's unit of time
  Simulation<What, Trace> simulation_;
  std::queue<Ticks> waiting_;  ///< when they came
  int busy_ = 0;
  Ticks settled_ = 0;
  QueueTotals totals_;
};

/// How long to run: one warm-up that is thrown away, then batches, all in customers.
struct QueuePlan {
  std::int64_t warm_up = 0;
  int batches = 30;
  std::int64_t batch = 0;
};

/// Batches of 500 relaxation times, taken as rho / (1 - sqrt(rho))^2 customers (that of M/M/1), between 20 000 and a
/// million customers; warm-up of one batch. The mean wait then has a relative standard error near 1 % (rho 0.8). From
/// rho 0.98 the cap of a million tells: standard errors grow and are a little too small.
inline QueuePlan plan_for(const QueueModel& model) {
  const double rho = model.utilisation();
  const double relaxation = rho / std::pow(1.0 - std::sqrt(rho), 2);
  const auto batch = static_cast<std::int64_t>(std::fmin(std::fmax(500.0 * relaxation, 2e4), 1e6));
  return {batch, 30, batch};
}

/// Steady state by batch means.
struct QueueResult {
  Estimate wait_probability;  ///< share of customers that find no free server
  Estimate wait;              ///< mean wait before service, those who do not wait included
  Estimate number_waiting;    ///< time average
  Estimate number_in_system;  ///< time average
};

template <class Engine>
QueueResult run_queue(const QueueModel& model, const QueuePlan& plan, Engine& engine) {
  EXPECTS(plan.batches >= 2 && plan.warm_up >= 0);
  Queue<Engine> queue(model, engine);
  if (plan.warm_up > 0) queue.serve(plan.warm_up);
  Averager chance, wait, waiting, in_system;
  for (int i = 0; i < plan.batches; ++i) {
    const QueueTotals t = queue.serve(plan.batch);
    chance.add(static_cast<double>(t.waited) / static_cast<double>(t.customers));
    wait.add(t.wait / static_cast<double>(t.customers));
    waiting.add(t.waiting_time / t.elapsed);
    in_system.add(t.in_system_time / t.elapsed);
  }
  return {chance.estimate(), wait.estimate(), waiting.estimate(), in_system.estimate()};
}

}  // namespace rackwright::kernel
