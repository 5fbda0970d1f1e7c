// evaluate: growth-curve, dairy-intake, intake, births, lifting-limit.

#include <optional>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "models/herd/animals.hpp"
#include "models/herd/breeding.hpp"
#include "models/route/stations.hpp"
#include "sim/app/evaluate.hpp"
#include "sim/app/say.hpp"
#include "sim/replication/plan.hpp"
#include "sim/scenario/presence.hpp"
#include "sim/scenario/suggest.hpp"

namespace rackwright::app {
namespace {

std::vector<Result> growth_curve(const Arguments& given) {
  const herd::GrowthCurve curve{Kilograms(given.number("mature")), given.number("rate"),
                                Kilograms(given.number("start"))};
  if (curve.start > curve.mature) throw BadArguments{"start is above mature: a growth curve only climbs"};
  const Hours age = days(given.number("age"));
  return {{"weight", herd::weight_at(curve, age).value(), "kg"},
          {"gain", herd::gain_at(curve, age).value(), "kg/d"},
          {"max_gain", herd::greatest_gain(curve).value(), "kg/d"}};
}

/// More milk than this of the animal's weight a day is given by none (0.08 to 0.13 for the best of cows and goats, from memory).
constexpr double most_milk = 0.2;

void check_milk(Kilograms weight, Kilograms milk) {
  if (milk > most_milk * weight)
    throw BadArguments{fmt::format("no animal of {:.3g} kg gives {:.3g} kg of milk a day; up to a fifth of its weight is taken", weight.value(), milk.value())};
}

std::vector<Result> dairy_intake(const Arguments& given) {
  check_milk(Kilograms(given.number("weight")), Kilograms(given.number("milk")));
  const Kilograms eaten = herd::dairy_intake(Kilograms(given.number("weight")), Kilograms(given.number("milk")),
                                             given.number("fat"), given.number("week"));
  return {{"intake", eaten.value(), "kg/d"}};
}

herd::Class known_class(const std::string& name) {
  const auto animal = herd::find_class(name);
  if (!animal) {
    std::string known;
    std::vector<std::string> names;
    for (const herd::Class& c : herd::all_classes()) {
      known += (known.empty() ? "" : ", ") + std::string(c.name);
      names.emplace_back(c.name);
    }
    throw BadArguments{"no class is called \"" + name + "\"" + did_you_mean(nearest(name, names)) + "; known are " + known};
  }
  return *animal;
}

std::vector<Result> intake(const Arguments& given) {
  const std::string& name = given.word("class");
  const herd::Class animal = known_class(name);
  const Kilograms weight = given.has("weight") ? Kilograms(given.number("weight")) : animal.weight;
  const std::optional<Kilograms> milk = given.has("milk") ? std::optional(Kilograms(given.number("milk"))) : std::nullopt;
  if (milk && animal.usual_milk.value() <= 0.0) throw BadArguments{name + " is not a class that is milked"};
  // The laws were made for animals of the class: the young of one weigh far less than the usual, the grown do not.
  const double least = animal.weight.value() * (animal.usual_milk.value() > 0.0 ? 0.3 : 0.03), most = 5.0 * animal.weight.value();
  if (!(weight.value() >= least && weight.value() <= most))
    throw BadArguments{fmt::format("the law of {} is taken for {:.3g} to {:.4g} kg of weight (usually {:.3g})", name, least, most, animal.weight.value())};
  check_milk(weight, milk.value_or(animal.usual_milk));
  const double eaten = herd::intake(animal, weight, milk).value();
  return {{"intake", eaten, "kg/d"}, {"weight", weight.value(), "kg"}, {"share_of_weight", 100.0 * eaten / weight.value(), "%"}};
}

std::vector<Result> births(const Arguments& given) {
  const bool before = given.yes("before");
  Group group;
  group.animal_class = given.word("class");
  const herd::Class animal = known_class(group.animal_class);
  if (given.has("weight")) group.weight = Kilograms(given.number("weight"));
  group.breeding = {.first_birth_day = given.number("first_births"),
                    .every = days(given.number("every")),
                    .before = before,
                    .spread_days = given.number("spread"),
                    .conception = given.number("conception"),
                    .neonatal_death = given.number("young_death"),
                    .weaning = days(given.number("weaning")),
                    .sale = days(given.number("sale"))};
  if (given.has("litter")) group.litter = given.number("litter");
  const double litter = litter_of(group);
  const herd::Breeding& breeding = group.breeding;
  const Kilograms grown = group.weight.value_or(animal.weight);
  const herd::GrowthCurve curve = young_curve(group);
  const auto share = [&](Hours age) { return herd::young_share(animal, curve, grown, group.milk, age, breeding.weaning); };
  return {{"weaned", herd::weaned_per_female(breeding, litter), "1"},
          {"season", herd::first_season_felt(breeding, given.number("day")), "d"},
          {"mating", herd::first_mating_day(breeding, animal.gestation), "d"},
          {"share", share(days(given.number("age"))), "1"},
          {"most_rations", herd::peak_young_rations(breeding, litter, share(breeding.sale)), "1"}};
}

std::vector<Result> stay(const Arguments& given) {
  const herd::Stay stay{given.number("arrives"), given.number("leaves"), given.yes("each_year")};
  if (stay.each_year && (stay.arrives < 0.0 || stay.leaves < 0.0)) throw BadArguments{"each_year needs both arrives and leaves"};
  if (const std::string_view why = no_leaving(stay); !why.empty()) throw BadArguments{fmt::format("leaves {}", why)};
  const herd::Presence presence = herd::presence(stay, given.number("day"));
  return {{"here", presence.here ? 1.0 : 0.0, "1"}, {"since", std::max(-1.0, presence.since), "d"}};
}

int coupling_grade(const std::string& word) {
  if (word == "good" || word == "0") return 0;
  if (word == "fair" || word == "1") return 1;
  if (word == "poor" || word == "2") return 2;
  throw BadArguments{"coupling is good, fair or poor (or 0, 1, 2), not \"" + word + "\""};
}

route::LiftDuration duration_of(double hours) {
  if (hours <= 1.0) return route::LiftDuration::up_to_1_hour;
  return hours <= 2.0 ? route::LiftDuration::up_to_2_hours : route::LiftDuration::up_to_8_hours;
}

std::vector<Result> lifting_limit(const Arguments& given) {
  const Kilograms limit = route::lifting_limit(Metres(given.number("horizontal")), Metres(given.number("vertical")),
                                               Metres(given.number("distance")), Degrees(given.number("asymmetry")),
                                               given.number("frequency"), coupling_grade(given.word("coupling")),
                                               duration_of(given.number("duration")));
  return {{"limit", limit.value(), "kg"}};
}

}  // namespace

std::vector<Evaluator> herd_evaluators() {
  return {
      {"growth-curve",
       "weight and daily gain of a growing animal at an age",
       "Gompertz curve; largest gain mature*rate/e at the weight mature/e",
       {{"mature", "kg", "", 0.001, 2000.0, "weight the animal grows towards"},
        {"rate", "1/d", "", 1e-5, 1.0, "rate of the curve"},
        {"start", "kg", "", 1e-4, 2000.0, "weight at birth or hatching"},
        {"age", "d", "", 0.0, 20000.0, "age"}},
       growth_curve},
      {"dairy-intake",
       "dry matter a cow in milk eats a day",
       "NRC 2001, nutrient requirements of dairy cattle",
       {{"weight", "kg", "", 50.0, 1500.0, "live weight"},
        {.name = "milk", .unit = "kg", .standard = "", .least = 0.0, .most = 100.0, .sentence = "milk a day", .or_unit = "kg/d"},
        {"fat", "%", "", 0.0, 15.0, "fat in the milk"},
        {"week", "1", "", 0.0, 100.0, "week of lactation"}},
       dairy_intake},
      {"intake",
       "dry matter an animal of a class eats a day",
       "cows in milk NRC 2001 (week 20, 4 % fat), beef cows NRC 1996, pigs NRC 2012 table 16-1, goats in milk AFRC; others handbook shares "
       "of live weight, scaled by weight to the power 0.75",
       {{.name = "class", .unit = "", .standard = "", .sentence = "as in a scenario's [[group]], e.g. goat-milking, ewe, dairy-cow, laying-hen"},
        {"weight", "kg", "", 0.01, 2000.0, "live weight; the class's usual one when left out", true},
        {.name = "milk", .unit = "kg", .standard = "", .least = 0.0, .most = 100.0, .sentence = "milk a day; the class's usual yield when left out",
         .optional = true, .or_unit = "kg/d"}},
       intake},
      {"births",
       "what a herd's births bring: young weaned of each female, the season whose young are there on a day, and what one of them wants",
       "counting; fodder by metabolic weight (power 0.75) along the growth curve, of pigs by what growing pigs and their dams eat",
       {{"first_births", "d", "", 0.0, 4000.0, "day of the run on which the first births fall"},
        {"every", "d", "365", 20.0, 2000.0, "between birth seasons"},
        {.name = "before", .unit = "", .standard = "no", .sentence = "had the herd such seasons before the first, too: yes or no"},
        {"day", "d", "0", 0.0, 40000.0, "day of the run on which the season is asked for: the first of which young are still there, or the first to come"},
        {"spread", "d", "10", 0.0, 365.0, "births of a season are spread over"},
        {"conception", "1", "0.9", 0.0, 1.0, "share of females that give birth"},
        {"litter", "1", "", 0.0, 40.0, "young born to each, mean; usual for the class when left out", true},
        {"young_death", "1", "0.08", 0.0, 1.0, "share of young lost before weaning"},
        {"weaning", "d", "60", 0.0, 1000.0, "age at which young begin to want fodder"},
        {"sale", "d", "150", 1.0, 3000.0, "age at which they leave"},
        {"age", "d", "100", 0.0, 20000.0, "age at which the share is asked for"},
        {.name = "class", .unit = "", .standard = "goat-milking", .sentence = "as in a scenario's [[group]]"},
        {"weight", "kg", "", 0.01, 2000.0, "live weight of the grown; the class's usual one when left out", true}},
       births},
      {"stay",
       "whether a group that comes and goes is here on a day (1) or not (0), and since which day (-1: from the start, or away)",
       "counting",
       {{"day", "d", "", 0.0, 40000.0, "day of the run"},
        {"arrives", "d", "-1", -1.0, 4000.0, "day from which it is fed here; -1 for here from the start"},
        {"leaves", "d", "-1", -1.0, 4000.0, "day from which it is not; -1 for never"},
        {.name = "each_year", .unit = "", .standard = "no", .sentence = "both again every 365 days: yes or no"}},
       stay},
      {"lifting-limit",
       "weight most healthy workers can lift; a guide, not a licence",
       "NIOSH revised lifting equation (1991, publication 94-110), metric form (23 kg, 25 cm), factors not rounded; the manual's form in "
       "inches and pounds gives 2 to 3 % more, and up to 5 % with its rounded factors",
       {{"horizontal", "m", "", 0.0, 2.0, "hands ahead of the ankles"},
        {"vertical", "m", "", 0.0, 3.0, "hands above the floor at the start"},
        {"distance", "m", "", 0.0, 3.0, "height the load travels"},
        {"asymmetry", "degree", "0", 0.0, 180.0, "turn of the body"},
        {"frequency", "1/min", "", 0.0, 30.0, "lifts a minute"},
        {"duration", "h", "1", 0.0, 8.0, "time spent lifting: up to 1, 2 or 8 h"},
        {"coupling", "", "", 0.0, 0.0, "grip: good, fair or poor (or 0, 1, 2)"}},
       lifting_limit},
  };
}

}  // namespace rackwright::app
