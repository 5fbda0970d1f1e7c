#include "sim/app/evaluate_tray.hpp"

#include <algorithm>
#include <cmath>

#include "sim/replication/response.hpp"

namespace rackwright::app {
namespace {

// A curve of temperature a day long at a mat so much warmer than the air.
template <class Curve>
double over_a_day(const SteadyTray& tray, double warmer, const Curve& curve) {
  if (!tray.own_warmth) return curve(tray.air);
  constexpr double first = ResponseTable::first_node, step = ResponseTable::node_step;
  const double at = std::clamp((warmer - first) / step, 0.0, ResponseTable::nodes - 1 - 1e-9);
  const double below = std::floor(at);
  const auto node = [&](double k) { return curve(tray.air + Kelvins(first + k * step)); };
  return std::lerp(node(below), node(below + 1.0), at - below);
}

struct Clock { double days = 0.0, growth_days = 0.0; };

// `morning` sees the clock at sowing and at the end of every day or part of one.
template <class Morning>
SteadyEnd play(const SteadyTray& tray, const Morning& morning) {
  const double ahead = (tray.soak.head_start - tray.soak.delay) / 24.0;
  const double germinable = std::clamp(tray.fraction * tray.soak.survival, 0.0, 1.0);
  const double uncrowded = growth::growing_share(tray.growth, 1.0, tray.density);
  spoilage::Tray usual{.density = tray.density, .relative_humidity = tray.relative_humidity, .soak_stress = tray.soak.stress, .undrained = tray.undrained};
  usual.dead_fraction = tray.spoilage.usual_dead_fraction;
  const double mould_rate = spoilage::mould_multiplier(tray.spoilage, usual), sour_rate = spoilage::sour_multiplier(tray.spoilage, usual);
  const spoilage::Onset onset = spoilage::onset(tray.spoilage);

  SteadyEnd end;
  const double median_rate = germination::rate(tray.germination, Celsius(20.0));
  const double first = ahead + (1.0 - 1.0 / tray.vigour) / median_rate;
  end.first_growth_days = end.growth_days = first;
  double progress = std::max(0.0, ahead * median_rate);
  double had_chance = germination::share_germinated(tray.germination, progress), germinated = had_chance;
  double sound = 1.0, excess = 0.0;
  morning(Clock{0.0, first});
  for (int day = 0; day < tray.days; ++day) {
    const double part = std::min(1.0, tray.days - day);
    const auto curve = [&](const auto& law) { return over_a_day(tray, excess, law); };
    const double pace = curve([&](Celsius t) { return growth::growth_rate(tray.growth, t); });
    const double rate = curve([&](Celsius t) { return germination::rate(tray.germination, t); });
    const double rate_fraction = curve([&](Celsius t) { return germination::rate(tray.germination, t) * germination::fraction(tray.germination, t); });
    const double age = end.growth_days + 0.5 * pace * part;
    end.growth_days += pace * part;
    progress += rate * part * tray.vigour;
    const double came = germination::share_germinated(tray.germination, progress) - had_chance;
    germinated += came * (rate > 0.0 ? rate_fraction / rate : 1.0);
    had_chance += came;
    const double kept = had_chance > 1e-6 ? std::min(1.0, germinated / had_chance) : 1.0, sprouted = germinable * kept;

    // As a replication has it: a two-hundredth less counts as nothing.
    constexpr double well_sprouted = 0.995;
    const double alive = uncrowded * (tray.own_warmth && kept >= well_sprouted ? germinable : sprouted);
    const double dead = spoilage::dead_grain_factor(tray.spoilage, 1.0 - alive) / spoilage::dead_grain_factor(tray.spoilage, usual.dead_fraction);
    const double mould = mould_rate * dead * spoilage::onset_factor(onset, age) * curve([&](Celsius t) { return spoilage::growth_factor(tray.spoilage.mould, t); });
    const double sour = sour_rate * curve([&](Celsius t) { return spoilage::growth_factor(tray.spoilage.sour, t); });
    const double lost = sound * spoilage::spoiled_probability((mould + sour) * part);
    if (mould + sour > 0.0) {
      end.mould += lost * mould / (mould + sour);
      end.sour += lost * sour / (mould + sour);
    }
    sound -= lost;
    end.excess = std::max(end.excess, Kelvins(excess));
    if (tray.own_warmth) {
      const double heat = growth::heat_watts(tray.growth, end.growth_days + 0.5 * pace, sprouted, pace, tray.grain_dry_matter);
      excess = tray.warmth * growth::mat_excess(heat * tray.density.value()).value();
    }
    morning(Clock{day + part, end.growth_days});
  }
  end.sprouted = std::clamp(germinable * germinated, 0.0, 1.0);
  end.mat = growth::mat(tray.growth, end.growth_days, end.sprouted, tray.density, tray.grain_dry_matter);
  return end;
}

}  // namespace

SteadyEnd grow(const SteadyTray& tray) {
  return play(tray, [](const Clock&) {});
}

std::optional<double> days_until(const SteadyTray& tray, double growth_days) {
  std::optional<double> found;
  Clock before;
  play(tray, [&](const Clock& now) {
    if (!found && now.growth_days >= growth_days)
      found = now.days == 0.0 ? 0.0 : now.days - (now.days - before.days) * (now.growth_days - growth_days) / (now.growth_days - before.growth_days);
    before = now;
  });
  return found;
}

}  // namespace rackwright::app
