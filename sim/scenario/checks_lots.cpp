// Cross-checks of when a grain is short and how a new lot is tried.
#include <fmt/format.h>

#include "models/grain/species.hpp"
#include "sim/scenario/checks.hpp"
#include "sim/scenario/names.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright::checks {
namespace {

void shortage(const ShortSeason& season, const std::string& head, Problems& out) {
  if (season.from > 0 && season.until <= 0)
    complain(out, head + ".short_from", "", "has no end: add short_until");
  if (season.until > 0 && season.from <= 0)
    complain(out, head + ".short_until", "", "has no beginning: add short_from");
  if (season.chance > 0.0 && season.from <= 0 && season.until <= 0) {
    complain(out, head + ".short_chance", fmt::format("{:.4g}", season.chance),
             "says how often it is short, but not when: add short_from and short_until");
  }
}

/// Mass of a thousand kernels [g]; a species of the keeper's own is as heavy as what it was copied from.
double thousand_grams(const Scenario& scenario, const std::string& name) {
  std::string known = name;
  for (const OwnSpecies& own : scenario.species)
    if (own.name == name) known = own.like;
  const auto species = grain::find_species(known);
  return species ? species->thousand_kernel_grams : 0.0;
}

void trial(const Scenario& scenario, const GrainSupply& supply, const std::string& head, Problems& out) {
  const LotPolicy& policy = supply.policy;
  if (policy.trial <= 0) return;
  const auto kg = [&](Kilograms mass) { return write_quantity(mass.value(), "kg", scenario.units == Units::us, 3); };
  const grain::StorePolicy& store = supply.store;
  const Kilograms taken(policy.trial * thousand_grams(scenario, supply.species) * 1e-6);
  if (taken > 0.5 * store.bag) {
    complain(out, head + ".trial", std::to_string(policy.trial),
             fmt::format("so many kernels weigh {}, more than half of a bag ({})", kg(taken), kg(store.bag)));
  }
  if (store.order_up_to + policy.keep_back > store.bin) {
    complain(out, head + ".keep_back", kg(policy.keep_back),
             fmt::format("beside order_up_to ({}) does not fit in the bin ({})", kg(store.order_up_to), kg(store.bin)));
  }
  if (policy.trial_time >= store.use_by)
    complain(out, head + ".trial_time", fmt::format("{:.4g} d", in_days(policy.trial_time)), "is longer than grain keeps (use_by)");
}

}  // namespace

void lots(const Scenario& scenario, Problems& out) {
  for (std::size_t i = 0; i < scenario.grains.size(); ++i) {
    const std::string head = keys::grain_head(scenario, i);
    shortage(scenario.grains[i].shortage, head, out);
    trial(scenario, scenario.grains[i], head, out);
  }
}

}  // namespace rackwright::checks
