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
  std::int64_t aged = 0;       ///< minute up to which its ageing is reckoned
  double kilograms = 0.0;
  double probits = 0.0;        ///< of ageing so far
  double germinable = 0.0;     ///< now [1]
  std::uint32_t number = 0;    ///< of its order
  bool tried = true;           ///< or needs no trial
  double dear = 1.0;           ///< what it cost against the usual price [1]
};

/// Grain taken for one soak: of one lot, the oldest that has any.
struct Withdrawal {
  double kilograms = 0.0;
  double paid = 0.0;           ///< kilograms at the usual price that cost as much
  double untried = 0.0;        ///< kilograms whose trial is still going on
  grain::Lot lot;              ///< germinable as it is now
  double most = 0.0;           ///< that one lot gave of it
};

class GrainStore {
 public:
  explicit GrainStore(const Plan& plan);
  /// As the run opens: what is not stated to have come before comes on day 0. A lot that came before has aged since, by the site's usual
  /// weather, unless what germinates of it today is stated.
  void start(const Fortune& fortune);

  [[nodiscard]] double on_hand(int grain) const;
  [[nodiscard]] double on_hand() const;
  /// Takes up to `kilograms`, oldest lot first, those under trial only when nothing else is left; the lot that gives most of it
  /// stands for the whole.
  Withdrawal withdraw(int grain, double kilograms);
  /// As much of the first lot as is asked for, none of it out of the store.
  [[nodiscard]] Withdrawal from_outside(const Fortune& fortune, int grain, double kilograms) const;
  /// What to order now under the (s, S) rule [kg]; noted as on order. `at_once`: up to S even when s is not reached.
  double order(int grain, bool at_once = false);
  /// Under the number that order gets, at so many times the usual price, which its grain keeps.
  std::uint32_t numbered(int grain, double price_factor);
  /// An order placed before the run.
  void expect(int grain, double kilograms) { on_order_[static_cast<std::size_t>(grain)] += kilograms; }
  /// `living` of the lot's germinable grain is alive; less than 1 in a hard time. `in_shortage`: it was ordered while short.
  void deliver(const Fortune& fortune, int grain, std::uint32_t number, double kilograms, std::int64_t now, double living = 1.0,
               bool in_shortage = false);
  /// Lays out the trial of the lot that came last; returns the grain it takes [kg].
  double lay_out(int grain);
  /// The lot of that order, or nullptr when nothing is left of it.
  StoredLot* find(int grain, std::uint32_t number);
  /// Takes all that is left of a lot out of the store.
  void give_back(int grain, std::uint32_t number);
  /// Ages every lot from when it came or was last aged until now, at `temperature` or at its own store's where that is stated, `pace` times
  /// as fast as the law.
  void age(double pace, Celsius temperature, std::int64_t now);
  /// What germinates of every lot, as aged as it is by now.
  void reckon();
  struct Thrown { double kilograms = 0.0, paid = 0.0; };  ///< paid: as kilograms at the usual price that cost as much
  /// Throws out what is past its use-by.
  Thrown throw_old(int grain, std::int64_t now);

 private:
  void draw_from(std::vector<StoredLot>& lots, double kilograms, bool tried, Withdrawal& taken);
  /// Probits a day, of a store as warm as outdoors or as its own.
  [[nodiscard]] double per_day_at(std::size_t grain, Celsius outdoors) const;
  static void age(StoredLot& lot, double per_day, std::int64_t now);
  void age_to_opening(StoredLot& lot, std::size_t grain, double pace) const;

  const Plan* plan_;
  std::vector<std::vector<StoredLot>> lots_;
  std::vector<double> on_order_;
  std::vector<std::uint32_t> numbers_;
  struct Dear { std::uint32_t number = 0; double factor = 1.0; };
  std::vector<std::vector<Dear>> dear_;  ///< by grain: orders on their way that were placed at another than the usual price
};

}  // namespace rackwright
