#pragma once
// The parts solve() and find_faults() share; not for use outside models/water.

#include <cstddef>
#include <functional>
#include <vector>

#include "models/water/network.hpp"

namespace rackwright::water::detail {

/// The pipe that closes a recirculating line: from a drain to a source.
inline bool is_return(const Network& network, const Pipe& pipe) {
  return network.nodes[static_cast<std::size_t>(pipe.from)].kind == NodeKind::drain &&
         network.nodes[static_cast<std::size_t>(pipe.to)].kind == NodeKind::source;
}

inline bool carries_pressure(const Network& network, const Pipe& pipe) {
  return !pipe.gravity_drop && !is_return(network, pipe);
}

/// Node index of the (first) source; -1 none.
int source_of(const Network& network);

/// Node indices of the tiers, lowest first; those of one height in node order.
std::vector<int> tiers_of(const Network& network);

/// Nodes a source's pressure reaches through pipes that carry it (breadth-first).
std::vector<char> pressurised(const Network& network);

/// Heads and flows of the pressure side.
struct Pressures {
  std::vector<double> head_m;        ///< by node; its height where no pressure reaches
  std::vector<double> pipe_flow_lh;  ///< by pipe; 0 for drops and returns
  std::vector<double> emitted_lh;    ///< by node; 0 where there is no emitter or no pressure
  double pump_flow_lh = 0.0;
  bool settled = true;               ///< were flows found that agree at every node?
  int worst_node = -1, worst_pipe = -1;  ///< where not: the node most amiss, and the pipe that most flows through there (-1: none)
};
Pressures solve_pressures(const Network& network);

/// What comes upon each node of such amounts that leave emitters there: with what falls from above, of which every node keeps what
/// `kept(node, amount)` says and drops the rest, evenly by its drops; these go to `by_pipe`.
std::vector<double> falling(const Network& network, std::vector<double> emitted, std::vector<double>& by_pipe,
                            const std::function<double(std::size_t, double)>& kept);

/// Narrowest pipe of the minimum cut and the cut's capacity at design_velocity.
struct Cut { int pipe = -1; LitresPerHour capacity{}; };
Cut minimum_cut(const Network& network);

/// For each tier the tiers its drainage reaches, through drops and, by a return, through the pump.
std::vector<std::vector<int>> downstream_tiers(const Network& network);

}  // namespace rackwright::water::detail
