#include "sim/study/levers.hpp"

#include <algorithm>
#include <cmath>
#include <span>

#include <fmt/format.h>

#include "sim/replication/sown.hpp"
#include "sim/scenario/read.hpp"

namespace rackwright::study {
namespace {

using Keys = std::vector<std::string>;

constexpr double factors[] = {1.0, 1.2, 1.4, 1.7, 2.0, 2.5, 3.0};
static_assert(std::size(factors) == lever_steps + 1);

/// By the step's factor and at least one more.
int scaled(int value, int step) { return std::max(value + 1, static_cast<int>(std::lround(value * factors[step]))); }

/// Places that batches stand on for their days, the day of the soak included.
int standing(const Scenario& s) { return s.line.trays_per_batch * s.line.batches_per_day * (s.line.days_on_rack + 1); }

void make_room(Scenario& s) {
  s.rack.trays_per_tier = std::max(s.rack.trays_per_tier, (standing(s) + s.rack.tiers - 1) / s.rack.tiers);
}

/// Buckets for the batches that are in soak at once, where there are fewer: trays that nobody can soak are none.
void soak_them(Scenario& s, Keys& keys) {
  const double at_once = std::max(1.0, std::ceil(s.line.soak.value() * s.line.batches_per_day / 24.0));
  const int needed = static_cast<int>(std::ceil(at_once * s.line.trays_per_batch / s.keeper.trays_per_bucket - 1e-9));
  if (needed <= s.keeper.soak_buckets) return;
  s.keeper.soak_buckets = needed;
  keys.emplace_back("keeper.soak_buckets");
}

Keys trays(Scenario& s, int step) {
  s.line.trays_per_batch = scaled(s.line.trays_per_batch, step);
  Keys keys{"line.trays_per_batch"};
  soak_them(s, keys);
  return keys;
}

Keys places(Scenario& s, int step) {
  s.rack.trays_per_tier = scaled(s.rack.trays_per_tier, step);
  return {"rack.trays_per_tier"};
}

Keys tiers(Scenario& s, int step) {
  s.rack.tiers = scaled(s.rack.tiers, step);
  return {"rack.tiers"};
}

Keys buckets(Scenario& s, int step) {
  s.keeper.soak_buckets = scaled(s.keeper.soak_buckets, step);
  return {"keeper.soak_buckets"};
}

Keys density(Scenario& s, int step) {
  if (step > 3) return {};
  s.line.sowing_density = KilogramsPerSquareMetre(s.line.sowing_density.value() * (1.0 + 0.15 * step));
  return {"line.sowing_density"};
}

Keys more_days(Scenario& s, int step) {
  if (step > 3) return {};
  s.line.days_on_rack += step;
  return {"line.days_on_rack"};
}

Keys fewer_days(Scenario& s, int step) {
  if (step > 3 || s.line.days_on_rack - step < 3) return {};
  s.line.days_on_rack -= step;
  return {"line.days_on_rack"};
}

Keys shorter_soak(Scenario& s, int step) {
  const double to = s.line.soak.value() - 2.0 * step;
  if (to < 4.0) return {};
  s.line.soak = Hours(to);
  return {"line.soak"};
}

Keys heater(Scenario& s, int step) {
  if (step > 4) return {};
  s.room.heater = Watts(s.room.heater.value() + 500.0 * step);
  return {"room.heater"};
}

Keys insulation(Scenario& s, int step) {
  if (step > 3) return {};
  s.room.insulation = Metres(s.room.insulation.value() + step / 20.0);
  return {"room.insulation"};
}

// Somebody who stands in when the keeper cannot come: there or not.
Keys second_keeper(Scenario& s, int step) {
  if (step > 1 || s.keeper.second_keeper) return {};
  s.keeper.second_keeper = true;
  return {"keeper.second_keeper"};
}

// Sow what is to be wanted rather than every tray: there or not.
Keys as_wanted(Scenario& s, int step) {
  if (step > 1 || s.line.sow == SowRule::as_wanted) return {};
  s.line.sow = SowRule::as_wanted;
  return {"line.sow"};
}

// The keeper's minutes as the work falls, where they are told apart and too many of them lie where there is less to do.
Keys undivided_time(Scenario& s, int step) {
  if (step > 1 || !s.keeper.evening_minutes) return {};
  s.keeper.evening_minutes.reset();
  return {"keeper.evening_minutes"};
}

// Of every grain that is sown: ordered sooner, and as much more with it as must fit the bin.
Keys larger_store(Scenario& s, int step) {
  Keys keys;
  const Plan plan = make_plan(s);
  for (std::size_t g = 0; g < s.grains.size(); ++g) {
    if (!is_sown(plan, g)) continue;
    GrainSupply& grain = s.grains[g];
    const double more = grain.store.reorder_point.value() * (factors[step] - 1.0);
    if (more <= 0.0) return {};
    grain.store.reorder_point = grain.store.reorder_point + Kilograms(more);
    grain.store.order_up_to = grain.store.order_up_to + Kilograms(more);
    const std::string head = "grain." + grain.name + ".";
    keys.push_back(head + "reorder");
    keys.push_back(head + "order_up_to");
    if (grain.store.bin < grain.store.order_up_to) {
      grain.store.bin = grain.store.order_up_to;
      keys.push_back(head + "bin");
    }
  }
  return keys;
}

}  // namespace

const std::vector<Lever>& single_levers() {
  static const std::vector<Lever> all{trays,     places,    tiers,        trays_and_places, density,    fewer_days,    more_days,
                                      buckets,   more_time, shorter_soak, heater,           insulation, second_keeper, larger_store,
                                      as_wanted, undivided_time};
  return all;
}

std::vector<std::string> more_time(Scenario& s, int step) {
  constexpr double whole_day = 1440.0;
  Keeper& keeper = s.keeper;
  const double before = keeper.minutes_per_day;
  keeper.minutes_per_day = std::min(whole_day, std::ceil(before * factors[step]));
  if (keeper.minutes_per_day <= before) return {};
  if (!keeper.evening_minutes || *keeper.evening_minutes <= 0.0) return {"keeper.minutes_per_day"};
  keeper.evening_minutes = std::floor(*keeper.evening_minutes * keeper.minutes_per_day / before);
  return {"keeper.minutes_per_day", "keeper.evening_minutes"};
}

bool writable(const Scenario& turned, const std::vector<std::string>& keys) {
  Scenario copy = turned;
  return std::all_of(keys.begin(), keys.end(), [&](const std::string& key) {
    const auto value = get_key(turned, key);
    return value && !set_key(copy, key, *value);
  });
}

std::vector<std::string> trays_and_places(Scenario& s, int step) {
  const double before = s.line.trays_per_batch;
  s.line.trays_per_batch = scaled(s.line.trays_per_batch, step);
  s.rack.trays_per_tier = static_cast<int>(std::ceil(s.rack.trays_per_tier * s.line.trays_per_batch / before));
  make_room(s);
  Keys keys{"line.trays_per_batch", "rack.trays_per_tier"};
  soak_them(s, keys);
  return keys;
}

std::vector<std::string> shorter_cycle(Scenario& s, int step) {
  const int before = s.line.days_on_rack;
  if (before - step < 4) return {};
  s.line.days_on_rack = before - step;
  const int room_for = s.rack.tiers * s.rack.trays_per_tier / (s.line.batches_per_day * (s.line.days_on_rack + 1));
  if (room_for <= s.line.trays_per_batch) return {};
  s.line.trays_per_batch = room_for;
  return {"line.days_on_rack", "line.trays_per_batch"};
}

std::vector<std::string> second_rack(Scenario& s, int step) {
  if (!s.water.nodes.empty() || factors[step] > 2.0) return {};
  s.rack.trays_per_tier *= 2;
  s.line.trays_per_batch = scaled(s.line.trays_per_batch, step);
  s.keeper.soak_buckets *= 2;
  // Two equal systems side by side deliver what one does with twice the flow through pipes of twice the conveyance: at equal loss flow
  // goes about as the diameter to the power 2.5 (Darcy and Weisbach, rough pipe).
  const double wider = std::pow(2.0, 0.4);
  s.water.riser_diameter = Metres(s.water.riser_diameter.value() * wider);
  s.water.branch_diameter = Metres(s.water.branch_diameter.value() * wider);
  s.water.pump.full_flow = LitresPerHour(2.0 * s.water.pump.full_flow.value());
  s.water.pump.power = Watts(2.0 * s.water.pump.power.value());
  s.water.emitters_per_tier *= 2;
  s.water.tank_litres *= 2.0;
  return {"line.trays_per_batch"};
}

std::string change_words(const Scenario& before, const Scenario& after, const std::vector<std::string>& changed) {
  std::string words;
  for (const std::string& key : changed) {
    const std::string from = get_key(before, key).value_or("none"), to = get_key(after, key).value_or("none");
    words += fmt::format("{}{} = {} (now {})", words.empty() ? "" : " with ", key, to, from);
  }
  return words;
}

}  // namespace rackwright::study
