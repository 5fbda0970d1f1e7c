// `evaluate`: hazards of a mat, the rack, the store, feed and money, called as the simulator calls them.
#include <fmt/format.h>

#include "models/cost/ledger.hpp"
#include "models/design/rack.hpp"
#include "models/feed/value.hpp"
#include "models/grain/store.hpp"
#include "models/growth/mat.hpp"
#include "models/route/stations.hpp"
#include "models/spoilage/hazard.hpp"
#include "sim/app/evaluate_biology.hpp"
#include "sim/app/evaluate_keys.hpp"

namespace rackwright::app {
namespace {

std::vector<Result> hazard(const Arguments& in) {
  const spoilage::Parameters parameters;
  const spoilage::Tray tray{.inoculum = in.number("inoculum"),
                            .dead_fraction = in.number("dead") / 100.0,
                            .density = KilogramsPerSquareMetre(in.number("density")),
                            .relative_humidity = in.number("humidity") / 100.0,
                            .soak_stress = in.number("stress"),
                            .undrained = in.number("undrained")};
  const Celsius mat(in.number("temperature"));
  const double mould = spoilage::mould_multiplier(parameters, tray) * spoilage::growth_factor(parameters.mould, mat) *
                       spoilage::onset_factor(spoilage::onset(parameters), in.number("growth_days"));
  const double sour = spoilage::sour_multiplier(parameters, tray) * spoilage::growth_factor(parameters.sour, mat);
  return {{"mould_rate", mould, "1/d"}, {"sour_rate", sour, "1/d"}, {"spoils_in_a_day", 100.0 * spoilage::spoiled_probability(mould + sour), "%"}};
}

const std::vector<std::string_view> rack_keys{"tiers", "trays_per_tier", "tray_length", "tray_width", "tier_spacing", "lowest_tier", "tray_mass", "water_film"};

std::vector<Result> rack(const Arguments& in) {
  Scenario scenario;
  set_given(scenario, in, "rack", rack_keys);
  const design::Rack& r = scenario.rack;
  const design::Load load = design::loaded(r, KilogramsPerSquareMetre(in.number("density")), in.number("fresh_ratio"));
  return {{"places", static_cast<double>(design::positions(r)), "1"},
          {"tray_area", design::tray_area(r).value(), "m2"},
          {"height", design::total_height(r).value(), "m"},
          {"footprint", design::footprint(r).value(), "m2"},
          {"slenderness", design::slenderness(r), "1"},
          {"tray_load", load.per_tray.value(), "kg"},
          {"tier_load", load.per_tier.value(), "kg"},
          {"rack_load", load.total.value(), "kg"}};
}

std::vector<Result> places(const Arguments& in) {
  const route::Positions p = route::littles_law(in.number("trays"), Hours(in.number("on_rack")), Hours(in.number("soak")));
  return {{"on_rack", p.on_rack, "1"}, {"in_soak", p.in_soak, "1"}};
}

std::vector<Result> order(const Arguments& in) {
  const double reorder = in.number("reorder"), up_to = in.number("order_up_to");
  if (up_to <= reorder)
    throw BadArguments{fmt::format("order_up_to ({:g} kg) must be more than reorder ({:g} kg): an order fills the store above the level at which one is placed", up_to, reorder)};
  const grain::StorePolicy policy{.reorder_point = Kilograms(reorder),
                                  .order_up_to = Kilograms(up_to),
                                  .bag = Kilograms(in.number("bag")),
                                  .least_order = Kilograms(in.number("least_order")),
                                  .bin = Kilograms(in.number("bin"))};
  return {{"order", grain::order_quantity(policy, Kilograms(in.number("on_hand")), Kilograms(in.number("on_order"))).value(), "kg"},
          {"bag_lasts", grain::bag_life(policy.bag, Kilograms(in.number("use"))).value() / 24.0, "d"}};
}

std::vector<Result> feed_value(const Arguments& in) {
  const Kilograms grain(in.number("grain"));
  const double dry = in.number("dry_matter") / 100.0;
  const feed::GrainValue value{in.number("protein") / 100.0, in.number("energy")};
  const feed::Nutrients before = feed::dry_grain(grain, dry, value);
  const double fresh = growth::value_kept(preset_of(in, growth::preset), in.has("growth_days") ? in.number("growth_days") : 0.0);
  const double kept = fresh * feed::usual_value_kept;
  const feed::Nutrients after = feed::mat(grain, dry, in.number("lost") / 100.0, in.number("leached") / 100.0, value, kept);
  if (after.crude_protein > after.dry_matter)
    throw BadArguments{fmt::format("of so much lost, {:.3g} kg of protein would be left in {:.3g} kg of dry matter: what is breathed away is starch and sugar, "
                                   "so lose less, or leach more of it", after.crude_protein, after.dry_matter)};
  return {{"grain_dry_matter", before.dry_matter, "kg"},
          {"grain_protein", before.crude_protein, "kg"},
          {"grain_energy", before.energy_mj, "MJ"},
          {"mat_dry_matter", after.dry_matter, "kg"},
          {"mat_protein", after.crude_protein, "kg"},
          {"mat_energy", after.energy_mj, "MJ"},
          {"energy_kept", 100.0 * kept, "%"},
          {"hay_of_equal_energy", feed::hay_of_equal_energy(after.energy_mj, {}).value(), "kg"}};
}

std::vector<Result> annuity(const Arguments& in) {
  return {{"a_year", cost::annual_cost(Money(in.number("capital")), in.number("life"), in.number("interest") / 100.0).value(), "1"}};
}

}  // namespace

std::vector<Evaluator> farm_evaluators() {
  std::vector<Argument> built = key_arguments("rack", rack_keys);
  built.push_back({"density", "kg/m2", "5", 0.0, 30.0, "grain sown on a square metre"});
  built.push_back({"fresh_ratio", "1", "5", 1.0, 12.0, "fresh mat for a kilogram of grain"});
  return {
      {"hazard", "How fast a mat that is sound now moulds or sours.", "assumed hazards (docs/models/spoilage.md)",
       {{"temperature", "degC", "", -20.0, 60.0, "of the mat"},
        {"growth_days", "d", "", 0.0, 60.0, "grown so far, as days at 20 degC"},
        {"inoculum", "1", "1", 0.0, 1000.0, "spores brought in, against a clean usual tray"},
        {"dead", "%", "8", 0.0, 100.0, "of the grain that does not sprout"},
        {"density", "kg/m2", "5", 0.0, 30.0, "grain sown on a square metre"},
        {"humidity", "%", "70", 0.0, 100.0, "relative humidity of the room"},
        {"stress", "1", "0", 0.0, 1.0, "of the soak, as `evaluate soak` tells it"},
        {"undrained", "1", "0.05", 0.0, 1.0, "0 drains freely, 1 stands in water"}},
       hazard},
      {"rack", "Places, height, floor and loads of a rack with ripe mats.", "plain geometry (docs/models/design.md)", built, rack},
      {"places", "Places a line needs on average.", "Little's law: number = rate times time",
       {{"trays", "1", "", 0.0, 1e4, "sown a day"}, {"on_rack", "h", "", 0.0, 1e4, "time on the rack"}, {"soak", "h", "", 0.0, 1e3, "time in the soak"}},
       places},
      {"order", "What a store orders, in whole bags, and how long one lasts.", "reorder point and order-up-to level (docs/models/store.md)",
       {{"on_hand", "kg", "", 0.0, 1e5, "in the store"},
        {"on_order", "kg", "0", 0.0, 1e5, "on its way"},
        {"reorder", "kg", "50", 0.0, 1e5, "orders when what is there and on its way falls to this"},
        {"order_up_to", "kg", "250", 0.0, 1e5, "and up to this"},
        {"bag", "kg", "25", 0.1, 2000.0, "one bag"},
        {"least_order", "kg", "25", 0.0, 1e5, "the merchant's least"},
        {"bin", "kg", "500", 0.0, 1e6, "what the store holds"},
        {"use", "kg", "3", 0.001, 1e5, "used a day"}},
       order},
      {"feed-value", "Nutrients of grain fed dry and of the mat grown from it.", "conservation but for what is lost (docs/models/feed.md)",
       {{"grain", "kg", "1", 0.0, 1e6, "as bought"},
        {"dry_matter", "%", "89", 1.0, 100.0, "of the grain"},
        {"lost", "%", "", 0.0, 100.0, "of its dry matter while sprouting, as `evaluate mat` tells it"},
        {"leached", "%", "10", 0.0, 100.0, "share of that lost with the water; the rest is breathed away"},
        {"protein", "%", "12", 0.0, 60.0, "crude protein in the grain's dry matter"},
        {"energy", "MJ/kg", "13", 0.0, 40.0, "metabolisable energy of the grain's dry matter"},
        species_argument(),
        {"growth_days", "d", "", 0.0, 60.0, "the mat's age as days at 20 degC, which may be past its best; not when left out", true}},
       feed_value},
      {"annuity", "Yearly payment that pays for what is bought once.", "annuity, payments at the end of each year",
       {{"capital", "1", "", 0.0, 1e9, "money paid once"}, {"life", "year", "8", 0.1, 100.0, "it lasts"}, {"interest", "%", "5", 0.0, 100.0, "a year"}},
       annuity},
  };
}

}  // namespace rackwright::app
