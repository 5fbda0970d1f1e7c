// Cross-checks of grains and species.
#include <algorithm>

#include <fmt/format.h>

#include "models/grain/species.hpp"
#include "models/growth/mat.hpp"
#include "sim/scenario/checks.hpp"
#include "sim/scenario/names.hpp"
#include "sim/scenario/suggest.hpp"

namespace rackwright::checks {
namespace {

std::vector<std::string> species_names(const Scenario& scenario) {
  std::vector<std::string> names;
  for (const grain::Species& s : grain::all_species()) names.emplace_back(s.name);
  for (const OwnSpecies& s : scenario.species) names.push_back(s.name);
  return names;
}

void one_grain(const Scenario& scenario, std::size_t index, Problems& out) {
  const GrainSupply& grain = scenario.grains[index];
  const grain::StorePolicy& store = grain.store;
  const std::string head = keys::grain_head(scenario, index);
  const auto kg = [&](Kilograms mass) { return told(scenario, mass.value(), "kg"); };
  for (std::size_t j = 0; j < index; ++j) {
    if (scenario.grains[j].name == grain.name)
      complain(out, head + ".name", grain.name, "is the name of another grain too");
  }
  if (!knows_species(scenario, grain.species)) {
    complain(out, head + ".species", grain.species, "is neither a species the program knows nor one of [[species]]",
             nearest(grain.species, species_names(scenario)));
  }
  if (store.order_up_to <= store.reorder_point) {
    complain(out, head + ".order_up_to", kg(store.order_up_to),
             "must be more than reorder (" + kg(store.reorder_point) + ")");
  }
  if (store.bin < store.order_up_to) {
    complain(out, head + ".bin", kg(store.bin), "is smaller than order_up_to (" + kg(store.order_up_to) + ")");
  }
  if (store.bag > store.bin)
    complain(out, head + ".bag", kg(store.bag), "does not fit in the bin (" + kg(store.bin) + ")");
  if (store.least_order > store.bin) {
    complain(out, head + ".least_order", kg(store.least_order), "does not fit in the bin (" + kg(store.bin) + ")");
  }
  if (grain.on_hand > store.bin) {
    complain(out, head + ".on_hand", kg(grain.on_hand), "is more than the bin holds (" + kg(store.bin) + ")");
  }
}

void line_grains(const Scenario& scenario, Problems& out) {
  std::vector<std::string> names;
  for (const GrainSupply& grain : scenario.grains) names.push_back(grain.name);
  for (const std::string& wanted : scenario.line.grains) {
    if (std::find(names.begin(), names.end(), wanted) != names.end()) continue;
    complain(out, "line.grains", wanted, "is not the name of a [[grain]]", nearest(wanted, names));
  }
}

void ordered(const std::string& key, Celsius low, Celsius high, std::string_view than, Problems& out) {
  if (low < high) return;
  complain(out, key, fmt::format("{:.4g} degC", high.value()), fmt::format("must be above {}", than));
}

// Growth is counted in days at 20 degC. A species that hardly grows there and races at its best has no such days: its heat would know no bounds.
void warmth(const OwnSpecies& own, const std::string& head, Problems& out) {
  constexpr double most = 10.0;
  const growth::Parameters& g = own.growth;
  if (!(g.base < g.optimum && g.optimum < g.ceiling)) return;  // told by `ordered`
  const double best = growth::growth_rate(g, g.optimum) / g.pace;
  if (best <= most) return;
  complain(out, head + ".growth.curvature", fmt::format("{:.4g}", g.curvature),
           fmt::format("makes it grow {:.3g} times as fast at {:.3g} degC as at 20 degC; no more than {:g} times is followed: lower it, or growth.optimum", best,
                       g.optimum.value(), most));
}

}  // namespace

bool knows_species(const Scenario& scenario, const std::string& name) {
  const auto own = [&](const OwnSpecies& s) { return s.name == name; };
  return grain::find_species(name).has_value() || std::any_of(scenario.species.begin(), scenario.species.end(), own);
}

void grain(const Scenario& scenario, Problems& out) {
  if (scenario.grains.empty()) {
    complain(out, "grain", "", "no grain to sprout: add at least one [[grain]] with name and species");
    return;
  }
  for (std::size_t i = 0; i < scenario.grains.size(); ++i) one_grain(scenario, i, out);
  line_grains(scenario, out);
}

void species(const Scenario& scenario, Problems& out) {
  for (std::size_t i = 0; i < scenario.species.size(); ++i) {
    const OwnSpecies& own = scenario.species[i];
    const std::string head = "species." + keys::item_label(scenario.species, i, [](const OwnSpecies& s) {
                               return std::string_view(s.name);
                             });
    for (std::size_t j = 0; j < i; ++j) {
      if (scenario.species[j].name == own.name)
        complain(out, head + ".name", own.name, "is the name of another species too");
    }
    if (grain::find_species(own.name))
      complain(out, head + ".name", own.name, "is a species the program has; choose another name");
    ordered(head + ".germination.decline", own.germination.base, own.germination.decline, "germination.base", out);
    ordered(head + ".germination.ceiling", own.germination.decline, own.germination.ceiling, "germination.decline",
            out);
    ordered(head + ".growth.optimum", own.growth.base, own.growth.optimum, "growth.base", out);
    ordered(head + ".growth.ceiling", own.growth.optimum, own.growth.ceiling, "growth.optimum", out);
    warmth(own, head, out);
    if (own.growth.overdue < own.growth.ripe) {
      complain(out, head + ".growth.overdue", fmt::format("{:.4g} d", own.growth.overdue),
               "must not come before growth.ripe");
    }
    if (own.growth.mat_dry_matter_end >= own.growth.mat_dry_matter_start) {
      complain(out, head + ".growth.dry_matter_end", fmt::format("{:.4g}", own.growth.mat_dry_matter_end),
               "must be below growth.dry_matter_start");
    }
  }
}

}  // namespace rackwright::checks
