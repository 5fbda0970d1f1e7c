#pragma once
// A species as the simulator needs it: presets of every topic put together, the keeper's own species included.

#include <optional>
#include <string_view>

#include "models/germination/germination.hpp"
#include "models/grain/species.hpp"
#include "models/grain/viability.hpp"
#include "models/growth/mat.hpp"
#include "models/soak/uptake.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright {

struct SpeciesModels {
  grain::Species physical;
  grain::ViabilityConstants viability;
  soak::Parameters soak;
  germination::Parameters germination;
  growth::Parameters growth;
};

/// The species of that name, the scenario's own first; nothing when neither knows it.
std::optional<SpeciesModels> species_models(const Scenario& scenario, std::string_view name);

}  // namespace rackwright
