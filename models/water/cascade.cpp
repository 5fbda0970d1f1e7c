#include "models/water/cascade.hpp"

#include <algorithm>

#include "models/base/expects.hpp"
#include "models/water/network_parts.hpp"

namespace rackwright::water {

std::vector<Shared> shared_out(const Network& network, const Solution& solution, const std::vector<double>& thirst, Hours pumped) {
  const std::vector<int> tiers = detail::tiers_of(network);
  EXPECTS(solution.tier_flow.size() == tiers.size() && thirst.size() <= tiers.size() && pumped.value() >= 0.0);
  std::vector<double> water(network.nodes.size()), wanted(network.nodes.size()), drunk(network.nodes.size());
  for (std::size_t tier = 0; tier < tiers.size(); ++tier) {
    const auto node = static_cast<std::size_t>(tiers[tier]);
    water[node] = solution.tier_flow[tier].value();
    wanted[node] = tier < thirst.size() ? thirst[tier] : 0.0;
  }
  // A tier's flow holds what fell on it while nobody drank: without that, its emitters' own.
  for (std::size_t p = 0; p < network.pipes.size(); ++p) {
    const Pipe& pipe = network.pipes[p];
    if (pipe.gravity_drop && !detail::is_return(network, pipe)) water[static_cast<std::size_t>(pipe.to)] -= solution.pipe_flow[p].value();
  }
  for (std::size_t n = 0; n < water.size(); ++n)
    water[n] = network.nodes[n].kind == NodeKind::tier ? std::max(0.0, water[n]) * pumped.value() : 0.0;
  std::vector<double> drops(network.pipes.size());
  water = detail::falling(network, water, drops, [&](std::size_t node, double here) { return drunk[node] = std::min(wanted[node], usable * here); });
  std::vector<Shared> shared;
  for (const int node : tiers) {
    const auto n = static_cast<std::size_t>(node);
    shared.push_back({water[n], usable * water[n], drunk[n]});
  }
  return shared;
}

}  // namespace rackwright::water
