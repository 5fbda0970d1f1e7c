// What makes a network unusable, found before anything is solved.
#include <algorithm>
#include <cmath>
#include <string>

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/breadth_first_search.hpp>
#include <boost/graph/strong_components.hpp>

#include "models/water/network_parts.hpp"

namespace rackwright::water {

namespace {

using Graph = boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS>;
using Faults = std::vector<Fault>;

const Node& from_node(const Network& n, const Pipe& p) { return n.nodes[static_cast<std::size_t>(p.from)]; }
const Node& to_node(const Network& n, const Pipe& p) { return n.nodes[static_cast<std::size_t>(p.to)]; }
bool positive(double value) { return std::isfinite(value) && value > 0.0; }

// Indices and numbers; with any of these nothing else can be asked.
Faults malformed(const Network& network) {
  Faults faults;
  const int count = static_cast<int>(network.nodes.size());
  for (std::size_t p = 0; p < network.pipes.size(); ++p) {
    const Pipe& pipe = network.pipes[p];
    const std::string name = "pipe " + std::to_string(p + 1);
    if (pipe.from < 0 || pipe.from >= count || pipe.to < 0 || pipe.to >= count)
      faults.push_back({name, "joins a node that does not exist"});
    else if (pipe.from == pipe.to)
      faults.push_back({network.nodes[static_cast<std::size_t>(pipe.from)].name, "is joined to itself"});
    if (!positive(pipe.diameter.value()) || !positive(pipe.length.value()) || !std::isfinite(pipe.minor_k) ||
        pipe.minor_k < 0.0)
      faults.push_back({name, "needs a positive diameter and length and a minor loss not below zero"});
  }
  for (const Node& node : network.nodes)
    if (!std::isfinite(node.height.value())) faults.push_back({node.name, "needs a finite height"});
  const Emitter& e = network.emitter;
  if (network.emitters_per_tier < 1 || !positive(e.reference_flow.value()) || !positive(e.reference_head.value()) ||
      !(e.exponent >= 0.0 && e.exponent <= 1.0))
    faults.push_back({"emitter", "needs at least one a tier, positive reference flow and head, and an exponent from 0 to 1"});
  if (!positive(network.pump.shutoff.value()) || !positive(network.pump.full_flow.value()))
    faults.push_back({"pump", "needs a positive shut-off head and full flow"});
  return faults;
}

void check_kinds(const Network& network, Faults& faults) {
  std::size_t sources = 0;
  for (const Node& node : network.nodes)
    if (node.kind == NodeKind::source && ++sources > 1) faults.push_back({node.name, "is a second source; one is allowed"});
  for (const Node& node : network.nodes)
    if (node.kind == NodeKind::source && node.height.value() != 0.0)
      faults.push_back({node.name, "is the source, and heights count from the water in it: leave its height out, and tell those of the other points from there (below it, less than 0)"});
  if (sources == 0) faults.push_back({"", "there is no source"});
  if (detail::tiers_of(network).empty()) faults.push_back({"", "there is no tier to water"});
  for (const Pipe& pipe : network.pipes) {
    const Node& from = from_node(network, pipe);
    const Node& to = to_node(network, pipe);
    if (detail::is_return(network, pipe)) continue;
    if (pipe.gravity_drop) {
      if (to.height > from.height) faults.push_back({to.name, "lies above " + from.name + ", whose water is to fall on it"});
      if (from.kind == NodeKind::source || from.kind == NodeKind::junction)
        faults.push_back({from.name, "cannot drop water by gravity; only a tier or a drain can"});
      if (to.kind == NodeKind::source) faults.push_back({to.name, "takes water back from " + from.name + ", which is no drain"});
    } else if (from.kind == NodeKind::drain || to.kind == NodeKind::drain) {
      faults.push_back({from.kind == NodeKind::drain ? from.name : to.name, "is a drain and takes gravity drops only"});
    } else if (to.kind == NodeKind::source) {
      faults.push_back({to.name, "is a source and takes no pipe but a return from a drain"});
    }
  }
}

// Every way round but the declared return makes a strong component of more than one node.
void check_cycles(const Network& network, Faults& faults) {
  Graph graph(network.nodes.size());
  for (const Pipe& pipe : network.pipes)
    if (!detail::is_return(network, pipe))
      boost::add_edge(static_cast<std::size_t>(pipe.from), static_cast<std::size_t>(pipe.to), graph);
  std::vector<std::size_t> component(network.nodes.size());
  auto index = boost::get(boost::vertex_index, graph);
  const std::size_t count = boost::strong_components(graph, boost::make_iterator_property_map(component.begin(), index));
  std::vector<std::string> members(count);
  std::vector<std::size_t> first(count), size(count);
  for (std::size_t i = 0; i < component.size(); ++i) {
    const std::size_t c = component[i];
    if (size[c]++ == 0) first[c] = i;
    members[c] += (members[c].empty() ? "" : ", ") + network.nodes[i].name;
  }
  for (std::size_t c = 0; c < count; ++c)
    if (size[c] > 1) faults.push_back({network.nodes[first[c]].name, "water would run in a circle through " + members[c]});
}

// Nodes water reaches from the source by pipe or drop.
std::vector<char> watered(const Network& network) {
  Graph graph(network.nodes.size());
  for (const Pipe& pipe : network.pipes)
    boost::add_edge(static_cast<std::size_t>(pipe.from), static_cast<std::size_t>(pipe.to), graph);
  std::vector<boost::default_color_type> color(network.nodes.size());
  auto colors = boost::make_iterator_property_map(color.begin(), boost::get(boost::vertex_index, graph));
  boost::breadth_first_search(graph, static_cast<std::size_t>(detail::source_of(network)), boost::color_map(colors));
  std::vector<char> wet(color.size());
  for (std::size_t i = 0; i < wet.size(); ++i) wet[i] = color[i] == boost::black_color;
  return wet;
}

void check_reach(const Network& network, Faults& faults) {
  const std::vector<char> wet = watered(network);
  const std::vector<char> pressed = detail::pressurised(network);
  for (std::size_t i = 0; i < wet.size(); ++i)
    if (!wet[i])
      faults.push_back({network.nodes[i].name, network.nodes[i].kind == NodeKind::tier ? "is a tier no water reaches"
                                                                                      : "is not connected to the source"});
  for (const Pipe& pipe : network.pipes)
    if (detail::carries_pressure(network, pipe) && wet[static_cast<std::size_t>(pipe.from)] &&
        !pressed[static_cast<std::size_t>(pipe.from)])
      faults.push_back({from_node(network, pipe).name, "feeds a pressure pipe but only gets water by gravity"});
}

// The search for the flows did not come to rest: which pipe it is about.
Fault unsettled(const Network& network, const detail::Pressures& pressures) {
  const auto name = [&](int node) { return network.nodes[static_cast<std::size_t>(node)].name; };
  const std::string why = " cannot be worked out: pump, pipes and emitters are too unlike in size";
  if (pressures.worst_pipe < 0) return {name(pressures.worst_node), "the flows here" + why};
  const Pipe& pipe = network.pipes[static_cast<std::size_t>(pressures.worst_pipe)];
  return {name(pressures.worst_node), "the flow in the pipe from " + name(pipe.from) + " to " + name(pipe.to) + why};
}

constexpr double most_suction = 2.0;  // m of water below the open air; at more, hoses and joints draw air (our choice; common practice, no source)

// Pipes by which water goes on from a node; none where nothing is to go over it.
std::vector<std::size_t> pipes_on(const Network& network, const detail::Pressures& pressures, int node) {
  std::vector<std::size_t> on;
  const double idle = 1e-6 * pressures.pump_flow_lh;  // what the search for the flows may leave amiss
  bool runs = false;
  for (std::size_t p = 0; p < network.pipes.size(); ++p) {
    const Pipe& pipe = network.pipes[p];
    if (!detail::carries_pressure(network, pipe)) continue;
    const double flow = pressures.pipe_flow_lh[p];
    if (!(pipe.from == node && flow >= -idle) && !(pipe.to == node && flow < -idle)) continue;
    on.push_back(p);
    runs = runs || std::abs(flow) > idle;
  }
  return runs ? on : std::vector<std::size_t>{};
}

// Does water come up to a node when the pump starts, while none goes on from it yet and all other tiers run?
bool fills(const Network& network, int node, const std::vector<std::size_t>& on) {
  Network closed = network;
  for (auto p = on.rbegin(); p != on.rend(); ++p) closed.pipes.erase(closed.pipes.begin() + static_cast<std::ptrdiff_t>(*p));
  const std::vector<char> pressed = detail::pressurised(closed);
  const std::vector<int> tiers = detail::tiers_of(closed);
  // Where nothing runs the pump lifts as high as it can.
  if (std::none_of(tiers.begin(), tiers.end(), [&](int tier) { return pressed[static_cast<std::size_t>(tier)] != 0; })) return true;
  const detail::Pressures pressures = detail::solve_pressures(closed);
  const auto i = static_cast<std::size_t>(node);
  return !pressures.settled || pressures.head_m[i] > network.nodes[i].height.value();
}

// A joint that lies higher than the water stands there: the flows are those of full pipes, which it may not be.
void check_summits(const Network& network, const detail::Pressures& pressures, Faults& faults) {
  for (std::size_t i = 0; i < network.nodes.size(); ++i) {
    const Node& node = network.nodes[i];
    const double above = node.height.value() - pressures.head_m[i];
    if (node.kind != NodeKind::junction || above <= 0.0) continue;
    const std::vector<std::size_t> on = pipes_on(network, pressures, static_cast<int>(i));
    if (on.empty()) continue;
    const std::string instead = ". Lay it lower, or take wider pipes or a pump that lifts higher";
    if (network.pump.shutoff <= node.height)
      faults.push_back({node.name, "lies higher than the pump can lift (above its shut-off head): no water goes over it"});
    else if (above > most_suction)
      faults.push_back({node.name, "lies more than 2 m (6.6 ft) above where the water would stand while the tiers run: it would draw air, and the flow would break off" + instead});
    else if (!fills(network, static_cast<int>(i), on))
      faults.push_back({node.name, "is never filled: when the pump starts, the other tiers take the water before it stands so high, and none goes over it" + instead});
  }
}

void check_lift(const Network& network, Faults& faults) {
  const detail::Pressures pressures = detail::solve_pressures(network);
  if (!pressures.settled) {
    faults.push_back(unsettled(network, pressures));
    return;
  }
  const std::vector<char> pressed = detail::pressurised(network);
  for (const int tier : detail::tiers_of(network)) {
    const auto i = static_cast<std::size_t>(tier);
    if (!pressed[i] || pressures.emitted_lh[i] > 0.0) continue;
    const bool too_low = network.pump.shutoff <= network.nodes[i].height;
    faults.push_back({network.nodes[i].name, too_low ? "lies higher than the pump can lift (above its shut-off head)"
                                                     : "gets no water while the other tiers run: too much is lost in the pipes on the way, or the emitters take more than the pump gives"});
  }
  if (faults.empty()) check_summits(network, pressures, faults);
}

}  // namespace

std::vector<Fault> find_faults(const Network& network) {
  Faults faults = malformed(network);
  if (!faults.empty()) return faults;
  check_kinds(network, faults);
  check_cycles(network, faults);
  if (detail::source_of(network) >= 0) check_reach(network, faults);
  if (faults.empty()) check_lift(network, faults);
  return faults;
}

}  // namespace rackwright::water
