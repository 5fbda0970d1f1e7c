// Feeding: who wants what, how a short day is shared out, what is cut, and what it is worth.

#include <algorithm>
#include <cmath>

#include <fmt/core.h>

#include "models/feed/value.hpp"
#include "sim/replication/journal_words.hpp"
#include "sim/replication/state.hpp"

namespace rackwright {

double Replicator::State::ask_animals(int day, int session) {
  double wanted = 0.0;
  for (std::size_t g = 0; g < wants_.size(); ++g) {
    wants_[g] = feeding_share_[g][static_cast<std::size_t>(session)] * fortune_.wanted(g, day);
    wanted += wants_[g];
  }
  return wanted;
}

// And, on top of that, what the evening of that day wants.
double Replicator::State::with_evening(double wanted, int day) const {
  for (std::size_t g = 0; g < wants_.size(); ++g) wanted += feeding_share_[g][1] * fortune_.wanted(g, day);
  return wanted;
}

// What this meal may take. A morning that sees too little on the rack for both meals of its day leaves the evening its share: each meal
// then gets the same part of what it wants. What ripens during the day is counted as it stands in the morning.
double Replicator::State::fair_meal(int day, int session, double wanted) {
  if (session != 0 || sessions_ < 2) return wanted;
  const double both = with_evening(wanted, day);
  if (both <= wanted) return wanted;
  const std::int64_t until_evening = session_minutes_[1] - session_minutes_[0];
  double supply = carried_.fresh;
  if (frozen_) return supply >= both ? wanted : supply * wanted / both;
  for (const Batch& batch : rack_.batches()) {
    if (supply >= both) return wanted;
    const std::int64_t age = sim_.now() + until_evening - batch.sown;
    if (age < due_age_) break;
    if (!ripe(batch) && (age < grace_age_ || !is_mat(batch))) continue;
    const BatchMats& mats = this->mats(batch);
    for (const Tray& tray : rack_.trays_of(batch)) {
      if (tray.here) supply += fresh_mass(mats, tray);
    }
  }
  return supply >= both ? wanted : supply * wanted / both;
}

// Counts the meals of this round: every group gets the same share of what it wants.
void Replicator::State::count_feedings(double share) {
  const bool is_short = share < 1.0 - plan_->scenario.feed.tolerance;
  for (const double want : wants_) {
    if (want <= 0.0) continue;
    ++out_.feedings;
    if (!is_short) continue;
    ++out_.short_feedings;
    short_today_ = true;
  }
}

// Nobody came: nothing is cut, nothing bought in its place.
void Replicator::State::miss_feeding(double wanted) {
  count_feedings(wanted > 0.0 ? 0.0 : 1.0);
  out_.wanted += wanted;
}

void Replicator::State::feed_animals(int day, int session, double wanted) {
  const Course* course = course_of(day);
  const double meal = std::min(fair_meal(day, session, wanted), course ? course->ration * wanted : wanted);
  harvest(meal);
  const double served = std::min(meal, carried_.fresh);
  const double share = wanted > 0.0 ? served / wanted : 1.0;
  count_feedings(share);
  out_.wanted += wanted;
  out_.served += served;
  const double eaten = carried_.fresh > 0.0 ? std::min(1.0, served / carried_.fresh) : 0.0;
  out_.fodder_fresh += served;
  out_.fodder_dry_matter += carried_.dry_matter * eaten;
  out_.protein += carried_.protein * eaten;
  out_.energy_feed += carried_.energy_mj * eaten;
  carried_.fresh -= served;
  carried_.dry_matter *= 1.0 - eaten;
  carried_.protein *= 1.0 - eaten;
  carried_.energy_mj *= 1.0 - eaten;
  // What is missing is made up, dry matter for dry matter, from the reserve: the keeper is there to give it.
  const double reserve = course && !course->reserve ? 0.0 : (wanted - served) * plan_->standard_dry_matter / plan_->scenario.feed.hay.dry_matter;
  out_.reserve_feed += reserve;
  spend(out_.cost.reserve, reserve * plan_->scenario.prices.reserve_per_kg);
  note_given(share);
  const bool fell_short = share < 1.0 - plan_->scenario.feed.tolerance;
  if (fell_short) note_unready();
  note({.kind = Happening::Kind::fed, .day = day, .session = session, .trays = fell_short, .amount = wanted, .other = served});
  const Units units = plan_->scenario.units;
  tell([&] {
    return fell_short ? fmt::format("fed {} of {} wanted: short", mass_words(units, served), mass_words(units, wanted))
                      : fmt::format("fed {}", mass_words(units, served));
  });
}

// Cuts ripe mats, oldest first, until the meal is covered; if they are too few, unripe ones whose grace is over.
void Replicator::State::harvest(double meal) {
  if (frozen_) {  // frozen fodder is not fed
    if (carried_.fresh < meal && rack_.trays() > 0) note({.kind = Happening::Kind::ice, .trays = rack_.trays()});
    return;
  }
  for (const bool only_ripe : {true, false}) {
    for (Batch& batch : rack_.batches()) {
      if (carried_.fresh >= meal || too_young(batch)) break;
      if (batch.left > 0 && (only_ripe ? ripe(batch) : past_grace(batch) && is_mat(batch))) cut(batch, meal);
    }
  }
  rack_.drop_empty();
}

// Cuts trays of a due batch until what is cut covers what is wanted, or the time is up.
void Replicator::State::cut(Batch& batch, double wanted, int most) {
  const double minutes = plan_->scenario.keeper.times.harvest_per_tray;
  const BatchMats& mats = this->mats(batch);
  TraySum sum;
  double fresh = carried_.fresh;
  rack_.lay(batch);
  for (Tray& tray : rack_.trays_of(batch)) {
    if (!tray.here) continue;
    if (fresh >= wanted || sum.trays >= most) break;
    if (minutes > minutes_left_ + minutes_rounding) {
      if (!rushed_harvest_) ++out_.hurried_harvests;
      rushed_harvest_ = rushed_today_ = true;
      note({.kind = Happening::Kind::rushed, .day = batch.day, .session = batch.session, .trays = batch.left - sum.trays,
            .amount = wanted - fresh, .other = fresh_mass(mats, tray)});
      break;
    }
    take_time(minutes);
    fresh += add_tray(mats, tray, sum);
    if (tray.spoiled != Spoiled::no) ++out_.spoiled_fed;
    note_risk(batch, tray);
    vacate(batch, tray);
  }
  if (sum.trays == 0) return;
  carried_.fresh = fresh;
  constexpr double remembered = 0.8;  // a keeper goes by the last mats rather than by those of weeks ago (assumed)
  mat_weight_ = remembered * mat_weight_ + (1.0 - remembered) * sum.fresh / sum.trays;
  leave_rack(batch, sum.trays);
  note({.kind = Happening::Kind::cut, .day = batch.day, .session = batch.session, .trays = sum.trays, .amount = sum.fresh,
        .other = sum.sprouted / sum.trays, .which = ripe(batch) ? 0 : 1});
  const DryMatter dry = book_mats(batch, mats, sum);
  balance_.dry_matter_fed += dry.left;
  balance_.water_fed += sum.fresh - dry.left;
  balance_.trays_fed += sum.trays;
  work_.trays_harvested += sum.trays;
  value_cut(batch, mats, sum, dry.left);
}

// Books what the trays just cut are worth, and how they had grown.
void Replicator::State::value_cut(const Batch& batch, const BatchMats& mats, const TraySum& sum, double dry_matter) {
  out_.trays_fed += sum.trays;
  const auto& growth = plan_->species[static_cast<std::size_t>(batch.species)].growth;
  const double kept = growth::value_kept(growth, std::max(0.0, batch.growth));
  if (kept < 1.0) out_.overdue_trays += sum.trays;
  if (!ripe(batch)) out_.unripe_fed += sum.trays;
  feed::GrainValue value = plan_->scenario.feed.grain;
  value.crude_protein = plan_->grains[static_cast<std::size_t>(batch.grain)].protein;
  // Nutrients are linear in the loss: the trays' mean stands for them all.
  const double loss = (sum.sprouted * mats.loss + sum.lost) / sum.trays;
  const feed::Nutrients given = feed::mat(Kilograms(plan_->grains[static_cast<std::size_t>(batch.grain)].per_tray * sum.trays), batch.grain_dry_matter, loss,
                                          1.0 - growth.respired_share, value, kept * feed::usual_value_kept);
  carried_.dry_matter += dry_matter;
  carried_.protein += given.crude_protein;
  carried_.energy_mj += given.energy_mj;
  sum_growth_ += batch.growth * sum.trays;
  sum_sprouted_ += sum.sprouted;
  const MatTable& table = plan_->grains[static_cast<std::size_t>(batch.grain)].mats;
  const double height = fortune_.ignorance().height * mats.height_cm * growth::stand(sum.sprouted / sum.trays * table.uncrowded()) * sum.trays;
  sum_height_ += height;
  height_sum_ += height;
  height_count_ += sum.trays;
}

// What was cut in the morning and not wanted keeps to the evening, no longer.
void Replicator::State::drop_carried(int session) {
  if (session != sessions_ - 1) return;
  out_.leftover += carried_.fresh;
  carried_ = {};
}

}  // namespace rackwright
