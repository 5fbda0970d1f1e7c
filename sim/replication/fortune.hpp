#pragma once
// All the luck of one replication, drawn by identity and never by what the design does with it: two designs that share a
// farm meet the same weather, births, breakdowns, slips and lots.

#include <algorithm>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "models/climate/climate.hpp"
#include "models/grain/lot.hpp"
#include "sim/random/philox_lanes.hpp"
#include "sim/random/philox_stream.hpp"
#include "sim/replication/ignorance.hpp"
#include "sim/replication/plan.hpp"

namespace rackwright {

/// Something broken from `start` to `end`, minutes since the start of day 0.
struct Outage {
  std::int64_t start = 0, end = 0;
  int tier = 0;        ///< of a clog, lowest 0
};

/// Luck of one tray.
struct TrayLuck {
  double germinable = 0.9;   ///< its germinable fraction, beta about the batch's
  double mould = 0.5;        ///< uniform; it moulds when 1 - exp(-integrated hazard) passes this
  double sour = 0.5;         ///< likewise for souring
};

/// When and how a lot was bought.
struct Bought {
  int day = 0;               ///< on which it comes
  bool in_shortage = false;  ///< was it ordered while its grain was short?
};

/// Something that befell a herd.
struct HerdEvent {
  enum class Kind { born, weaned, sold, died };
  int day = 0;
  std::size_t group = 0;
  Kind kind = Kind::born;
  int number = 0;
};

/// The scenario with everything that is drawn set to what it is on the whole; lots, trays and births follow Opening::usual_luck. Spells
/// and hard times are left out.
Scenario without_luck(Scenario scenario);

class Fortune {
 public:
  /// Draws weather, wants, slips and outages for days -lead_days .. horizon, and, where the scenario asks for it, what this replication
  /// takes to be true of uncertain parameters: as replication `assumptions` does, or as itself. Reuses its memory.
  void draw(const Plan& plan, std::uint64_t random_seed, std::uint32_t replication, std::optional<std::uint32_t> assumptions = {});
  [[nodiscard]] const Ignorance& ignorance() const { return ignorance_; }

  /// Keep births, weanings, sales and deaths of the next draws, for a journal?
  void follow_herd(bool follow) { follow_herd_ = follow; }
  [[nodiscard]] std::span<const HerdEvent> herd_events() const { return herd_events_; }

  /// More outages of all kinds than any year will ever have: room reserved for them is enough.
  [[nodiscard]] static std::size_t most_outages(const Plan& plan);

  [[nodiscard]] const climate::Day& weather(int day) const { return weather_[index(day)]; }
  /// Fresh fodder that group wants on that day [kg]; before day 0 what its grown animals want, brought in fully and with usual appetite, and what the
  /// young there on that day want.
  [[nodiscard]] double wanted(std::size_t group, int day) const { return wanted_[group * days_ + index(day)]; }
  /// What all groups are to want on that day, appetite as usual: what a keeper who knows his herd sows for [kg fresh]. Only where the
  /// line is sown as wanted; before day 0 that of day 0.
  [[nodiscard]] double expected(int day) const { return expected_[static_cast<std::size_t>(std::clamp(day, 0, horizon_))]; }
  /// Is nobody there at that minute, to put grain to soak?
  [[nodiscard]] static bool away(const Plan& plan, std::int64_t minute);
  /// Is the whole round of that session (0 morning, 1 evening) missed?
  [[nodiscard]] bool missed(int day, int session) const { return missed_[2 * index(day) + static_cast<std::size_t>(session)]; }
  [[nodiscard]] const std::vector<Outage>& pump() const { return pump_; }
  [[nodiscard]] const std::vector<Outage>& power() const { return power_; }
  /// Each level's own, whatever stands above or below it.
  [[nodiscard]] const std::vector<Outage>& clogs() const { return clogs_; }

  /// The lot that order `number` of that grain turns out to be; number 0 is what is in store at the start. In a hard time
  /// only `living` of its germinable grain is alive, and it is as slow as such a lot is.
  [[nodiscard]] grain::Lot lot(const Plan& plan, int grain, std::uint32_t number, double living = 1.0, const Bought& bought = {}) const;
  /// Is that grain short on that day?
  [[nodiscard]] bool is_short(const Plan& plan, int grain, int day) const;
  /// Kernels that sprout of `kernels` of that lot, whose germinable share is `germinable`; its trays scatter by `scatter`.
  [[nodiscard]] int sprouted(int grain, std::uint32_t number, double germinable, int kernels, double scatter) const;
  /// What hard times make of a grain's price at that minute [1].
  [[nodiscard]] double price_factor(const Plan& plan, int grain, std::int64_t minute) const;
  /// Delivery time of that order [h].
  [[nodiscard]] double delivery_hours(const Plan& plan, int grain, std::uint32_t number) const;
  /// Luck of the trays of the batch meant for that day and session, by place, their germinable fractions about `germinable`.
  void trays(int day, int session, double germinable, const random::BetaTable& scatter, std::span<TrayLuck> trays) const;
  /// Uniform: below the keeper's chance, that tray is seen to be spoiled.
  [[nodiscard]] double notice(int day, int session, int place) const;

 private:
  [[nodiscard]] std::size_t index(int day) const { return static_cast<std::size_t>(std::int64_t{day} + lead_days); }
  [[nodiscard]] random::Stream stream(random::Purpose purpose, std::uint32_t entity, int day) const {
    return {key_, purpose, entity, day_word(day)};
  }
  [[nodiscard]] static std::uint32_t day_word(int day) { return static_cast<std::uint32_t>(day + lead_days); }
  /// The streams of day after day.
  [[nodiscard]] random::StreamRow daily(random::Purpose purpose, std::uint32_t entity, int day) const;
  [[nodiscard]] double harvest_score(const Plan& plan, int grain, int day) const;
  [[nodiscard]] int deaths_of_a_month(const Group& group, std::uint32_t entity, int day, int grown) const;
  void draw_weather(const Plan& plan);
  void draw_herd(const Plan& plan);
  [[nodiscard]] static int dams_at(const Group& group, double day);  ///< females that may give birth in a season begun then
  void draw_births(const Plan& plan, std::size_t group);
  void expect_births(const Plan& plan, std::size_t group);
  void lay_known_weather(const Plan& plan);
  void draw_slips(const Plan& plan);
  void draw_outages(std::vector<Outage>& outages, std::uint32_t entity, Hours between, Hours lasting);
  void add_outages(std::vector<Outage>& outages, std::uint32_t entity, Hours between, Hours lasting, int tier = 0) const;
  void draw_clogs(const Plan& plan);
  void lay_hard_times(const Plan& plan);
  void lay_absence(const Keeper& keeper, const HardTime& hard);
  /// Young reared as a multiple of what ordinary luck gives, of births on that day.
  [[nodiscard]] static double more_young(const Plan& plan, std::size_t group, int born_on);
  [[nodiscard]] static Hours between_clogs(const Plan& plan);  ///< of all levels together

  void befell(int day, std::size_t group, HerdEvent::Kind kind, int number) {
    if (follow_herd_ && number > 0 && day >= 0 && day <= horizon_) herd_events_.push_back({day, group, kind, number});
  }

  bool follow_herd_ = false;
  bool usual_ = false;                 ///< no luck is drawn
  std::vector<HerdEvent> herd_events_;
  random::Key key_;
  Ignorance ignorance_;
  int horizon_ = 0;
  std::size_t days_ = 0;
  std::vector<climate::Day> weather_;
  std::vector<double> wanted_, expected_;
  std::vector<char> missed_;
  std::vector<random::Block> blocks_;  ///< of daily streams, while they are drawn
  std::vector<Outage> pump_, power_, clogs_;
};

}  // namespace rackwright
