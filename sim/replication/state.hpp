#pragma once
// The moving parts of one replication. Handlers are split by what people would call them:
//   replicate.cpp  run, schedule, dispatch        round.cpp   look over, make room, throw out
//   feeding.cpp    share out, cut, feed            chores.cpp  minutes: what there is time for
//   sowing.cpp     soak, sow                      day.cpp     close the day, water, money
//   lots.cpp       order, take in, try lots          frost.cpp   what freezes, what dies of it
//   trouble.cpp    outages, clogs, tank            hard_times.cpp  poor lots, late orders
//   opening.cpp    opens with what stands          settle.cpp  batches brought up to date, spoilage, spores

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "sim/kernel/fingerprint.hpp"
#include "sim/kernel/simulation.hpp"
#include "sim/replication/batch_settle.hpp"
#include "sim/replication/events.hpp"
#include "sim/replication/fortune.hpp"
#include "sim/replication/grain_store.hpp"
#include "sim/replication/rack_state.hpp"
#include "sim/replication/replicate.hpp"
#include "sim/replication/room_march.hpp"
#include "sim/replication/run_values.hpp"

namespace rackwright {

/// Grain in a bucket, meant for one sowing.
struct Tub {
  std::int64_t start = 0, due = 0;  ///< minutes: put in, to be sown
  int grain = 0;
  int day = 0, session = 0;         ///< identity of the batch it will be
  int trays = 0;
  double kilograms = 0.0;
  grain::Lot lot;
  double charge = 1.0;              ///< of the usual [1]
};

/// Some trays of one batch.
struct TraySum {
  int trays = 0;
  double sprouted = 0.0;     ///< their shares of grain that sprouted and lives, summed [1]
  double lost = 0.0;         ///< shares of dry matter that killed sprouts had lost, summed [1]
  double fresh = 0.0;        ///< [kg]
  double killed_water = 0.0; ///< water that killed sprouts had taken up [L]
  double watered = 0.0;      ///< water taken up from watering, the soak's left out [L]
};
/// Their dry matter, and how much of the grain's they lost [kg].
struct DryMatter { double left = 0.0, lost = 0.0; };

/// A tier without water. A spell is one however many things cause it.
struct Drought {
  bool dry = false;
  std::int64_t since = 0;    ///< minute it went dry, or will when what bridges a failure is used up
  std::int64_t upto = 0;     ///< minute up to which its mats have suffered
  double counted = 0.0;      ///< hours of it counted by the room's warmth (water::dry_weight)
};

class Replicator::State : private RunValues, private CountedValues, private DayValues {
 public:
  explicit State(const Plan& plan);
  Outcome run(std::uint64_t random_seed, std::uint32_t replication, Journal* journal, std::optional<std::uint32_t> assumptions);
  [[nodiscard]] const std::vector<DailyRow>& rows() const { return rows_; }

 private:
  // replicate.cpp
  void start(std::uint64_t random_seed, std::uint32_t replication, std::optional<std::uint32_t> assumptions);
  void schedule_first();
  void handle(const Event& event);
  void open_books();
  Outcome close_books();
  [[nodiscard]] std::int64_t session_minute(int day, int session) const;
  [[nodiscard]] bool counted() const { return sim_.now() >= 0; }
  template <class Sentence>
  void tell(Sentence&& sentence) {
    if (journal_ != nullptr && counted()) journal_->tell(sim_.now(), sentence());
  }

  // Also in the run-in: what is cut on the first days was sown then.
  void note(const Happening& happening) {
    if (journal_ != nullptr) journal_->note(sim_.now(), happening);
  }

  // opening.cpp
  [[nodiscard]] bool replaying() const { return plan_->opening && sim_.now() < plan_->opening->now; }
  void open_line();
  void schedule_opening();
  void replay_round(const Event& event);
  void take_over();
  void follow_course(int day);
  [[nodiscard]] const Course* course_of(int day) const;
  [[nodiscard]] const Sowing* sowing_of(int day, int session) const;
  [[nodiscard]] bool soaks_already(int day, int session) const;
  [[nodiscard]] std::int64_t soak_minute(int day, int session) const;
  [[nodiscard]] int charged(int grain, double charge) const;

  // telling.cpp
  void note_given(double share);
  void note_ripe();
  void note_risk(const Batch& batch, const Tray& tray);
  void tell_herd(int day);
  void note_unready();

  // settle.cpp
  void settle_all(int session);
  void settle(Batch& batch);
  void watch(Batch& batch);
  /// Adds the heat of so many trays of a batch to what warms the room; summed anew every morning.
  void warm_room(const Batch& batch, int trays) {
    // Heat is by usual grain, whatever the charge.
    mat_heat_[static_cast<std::size_t>(batch.species)] += batch.heat_unit * (trays * plan_->grain_per_tray);
  }
  void look_at_trays(Batch& batch);
  void judge(Batch& batch, Tray& tray);
  void shed(int tier);
  void spread_spores();
  [[nodiscard]] std::span<const double> level_load() const {
    return any_load_ ? std::span<const double>(level_load_) : std::span<const double>();
  }

  // round.cpp
  void on_round(const Event& event);
  void catch_up();                       ///< the room up to the present whole hour
  void look_round();
  // An hour before its days on the rack are over a mat is as good as there. Batches stand in the order of their age: behind one
  // too young are only younger ones.
  [[nodiscard]] bool too_young(const Batch& batch) const { return sim_.now() - batch.sown < due_age_; }
  /// Grown to the share at which a mat may be fed?
  [[nodiscard]] bool ripe(const Batch& batch) const { return batch.growth >= ripe_at_[static_cast<std::size_t>(batch.species)]; }
  [[nodiscard]] bool past_grace(const Batch& batch) const { return sim_.now() - batch.sown >= grace_age_; }
  /// Ripe for as long as a mat may wait, by its growth, or past its best?
  [[nodiscard]] bool outstayed(const Batch& batch) const {
    const auto species = static_cast<std::size_t>(batch.species);
    return batch.growth >= ripe_at_[species] + plan_->scenario.line.grace_days || batch.growth > plan_->species[species].growth.overdue;
  }
  [[nodiscard]] bool due(const Batch& batch) const { return !too_young(batch) && (ripe(batch) || past_grace(batch)); }
  [[nodiscard]] double evening_meal(int session) const;
  void make_room(int trays, int session);
  void count_composted(const Batch& batch, int trays);
  void throw_out(Batch& batch, Tray& tray);
  void count_spoiled(const Tray& tray) {
    ++(tray.spoiled == Spoiled::mould ? out_.spoiled_mould : tray.spoiled == Spoiled::sour ? out_.spoiled_sour : out_.frost_killed);
  }
  const BatchMats& mats(const Batch& batch);
  static double fresh_mass(const BatchMats& mats, const Tray& tray);
  static double add_tray(const BatchMats& mats, const Tray& tray, TraySum& sum);
  DryMatter book_mats(const Batch& batch, const BatchMats& mats, const TraySum& sum);
  void count_trays();
  void vacate(Batch& batch, Tray& tray);
  void leave_rack(Batch& batch, int trays);        ///< those just vacated

  // feeding.cpp
  double ask_animals(int day, int session);        ///< fills wants_; their sum [kg]
  [[nodiscard]] double with_evening(double wanted, int day) const;
  [[nodiscard]] double fair_meal(int day, int session, double wanted);
  void feed_animals(int day, int session, double wanted);
  void miss_feeding(double wanted);
  void count_feedings(double share);
  void harvest(double meal);
  void cut(Batch& batch, double wanted, int most = std::numeric_limits<int>::max());  ///< at most so many trays
  void value_cut(const Batch& batch, const BatchMats& mats, const TraySum& sum, double dry_matter);
  void drop_carried(int session);

  // chores.cpp
  void open_chores(int session);
  [[nodiscard]] double evening_minutes() const;   ///< that the morning leaves the evening for feeding and harvest
  [[nodiscard]] int time_for(int wanted, double minutes_each) const;  ///< how many of them there is time for
  void take_time(double minutes) { minutes_left_ -= minutes; }
  static constexpr double minutes_rounding = 1e-9;
  void move_trays(int session);
  void close_chores();

  // sowing.cpp
  [[nodiscard]] int trays_for(int day, int session) const;  ///< that a batch to be sown on that day is to have
  /// In the run-in grain is no object: the store is what it is said to be on the first day.
  [[nodiscard]] bool from_outside() const { return !plan_->opening && sim_.now() < 0; }
  void on_soak(const Event& event);
  [[nodiscard]] int bucket_room() const;           ///< trays' worth of grain that free buckets take
  [[nodiscard]] bool wait_for_bucket(const Event& event, int trays);
  void sow_due(int session);
  void sow(const Tub& tub, int session);
  void sow_trays(Batch& batch, const random::BetaTable& scatter, double clean);

  // lots.cpp
  void review_order(int grain, bool at_once = false);
  void throw_old_grain(int grain);
  void on_delivery(const Event& event);
  void begin_trial(const Event& delivery);
  void on_trial_over(const Event& event);
  [[nodiscard]] int today() const {
    return static_cast<int>(sim_.now() >= 0 ? sim_.now() / minutes_per_day : -((minutes_per_day - 1 - sim_.now()) / minutes_per_day));
  }

  /// Books money spent, to its account and to the balance.
  void spend(double& account, double money) {
    account += money;
    balance_.money_booked += money;
  }

  // day.cpp
  void on_close_day(int day);
  void book_water();
  void book_money();
  void write_row();
  [[nodiscard]] Totals totals() const;

  // frost.cpp
  void follow_frost();
  void kill_by_frost();
  void count_frozen_out(int day, int session, int trays, int grain);
  /// Has it sprouted? Grain that has only soaked is no fodder.
  [[nodiscard]] bool is_mat(const Batch& batch) const { return frost::is_mat(plan_->scenario.frost, batch.had_chance); }

  // hard_times.cpp
  template <class Strike>
  void strike(HardTimeKind kind, int grain, Strike&& on);
  double living_share(int grain);        ///< of the lot that comes now [1]
  double order_delay(int grain);         ///< of the order placed now [h]
  void tell_of_day(int day);             ///< what begins and ends on it

  // trouble.cpp
  struct Stop { std::int64_t start, end; double bridged_hours; };
  [[nodiscard]] Stop stop_of(const Event& event) const;
  void on_outage_starts(const Event& event);
  void on_outage_ends(const Event& event);
  void on_clog_starts(const Event& event);
  void mend_clogs();
  void on_tank_empty();
  void fill_tank();
  [[nodiscard]] bool no_water() const { return down_[0] + down_[1] + down_[2] > 0; }
  void water_stopped(double bridged_hours, int tier);
  void water_came_back();
  void book_idle();                               ///< the pump's standstill up to now
  void suffer_drought();
  void suffer_drought(Batch& batch, int tier, const Drought& drought, double weight);
  void kill(Batch& batch, Tray& tray, double share);

  const Plan* plan_;
  Journal* journal_ = nullptr;
  kernel::Simulation<Event, kernel::Fingerprint> sim_;
  Fortune fortune_;
  RoomMarch room_;
  RackState rack_;
  BatchSettler settler_;
  spoilage::Parameters spoil_;  ///< as assumed in this replication
  GrainStore store_;
  std::vector<DailyRow> rows_;

  std::vector<Tub> tubs_;
  std::vector<double> mat_heat_;         ///< W at one growth day a day, by species
  std::array<std::int64_t, 2> session_minutes_{};  ///< of the two rounds in their day
  std::vector<double> level_load_;       ///< by tier: inoculum that spoiled mats have left there, relative to usual grain's own
  std::vector<char> clogged_;            ///< by tier
  std::vector<Drought> droughts_;        ///< by tier
  std::vector<double> wants_;             ///< by group: wanted at this feeding [kg]
  std::vector<std::array<double, 2>> feeding_share_;  ///< by group: of the day's want, morning and evening
  std::vector<double> used_;             ///< by grain, counted days [kg]
  std::vector<double> median_rate_20_;   ///< by species [1/d]
  std::vector<int> struck_;              ///< by hard time and grain: lots or orders it has hit
  double walk_minutes_ = 0.0;            ///< of one round
  double evening_minutes_ = 0.0;         ///< that the morning leaves the evening for what is always to be done
  double evening_harvest_ = 0.0;         ///< and for harvest, where animals are fed then
  double evening_sowing_ = 0.0;          ///< and, before it moves and washes, for sowing
  int sessions_ = 2;
  std::int64_t due_age_ = 0, grace_age_ = 0, longest_age_ = 0;  ///< min since sowing: may be fed, must go, must go though unripe
  std::vector<double> ripe_at_;          ///< by species: growth at which a mat may be fed [d]
  double clean_tray_ = 0.1;              ///< inoculum that washing, and a dip where there is one, leave on a tray that bore a sound mat
  std::vector<BatchMats> mats_;          ///< by batch slot
  double usual_wetness_ = 1.0;           ///< mould multiplier of usual air
  std::vector<TrayLuck> tray_luck_;      ///< of the batch being sown
};

}  // namespace rackwright
