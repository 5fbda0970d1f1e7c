#include "models/water/way.hpp"

#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"
#include "models/water/network_parts.hpp"

namespace rackwright::water {
namespace {

/// The pipe that brings a node most, of those under pressure or of the drops; -1 none.
int bringer(const Network& network, const Solution& solution, int node, bool falling) {
  int best = -1;
  double most = 0.0;
  for (std::size_t p = 0; p < network.pipes.size(); ++p) {
    const Pipe& pipe = network.pipes[p];
    if (detail::is_return(network, pipe) || pipe.gravity_drop != falling) continue;
    const double flow = solution.pipe_flow[p].value(), brings = pipe.to == node ? flow : pipe.from == node ? -flow : 0.0;
    if (brings <= most) continue;
    most = brings;
    best = static_cast<int>(p);
  }
  return best;
}

}  // namespace

std::vector<int> way_to(const Network& network, const Solution& solution, std::size_t tier) {
  EXPECTS(solution.pipe_flow.size() == network.pipes.size());
  const std::vector<int> tiers = detail::tiers_of(network);
  EXPECTS(tier < tiers.size());
  std::vector<int> way;
  int node = tiers[tier];
  // Water only goes to less head, and falls in no circle.
  for (std::size_t step = 0; step < network.nodes.size(); ++step) {
    int pipe = bringer(network, solution, node, false);
    if (pipe < 0) pipe = bringer(network, solution, node, true);
    if (pipe < 0) break;
    way.push_back(pipe);
    const Pipe& here = network.pipes[static_cast<std::size_t>(pipe)];
    node = here.to == node ? here.from : here.to;
  }
  std::reverse(way.begin(), way.end());
  return way;
}

Metres head_lost(const Network& network, const Solution& solution, int pipe) {
  const Pipe& p = network.pipes[static_cast<std::size_t>(pipe)];
  if (!detail::carries_pressure(network, p)) return Metres(0.0);
  return Metres(std::abs(solution.head[static_cast<std::size_t>(p.from)].value() - solution.head[static_cast<std::size_t>(p.to)].value()));
}

int costliest_pipe(const Network& network, const Solution& solution, std::size_t tier) {
  int worst = -1;
  Metres most{0.0};
  for (const int pipe : way_to(network, solution, tier)) {
    const Metres lost = head_lost(network, solution, pipe);
    if (lost <= most) continue;
    most = lost;
    worst = pipe;
  }
  return worst;
}

}  // namespace rackwright::water
