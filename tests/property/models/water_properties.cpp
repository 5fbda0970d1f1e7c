// Water balances in every network, and harm that only grows.
#include <algorithm>
#include <cmath>
#include <random>

#include "models/water/demand.hpp"
#include "models/water/network.hpp"
#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::water;

namespace {

class Draw {
 public:
  explicit Draw(unsigned seed) : engine_(seed) {}
  double between(double low, double high) { return low + (high - low) * (static_cast<double>(engine_()) / 4294967296.0); }
  int below(int n) { return static_cast<int>(engine_() % static_cast<unsigned>(n)); }

 private:
  std::mt19937 engine_;
};

// A tree of junctions grown at random, tiers hung on it, and sometimes a second way round (no circle: later joins earlier never).
Network any_network(Draw& draw) {
  Network n;
  n.pump = {Metres(draw.between(2.0, 8.0)), LitresPerHour(draw.between(500.0, 6000.0)), Watts(50.0)};
  const double exponents[] = {0.0, 0.05, 0.3, 0.5, 0.57, 0.8, 1.0};
  n.emitter = {LitresPerHour(draw.between(5.0, 80.0)), Metres(draw.between(0.5, 5.0)), exponents[draw.below(7)]};
  n.emitters_per_tier = 1 + draw.below(6);
  n.nodes.push_back({"tank", NodeKind::source, Metres(0.0)});
  const auto pipe = [&](int from, int to) {
    n.pipes.push_back({from, to, Metres(draw.between(0.006, 0.05)), Metres(draw.between(0.05, 20.0)), draw.between(0.0, 5.0), false});
  };
  const int junctions = 1 + draw.below(6), tiers = 1 + draw.below(6);
  for (int j = 1; j <= junctions; ++j) {
    n.nodes.push_back({"j", NodeKind::junction, Metres(draw.between(-1.0, 1.5))});
    pipe(draw.below(j), j);
    if (j > 1 && draw.below(3) == 0) pipe(draw.below(j), j);
  }
  for (int t = 0; t < tiers; ++t) {
    n.nodes.push_back({"t", NodeKind::tier, Metres(draw.between(0.0, 2.5))});
    pipe(1 + draw.below(junctions), static_cast<int>(n.nodes.size()) - 1);
  }
  n.nodes.push_back({"drain", NodeKind::drain, Metres(-0.5)});
  const int drain = static_cast<int>(n.nodes.size()) - 1;
  for (int t = 0; t < tiers; ++t) n.pipes.push_back({1 + junctions + t, drain, Metres(0.04), Metres(1.0), 1.0, true});
  return n;
}

double loss(const Pipe& pipe, double flow) {
  const LitresPerHour size(std::abs(flow));
  const double head = pipe_loss(size, pipe.diameter, pipe.length).value() + minor_loss(size, pipe.diameter, pipe.minor_k).value();
  return std::copysign(head, flow);
}

}  // namespace

TEST_CASE("flow is continuous, every pipe loses its head, and emitters obey their law, in 400 networks") {
  Draw draw(314159);
  int solved = 0, refused = 0, looped = 0;
  while (solved < 400) {
    const Network n = any_network(draw);
    if (!find_faults(n).empty()) {
      REQUIRE(++refused < 2000);
      continue;
    }
    const Solution s = solve(n);
    ++solved;
    looped += n.pipes.size() > n.nodes.size() - 2 + s.tier_flow.size();
    const double pump = s.pump_flow.value();
    std::vector<double> balance(n.nodes.size());
    balance[0] = pump;
    for (std::size_t p = 0; p < n.pipes.size(); ++p) {
      const Pipe& pipe = n.pipes[p];
      const double flow = s.pipe_flow[p].value();
      balance[static_cast<std::size_t>(pipe.from)] -= flow;
      balance[static_cast<std::size_t>(pipe.to)] += flow;
      if (pipe.gravity_drop) continue;
      const double drop = s.head[static_cast<std::size_t>(pipe.from)].value() - s.head[static_cast<std::size_t>(pipe.to)].value();
      INFO("network " << solved << " pipe " << p << " flow " << flow);
      REQUIRE(loss(pipe, flow) == near(drop, 1e-5));
    }
    std::vector<std::size_t> tiers;  // as the solution has them: lowest first, not as written
    for (std::size_t i = 0; i < n.nodes.size(); ++i)
      if (n.nodes[i].kind == NodeKind::tier) tiers.push_back(i);
    std::sort(tiers.begin(), tiers.end(), [&](std::size_t a, std::size_t b) { return n.nodes[a].height < n.nodes[b].height; });
    for (std::size_t i = 0; i < n.nodes.size(); ++i) {
      INFO("network " << solved << " node " << i << " exponent " << n.emitter.exponent);
      if (n.nodes[i].kind != NodeKind::drain) REQUIRE(balance[i] == near(0.0, 1e-6 * pump));
      if (n.nodes[i].kind == NodeKind::drain) REQUIRE(balance[i] == Approx(pump).epsilon(1e-6));
      if (n.nodes[i].kind != NodeKind::tier) continue;
      const double pressure = s.head[i].value() - n.nodes[i].height.value();
      const auto tier = static_cast<std::size_t>(std::find(tiers.begin(), tiers.end(), i) - tiers.begin());
      const double flow = s.tier_flow[tier].value();
      REQUIRE(flow > 0.0);
      if (pressure > 2e-3)
        REQUIRE(flow == Approx(n.emitters_per_tier * emitter_flow(n.emitter, Metres(pressure)).value()).epsilon(1e-5));
    }
    REQUIRE(s.head[0].value() == near(pump_head(n.pump, s.pump_flow).value(), 1e-6));
  }
  CHECK(refused > 10);
  CHECK(looped > 20);
}

TEST_CASE("no size of pipe, pump or emitter defeats the search for faults") {
  Draw draw(55);
  const auto wide = [&](double low, double high) { return low * std::pow(high / low, draw.between(0.0, 1.0)); };
  int sound = 0;
  for (int i = 0; i < 600; ++i) {
    Network n = any_network(draw);
    n.pump = {Metres(wide(0.05, 200.0)), LitresPerHour(wide(1.0, 1e5)), Watts(40.0)};
    n.emitter.reference_flow = LitresPerHour(wide(0.01, 5000.0));
    n.emitter.reference_head = Metres(wide(0.01, 100.0));
    n.emitters_per_tier = 1 + draw.below(200);
    for (Pipe& pipe : n.pipes) {
      pipe.diameter = Metres(wide(0.001, 0.5));
      pipe.length = Metres(wide(0.01, 2000.0));
    }
    INFO("network " << i);
    bool usable = false;
    REQUIRE_NOTHROW(usable = find_faults(n).empty());
    if (!usable) continue;
    ++sound;
    REQUIRE_NOTHROW(solve(n));
  }
  CHECK(sound > 100);
}

TEST_CASE("a stronger pump never waters less, a longer run never more") {
  const std::vector<Metres> heights{Metres(0.3), Metres(0.7), Metres(1.1)};
  double before = 0.0;
  for (double shutoff = 2.0; shutoff <= 8.0; shutoff += 0.5) {
    const Network n = usual_network(Feed::parallel, heights, Metres(0.016), Metres(0.01), Metres(6.0),
                                    Pump{Metres(shutoff), LitresPerHour(2000.0), Watts(40.0)}, Emitter{}, 3);
    const double flow = solve(n).pump_flow.value();
    CHECK(flow > before);
    before = flow;
  }
  for (double run = 1.0; run <= 40.0; run += 3.0) {
    const Network n = usual_network(Feed::cascade, heights, Metres(0.016), Metres(0.01), Metres(run), Pump{}, Emitter{}, 3);
    const double flow = solve(n).pump_flow.value();
    CHECK(flow < before);
    before = flow;
  }
}

TEST_CASE("the minimum cut is no more than any single level of pipes can carry") {
  Draw draw(2718);
  for (int i = 0; i < 200; ++i) {
    std::vector<Metres> heights;
    for (int t = 0; t <= draw.below(5); ++t) heights.push_back(Metres(0.2 + 0.2 * t));
    const Metres riser(draw.between(0.01, 0.03)), branch(draw.between(0.006, 0.03));
    const Network n = usual_network(Feed::parallel, heights, riser, branch, Metres(3.0), Pump{}, Emitter{}, 1);
    const double branches = static_cast<double>(heights.size()) * flow_at(1.5, branch).value();
    const double one_riser = flow_at(1.5, riser).value();
    // All water passes the first riser; then at each fork at most the branch and the riser above can be cut.
    const double expected = std::min(one_riser, branches);
    CHECK(solve(n).cut_capacity.value() == Approx(expected).epsilon(1e-5));
  }
}

TEST_CASE("drought harms more the longer and the hotter, and never more than all") {
  for (double t = -5.0; t <= 50.0; t += 5.0) {
    for (double h = 0.0; h <= 96.0; h += 2.0) {
      const DryDamage here = dry_damage(Hours(h), Celsius(t));
      const DryDamage longer = dry_damage(Hours(h + 2.0), Celsius(t));
      const DryDamage hotter = dry_damage(Hours(h), Celsius(t + 5.0));
      REQUIRE(longer.growth_lost_days >= here.growth_lost_days);
      REQUIRE(longer.sprouts_killed >= here.sprouts_killed);
      REQUIRE(hotter.growth_lost_days >= here.growth_lost_days);
      REQUIRE(hotter.sprouts_killed >= here.sprouts_killed);
      REQUIRE(here.growth_lost_days <= h / 24.0);
      REQUIRE(here.sprouts_killed <= 1.0);
    }
  }
}

TEST_CASE("fresh water is never less than what is used, and what is used never more than passes") {
  Draw draw(5);
  for (int i = 0; i < 1000; ++i) {
    Schedule schedule{draw.between(0.0, 24.0), Hours(draw.between(0.0, 1.0)), draw.below(2) == 1, draw.between(0.0, 7.0)};
    const double taken = draw.between(0.0, 100.0), evaporated = draw.between(0.0, 20.0);
    const Daily d = daily_use(schedule, LitresPerHour(draw.between(0.0, 1000.0)), Watts(40.0), taken, evaporated, 80.0);
    REQUIRE(d.fresh_litres >= std::min(d.through_litres, taken + evaporated) - 1e-9);
    REQUIRE(d.pump_time.value() <= 24.0);
    if (!schedule.recirculating) REQUIRE(d.fresh_litres == Approx(d.through_litres));
  }
}
