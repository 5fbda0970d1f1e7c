#include "models/water/network.hpp"

#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"
#include "models/water/network_parts.hpp"

namespace rackwright::water {

namespace {

constexpr Metres branch_length{1.0};

void ensure_continuity(const Network& network, const detail::Pressures& pressures) {
  std::vector<double> balance(network.nodes.size());
  for (std::size_t i = 0; i < balance.size(); ++i) balance[i] = -pressures.emitted_lh[i];
  balance[static_cast<std::size_t>(detail::source_of(network))] += pressures.pump_flow_lh;
  for (std::size_t p = 0; p < network.pipes.size(); ++p) {
    balance[static_cast<std::size_t>(network.pipes[p].from)] -= pressures.pipe_flow_lh[p];
    balance[static_cast<std::size_t>(network.pipes[p].to)] += pressures.pipe_flow_lh[p];
  }
  for (const double left : balance) ENSURES(std::abs(left) <= 1e-6 * std::max(1.0, pressures.pump_flow_lh));
}

int add_node(Network& network, std::string name, NodeKind kind, Metres height) {
  network.nodes.push_back({std::move(name), kind, height});
  return static_cast<int>(network.nodes.size()) - 1;
}

void add_drop(Network& network, int from, int to, Metres diameter) {
  const Metres fall = network.nodes[static_cast<std::size_t>(from)].height - network.nodes[static_cast<std::size_t>(to)].height;
  network.pipes.push_back({from, to, diameter, std::max(Metres(0.05), fall), 1.0, true});
}

}  // namespace

Network usual_network(Feed feed, const std::vector<Metres>& tier_heights, Metres riser_diameter, Metres branch_diameter,
                      Metres run_length, const Pump& pump, const Emitter& emitter, int emitters_per_tier) {
  EXPECTS(!tier_heights.empty());
  EXPECTS(std::is_sorted(tier_heights.begin(), tier_heights.end()));
  Network network{{}, {}, pump, emitter, emitters_per_tier};
  const int tank = add_node(network, "tank", NodeKind::source, Metres(0.0));
  const std::size_t count = tier_heights.size();
  const Metres lowest = std::min(Metres(0.0), tier_heights.front());
  std::vector<int> tiers;
  for (std::size_t i = 0; i < count; ++i)
    tiers.push_back(add_node(network, "tier " + std::to_string(i + 1), NodeKind::tier, tier_heights[i]));
  const int drain = add_node(network, "drain", NodeKind::drain, lowest);
  int below = tank;
  Metres reach = Metres(0.0);
  for (std::size_t i = feed == Feed::parallel ? 0 : count - 1; i < count; ++i) {
    const int fork = add_node(network, "riser " + std::to_string(i + 1), NodeKind::junction, tier_heights[i]);
    const Metres rise(std::abs((tier_heights[i] - reach).value()));
    const Metres length = below == tank ? run_length + rise : rise;
    network.pipes.push_back({below, fork, riser_diameter, std::max(Metres(0.01), length), below == tank ? 3.0 : 0.6, false});
    network.pipes.push_back({fork, tiers[i], branch_diameter, branch_length, 1.8, false});
    below = fork;
    reach = tier_heights[i];
  }
  for (std::size_t i = count; i-- > 0;)
    add_drop(network, tiers[i], feed == Feed::cascade && i > 0 ? tiers[i - 1] : drain, riser_diameter);
  return network;
}

Solution solve(const Network& network) {
  EXPECTS(find_faults(network).empty());
  detail::Pressures pressures = detail::solve_pressures(network);
  EXPECTS(pressures.settled);
  ensure_continuity(network, pressures);
  Solution solution;
  const std::vector<double> water =
      detail::falling(network, pressures.emitted_lh, pressures.pipe_flow_lh, [](std::size_t, double) { return 0.0; });
  for (const int tier : detail::tiers_of(network))
    solution.tier_flow.emplace_back(water[static_cast<std::size_t>(tier)]);
  for (const double flow : pressures.pipe_flow_lh) solution.pipe_flow.emplace_back(flow);
  for (const double head : pressures.head_m) solution.head.emplace_back(head);
  solution.pump_flow = LitresPerHour(pressures.pump_flow_lh);
  solution.pump_head = pump_head(network.pump, solution.pump_flow);
  const detail::Cut cut = detail::minimum_cut(network);
  solution.limiting_pipe = cut.pipe;
  solution.cut_capacity = cut.capacity;
  solution.downstream = detail::downstream_tiers(network);
  solution.drain_needed = 3.0 * solution.pump_flow;
  return solution;
}

}  // namespace rackwright::water
