#pragma once
// The watering network as a directed graph: tank or mains, pump, pipes, emitters, trays, gravity drops, drain or return.
//
//   tank --pump--> junctions --> tiers (emitters)          pressure pipes
//                                tier ..> tier ..> drain   gravity drops: what falls, and what spoils, goes down
//                                drain ..> tank            the declared return, the only way round that is allowed
//
// Method, sources and what is left out: docs/models/water.md.

#include <string>
#include <vector>

#include "models/base/quantity.hpp"
#include "models/water/friction.hpp"
#include "models/water/hydraulics.hpp"

namespace rackwright::water {

enum class NodeKind { source, junction, tier, drain };

struct Node {
  std::string name;
  NodeKind kind = NodeKind::junction;
  Metres height{};          ///< above the tank's water level
};

/// A pipe (or a gravity drop) from one node to another.
struct Pipe {
  int from{}, to{};     ///< node indices
  Metres diameter{0.016};   ///< inside
  Metres length{2.0};
  double minor_k = 2.0;
  bool gravity_drop = false;///< trays above drain onto trays below: no pressure, carries what spoils above
};

struct Network {
  std::vector<Node> nodes;
  std::vector<Pipe> pipes;
  Pump pump;                ///< stands at the source; for mains, a pump of that pressure and flow
  Emitter emitter;
  int emitters_per_tier = 1;///< on every tier that a pressure pipe reaches
  Wall wall{};              ///< of every pipe
};

/// The usual line: a riser with one branch a tier ("parallel", each tier drained by itself), or water to the top tier
/// only, dropping tier to tier ("cascade").
enum class Feed { parallel, cascade };

/// `tier_heights` lowest first; tiers are "tier 1" (lowest) upwards. `run_length` is pipe from the tank to the foot of
/// the riser; a branch is 1 m (assumed).
Network usual_network(Feed feed, const std::vector<Metres>& tier_heights, Metres riser_diameter, Metres branch_diameter,
                      Metres run_length, const Pump& pump, const Emitter& emitter, int emitters_per_tier);

/// What the network does when the pump runs.
struct Solution {
  std::vector<LitresPerHour> tier_flow;  ///< by tier, lowest first (of one height as written); a cascade tier gets what falls on it
  std::vector<LitresPerHour> pipe_flow;  ///< by pipe, positive from `from` to `to`; gravity drops too, a return 0
  std::vector<Metres> head;              ///< by node, above the tank's water level; its height where no pressure reaches
  LitresPerHour pump_flow{};             ///< operating point
  Metres pump_head{};
  int limiting_pipe = -1;                ///< index into pipes of the narrowest of the minimum cut; -1 none
  LitresPerHour cut_capacity{};          ///< flow the cut would pass at 1.5 m/s
  std::vector<std::vector<int>> downstream;  ///< for each tier (in order): tiers (by the same order) that receive its drainage
  LitresPerHour drain_needed{};          ///< three times pump flow (common practice, no source)
};

/// Velocity the minimum cut is reckoned at [m/s]; about the usual 5 ft/s limit for small pipe.
inline constexpr double design_velocity = 1.5;

/// Why a network cannot be used; empty when it can.
struct Fault { std::string node; std::string why; };

/// Cycles, tiers no water reaches, unconnected nodes, unknown indices, no source or several, drops that rise, pipes without
/// pressure, sizes that are not positive, and tiers to which the pump cannot lift while the others run.
std::vector<Fault> find_faults(const Network& network);

/// Solves heads and flows; the network must have no fault. Flow continuity holds to 1e-6 relative.
Solution solve(const Network& network);

}  // namespace rackwright::water
