#pragma once
// Books of the grain in store, lot by lot, as a worklist needs them: what may still be soaked, and what is too old for it.

#include <algorithm>
#include <cstdint>
#include <vector>

#include "models/base/quantity.hpp"
#include "sim/replication/plan.hpp"

namespace rackwright::study {

/// Lots of one grain in the order they came; minutes since the opening's day began.
class StoreBook {
 public:
  explicit StoreBook(Hours use_by) : use_by_(60.0 * use_by.value()) {}

  void add(std::int64_t came, double kilograms) {
    if (kilograms > 0.0) lots_.push_back({came, kilograms});
  }

  /// What is not yet past its use-by, and what is [kg].
  [[nodiscard]] double fresh(std::int64_t minute) const { return sum(minute, false); }
  [[nodiscard]] double old(std::int64_t minute) const { return sum(minute, true); }

  /// Takes from the oldest that may be soaked, then from what is too old; returns what was not there [kg].
  double take(std::int64_t minute, double kilograms) {
    for (const bool of_old : {false, true}) {
      for (Lot& lot : lots_) {
        if (too_old(lot, minute) != of_old) continue;
        const double part = std::min(lot.kilograms, kilograms);
        lot.kilograms -= part;
        kilograms -= part;
      }
    }
    return kilograms;
  }

  /// Throws out what is past its use-by, and returns how much [kg]; `since`: the earliest minute at which any of it was, if that is earlier.
  double drop_old(std::int64_t minute, std::int64_t& since) {
    double dropped = 0.0;
    for (Lot& lot : lots_) {
      if (lot.kilograms <= 0.0 || !too_old(lot, minute)) continue;
      since = std::min(since, lot.came + static_cast<std::int64_t>(use_by_));
      dropped += lot.kilograms;
      lot.kilograms = 0.0;
    }
    return dropped;
  }

  /// A lot that goes back whole is the one that came last.
  void give_back(double kilograms) {
    for (auto lot = lots_.rbegin(); lot != lots_.rend() && kilograms > 0.0; ++lot) {
      const double part = std::min(lot->kilograms, kilograms);
      lot->kilograms -= part;
      kilograms -= part;
    }
  }

  /// From that minute on, used evenly: the minute at which nothing is left that may be soaked. Adds what passes its use-by first to
  /// `dropped`, and puts `since` to when the first of it does, if that is earlier.
  [[nodiscard]] double lasts_until(double minute, double per_minute, double& dropped, std::int64_t& since) const {
    for (const Lot& lot : lots_) {
      const double until = static_cast<double>(lot.came) + use_by_, used_up = minute + lot.kilograms / per_minute;
      if (lot.kilograms <= 0.0) continue;
      if (used_up <= until) {
        minute = used_up;
        continue;
      }
      dropped += (used_up - std::max(minute, until)) * per_minute;
      minute = std::max(minute, until);
      since = std::min(since, static_cast<std::int64_t>(until));
    }
    return minute;
  }

 private:
  struct Lot { std::int64_t came = 0; double kilograms = 0.0; };
  [[nodiscard]] bool too_old(const Lot& lot, std::int64_t minute) const { return static_cast<double>(minute - lot.came) > use_by_; }
  [[nodiscard]] double sum(std::int64_t minute, bool of_old) const {
    double kilograms = 0.0;
    for (const Lot& lot : lots_) kilograms += too_old(lot, minute) == of_old ? lot.kilograms : 0.0;
    return kilograms;
  }

  double use_by_;  ///< [min]
  std::vector<Lot> lots_{};
};

/// The store of that grain as the plan opens with it, and what was ordered before if that is asked for.
StoreBook opening_store(const Plan& plan, std::size_t grain, bool with_orders);

}  // namespace rackwright::study
