#include "models/frost/frost.hpp"

#include "models/germination/germination.hpp"
#include "models/growth/mat.hpp"
#include "models/spoilage/hazard.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

TEST_CASE("water stands below freezing and runs at it") {
  CHECK(frost::water_stands(Celsius(-0.01)));
  CHECK_FALSE(frost::water_stands(Celsius(0.0)));
  CHECK_FALSE(frost::water_stands(Celsius(20.0)));
}

TEST_CASE("frost kills mats below their temperature, and never grain that has not sprouted") {
  const frost::Parameters law{Celsius(-3.0), 0.1};
  CHECK(frost::kills(law, Celsius(-3.01), 1.0));
  CHECK(frost::kills(law, Celsius(-3.01), 0.1));
  CHECK_FALSE(frost::kills(law, Celsius(-3.0), 1.0));
  CHECK_FALSE(frost::kills(law, Celsius(-40.0), 0.0999));
  CHECK_FALSE(frost::is_mat(law, 0.0999));
  CHECK(frost::is_mat(law, 0.1));
}

TEST_CASE("colder or more sprouted never saves a mat") {
  const frost::Parameters law;
  bool died = false;
  for (double air = 5.0; air > -20.0; air -= 0.25) {
    const bool dies = frost::kills(law, Celsius(air), 0.5);
    CHECK((dies || !died));
    died = dies;
    CHECK((!dies || frost::kills(law, Celsius(air), 0.9)));
  }
  CHECK(died);
}

TEST_CASE("nothing lives or spoils at the coldest the simulator's table holds, nor below") {
  for (const char* species : {"barley", "wheat", "oat", "rye", "triticale", "maize"}) {
    for (const double celsius : {-20.0, -60.0}) {
      CHECK(growth::growth_rate(*growth::preset(species), Celsius(celsius)) == 0.0);
      CHECK(germination::rate(*germination::preset(species), Celsius(celsius)) == 0.0);
    }
  }
  for (const double celsius : {-20.0, -60.0}) {
    CHECK(spoilage::growth_factor(spoilage::Parameters{}.mould, Celsius(celsius)) == 0.0);
    CHECK(spoilage::growth_factor(spoilage::Parameters{}.sour, Celsius(celsius)) == 0.0);
  }
}
