#pragma once
// What a head gets as fodder, against what it eats.

#include <string>
#include <vector>

#include "models/growth/mat.hpp"
#include "models/herd/animals.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// The mat that rations are reckoned in, as in the table of `check`: ripe, of the grain that is sown first, as much of it sprouted as is usual.
growth::Mat standard_mat(const Scenario& scenario);

/// Of a grown animal of a group, a day.
struct Diet {
  const Group* group = nullptr;
  herd::Class kind{};
  Kilograms eaten{};      ///< dry matter, all of it
  Kilograms ration{};     ///< fresh fodder, as stated or by share
  double share = 0.0;     ///< of it that is fodder, the same figure as in the table of `check`
  double dry_matter = 0.0;  ///< of the mats
  [[nodiscard]] bool over() const { return share > kind.fodder_limit; }
  /// Fresh fodder that is so much of the dry matter eaten.
  [[nodiscard]] Kilograms fresh(double part) const { return eaten * (part / dry_matter); }
};
/// Of a group whose class is known, fed on mats of that dry matter [1].
Diet diet_of(const Group& group, double mat_dry_matter);
/// Of the groups of some animals; for a scenario whose grains and classes are known.
std::vector<Diet> diets(const Scenario& scenario);

/// The most that two digits can write without being more: "0.91 kg", "45 g", "1.9 lb".
std::string at_most_words(const Scenario& scenario, Kilograms mass);

}  // namespace rackwright
