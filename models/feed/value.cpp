#include "models/feed/value.hpp"

#include <cmath>

#include "models/base/expects.hpp"

namespace rackwright::feed {
namespace {

bool is_share(double x) { return x >= 0.0 && x <= 1.0; }

}  // namespace

Nutrients dry_grain(Kilograms grain, double grain_dry_matter, const GrainValue& value) {
  EXPECTS(grain.value() >= 0.0 && is_share(grain_dry_matter));
  EXPECTS(is_share(value.crude_protein) && value.energy_mj_per_kg_dm >= 0.0);
  const double dry = grain.value() * grain_dry_matter;
  return {dry, dry * value.crude_protein, dry * value.energy_mj_per_kg_dm};
}

Nutrients mat(Kilograms grain, double grain_dry_matter, double dry_matter_loss, double leached_share,
              const GrainValue& value, double value_kept) {
  EXPECTS(is_share(dry_matter_loss) && is_share(leached_share));
  EXPECTS(is_share(value_kept));
  const Nutrients before = dry_grain(grain, grain_dry_matter, value);
  // Respired dry matter is carbohydrate and takes no nitrogen with it; leachate takes the grain's mixture.
  return {before.dry_matter * (1.0 - dry_matter_loss), before.crude_protein * (1.0 - dry_matter_loss * leached_share),
          before.energy_mj * (1.0 - dry_matter_loss) * value_kept};
}

Kilograms hay_of_equal_energy(double energy_mj, const HayValue& value) {
  EXPECTS(energy_mj >= 0.0 && value.dry_matter > 0.0 && value.energy_mj_per_kg_dm > 0.0);
  return Kilograms(energy_mj / (value.dry_matter * value.energy_mj_per_kg_dm));
}

double diet_share(Kilograms fodder_dry_matter, Kilograms intake_dry_matter) {
  EXPECTS(fodder_dry_matter.value() >= 0.0 && intake_dry_matter.value() >= 0.0);
  return intake_dry_matter.value() > 0.0 ? fodder_dry_matter / intake_dry_matter : 0.0;
}

}  // namespace rackwright::feed
