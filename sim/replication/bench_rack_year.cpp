// Rack-years a second of processor, and the ratio to a hand-written loop of the same physics, from the same tables and lanes, without
// calendar, journal, store, balances or statistics. Interleaved rounds in one run; prints medians and quartiles. Not a test.
//
//   bench_rack_year [SCENARIO [ROUNDS [REPLICATIONS]]]

#include <algorithm>
#include <cmath>
#include <span>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <string>
#include <vector>

#include <fmt/core.h>

#include "models/soak/uptake.hpp"
#include "models/spoilage/hazard.hpp"
#include "sim/replication/batch_settle.hpp"
#include "sim/replication/replicate.hpp"
#include "sim/replication/rack_state.hpp"
#include "sim/replication/room_march.hpp"
#include "sim/scenario/read.hpp"

using namespace rackwright;

namespace {

struct LoopTray {
  TrayLuck luck;
  double mould_rate, mould_at;  // mould_at: of the batch's integral, below which it is sound
  bool here;
};

// The same hours, curves, soaks, luck and cuts as a replication, as one would write them for this one question.
class HandLoop {
 public:
  explicit HandLoop(const Plan& plan)
      : plan_(plan), room_(plan), settler_(plan), heat_(plan.species.size()), batches_(most), trays_of_(most) {}

  double run(std::uint64_t seed, std::uint32_t replication) {
    fortune_.draw(plan_, seed, replication);
    const Ignorance& known = fortune_.ignorance();
    settler_.assume(known.clock, known.loss, known.warmth, known.flatness, plan_.scenario.spoilage);
    const int first = -plan_.warm_up_days;
    room_.start(fortune_, std::int64_t{24} * first);
    head_ = tail_ = 0;
    served_ = wanted_ = 0.0;
    trays_ = 0;
    const Keeper& keeper = plan_.scenario.keeper;
    for (int day = first; day < plan_.horizon_days; ++day) {
      for (int session = 0; session < 2; ++session) {
        const double clock = (session == 0 ? keeper.morning : keeper.evening).value();
        round(day, session, minutes_per_day * day + static_cast<std::int64_t>(60.0 * clock));
      }
      march(std::int64_t{24} * (day + 1));
      room_.day() = RoomDay{};
    }
    return wanted_ > 0.0 ? served_ / wanted_ : 1.0;
  }

 private:
  static constexpr std::size_t most = 512;

  void march(std::int64_t hour) {
    std::fill(heat_.begin(), heat_.end(), 0.0);
    for (const Batch& batch : here()) heat_[static_cast<std::size_t>(batch.species)] += batch.heat_unit * batch.left * plan_.grain_per_tray;
    room_.advance_to(fortune_, hour, heat_, true, trays_);
  }

  std::span<Batch> here() { return {batches_.data() + head_, tail_ - head_}; }
  std::vector<LoopTray>& trays(const Batch& batch) { return trays_of_[static_cast<std::size_t>(batch.slot)]; }

  // Takes out what has spoiled. The luck of a tray is a little less than its threshold: asked first.
  void look(Batch& batch) {
    batch.mould_next = batch.sour_next = 1e9;
    for (LoopTray& tray : trays(batch)) {
      if (!tray.here) continue;
      const bool mould = batch.mould >= tray.mould_at && batch.mould * tray.mould_rate >= -std::log1p(-tray.luck.mould);
      if (mould || (batch.sour >= tray.luck.sour && batch.sour >= -std::log1p(-tray.luck.sour))) {
        tray.here = false;
        --batch.left;
        --trays_;
        continue;
      }
      batch.mould_next = std::min(batch.mould_next, tray.mould_at);
      batch.sour_next = std::min(batch.sour_next, tray.luck.sour);
    }
  }

  void round(int day, int session, std::int64_t now) {
    march(now >= 0 ? now / 60 : -((-now + 59) / 60));
    const auto& line = plan_.scenario.line;
    std::span<Batch> due = here();
    if (session == 1) {
      std::size_t count = 0;
      while (count < due.size() && now - due[count].sown >= minutes_per_day * (line.days_on_rack - 1)) ++count;
      due = due.first(count);
    }
    settler_.settle(due, room_, static_cast<double>(now), 1.0);
    for (Batch& batch : due) {
      batch.mark = session;
      if (batch.mould >= batch.mould_next || batch.sour >= batch.sour_next) look(batch);
    }
    room_.set_mark(session);
    double want = 0.0;
    for (std::size_t g = 0; g < plan_.groups.size(); ++g) {
      const bool twice = plan_.scenario.groups[g].feedings > 1;
      want += twice ? 0.5 * fortune_.wanted(g, day) : session == 0 ? fortune_.wanted(g, day) : 0.0;
    }
    feed(want, now);
    if (session < line.batches_per_day) sow(day, session, now);
  }

  void feed(double want, std::int64_t now) {
    const auto& line = plan_.scenario.line;
    double cut = 0.0;
    for (Batch& batch : here()) {
      if (cut >= want || now - batch.sown < minutes_per_day * line.days_on_rack - 60) break;
      const GrainPlan& grain = plan_.grains[static_cast<std::size_t>(batch.grain)];
      const MatPair mat = grain.mats.at(batch.growth, fortune_.ignorance().loss, fortune_.ignorance().swell);
      for (LoopTray& tray : trays(batch)) {
        if (!tray.here || cut >= want) continue;
        const double sprouted = std::clamp(tray.luck.germinable * batch.germinated, 0.0, 1.0);
        cut += plan_.grain_per_tray * (mat.soaked_fresh + sprouted * (mat.fresh - mat.soaked_fresh));
        tray.here = false;
        --batch.left;
        --trays_;
      }
    }
    wanted_ += want;
    served_ += std::min(cut, want);
    // What has outstayed its grace goes.
    const std::int64_t oldest = minutes_per_day * (line.days_on_rack + line.grace_days) - 60;
    while (head_ < tail_ && (batches_[head_].left == 0 || now - batches_[head_].sown >= oldest)) {
      trays_ -= batches_[head_++].left;
    }
  }

  void sow(int day, int session, std::int64_t now) {
    const auto& line = plan_.scenario.line;
    const int trays = std::min(line.trays_per_batch, plan_.positions - trays_);
    if (trays <= 0) return;
    const int g = plan_.batch_grain[static_cast<std::size_t>(session)];
    const GrainPlan& grain = plan_.grains[static_cast<std::size_t>(g)];
    const GrainSupply& supply = plan_.scenario.grains[static_cast<std::size_t>(g)];
    const grain::Lot lot = fortune_.lot(plan_, g, static_cast<std::uint32_t>(std::max(0, day) / 40));
    const soak::Effect soaked = soak::effect(grain.soak, Celsius(0.5 * (line.soak_water.value() + room_.temperature())), supply.moisture, line.soak);
    if (tail_ == most) {
      std::copy(batches_.begin() + static_cast<std::ptrdiff_t>(head_), batches_.end(), batches_.begin());
      tail_ -= head_;
      head_ = 0;
    }
    Batch& batch = batches_[tail_++];
    batch = Batch{};
    batch.slot = static_cast<int>(sown_++ % most);
    batch.grain = g;
    batch.species = grain.species;
    batch.mark = session;
    batch.sown = now;
    batch.settled = static_cast<double>(now);
    const double rate = germination::rate(plan_.species[static_cast<std::size_t>(grain.species)].germination, Celsius(20.0));
    const double ahead = (soaked.head_start - soaked.delay) / 24.0;
    const Ignorance& known = fortune_.ignorance();
    batch.vigour = lot.vigour / known.germination_time(plan_.species[static_cast<std::size_t>(grain.species)].germination.origin);
    batch.growth = ahead + (1.0 - 1.0 / batch.vigour) / rate;
    batch.progress = std::max(0.0, ahead * rate);
    batch.had_chance = batch.germinated = settler_.share_germinated(grain.species, batch.progress);
    batch.germinable = lot.germinable * soaked.survival;
    batch.dead_inverse = 1.0 / spoilage::dead_grain_factor(plan_.scenario.spoilage, 1.0 - batch.germinable);
    settler_.sown(batch);
    batch.mould_next = batch.sour_next = 0.0;
    spoilage::Tray like{.dead_fraction = 1.0 - batch.germinable, .density = line.sowing_density, .soak_stress = soaked.stress, .undrained = 1.0 - line.drainage};
    batch.sour_rate = known.sour * spoilage::sour_multiplier(plan_.scenario.spoilage, like);
    like.dead_fraction = plan_.scenario.spoilage.usual_dead_fraction;
    const double clean = known.mould * spoilage::mould_multiplier(plan_.scenario.spoilage, like);
    luck_.resize(static_cast<std::size_t>(trays));
    this->trays(batch).resize(luck_.size());
    fortune_.trays(day, session, batch.germinable, *grain.trays, luck_);
    auto luck = luck_.begin();
    for (LoopTray& tray : this->trays(batch)) {
      const double dirt = spoilage::dead_grain_factor(plan_.scenario.spoilage, 1.0 - grain.mats.uncrowded() * luck->germinable);
      tray = {*luck, clean * dirt, luck->mould / (clean * dirt), true};
      ++luck;
    }
    batch.left = trays;
    trays_ += trays;
  }

  const Plan& plan_;
  Fortune fortune_;
  RoomMarch room_;
  BatchSettler settler_;
  std::vector<double> heat_;
  std::vector<Batch> batches_;
  std::vector<std::vector<LoopTray>> trays_of_;  ///< by slot
  std::size_t sown_ = 0;
  std::vector<TrayLuck> luck_;
  std::size_t head_ = 0, tail_ = 0;
  double served_ = 0.0, wanted_ = 0.0;
  int trays_ = 0;
};

double quantile(std::vector<double> values, double p) {
  std::sort(values.begin(), values.end());
  return values[static_cast<std::size_t>(p * static_cast<double>(values.size() - 1) + 0.5)];
}

template <class Work>
double per_second(int replications, Work&& work) {
  // Processor time: what others do on the machine hardly counts.
  const std::clock_t start = std::clock();
  for (int r = 0; r < replications; ++r) work(static_cast<std::uint32_t>(r));
  return replications * static_cast<double>(CLOCKS_PER_SEC) / static_cast<double>(std::clock() - start);
}

}  // namespace

int main(int argc, char** argv) {
  const std::string path = argc > 1 ? argv[1] : "scenarios/hillside.toml";
  const int rounds = argc > 2 ? std::atoi(argv[2]) : 15;
  const int replications = argc > 3 ? std::atoi(argv[3]) : 200;
  const Reading reading = read_scenario_file(path);
  if (!reading.scenario) {
    fmt::print(stderr, "{}: not a sound scenario; see rackwright check\n", path);
    return 2;
  }
  const Plan plan = make_plan(*reading.scenario);
  Replicator replicator(plan);
  HandLoop loop(plan);
  double fill = 0.0, loop_fill = 0.0;
  std::vector<double> engine, hand, ratio;
  for (int round = 0; round <= rounds; ++round) {
    fill = loop_fill = 0.0;
    const double a = per_second(replications, [&](std::uint32_t r) { fill += replicator.run(1, r).fill_rate; });
    const double b = per_second(replications, [&](std::uint32_t r) { loop_fill += loop.run(1, r); });
    if (round == 0) continue;  // warms caches and memory
    engine.push_back(a);
    hand.push_back(b);
    ratio.push_back(b / a);
  }
  const double years = plan.horizon_days / 365.0;
  const auto line = [&](const char* what, const std::vector<double>& v, double scale) {
    fmt::print("{:<34}{:>10.2f}   quartiles {:.2f} to {:.2f}\n", what, scale * quantile(v, 0.5), scale * quantile(v, 0.25), scale * quantile(v, 0.75));
  };
  fmt::print("{}: {} places, {} batches a day, {} rounds of {} replications\n", path, plan.positions, plan.scenario.line.batches_per_day, rounds, replications);
  line("full model, rack-years/s", engine, years);
  line("hand-written loop, rack-years/s", hand, years);
  line("loop over full model", ratio, 1.0);
  fmt::print("mean fill rate: full model {:.4f}, loop {:.4f} (the loop leaves out slips, outages, ageing and the store)\n",
             fill / replications, loop_fill / replications);
  return 0;
}
