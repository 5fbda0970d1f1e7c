#pragma once
// Fittings, orifice, emitter and pump formulas for cold clean water. Equations and sources: docs/models/water.md.

#include "models/base/quantity.hpp"

namespace rackwright::water {

/// Minor loss K v^2 / 2g.
Metres minor_loss(LitresPerHour flow, Metres diameter, double k);
/// Mean velocity [m/s].
double velocity(LitresPerHour flow, Metres diameter);
/// Flow at a mean velocity.
LitresPerHour flow_at(double metres_per_second, Metres diameter);

/// Emitter q = reference_flow (h / reference_head)^exponent; exponent 1 laminar, 0.5 an orifice, 0 pressure compensating.
/// No flow at or below zero head. The head of a compensating emitter cannot be told from its flow.
struct Emitter { LitresPerHour reference_flow{53.0}; Metres reference_head{1.0}; double exponent = 0.5; };
LitresPerHour emitter_flow(const Emitter& emitter, Metres head);
Metres emitter_head(const Emitter& emitter, LitresPerHour flow);

/// Free jet through a hole: Cd A sqrt(2 g h).
LitresPerHour orifice_flow(Metres diameter, Metres head, double cd = 0.61);

/// Small centrifugal pump H = shutoff - (shutoff/full^2) Q^2; negative beyond full_flow.
struct Pump { Metres shutoff{3.0}; LitresPerHour full_flow{2000.0}; Watts power{40.0}; };
Metres pump_head(const Pump& pump, LitresPerHour flow);

/// Full-bore gravity drain by Manning; slope in m per m.
LitresPerHour drain_capacity(Metres diameter, double slope, double roughness = 0.009);

}  // namespace rackwright::water
