#include "sim/study/heat_limit.hpp"

#include <algorithm>
#include <map>

#include "models/base/expects.hpp"
#include "sim/replication/fortune.hpp"
#include "sim/scenario/read.hpp"
#include "sim/study/hard_list.hpp"
#include "sim/study/intervals.hpp"

namespace rackwright::study {
namespace {

constexpr int most_steps = 80;  // 20 K

struct Point { Estimate fill{}; double peak = 0.0; };

/// Plays the wave at so many steps of warmth, each once.
class Waves {
 public:
  Waves(const Scenario& design, const PairRequest& request) : design_(design), request_(request) {
    EXPECTS(design.hard_times.size() == 1 && design.hard_times[0].kind == HardTimeKind::heat_wave);
  }

  const Point& at(int step) {
    const auto known = points_.find(step);
    return known != points_.end() ? known->second : points_.emplace(step, play(step)).first->second;
  }

  /// Hottest wave the models hold for.
  [[nodiscard]] int hottest() const {
    int step = most_steps;
    while (step > 0 && !check_scenario(warmed(step)).empty()) step -= 4;
    return std::max(0, step);
  }

  /// Largest step at which `enough` holds, if it holds at 0 and not at `top`.
  template <class Enough>
  int last(int top, const Enough& enough) {
    int yes = 0, no = top;
    while (no - yes > 1) {
      const int middle = (yes + no) / 2;
      (enough(at(middle)) ? yes : no) = middle;
    }
    return yes;
  }

 private:
  [[nodiscard]] Scenario warmed(int step) const {
    Scenario s = design_;
    s.hard_times[0].change = Kelvins(heat_step * step);
    return s;
  }

  Point play(int step) const {
    const Plan plan = make_plan(warmed(step));
    const HardTime& wave = plan.scenario.hard_times[0];
    const int first = std::max(0, static_cast<int>(wave.first_day));
    const int last = std::min(plan.horizon_days, shows_until(plan.scenario, wave) + 7);
    RatioMoments fill;
    const auto judge = [&](const Side& side) {
      double wanted = 0.0, served = 0.0;
      for (int day = first; day < last; ++day) {
        wanted += static_cast<double>(side.rows[static_cast<std::size_t>(day)].wanted);
        served += static_cast<double>(side.rows[static_cast<std::size_t>(day)].served);
      }
      return std::pair{served, wanted};
    };
    single_runs(plan, request_, judge, [&](const std::pair<double, double>& p) { fill.add(p.first, p.second); });
    return {ratio_estimate(fill), peak_of(plan)};
  }

  [[nodiscard]] double peak_of(const Plan& plan) const {
    const HardTime& wave = plan.scenario.hard_times[0];
    const auto first = static_cast<int>(wave.first_day);
    const int last = std::min(plan.horizon_days, first + static_cast<int>(in_days(length_of(wave))));
    Fortune fortune;
    double sum = 0.0;
    for (std::uint32_t r = 0; r < request_.replications; ++r) {
      fortune.draw(plan, request_.random_seed, r);
      double hottest = -100.0;
      for (int day = first; day < last; ++day) hottest = std::max(hottest, fortune.weather(day).maximum);
      sum += hottest;
    }
    return sum / request_.replications;
  }

  const Scenario& design_;
  PairRequest request_;
  std::map<int, Point> points_{};
};

}  // namespace

HeatLimit heat_limit(const Scenario& design, const PairRequest& request) {
  Waves waves(design, request);
  const double asked = design.target.fill_rate;
  const int top = waves.hottest();
  // Three places where a curve meets the fill rate asked: its mean, and the two ends of its interval.
  const auto meets = [&](double Estimate::*curve) {
    const auto enough = [&](const Point& point) { return point.fill.*curve >= asked; };
    if (!enough(waves.at(0))) return 0;
    return enough(waves.at(top)) ? top : waves.last(top, enough);
  };
  HeatLimit limit;
  const int step = meets(&Estimate::mean);
  if (waves.at(0).fill.mean < asked) limit.kind = HeatLimit::Kind::never;
  else limit.kind = step == top ? HeatLimit::Kind::beyond : HeatLimit::Kind::found;
  limit.peak = waves.at(step).peak;
  limit.low = waves.at(meets(&Estimate::low)).peak;
  limit.high = waves.at(meets(&Estimate::high)).peak;
  return limit;
}

}  // namespace rackwright::study
