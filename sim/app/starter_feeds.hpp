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

/// Of haylage, silage, fresh grass, straw, brewers' grains, grain and what is made of it, by the words of a name in small letters; nothing of hay, and of a
/// name that says none of these. Where a name joins several ("straw and hay"), of that with most energy in a kilogram as bought.
std::optional<Fed> fed_of(const std::string& feed);
/// Which of several joined kinds that is; empty where the name does not join several.
std::string taken_of_several(const std::string& feed);

}  // namespace rackwright::app
