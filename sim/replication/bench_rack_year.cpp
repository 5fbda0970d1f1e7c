// Rack-years a second on one core, and the ratio to a hand-written loop of the same physics without calendar, journal,
// store, balances or statistics. Interleaved rounds in one run; prints medians and quartiles. Not a test.
//
//   bench_rack_year [SCENARIO [ROUNDS [REPLICATIONS]]]

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

#include <fmt/core.h>

#include "models/soak/uptake.hpp"
#include "models/spoilage/hazard.hpp"
#include "sim/replication/replicate.hpp"
#include "sim/replication/rack_state.hpp"
#include "sim/replication/room_march.hpp"
#include "sim/scenario/read.hpp"

using namespace rackwright;

namespace {

// Has an integrated hazard passed the Exp(1) threshold of a uniform? -log(1 - luck) is never less than luck.
bool spoiled_by(double hazard, double luck) { return hazard >= luck && hazard >= -std::log1p(-luck); }

struct LoopTray {
  TrayLuck luck;
  double mould_rate, mould, sour;
  bool here;
};

struct LoopBatch {
  int grain, species, mark;
  std::int64_t sown, settled;
  double growth, progress, had_chance, germinated, vigour, germinable, sour_rate, excess, heat;
  std::vector<LoopTray> trays;
  std::size_t left;
};

// The same hours, curves, soaks, luck and cuts as a replication, as one would write them for this one question.
class HandLoop {
 public:
  explicit HandLoop(const Plan& plan) : plan_(plan), room_(plan), heat_(plan.species.size()) { batches_.resize(512); }

  double run(std::uint64_t seed, std::uint32_t replication) {
    fortune_.draw(plan_, seed, replication);
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
  void march(std::int64_t hour) {
    std::fill(heat_.begin(), heat_.end(), 0.0);
    for (std::size_t b = head_; b < tail_; ++b) {
      const LoopBatch& batch = at(b);
      heat_[static_cast<std::size_t>(batch.species)] += batch.heat * static_cast<double>(batch.left) * plan_.grain_per_tray;
    }
    room_.advance_to(fortune_, hour, heat_, true);
  }

  LoopBatch& at(std::size_t index) { return batches_[index % batches_.size()]; }

  void settle(LoopBatch& batch, std::int64_t now) {
    const double elapsed = static_cast<double>(now - batch.settled) / minutes_per_day;
    if (elapsed <= 0.0) return;
    const Increment got = room_.since(batch.mark, batch.species, batch.excess);
    batch.settled = now;
    batch.growth += got.growth;
    batch.progress += got.rate * batch.vigour;
    if (batch.had_chance < 0.9995) {
      const auto& law = plan_.species[static_cast<std::size_t>(batch.species)].germination;
      const double came = germination::share_germinated(law, batch.progress) - batch.had_chance;
      batch.germinated += came * (got.rate > 0.0 ? got.rate_fraction / got.rate : 1.0);
      batch.had_chance += came;
    }
    for (LoopTray& tray : batch.trays) {
      if (!tray.here) continue;
      tray.mould += got.mould * tray.mould_rate;
      tray.sour += got.sour * batch.sour_rate;
      if (!spoiled_by(tray.mould, tray.luck.mould) && !spoiled_by(tray.sour, tray.luck.sour)) continue;
      tray.here = false;
      --batch.left;
      --trays_;
    }
    const double fraction = batch.had_chance > 1e-6 ? batch.germinated / batch.had_chance : 1.0;
    batch.heat = batch.germinable * fraction * plan_.grains[static_cast<std::size_t>(batch.grain)].mats.at(batch.growth).heat;
    batch.excess = growth::mat_excess(batch.heat * got.growth / elapsed * plan_.watts_per_m2_per_kg).value();
  }

  void round(int day, int session, std::int64_t now) {
    march(now >= 0 ? now / 60 : -((-now + 59) / 60));
    const auto& line = plan_.scenario.line;
    for (std::size_t b = head_; b < tail_; ++b) {
      LoopBatch& batch = at(b);
      if (session == 1 && now - batch.sown < minutes_per_day * (line.days_on_rack - 1)) continue;
      settle(batch, now);
      batch.mark = session;
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
    for (std::size_t b = head_; b < tail_ && cut < want; ++b) {
      LoopBatch& batch = at(b);
      if (now - batch.sown < minutes_per_day * line.days_on_rack - 60) break;
      const GrainPlan& grain = plan_.grains[static_cast<std::size_t>(batch.grain)];
      const double share = batch.germinated;
      const MatRow row = grain.mats.at(batch.growth);
      for (LoopTray& tray : batch.trays) {
        if (!tray.here || cut >= want) continue;
        const double sprouted = std::clamp(tray.luck.germinable * share, 0.0, 1.0);
        cut += plan_.grain_per_tray * (grain.mats.soaked_fresh() + sprouted * (row.fresh - grain.mats.soaked_fresh()));
        tray.here = false;
        --batch.left;
        --trays_;
      }
    }
    wanted_ += want;
    served_ += std::min(cut, want);
    // What has outstayed its grace goes.
    while (head_ < tail_ && (at(head_).left == 0 || now - at(head_).sown >= minutes_per_day * (line.days_on_rack + line.grace_days) - 60)) {
      trays_ -= static_cast<int>(at(head_).left);
      ++head_;
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
    LoopBatch& batch = at(tail_++);
    batch.grain = g;
    batch.species = grain.species;
    batch.mark = session;
    batch.sown = batch.settled = now;
    const double rate = germination::rate(plan_.species[static_cast<std::size_t>(grain.species)].germination, Celsius(20.0));
    const double ahead = (soaked.head_start - soaked.delay) / 24.0;
    batch.growth = ahead + (1.0 - 1.0 / lot.vigour) / rate;
    batch.progress = std::max(0.0, ahead * rate);
    batch.had_chance = batch.germinated = germination::share_germinated(plan_.species[static_cast<std::size_t>(grain.species)].germination, batch.progress);
    batch.vigour = lot.vigour;
    batch.germinable = lot.germinable * soaked.survival;
    batch.heat = batch.excess = 0.0;
    spoilage::Tray like{.dead_fraction = 1.0 - batch.germinable, .density = line.sowing_density, .soak_stress = soaked.stress, .undrained = 1.0 - line.drainage};
    batch.sour_rate = spoilage::sour_multiplier(plan_.scenario.spoilage, like);
    like.dead_fraction = plan_.scenario.spoilage.usual_dead_fraction;
    const double clean = spoilage::mould_multiplier(plan_.scenario.spoilage, like);
    batch.trays.resize(static_cast<std::size_t>(trays));
    luck_.resize(batch.trays.size());
    fortune_.trays(day, session, batch.germinable, *grain.trays, luck_);
    auto luck = luck_.begin();
    for (LoopTray& tray : batch.trays) {
      tray.luck = *luck++;
      tray.mould_rate = clean * spoilage::dead_grain_factor(plan_.scenario.spoilage, 1.0 - tray.luck.germinable);
      tray.mould = tray.sour = 0.0;
      tray.here = true;
    }
    batch.left = batch.trays.size();
    trays_ += trays;
  }

  const Plan& plan_;
  Fortune fortune_;
  RoomMarch room_;
  std::vector<double> heat_;
  std::vector<LoopBatch> batches_;
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
  const auto start = std::chrono::steady_clock::now();
  for (int r = 0; r < replications; ++r) work(static_cast<std::uint32_t>(r));
  return replications / std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
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
