#include "sim/app/starter_answers.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <cmath>
#include <map>
#include <regex>

#include <fmt/format.h>

#include "models/feed/value.hpp"
#include "models/grain/species.hpp"
#include "models/herd/animals.hpp"
#include "sim/app/say.hpp"
#include "sim/app/starter_feeds.hpp"
#include "sim/scenario/suggest.hpp"
#include "sim/scenario/unit_text.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright::app {

namespace {

using std::string;
using Wrong = std::optional<string>;

string trimmed(const string& text) {
  const auto first = text.find_first_not_of(" \t\r");
  return first == string::npos ? "" : text.substr(first, text.find_last_not_of(" \t\r") - first + 1);
}

string lower(string text) {
  for (char& c : text) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return text;
}

std::vector<string> split(const string& text, const char* separator) {
  const std::regex at(separator);
  std::vector<string> parts;
  for (std::sregex_token_iterator it(text.begin(), text.end(), at, -1), end; it != end; ++it) {
    if (string part = trimmed(it->str()); !part.empty()) parts.push_back(part);
  }
  return parts;
}

/// In the unit, between the limits; or why not.
std::variant<double, string> number(const string& text, std::string_view unit, double least, double most, bool us = true) {
  if (bare_ton(text) && !us) return fmt::format("\"{}\" {}", text, which_ton);
  const auto read = read_quantity(text, unit);
  if (const auto* fault = std::get_if<UnitFault>(&read)) return fault->why;
  const double value = std::get<double>(read);
  if (value >= least && value <= most) return value;
  return fmt::format("{} is not between {:g} and {:g} {}", text, least, most, unit);
}

/// Notes what a number without a unit is taken to be.
void assume(Starter& farm, const string& stated, const string& taken) { farm.assumed.push_back(fmt::format("{} is taken to be {}", stated, taken)); }

string with_unit(Starter& farm, const string& stated, const char* unit) {
  assume(farm, stated, stated + unit);
  return stated + unit;
}

// ---- units and money

/// What comes in bags of so much and is priced so, in the reader's units: about the same money.
void price_in(Starter& farm, bool us) {
  const Starter usual;
  const std::pair<string, string> feed{usual.feed_price, "11 / 100 lb"}, grain{usual.grain_price, "8 / 50 lb"};
  if (farm.feed_price == (us ? feed.first : feed.second)) farm.feed_price = us ? feed.second : feed.first;
  if (farm.grain_price == (us ? grain.first : grain.second)) farm.grain_price = us ? grain.second : grain.first;
}

/// A word that is hardly money but a misspelt system of units: "metrisch".
string units_meant(const string& low) {
  const std::vector<string> known{"metric", "imperial", "american"};
  for (const string& word : known)
    if (low.size() > 4 && low.starts_with(word.substr(0, 4))) return word;
  return low.size() > 3 ? nearest(low, known) : string();
}

Wrong take_units(Starter& start, const string& answer) {
  Starter farm = start;
  const bool was_us = farm.us;
  bool money = false;
  for (const string& word : split(answer, "[ ,;]+")) {
    const string low = lower(word);
    if (low == "metric" || low == "si" || low == "kg") {
      farm.us = false;
    } else if (low == "us" || low == "imperial" || low == "lb" || low == "american") {
      farm.us = true;
    } else if (word.size() >= 2 && word.size() <= 8 &&
               std::all_of(word.begin(), word.end(), [](unsigned char c) { return std::isalpha(c) != 0; })) {
      if (const string meant = units_meant(low); !meant.empty())
        return fmt::format("\"{}\" is neither metric nor us{}", word, did_you_mean(meant));
      if (money) return fmt::format("\"{}\": one currency, please; {} is one already", word, farm.currency);
      money = true;
      farm.currency = word;
      for (char& c : farm.currency) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    } else {
      return "say metric or us, and your currency in letters: metric, EUR";
    }
  }
  if (farm.us && !was_us && !money) farm.currency = "USD";
  price_in(farm, farm.us);
  start = std::move(farm);
  return std::nullopt;
}
string standing_units(const Starter& farm) { return fmt::format("{}, {}", farm.us ? "us" : "metric", farm.currency); }

// ---- animals

const std::map<string, string>& usual_words() {
  static const std::map<string, string> words{
      {"goat", "goat-milking"}, {"milking goat", "goat-milking"}, {"dairy goat", "goat-milking"}, {"milker", "goat-milking"},
      {"goat in milk", "goat-milking"}, {"doe", "goat-milking"}, {"dry goat", "goat-dry"}, {"kid", "goat-kid"},
      {"hen", "laying-hen"}, {"layer", "laying-hen"}, {"laying hen", "laying-hen"}, {"chicken", "laying-hen"},
      {"chick", "growing-chicken"}, {"broiler", "growing-chicken"}, {"sheep", "ewe"}, {"milking ewe", "ewe-milking"},
      {"dairy ewe", "ewe-milking"}, {"milking sheep", "ewe-milking"}, {"dairy sheep", "ewe-milking"}, {"cow", "dairy-cow"},
      {"milking cow", "dairy-cow"}, {"dry cow", "dairy-cow-dry"}, {"beef", "beef-growing"}, {"steer", "beef-growing"},
      {"heifer", "beef-growing"}, {"cattle", "beef-cow"}, {"suckler cow", "beef-cow"}, {"pig", "growing-pig"},
      {"hog", "growing-pig"}, {"young rabbit", "rabbit-growing"},
      {"growing rabbit", "rabbit-growing"}, {"rabbit doe", "rabbit"}, {"geese", "goose"}, {"gander", "goose"}, {"gosling", "goose"}, {"drake", "duck"}, {"duckling", "duck"},
      {"pullet", "growing-chicken"}, {"ewes in milk", "ewe-milking"}, {"ewe in milk", "ewe-milking"}};
  return words;
}

/// Horses of another size (usual weights from memory).
struct Horse { double kilograms; bool eats_less; };
const std::map<string, Horse>& other_horses() {
  constexpr Horse pony{250.0, false}, miniature{100.0, false}, heavy{750.0, false}, donkey{180.0, true}, mule{400.0, true};
  static const std::map<string, Horse> words{
      {"pony", pony}, {"ponie", pony}, {"miniature horse", miniature}, {"mini horse", miniature}, {"draught horse", heavy}, {"draft horse", heavy}, {"heavy horse", heavy},
      {"donkey", donkey}, {"burro", donkey}, {"jenny", donkey}, {"jennie", donkey}, {"mule", mule}, {"hinny", mule}, {"hinnie", mule}};
  return words;
}

std::optional<Horse> other_horse(const string& words) {
  const auto known = other_horses().find(words.ends_with('s') ? words.substr(0, words.size() - 1) : words);
  return known == other_horses().end() ? std::nullopt : std::optional(known->second);
}

std::optional<string> class_of(const string& words) {
  if (other_horse(words)) return "horse";
  for (const string& word : {words, words.ends_with('s') ? words.substr(0, words.size() - 1) : words}) {
    string dashed = word;
    std::replace(dashed.begin(), dashed.end(), ' ', '-');
    if (herd::find_class(dashed)) return dashed;
    if (const auto known = usual_words().find(word); known != usual_words().end()) return known->second;
  }
  return std::nullopt;
}

string animals_known() {
  return "goats, dry goats, kids, ewes, milking ewes, lambs, hens, chicks, cows, dry cows, beef cows, steers, sows, pigs, "
         "horses, ponies, donkeys, mules, rabbits, young rabbits, ducks, geese, turkeys";
}

Wrong take_group(Starter& farm, const string& text) {
  static const std::regex form(R"(([0-9]{1,6})\s+([A-Za-z -]{2,40}?)(?:\s+(?:at|with|each|@)\s+(.{1,40}))?)");
  std::smatch part;
  if (!std::regex_match(text, part, form))
    return fmt::format("\"{}\": write a number and the animals, such as 12 goats or 12 goats at {}", text, farm.us ? "3 lb" : "1.5 kg");
  StarterGroup group;
  group.count = std::stoi(part[1].str());
  if (group.count < 1 || group.count > 100000) return fmt::format("\"{}\": from 1 to 100000 animals", text);
  group.name = lower(trimmed(part[2].str()));
  const auto found = class_of(group.name);
  if (!found) {
    std::vector<string> names;
    for (const auto& [word, ignored] : usual_words()) names.push_back(word + "s");
    for (const auto& [word, ignored] : other_horses()) names.push_back(word + "s");
    for (const herd::Class& animal : herd::all_classes()) names.emplace_back(animal.name);
    return fmt::format("no ration is known for \"{}\"{}; there are {}", group.name, did_you_mean(nearest(group.name, names)),
                       animals_known());
  }
  group.animal_class = *found;
  if (const auto horse = other_horse(group.name)) {
    group.weight_kg = horse->kilograms;
    group.eats_less = horse->eats_less;
  }
  if (part[3].matched) {
    string ration = trimmed(std::regex_replace(part[3].str(), std::regex(R"(\s*(/|a |per )\s*(d|day|head)$)"), ""));
    if (ration.find_first_not_of("0123456789. ") == string::npos) ration = with_unit(farm, ration, farm.us ? " lb" : " kg");
    const auto read = number(ration, "kg", 0.001, 100.0, farm.us);
    if (const auto* why = std::get_if<string>(&read)) return *why;
    group.ration_kg = std::get<double>(read);
    if (const double most = most_eaten(group); *group.ration_kg > most)
      return fmt::format("\"{}\": a head eats no more than {} of fodder a day even if it eats nothing else", text, write_quantity(most, "kg", farm.us, 2));
  }
  for (const StarterGroup& other : farm.groups) {
    if (other.name == group.name) return fmt::format("\"{}\" are named twice", group.name);
  }
  farm.groups.push_back(std::move(group));
  return std::nullopt;
}

Wrong take_animals(Starter& farm, const string& answer) {
  Starter changed = farm;
  changed.groups.clear();
  changed.own_animals = true;
  for (const string& part : split(answer, R"(\s*[,;+]\s*|\s+and\s+)")) {
    if (Wrong wrong = take_group(changed, part)) return wrong;
  }
  if (changed.groups.empty()) return "name at least one kind of animal, such as 12 goats";
  farm = std::move(changed);
  return std::nullopt;
}
string standing_animals(const Starter& farm) {
  string text;
  for (const StarterGroup& group : farm.groups)
    text += fmt::format("{}{} {}", text.empty() ? "" : ", ", group.count, group.name);
  return text;
}

// ---- prices: "barley at 9 / 25 kg", "hay 0.25"

struct Priced {
  string what, price;
};
std::variant<Priced, string> read_priced(Starter& farm, const string& answer, const char* example) {
  static const std::regex form(R"(([A-Za-z][A-Za-z -]{0,30}?)\s*(?:(?:\s+at|\s+for|:|,|=)?\s*)([^A-Za-z\s,:=].*))");
  std::smatch part;
  if (!std::regex_match(answer, part, form))
    return fmt::format("write what it is and its price, such as {}", example);
  string price = std::regex_replace(part[2].str(), std::regex("\xE2\x82\xAC|\xC2\xA3|[$]"), "");
  price = std::regex_replace(price, std::regex("\\s*\\b" + farm.currency + "\\b\\s*", std::regex::icase), " ");
  price = trimmed(std::regex_replace(price, std::regex(R"(\s+(a|per|for)\s+|\s*/\s*)"), " / "));
  const bool bare = price.find_first_not_of("0123456789. ") == string::npos;
  const string stated = price;
  if (bare) price += farm.us ? " /lb" : " /kg";
  const auto read = number(price, "1/kg", 0.0, 100.0, farm.us);
  if (const auto* why = std::get_if<string>(&read)) return *why;
  if (!(std::get<double>(read) > 0.0)) return "the price must be above 0";
  if (bare) assume(farm, stated, fmt::format("{} {}{}", stated, farm.currency, farm.us ? "/lb" : "/kg"));
  return Priced{lower(trimmed(part[1].str())), price};
}

Wrong take_eats(Starter& farm, const string& answer) {
  const auto read = read_priced(farm, answer, farm.us ? "hay at 11 / 100 lb" : "hay at 0.25 /kg");
  if (const auto* why = std::get_if<string>(&read)) return *why;
  farm.feed = std::get<Priced>(read).what;
  string meant = taken_of_several(farm.feed);
  if (const auto fed = fed_of(farm.feed); fed && fed->dry_matter != feed::HayValue{}.dry_matter)
    meant += fmt::format("{}{:g} % dry matter", meant.empty() ? "" : " of ", 100.0 * fed->dry_matter);
  if (!meant.empty()) assume(farm, farm.feed, meant);
  farm.feed_price = std::get<Priced>(read).price;
  return std::nullopt;
}
string standing_eats(const Starter& farm) { return farm.feed + " at " + farm.feed_price; }

Wrong take_grain(Starter& start, const string& answer) {
  Starter farm = start;
  const auto read = read_priced(farm, answer, farm.us ? "barley at 11 / 50 lb" : "barley at 9 / 25 kg");
  if (const auto* why = std::get_if<string>(&read)) return *why;
  string species = std::get<Priced>(read).what;
  if (species == "corn") species = "maize";
  if (species == "oats") species = "oat";
  std::vector<string> names;
  for (const grain::Species& known : grain::all_species()) names.emplace_back(known.name);
  if (std::find(names.begin(), names.end(), species) == names.end())
    return fmt::format("\"{}\" is not a grain the program knows{}; there are {}", species, did_you_mean(nearest(species, names)),
                       fmt::join(names, ", "));
  farm.grain = species;
  farm.grain_price = std::get<Priced>(read).price;
  start = std::move(farm);
  return std::nullopt;
}
string standing_grain(const Starter& farm) { return farm.grain + " at " + farm.grain_price; }

// ---- the room and the weather

Wrong take_place(Starter& farm, const string& answer) {
  std::vector<string> names;
  for (const Place& place : places()) {
    names.emplace_back(place.name);
    if (lower(answer) == place.name) {
      farm.place = place;
      return std::nullopt;
    }
  }
  return fmt::format("\"{}\" is not a place the program knows; there are {}", answer, fmt::join(names, ", "));
}
string standing_place(const Starter& farm) { return string(farm.place.name); }

Wrong take_weather(Starter& farm, const string& answer) {
  std::vector<string> parts = split(answer, R"(\s*[,;]\s*|\s+(?:and|to)\s+)");
  if (parts.size() == 1) parts = split(answer, R"(\s+(?=-?[0-9]))");
  if (parts.size() != 2) return fmt::format("two temperatures, of the coldest and of the hottest month, such as {}", farm.us ? "46 and 79 degF" : "8 and 26 degC");
  std::array<double, 2> degrees{};
  const char* usual = farm.us ? "degF" : "degC";
  const auto bare = [](const string& text) { return text.find_first_not_of("+-.0123456789 ") == string::npos; };
  const std::size_t unit = parts[1].find_first_not_of("+-.0123456789 ");
  for (std::size_t i = 0; i < 2; ++i) {
    string text = parts[i];
    if (bare(text)) text += " " + (unit != string::npos ? parts[1].substr(unit) : string(usual));
    const auto read = number(text, "degC", -30.0, 45.0);
    if (const auto* why = std::get_if<string>(&read)) return *why;
    degrees[i] = std::get<double>(read);
  }
  if (degrees[0] > degrees[1]) return "the coldest month comes first";
  if (degrees[1] - degrees[0] > 70.0) return "the two lie more than 70 degC apart";
  if (bare(parts[0]) && bare(parts[1])) assume(farm, parts[0] + " and " + parts[1], fmt::format("{} and {} {}", parts[0], parts[1], usual));
  farm.coldest = degrees[0];
  farm.hottest = degrees[1];
  return std::nullopt;
}
string standing_weather(const Starter& farm) {
  if (farm.us) return fmt::format("{:.0f} and {:.0f} degF", 1.8 * farm.coldest + 32.0, 1.8 * farm.hottest + 32.0);
  return fmt::format("{:g} and {:g} degC", farm.coldest, farm.hottest);
}

// ---- time and trays

Wrong take_hours(Starter& farm, const string& answer) {
  const auto read = number(answer, "h", 0.05, 24.0);
  if (const auto* why = std::get_if<string>(&read)) return *why;
  if (answer.find_first_not_of("0123456789. ") == string::npos) assume(farm, trimmed(answer), trimmed(answer) + " hours");
  farm.minutes = 60.0 * std::get<double>(read);
  return std::nullopt;
}
string standing_hours(const Starter& farm) { return fmt::format("{:g} h", farm.minutes / 60.0); }

Wrong take_trays(Starter& farm, const string& answer) {
  if (lower(answer) == "none" || lower(answer) == "no") {
    farm.tray.reset();
    return std::nullopt;
  }
  std::vector<string> parts = split(answer, R"(\s*(?:\bx\b|\bby\b|\*|(?=[0-9 ])x|\xC3\x97)\s*)");
  if (parts.size() == 1) parts = split(answer, "x");
  if (parts.size() != 2) return fmt::format("length by width, such as {}, or none", farm.us ? "20 in x 10 in" : "60 cm x 30 cm");
  const std::size_t unit = parts[1].find_first_not_of(".0123456789 ");
  const char* usual = farm.us ? "in" : "cm";
  std::array<double, 2> metres{};
  for (std::size_t i = 0; i < 2; ++i) {
    string text = parts[i];
    if (text.find_first_not_of(".0123456789 ") == string::npos)
      text += " " + (unit != string::npos ? parts[1].substr(unit) : string(usual));
    const auto read = number(text, "m", 0.1, i == 0 ? 3.0 : 2.0);
    if (const auto* why = std::get_if<string>(&read)) return *why;
    metres[i] = std::get<double>(read);
  }
  if ((parts[0] + parts[1]).find_first_not_of(".0123456789 ") == string::npos)
    assume(farm, parts[0] + " x " + parts[1], fmt::format("{} {} x {} {}", parts[0], usual, parts[1], usual));
  farm.tray = std::pair(metres[0], metres[1]);
  return std::nullopt;
}
string standing_trays(const Starter& farm) {
  if (!farm.tray) return "none";
  return fmt::format("{:g} cm x {:g} cm", 100.0 * farm.tray->first, 100.0 * farm.tray->second);
}

}  // namespace

std::optional<string> take_answer(const Question& question, Starter& farm, const string& answer) {
  Wrong wrong = question.take(farm, answer);
  if (!wrong) return wrong;
  const string pointed = std::regex_replace(answer, std::regex("([0-9]),([0-9])"), "$1.$2");
  Starter tried = farm;
  if (pointed == answer || question.take(tried, pointed)) return wrong;
  return fmt::format("\"{}\": commas stand between things, and decimals have a point: {}", answer, pointed);
}

std::span<const Question> questions() {
  static constexpr std::array<Question, 8> all{{
      {Option::units, "Units (metric or us), and your currency?", standing_units, take_units},
      {Option::animals, "Which animals, and how many? The fresh fodder a head a day may follow: 12 goats at 1.5 kg (or 3 lb), 40 hens",
       standing_animals, take_animals},
      {Option::eats, "What do they eat now, and what does it cost? It is bought when the rack falls short.", standing_eats,
       take_eats},
      {Option::grain, "Which grain would you sprout, and its price?", standing_grain, take_grain},
      {Option::place, "Where will the rack stand: stone barn, barn, shed, greenhouse, house, cellar or container?",
       standing_place, take_place},
      {Option::weather, "Outdoors, the mean temperature of the coldest and of the hottest month?", standing_weather,
       take_weather},
      {Option::hours, "How much time a day have you for it?", standing_hours, take_hours},
      {Option::trays, "Trays you have already: length x width, or none?", standing_trays, take_trays},
  }};
  return all;
}

}  // namespace rackwright::app
