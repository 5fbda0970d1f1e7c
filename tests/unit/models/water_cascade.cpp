#include "models/water/cascade.hpp"

#include <algorithm>

#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::water;

namespace {

const std::vector<Metres> heights{Metres(0.3), Metres(0.65), Metres(1.0), Metres(1.35)};

Network line(Feed feed) { return usual_network(feed, heights, Metres(0.02), Metres(0.013), Metres(4.0), Pump{}, Emitter{}, 2); }

}  // namespace

TEST_CASE("what a tier drinks does not fall on the tiers below it") {
  const Network n = line(Feed::cascade);
  const Solution s = solve(n);
  const double poured = s.pump_flow.value();  // in one hour
  // The top wants more than the half that it can use, the next a tenth of all, the third nothing, the lowest everything.
  const auto shared = shared_out(n, s, {10.0 * poured, 0.0, 0.1 * poured, 10.0 * poured}, Hours(1.0));
  REQUIRE(shared.size() == 4);
  CHECK(shared[3].falls == Approx(poured));
  CHECK(shared[3].drunk == Approx(0.5 * poured));
  CHECK(shared[2].falls == Approx(0.5 * poured));
  CHECK(shared[2].catchable == Approx(0.25 * poured));
  CHECK(shared[2].drunk == Approx(0.1 * poured));
  CHECK(shared[1].falls == Approx(0.4 * poured));
  CHECK(shared[1].drunk == 0.0);
  CHECK(shared[0].falls == Approx(0.4 * poured));
  CHECK(shared[0].drunk == Approx(0.2 * poured));
}

TEST_CASE("tiers side by side have what their own emitters give, whatever the others drink") {
  const Network n = line(Feed::parallel);
  const Solution s = solve(n);
  const auto shared = shared_out(n, s, {1e6, 1e6, 1e6, 0.0}, Hours(2.0));
  for (std::size_t tier = 0; tier < 4; ++tier) {
    CHECK(shared[tier].falls == 2.0 * s.tier_flow[tier].value());
    CHECK(shared[tier].drunk == (tier == 3 ? 0.0 : s.tier_flow[tier].value()));
  }
}

TEST_CASE("a tier with emitters of its own under one that drips on it has both, less what the upper drank") {
  Network n{{}, {}, Pump{}, Emitter{}, 10};
  n.nodes = {{"tank", NodeKind::source, Metres(0.0)}, {"bottom", NodeKind::tier, Metres(0.4)}, {"top", NodeKind::tier, Metres(1.5)}, {"drain", NodeKind::drain, Metres(0.0)}};
  n.pipes = {{0, 1, Metres(0.02), Metres(1.0), 2.0, false}, {0, 2, Metres(0.004), Metres(5.0), 2.0, false},
             {2, 1, Metres(0.02), Metres(1.1), 1.0, true},  {2, 3, Metres(0.02), Metres(1.5), 1.0, true}, {1, 3, Metres(0.02), Metres(0.4), 1.0, true}};
  const Solution s = solve(n);
  const double top = s.tier_flow[1].value(), own = s.tier_flow[0].value() - 0.5 * top;  // its drops share evenly
  REQUIRE(own > 0.0);
  const auto shared = shared_out(n, s, {0.0, 1e6}, Hours(1.0));
  CHECK(shared[1].drunk == Approx(0.5 * top));
  CHECK(shared[0].falls == Approx(own + 0.25 * top));
}
