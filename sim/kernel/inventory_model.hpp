#pragma once
// The textbook (s, S) inventory with periodic review, run on the kernel. See docs/models/queue.md.

#include <cmath>
#include <cstdint>

#include "models/base/expects.hpp"
#include "sim/kernel/estimate.hpp"
#include "sim/kernel/simulation.hpp"

namespace rackwright::kernel {

/// Times in months, costs in money. Defaults: Law, Simulation Modeling and Analysis, the inventory example.
struct InventoryModel {
  int reorder_below = 20;            ///< s: order at a review that finds less than this
  int order_up_to = 40;              ///< S
  int start = 60;
  double between_demands = 0.1;      ///< mean of an exponential
  double shortest_lag = 0.5;         ///< from order to delivery, uniform
  double longest_lag = 1.0;
  double order_cost = 32.0;          ///< for each order
  double item_cost = 3.0;            ///< for each item ordered
  double holding_cost = 1.0;         ///< an item a month in stock
  double shortage_cost = 5.0;        ///< an item a month owed
  int months = 120;
};

/// Average cost a month of one run.
struct InventoryCost {
  double ordering = 0.0;
  double holding = 0.0;
  double shortage = 0.0;
  [[nodiscard]] double total() const { return ordering + holding + shortage; }
};

/// One run. Demand sizes 1, 2, 3, 4 with chances 1/6, 1/3, 1/3, 1/6; unmet demand is owed; review at each month's
/// start.
template <class Engine>
class Inventory {
 public:
  Inventory(const InventoryModel& model, Engine& engine) : model_(model), engine_(engine), level_(model.start) {
    EXPECTS(model.reorder_below <= model.order_up_to && model.months > 0 && model.between_demands > 0.0);
    EXPECTS(model.shortest_lag >= 0.0 && model.longest_lag >= model.shortest_lag);
  }

  /// Expects to be called once.
  InventoryCost run() {
    EXPECTS(simulation_.now() == 0 && simulation_.pending() == 0);
    schedule(What::demand, exponential_by_inversion(engine_, model_.between_demands), 0);
    schedule(What::review, 0.0, 0);
    const Ticks end = model_.months * month_;
    simulation_.run_until(end, [this](const auto& event) { handle(event.payload, event.time()); });
    settle(end);
    return {cost_.ordering / model_.months, cost_.holding / model_.months, cost_.shortage / model_.months};
  }

 private:
  // The values are the phases: a delivery serves the demand of its instant, and the review sees both.
  enum class What : std::uint8_t { delivery, demand, review };
  struct Payload {
    What what{};
    int items = 0;
  };
  static constexpr Ticks month_ = 1'000'000'000;

  void schedule(What what, double delay, int items) {
    const Ticks ticks = std::llround(delay * static_cast<double>(month_));
    simulation_.schedule_after(ticks, static_cast<std::uint8_t>(what), {what, items});
  }

  void handle(const Payload& event, Ticks now) {
    settle(now);
    switch (event.what) {
      case What::delivery: level_ += event.items; break;
      case What::demand:
        level_ -= demand_size();
        schedule(What::demand, exponential_by_inversion(engine_, model_.between_demands), 0);
        break;
      case What::review: review(); break;
    }
  }

  void review() {
    if (level_ < model_.reorder_below) {
      const int items = model_.order_up_to - level_;
      cost_.ordering += model_.order_cost + model_.item_cost * items;
      schedule(What::delivery, model_.shortest_lag + (model_.longest_lag - model_.shortest_lag) * uniform(), items);
    }
    schedule(What::review, 1.0, 0);
  }

  void settle(Ticks now) {
    const double months = static_cast<double>(now - settled_) / static_cast<double>(month_);
    settled_ = now;
    if (level_ > 0) cost_.holding += model_.holding_cost * level_ * months;
    else cost_.shortage -= model_.shortage_cost * level_ * months;
  }

  double uniform() { return static_cast<double>(engine_() >> 11) * 0x1p-53; }
  int demand_size() {
    const double sixths = 6.0 * uniform();
    return sixths < 1.0 ? 1 : sixths < 3.0 ? 2 : sixths < 5.0 ? 3 : 4;
  }

  InventoryModel model_;
  Engine& engine_;
  int level_;
  Ticks settled_ = 0;
  InventoryCost cost_;
  Simulation<Payload> simulation_;
};

/// Mean and standard error of the total cost a month over independent runs. Expects two or more.
template <class Engine>
Estimate run_inventory(const InventoryModel& model, int replications, Engine& engine) {
  Averager total;
  for (int i = 0; i < replications; ++i) total.add(Inventory<Engine>(model, engine).run().total());
  return total.estimate();
}

}  // namespace rackwright::kernel
