// Questions about the network's graph that need no hydraulics: reach, cut, what lies downstream.
#include <algorithm>
#include <cmath>
#include <limits>
#include <queue>

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/breadth_first_search.hpp>
#include <boost/graph/push_relabel_max_flow.hpp>

#include "models/base/expects.hpp"
#include "models/water/network_parts.hpp"

namespace rackwright::water::detail {

namespace {

using Reach = boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS>;

std::vector<char> reached_from(const Reach& graph, std::size_t start) {
  std::vector<boost::default_color_type> color(boost::num_vertices(graph));
  auto colors = boost::make_iterator_property_map(color.begin(), boost::get(boost::vertex_index, graph));
  boost::breadth_first_search(graph, start, boost::color_map(colors));
  std::vector<char> reached(color.size());
  for (std::size_t i = 0; i < color.size(); ++i) reached[i] = color[i] == boost::black_color;
  return reached;
}

template <class Takes>
Reach graph_of(const Network& network, const Takes& takes) {
  Reach graph(network.nodes.size());
  for (const Pipe& pipe : network.pipes)
    if (takes(pipe)) boost::add_edge(static_cast<std::size_t>(pipe.from), static_cast<std::size_t>(pipe.to), graph);
  return graph;
}

// Maximum flow on whole millilitres an hour, so that saturation is exact.
using Traits = boost::adjacency_list_traits<boost::vecS, boost::vecS, boost::directedS>;
using Edge = Traits::edge_descriptor;
struct FlowEdge {
  long capacity = 0, residual = 0;
  Edge reverse{};
  int pipe = -1;
};
using FlowGraph = boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS, boost::no_property, FlowEdge>;

void connect(FlowGraph& graph, std::size_t from, std::size_t to, long capacity, int pipe) {
  const Edge there = boost::add_edge(from, to, graph).first;
  const Edge back = boost::add_edge(to, from, graph).first;
  graph[there] = {capacity, 0, back, pipe};
  graph[back] = {0, 0, there, -1};
}

std::vector<char> source_side(const FlowGraph& graph, std::size_t source) {
  std::vector<char> seen(boost::num_vertices(graph));
  std::queue<std::size_t> open;
  open.push(source);
  seen[source] = 1;
  while (!open.empty()) {
    const std::size_t here = open.front();
    open.pop();
    for (auto [edge, end] = boost::out_edges(here, graph); edge != end; ++edge) {
      const std::size_t next = boost::target(*edge, graph);
      if (graph[*edge].residual > 0 && !seen[next]) {
        seen[next] = 1;
        open.push(next);
      }
    }
  }
  return seen;
}

}  // namespace

int source_of(const Network& network) {
  for (std::size_t i = 0; i < network.nodes.size(); ++i)
    if (network.nodes[i].kind == NodeKind::source) return static_cast<int>(i);
  return -1;
}

std::vector<int> tiers_of(const Network& network) {
  std::vector<int> tiers;
  for (std::size_t i = 0; i < network.nodes.size(); ++i)
    if (network.nodes[i].kind == NodeKind::tier) tiers.push_back(static_cast<int>(i));
  const auto height = [&](int node) { return network.nodes[static_cast<std::size_t>(node)].height; };
  std::stable_sort(tiers.begin(), tiers.end(), [&](int a, int b) { return height(a) < height(b); });
  return tiers;
}

std::vector<char> pressurised(const Network& network) {
  const Reach graph = graph_of(network, [&](const Pipe& pipe) { return carries_pressure(network, pipe); });
  return reached_from(graph, static_cast<std::size_t>(source_of(network)));
}

Cut minimum_cut(const Network& network) {
  const std::size_t sink = network.nodes.size();
  const auto source = static_cast<std::size_t>(source_of(network));
  constexpr long unlimited = std::numeric_limits<long>::max() / 1024;
  FlowGraph graph(sink + 1);
  for (std::size_t p = 0; p < network.pipes.size(); ++p) {
    const Pipe& pipe = network.pipes[p];
    if (!carries_pressure(network, pipe)) continue;
    const long capacity = std::lround(1000.0 * flow_at(design_velocity, pipe.diameter).value());
    connect(graph, static_cast<std::size_t>(pipe.from), static_cast<std::size_t>(pipe.to), capacity, static_cast<int>(p));
  }
  const std::vector<char> wet = pressurised(network);
  for (const int tier : tiers_of(network))
    if (wet[static_cast<std::size_t>(tier)]) connect(graph, static_cast<std::size_t>(tier), sink, unlimited, -1);
  const long flow = boost::push_relabel_max_flow(
      graph, source, sink, boost::get(&FlowEdge::capacity, graph), boost::get(&FlowEdge::residual, graph),
      boost::get(&FlowEdge::reverse, graph), boost::get(boost::vertex_index, graph));
  const std::vector<char> side = source_side(graph, source);
  Cut cut{-1, LitresPerHour(static_cast<double>(flow) / 1000.0)};
  for (std::size_t p = 0; p < network.pipes.size(); ++p) {
    const Pipe& pipe = network.pipes[p];
    const bool crosses = side[static_cast<std::size_t>(pipe.from)] && !side[static_cast<std::size_t>(pipe.to)];
    if (!carries_pressure(network, pipe) || !crosses) continue;
    if (cut.pipe < 0 || pipe.diameter < network.pipes[static_cast<std::size_t>(cut.pipe)].diameter)
      cut.pipe = static_cast<int>(p);
  }
  return cut;
}

std::vector<std::vector<int>> downstream_tiers(const Network& network) {
  const Reach falling =
      graph_of(network, [&](const Pipe& pipe) { return pipe.gravity_drop || is_return(network, pipe); });
  const Reach everything = graph_of(network, [](const Pipe&) { return true; });
  const int source = source_of(network);
  const std::vector<int> tiers = tiers_of(network);
  std::vector<std::vector<int>> downstream(tiers.size());
  for (std::size_t t = 0; t < tiers.size(); ++t) {
    std::vector<char> reached = reached_from(falling, static_cast<std::size_t>(tiers[t]));
    // Once back in the tank it is pumped everywhere.
    if (source >= 0 && reached[static_cast<std::size_t>(source)])
      reached = reached_from(everything, static_cast<std::size_t>(source));
    for (std::size_t other = 0; other < tiers.size(); ++other)
      if (other != t && reached[static_cast<std::size_t>(tiers[other])]) downstream[t].push_back(static_cast<int>(other));
  }
  return downstream;
}

}  // namespace rackwright::water::detail
