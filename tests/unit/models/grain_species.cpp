#include "models/grain/species.hpp"

#include <string_view>

#include "models/germination/germination.hpp"
#include "models/grain/viability.hpp"
#include "models/growth/mat.hpp"
#include "models/soak/uptake.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

TEST_CASE("every species has a preset in every model of the grain") {
  REQUIRE(grain::all_species().size() >= 6);
  for (const grain::Species& species : grain::all_species()) {
    INFO(species.name);
    CHECK(grain::find_species(species.name)->name == species.name);
    CHECK(species.bulk_density.value() > 300.0);
    CHECK(species.thousand_kernel_grams > 20.0);
    CHECK(species.store_moisture > 0.08);
    CHECK(species.store_moisture < 0.14);
    CHECK(grain::viability_constants(species.name).has_value());
    CHECK(soak::preset(species.name).has_value());
    CHECK(germination::preset(species.name).has_value());
    CHECK(growth::preset(species.name).has_value());
  }
}

TEST_CASE("an unknown species is nothing, not a guess") {
  for (const std::string_view name : {"", "Barley", "rice", "barley "}) {
    INFO("'" << name << "'");
    CHECK_FALSE(grain::find_species(name).has_value());
    CHECK_FALSE(grain::viability_constants(name).has_value());
    CHECK_FALSE(soak::preset(name).has_value());
    CHECK_FALSE(germination::preset(name).has_value());
    CHECK_FALSE(growth::preset(name).has_value());
  }
}

TEST_CASE("mass of a volume is density times volume") {
  grain::Species species;
  species.bulk_density = KilogramsPerCubicMetre(600.0);
  CHECK(grain::mass_of_volume(species, CubicMetres(0.25)).value() == Approx(150.0));
}
