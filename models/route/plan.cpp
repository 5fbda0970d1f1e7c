// The route's two graph questions: how many trays a day can pass (maximum flow), and how far the keeper walks (Dijkstra).
#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <queue>

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/dijkstra_shortest_paths.hpp>
#include <boost/graph/push_relabel_max_flow.hpp>

#include "models/base/expects.hpp"
#include "models/route/stations.hpp"

namespace rackwright::route {

namespace {

constexpr double parts_per_tray = 1e6;  // flow in whole millionths of a tray, so that saturation is exact
constexpr long unlimited = 1L << 50;

using Traits = boost::adjacency_list_traits<boost::vecS, boost::vecS, boost::directedS>;
using Edge = Traits::edge_descriptor;
struct FlowEdge {
  long capacity = 0, residual = 0;
  Edge reverse{};
};
using FlowGraph = boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS, boost::no_property, FlowEdge>;

void connect(FlowGraph& graph, std::size_t from, std::size_t to, long capacity) {
  const Edge there = boost::add_edge(from, to, graph).first;
  const Edge back = boost::add_edge(to, from, graph).first;
  graph[there] = {capacity, capacity, back};
  graph[back] = {0, 0, there};
}

long parts(double trays) { return std::min(unlimited, std::lround(std::min(trays, 1e9) * parts_per_tray)); }

std::vector<char> source_side(const FlowGraph& graph, std::size_t source) {
  std::vector<char> seen(boost::num_vertices(graph));
  std::queue<std::size_t> open;
  seen[source] = 1;
  open.push(source);
  while (!open.empty()) {
    const std::size_t here = open.front();
    open.pop();
    for (auto [edge, end] = boost::out_edges(here, graph); edge != end; ++edge) {
      const std::size_t next = boost::target(*edge, graph);
      if (graph[*edge].residual <= 0 || seen[next]) continue;
      seen[next] = 1;
      open.push(next);
    }
  }
  return seen;
}

struct Ceiling { double trays = 0.0; std::string bottleneck; };

// Each station is split into an entry (2i) and an exit (2i + 1) joined by its limit; the keeper stands before the first.
Ceiling ceiling(const Layout& layout, double keeper_trays) {
  const std::size_t count = layout.stations.size();
  const std::size_t keeper = 2 * count;
  const std::size_t sink = 2 * static_cast<std::size_t>(layout.last) + 1;
  FlowGraph graph(2 * count + 1);
  connect(graph, keeper, 2 * static_cast<std::size_t>(layout.first), parts(keeper_trays));
  for (std::size_t i = 0; i < count; ++i) {
    const double limit = layout.stations[i].trays_per_day;
    connect(graph, 2 * i, 2 * i + 1, limit > 0.0 ? parts(limit) : unlimited);
  }
  for (const Path& path : layout.paths)
    connect(graph, 2 * static_cast<std::size_t>(path.from) + 1, 2 * static_cast<std::size_t>(path.to), unlimited);
  const long flow = boost::push_relabel_max_flow(
      graph, keeper, sink, boost::get(&FlowEdge::capacity, graph), boost::get(&FlowEdge::residual, graph),
      boost::get(&FlowEdge::reverse, graph), boost::get(boost::vertex_index, graph));
  const std::vector<char> side = source_side(graph, keeper);
  Ceiling result{static_cast<double>(flow) / parts_per_tray, {}};
  if (!side[2 * static_cast<std::size_t>(layout.first)]) result.bottleneck = "keeper's time";
  for (std::size_t i = 0; i < count; ++i)
    if (side[2 * i] && !side[2 * i + 1]) result.bottleneck += (result.bottleneck.empty() ? "" : ", ") + layout.stations[i].name;
  return result;
}

std::optional<Metres> shortest_way(const Layout& layout) {
  using Graph = boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS, boost::no_property,
                                      boost::property<boost::edge_weight_t, double>>;
  Graph graph(layout.stations.size());
  for (const Path& path : layout.paths)
    boost::add_edge(static_cast<std::size_t>(path.from), static_cast<std::size_t>(path.to), path.distance.value(), graph);
  std::vector<double> metres(layout.stations.size());
  auto distances = boost::make_iterator_property_map(metres.begin(), boost::get(boost::vertex_index, graph));
  boost::dijkstra_shortest_paths(graph, static_cast<std::size_t>(layout.first), boost::distance_map(distances));
  const double way = metres[static_cast<std::size_t>(layout.last)];
  if (way == std::numeric_limits<double>::max()) return std::nullopt;
  return Metres(way);
}

void expect_sound(const Layout& layout, const Times& times) {
  const int count = static_cast<int>(layout.stations.size());
  const auto known = [&](int i) { return i >= 0 && i < count; };
  EXPECTS(known(layout.first) && known(layout.last) && layout.first != layout.last);
  for (const Path& path : layout.paths) EXPECTS(known(path.from) && known(path.to) && path.distance.value() >= 0.0);
  EXPECTS(times.walking_speed > 0.0);
}

}  // namespace

Plan plan(const Layout& layout, const LineShape& shape, Handling handling, const Times& times) {
  expect_sound(layout, times);
  EXPECTS(handling == Handling::ladder || handling == Handling::fixed);
  Plan result;
  const std::optional<Metres> way = shortest_way(layout);
  if (!way) {
    result.bottleneck = "no path";
    return result;
  }
  double per_tray = 0.0;
  for (const Station& station : layout.stations) per_tray += station.minutes_per_tray;
  result.walk_per_day = 2.0 * shape.batches_per_day * *way;
  const double walking = result.walk_per_day.value() / times.walking_speed;
  const double rate = shape.batches_per_day * shape.trays_per_batch;
  // Animals are fed and ways are walked whatever the number of trays.
  const double fixed = walking + times.feed_per_group * shape.feedings_per_day;
  result.minutes_per_day = rate * per_tray + fixed;
  const double free_minutes = std::max(0.0, shape.keeper_minutes_per_day - fixed);
  const Ceiling most = ceiling(layout, per_tray > 0.0 ? free_minutes / per_tray : std::numeric_limits<double>::max());
  result.daily_ceiling = most.trays;
  result.bottleneck = most.bottleneck;
  return result;
}

}  // namespace rackwright::route
