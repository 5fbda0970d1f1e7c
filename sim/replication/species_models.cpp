#include "sim/replication/species_models.hpp"

#include <algorithm>

#include "sim/scenario/watering.hpp"

namespace rackwright {
namespace {

std::optional<SpeciesModels> presets(std::string_view name) {
  const auto physical = grain::find_species(name);
  const auto viability = grain::viability_constants(name);
  const auto soak = soak::preset(name);
  const auto germination = germination::preset(name);
  const auto growth = growth::preset(name);
  if (!physical || !viability || !soak || !germination || !growth) return std::nullopt;
  return SpeciesModels{*physical, *viability, *soak, *germination, *growth};
}

}  // namespace

std::optional<SpeciesModels> species_models(const Scenario& scenario, std::string_view name) {
  const auto own = std::find_if(scenario.species.begin(), scenario.species.end(),
                                [&](const OwnSpecies& s) { return s.name == name; });
  auto models = presets(own == scenario.species.end() ? name : std::string_view(own->like));
  if (!models) return std::nullopt;
  models->growth = growth_of(scenario, std::string(name));
  if (own == scenario.species.end()) return models;
  if (own->bulk_density.value() > 0.0) models->physical.bulk_density = own->bulk_density;
  models->soak = own->soak;
  models->germination = own->germination;
  return models;
}

}  // namespace rackwright
