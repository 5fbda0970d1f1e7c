#include "sim/scenario/network.hpp"

#include "models/design/rack.hpp"

namespace rackwright {

water::Network network_of(const Scenario& scenario) {
  const WaterSystem& w = scenario.water;
  if (!w.nodes.empty()) return water::Network{w.nodes, w.pipes, w.pump, w.emitter, w.emitters_per_tier};
  return water::usual_network(w.feed, design::tier_heights(scenario.rack), w.riser_diameter, w.branch_diameter,
                              w.run_length, w.pump, w.emitter, w.emitters_per_tier);
}

}  // namespace rackwright
