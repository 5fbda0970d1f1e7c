#pragma once
// What fodder is worth as feed, against the grain fed dry and against hay. Sources and limits: docs/models/feed.md.

#include "models/base/quantity.hpp"

namespace rackwright::feed {

struct Nutrients { double dry_matter = 0.0, crude_protein = 0.0, energy_mj = 0.0; };  ///< kg, kg, MJ metabolisable

/// Of grain dry matter: crude protein [1], metabolisable energy [MJ/kg].
struct GrainValue { double crude_protein = 0.12; double energy_mj_per_kg_dm = 13.0; };
/// Dry matter of hay as bought [1]; metabolisable energy of its dry matter.
struct HayValue { double dry_matter = 0.88; double energy_mj_per_kg_dm = 8.5; };

/// Energy per kg of mat dry matter against the grain's (assumed: published trials say only "slightly lower").
inline constexpr double usual_value_kept = 0.96;

/// Of `grain` kilograms as bought, fed dry.
Nutrients dry_grain(Kilograms grain, double grain_dry_matter, const GrainValue& value);
/// Of the mat grown from it: protein is conserved but for the leachate (`leached_share` of the lost dry matter, which
/// carries protein as the grain does), energy falls with dry matter and a little per kg (`value_kept`, in [0, 1]).
Nutrients mat(Kilograms grain, double grain_dry_matter, double dry_matter_loss, double leached_share,
              const GrainValue& value, double value_kept = usual_value_kept);
/// Hay as bought that carries as much energy.
Kilograms hay_of_equal_energy(double energy_mj, const HayValue& value);

/// Share of the diet's dry matter, against the class's usual limit; 0 when nothing is eaten.
double diet_share(Kilograms fodder_dry_matter, Kilograms intake_dry_matter);

}  // namespace rackwright::feed
