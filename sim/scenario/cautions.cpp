#include "sim/scenario/cautions.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>

#include <fmt/format.h>

#include "models/design/rack.hpp"
#include "models/growth/mat.hpp"
#include "models/route/stations.hpp"
#include "sim/scenario/cautions_dates.hpp"
#include "sim/scenario/cautions_feeding.hpp"
#include "sim/scenario/cautions_lots.hpp"
#include "sim/scenario/cautions_place.hpp"
#include "sim/scenario/cautions_plans.hpp"
#include "sim/scenario/cautions_seeds.hpp"
#include "sim/scenario/cautions_usual.hpp"
#include "sim/scenario/cautions_water.hpp"
#include "sim/scenario/cautions_weather.hpp"
#include "sim/scenario/fits.hpp"
#include "sim/scenario/raw_text.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright {
namespace {

using Lines = std::vector<std::string>;

std::string kg(const Scenario& s, Kilograms mass) {
  return write_quantity(mass.value(), "kg", s.units == Units::us, 3);
}
std::string metres(const Scenario& s, Metres length) {
  return write_quantity(length.value(), "m", s.units == Units::us, 3);
}

/// The heaviest ripe mat among the grains, per kilogram of grain.
struct Ripe {
  double fresh_ratio = 0.0;
};
Ripe heaviest(const Scenario& s) {
  Ripe ripe;
  for (const GrainSupply& grain : s.grains) {
    const growth::Mat mat = ripe_mat(s, grain);
    ripe.fresh_ratio = std::max(ripe.fresh_ratio, mat.fresh_ratio);
  }
  return ripe;
}

void health(Lines& out) {
  out.push_back(
      "Never feed a mat that is mouldy, slimy or smells sour: cattle and sheep have died of mouldy sprouts. "
      "Throw out the whole mat, not the bad corner. Was one fed? Take all sprouts away from every animal, keep a sample, and call a veterinarian at once if one trembles, staggers, "
      "knuckles over or goes down.");
  out.push_back("A mat that looks and smells sound can still carry germs (Salmonella, E. coli, Listeria), which sprouting multiplies. Keep droppings, rodents and birds off grain, water and trays; "
                "wash hands; nobody eats these sprouts; ask a veterinarian before the young, the old or the weak are fed them.");
  out.push_back(
      "Mould dust harms lungs: wear gloves and a fine-dust mask (P2 or N95) to clear out and wash spoiled trays. The number of spoiled mats played here is no forecast: nobody has "
      "published how often trays turn at a given warmth.");
  out.push_back("Sprout only untreated grain: seed dressed against pests or mould is poisonous as feed.");
}

void clean_water(const Scenario& s, Lines& out) {
  out.push_back(
      "Use drinking-quality water and emitters that drip or pour; avoid mist, which carries germs into lungs. A "
      "tank filled from the mains needs an air gap or another backflow preventer.");
  if (s.water.schedule.recirculating && s.water.schedule.renewals_per_week <= 0.0)
    out.push_back("The water that returns is never renewed (water.renewals_per_week): salts and germs gather in the tank and go round to every tier. Empty and clean it once a week or more often "
                  "(common practice, no source), and have bore water tested for salt: salty water slows sprouting, which is not reckoned here.");
  constexpr double breeds = 20.0;
  const auto degrees = [&](double celsius, int digits) { return write_quantity(celsius, "degC", s.units == Units::us, digits); };
  const double summer = s.climate.mean.mean.value() + std::abs(s.climate.mean.amplitude.value());
  std::vector<std::string> why;
  if (summer > breeds) why.push_back("this climate's summer mean is " + degrees(summer, 3));
  if (s.line.soak_water.value() > breeds) why.push_back("you soak in water of " + degrees(s.line.soak_water.value(), 3));
  if (s.room.heater.value() > 0.0 && s.room.heater_set.value() > breeds) why.push_back("the heater holds the room at " + degrees(s.room.heater_set.value(), 3));
  if (!why.empty())
    out.push_back(fmt::format("Standing water above {} breeds Legionella (germs of a lung disease): shade, drain and clean the tank while it is so warm; {}.", degrees(breeds, 2),
                              listed(why)));
}

/// Weather that the line is hardly made for, by the monthly means outdoors.
void seasons(const Scenario& s, Lines& out) {
  if (s.weather.record) return;  // its own text says how far it goes
  const bool us = s.units == Units::us;
  const auto degrees = [&](double celsius) { return write_quantity(celsius, "degC", us, 3); };
  const climate::Parameters standing{};
  if (s.climate.mean.mean == standing.mean.mean && s.climate.mean.amplitude == standing.mean.amplitude)
    out.push_back(fmt::format("The weather is the one taken where none is stated, of a hot and dry hillside: {} over the year, the warmest weeks {}. Where yours is "
                              "not like it, set climate.mean and climate.amplitude.",
                              degrees(standing.mean.mean.value()), degrees(standing.mean.mean.value() + standing.mean.amplitude.value())));
  const double middle = s.climate.mean.mean.value(), swing = std::abs(s.climate.mean.amplitude.value());
  const double afternoon = middle + swing + 0.5 * (s.climate.range_mean.value() + std::max(0.0, s.climate.range_amplitude.value()));
  constexpr double sours = 30.0;  // common practice, no source
  if (afternoon > sours && s.room.cooler.value() <= 0.0)
    out.push_back(fmt::format("On a usual afternoon of the hottest weeks it is {} outdoors, and nothing cools the room: mats sour and "
                              "mould soonest then. Try what helps with rackwright stress: a cooler, insulation, shade, more air, fewer days.",
                              degrees(afternoon)));
  if (middle - swing < stands_still && s.room.heater.value() <= 0.0)
    out.push_back(fmt::format("In the coldest weeks it is {} outdoors on average, and nothing warms the room: mats hardly grow below "
                              "{}. Give them more days then, insulation, or a heater.",
                              degrees(middle - swing), degrees(stands_still)));
}

/// Places for every tray for all its days?
void places(const Scenario& s, Lines& out) {
  const int there = s.rack.tiers * s.rack.trays_per_tier, a_day = s.line.trays_per_batch * s.line.batches_per_day;
  const int needed = a_day * s.line.days_on_rack;
  if (needed <= there) return;
  out.push_back(fmt::format("{} trays a day for {} days need {} places, and the rack has {}: trays find no place, or are cut before they are "
                            "ripe. {}",
                            a_day, s.line.days_on_rack, needed, there,
                            there < s.line.days_on_rack ? std::string("One tray a day takes as many places as it has days: add places.")
                                                        : fmt::format("Sow at most {} a day, or add places.", there / s.line.days_on_rack)));
}

void structure(const Scenario& s, const Ripe& ripe, Lines& out) {
  const design::Load load = design::loaded(s.rack, s.line.sowing_density, ripe.fresh_ratio);
  const double slender = design::slenderness(s.rack);
  std::string text = fmt::format(
      "Fully grown and wet, a tier carries about {} and the rack {}: check shelves, frame and "
      "floor for it, heavy trays low.",
      kg(s, load.per_tier), kg(s, load.total));
  if (slender > design::slenderness_to_anchor) {
    text += fmt::format(" It is {:.1f} times as high as deep: fix it to the wall.", slender);
  }
  out.push_back(text);
}

/// Room for the rack, and for the keeper beside it.
void fit(const Scenario& s, Lines& out) {
  for (const std::string& why : what_does_not_fit(s)) out.push_back(why + ".");
  const double floor = s.room.floor_area.value(), stands_on = design::footprint(s.rack).value();
  const auto square = [&](double area) { return write_quantity(area, "m2", s.units == Units::us, 3); };
  if (stands_on <= floor && stands_on > 0.6 * floor)
    out.push_back(fmt::format("The rack would stand on {} of the room's {}: leave room to walk, carry and clean.", square(stands_on), square(floor)));
}

/// Recommended weight to lift from a bench to a height over the feet; 0 kg beyond reach.
Kilograms lift_to(Metres height) {
  const Metres bench{0.75}, arm{0.40};
  return route::lifting_limit(arm, height, Metres(std::abs(height.value() - bench.value())), Degrees(30.0), 1.0, 1);
}

/// Least recommended weight over the tiers within reach, and whether some tier is out of reach.
struct Lift {
  Kilograms limit{1000.0};
  bool out_of_reach = false;
};
Lift weakest_lift(const Scenario& s) {
  Lift lift;
  for (const Metres height : design::tier_heights(s.rack)) {
    const Kilograms limit = lift_to(height);
    if (limit.value() <= 0.0) {
      lift.out_of_reach = true;
    } else {
      lift.limit = std::min(lift.limit, limit);
    }
  }
  return lift;
}

void lifting(const Scenario& s, const Ripe& ripe, Lines& out) {
  const Kilograms tray = design::loaded(s.rack, s.line.sowing_density, ripe.fresh_ratio).per_tray;
  const Lift lift = weakest_lift(s);
  if (tray > lift.limit) {
    out.push_back(
        fmt::format("A wet tray weighs about {}; the recommended limit at the least handy tier is {} (NIOSH "
                    "lifting equation, at best {}). Use smaller trays or two people.",
                    kg(s, tray), kg(s, lift.limit), kg(s, Kilograms(23.0))));
  }
  if (lift.out_of_reach) {
    const Metres highest = design::tier_heights(s.rack).back();
    const Metres step{0.5};
    const bool by_step = tray <= lift_to(highest - step);
    out.push_back(fmt::format("The highest tier, at {}, is beyond safe reach for lifting: {}.", metres(s, highest),
                              by_step ? "use a steady step or fewer tiers" : "build fewer tiers or smaller trays, and carry no such tray up a step or a ladder"));
  }
}

}  // namespace

std::vector<std::string> cautions(const Scenario& scenario) {
  Lines out;
  const Ripe ripe = heaviest(scenario);
  health(out);
  seed_cautions(scenario, out);
  feeding_cautions(scenario, out);
  bleach_cautions(scenario, out);
  place_cautions(scenario, out);
  stale_air_cautions(scenario, out);
  clean_water(scenario, out);
  water_cautions(scenario, out);
  places(scenario, out);
  choice_cautions(scenario, out);
  seasons(scenario, out);
  unusual_cautions(scenario, out);
  structure(scenario, ripe, out);
  fit(scenario, out);
  lifting(scenario, ripe, out);
  weather_cautions(scenario, out);
  birth_cautions(scenario, out);
  date_cautions(scenario, out);
  lot_cautions(scenario, out);
  out.push_back("Wet floors are slippery: keep walkways dry, and drains open and under covers.");
  return out;
}

}  // namespace rackwright
