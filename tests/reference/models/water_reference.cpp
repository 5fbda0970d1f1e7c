// Hand-solved networks; tables and other programs are in tests/reference/table.
#include <cmath>

#include "models/water/friction.hpp"
#include "models/water/hydraulics.hpp"
#include "models/water/network.hpp"
#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::water;

TEST_CASE("one emitter on a wide pipe: closed form") {
  // Without friction, H0 - a Q^2 = z + (Q/k)^2 has Q = sqrt((H0 - z)/(a + 1/k^2)).
  Network n;
  n.nodes = {{"tank", NodeKind::source, Metres(0.0)}, {"tier", NodeKind::tier, Metres(1.0)}, {"drain", NodeKind::drain, Metres(0.0)}};
  n.pipes = {{0, 1, Metres(0.5), Metres(1.0), 0.0, false}, {1, 2, Metres(0.05), Metres(1.0), 0.0, true}};
  n.emitter = {LitresPerHour(60.0), Metres(1.0), 0.5};
  n.emitters_per_tier = 5;
  const double a = 3.0 / (2000.0 * 2000.0), k = 300.0;
  CHECK(solve(n).pump_flow.value() == Approx(std::sqrt(2.0 / (a + 1.0 / (k * k)))).epsilon(1e-6));
}

TEST_CASE("two unequal branches solved by bisection on the fork's head") {
  // The fork's head h fixes every flow: branch i passes the q with h = z_i + loss_i(q) + emitter head(q); the pump and
  // riser must bring their sum. Nested bisection on the plain formulas, independent of the solver's linear systems.
  const Pump pump{Metres(4.0), LitresPerHour(1200.0), Watts(30.0)};
  const Emitter emitter{LitresPerHour(120.0), Metres(1.0), 0.57};
  const double z[] = {0.5, 1.5};
  const Metres branch[] = {Metres(0.010), Metres(0.013)};
  const auto bisect = [](double low, double high, const auto& too_low) {
    for (int i = 0; i < 200; ++i) (too_low(0.5 * (low + high)) ? low : high) = 0.5 * (low + high);
    return 0.5 * (low + high);
  };
  const auto branch_flow = [&](int i, double h) {
    return bisect(0.0, 3000.0, [&](double q) {
      const LitresPerHour flow(q);
      return z[i] + pipe_loss(flow, branch[i], Metres(2.0)).value() + minor_loss(flow, branch[i], 1.8).value() +
                 emitter_head(emitter, flow).value() < h;
    });
  };
  const auto fork_head_given = [&](double q) {
    return pump_head(pump, LitresPerHour(q)).value() - pipe_loss(LitresPerHour(q), Metres(0.016), Metres(5.0)).value() -
           minor_loss(LitresPerHour(q), Metres(0.016), 3.0).value();
  };
  const double fork = bisect(1.5, 4.0, [&](double h) { return fork_head_given(branch_flow(0, h) + branch_flow(1, h)) > h; });

  Network n;
  n.nodes = {{"tank", NodeKind::source, Metres(0.0)}, {"fork", NodeKind::junction, Metres(0.5)},
             {"low", NodeKind::tier, Metres(0.5)}, {"high", NodeKind::tier, Metres(1.5)}};
  n.pipes = {{0, 1, Metres(0.016), Metres(5.0), 3.0, false}, {1, 2, branch[0], Metres(2.0), 1.8, false},
             {1, 3, branch[1], Metres(2.0), 1.8, false}};
  n.pump = pump;
  n.emitter = emitter;
  const Solution s = solve(n);
  CHECK(s.head[1].value() == Approx(fork).epsilon(1e-6));
  CHECK(s.tier_flow[0].value() == Approx(branch_flow(0, fork)).epsilon(1e-6));
  CHECK(s.tier_flow[1].value() == Approx(branch_flow(1, fork)).epsilon(1e-6));
}
