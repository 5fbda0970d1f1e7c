#pragma once
// The grain in store: lots in the order they came, ageing, orders on their way.

#include <cstdint>
#include <vector>

#include "models/grain/lot.hpp"
#include "sim/replication/fortune.hpp"
#include "sim/replication/plan.hpp"

namespace rackwright {

/// A lot in store.
struct StoredLot {
  grain::Lot luck;
  std::int64_t came = 0;       ///< minute of delivery
  double kilograms = 0.0;
  double probits = 0.0;        ///< of ageing so far
  double germinable = 0.0;     ///< now [1]
};

/// Grain taken for one soak: of one lot, the oldest that has any.
struct Withdrawal {
  double kilograms = 0.0;
  grain::Lot lot;              ///< germinable as it is now
};

class GrainStore {
 public:
  explicit GrainStore(const Plan& plan);
  void start(const Fortune& fortune, std::int64_t now);

  [[nodiscard]] double on_hand(int grain) const;
  [[nodiscard]] double on_hand() const;
  /// Takes up to `kilograms`, oldest lot first; the lot that gives most of it stands for the whole.
  Withdrawal withdraw(int grain, double kilograms);
  /// What to order now under the (s, S) rule [kg]; noted as on order.
  double order(int grain);
  /// An order placed before the run.
  void expect(int grain, double kilograms) { on_order_[static_cast<std::size_t>(grain)] += kilograms; }
  /// `living` of the lot's germinable grain is alive; less than 1 in a hard time.
  void deliver(const Fortune& fortune, int grain, std::uint32_t number, double kilograms, std::int64_t now, double living = 1.0);
  [[nodiscard]] std::uint32_t next_number(int grain) { return ++numbers_[static_cast<std::size_t>(grain)]; }
  /// Ages every lot by `length_days` at `temperature`; grain past its use-by is thrown out. Returns kilograms thrown out of each
  /// grain through `thrown`.
  void age(double length_days, Celsius temperature, std::int64_t now, std::vector<double>& thrown);

 private:
  const Plan* plan_;
  std::vector<std::vector<StoredLot>> lots_;
  std::vector<double> on_order_;
  std::vector<std::uint32_t> numbers_;
};

}  // namespace rackwright
