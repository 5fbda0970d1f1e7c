// Soaking and sowing.

#include <algorithm>
#include <cmath>
#include <limits>
#include <span>

#include <fmt/core.h>

#include "models/soak/uptake.hpp"
#include "models/spoilage/hazard.hpp"
#include "sim/replication/journal_words.hpp"
#include "sim/replication/sown.hpp"
#include "sim/replication/state.hpp"

namespace rackwright {
namespace {

constexpr std::int64_t stale_minutes = 2 * minutes_per_day;  // past its sowing (assumed)
constexpr double soak_litres_per_kg = 2.0; // water put on a kilogram of grain (common practice, no source)

}  // namespace

// In mats as heavy as the last ones, of which as many spoil.
int Replicator::State::trays_for(int day, int session) const {
  const Line& line = plan_->scenario.line;
  if (line.sow == SowRule::all) return line.trays_per_batch;
  return trays_as_wanted(line, fortune_.expected(day + line.days_on_rack), mat_weight_ * std::max(least_sound, sound_), session);
}

void Replicator::State::on_soak(const Event& event) {
  if (event.number == 0) {  // neither one by itself (1) nor one that waited for a bucket (a tray more than it is to have)
    Event next = event;
    ++next.day;
    sim_.schedule_at(std::max(sim_.now(), soak_minute(next.day, next.session)), phase_soak, next);
  }

  const auto batch = static_cast<std::size_t>(event.session);
  const int grain = plan_->batch_grain[batch];  // one a batch of the day
  const Sowing* own = sowing_of(event.day, event.session);
  const int planned = event.number > 1 ? static_cast<int>(event.number) - 1 : std::min(own ? own->trays : trays_for(event.day, event.session), plan_->positions);
  if (planned > 0 && fortune_.away(*plan_, sim_.now())) {
    out_.unattended_trays += planned;
    note({.kind = Happening::Kind::nobody_soaked, .day = event.day, .session = event.session, .trays = planned, .which = grain});
    tell([] { return std::string("nobody was there to put grain to soak"); });
    return;
  }
  catch_up();  // it may have frozen or thawed since the last round
  if (frozen_ && planned > 0) return count_frozen_out(event.day, event.session, planned, grain);
  const int wanted = std::min(planned, bucket_room());
  if (wanted < planned) {
    if (wait_for_bucket(event, planned)) return;
    out_.unsoaked_trays += planned - wanted;
    note({.kind = Happening::Kind::no_bucket, .day = event.day, .session = event.session, .trays = planned - wanted, .which = grain});
    tell([&] { return fmt::format("buckets were free for {} of {} trays", wanted, planned); });
  }
  const double per_tray = plan_->grains[static_cast<std::size_t>(charged(grain, own ? own->charge : 1.0))].per_tray;
  const bool outside = from_outside();
  if (!outside) throw_old_grain(grain);
  const int trays = outside ? wanted : std::min(wanted, static_cast<int>(store_.on_hand(grain) / per_tray + 1e-9));
  if (trays < wanted) {
    ++out_.grain_run_outs;
    out_.unsown_trays += wanted - trays;
    note({.kind = Happening::Kind::no_grain, .day = event.day, .session = event.session, .trays = wanted - trays, .which = grain});
    tell([&] { return fmt::format("too little {} in store: {} of {} trays soaked", plan_->scenario.grains[static_cast<std::size_t>(grain)].name, trays, wanted); });
  }
  if (trays > 0) {
    const Withdrawal taken = outside ? store_.from_outside(fortune_, grain, trays * per_tray) : store_.withdraw(grain, trays * per_tray);
    if (outside) balance_.grain_start += taken.kilograms;
    tubs_.push_back({sim_.now(), session_minute(event.day, event.session), grain, event.day, event.session, trays, taken.kilograms, taken.lot, own ? own->charge : 1.0});
    note({.kind = Happening::Kind::soaked, .day = event.day, .session = event.session, .trays = trays, .amount = taken.kilograms, .which = grain});
    out_.grain_used += taken.kilograms;
    const GrainSupply& supply = plan_->scenario.grains[static_cast<std::size_t>(grain)];
    out_.grain_untried += taken.untried;
    spend(out_.cost.grain, taken.paid * supply.price());
    dry_grain_money_ += taken.paid * std::min(supply.price(), supply.price_per_kg);  // nobody feeds a dearer grade dry
    used_[static_cast<std::size_t>(grain)] += taken.kilograms;
    soak_water_today_ += soak_litres_per_kg * taken.kilograms;
    ++work_.batches_soaked;
  }
  if (!outside) review_order(grain);
}

int Replicator::State::bucket_room() const {
  constexpr double rounding = 1e-9;
  const Keeper& keeper = plan_->scenario.keeper;
  double taken = 0.0;  // a bucket holds the grain of one batch
  for (const Tub& tub : tubs_) taken += std::ceil(tub.trays / keeper.trays_per_bucket - rounding);
  return static_cast<int>(std::floor(std::max(0.0, keeper.soak_buckets - taken) * keeper.trays_per_bucket + rounding));
}

// A batch that finds too few buckets waits for the round that empties some, if that leaves it most of its soak.
bool Replicator::State::wait_for_bucket(const Event& event, int trays) {
  std::int64_t round = session_minute(event.day, event.session);
  const std::int64_t sown = round;
  for (int day = today(); day <= event.day; ++day) {
    for (int session = 0; session < sessions_; ++session) {
      const std::int64_t at = session_minute(day, session);
      if (at > sim_.now() && at < round) round = at;
    }
  }
  const bool empties = std::any_of(tubs_.begin(), tubs_.end(), [&](const Tub& tub) { return tub.due <= round; });
  if (!empties || static_cast<double>(sown - round) < least_soak * 60.0 * plan_->scenario.line.soak.value()) return false;
  Event again = event;
  again.number = static_cast<std::uint32_t>(trays) + 1;
  sim_.schedule_at(round, phase_soak, again);
  return true;
}

void Replicator::State::sow_due(int session) {
  // Grain that has stood in water for days is dead and foul: nobody would sow it.
  std::erase_if(tubs_, [this](const Tub& tub) {
    const bool foul = sim_.now() - tub.due > stale_minutes;
    if (foul) {
      balance_.grain_spilt += tub.kilograms;
      if (frozen_) {
        count_frozen_out(tub.day, tub.session, tub.trays, tub.grain);
      } else {
        out_.unattended_trays += tub.trays;
        note({.kind = Happening::Kind::foul, .day = tub.day, .session = tub.session, .trays = tub.trays, .which = tub.grain});
      }
      tell([&] { return fmt::format("{} of grain too long in water was poured out", mass_words(plan_->scenario.units, tub.kilograms)); });
    }
    return foul;
  });
  if (frozen_) return;  // it waits as ice
  int wanted = 0;
  for (const Tub& tub : tubs_) wanted += tub.due <= sim_.now() ? tub.trays : 0;
  make_room(time_for(wanted, plan_->scenario.keeper.times.sow_per_tray), session);
  for (const Tub& tub : tubs_) {
    if (tub.due <= sim_.now()) sow(tub, session);
  }
  std::erase_if(tubs_, [this](const Tub& tub) { return tub.due <= sim_.now(); });
}

// Each tray's luck. Thresholds are put in the batch's terms; the lucks stand for them until one is passed.
void Replicator::State::sow_trays(Batch& batch, const random::BetaTable& scatter, double clean) {
  const std::span<Tray> trays = rack_.trays_of(batch);
  fortune_.trays(batch.day, batch.session, batch.germinable, scatter, {tray_luck_.data(), trays.size()});
  batch.mould_next = batch.sour_next = std::numeric_limits<double>::infinity();
  const double uncrowded = plan_->grains[static_cast<std::size_t>(batch.grain)].mats.uncrowded();
  const TrayLuck* luck = tray_luck_.data();
  for (Tray& tray : trays) {
    tray.germinable = luck->germinable;
    tray.mould_luck = luck->mould;
    tray.sour_luck = tray.sour_at = luck->sour;
    tray.mould_rate = clean * spoilage::dead_grain_factor(spoil_, 1.0 - uncrowded * tray.germinable);
    tray.mould_at = tray.mould_rate > 0.0 ? tray.mould_luck / tray.mould_rate : std::numeric_limits<double>::infinity();
    batch.mould_next = std::min(batch.mould_next, tray.mould_at);
    batch.sour_next = std::min(batch.sour_next, tray.sour_at);
    ++luck;
  }
}

void Replicator::State::sow(const Tub& tub, int session) {
  const int placed = std::min(tub.trays, rack_.free_places());
  const double minutes = plan_->scenario.keeper.times.sow_per_tray;
  const int trays = time_for(placed, minutes);
  take_time(minutes * trays);
  const double spilt = tub.kilograms * (tub.trays - trays) / tub.trays;
  balance_.grain_spilt += spilt;
  balance_.grain_sown += tub.kilograms - spilt;
  out_.blocked_sowings += tub.trays - placed;
  out_.untimely_trays += placed - trays;
  if (trays < placed) {
    rushed_today_ = true;
    note({.kind = Happening::Kind::no_time, .day = tub.day, .session = tub.session, .trays = placed - trays});
    tell([&] { return fmt::format("time was left to sow {} of {} trays", trays, placed); });
  }
  if (placed < tub.trays)
    note({.kind = Happening::Kind::no_place, .day = tub.day, .session = tub.session, .trays = tub.trays - placed});
  if (placed < tub.trays) tell([&] { return fmt::format("{} trays found no place on the rack", tub.trays - placed); });
  if (trays == 0) return;

  const auto& line = plan_->scenario.line;
  const int charged_grain = charged(tub.grain, tub.charge);
  const GrainPlan& grain = plan_->grains[static_cast<std::size_t>(charged_grain)];
  const GrainSupply& supply = plan_->scenario.grains[static_cast<std::size_t>(tub.grain)];
  const double hours = static_cast<double>(sim_.now() - tub.start) / 60.0;
  const double water = soak::bucket_temperature(line.soak_water, Celsius(room_.temperature()), Hours(hours)).value();
  const soak::Effect soaked = soak::effect(grain.soak, Celsius(water), supply.moisture, Hours(hours));

  count_trays();
  Batch& batch = rack_.add(trays);
  batch.grain = charged_grain;
  batch.species = grain.species;
  batch.sown = sim_.now();
  batch.settled = static_cast<double>(sim_.now());
  batch.day = tub.day;
  batch.session = tub.session;
  batch.mark = session;
  mats_[static_cast<std::size_t>(batch.slot)].when = BatchMats::never;
  const Ignorance& known = fortune_.ignorance();
  const Origin origin = plan_->species[static_cast<std::size_t>(grain.species)].germination.origin;
  batch.vigour = tub.lot.vigour / known.germination_time(origin);
  batch.grain_dry_matter = grain.dry_matter;
  batch.germinable = std::clamp(tub.lot.germinable * soaked.survival * grain.dip.germination_kept, 0.0, 1.0);
  const double median_rate = median_rate_20_[static_cast<std::size_t>(grain.species)];
  const double ahead = (soaked.head_start - soaked.delay) / 24.0;
  batch.progress = std::max(0.0, ahead * median_rate);
  batch.had_chance = batch.germinated = settler_.share_germinated(grain.species, batch.progress);
  // A slow lot sprouts later by the difference of its median to a usual one, and its growth starts so much later.
  batch.growth = ahead + (1.0 - 1.0 / batch.vigour) / median_rate;
  batch.evaporated = room_.evaporated_depth();
  batch.soak_litres = std::max(0.0, (1.0 - supply.moisture) / (1.0 - soaked.moisture) - 1.0);
  const double undrained = 1.0 - line.drainage;
  spoilage::Tray tray_like{.dead_fraction = 1.0 - batch.germinable, .density = grain.charge * line.sowing_density, .soak_stress = soaked.stress, .undrained = undrained};
  batch.sour_rate = known.sour * spoilage::sour_multiplier(spoil_, tray_like);
  // Relative to a usual clean lot on a well-washed tray.
  batch.inoculum = tray_like.inoculum = (tub.lot.inoculum * grain.dip.inoculum_left + tray_residue_) / spoilage::usual_inoculum;
  rack_.meet(batch, level_load());
  tray_like.dead_fraction = spoil_.usual_dead_fraction;
  const double clean = known.mould * spoilage::mould_multiplier(spoil_, tray_like);
  batch.dead_inverse = 1.0 / spoilage::dead_grain_factor(spoil_, 1.0 - grain.mats.uncrowded() * batch.germinable);
  settler_.sown(batch);
  warm_room(batch, trays);
  sow_trays(batch, *grain.trays, clean);
  balance_.dry_matter_sown += trays * grain.per_tray * grain.dry_matter;
  balance_.trays_sown += trays;
  out_.trays_sown += trays;
  work_.trays_sown += trays;
  sim_.trace(static_cast<std::uint64_t>(trays));
  note({.kind = Happening::Kind::sown, .day = tub.day, .session = tub.session, .trays = trays, .amount = batch.germinable,
        .other = tub.lot.vigour, .which = tub.grain});
  tell([&] { return fmt::format("{} trays of {} sown after {:.1f} h in water of {} (mean over the soak); {:.0f} % of this lot germinates", trays, supply.name,
                                hours, temperature_words(plan_->scenario.units, water), 100.0 * tub.lot.germinable); });
}

}  // namespace rackwright
