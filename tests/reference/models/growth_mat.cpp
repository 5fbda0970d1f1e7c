// The mat against published yields, beyond the rows of tests/reference/table.

#include "models/growth/mat.hpp"
#include "tests/catch.hpp"
#include "tests/reference/trays.hpp"

using namespace rackwright;
using namespace rackwright::validation;

TEST_CASE("an eight-day wheat mat is drier than a barley mat") {
  // Al-Karaki & Al-Hashimi 2012, ISRN Agronomy 924672: 17.6 against 17.1 % at 24 degC.
  CHECK(mat_after("wheat", 24.0, 8.0).dry_matter > mat_after("barley", 24.0, 8.0).dry_matter);
}

TEST_CASE("shoots reach the published heights") {
  // Alemnew & Mekuriaw 2023, Adv. Agric. 9315556: at most 21.26 cm over days 6 to 12; forage mats 15 to 30 cm at
  // harvest (Fazaeli et al. 2012, introduction).
  CHECK(mat_after("barley", 20.0, 9.0).height_cm == near(19.5, 1.5));
}

