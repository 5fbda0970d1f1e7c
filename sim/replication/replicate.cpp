#include "sim/replication/replicate.hpp"

#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"
#include "models/cost/ledger.hpp"
#include "models/feed/value.hpp"
#include "models/soak/uptake.hpp"
#include "models/spoilage/hazard.hpp"
#include "sim/replication/state.hpp"
#include "sim/scenario/rounds.hpp"

namespace rackwright {

Replicator::Replicator(const Plan& plan) : state_(std::make_unique<State>(plan)) {}
Replicator::~Replicator() = default;
Replicator::Replicator(Replicator&&) noexcept = default;
Replicator& Replicator::operator=(Replicator&&) noexcept = default;

Outcome Replicator::run(std::uint64_t random_seed, std::uint32_t replication, Journal* journal,
                        std::optional<std::uint32_t> assumptions) {
  return state_->run(random_seed, replication, journal, assumptions);
}

std::span<const DailyRow> Replicator::daily() const { return state_->rows(); }

Replicator::State::State(const Plan& plan) : plan_(&plan), room_(plan), rack_(plan), settler_(plan), store_(plan) {
  sim_.reserve(64 + Fortune::most_outages(plan));
  rows_.reserve(static_cast<std::size_t>(plan.horizon_days));
  tubs_.reserve(16);
  mat_heat_.resize(plan.species.size());
  const auto tiers = static_cast<std::size_t>(plan.scenario.rack.tiers);
  level_load_.resize(tiers);
  clogged_.resize(tiers);
  droughts_.resize(tiers);
  struck_.resize(plan.grains.size() * plan.scenario.hard_times.size());
  used_.resize(plan.scenario.grains.size());
  wants_.resize(plan.groups.size());
  tray_luck_.resize(static_cast<std::size_t>(std::min(plan.most_trays, plan.positions)));
  const Line& line = plan.scenario.line;
  grace_age_ = minutes_per_day * (line.days_on_rack + line.grace_days) - 60;
  longest_age_ = minutes_per_day * (2 * line.days_on_rack + line.grace_days) - 60;
  ripe_at_.resize(plan.species.size());
  clean_tray_ = (1.0 - line.wash) * soak::dip_effect(line.tray_dip).surface_left;
  mats_.resize(static_cast<std::size_t>(plan.positions) + 1);
  usual_wetness_ = spoilage::mould_multiplier(plan.scenario.spoilage, spoilage::Tray{});
  for (const SpeciesPlan& species : plan.species) median_rate_20_.push_back(germination::rate(species.germination, Celsius(20.0)));
  const auto twice = [](const Group& group) { return group.feedings > 1; };
  const auto& groups = plan.scenario.groups;
  for (const Group& group : groups) feeding_share_.push_back(twice(group) ? std::array{0.5, 0.5} : std::array{1.0, 0.0});
  sessions_ = rounds_a_day(plan.scenario);
  const Keeper& keeper = plan.scenario.keeper;
  session_minutes_ = {std::llround(60.0 * keeper.morning.value()), std::llround(60.0 * keeper.evening.value())};
  walk_minutes_ = plan.route.walk_per_day.value() / keeper.times.walking_speed / sessions_;
  if (sessions_ < 2) return;
  const route::Times& times = keeper.times;
  evening_minutes_ = walk_minutes_;
  evening_harvest_ = times.harvest_per_tray * std::ceil(plan.evening_share * line.trays_per_batch * line.batches_per_day);
  if (line.batches_per_day < 2) return;
  evening_minutes_ += times.soak_per_batch + times.drain_per_batch;
  evening_sowing_ = times.sow_per_tray * line.trays_per_batch;
}

std::int64_t Replicator::State::session_minute(int day, int session) const {
  return minutes_per_day * day + session_minutes_[static_cast<std::size_t>(session)];
}

void Replicator::State::start(std::uint64_t random_seed, std::uint32_t replication, std::optional<std::uint32_t> assumptions) {
  fortune_.follow_herd(journal_ != nullptr);
  fortune_.draw(*plan_, random_seed, replication, assumptions);
  const Ignorance& known = fortune_.ignorance();
  spoil_ = assumed(plan_->scenario.spoilage, known);
  settler_.assume(known.clock, known.loss, known.warmth, known.flatness, spoil_);
  const std::int64_t begin = -minutes_per_day * plan_->warm_up_days;
  sim_.reset(begin);
  room_.start(fortune_, begin / 60);
  rack_.clear();
  store_.start(fortune_);
  static_cast<RunValues&>(*this) = {};
  static_cast<CountedValues&>(*this) = {};
  static_cast<DayValues&>(*this) = {};
  mat_weight_ = plan_->standard_mat;
  if (plan_->opening) sound_ = plan_->opening->sound;
  frozen_ = frost::water_stands(Celsius(room_.temperature()));
  balance_.grain_start = store_.on_hand();
  follow_course(-plan_->warm_up_days);
  tray_clock_ = begin;
  rows_.clear();
  tubs_.clear();
  std::fill(mat_heat_.begin(), mat_heat_.end(), 0.0);
  std::fill(struck_.begin(), struck_.end(), 0);
  std::fill(level_load_.begin(), level_load_.end(), 0.0);
  std::fill(clogged_.begin(), clogged_.end(), char{0});
  std::fill(droughts_.begin(), droughts_.end(), Drought{});
  tray_residue_ = clean_tray_;
  std::fill(mats_.begin(), mats_.end(), BatchMats{});
  if (plan_->opening) open_line();
  tank_filled_ = begin - 60 * static_cast<std::int64_t>(plan_->scenario.water.top_up_every.value());
}

void Replicator::State::schedule_first() {
  const int first = -plan_->warm_up_days;
  fill_tank();
  sim_.schedule_at(minutes_per_day * (first + 1), phase_books, {.kind = EventKind::close_day, .day = first});
  for (int session = 0; session < sessions_; ++session) {
    sim_.schedule_at(session_minute(first, session), phase_round,
                     {.kind = EventKind::round, .session = static_cast<std::uint8_t>(session), .day = first});
  }
  const std::int64_t own = plan_->opening ? plan_->opening->now : sim_.now();  // from when on the line goes by itself
  if (plan_->opening) schedule_opening();
  for (int session = 0; session < plan_->scenario.line.batches_per_day; ++session) {
    int day = first;
    while (soak_minute(day, session) < own || soaks_already(day, session)) ++day;
    sim_.schedule_at(soak_minute(day, session), phase_soak,
                     {.kind = EventKind::soak, .session = static_cast<std::uint8_t>(session), .day = day});
  }
  const std::array<const std::vector<Outage>*, 2> systems{&fortune_.pump(), &fortune_.power()};
  for (std::uint8_t system = 0; system < 2; ++system) {
    const auto& outages = *systems[system];
    for (std::uint32_t i = 0; i < outages.size(); ++i) {
      // One that has begun before lasts into the line's own time, unless what stands there today is known: then that says so.
      if (outages[i].start < own && (plan_->opening || outages[i].end <= own)) continue;
      sim_.schedule_at(std::max(own, outages[i].start), phase_trouble, {.kind = EventKind::outage_starts, .system = system, .number = i});
    }
  }
  for (std::uint32_t i = 0; i < fortune_.clogs().size(); ++i) {
    if (fortune_.clogs()[i].start < own) continue;
    sim_.schedule_at(fortune_.clogs()[i].start, phase_trouble, {.kind = EventKind::clog_starts, .number = i});
  }
}

void Replicator::State::handle(const Event& event) {
  switch (event.kind) {
    case EventKind::close_day: return on_close_day(event.day);
    case EventKind::outage_starts: return on_outage_starts(event);
    case EventKind::outage_ends: return on_outage_ends(event);
    case EventKind::clog_starts: return on_clog_starts(event);
    case EventKind::tank_empty: return on_tank_empty();
    case EventKind::delivery: return on_delivery(event);
    case EventKind::take_over: return take_over();
    case EventKind::round: return on_round(event);
    case EventKind::soak: return on_soak(event);
    case EventKind::trial_over: return on_trial_over(event);
  }
}

Outcome Replicator::State::run(std::uint64_t random_seed, std::uint32_t replication, Journal* journal,
                               std::optional<std::uint32_t> assumptions) {
  journal_ = journal;
  start(random_seed, replication, assumptions);
  schedule_first();
  const auto step = [this](const auto& event) { handle(event.payload); };
  if (plan_->warm_up_days > 0) {
    sim_.run_until(0, phase_trouble, step);  // the books of the last day of the run-in are closed at minute 0
  }
  open_books();
  if (plan_->warm_up_days == 0) tell_of_day(0);
  // Those of the last day, but nothing more of the minute in which it ends.
  sim_.run_until(minutes_per_day * plan_->horizon_days, phase_trouble, step);
  out_.replication = replication;
  Outcome outcome = close_books();
  journal_ = nullptr;
  return outcome;
}

void Replicator::State::open_books() {
  static_cast<CountedValues&>(*this) = {};
  before_ = totals();
  out_.grain_start = store_.on_hand();
  std::fill(used_.begin(), used_.end(), 0.0);
  balance_.money_booked = 0.0;
  rows_.clear();
  // Little's law is asked of the counted days alone: trays already here stay from now on.
  tray_clock_ = sim_.now();
  for (Batch& batch : rack_.batches()) {
    tray_stay_ -= static_cast<double>(batch.left) * static_cast<double>(sim_.now() - batch.sown) / minutes_per_day;
  }
}

Outcome Replicator::State::close_books() {
  catch_up();
  for (Batch& batch : rack_.batches()) {
    settle(batch);
    const BatchMats& mats = this->mats(batch);
    TraySum sum;
    for (Tray& tray : rack_.trays_of(batch)) {
      if (!tray.here) continue;
      add_tray(mats, tray, sum);
    }
    const DryMatter dry = book_mats(batch, mats, sum);
    balance_.dry_matter_left += dry.left;
    balance_.water_left += sum.fresh - dry.left;
    tray_stay_ += sum.trays * static_cast<double>(sim_.now() - batch.sown) / minutes_per_day;
  }
  count_trays();

  Outcome& o = out_;
  o.days = plan_->horizon_days;
  o.fill_rate = o.wanted > 0.0 ? std::min(1.0, o.served / o.wanted) : 1.0;
  o.worst_season_fill_rate = seasons_.worst(o.fill_rate);
  o.trays_on_rack = rack_.trays();
  o.grain_end = store_.on_hand();
  double in_tubs = 0.0;
  for (const Tub& tub : tubs_) in_tubs += tub.kilograms;
  if (o.trays_fed > 0) {
    o.mat_height = sum_height_ / o.trays_fed;
    o.mat_growth_days = sum_growth_ / o.trays_fed;
    o.germination = sum_sprouted_ / o.trays_fed;
  }
  o.room_mean = room_hours_ > 0.0 ? room_sum_ / room_hours_ : 0.0;
  o.cost_total = o.cost.total();
  const double fodder_money = o.cost_total - o.cost.reserve;
  o.cost_per_kg_fresh = cost::per_kilogram(fodder_money, o.served);
  o.cost_per_kg_dry_matter = cost::per_kilogram(fodder_money, o.fodder_dry_matter);
  // The same money, had the grain been fed dry and whole.
  for (std::size_t g = 0; g < used_.size(); ++g) o.grain_dry_matter += used_[g] * plan_->grains[g].dry_matter;
  o.dry_grain_per_kg_dry_matter = cost::per_kilogram(dry_grain_money_, o.grain_dry_matter);
  o.equal_hay = feed::hay_of_equal_energy(o.energy_feed, plan_->scenario.feed.hay).value();
  o.cost_equal_hay = o.equal_hay * plan_->scenario.prices.hay_per_kg;
  o.residence_days = tray_stay_;
  o.fingerprint = sim_.fingerprint();
  balance_.heat_moved = room_.heat().moved / 1000.0;
  balance_.heat_unexplained = room_.heat().unexplained / 1000.0;
  o.residuals = balance_.residuals(rack_.trays(), o.grain_end + in_tubs, o.cost_total);
  require_closed(o.residuals, balance_);
  return o;
}

}  // namespace rackwright
