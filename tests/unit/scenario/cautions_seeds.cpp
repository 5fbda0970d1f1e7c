// What a plant does to those fed is veterinary toxicology, from memory.
#include <algorithm>
#include <string>

#include "sim/scenario/cautions.hpp"
#include "sim/scenario/read.hpp"
#include "tests/catch.hpp"
#include "tests/unit/scenario/sample.hpp"

using namespace rackwright;

namespace {

bool warns(const Scenario& s, const std::string& of) {
  const auto all = cautions(s);
  return std::any_of(all.begin(), all.end(), [&](const std::string& c) { return c.find(of) != std::string::npos; });
}

Scenario small() {
  const Reading reading = read_scenario(sample::small, {});
  REQUIRE(reading.scenario.has_value());
  return *reading.scenario;
}

Scenario with_grain(const std::string& name) {
  Scenario farm = small();
  std::replace(farm.line.grains.begin(), farm.line.grains.end(), farm.grains.front().name, name);
  farm.grains.front().name = name;
  return farm;
}

/// Sown as a species of the keeper's own.
Scenario with_species(const std::string& name) {
  Scenario farm = small();
  OwnSpecies species;
  species.name = name;
  farm.species.push_back(species);
  farm.grains.front().species = name;
  return farm;
}

struct Named {
  const char* name;
  const char* told;
};

}  // namespace

TEST_CASE("plants that harm are told of by whatever longer name, as a grain and as a species") {
  for (const Named& one : std::initializer_list<Named>{{"sorghum", "cyanide"}, {"Red Sorghum, sweet", "cyanide"}, {"SUDANGRASS", "cyanide"}, {"sudan-grass", "cyanide"}, {"sudex", "cyanide"},
                                                       {"Johnson grass", "cyanide"}, {"milo", "cyanide"}, {"white Milo", "cyanide"}, {"durra", "cyanide"}, {"kafir", "cyanide"},
                                                       {"Guinea corn", "cyanide"}, {"flax", "cyanide"}, {"Linseed 2", "cyanide"}, {"lima beans", "cyanide"}, {"butter bean", "cyanide"},
                                                       {"cassava", "cyanide"}, {"castor", "ricin"}, {"Castor bean", "ricin"}, {"lupine", "alkaloids"}, {"narrow-leaf lupin", "alkaloids"},
                                                       {"lathyrus", "harms the nerves"}, {"common vetch", "harms the nerves"}, {"raw kidney bean", "lectins"}, {"soya", "lectins"},
                                                       {"soy", "lectins"}, {"buckwheat", "sunlight"}}) {
    INFO(one.name);
    CHECK(warns(with_grain(one.name), one.told));
    CHECK(warns(with_species(one.name), one.told));
  }
  for (const char* name : {"barley", "Camilo's barley", "durum wheat", "maize", "oats and peas", "barley from Soylent", "wheat"}) {
    INFO(name);
    for (const char* harm : {"cyanide", "ricin", "alkaloids", "harms the nerves", "lectins", "sunlight"}) {
      CHECK_FALSE(warns(with_grain(name), harm));
      CHECK_FALSE(warns(with_species(name), harm));
    }
  }
}

TEST_CASE("a species that nothing is known of is told as such, and the known ones are not") {
  CHECK(warns(with_species("quinoa"), "Whether sprouts of quinoa are safe to feed is not known here, whatever they are reckoned like."));
  CHECK_FALSE(warns(with_species("milo"), "is not known here"));  // known, and told of
  CHECK_FALSE(warns(small(), "is not known here"));
  Scenario idle = small();
  OwnSpecies species;
  species.name = "quinoa";
  idle.species.push_back(species);
  CHECK_FALSE(warns(idle, "quinoa"));  // no grain is of it
}

TEST_CASE("rye and triticale are to be looked over for ergot") {
  for (const char* name : {"rye", "winter rye 2", "triticale"}) {
    INFO(name);
    CHECK(warns(with_grain(name), "ergot (dark, horny bodies"));
  }
  Scenario farm = small();
  farm.grains.front().species = "rye";
  CHECK(warns(farm, "Look every lot of rye over for ergot"));
  for (const char* name : {"barley", "ryegrass", "Bryer's barley"}) {
    INFO(name);
    CHECK_FALSE(warns(with_grain(name), "ergot"));
  }
}
