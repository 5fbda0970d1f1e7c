// Keys of the watering system and its failures, and of a network of the keeper's own.
#include "sim/scenario/key_at.hpp"
#include "sim/scenario/key_table.hpp"

namespace rackwright::keys {
namespace {

using S = Scenario;
using N = water::Node;
using P = water::Pipe;
constexpr std::string_view yours = "yours";
constexpr std::string_view practice = "common practice, no source";

std::optional<int> node_index(const S& scenario, const std::string& name) {
  for (std::size_t i = 0; i < scenario.water.nodes.size(); ++i) {
    if (scenario.water.nodes[i].name == name) return static_cast<int>(i);
  }
  return std::nullopt;
}

Value node_name(const S& scenario, int index) {
  const auto& nodes = scenario.water.nodes;
  const auto i = static_cast<std::size_t>(index);
  return i < nodes.size() ? nodes[i].name : std::string("node-" + std::to_string(index + 1));
}

/// A pipe's end: a node's name outside, its index inside.
template <int P::*end>
Key<P> end_key(std::string_view name, std::string_view sentence) {
  Key<P> key = declare<P>(name, Kind::text, sentence, yours);
  key.get = [](const P& pipe, const S& s) -> Value { return node_name(s, pipe.*end); };
  key.set = [](P& pipe, const Value& value, const S& s) -> std::optional<std::string> {
    const auto index = node_index(s, std::get<std::string>(value));
    if (!index) return "is not the name of a [[water.node]]";
    pipe.*end = *index;
    return std::nullopt;
  };
  return std::move(key).must();
}

}  // namespace

Table<S> water_keys() {
  return {
      option<S>("water.feed", {"parallel", "cascade"}, AT(water.feed),
                "Each level watered by itself, or the top one with the rest dripped on from above.", yours),
      real<S>("water.pump_shutoff", {0.1, 100.0}, AT(water.pump.shutoff),
              "Height to which the pump can just lift, from its plate.", yours),
      real<S>("water.pump_full_flow", {10.0, 100000.0}, AT(water.pump.full_flow),
              "Flow of the pump against no height, from its plate.", yours),
      real<S>("water.pump_power", {1.0, 5000.0}, AT(water.pump.power),
              "Electric power of the pump, from its plate.", yours),
      real<S>("water.emitter_flow", {0.5, 2000.0}, AT(water.emitter.reference_flow),
              "Flow of one emitter at the height below.", practice),
      real<S>("water.emitter_head", {0.05, 50.0}, AT(water.emitter.reference_head),
              "Height of water at which it gives that flow.", practice),
      real<S>("water.emitter_exponent", {0.0, 1.0}, AT(water.emitter.exponent),
              "How its flow follows height: 0.5 for a plain hole, near 0 if self-regulating.", "orifice law"),
      whole<S>("water.emitters_per_tier", {1, 200}, AT(water.emitters_per_tier), "Emitters on each level.", yours),
      real<S>("water.riser_diameter", {0.002, 0.3}, AT(water.riser_diameter),
              "Inside width of the pipe that rises to the levels.", yours).show("cm"),
      real<S>("water.branch_diameter", {0.002, 0.3}, AT(water.branch_diameter),
              "Inside width of the pipe along a level.", yours).show("cm"),
      real<S>("water.pipe_roughness", {0.0, 0.002}, AT(water.pipe_roughness),
              "Roughness inside the pipes: smooth plastic 0.0015 mm, galvanised steel 0.15 mm, slimed up 1 mm.", "pipe catalogues").show("mm"),
      real<S>("water.run_length", {0.1, 500.0}, AT(water.run_length), "Length of pipe from pump to rack.", yours),
      real<S>("water.tank", {1.0, 50000.0}, AT(water.tank_litres), "What the tank holds.", yours).in("L"),
      option<S>("water.top_up", {"float-valve", "by-hand"}, AT(water.top_up),
                "Whether a float valve keeps the tank full or the keeper fills it.", yours),
      real<S>("water.top_up_every", {1.0, 720.0}, AT(water.top_up_every),
              "By hand: how often it is filled; if it runs empty before, the trays go dry.", yours),
      real<S>("water.cycles_per_day", {0.5, 200.0}, AT(water.schedule.cycles_per_day),
              "How often a day the timer waters.", practice).or_in("1/d"),
      real<S>("water.on_time", {0.001, 6.0}, AT(water.schedule.on_time),
              "How long the pump runs each time.", practice).show("min"),
      flag<S>("water.recirculating", AT(water.schedule.recirculating),
              "Whether drained water returns to the tank.", yours),
      real<S>("water.renewals_per_week", {0.0, 14.0}, AT(water.schedule.renewals_per_week),
              "How often a week a returning tank is emptied and refilled.", practice).or_in("1/week"),
      real<S>("water.pump_between_failures", {24.0, 1.0e6}, AT(water.pump_between_failures),
              "Mean time between pump failures.", "assumed").show("d"),
      real<S>("water.pump_repair", {0.1, 2000.0}, AT(water.pump_repair), "Mean time until it runs again.", "assumed"),
      real<S>("water.power_between_cuts", {24.0, 1.0e6}, AT(water.power_between_cuts),
              "Mean time between power cuts.", "assumed").show("d"),
      real<S>("water.power_cut", {0.02, 2000.0}, AT(water.power_cut), "Mean length of a power cut.", "assumed"),
      real<S>("water.emitter_between_clogs", {24.0, 1.0e6}, AT(water.emitter_between_clogs),
              "Mean time until a level's emitters clog.", "assumed").show("d"),
      flag<S>("water.spare_pump", AT(water.spare_pump),
              "Whether a spare pump lies ready; it is put in at the next round held.", yours),
      real<S>("water.battery", {0.0, 2000.0}, AT(water.battery),
              "How long a battery or generator keeps the pump running in a power cut.", yours),
      real<S>("water.header_tank", {0.0, 2000.0}, AT(water.header_tank),
              "How long a tank above the rack waters on when pump or power fail.", yours),
  };
}

const Table<N>& node_keys() {
  static const Table<N> table{
      text<N>("name", AT(name), "What you call this point.", yours).must(),
      option<N>("kind", {"source", "junction", "tier", "drain"}, AT(kind),
                "Tank or mains, a joint, a level of the rack, or where water leaves.", yours),
      real<N>("height", {-5.0, 30.0}, AT(height), "Height above the water in the tank; the source's own is 0.", yours),
  };
  return table;
}

const Table<P>& pipe_keys() {
  static const Table<P> table{
      end_key<&P::from>("from", "The point water comes from."),
      end_key<&P::to>("to", "The point it goes to."),
      real<P>("diameter", {0.002, 0.3}, AT(diameter), "Inside width.", yours).show("cm"),
      real<P>("length", {0.01, 500.0}, AT(length), "Length.", yours),
      real<P>("minor_k", {0.0, 100.0}, AT(minor_k), "Loss in bends and fittings, in velocity heads.", practice),
      flag<P>("gravity_drop", AT(gravity_drop),
              "Whether water only falls here, from trays above onto trays below.", yours),
  };
  return table;
}

}  // namespace rackwright::keys
