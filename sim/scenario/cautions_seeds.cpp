#include "sim/scenario/cautions_seeds.hpp"

#include <algorithm>
#include <span>
#include <string_view>

#include <fmt/format.h>

#include "models/grain/species.hpp"
#include "sim/scenario/raw_text.hpp"

namespace rackwright {
namespace {

using Names = std::vector<std::string>;

/// Letters alone, small, so that case, blanks and hyphens do not matter; what stands before each of them is kept as a blank.
std::string plain(std::string_view name) {
  std::string out = " ";
  for (const char c : name) {
    const char small = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    if (small >= 'a' && small <= 'z') out += small;
    else if (out.back() != ' ') out += ' ';
  }
  return out + ' ';
}

/// Does the name hold one of these words, inside a longer one too? A word that begins with a blank must begin the word there ("milo", not "Camilo"),
/// one that ends with a blank must end it.
bool holds(std::string_view name, std::span<const std::string_view> words) {
  const std::string in = plain(name);
  return std::any_of(words.begin(), words.end(), [&](std::string_view word) { return in.find(word) != std::string::npos; });
}

/// A plant or its kin, and what is said of it.
struct Kin {
  std::span<const std::string_view> words;
  std::string_view caution;
};

constexpr std::string_view sorghum[] = {"sorghum", "sudangrass", "sudan grass", "sudex", "johnsongrass", "johnson grass", " milo", " durra", " dhurra", " jowar",
                                        " kafir", " kaffir corn", "guinea corn", " feterita", "kaoliang"};
constexpr std::string_view cyanide[] = {" flax", "linseed", "lima bean", "limabean", "butter bean", "butterbean", "cassava", " manioc"};
constexpr std::string_view poison[] = {"castor", "ricinus", "jequirity", "rosary pea", "datura", "jimson", "thornapple", "thorn apple", "corn cockle", "corncockle", "darnel"};
constexpr std::string_view lupin[] = {" lupin", " lupine"};
constexpr std::string_view lathyrus[] = {"lathyrus", "grass pea", "grasspea", "chickling", " vetch", " vicia", "vetchling"};
constexpr std::string_view lectins[] = {"kidney bean", "haricot", "common bean", "navy bean", "black bean", "pinto", "runner bean", "phaseolus", "jack bean", "jackbean", " soya", " soy ", "soybean"};
constexpr std::string_view buckwheat[] = {"buckwheat", "fagopyrum"};
constexpr std::string_view ergot[] = {" rye ", "triticale", " secale "};

constexpr Kin harmful[] = {
    {sorghum, "do not sprout it. Sprouts of sorghum and its kin (sudangrass, johnsongrass, milo, durra, jowar, kafir) hold cyanide enough to kill."},
    {cyanide, "flax (linseed), lima or butter beans and cassava can set cyanide free when soaked or crushed raw: do not sprout them for feed unless a veterinarian agrees."},
    {poison, "do not sprout or feed it: its seed is poisonous (castor holds ricin, of which a few seeds kill), and sprouting does not make it safe. Keep it away from grain, trays and dust."},
    {lupin, "bitter lupins hold alkaloids that harm the young unborn and the nerves, and mouldy ones a poison of the liver; soaking does not reliably rid them of it. Only sweet lupins, and only if a veterinarian agrees."},
    {lathyrus, "seed of grass peas and of vetches harms the nerves (lameness, and worse in horses, pigs and hens): do not sprout it for feed unless a veterinarian agrees."},
    {lectins, "raw beans and soya hold lectins and inhibitors that sicken pigs, poultry, rabbits and young animals; sprouting lessens them but a little. Ask a veterinarian before you sprout them for feed."},
    {buckwheat, "fed green, buckwheat makes pale-skinned animals sick in sunlight. Ask a veterinarian before you sprout it for feed."},
};

Names all_names(const Scenario& s) {
  Names names;
  for (const GrainSupply& grain : s.grains) names.insert(names.end(), {grain.name, grain.species});
  for (const OwnSpecies& species : s.species) names.push_back(species.name);
  std::sort(names.begin(), names.end());
  names.erase(std::unique(names.begin(), names.end()), names.end());
  return names;
}

Names named_so(const Names& names, std::span<const std::string_view> words) {
  Names out;
  std::copy_if(names.begin(), names.end(), std::back_inserter(out), [&](const std::string& name) { return holds(name, words); });
  return out;
}

/// Species that are sprouted under a name of the keeper's own, which says nothing above.
Names unknown_species(const Scenario& s) {
  Names out;
  for (const GrainSupply& grain : s.grains) {
    const bool told = grain::find_species(grain.species).has_value() ||
                      std::any_of(std::begin(harmful), std::end(harmful), [&](const Kin& kin) { return holds(grain.species, kin.words); });
    if (!told && std::find(out.begin(), out.end(), grain.species) == out.end()) out.push_back(grain.species);
  }
  return out;
}

}  // namespace

void seed_cautions(const Scenario& s, std::vector<std::string>& out) {
  const Names names = all_names(s);
  for (const Kin& kin : harmful)
    if (const Names found = named_so(names, kin.words); !found.empty()) out.push_back(fmt::format("{}: {}", fmt::join(found, ", "), kin.caution));
  if (const Names found = unknown_species(s); !found.empty())
    out.push_back(fmt::format("Whether sprouts of {} are safe to feed is not known here, whatever they are reckoned like. Ask a veterinarian before you sprout {}.", listed(found),
                              found.size() == 1 ? "it" : "them"));
  if (const Names found = named_so(names, ergot); !found.empty())
    out.push_back(fmt::format("Look every lot of {} over for ergot (dark, horny bodies among the kernels, often longer than they) and refuse one that holds it: it makes animals cast their "
                              "young, dries up milk and kills ears, tails and feet, and sprouting does not make it safe. Rye and triticale carry it most, wheat and barley seldom.",
                              listed(found)));
}

}  // namespace rackwright
