// The text of a first scenario.
#include "sim/app/starter.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "models/base/expects.hpp"
#include "models/feed/value.hpp"
#include "models/herd/animals.hpp"
#include "sim/app/starter_feeds.hpp"
#include "sim/replication/plan.hpp"
#include "sim/scenario/raw_text.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/units.hpp"
#include "sim/scenario/watering.hpp"

namespace rackwright::app {

namespace {

constexpr double density = 5.0;         // dry grain on a tray [kg/m2]
constexpr double fresh_per_grain = 4.7; // a sound week-old mat, a little low to be safe
constexpr double mat_dry_matter = 0.14;
constexpr int soak_buckets_hold = 3;    // trays' worth of grain in a bucket

/// To `digits` significant figures.
double rounded(double value, int digits) {
  if (value == 0.0) return 0.0;
  const double scale = std::pow(10.0, digits - 1 - static_cast<int>(std::floor(std::log10(std::abs(value)))));
  return std::round(value * scale) / scale;
}

/// What a head gets where the keeper did not say [kg fresh a day]: a share of its dry matter that trials call harmless.
double usual_ration(const herd::Class& animal, std::optional<double> weight_kg) {
  double share = 0.05;
  if (animal.species == "goat" || animal.species == "sheep") share = 0.10;
  if (animal.species == "rabbit") share = 0.15;
  share = std::min(share, animal.fodder_limit);
  const double eaten = weight_kg ? herd::intake(animal, Kilograms(*weight_kg)).value() : animal.weight.value() * animal.intake_share;
  return rounded(eaten * share / mat_dry_matter, 2);
}

/// "Fodder for the goats" of a ready farm; where the animals are the keeper's own, "Fodder for 6 goats, 20 hens and 8 ewes".
std::string title_of(const Starter& farm) {
  if (!farm.own_animals) return farm.title;
  std::vector<std::string> herds;
  for (const StarterGroup& group : farm.groups) herds.push_back(fmt::format("{} {}", group.count, group.name));
  const std::string text = "Fodder for " + listed(herds);
  return text.size() <= 120 ? text : "Fodder for all of them";
}

double ration_of(const StarterGroup& group) {
  const auto animal = herd::find_class(group.animal_class);
  EXPECTS(animal.has_value());
  return group.ration_kg ? *group.ration_kg : usual_ration(*animal, group.weight_kg);
}

/// The rack as first drawn, and how far sizing may go from there.
struct Drawing {
  double wanted = 0.0;  // kg fresh a day
  double length = 0.6, width = 0.3;
  int least_trays = 1, most_trays = 1;  // a day
  int tiers = 4;
  std::vector<int> trays, per_tier;
};

double minutes_for(double trays, std::size_t groups) { return 15.0 + 3.0 * static_cast<double>(groups) + 6.5 * trays; }

void choose_tray(const Starter& farm, Drawing& d) {
  // A tray of a tenth of a square metre to one of two: what one or two people can carry.
  std::vector<std::pair<double, double>> sizes{{0.6, 0.3}, {0.8, 0.4}, {1.2, 0.6}, {2.0, 1.0}};
  if (farm.us) sizes = {{0.508, 0.254}, {0.6096, 0.3048}, {1.2192, 0.6096}, {1.8288, 0.9144}};
  if (farm.tray) sizes = {*farm.tray};
  for (const auto& [length, width] : sizes) {
    d.length = length;
    d.width = width;
    const double trays = d.wanted / (density * fresh_per_grain * length * width);
    // Where one tray a day is enough, a larger one saves no work.
    if (trays <= 1.0 || (minutes_for(1.3 * trays, farm.groups.size()) <= farm.minutes && trays <= 40.0)) break;
  }
}

Drawing draw(const Starter& farm) {
  Drawing d;
  for (const StarterGroup& group : farm.groups) d.wanted += group.count * ration_of(group);
  choose_tray(farm, d);
  const double usual = d.wanted / (density * fresh_per_grain * d.length * d.width);
  d.least_trays = std::clamp(static_cast<int>(std::floor(usual)), 1, 500);
  for (const double more : {1.0, 1.15, 1.35, 1.6, 2.0}) {
    const int trays = std::clamp(static_cast<int>(std::ceil(usual * more)), 1, 500);
    if (d.trays.empty() || d.trays.back() < trays) d.trays.push_back(trays);
  }
  if (d.trays.size() == 1) d.trays.push_back(d.trays.back() + 1);
  d.most_trays = d.trays.back();
  // Eight days on the rack, a day of grace, and a place to turn round.
  const int places = 9 * d.most_trays + 1;
  d.tiers = std::clamp(static_cast<int>(std::lround(std::sqrt(places / 3.0))), 2, 5);
  for (const int trays : d.trays) {
    const int each = std::min(200, (9 * trays + d.tiers) / d.tiers);
    if (d.per_tier.empty() || d.per_tier.back() < each) d.per_tier.push_back(each);
  }
  return d;
}

/// The bag that the grain is priced by, "9.5 / 30 kg"; a usual one where the price names none.
double bag_of(const Starter& farm) {
  constexpr double smallest = 5.0, largest = 1000.0;  // [kg]: what is sold as one thing
  const auto stroke = farm.grain_price.find('/');
  if (const auto from = farm.grain_price.find_first_not_of(' ', stroke == std::string::npos ? stroke : stroke + 1); from != std::string::npos) {
    const auto read = read_quantity(farm.grain_price.substr(from), "kg");
    if (const double* stated = std::get_if<double>(&read); stated != nullptr && *stated >= smallest && *stated <= largest) return *stated;
  }
  return farm.us ? 50 * 0.45359237 : 25.0;
}

std::string figure(double value) { return fmt::format("{:.6g}", value); }

/// Pump time of a watering with which the driest tier catches half as much again as it drinks at its thirstiest [min].
double watering_minutes(const Scenario& scenario, double minutes) {
  double needed = 0.5;
  for (const TierWater& tier : watering_of(scenario).tiers)
    if (tier.need > 0.0 && tier.supplied > 0.0) needed = std::max(needed, minutes * 1.5 * tier.need / tier.supplied);
  return std::min(20.0, std::ceil(2.0 * needed) / 2.0);
}

/// One scenario being written.
class Writer {
 public:
  Writer(const Starter& farm, double watering_minutes)
      : farm_(farm), drawing_(draw(farm)), watering_minutes_(watering_minutes) {}
  std::string text() {
    head();
    place();
    rack();
    grain();
    water();
    animals();
    money();
    target();
    return std::move(out_);
  }

 private:
  template <class... Args>
  void line(fmt::format_string<Args...> format, Args&&... args) {
    out_ += fmt::format(format, std::forward<Args>(args)...) + "\n";
  }
  /// "5 kg/m2" or "1 lb/ft2": `value` in the metric unit, to so many figures.
  [[nodiscard]] std::string amount(double value, const char* metric, const char* us, int digits = 3) const {
    if (!farm_.us) return fmt::format("\"{} {}\"", figure(rounded(value, digits)), metric);
    return fmt::format("\"{} {}\"", figure(rounded(convert(value, metric, us), digits)), us);
  }
  /// A small length, given in metres.
  [[nodiscard]] std::string length(double metres, int digits) const { return amount(100.0 * metres, "cm", "in", digits); }
  /// A temperature difference.
  [[nodiscard]] std::string rise(double kelvins) const {
    return farm_.us ? fmt::format("\"{} degF\"", figure(rounded(1.8 * kelvins, 2)))
                    : fmt::format("\"{} K\"", figure(rounded(kelvins, 2)));
  }

  void head() {
    line("# A first scenario. Change what is not so, then: rackwright check, rackwright size. What is left out has a");
    line("# usual value: rackwright describe scenario lists every key. A line that begins with # is a remark.");
    line("title = \"{}\"", title_of(farm_));
    line("units = \"{}\"", farm_.us ? "us" : "metric");
    line("currency = \"{}\"", farm_.currency);
  }

  void place() {
    // Monthly means of a wave are a little flatter than the wave: sin(pi/12) / (pi/12).
    const double amplitude = (farm_.hottest - farm_.coldest) / 2.0 / 0.9886;
    line("\n# Outdoors: from the means of the coldest and the hottest month. The daily range is a guess. South of the");
    line("# equator, also peak_day = 20 and a negative latitude.");
    line("[climate]");
    line("mean = {}   # of the year", amount((farm_.hottest + farm_.coldest) / 2.0, "degC", "degF"));
    line("amplitude = {}   # so much the hottest weeks lie above the mean, the coldest below{}", rise(std::max(0.0, amplitude)),
         farm_.us ? "" : "; K: degrees Celsius of a difference");
    line("range_mean = {}   # from a usual night's lowest to the day's highest", rise(11.0));
    const double floor = std::max(9.0, rounded(3.0 * footprint() + 4.0, 2)), height = 2.5;
    const double shell = 4.0 * std::sqrt(floor) * height + floor;
    line("\n# The room, from the word \"{}\": measure floor and walls, and say what they are made of.", farm_.place.name);
    line("[room]");
    line("floor_area = {}", amount(floor, "m2", "ft2", 2));
    line("height = {}", amount(height, "m", "ft", 2));
    line("shell_area = {}   # walls and roof", amount(shell, "m2", "ft2", 2));
    line("shell = {}   # heat they let through", amount(farm_.place.shell, "W/m2/K", "BTU/h/ft2/degF", 2));
    line("air_changes = {}   # an hour", figure(farm_.place.air_changes));
    line("heat_capacity = {}   # heat that warms walls, floor and air by a degree", amount(farm_.place.heat_per_m2 * floor, "kJ/K", "BTU/degF", 2));
    line("solar_aperture = {}   # window that would let in as much sun", amount(farm_.place.sun_per_m2 * floor, "m2", "ft2", 2));
    const double lost = farm_.place.shell * shell + 0.33 * farm_.place.air_changes * floor * height;  // W/K
    if (farm_.coldest < 16.0) {
      // A cold night of the coldest week lies so far below the coldest month's mean; what the mats evaporate is paid for by it, too.
      constexpr double colder = 12.0;  // [K]; found by playing, `check` holds it against the farm's own winters
      heater_ = std::clamp(std::ceil(lost * (17.0 - farm_.coldest + colder) / 250.0) * 250.0, 500.0, 50000.0);
      line("heater = \"{} W\"        # cold mats grow slowly", figure(heater_));
      line("heater_set = {}", amount(17.0, "degC", "degF", 2));
    }
    if (farm_.hottest > 24.0) {
      cooler_ = std::ceil((lost * (farm_.hottest + 8.0 - 26.0) + 400.0 * farm_.place.sun_per_m2 * floor +
                           8.0 * density * 8.0 * drawing_.most_trays * drawing_.length * drawing_.width) / 500.0) * 500.0;
      line("shade = \"50 %\"");
    }
  }

  /// Of the rack on the floor [m2].
  [[nodiscard]] double footprint() const { return drawing_.per_tier.back() * drawing_.length * drawing_.width; }

  void rack() {
    const Drawing& d = drawing_;
    line("\n# The rack as first drawn; rackwright size looks for a better one (see [choose]).");
    line("[rack]\ntiers = {}\ntrays_per_tier = {}", d.tiers, d.per_tier.front());
    line("tray_length = {}", length(d.length, 3));
    line("tray_width = {}", length(d.width, 3));
    const std::string wanted = amount(d.wanted, "kg", "lb", 2);
    line("\n# {} of fresh fodder are wanted a day; a mat weighs about five times its grain.",
         wanted.substr(1, wanted.size() - 2));
    line("[line]\ndays_on_rack = 8\ntrays_per_batch = {}\nsowing_density = {}\nsoak = \"10 h\"", d.trays.front(),
         amount(density, "kg/m2", "lb/ft2", 2));
    line("# sow = \"as-wanted\"    # no more trays than the animals are to want when they are ripe; left out: all of them, every time");
    line("\n# Your working day.");
    line("[keeper]\nminutes_per_day = \"{} min\"", figure(std::round(farm_.minutes)));
    line("soak_buckets = {}", std::clamp((d.most_trays + soak_buckets_hold - 1) / soak_buckets_hold + 1, 2, 100));
  }

  void grain() {
    const double a_day = drawing_.most_trays * density * drawing_.length * drawing_.width;
    line("\n# A few weeks of grain in store. germination: put in what a trial of your own gives (rackwright lot --help).");
    line("[[grain]]\nname = \"{0}\"\nspecies = \"{0}\"\nprice = \"{1}\"", farm_.grain, farm_.grain_price);
    line("germination = \"92 %\"");
    const double bag = bag_of(farm_);
    const auto bags = [&](double kilograms) { return bag * std::max(1.0, std::ceil(kilograms / bag)); };
    line("bag = {}", amount(bag, "kg", "lb", 3));
    const double reorder = bags(10.0 * a_day), up_to = std::max(bags(35.0 * a_day), reorder + bag);
    line("reorder = {}", amount(reorder, "kg", "lb", 3));
    line("order_up_to = {}", amount(up_to, "kg", "lb", 3));
    line("bin = {}", amount(std::max(bags(50.0 * a_day), up_to), "kg", "lb", 3));
    line("on_hand = {}", amount(bags(30.0 * a_day), "kg", "lb", 3));
  }

  void water() {
    const double area = drawing_.per_tier.back() * drawing_.length * drawing_.width;
    const int emitters = std::clamp(static_cast<int>(std::ceil(area / 0.5)), 2, 200);
    const double top = 0.3 + 0.35 * (drawing_.tiers - 1), flow = 120.0 * emitters * drawing_.tiers;
    line("\n# Pump, from its plate: how high it lifts at most, and what it gives where it need not lift; emitters on each tier; a tank\n# for the day.");
    line("[water]\npump_shutoff = {}\npump_full_flow = {}\npump_power = \"{} W\"", amount(top + 2.5, "m", "ft", 2),
         amount(std::max(2000.0, flow), "L/h", "gal/h", 2), figure(rounded(std::max(45.0, flow / 45.0), 2)));
    line("emitters_per_tier = {}\ntank = {}", emitters, amount(std::max(100.0, 8.0 * drawing_.wanted), "L", "gal", 2));
    const double bore = std::max(0.02, 0.02 * std::sqrt(flow / 1500.0));
    line("riser_diameter = {}", length(bore, 2));
    line("branch_diameter = {}", length(std::max(0.013, 0.6 * bore), 2));
    line("cycles_per_day = 4\non_time = \"{} min\"   # half as much again as the thirstiest mats drink", figure(watering_minutes_));
  }

  void animals() {
    line("\n# Who is fed, and the fresh fodder a head a day. Bring it in over 7 to 14 days.");
    for (const StarterGroup& group : farm_.groups) {
      line("[[group]]\nname = \"{}\"\nclass = \"{}\"\ncount = {}", group.name, group.animal_class, group.count);
      if (group.weight_kg) line("weight = {}   # as usual for them, from memory: put in yours{}", amount(*group.weight_kg, "kg", "lb", 2), group.eats_less ? "; they eat less for their weight than horses" : "");
      const double ration = ration_of(group);
      line("ration = {}{}", ration < 0.1 ? amount(1000.0 * ration, "g", "oz", 2) : amount(ration, "kg", "lb", group.ration_kg ? 3 : 2),
           group.ration_kg ? "" : "   # a usual amount");
      if (herd::find_class(group.animal_class)->species == "chicken") line("feedings = 1");
    }
  }

  void money() {
    line("\n# Money, in {}: replace these by your own prices. Now they eat {}.", farm_.currency, farm_.feed);
    line("[prices]\nframe = 140\ntier = 55\ntray = {}\npump = 75{}", figure(rounded(45.0 * drawing_.length * drawing_.width, 2)),
         heater_ > 0.0 ? "\nheater = 120" : "");
    if (cooler_ > 0.0) line("cooler = 450");
    if (insulates()) line("insulation = {}", farm_.us ? "\"5 /ft3\"   # with what holds it: 0.83 a square foot of 2 in" : "\"180 /m3\"   # with what holds it: 9 a square metre of 5 cm");
    line("reserve = \"{0}\"   # bought when the rack falls short\nhay = \"{0}\"", farm_.feed_price);
    if (const auto fed = fed_of(farm_.feed)) {
      constexpr feed::HayValue hay;
      const std::string as = taken_of_several(farm_.feed);
      line("\n# Where the program says hay it means {}{}, as it usually is (from memory): put in what an analysis of yours says.\n[feed]", farm_.feed, as.empty() ? "" : ", taken for " + as);
      if (fed->dry_matter != hay.dry_matter) line("hay_dry_matter = \"{} %\"", figure(100.0 * fed->dry_matter));
      line("hay_energy = {}   # of its dry matter; hay has {}", amount(fed->energy, "MJ/kg", "Mcal/lb"), energy_words(hay.energy_mj_per_kg_dm));
    }
  }

  [[nodiscard]] std::string energy_words(double mj) const {
    const std::string quoted = amount(mj, "MJ/kg", "Mcal/lb");
    return quoted.substr(1, quoted.size() - 2);
  }

  void target() {
    line("\n# A year is good when 95 % of the fodder wanted is served; nine years in ten must be good.");
    line("[target]\nfill_rate = \"95 %\"\nyears = \"90 %\"\nconfidence = \"95 %\"   # how sure the answer must be");
    line("\n# What rackwright size may change, and the values it tries.\n[choose]");
    line("\"line.trays_per_batch\" = [{}]", fmt::join(drawing_.trays, ", "));
    line("\"rack.trays_per_tier\" = [{}]", fmt::join(drawing_.per_tier, ", "));
    line("\"line.days_on_rack\" = [7, 8]");
    line("\"line.soak\" = [\"6 h\", \"10 h\"]");
    if (heater_ > 0.0) line("\"room.heater\" = [\"0 W\", \"{} W\"]", figure(heater_));
    if (cooler_ > 0.0) line("\"room.cooler\" = [\"0 W\", \"{} W\"]", figure(cooler_));
    if (insulates()) line("\"room.insulation\" = [{}]   # on the outside of walls and roof", farm_.us ? "\"0 in\", \"2 in\"" : "\"0 cm\", \"5 cm\"");
  }

  // Where walls and roof let through little already, more of it is seldom worth its money.
  [[nodiscard]] bool insulates() const { return farm_.place.shell >= 0.8; }

  const Starter& farm_;
  Drawing drawing_;
  double watering_minutes_;
  std::string out_;
  double heater_ = 0.0, cooler_ = 0.0;
};

}  // namespace

std::string starter_text(const Starter& farm) {
  EXPECTS(!farm.groups.empty());
  constexpr double first_guess = 3.0;
  std::string text = Writer(farm, first_guess).text();
  const Reading reading = read_scenario(text, {});
  if (!reading.scenario || !reading.problems.empty()) return text;  // check will say why
  return Writer(farm, watering_minutes(*reading.scenario, first_guess)).text();
}

double most_eaten(const StarterGroup& group) {
  const auto animal = herd::find_class(group.animal_class);
  EXPECTS(animal.has_value());
  return herd::intake(*animal, Kilograms(group.weight_kg.value_or(animal->weight.value()))).value() / mat_dry_matter;
}

double starter_minutes(const Scenario& scenario) { return make_plan(scenario).route.minutes_per_day; }

}  // namespace rackwright::app
