#include "models/water/network.hpp"

#include <algorithm>
#include <limits>
#include <stdexcept>

#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::water;

namespace {

const std::vector<Metres> heights{Metres(0.3), Metres(0.65), Metres(1.0), Metres(1.35)};

Network usual(Feed feed) {
  return usual_network(feed, heights, Metres(0.02), Metres(0.013), Metres(4.0), Pump{}, Emitter{}, 2);
}

bool complains(const Network& network, const std::string& node, const std::string& words) {
  const std::vector<Fault> faults = find_faults(network);
  return std::any_of(faults.begin(), faults.end(), [&](const Fault& fault) {
    return fault.node == node && fault.why.find(words) != std::string::npos;
  });
}

}  // namespace

TEST_CASE("the usual networks have no fault and water every tier") {
  for (const Feed feed : {Feed::parallel, Feed::cascade}) {
    REQUIRE(find_faults(usual(feed)).empty());
    const Solution s = solve(usual(feed));
    REQUIRE(s.tier_flow.size() == 4);
    for (const LitresPerHour flow : s.tier_flow) CHECK(flow.value() > 50.0);
    CHECK(s.drain_needed.value() == Approx(3.0 * s.pump_flow.value()));
    CHECK(s.pump_head.value() == Approx(pump_head(Pump{}, s.pump_flow).value()));
  }
}

TEST_CASE("parallel: lower tiers get more, nothing lies downstream of anything") {
  const Solution s = solve(usual(Feed::parallel));
  CHECK(std::is_sorted(s.tier_flow.rbegin(), s.tier_flow.rend()));
  for (const auto& below : s.downstream) CHECK(below.empty());
}

TEST_CASE("cascade: every tier gets what the pump sends up, and spoils all below") {
  const Solution s = solve(usual(Feed::cascade));
  for (const LitresPerHour flow : s.tier_flow) CHECK(flow.value() == Approx(s.pump_flow.value()));
  CHECK(s.downstream == std::vector<std::vector<int>>{{}, {0}, {0, 1}, {0, 1, 2}});
}

TEST_CASE("a declared return is no circle, but puts every tier downstream of every other") {
  Network network = usual(Feed::parallel);
  network.pipes.push_back({5, 0, Metres(0.04), Metres(3.0), 1.0, true});
  REQUIRE(network.nodes[5].kind == NodeKind::drain);
  CHECK(find_faults(network).empty());
  const Solution s = solve(network);
  for (const auto& reached : s.downstream) CHECK(reached.size() == 3);
}

TEST_CASE("the limiting pipe is the narrowest of the cut") {
  Network network = usual(Feed::parallel);
  CHECK(solve(network).limiting_pipe == 0);
  CHECK(solve(network).cut_capacity.value() == Approx(flow_at(1.5, Metres(0.02)).value()).epsilon(1e-6));
  network.pipes[2].diameter = Metres(0.010);  // riser 1 to riser 2
  REQUIRE(find_faults(network).empty());
  const Solution s = solve(network);
  CHECK(s.limiting_pipe == 2);
  CHECK(s.cut_capacity.value() ==
        Approx(flow_at(1.5, Metres(0.013)).value() + flow_at(1.5, Metres(0.010)).value()).epsilon(1e-6));
}

TEST_CASE("circles, dry tiers and strange nodes are named") {
  Network circle = usual(Feed::parallel);
  const int last = static_cast<int>(circle.nodes.size()) - 1;
  circle.pipes.push_back({last, last - 1, Metres(0.02), Metres(1.0), 0.0, false});
  CHECK(complains(circle, circle.nodes[static_cast<std::size_t>(last - 1)].name, "circle"));
  CHECK_THROWS_AS(solve(circle), std::logic_error);

  Network dry = usual(Feed::parallel);
  dry.nodes.push_back({"attic", NodeKind::tier, Metres(2.0)});
  CHECK(complains(dry, "attic", "no water reaches"));

  Network unknown = usual(Feed::parallel);
  unknown.pipes.push_back({0, 99, Metres(0.02), Metres(1.0), 0.0, false});
  CHECK(complains(unknown, "pipe " + std::to_string(unknown.pipes.size()), "does not exist"));

  Network loose = usual(Feed::parallel);
  loose.nodes.push_back({"stub", NodeKind::junction, Metres(1.0)});
  CHECK(complains(loose, "stub", "not connected"));

  Network thin = usual(Feed::parallel);
  thin.pipes[1].diameter = Metres(std::numeric_limits<double>::quiet_NaN());
  CHECK(complains(thin, "pipe 2", "positive diameter"));

  Network unreal = usual(Feed::parallel);
  unreal.emitter.exponent = 1.5;
  unreal.pump.full_flow = LitresPerHour(0.0);
  CHECK(complains(unreal, "emitter", "an exponent from 0 to 1"));
  CHECK(complains(unreal, "pump", "positive shut-off head and full flow"));

  CHECK(complains(Network{}, "", "no source"));
  CHECK(complains(Network{}, "", "no tier"));
}

TEST_CASE("drops must fall, and pressure cannot start from a drop") {
  Network rising = usual(Feed::cascade);
  rising.nodes[1].height = Metres(5.0);  // tier 1 above tier 2
  CHECK(complains(rising, "tier 1", "lies above"));
  Network powerless = usual(Feed::cascade);
  powerless.nodes.push_back({"side tray", NodeKind::tier, Metres(0.2)});
  powerless.pipes.push_back({1, static_cast<int>(powerless.nodes.size()) - 1, Metres(0.02), Metres(1.0), 0.0, false});
  CHECK(complains(powerless, "tier 1", "by gravity"));
}

TEST_CASE("a pump that cannot lift is refused, for the reason that holds") {
  Network weak = usual(Feed::parallel);
  weak.pump.shutoff = Metres(1.2);
  CHECK(complains(weak, "tier 4", "shut-off"));
  Network drained = usual(Feed::parallel);
  drained.emitters_per_tier = 40;
  CHECK(complains(drained, "tier 4", "the emitters take more than the pump gives"));
}

namespace {

// A hose from the tank over a top and down to four tiers; `first` is the width of a hose to a tier that branches off before the top, 0 for none.
Network over(Metres top, double first = 0.0) {
  Network n{{}, {}, Pump{Metres(4.0), LitresPerHour(1800.0), Watts(45.0)}, Emitter{LitresPerHour(50.0), Metres(1.0), 0.5}, 4};
  n.nodes = {{"tank", NodeKind::source, Metres(0.0)}, {"foot", NodeKind::junction, Metres(0.0)}, {"top", NodeKind::junction, top}, {"out", NodeKind::drain, Metres(-0.5)}};
  n.pipes = {{0, 1, Metres(0.016), Metres(1.0), 1.0, false}, {1, 2, Metres(0.016), Metres(1.0), 1.0, false}};
  for (std::size_t i = 0; i < heights.size(); ++i) {
    const int tier = static_cast<int>(n.nodes.size());
    n.nodes.push_back({"t" + std::to_string(i + 1), NodeKind::tier, heights[i]});
    n.pipes.push_back({i == 0 && first > 0.0 ? 1 : 2, tier, Metres(i == 0 && first > 0.0 ? first : 0.016), Metres(2.0), 1.0, false});
    n.pipes.push_back({tier, 3, Metres(0.016), Metres(1.0), 1.0, true});
  }
  return n;
}

Network with_top(Network n, Metres top) {
  n.nodes[2].height = top;  // a joint's height has no part in the flows
  return n;
}

}  // namespace

TEST_CASE("water goes over no joint that the pump cannot lift it to, and sucks itself over one only so far") {
  CHECK(complains(over(Metres(25.0)), "top", "higher than the pump can lift"));
  CHECK(complains(over(Metres(4.0)), "top", "higher than the pump can lift"));
  const Network siphon = over(Metres(3.5));
  REQUIRE(find_faults(siphon).empty());
  CHECK(solve(siphon).head[2] < Metres(3.5));  // it is one
  CHECK(solve(siphon).head[2] > Metres(1.5));

  // A pump that lifts ten metres while nothing runs and under four while the tiers do.
  Network deep = over(Metres(5.9));
  deep.pump.shutoff = Metres(10.0);
  deep.emitters_per_tier = 8;
  const double stands = solve(with_top(deep, Metres(0.0))).head[2].value();
  REQUIRE(stands < 3.8);
  CHECK(complains(deep, "top", "more than 2 m (6.6 ft) above where the water would stand"));
  deep.nodes[2].height = Metres(stands + 1.99);
  CHECK(find_faults(deep).empty());
  deep.nodes[2].height = Metres(stands + 2.01);
  CHECK(complains(deep, "top", "more than 2 m"));

  // Where nothing is to go over a joint it may stand as high as it likes: an air vent.
  Network vent = over(Metres(1.0));
  vent.nodes.push_back({"vent", NodeKind::junction, Metres(10.0)});
  vent.pipes.push_back({1, static_cast<int>(vent.nodes.size()) - 1, Metres(0.016), Metres(10.0), 1.0, false});
  CHECK(find_faults(vent).empty());
}

TEST_CASE("a siphon that tiers before it keep from filling is told") {
  // Through a wide hose the first tier takes so much that water never comes up to the top, though it would stay there once it had.
  const auto line = [](double first, int emitters) {
    Network n = over(Metres(0.4), first);
    n.emitters_per_tier = emitters;
    for (Node& node : n.nodes)
      if (node.kind == NodeKind::tier) node.height = Metres(-1.3);
    n.nodes[3].height = Metres(-2.0);
    return n;
  };
  CHECK(complains(line(0.03, 30), "top", "is never filled"));
  CHECK(find_faults(line(0.0, 30)).empty());   // all tiers behind the top
  CHECK(find_faults(line(0.03, 8)).empty());   // a first tier that takes less
}

TEST_CASE("a source of another height than the water in it is refused") {
  for (const double height : {-2.0, 1.5}) {
    Network n = over(Metres(1.0));
    n.nodes[0].height = Metres(height);
    CHECK(complains(n, "tank", "heights count from the water in it"));
  }
  CHECK(find_faults(over(Metres(1.0))).empty());
}

TEST_CASE("where the flows do not come to rest, the pipe and its end are named") {
  // Hundreds of emitters that give the same under nearly any head, on a pump two hundred times too strong: of 60,000 networks in sizes that
  // nobody builds the one that was not settled. About it most are not; which ones hangs on rounding, so forty are tried.
  int unsettled = 0;
  for (int k = 1; k <= 40; ++k) {
    const double off = 1.0 + 5e-6 * k;
    Network n;
    n.pump = {Metres(235.4), LitresPerHour(708.689 * off), Watts(40.0)};
    n.emitter = {LitresPerHour(0.946163), Metres(2.51642), 0.001};
    n.emitters_per_tier = 371;
    n.nodes = {{"tank", NodeKind::source, Metres(0.0)},   {"left", NodeKind::junction, Metres(-0.57)}, {"right", NodeKind::junction, Metres(0.351)},
               {"one", NodeKind::tier, Metres(0.08)},     {"two", NodeKind::tier, Metres(0.606 / off)}, {"three", NodeKind::tier, Metres(0.428)},
               {"four", NodeKind::tier, Metres(1.3245 * off)}};
    n.pipes = {{0, 1, Metres(0.00147576), Metres(0.0864688), 4.98, false}, {0, 2, Metres(0.0970776), Metres(25.158), 2.503, false},
               {1, 3, Metres(0.249657), Metres(0.013826), 2.916, false},   {1, 4, Metres(0.00329705), Metres(1552.025), 1.141, false},
               {2, 5, Metres(0.00434), Metres(0.0032525), 0.38383, false}, {2, 6, Metres(0.014369), Metres(0.00796174), 4.978, false}};
    for (const Fault& fault : find_faults(n)) {
      if (fault.why.find("cannot be worked out") == std::string::npos) continue;
      ++unsettled;
      const auto end = fault.why.find(" to " + fault.node + " "), start = fault.why.find(" from " + fault.node + " ");
      CHECK(fault.why.find("the flow in the pipe from ") == 0);
      CHECK((end != std::string::npos || start != std::string::npos));
    }
  }
  CHECK(unsettled > 0);
}

TEST_CASE("tiers are told lowest first, in whatever order they were written") {
  const auto line = [](bool top_first) {
    Network net{{}, {}, Pump{}, Emitter{}, 10};
    const Node top{"top", NodeKind::tier, Metres(1.5)}, bottom{"bottom", NodeKind::tier, Metres(0.4)};
    net.nodes = {{"tank", NodeKind::source, Metres(0.0)}, top_first ? top : bottom, top_first ? bottom : top, {"drain", NodeKind::drain, Metres(0.0)}};
    const int up = top_first ? 1 : 2, down = 3 - up;
    net.pipes = {{0, down, Metres(0.02), Metres(1.0), 2.0, false},
                 {0, up, Metres(0.004), Metres(5.0), 2.0, false},
                 {up, down, Metres(0.02), Metres(1.1), 1.0, true},
                 {down, 3, Metres(0.02), Metres(0.4), 1.0, true}};
    return solve(net);
  };
  const Solution usual = line(false), turned = line(true);
  REQUIRE(turned.tier_flow.size() == 2);
  CHECK(usual.tier_flow[0] > usual.tier_flow[1]);  // the lowest gets what falls on it as well
  for (std::size_t tier = 0; tier < 2; ++tier) {
    CHECK(turned.tier_flow[tier].value() == Approx(usual.tier_flow[tier].value()));
    CHECK(turned.downstream[tier] == usual.downstream[tier]);
  }
  CHECK(usual.downstream[1] == std::vector<int>{0});
}
