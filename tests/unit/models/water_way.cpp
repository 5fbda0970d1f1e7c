#include "models/water/way.hpp"

#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::water;

namespace {

const std::vector<Metres> heights{Metres(0.3), Metres(0.65), Metres(1.0)};

Network usual(Feed feed) { return usual_network(feed, heights, Metres(0.02), Metres(0.013), Metres(4.0), Pump{}, Emitter{}, 4); }

}  // namespace

TEST_CASE("the way to a tier goes up the riser and along its branch, and what it loses is the fall of head") {
  const Network network = usual(Feed::parallel);
  const Solution solution = solve(network);
  // Riser and branch of each tier in turn.
  CHECK(way_to(network, solution, 0) == std::vector<int>{0, 1});
  CHECK(way_to(network, solution, 2) == std::vector<int>{0, 2, 4, 5});
  double lost = 0.0;
  for (const int pipe : way_to(network, solution, 2)) lost += head_lost(network, solution, pipe).value();
  CHECK(lost == Approx(solution.head[0].value() - solution.head[3].value()).epsilon(1e-9));  // from the tank, node 0, to tier 3
  CHECK(lost > 0.0);
}

TEST_CASE("in a cascade a lower tier's way goes over the tiers above, and drops lose nothing") {
  const Network network = usual(Feed::cascade);
  const Solution solution = solve(network);
  const std::vector<int> way = way_to(network, solution, 0);
  REQUIRE(way.size() == 4);
  CHECK(std::vector<int>(way.begin(), way.begin() + 2) == way_to(network, solution, 2));
  for (std::size_t i = 2; i < 4; ++i) {
    CHECK(network.pipes[static_cast<std::size_t>(way[i])].gravity_drop);
    CHECK(head_lost(network, solution, way[i]).value() == 0.0);
  }
}

TEST_CASE("the costliest pipe is the thin one, on the ways that it is part of") {
  Network network = usual(Feed::parallel);
  network.pipes[3].diameter = Metres(0.004);  // the branch of tier 2
  const Solution solution = solve(network);
  CHECK(costliest_pipe(network, solution, 1) == 3);
  CHECK(costliest_pipe(network, solution, 0) != 3);
  for (const int pipe : way_to(network, solution, 1)) CHECK(head_lost(network, solution, pipe) <= head_lost(network, solution, 3));
}

TEST_CASE("water that runs against a pipe's drawing is followed as it runs") {
  // From the tank a wide pipe to B and a thin one to A; a pipe drawn from A to B runs the other way, and feeds A's tier.
  Network n{{}, {}, Pump{}, Emitter{}, 4};
  n.nodes = {{"tank", NodeKind::source, Metres(0.0)}, {"A", NodeKind::junction, Metres(0.0)}, {"B", NodeKind::junction, Metres(0.0)},
             {"one", NodeKind::tier, Metres(0.5)}, {"two", NodeKind::tier, Metres(0.6)}, {"out", NodeKind::drain, Metres(0.0)}};
  n.pipes = {{0, 1, Metres(0.004), Metres(5.0), 1.0, false}, {0, 2, Metres(0.02), Metres(1.0), 1.0, false}, {1, 2, Metres(0.02), Metres(1.0), 1.0, false},
             {1, 3, Metres(0.02), Metres(1.0), 1.0, false},  {2, 4, Metres(0.02), Metres(1.0), 1.0, false}, {3, 5, Metres(0.02), Metres(0.5), 1.0, true},
             {4, 5, Metres(0.02), Metres(0.5), 1.0, true}};
  REQUIRE(find_faults(n).empty());
  const Solution solution = solve(n);
  REQUIRE(solution.pipe_flow[2] < LitresPerHour(0.0));
  CHECK(way_to(n, solution, 0) == std::vector<int>{1, 2, 3});
  CHECK(head_lost(n, solution, 2) > Metres(0.0));
}
