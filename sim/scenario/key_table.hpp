#pragma once
// THE key table: every input key, in the order of the reference page. Declared in keys_*.cpp.

#include <string_view>

#include "sim/scenario/key.hpp"

namespace rackwright::keys {

/// Keys that stand once in a scenario, dotted: "rack.tiers".
const Table<Scenario>& scenario_keys();

/// Keys of one entry of each list of tables.
const Table<GrainSupply>& grain_keys();
const Table<OwnSpecies>& species_keys();
const Table<Group>& group_keys();
const Table<climate::Overlay>& spell_keys();
const Table<HardTime>& hard_time_keys();
const Table<water::Node>& node_keys();
const Table<water::Pipe>& pipe_keys();
const Table<Kit>& kit_keys();

// Parts of scenario_keys(), one a file.
Table<Scenario> run_keys();
Table<Scenario> room_keys();
Table<Scenario> line_keys();
Table<Scenario> spoilage_keys();
Table<Scenario> own_line_keys();
Table<Scenario> ignorance_keys();
Table<Scenario> water_keys();
Table<Scenario> keeper_keys();
Table<Scenario> money_keys();

/// A list of tables in the scenario: [[group]] and so on.
template <class T>
struct List {
  std::string_view path;  ///< "group", "water.node"
  std::string_view sentence;
  const Table<T>& (*keys)();
  std::vector<T>& (*items)(Scenario&);
  std::string_view (*name_of)(const T&);  ///< empty where entries have no name
  std::size_t most;                       ///< entries; reading and checking them takes under a second
};

/// An entry as it is before any key is read.
template <class T>
T fresh_item() {
  return T{};
}
template <>
OwnSpecies fresh_item<OwnSpecies>();

namespace lists {
inline std::vector<OwnSpecies>& species(Scenario& s) { return s.species; }
inline std::vector<GrainSupply>& grains(Scenario& s) { return s.grains; }
inline std::vector<Group>& groups(Scenario& s) { return s.groups; }
inline std::vector<climate::Overlay>& spells(Scenario& s) { return s.spells; }
inline std::vector<HardTime>& hard_times(Scenario& s) { return s.hard_times; }
inline std::vector<water::Node>& nodes(Scenario& s) { return s.water.nodes; }
inline std::vector<water::Pipe>& pipes(Scenario& s) { return s.water.pipes; }
inline std::vector<Kit>& kits(Scenario& s) { return s.kits; }
template <class T>
std::string_view name(const T& item) {
  return item.name;
}
template <class T>
std::string_view nameless(const T&) {
  return {};
}
}  // namespace lists

/// Calls `visit` with each List, in reading order (names before those who use them).
template <class Visit>
void for_each_list(Visit&& visit) {
  using Spell = climate::Overlay;
  visit(List<OwnSpecies>{"species", "A species of your own, copied from a known one and changed.", species_keys,
                         lists::species, lists::name<OwnSpecies>, 100});
  visit(List<GrainSupply>{"grain", "A grain you buy, how good its lots are, and how you keep it.", grain_keys,
                          lists::grains, lists::name<GrainSupply>, 100});
  visit(List<Group>{"group", "Animals fed alike.", group_keys, lists::groups, lists::name<Group>, 400});
  visit(List<Spell>{"spell", "A heat wave or cold snap laid over whatever the weather is.", spell_keys, lists::spells,
                    lists::nameless<Spell>, 400});
  visit(List<HardTime>{"hard_time",
                       "Something bad that happens in every replication, on top of ordinary luck; rackwright stress tries "
                       "each by itself.",
                       hard_time_keys, lists::hard_times, lists::name<HardTime>, 400});
  visit(List<water::Node>{"water.node", "A point of your own watering network; leave all out for the usual one.",
                          node_keys, lists::nodes, lists::name<water::Node>, 500});
  visit(List<water::Pipe>{"water.pipe", "A pipe, or a drop by gravity, of your own watering network.", pipe_keys,
                          lists::pipes, lists::nameless<water::Pipe>, 1000});
  visit(List<Kit>{"kit",
                  "Things bought together, such as a pump with its flow, power and price. Kits of one part are a choice: `\"kit.pump\" = "
                  "[\"none\", \"small\", \"large\"]` in `[choose]` (none: as the scenario has it), `--set kit.pump=large`, `--vary kit.pump=small,large`.",
                  kit_keys, lists::kits, lists::name<Kit>, 100});
}

/// The head of a section and a sentence on it.
  struct Section {
    std::string_view name, sentence;
  };
  const std::vector<Section>& sections();

  }  // namespace rackwright::keys
