#pragma once
// Why a feeding was short: the losses of the batches that should have fed it, worked out from what happened to them.

#include <array>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "sim/replication/plan.hpp"
#include "sim/replication/replicate.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright::app {

enum class Cause { missed_round, no_grain, no_bucket, no_hands, no_place, mouldy, sour, frost, thin_poor_lot, thin_dry, thin, slow, slow_dry, composted, demand, rack, nobody, start };
inline constexpr std::size_t cause_count = 18;
/// "too little grain -> trays not sown -> short".
std::string cause_words(Cause cause);

/// What is usual on this farm, to measure losses against.
struct Usual {
  double tray_kg = 0.0;      ///< fresh weight of a ripe, well-sprouted mat [kg]
  double sprouted = 0.95;    ///< its share of sprouted grain
  double feeding_kg = 0.0;   ///< wanted at a usual morning's feeding, herd as it stands on day 0 [kg]
  int days_on_rack = 8, grace_days = 2;
  double grown = 1.0;        ///< growth of a mat that is due, at 20 degC, over what may be fed
  double evening_kg = 0.0;   ///< wanted at a usual evening's [kg]
};

Usual usual_of(const Plan& plan);

/// One reason with what it took from the feeding.
struct Reason { Cause cause = Cause::rack; double kilograms = 0.0; std::string words{}; };

/// Keeps what is noted and explains short feedings. Same notes, same story.
class Story {
 public:
  Story(Usual usual, Run run, Units units) : usual_(usual), run_(run), units_(units) {}

  /// True when it was a short feeding of the counted days, which explain() then speaks of: not of the run-in.
  bool note(std::int64_t minutes, const Happening& happening);
  /// Of the short feeding noted last: the reasons by what they took, largest first, at most three; and counts them.
  std::vector<Reason> explain();
  /// "poor lot -> thin mats -> short: 12 feedings, 31 kg", most kilograms first; empty when no feeding was short.
  [[nodiscard]] std::vector<std::string> summary() const;
  /// Short feedings by their main cause, and what they lacked by each: a mat that is lost is laid to its cause once.
  struct Count { int feedings = 0; double kilograms = 0.0; };
  using Counts = std::array<Count, cause_count>;
  [[nodiscard]] const Counts& counts() const { return counts_; }

 private:
  struct BatchStory {
    int sown = 0, no_grain = 0, no_bucket = 0, no_time = 0, no_place = 0, mouldy = 0, sour = 0, frosted = 0, frozen_out = 0, composted = 0, unready = 0, cut = 0, dried = 0;
    int unattended = 0, bucket_taken = 0, foul = 0;  ///< for want of anybody: not soaked, their buckets still full, not sown in time
    double told = 0.0;  ///< of what it lost, laid to its losses at earlier feedings [kg]
    double cut_kg = 0.0, sprouted = 0.0, lot = 0.0, vigour = 1.0, ready = 1.0, watered = 1.0, room = 20.0, dry_hours = 0.0, killed = 0.0;
  };
  void reasons_of(const std::pair<int, int>& identity, const BatchStory& batch, std::vector<Reason>& out) const;
  /// reasons_of() less what was told of the batch before; fills `all` and, beside it, whose loss each is.
  void add_reasons(const std::pair<int, int>& identity, BatchStory& batch, std::vector<Reason>& all, std::vector<BatchStory*>& whose);
  void count(const std::vector<Reason>& all, const std::vector<BatchStory*>& whose, double missing, int last_due);
  [[nodiscard]] Reason the_rest(double missing, int last_due, bool of_more) const;
  [[nodiscard]] std::string date(int day) const;
  [[nodiscard]] std::string trouble() const;   ///< "the power was out for 72 h", or for how long so far; empty for none
  [[nodiscard]] bool slow_for_water(const BatchStory& batch) const;
  [[nodiscard]] std::string unready(const BatchStory& batch) const;

  Usual usual_;
  Run run_;
  Units units_;
  std::map<std::pair<int, int>, BatchStory> batches_{};  ///< by (day, session) they were soaked for
  Happening fed_{};
  bool missed_ = false, missed_now_ = false;  ///< was this round missed?
  bool rushed_ = false, rushed_now_ = false;  ///< was its time up?
  bool ice_ = false, ice_now_ = false;        ///< were its mats frozen?
  bool nobody_came_ = false;                  ///< was the last round before now missed?
  std::optional<int> first_sown_{};           ///< day of the first batch
  std::string trouble_{};    ///< the outage noted last: "the power was out"
  double trouble_hours_ = 0.0;
  std::int64_t trouble_from_ = 0, now_ = 0;   ///< minutes
  Counts counts_{};
};

}  // namespace rackwright::app
