// Keys of a grain bought: how good its lots are, how it is stored, when it is short, and how a new lot is tried.
#include <algorithm>
#include <array>
#include <chrono>

#include "sim/scenario/key_at.hpp"
#include "sim/scenario/key_table.hpp"

namespace rackwright::keys {
namespace {

using G = GrainSupply;
constexpr std::string_view yours = "yours";
constexpr std::string_view practice = "common practice, no source";

Key<G> grade_key() {
  Key<G> key = option<G>("grade", {grain::grade_names.begin(), grain::grade_names.end()}, AT(bought),
                         "What you buy it as: \"own\", as the keys below say; \"feed\", \"bulk\" or \"seed\" sets germination, its spread, "
                         "vigour_spread, inoculum and price_multiple as such grain usually is, where you do not state them.", "assumed");
  key.set = [](G& grain, const Value& value, const Scenario&) -> std::optional<std::string> {
    grain.bought = static_cast<grain::GradeName>(std::get<std::int64_t>(value));
    const grain::GradeTerms terms = grain::terms_of(grain.bought, grain.stated, grain.grade);
    grain.grade = terms.law;
    grain.price_multiple = terms.price_multiple;
    return std::nullopt;
  };
  return key;
}

/// Does its grade say, or may a choice or a kit make it say, what the keeper does not state of this grain?
bool graded(const GrainSupply& grain, const Scenario& s) {
  constexpr std::string_view key = ".grade";
  if (grain.bought != grain::GradeName::own) return true;
  const auto of_kit = [&](const Kit& kit) {
    return std::any_of(kit.sets.begin(), kit.sets.end(), [&](const std::string& set) { return set.find(key) != std::string::npos; });
  };
  return std::any_of(s.choose.choices.begin(), s.choose.choices.end(), [&](const Choice& choice) { return choice.key.ends_with(key); }) ||
         std::any_of(s.kits.begin(), s.kits.end(), of_kit);
}

/// A key of the grade's law: stated, it stands over the grade. `Stated` reaches where that is kept.
template <class At, class Stated>
Key<G> law(std::string_view name, Range range, At at, Stated, std::string_view sentence, std::string_view source) {
  Key<G> key = real<G>(name, range, at, sentence, source);
  key.set = [](G& grain, const Value& value, const Scenario&) -> std::optional<std::string> {
    At{}(grain) = std::get<double>(value);
    Stated{}(grain) = std::get<double>(value);
    return std::nullopt;
  };
  key.follows = [](const G& grain, const Scenario& s) { return !Stated{}(grain).has_value() && graded(grain, s); };
  return key;
}

// Days of a common year before its months.
constexpr std::array<int, 12> before_month{0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334};

int day_of_common_year(std::chrono::year_month_day date) {
  return std::min(365, before_month[static_cast<unsigned>(date.month()) - 1] + static_cast<int>(static_cast<unsigned>(date.day())));
}

/// A date of which the year does not count, kept as a day of the year.
template <class At>
Key<G> yearly(std::string_view name, At, std::string_view sentence, std::string_view source) {
  Key<G> key = declare<G>(name, Kind::date, sentence, source);
  key.optional = true;
  key.get = [](const G& grain, const Scenario& s) -> Value {
    const int day = At{}(grain);
    if (day <= 0) return {};
    unsigned month = 12;
    while (before_month[month - 1] >= day) --month;
    const std::chrono::year_month_day date{s.run.start.year(), std::chrono::month(month),
                                           std::chrono::day(static_cast<unsigned>(day - before_month[month - 1]))};
    return static_cast<std::int64_t>(std::chrono::sys_days(date).time_since_epoch().count());
  };
  key.set = [](G& grain, const Value& value, const Scenario&) -> std::optional<std::string> {
    const auto* days = std::get_if<std::int64_t>(&value);
    At{}(grain) = days == nullptr ? 0 : day_of_common_year(std::chrono::sys_days(std::chrono::days(*days)));
    return std::nullopt;
  };
  return key;
}

void add_lots(Table<G>& table) {
  const auto add = [&](Key<G> key) { table.push_back(std::move(key)); };
  add(law("price_multiple", {0.01, 100.0}, AT(price_multiple), AT(stated.price_multiple),
          "What this grade costs against price, which is that of bulk grain.", "grain sold as seed costs 3 to 5 times bulk (common practice, no source)"));
  add(real<G>("year_spread", {0.0, 3.0}, AT(harvest_spread),
              "How much the same brand differs from one harvest to the next (standard deviation of the logit of germination); lots that "
              "come from 1 July on are of the new harvest.", "assumed"));
  add(yearly("short_from", AT(shortage.from), "First day of the season in which this grain may be short; the year does not count.", yours));
  add(yearly("short_until", AT(shortage.until), "Its last day; may lie in the next year.", yours));
  add(real<G>("short_chance", {0.0, 1.0}, AT(shortage.chance), "Chance that it is short in that season of a year.", yours));
  add(real<G>("short_delay", {0.0, 24.0 * 120.0}, AT(shortage.delay), "Short: orders come so much later.", yours).show("d"));
  add(real<G>("short_price", {0.0, 20.0}, AT(shortage.dearer), "Short: orders are so much dearer.", yours));
  add(option<G>("short_grade", {"as ordered", "feed", "bulk", "seed"}, AT(shortage.instead),
                "Short: orders are filled from this grade, at its price.", yours));
  add(whole<G>("trial", {0, 2000}, AT(policy.trial),
               "Kernels of each new lot that you lay out to sprout before you sow it, in trays of a hundred; 0 is no trial.", yours));
  add(real<G>("accept", {0.0, 1.0}, AT(policy.accept), "Trial: least share that must sprout; a lot with fewer is refused, and another ordered at once.",
              "trade minima are 80 to 90 %"));
  add(real<G>("trial_time", {12.0, 24.0 * 60.0}, AT(policy.trial_time), "Trial: how long it takes.",
              practice).show("d"));
  add(real<G>("trial_minutes", {0.0, 600.0}, AT(policy.trial_minutes),
              "Trial: your time for laying out and counting. A plain number is minutes.", "assumed").in("min").bare_number());
  add(real<G>("refused_worth", {0.0, 1.0}, AT(policy.refused_worth),
              "Trial: share of its price that a refused lot still brings, fed dry or given back.", "assumed"));
  add(real<G>("keep_back", {0.0, 100000.0}, AT(policy.keep_back),
              "Trial: grain of the lot in use that is to be left beyond reorder, to sow from until a new lot has been tried; ordered so much "
              "earlier, up to so much more.", yours));
}

}  // namespace

const Table<G>& grain_keys() {
  static const Table<G> table = [] {
    Table<G> t{
        text<G>("name", AT(name), "What you call this grain.", yours).must(),
        text<G>("species", AT(species), "Its species: a known one or one of [[species]].", yours),
        grade_key(),
        law("germination", {0.02, 0.999}, AT(grade.germination_mean), AT(stated.germination_mean),
            "Mean share of kernels that germinate, over the lots you may be sold.", yours),
        law("germination_spread", {0.0001, 0.5}, AT(grade.germination_rho), AT(stated.germination_rho),
            "How much lots differ in it (over-dispersion).", "assumed"),
        law("vigour_spread", {0.0, 1.0}, AT(grade.vigour_sd), AT(stated.vigour_sd),
            "How much lots differ in speed of sprouting (spread of its logarithm).", "assumed"),
        real<G>("vigour_link", {-0.95, 0.95}, AT(grade.vigour_correlation),
                "How far fast lots are also those that germinate well.", "assumed"),
        real<G>("tray_spread", {0.0001, 0.5}, AT(grade.tray_rho),
                "How much trays of one lot differ (over-dispersion).", "assumed"),
        law("inoculum", {0.01, 1000.0}, AT(grade.inoculum), AT(stated.inoculum),
            "Mould spores it brings, against a usual clean feed lot.", "assumed"),
        real<G>("price", {0.0, 1.0e6}, AT(price_per_kg),
                "Price; a plain number is for a kilogram.", yours).in("1/kg").bare_number(),
        real<G>("moisture", {0.03, 0.25}, AT(moisture), "Share of water in the grain as stored.", yours),
        real<G>("store_temperature", {-20.0, 45.0}, AT(store_temperature),
                "Temperature of a store that keeps steady, such as a cellar; \"none\": it follows the weather.", yours),
        real<G>("bag", {0.1, 2000.0}, AT(store.bag), "Weight of a bag; orders are whole bags. Left out with units = \"us\": 50 lb.", yours),
        real<G>("reorder", {0.0, 100000.0}, AT(store.reorder_point),
                "Order when what is there and on the way falls to this.", yours),
        real<G>("order_up_to", {0.1, 100000.0}, AT(store.order_up_to), "Order enough to come up to this.", yours),
        real<G>("least_order", {0.0, 100000.0}, AT(store.least_order), "The least the merchant delivers.", yours),
        real<G>("bin", {0.1, 100000.0}, AT(store.bin), "What your store holds.", yours),
        real<G>("delivery", {0.0, 24.0 * 120.0}, AT(store.delivery),
                "Mean time from order to delivery.", yours).show("d"),
        real<G>("delivery_spread", {0.0, 24.0 * 60.0}, AT(delivery_sd),
                "How much that time varies (standard deviation).", yours).show("d"),
        real<G>("use_by", {24.0, 24.0 * 3650.0}, AT(store.use_by),
                "Grain older than this is not sown.", practice).show("d"),
        real<G>("on_hand", {0.0, 100000.0}, AT(on_hand), "What is in store when the run starts.", yours),
    };
    add_lots(t);
    return t;
  }();
  return table;
}

}  // namespace rackwright::keys
