#include "sim/scenario/cautions_feeding.hpp"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <string_view>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "models/herd/breeding.hpp"
#include "models/herd/young.hpp"
#include "sim/scenario/presence.hpp"
#include "sim/scenario/ration.hpp"
#include "sim/scenario/raw_text.hpp"

namespace rackwright {
namespace {

using Lines = std::vector<std::string>;

bool one_of(std::string_view species, std::initializer_list<std::string_view> of) { return std::find(of.begin(), of.end(), species) != of.end(); }

/// Whose gut stops or sickens without long fibre.
bool lives_on_fibre(const herd::Class& kind) { return one_of(kind.species, {"goat", "sheep", "cattle", "horse", "rabbit"}); }

/// A share of the dry matter as it is told beside a limit: never as if it were the limit itself.
std::string percent(double share, double limit) {
  const bool alike = std::lround(100.0 * share) == std::lround(100.0 * limit);
  return fmt::format("{:.{}f} %", 100.0 * share, alike ? 1 : 0);
}

/// Pages put at their head what begins so.
void too_much(const Scenario& s, const std::vector<Diet>& fed, Lines& out) {
  Lines told;
  bool by_share = false, by_ration = false;
  for (const Diet& diet : fed) {
    if (!diet.over()) continue;
    (diet.group->ration ? by_ration : by_share) = true;
    const double limit = diet.kind.fodder_limit;
    told.push_back(fmt::format("{}, {} of the dry matter ({:.0f} % is the usual upper limit for {}: {} a head)", diet.group->name, percent(diet.share, limit), 100.0 * limit, diet.kind.name,
                               at_most_words(s, diet.fresh(limit))));
  }
  if (told.empty()) return;
  out.push_back(fmt::format("Grave: fodder is to be too much of what they eat: {}. Cut the {}.", fmt::join(told, "; "), !by_share ? "ration" : by_ration ? "ration or the share" : "share"));
}

/// Those that do not live on fibre lack other things (common practice, no source).
void thinned(const std::vector<Diet>& fed, Lines& out) {
  Lines names;
  bool lays = false;
  for (const Diet& diet : fed) {
    if (!diet.over() || lives_on_fibre(diet.kind)) continue;
    names.push_back(diet.group->name);
    lays = lays || diet.kind.name == "laying-hen";
  }
  if (names.empty()) return;
  out.push_back(fmt::format("So much wet fodder fills {} with little energy and protein (lysine){}: keep their compound feed before them.", listed(names), lays ? ", and layers with too little calcium for shells" : ""));
}

void fibre(const std::vector<Diet>& fed, Lines& out) {
  Lines names;
  for (const Diet& diet : fed)
    if (lives_on_fibre(diet.kind)) names.push_back(diet.group->name);
  if (names.empty()) return;
  out.push_back("Keep hay or other long fibre before " + listed(names) + " at all times. Wet mats are mostly water: a bucketful is little dry matter. "
                "Make up a short meal with hay, not with dry grain: much of it at once sours the gut (acidosis, founder, colic) and kills.");
}

void bringing_in(const std::vector<Diet>& fed, Lines& out) {
  Lines sudden, fast;
  for (const Diet& diet : fed) {
    if (diet.group->introduction <= Hours{}) sudden.push_back(diet.group->name);
    else if (diet.group->introduction < herd::shortest_introduction) fast.push_back(diet.group->name);
  }
  if (sudden.empty() && fast.empty()) return;
  std::string text = "Bring a new feed in over 7 to 14 days: the scenario ";
  if (!sudden.empty()) text += "starts at full ration for " + listed(sudden);
  if (!fast.empty()) text += (sudden.empty() ? "takes less time for " : ", and takes less time for ") + listed(fast);
  out.push_back(text + ".");
}

/// Is the group here on any day of the run from one day to before another?
bool here_between(const Scenario& s, const Group& group, double from, double until) {
  const double last = std::min<double>(horizon_days(s), until);
  for (int day = static_cast<int>(std::max(0.0, std::floor(from))); day < last; ++day)
    if (herd::presence(group.stay, day).here) return true;
  return false;
}

/// Is there a season of births for which `holds`, asked by the day of the run of its first and of its last birth?
template <class Holds>
bool some_season(const Scenario& s, const Diet& diet, Holds holds) {
  const herd::Breeding& breeding = diet.group->breeding;
  if (breeding.first_birth_day < 0.0 || breeding.conception <= 0.0 || diet.group->litter.value_or(diet.kind.litter) <= 0.0) return false;
  const double every = std::max(1.0, in_days(breeding.every));
  const double begins = herd::first_season_felt(breeding, 0.0);
  for (int season = 0; begins + season * every < horizon_days(s); ++season) {
    const double first = begins + season * every;
    if (holds(first, first + breeding.spread_days)) return true;
  }
  return false;
}

bool weans(const Scenario& s, const Diet& diet) {
  const herd::Breeding& breeding = diet.group->breeding;
  if (diet.share <= 0.0 || breeding.neonatal_death >= 1.0) return false;
  const double weaning = std::ceil(in_days(breeding.weaning));
  return some_season(s, diet, [&](double first, double last) { return here_between(s, *diet.group, first + weaning, last + weaning + 1.0); });
}

/// With the group here, and fed, while its births come near.
bool gives_birth(const Scenario& s, const Diet& diet, double before) {
  if (diet.share <= 0.0) return false;
  return some_season(s, diet, [&](double first, double last) { return last >= 0.0 && here_between(s, *diet.group, first - before, last + 1.0); });
}

/// Fodder's greatest share of what the young of a group eat, from weaning until they leave.
double most_of_young(const Diet& diet, const herd::Class& young) {
  const herd::Breeding& breeding = diet.group->breeding;
  const Kilograms grown = diet.group->weight.value_or(diet.kind.weight);
  double most = 0.0;
  const double weaned = in_days(breeding.weaning);
  const int here = static_cast<int>(std::ceil(in_days(breeding.sale) - weaned));  // days
  for (int day = 0; day < here; ++day)
    most = std::max(most, herd::young_diet_share(diet.kind, young, grown, diet.group->milk, diet.share, days(weaned + day)));
  return most;
}

void young(const Scenario& s, const std::vector<Diet>& fed, Lines& out) {
  Lines weaned, told;
  for (const Diet& diet : fed) {
    if (!weans(s, diet)) continue;
    weaned.push_back(diet.group->name);
    const auto kind = herd::class_of_young(diet.kind);
    if (!kind) continue;
    const double most = most_of_young(diet, *kind);
    if (most > kind->fodder_limit)
      told.push_back(fmt::format("{}, {} ({:.0f} % is the usual upper limit for {})", diet.group->name, percent(most, kind->fodder_limit), 100.0 * kind->fodder_limit, kind->name));
  }
  if (!told.empty())
    out.push_back(fmt::format("Fodder is to be too much of the dry matter that young eat once weaned, for they get it by weight as their dams do: {}. Give them less by hand, or feed them as a [[group]] of their own.",
                              fmt::join(told, "; ")));
  if (!weaned.empty())
    out.push_back("Young of " + listed(weaned) + " get their full share from the very day they are weaned: bring it in by hand over 7 to 14 days.");
}

/// Listeria, pregnancy toxaemia: veterinary manuals, from memory.
void pregnant(const Scenario& s, const std::vector<Diet>& fed, Lines& out) {
  constexpr double last_weeks = 42.0;
  Lines names;
  bool twins = false;
  for (const Diet& diet : fed) {
    if (!gives_birth(s, diet, last_weeks)) continue;
    names.push_back(diet.group->name);
    twins = twins || one_of(diet.kind.species, {"goat", "sheep"});
  }
  if (names.empty()) return;
  out.push_back(fmt::format("Births are due among {}: Listeria in spoiled feed makes animals abort, so give the pregnant none but sound mats. Ask a veterinarian before they get any in the last six weeks, when bulky wet feed "
                            "takes up the room that energy needs{}. People who are pregnant do not handle spoiled mats.",
                            listed(names), twins ? " (twin-lamb disease, pregnancy toxaemia)" : ""));
}

/// Veterinary manuals, from memory.
void laminitis(const std::vector<Diet>& fed, Lines& out) {
  Lines names;
  for (const Diet& diet : fed)
    if (diet.kind.species == "horse") names.push_back(diet.group->name);
  if (names.empty()) return;
  out.push_back("Sprouts and grain hold sugar and starch, which can bring on laminitis (founder): ask a veterinarian before you feed any to " + listed(names) +
                ", above all to ponies, fat animals and any that have foundered.");
}

}  // namespace

void feeding_cautions(const Scenario& scenario, Lines& out) {
  const std::vector<Diet> fed = diets(scenario);
  too_much(scenario, fed, out);
  thinned(fed, out);
  fibre(fed, out);
  laminitis(fed, out);
  bringing_in(fed, out);
  young(scenario, fed, out);
  pregnant(scenario, fed, out);
  out.push_back(
      "Ask a veterinarian or nutritionist before fodder replaces a good part of a ration, above all for "
      "animals in milk, pregnant or young.");
}

}  // namespace rackwright
