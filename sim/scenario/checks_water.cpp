// Cross-checks of the watering network.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "models/design/rack.hpp"
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

/// A pump with which the usual network has no fault: the least lift of some above the highest tier; empty where none does.
std::string higher_pump(const Scenario& scenario) {
  constexpr double most = 100.0;
  const double top = design::tier_heights(scenario.rack).back().value();
  for (double above = 0.1; top + above <= most; above = above < 2.0 ? above + 0.1 : 2.0 * above) {
    Scenario tried = scenario;
    tried.water.pump.shutoff = Metres(0.1 * std::ceil(10.0 * (top + above)));
    if (tried.water.pump.shutoff > scenario.water.pump.shutoff && tried.water.pump.shutoff.value() <= most && water::find_faults(network_of(tried)).empty())
      return fmt::format("a pump that lifts {} or more", told(scenario, tried.water.pump.shutoff.value(), "m"));
  }
  return "";
}

std::string hardly_reached(const Scenario& scenario, Metres below) {
  constexpr double seen = 0.001;  // [m]
  const double rounded = seen * std::round(below.value() / seen);
  return rounded < seen ? "the pump can just lift to it" : fmt::format("it lies {} below the height to which the pump can just lift, and the way up takes more", told(scenario, rounded, "m"));
}

/// Would twice the flow, pipes twice as wide or half the emitters do?
bool flow_helps(const Scenario& scenario) {
  const auto sound = [&](auto change) {
    Scenario tried = scenario;
    change(tried.water);
    return water::find_faults(network_of(tried)).empty();
  };
  return sound([](WaterSystem& w) { w.pump.full_flow = w.pump.full_flow * 2.0; }) || sound([](WaterSystem& w) { w.riser_diameter = w.riser_diameter * 2.0; }) ||
         sound([](WaterSystem& w) { w.branch_diameter = w.branch_diameter * 2.0; }) || sound([](WaterSystem& w) { w.emitters_per_tier = std::max(1, w.emitters_per_tier / 2); });
}

}  // namespace

void water(const Scenario& scenario, Problems& out) {
  const WaterSystem& w = scenario.water;
  if (w.nodes.empty() && !w.pipes.empty()) {
    complain(out, "water.pipe", "", "pipes need their points: add [[water.node]] or leave out [[water.pipe]]");
  } else if (!w.nodes.empty()) {
    own_network(scenario, out);
  } else {
    constexpr Metres near{0.5};  // below what the pump can just lift (our choice, no source)
    const water::Network network = network_of(scenario);
    for (const water::Fault& fault : water::find_faults(network)) {
      const auto node = std::find_if(network.nodes.begin(), network.nodes.end(), [&](const water::Node& n) { return n.name == fault.node; });
      const bool high = node == network.nodes.end() || w.pump.shutoff <= node->height;  // no flow helps there
      const bool thirsty = fault.why.starts_with("gets no water");
      const std::string shutoff = told(scenario, w.pump.shutoff.value(), "m"), why = fmt::format("{}: {}", fault.node, fault.why);
      if (high || !thirsty) complain(out, "water.pump_shutoff", shutoff, why, higher_pump(scenario));
      else if (w.pump.shutoff - node->height < near && !flow_helps(scenario)) complain(out, "water.pump_shutoff", shutoff, fmt::format("{}: gets no water while the other tiers run: {}", fault.node, hardly_reached(scenario, w.pump.shutoff - node->height)), higher_pump(scenario));
      else complain(out, "water.pump_full_flow", told(scenario, w.pump.full_flow.value(), "L/h"), why, "wider water.riser_diameter or branch_diameter, fewer water.emitters_per_tier, or a pump of more flow");
      break;  // one pump, one complaint
    }
  }
}

}  // namespace rackwright::checks
