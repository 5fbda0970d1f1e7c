#pragma once
// What the animals eat now, by the name people give it, as far as it is not hay.

#include <optional>
#include <string>

namespace rackwright::app {

/// Usual values of a feed (from memory, no source).
struct Fed {
  double dry_matter = 0.88;  ///< of it as bought [1]
  double energy = 8.5;       ///< metabolisable, of its dry matter [MJ/kg]
};

/// Of haylage, silage, fresh grass, straw, brewers' grains, grain and what is made of it; nothing of hay, and of a name that says none of these.
std::optional<Fed> fed_of(const std::string& feed);

}  // namespace rackwright::app
