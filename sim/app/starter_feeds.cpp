#include "sim/app/starter_feeds.hpp"

#include <algorithm>
#include <string_view>
#include <vector>

#include "models/feed/value.hpp"

namespace rackwright::app {

namespace {

using Words = std::vector<std::string_view>;

struct Kind {
  std::string_view name;
  Words any;               ///< one of them, as a word of its own, or more than one; after a star it may end a longer word, too ("*grass": ryegrass)
  Words also;              ///< and one of these, where there are any
  std::optional<Fed> fed;  ///< none: as hay
};

/// The first that fits counts: maize silage is no grain, barley straw neither, pasture of winter wheat is grass, and pellets of grass are hay.
const std::vector<Kind>& kinds() {
  constexpr feed::HayValue hay;
  constexpr Fed grain{hay.dry_matter, feed::GrainValue{}.energy_mj_per_kg_dm}, grass{0.18, 10.5};
  static const std::vector<Kind> all{
      {"haylage", {"haylage"}, {}, Fed{0.55, 9.5}},
      {"maize silage", {"maize", "corn"}, {"*silage"}, Fed{0.33, 11.0}},
      {"silage", {"*silage"}, {}, Fed{0.30, 10.5}},
      {"brewers' grains", {"brewer", "draff"}, {}, Fed{0.24, 11.5}},
      {"fresh grass", {"grazing"}, {}, grass},
      {"straw", {"*straw", "*stalk", "*stover"}, {}, Fed{hay.dry_matter, 6.3}},
      {"hay", {"*hay"}, {}, std::nullopt},
      {"hay", {"*grass", "pasture", "meadow", "alfalfa", "lucerne", "clover"}, {"pellet", "meal", "cube", "nut"}, std::nullopt},
      {"grain", {"*mash", "pellet", "*meal", "bran", "concentrate"}, {}, grain},
      {"fresh grass", {"*grass", "*pasture", "pasturage", "meadow", "green", "fresh"}, {}, grass},
      {"grain", {"barley", "wheat", "oat", "rye", "triticale", "maize", "corn", "*grain", "layer", "*feed"}, {}, grain},
  };
  return all;
}

Words words_of(std::string_view text) {
  Words words;
  const auto letter = [](char c) { return c >= 'a' && c <= 'z'; };
  for (std::size_t at = 0; at < text.size();) {
    std::size_t end = at;
    while (end < text.size() && letter(text[end])) ++end;
    if (end > at) words.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return words;
}

bool is(std::string_view word, std::string_view known) {
  const bool end = known.front() == '*';
  if (end) known.remove_prefix(1);
  const auto fits = [&](std::string_view one) { return end ? one.ends_with(known) : one == known; };
  return fits(word) || (word.ends_with('s') && fits(word.substr(0, word.size() - 1))) || (word.ends_with("es") && fits(word.substr(0, word.size() - 2)));
}

bool one_of(const Words& words, const Words& known) {
  return std::any_of(words.begin(), words.end(), [&](std::string_view word) { return std::any_of(known.begin(), known.end(), [&](std::string_view k) { return is(word, k); }); });
}

const Kind* kind_of(const Words& words) {
  for (const Kind& kind : kinds())
    if (one_of(words, kind.any) && (kind.also.empty() || one_of(words, kind.also))) return &kind;
  return nullptr;
}

/// Of a kilogram as bought [MJ].
double energy(const Kind& kind) {
  const Fed fed = kind.fed.value_or(Fed{feed::HayValue{}.dry_matter, feed::HayValue{}.energy_mj_per_kg_dm});
  return fed.dry_matter * fed.energy;
}

/// The kinds that a name joins ("straw and hay"), the richest first: what is bought is then not reckoned poorer than it is, nor the rack better.
std::vector<const Kind*> kinds_in(const std::string& feed) {
  std::vector<const Kind*> found;
  const auto end = [&](const Words& part) {
    const Kind* kind = kind_of(part);
    if (kind != nullptr && std::none_of(found.begin(), found.end(), [&](const Kind* one) { return one->name == kind->name; })) found.push_back(kind);
  };
  Words part;
  for (const std::string_view word : words_of(feed)) {
    if (word != "and" && word != "or" && word != "with") part.push_back(word);
    else end(part), part.clear();
  }
  end(part);
  std::stable_sort(found.begin(), found.end(), [](const Kind* a, const Kind* b) { return energy(*a) > energy(*b); });
  return found;
}

}  // namespace

std::optional<Fed> fed_of(const std::string& feed) {
  const auto found = kinds_in(feed);
  return found.empty() ? std::nullopt : found.front()->fed;
}

std::string taken_of_several(const std::string& feed) {
  const auto found = kinds_in(feed);
  return found.size() < 2 ? "" : std::string(found.front()->name);
}

}  // namespace rackwright::app
