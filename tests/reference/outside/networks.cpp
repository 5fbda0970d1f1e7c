// The solver of watering networks against a general hydraulic engine (EPANET 2.2 by epanet-js 0.9.0) on the networks of
// networks.json: a riser, unequal branches, a loop, laminar drippers; Darcy-Weisbach with a roughness of 0.0015 mm on both
// sides. The engine's water has 1.022e-6 m2/s, ours then that of 19.25 degC, and its litre a minute is 7e-6 off. Tolerances are
// those of its own stopping rule with room to spare: a quarter of a percent of the pump's flow, a hundredth of the shutoff head.
#include <cmath>
#include <fstream>
#include <map>
#include <string>
#include <tuple>

#include <nlohmann/json.hpp>

#include "models/water/network.hpp"
#include "tests/catch.hpp"
#include "tests/reference/outside/said.hpp"

using namespace rackwright;
using namespace rackwright::water;

namespace {

NodeKind kind_of(const std::string& word) {
  return word == "source" ? NodeKind::source : word == "tier" ? NodeKind::tier : NodeKind::junction;
}

Network read_network(const nlohmann::json& json) {
  Network n;
  for (const auto& node : json["nodes"]) n.nodes.push_back({node[0], kind_of(node[1]), Metres(node[2])});
  for (const auto& pipe : json["pipes"])
    n.pipes.push_back({pipe[0], pipe[1], Metres(pipe[2]), Metres(pipe[3]), pipe[4], false});
  n.pump = {Metres(json["pump"][0]), LitresPerHour(json["pump"][1]), Watts(40.0)};
  n.emitter = {LitresPerHour(json["emitter"][0]), Metres(json["emitter"][1]), json["emitter"][2]};
  n.emitters_per_tier = json["emitters_per_tier"];
  n.wall.water = Celsius(19.25);
  return n;
}

}  // namespace

TEST_CASE("flows and heads are those of a general hydraulic engine") {
  std::ifstream file(RACKWRIGHT_SOURCE_DIR "/tests/reference/outside/networks.json");
  const auto networks = nlohmann::json::parse(file);
  std::map<std::tuple<int, std::string, int>, double> said;
  std::ifstream answers = outside::open("networks.csv");
  std::string number, what, index, value;
  std::getline(answers, what);
  while (std::getline(answers, number, ',') && std::getline(answers, what, ',') && std::getline(answers, index, ',') && std::getline(answers, value))
    said[{std::stoi(number), what, std::stoi(index)}] = std::stod(value);
  REQUIRE(networks.size() == 4);
  for (int i = 0; i < static_cast<int>(networks.size()); ++i) {
    const Network network = read_network(networks[static_cast<std::size_t>(i)]);
    INFO(networks[static_cast<std::size_t>(i)]["name"].get<std::string>());
    REQUIRE(find_faults(network).empty());
    const Solution found = solve(network);
    const double pumped = said.at({i, "pump", 0});
    CHECK(found.pump_flow.value() == Approx(pumped).epsilon(2.5e-3));
    for (int p = 0; p < static_cast<int>(network.pipes.size()); ++p) {
      INFO("pipe " << p);
      CHECK(found.pipe_flow[static_cast<std::size_t>(p)].value() == near(said.at({i, "flow", p}), 2.5e-3 * pumped));
    }
    for (int node = 1; node < static_cast<int>(network.nodes.size()); ++node) {
      INFO("node " << node);
      CHECK(found.head[static_cast<std::size_t>(node)].value() ==
            near(said.at({i, "head", node}), 0.01 * network.pump.shutoff.value()));
    }
  }
}
