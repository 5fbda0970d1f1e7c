// What falls, by gravity, from node to node.
#include <iterator>
#include <utility>

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/topological_sort.hpp>
#include <boost/property_map/property_map.hpp>

#include "models/water/network_parts.hpp"

namespace rackwright::water::detail {

std::vector<double> falling(const Network& network, std::vector<double> emitted, std::vector<double>& by_pipe,
                            const std::function<double(std::size_t, double)>& kept) {
  using Graph = boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS>;
  Graph graph(network.nodes.size());
  std::vector<std::vector<std::size_t>> drops(network.nodes.size());
  for (std::size_t p = 0; p < network.pipes.size(); ++p) {
    const Pipe& pipe = network.pipes[p];
    if (!pipe.gravity_drop || is_return(network, pipe)) continue;
    boost::add_edge(static_cast<std::size_t>(pipe.from), static_cast<std::size_t>(pipe.to), graph);
    drops[static_cast<std::size_t>(pipe.from)].push_back(p);
  }
  std::vector<std::size_t> order;
  std::vector<boost::default_color_type> colours(network.nodes.size());
  boost::topological_sort(graph, std::back_inserter(order), boost::color_map(boost::make_iterator_property_map(colours.begin(), boost::get(boost::vertex_index, graph))));
  std::vector<double> water = std::move(emitted);
  for (auto node = order.rbegin(); node != order.rend(); ++node) {
    const double onward = water[*node] - kept(*node, water[*node]);
    for (const std::size_t p : drops[*node]) {
      by_pipe[p] = onward / static_cast<double>(drops[*node].size());
      water[static_cast<std::size_t>(network.pipes[p].to)] += by_pipe[p];
    }
  }
  return water;
}

}  // namespace rackwright::water::detail
