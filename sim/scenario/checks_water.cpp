// Cross-checks of the watering network.
#include <algorithm>

#include <fmt/format.h>

#include "models/water/network.hpp"
#include "sim/scenario/checks.hpp"
#include "sim/scenario/names.hpp"
#include "sim/scenario/network.hpp"

namespace rackwright::checks {
namespace {

std::string node_key(const Scenario& scenario, const std::string& name) {
  const auto& nodes = scenario.water.nodes;
  const auto found = std::find_if(nodes.begin(), nodes.end(), [&](const water::Node& n) { return n.name == name; });
  if (found == nodes.end()) return "water.node";
  const auto index = static_cast<std::size_t>(found - nodes.begin());
  return "water.node." + keys::item_label(nodes, index, [](const water::Node& n) { return std::string_view(n.name); }) +
         ".name";
}

void own_network(const Scenario& scenario, Problems& out) {
  const WaterSystem& w = scenario.water;
  std::vector<std::string> names;
  for (const water::Node& node : w.nodes) {
    if (std::find(names.begin(), names.end(), node.name) != names.end()) {
      complain(out, node_key(scenario, node.name), node.name, "is the name of another point too");
    }
    names.push_back(node.name);
  }
  if (!out.empty() && out.back().key.starts_with("water.node")) return;
  for (const water::Fault& fault : water::find_faults(network_of(scenario))) {
    complain(out, node_key(scenario, fault.node), fault.node, fault.why);
  }
  const auto tiers = std::count_if(w.nodes.begin(), w.nodes.end(),
                                   [](const water::Node& n) { return n.kind == water::NodeKind::tier; });
  if (tiers != scenario.rack.tiers) {
    complain(out, "water.node", "",
             fmt::format("{} points are tiers, but rack.tiers is {}", tiers, scenario.rack.tiers));
  }
  for (const Choice& choice : scenario.choose.choices) {
    if (choice.key == "rack.tiers")
      complain(out, "choose.rack.tiers", "", "cannot vary while [[water.node]] draws a network for one number of tiers");
    if (const std::string_view why = why_no_say(scenario, choice.key); !why.empty()) complain(out, "choose." + choice.key, "", std::string(why));
  }
}

}  // namespace

void water(const Scenario& scenario, Problems& out) {
  const WaterSystem& w = scenario.water;
  if (w.nodes.empty() && !w.pipes.empty()) {
    complain(out, "water.pipe", "", "pipes need their points: add [[water.node]] or leave out [[water.pipe]]");
  } else if (!w.nodes.empty()) {
    own_network(scenario, out);
  } else {
    const water::Network network = network_of(scenario);
    for (const water::Fault& fault : water::find_faults(network)) {
      const auto node = std::find_if(network.nodes.begin(), network.nodes.end(), [&](const water::Node& n) { return n.name == fault.node; });
      const bool weak = node != network.nodes.end() && w.pump.shutoff > node->height && fault.why.starts_with("gets no water");
      if (!weak) complain(out, "water.pump_shutoff", told(scenario, w.pump.shutoff.value(), "m"), fmt::format("{}: {}", fault.node, fault.why));
      else complain(out, "water.pump_full_flow", told(scenario, w.pump.full_flow.value(), "L/h"), fmt::format("{}: {}", fault.node, fault.why), "wider water.riser_diameter or branch_diameter, fewer water.emitters_per_tier, or a pump of more flow");
      break;  // one pump, one complaint
    }
  }
}

}  // namespace rackwright::checks
