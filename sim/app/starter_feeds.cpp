#include "sim/app/starter_feeds.hpp"

#include <algorithm>
#include <string_view>
#include <vector>

#include "models/feed/value.hpp"

namespace rackwright::app {

namespace {

struct Kind {
  std::vector<std::string_view> words;  ///< any of them, inside a longer name too
  std::optional<Fed> fed;               ///< none: hay
};

/// The first that fits counts: maize silage is no grain, barley straw neither, and haylage is no hay.
const std::vector<Kind>& kinds() {
  constexpr double dry = feed::HayValue{}.dry_matter, grain = feed::GrainValue{}.energy_mj_per_kg_dm;
  static const std::vector<Kind> all{
      {{"haylage"}, Fed{0.55, 9.5}},
      {{"maize silage", "corn silage"}, Fed{0.33, 11.0}},
      {{"silage"}, Fed{0.30, 10.5}},
      {{"brewer", "draff"}, Fed{0.24, 11.5}},
      {{"straw"}, Fed{dry, 6.3}},
      {{"hay"}, std::nullopt},
      {{"barley", "wheat", "oat", "rye", "triticale", "maize", "corn", "grain", "layer", "mash", "pellet", "meal", "feed", "bran", "concentrate"}, Fed{dry, grain}},
      {{"grass", "pasture", "grazing", "meadow", "green", "fresh"}, Fed{0.18, 10.5}},
  };
  return all;
}

}  // namespace

std::optional<Fed> fed_of(const std::string& feed) {
  for (const Kind& kind : kinds())
    if (std::any_of(kind.words.begin(), kind.words.end(), [&](std::string_view word) { return feed.find(word) != std::string::npos; })) {
      // "Ryegrass" is grass.
      if (kind.fed && kind.fed->dry_matter > 0.8 && feed.ends_with("grass")) continue;
      return kind.fed;
    }
  return std::nullopt;
}

}  // namespace rackwright::app
