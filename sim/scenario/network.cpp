#include "sim/scenario/network.hpp"

#include <algorithm>
#include <utility>

#include "models/design/rack.hpp"

namespace rackwright {
namespace {

// A line that recirculates has its drain joined to its source, whether the drawing says so or not.
water::Network with_return(water::Network network, const WaterSystem& w) {
  int source = -1, drain = -1;
  for (std::size_t i = 0; i < network.nodes.size(); ++i) {
    if (network.nodes[i].kind == water::NodeKind::source) source = static_cast<int>(i);
    if (network.nodes[i].kind == water::NodeKind::drain) drain = static_cast<int>(i);
  }
  const bool there = std::any_of(network.pipes.begin(), network.pipes.end(),
                                 [&](const water::Pipe& pipe) { return pipe.from == drain && pipe.to == source; });
  if (w.schedule.recirculating && source >= 0 && drain >= 0 && !there) {
    network.pipes.push_back({drain, source, w.riser_diameter, w.run_length, 1.0, true});
  }
  return network;
}

}  // namespace

water::Network network_of(const Scenario& scenario) {
  const WaterSystem& w = scenario.water;
  water::Network network = w.nodes.empty()
      ? water::usual_network(w.feed, design::tier_heights(scenario.rack), w.riser_diameter, w.branch_diameter, w.run_length, w.pump,
                             w.emitter, w.emitters_per_tier)
      : water::Network{w.nodes, w.pipes, w.pump, w.emitter, w.emitters_per_tier};
  network.wall.roughness = w.pipe_roughness;
  return with_return(std::move(network), w);
}

std::string_view why_no_say(const Scenario& scenario, std::string_view key) {
  const bool usual = std::find(usual_network_keys.begin(), usual_network_keys.end(), key) != usual_network_keys.end();
  return usual && !scenario.water.nodes.empty() ? "cannot vary while [[water.node]] draws the network: it has no say in that" : "";
}

}  // namespace rackwright
