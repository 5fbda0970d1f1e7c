// A run that opens with what stands in the barn. Batches are sown anew when they were sown, in the weather that has been, and grow to
// today by the same models as all others; from then on the line goes by itself.

#include <algorithm>
#include <cmath>
#include <limits>

#include "models/base/expects.hpp"
#include "sim/replication/state.hpp"
#include "sim/scenario/rounds.hpp"
#include "sim/scenario/today.hpp"

namespace rackwright {

int soaked_since_round(const Scenario& scenario, const Opening& opening) {
  std::int64_t last = std::numeric_limits<std::int64_t>::min();
  for (int session = 0; session < rounds_a_day(scenario); ++session) {
    const std::int64_t today = round_minute(scenario, session);
    last = std::max(last, today < opening.now ? today : today - minutes_per_day);
  }
  return static_cast<int>(std::count_if(opening.wet.begin(), opening.wet.end(), [&](const Opening::Wet& wet) { return wet.since >= last; }));
}

const Course* Replicator::State::course_of(int day) const {
  if (!plan_->opening) return nullptr;
  const Course& course = plan_->opening->course;
  return day >= 0 && day < course.days ? &course : nullptr;
}

const Sowing* Replicator::State::sowing_of(int day, int session) const {
  if (!plan_->opening) return nullptr;
  for (const Sowing& sowing : plan_->opening->course.sowings) {
    if (sowing.day == day && sowing.session == session) return &sowing;
  }
  return nullptr;
}

void Replicator::State::follow_course(int day) {
  const Line& line = plan_->scenario.line;
  const Course* course = course_of(day);
  const int on_rack = std::max(1, line.days_on_rack - (course ? course->younger : 0));
  due_age_ = minutes_per_day * on_rack - 60;
  const double ready = course && course->ready > 0.0 ? course->ready : line.ready;
  for (std::size_t i = 0; i < ripe_at_.size(); ++i) ripe_at_[i] = ready * plan_->species[i].growth.ripe;
}

std::int64_t Replicator::State::soak_minute(int day, int session) const {
  const Sowing* own = sowing_of(day, session);
  const Hours soak = own && own->soak ? *own->soak : plan_->scenario.line.soak;
  return session_minute(day, session) - static_cast<std::int64_t>(60.0 * soak.value());
}

int Replicator::State::charged(int grain, double charge) const {
  const auto& charges = plan_->charges;
  const auto at = std::find(charges.begin(), charges.end(), charge);
  EXPECTS(at != charges.end());
  return static_cast<int>(at - charges.begin()) * static_cast<int>(plan_->scenario.grains.size()) + grain;
}

bool Replicator::State::soaks_already(int day, int session) const {
  return std::any_of(tubs_.begin(), tubs_.end(), [&](const Tub& tub) { return tub.day == day && tub.session == session; });
}

namespace {

grain::Lot lot_of(const Fortune& fortune, const Plan& plan, int grain, int day, std::optional<double> germinable) {
  grain::Lot lot = fortune.lot(plan, grain, 0, 1.0, {day, false});
  if (germinable) lot.germinable = *germinable;
  return lot;
}

}  // namespace

// Grain in soak, and on the books what stands already.
void Replicator::State::open_line() {
  const Opening& opening = *plan_->opening;
  for (const Opening::Wet& wet : opening.wet) {
    const double kilograms = wet.trays * plan_->grains[static_cast<std::size_t>(charged(wet.grain, wet.charge))].per_tray;
    tubs_.push_back({wet.since, session_minute(wet.day, wet.session), wet.grain, wet.day, wet.session, wet.trays, kilograms,
                     lot_of(fortune_, *plan_, wet.grain, wet.day, {}), wet.charge});
    balance_.grain_start += kilograms;
  }
  for (const Opening::Sown& sown : opening.sown)
    balance_.grain_start += sown.trays * plan_->grains[static_cast<std::size_t>(charged(sown.grain, sown.charge))].per_tray;
}

void Replicator::State::schedule_opening() {
  const Opening& opening = *plan_->opening;
  sim_.schedule_at(opening.now, phase_books, {.kind = EventKind::take_over});
  for (const Opening::Ordered& order : opening.ordered) {
    store_.expect(order.grain, order.kilograms);
    sim_.schedule_at(std::max(opening.now, order.due), phase_delivery,
                     {.kind = EventKind::delivery, .grain = order.grain, .number = store_.numbered(order.grain, 1.0),
                      .kilograms = order.kilograms});
  }
  // What should be in soak by now and is not can still be put there, if most of its soak is left.
  for (int session = 0; session < plan_->scenario.line.batches_per_day; ++session) {
    for (int day = 0; soak_minute(day, session) < opening.now; ++day) {
      const std::int64_t due = session_minute(day, session), whole = due - soak_minute(day, session);
      if (due <= opening.now || soaks_already(day, session)) continue;
      if (static_cast<double>(due - opening.now) < least_soak * static_cast<double>(whole)) continue;
      sim_.schedule_at(opening.now, phase_soak,
                       {.kind = EventKind::soak, .session = static_cast<std::uint8_t>(session), .day = day, .number = 1});
    }
  }
}

void Replicator::State::replay_round(const Event& event) {
  settle_all(event.session);
  fill_tank();
  minutes_left_ = std::numeric_limits<double>::max();
  for (const Opening::Sown& sown : plan_->opening->sown) {
    if (sown.day != event.day || sown.session != event.session) continue;
    const double kilograms = sown.trays * plan_->grains[static_cast<std::size_t>(charged(sown.grain, sown.charge))].per_tray;
    sow({sim_.now() - static_cast<std::int64_t>(60.0 * sown.soak.value()), sim_.now(), sown.grain, sown.day, sown.session, sown.trays,
         kilograms, lot_of(fortune_, *plan_, sown.grain, sown.day, sown.germinable), sown.charge}, event.session);
    // The keeper finds these mats sound: until then no hazard counts.
    Batch& batch = rack_.batches().back();
    batch.mould_next = batch.sour_next = std::numeric_limits<double>::infinity();
  }
  if (event.session == 0) rack_.arrange({});
  work_ = {};
}

// Mats that are sound today spoil by what comes: a threshold of Exp(1) has no memory.
void Replicator::State::take_over() {
  catch_up();
  work_.batches_soaked = soaked_since_round(plan_->scenario, *plan_->opening);
  const auto now = static_cast<double>(sim_.now());
  std::span<Batch> batches = rack_.batches();
  std::fill(mat_heat_.begin(), mat_heat_.end(), 0.0);
  settler_.settle(batches, room_, now, humidity_factor_);
  for (Batch& batch : batches) {
    batch.mark = 0;
    batch.mould_next = batch.sour_next = std::numeric_limits<double>::infinity();
    warm_room(batch, batch.left);
    for (Tray& tray : rack_.trays_of(batch)) {
      tray.mould_at += batch.mould;
      tray.sour_at += batch.sour;
      batch.mould_next = std::min(batch.mould_next, tray.mould_at);
      batch.sour_next = std::min(batch.sour_next, tray.sour_at);
    }
  }
  room_.set_mark(0);
  room_.set_mark(1);
  coldest_ = above_freezing;
}

}  // namespace rackwright
