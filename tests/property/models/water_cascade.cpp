// No water is made out of nothing where tiers drip on one another.
#include <algorithm>
#include <random>

#include "models/water/cascade.hpp"
#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::water;

TEST_CASE("mats drink no more than is poured, and longer pumping never takes from them, in 300 lines") {
  std::mt19937 engine(20);
  const auto between = [&](double low, double high) { return low + (high - low) * (static_cast<double>(engine()) / 4294967296.0); };
  int short_of_water = 0;
  for (int i = 0; i < 300; ++i) {
    std::vector<Metres> heights;
    for (int t = 0; t < 1 + i % 6; ++t) heights.push_back(Metres(0.2 + 0.3 * t));
    const Network n = usual_network(i % 3 == 0 ? Feed::parallel : Feed::cascade, heights, Metres(0.02), Metres(0.016), Metres(2.0), Pump{}, Emitter{}, 1 + i % 4);
    if (!find_faults(n).empty()) continue;
    const Solution s = solve(n);
    std::vector<double> thirst;
    for (std::size_t t = 0; t < heights.size(); ++t) thirst.push_back(between(0.0, 20.0));
    const Hours pumped(between(0.0, 0.5));
    const auto now = shared_out(n, s, thirst, pumped), longer = shared_out(n, s, thirst, pumped * 1.3);
    double drunk = 0.0, wanted = 0.0;
    for (std::size_t t = 0; t < thirst.size(); ++t) {
      drunk += now[t].drunk;
      wanted += thirst[t];
      REQUIRE(now[t].drunk <= thirst[t]);
      REQUIRE(now[t].drunk <= usable * now[t].falls + 1e-12);
      REQUIRE(longer[t].catchable >= now[t].catchable);
      REQUIRE(longer[t].drunk >= now[t].drunk);
    }
    REQUIRE(drunk <= s.pump_flow.value() * pumped.value() * (1.0 + 1e-6));
    short_of_water += drunk < wanted ? 1 : 0;
  }
  CHECK(short_of_water > 50);
}
