// Cross-checks of herd, barn and run, and their entry point.
#include "sim/scenario/checks.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "models/herd/animals.hpp"
#include "sim/scenario/names.hpp"
#include "sim/scenario/presence.hpp"
#include "sim/scenario/ration.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/suggest.hpp"
#include "sim/scenario/units.hpp"
#include "sim/scenario/weather.hpp"

namespace rackwright {
namespace checks {

std::string told(const Scenario& scenario, double value, std::string_view unit) { return write_quantity(value, unit, scenario.units == Units::us, 6); }

namespace {

std::string label(const Scenario& scenario, std::size_t index) {
  return "group." + keys::item_label(scenario.groups, index, [](const Group& g) { return std::string_view(g.name); });
}

/// What people call animals, and the class nearest to it.
struct Called { std::string_view word, animal_class; };
constexpr Called called[] = {
    {"goat", "goat-milking"}, {"doe", "goat-milking"},    {"nanny", "goat-milking"},   {"wether", "goat-meat"},
    {"billy", "buck"},        {"kid", "goat-kid"},        {"sheep", "ewe"},            {"cow", "dairy-cow"},
    {"cattle", "beef-cow"},   {"bull", "beef-cow"},       {"steer", "beef-growing"},   {"heifer", "beef-growing"},
    {"calf", "beef-growing"}, {"pig", "growing-pig"},     {"hog", "growing-pig"},      {"boar", "sow"},
    {"pony", "horse"},        {"mare", "horse"},          {"donkey", "horse"},         {"bunny", "rabbit"},
    {"hen", "laying-hen"},    {"chicken", "laying-hen"},  {"layer", "laying-hen"},     {"poultry", "laying-hen"},
    {"rooster", "laying-hen"}, {"broiler", "growing-chicken"}, {"chick", "growing-chicken"}, {"geese", "goose"},
    {"ewe", "ewe"},           {"lamb", "lamb"},           {"sow", "sow"},              {"rabbit", "rabbit"},
    {"duck", "duck"},         {"turkey", "turkey"},       {"horse", "horse"},
};

std::string class_like(const std::string& written, const std::vector<std::string>& known) {
  std::string word;
  for (const char c : written) word += c == '_' || c == ' ' ? '-' : static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  const std::string one = word.ends_with('s') ? word.substr(0, word.size() - 1) : word;
  for (const std::string& candidate : {word, one}) {
    for (const std::string& name : known)
      if (name == candidate) return name;
    for (const Called& name : called)
      if (name.word == candidate) return std::string(name.animal_class);
  }
  std::string close = nearest(one, known);
  const auto animal = std::find_if(std::begin(called), std::end(called), [&](const Called& name) { return one.find(name.word) != std::string::npos; });
  // "dairy ewe", "sheep-milking": the one in milk, where there is one.
  if (animal != std::end(called) && (one.find("milk") != std::string::npos || one.find("dairy") != std::string::npos)) {
    std::string in_milk = std::string(animal->animal_class) + "-milking";
    if (std::find(known.begin(), known.end(), in_milk) != known.end()) return in_milk;
  }
  // "dairy goat" is a goat, though it is spelt more like a dairy cow.
  if (animal != std::end(called) && close.find(animal->word) == std::string::npos) return std::string(animal->animal_class);
  return close;
}

void group_class(const Group& group, const std::string& head, Problems& out) {
  if (herd::find_class(group.animal_class)) return;
  std::vector<std::string> known;
  std::string all;
  for (const herd::Class& c : herd::all_classes()) {
    known.emplace_back(c.name);
    all += (all.empty() ? "" : ", ") + std::string(c.name);
  }
  constexpr std::string_view unknown = "is not a kind of animal the program knows";
  const bool told = std::any_of(out.begin(), out.end(), [&](const Problem& p) { return p.why.starts_with(unknown); });  // once is enough
  complain(out, head + ".class", group.animal_class, std::string(unknown) + (told ? "" : ": " + all), class_like(group.animal_class, known));
}

void group_breeding(const Group& group, const std::string& head, Problems& out) {
  if (group.breeding.first_birth_day < 0.0) return;
  if (group.breeding.sale <= group.breeding.weaning) {
    complain(out, head + ".sale", fmt::format("{:.4g} d", in_days(group.breeding.sale)), "must come after weaning");
  }
  if (group.breeding.spread_days > in_days(group.breeding.every)) {
    complain(out, head + ".birth_spread", fmt::format("{:.4g} d", group.breeding.spread_days),
             "must not exceed births_every");
  }
  const auto kind = herd::find_class(group.animal_class);
  if (kind && kind->gestation.value() <= 0.0) {
    complain(out, head + ".first_births", "",
             fmt::format("births are not followed for the class {}", group.animal_class));
  } else if (kind && kind->litter <= 0.0 && !group.litter) {
    complain(out, head + ".litter", "", fmt::format("is needed: the class {} has no usual litter", group.animal_class));
  }
}

void group_stay(const Group& group, const std::string& head, Problems& out) {
  const herd::Stay& stay = group.stay;
  for (const auto& [key, day] : {std::pair{".arrives_day", stay.arrives}, std::pair{".leaves_day", stay.leaves}})
    if (day != std::floor(day)) return complain(out, head + key, fmt::format("{:g}", day), "must be a whole day of the run");
  if (stay.each_year && (stay.arrives < 0.0 || stay.leaves < 0.0))
    return complain(out, head + ".stays_each_year", "true", "needs both arrives and leaves");
  if (const std::string_view why = no_leaving(stay); !why.empty()) complain(out, head + ".leaves", "", std::string(why));
}

/// Coldest and hottest hour of drawn weather without a spell [degC].
std::pair<double, double> reach(const climate::Parameters& c) {
  if (c.highs == climate::Leaning{} && c.lows == climate::Leaning{}) {
    const double widest = c.anomaly_sd.value() * std::sqrt(1.0 + std::abs(c.anomaly_season) + std::abs(c.anomaly_half_year));
    const double swing = c.mean.amplitude.value() + c.mean.second.value() + 5.0 * widest +
                         0.5 * (c.range_mean.value() + std::abs(c.range_amplitude.value()) + c.range_half_year.value()) +
                         2.5 * (c.range_sd.value() + std::abs(c.range_sd_summer.value()) + std::abs(c.range_sd_half_year.value())) +
                         2.5 * widest * (std::abs(c.range_follow) + std::abs(c.range_follow_summer) + std::abs(c.range_follow_half_year));
    return {c.mean.mean.value() - swing, c.mean.mean.value() + swing};
  }
  // Skewed to one side in one season, highs and lows must be asked day by day.
  constexpr double spreads = 6.0;
  std::pair<double, double> ends{c.mean.mean.value(), c.mean.mean.value()};
  for (int day = 1; day <= 365; ++day) {
    const climate::Normal n = climate::normal_of(c, day);
    for (const double score : {-spreads, spreads}) {
      const double high = n.mean + n.half_range + (n.leaning ? n.high_spread * climate::shaped(n.highs, score) : n.high_spread * score);
      const double low = n.mean - n.half_range + (n.leaning ? n.low_spread * climate::shaped(n.lows, score) : n.low_spread * score);
      ends = {std::min({ends.first, high - 1.0, low}), std::max({ends.second, high, low})};
    }
  }
  return ends;
}

/// Hours colder or hotter than the models hold for: five spreads off the season's mean, at the day's ends, in any
/// spell (six where highs or lows lean).
void climate_extremes(const Scenario& scenario, Problems& out) {
  const climate::Parameters& c = scenario.climate;
  double cold = 0.0, hot = 0.0;
  for (const climate::Overlay& spell : scenario.spells) {
    cold += std::min(0.0, spell.rise.value());
    hot += std::max(0.0, spell.rise.value());
  }
  for (const HardTime& hard : scenario.hard_times) {
    cold += std::min(0.0, change_of(hard).value());
    hot += std::max(0.0, change_of(hard).value());
  }
  const auto [without_cold, without_hot] = reach(c);
  const double coldest = without_cold + cold, hottest = without_hot + hot;
  if (coldest >= -70.0 && hottest <= 75.0) return;
  const auto round = [&](double celsius) { return write_quantity(std::round(celsius), "degC", scenario.units == Units::us, 3); };
  complain(out, "climate.mean", told(scenario, c.mean.mean.value(), "degC"),
           fmt::format("with its swings and spells gives hours of {} to {}; the models hold from {} to {}", round(coldest), round(hottest), round(-70.0), round(75.0)));
}

bool wants_fodder(const Group& group) {
  const double share = group.ration ? group.ration->value() : group.share;
  return group.count > 0 && share > 0.0;
}

void cardinals(const spoilage::Cardinal& c, std::string_view which, Problems& out) {
  const double least = c.least.value(), best = c.best.value(), most = c.most.value();
  const std::string key = fmt::format("spoilage.{}_best", which);
  const std::string value = fmt::format("{:.4g} degC", best);
  if (!(least < best && best < most)) {
    complain(out, key, value, fmt::format("must lie between {}_least and {}_most", which, which));
  } else if (best < 0.5 * (least + most)) {
    complain(out, key, value,
             fmt::format("must be nearer to {}_most than to {}_least: the growth law asks it", which, which));
  }
}

}  // namespace

void herd(const Scenario& scenario, Problems& out) {
  if (scenario.groups.empty()) {
    complain(out, "group", "", "no animals to feed: add at least one [[group]] with name, class and count");
    return;
  }
  bool any = false, ever = false;
  for (std::size_t i = 0; i < scenario.groups.size(); ++i) {
    const Group& group = scenario.groups[i];
    const std::string head = label(scenario, i);
    for (std::size_t j = 0; j < i; ++j) {
      if (scenario.groups[j].name == group.name)
        complain(out, head + ".name", group.name, "is the name of another group too");
    }
    group_class(group, head, out);
    group_breeding(group, head, out);
    const std::size_t faults = out.size();
    group_stay(group, head, out);
    any = any || wants_fodder(group);
    ever = ever || (wants_fodder(group) && (out.size() > faults || ever_here(scenario, group)));
  }
  if (!any) complain(out, "group", "", "nobody wants fodder: every count, ration or share is zero");
  else if (!ever) complain(out, "group", "", fmt::format("nobody wants fodder: no group that does is here on any of the {} days of the run", horizon_days(scenario)));
}

void rations(const Scenario& scenario, Problems& out) {
  for (const Diet& diet : diets(scenario)) {
    const Group& group = *diet.group;
    constexpr double all = 1.0 + 1e-9;  // a share of 1 is all they eat, whatever the last bit says
    if (!group.ration || diet.share <= all) continue;
    complain(out, label(scenario, static_cast<std::size_t>(&group - scenario.groups.data())) + ".ration", told(scenario, group.ration->value(), "kg"),
             fmt::format("is {:.0f} % of the dry matter that a head eats in all (class {} of {}): no more than {} can be eaten, and {} ({:.0f} %) is the usual upper limit",
                         100.0 * diet.share, group.animal_class, write_quantity(group.weight.value_or(diet.kind.weight).value(), "kg", scenario.units == Units::us, 3),
                         at_most_words(scenario, diet.fresh(1.0)), at_most_words(scenario, diet.fresh(diet.kind.fodder_limit)), 100.0 * diet.kind.fodder_limit));
  }
}

void year_part(const YearPart& part, const char* from, const char* until, const char* same, Problems& out) {
  if ((part.from > 0) != (part.until > 0)) complain(out, part.from > 0 ? from : until, "", fmt::format("needs both {} and {}", from, until));
  else if (part.stated() && part.from == part.until) complain(out, until, "", same);
}

void barn(const Scenario& scenario, Problems& out) {
  const room::Parameters& room = scenario.room;
  year_part(scenario.shaded, "room.shade_from", "room.shade_until", "must not be the day on which the shade goes up", out);
  year_part(scenario.opened, "room.open_from", "room.open_until", "must not be the day on which doors and windows are opened", out);
  if (scenario.opened.stated() && scenario.open_air_changes <= 0.0)
    complain(out, "room.open_air_changes", "", "is needed with room.open_from and room.open_until: how often an hour the air is then renewed");
  if (scenario.opened.from == 0 && scenario.opened.until == 0 && scenario.open_air_changes > 0.0)
    complain(out, "room.open_air_changes", fmt::format("{:g}", scenario.open_air_changes), "needs room.open_from and room.open_until; for all the year set room.air_changes");
  if (room.heater.value() > 0.0 && room.cooler.value() > 0.0 && room.heater_set >= room.cooler_set) {
    complain(out, "room.heater_set", told(scenario, room.heater_set.value(), "degC"),
             "must be below cooler_set, or heater and cooler work against each other");
  }
  if (scenario.keeper.evening_minutes && *scenario.keeper.evening_minutes > scenario.keeper.minutes_per_day) {
    complain(out, "keeper.evening_minutes", fmt::format("{:g} min", *scenario.keeper.evening_minutes),
             fmt::format("is more than keeper.minutes_per_day, {:g} min, of which it is a part", scenario.keeper.minutes_per_day));
  }
  if (scenario.keeper.morning >= scenario.keeper.evening) {
    complain(out, "keeper.morning", "", "must be before keeper.evening");
  }
  const double hours = scenario.run.length.value();
  if (hours != 24.0 * static_cast<int>(hours / 24.0)) {
    // UDUNITS' year is the tropical one, 365.2422 d.
    const double years = std::round(hours / (24.0 * 365.2422));
    const bool in_years = years >= 1.0 && std::abs(hours - years * 24.0 * 365.2422) < 0.1;
    complain(out, "run.length", fmt::format("{:.6g} d", hours / 24.0),
             in_years ? fmt::format("must be a whole number of days: write {:g} d for {:g} year{}", 365.0 * years, years, years == 1.0 ? "" : "s")
                      : std::string("must be a whole number of days"));
  }
  if (scenario.run.warm_up == WarmUp::automatic) {
    const auto moves = [](const Group& g) { return g.growth != 0.0 || g.breeding.first_birth_day >= 0.0 || herd::comes_or_goes(g.stay); };
    if (std::any_of(scenario.groups.begin(), scenario.groups.end(), moves))
      complain(out, "run.warm_up", "auto", "asks for a steady answer, which a herd that grows, gives birth, arrives or leaves has not; leave it "
               "out, and the whole path is played");
  }
  climate_extremes(scenario, out);
  for (Problem& problem : check_weather(scenario)) out.push_back(std::move(problem));
  cardinals(scenario.spoilage.mould, "mould", out);
  cardinals(scenario.spoilage.sour, "sour", out);
}

}  // namespace checks

Problems check_scenario(const Scenario& scenario) {
  Problems out;
  checks::barn(scenario, out);
  checks::species(scenario, out);
  checks::grain(scenario, out);
  checks::lots(scenario, out);
  checks::herd(scenario, out);
  checks::water(scenario, out);
  checks::hard_times(scenario, out);
  checks::kits(scenario, out);
  checks::choose(scenario, out);
  if (out.empty()) checks::rations(scenario, out);
  return out;
}

}  // namespace rackwright
