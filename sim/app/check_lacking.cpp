// What a few plays say is lacking where a line serves little.

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include <fmt/format.h>

#include "models/soak/uptake.hpp"
#include "models/spoilage/hazard.hpp"
#include "sim/app/check_work.hpp"
#include "sim/app/journal_story.hpp"
#include "sim/app/short_causes.hpp"
#include "sim/scenario/raw_text.hpp"
#include "sim/scenario/units.hpp"
#include "sim/scenario/watering_pipes.hpp"
#include "sim/study/piece_memory.hpp"

namespace rackwright::app {

namespace {

/// Keeps nothing: a quick look is not gone on with.
class Forgetful : public study::PieceMemory {
 public:
  std::optional<std::string> recall(const std::string&) override { return std::nullopt; }
  void keep(const std::string&, std::string_view) override {}
};

/// Against want of water: of a tank that runs empty, of tiers that never get enough, or of outages.
std::string water_help(const Plan& plan) {
  const Scenario& s = plan.scenario;
  const Watering watering = watering_of(s);
  if (runs_empty(s, watering)) {
    const std::string more_often = filled_in_time(s, watering.tank_lasts) ? "filling it more often (water.top_up_every), or a float valve (water.top_up)" : "a float valve (water.top_up)";
    return ample_on_time(s, watering) < s.water.schedule.on_time && !s.water.schedule.recirculating
        ? "a tank that does not run empty: less water at a time (water.on_time; longer makes it worse), a larger one (water.tank), or " + more_often
        : "a tank that does not run empty: a larger one (water.tank), or " + more_often;
  }
  const bool starved = std::any_of(watering.tiers.begin(), watering.tiers.end(), [](const TierWater& tier) { return tier.usual_share() < watered_enough; });
  return starved ? "more water where it lacks: wider pipes on its way, more or larger emitters, or the pump on longer or more often (water)"
               : "water through outages: a spare pump, a battery, a tank above the rack (water.spare_pump, water.battery, water.header_tank)";
}

/// Against souring: the soak only where it stresses the grain enough to count.
std::string sour_help(const Plan& plan) {
  constexpr double counts = 1.5;  // times as much souring as after an easy soak
  const Scenario& s = plan.scenario;
  const Celsius summer(s.climate.mean.mean.value() + std::abs(s.climate.mean.amplitude.value()));
  const Celsius water = soak::bucket_temperature(s.line.soak_water, summer, s.line.soak);
  bool soaked_hard = false;
  for (const GrainPlan& grain : plan.grains) {
    const soak::Effect soaked = soak::effect(grain.soak, water, s.grains[static_cast<std::size_t>(grain.supply)].moisture, s.line.soak);
    const auto sours = [&](double stress) { return spoilage::sour_multiplier(s.spoilage, {.density = s.line.sowing_density, .soak_stress = stress, .undrained = 1.0 - s.line.drainage}); };
    soaked_hard = soaked_hard || sours(soaked.stress) > counts * sours(0.0);
  }
  std::string out = "a cooler room (a cooler, insulation, shade)";
  if (s.line.drainage < 1.0) out += ", trays that drain freely (line.drainage)";
  if (soaked_hard) out += ", a shorter or cooler soak";
  return out + " against souring";
}

/// What is lacking, and what would help; where that hangs on the farm, `help` says it.
struct Lack { Cause cause; const char* what; const char* would_help; std::string (*help)(const Plan&) = nullptr; };

constexpr const char* more_trays = "more trays a batch, with places for them (line.trays_per_batch)";

constexpr std::array lacks{
    Lack{Cause::missed_round, "rounds that are missed", "somebody who stands in for you (keeper.second_keeper)"},
    Lack{Cause::no_grain, "trays not sown for want of grain", "more grain in store, ordered sooner (reorder, order_up_to, and a bin that takes it)"},
    Lack{Cause::no_bucket, "trays not soaked for want of buckets", "more soak buckets (keeper.soak_buckets)"},
    Lack{Cause::no_hands, "work left undone for want of time", "more minutes in the round that lacks them (keeper.minutes_per_day, keeper.evening_minutes)"},
    Lack{Cause::no_place, "trays that found no place on the rack", "more places (rack.tiers, rack.trays_per_tier), or fewer days on the rack"},
    Lack{Cause::mouldy, "mats thrown out mouldy", "a drier, cooler room, cleaner trays and better grain against mould"},
    Lack{Cause::sour, "mats thrown out sour", "", sour_help},
    Lack{Cause::frost, "frost", "a heater or insulation"},
    Lack{Cause::thin_poor_lot, "thin mats of poor lots", "better grain, or a trial of every lot (grade, trial)"},
    Lack{Cause::thin_dry, "mats that dried out", "", water_help},
    Lack{Cause::thin, "thin mats", "better grain, or more of it on a tray (line.sowing_density)"},
    Lack{Cause::slow, "mats not ready in time", "a warmer room, or more days on the rack together with the places that they take (line.days_on_rack, rack.tiers)"},
    Lack{Cause::slow_dry, "mats that grow slowly for want of water", "", water_help},
    Lack{Cause::composted, "mats composted because nobody wanted them on their day", "as many mats every day as are wanted, or more days of grace (line.sow, line.grace_days)"},
    Lack{Cause::demand, "days on which more is wanted than usual", more_trays},
    Lack{Cause::rack, "too few trays for what is wanted", more_trays},
    Lack{Cause::nobody, "grain that nobody put to soak or sowed", "somebody who stands in for you (keeper.second_keeper)"},
    Lack{Cause::start, "an empty rack at the start", "a start with a full rack (run.full_at_start), or patience"},
};
static_assert(lacks.size() == cause_count);

/// Ripe mats of a day when every tray comes good [kg].
double grown_a_day(const Plan& plan) { return trays_a_day(plan) * plan.standard_mat; }

std::string grown_words(const Plan& plan) {
  const double trays = trays_a_day(plan);
  return fmt::format("The {:g} tray{} a day give{} about {}", trays, trays == 1.0 ? "" : "s", trays == 1.0 ? "s" : "", amount(plan, grown_a_day(plan), "kg"));
}

/// Groups that are to get more than their usual upper limit, while there is somebody in them.
std::vector<std::string> overfed(const Plan& plan) {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < plan.groups.size(); ++i)
    if (plan.groups[i].diet_share > plan.groups[i].limit && plan.scenario.groups[i].count > 0) names.push_back(plan.scenario.groups[i].name);
  return names;
}

constexpr std::uint32_t plays = 6;  // enough to tell what matters most

}  // namespace

std::string lacking_words(const Plan& plan, double served, double wanted) {
  const double asked = plan.scenario.target.fill_rate;
  std::string out = fmt::format("This line serves about {:.0f} % of the fodder the animals are to get{}.", 100.0 * served,
                                asked > served ? fmt::format(", where [target] asks for {:.3g} %", 100.0 * asked) : "");
  const bool too_few = grown_a_day(plan) < asked * wanted;
  Forgetful memory;
  const results::Arrays found = short_causes(plan, plan.scenario.run.random_seed, plays, memory);
  std::vector<std::string> what, help;
  bool hurried = false;
  if (const auto causes = found.find("shortage/cause"); causes != found.end()) {
    const std::vector<double>& missing = found.at("shortage/missing").numbers;
    double all = 0.0;
    for (const double kilograms : missing) all += kilograms;
    constexpr double worth_telling = 0.15;  // of what is missing
    for (std::size_t i = 0; i < missing.size() && all > 0.0; ++i) {
      const auto lack = std::find_if(lacks.begin(), lacks.end(), [&](const Lack& one) { return cause_words(one.cause) == causes->second.texts[i]; });
      if (lack == lacks.end() || missing[i] < worth_telling * all) continue;
      hurried = hurried || lack->cause == Cause::no_hands;
      what.push_back(fmt::format("{} ({:.0f} %)", lack->what, 100.0 * missing[i] / all));
      const std::string helps = lack->help != nullptr ? lack->help(plan) : lack->would_help;
      if (std::find(help.begin(), help.end(), helps) == help.end()) help.push_back(helps);
    }
  }
  // Fewer days are no help where mats are not ready as it is.
  const bool slow = std::any_of(what.begin(), what.end(), [](const std::string& one) { return one.starts_with("mats not ready") || one.starts_with("mats that grow slowly"); });
  for (std::string& one : help)
    if (const auto fewer = one.find(", or fewer days"); slow && fewer != std::string::npos) one.erase(fewer);
  // More trays are more work: minutes come first. And first of all a ration that is not too large.
  const std::vector<std::string> over = overfed(plan);
  if (hurried || !over.empty()) std::erase(help, more_trays);
  if (!over.empty())
    out += fmt::format(" First of all cut the fodder of {}: it is above the usual upper limit, and more trays are no help before.{}", listed(over),
                       too_few ? fmt::format(" {} where nothing is lost, and {} are wanted so far.", grown_words(plan), amount(plan, wanted, "kg")) : "");
  else if (too_few)
    out += fmt::format(" {} where nothing is lost, and {} are wanted: it takes more trays a batch, with {} for them (line.trays_per_batch).", grown_words(plan), amount(plan, wanted, "kg"),
                       hurried ? "places and minutes" : "places");
  if (!what.empty()) out += fmt::format(" What is {} is owed mostly to {}.", too_few && over.empty() ? "lost besides" : "missing", fmt::join(what, ", "));
  if (!help.empty()) out += fmt::format(" What would help{}: {}.", over.empty() ? "" : " then", fmt::join(help, "; "));
  return out + " rackwright size says how much it takes.";
}

std::string surplus_words(const Plan& plan, double wanted) {
  constexpr double much = 2.5;  // times what is wanted on a day of the year's mean; herds in milk and litters come to no more than about twice theirs
  const double grown = grown_a_day(plan);
  if (plan.scenario.line.sow != SowRule::all || wanted <= 0.0 || grown < much * wanted) return "";
  return fmt::format("{} of mats, {} times the {} that the animals want: the rest is composted, and its grain lost. Sow fewer or smaller trays (line.trays_per_batch, "
                     "rack.tray_length), or only what is wanted (line.sow = \"as-wanted\").",
                     grown_words(plan), write_quantity(grown / wanted, "1", false, 2), amount(plan, wanted, "kg"));
}

}  // namespace rackwright::app
