// Keys of the keeper's day and of a group of animals.
#include "sim/scenario/horizon.hpp"
#include "sim/scenario/key_at.hpp"
#include "sim/scenario/key_table.hpp"

namespace rackwright::keys {
namespace {

using S = Scenario;
using G = Group;
constexpr std::string_view yours = "yours";
constexpr std::string_view practice = "common practice, no source";

std::int64_t start_day(const S& s) { return std::chrono::sys_days(s.run.start).time_since_epoch().count(); }

constexpr std::string_view too_late = "must not lie more than 4000 days after run.start";

bool beyond(std::int64_t date, const S& s) { return static_cast<double>(date - start_day(s)) > last_group_day; }

Key<G> first_births_key() {
  Key<G> key = declare<G>("first_births", Kind::date, "Date on which the first births fall.", yours);
  key.optional = true;
  key.get = [](const G& group, const S& s) -> Value {
    if (group.breeding.first_birth_day < 0.0) return {};
    return start_day(s) + static_cast<std::int64_t>(group.breeding.first_birth_day);
  };
  key.set = [](G& group, const Value& value, const S& s) -> std::optional<std::string> {
    const std::int64_t* date = std::get_if<std::int64_t>(&value);
    if (date != nullptr && *date < start_day(s)) return "must not lie before run.start; state the next births, and births_before = true for young of the last that are still there";
    if (date != nullptr && beyond(*date, s)) return std::string(too_late);
    group.breeding.first_birth_day = date == nullptr ? -1.0 : static_cast<double>(*date - start_day(s));
    return std::nullopt;
  };
  return std::move(key).instead({"first_births_day"});
}

/// A date another way than by the day of the run.
template <double herd::Stay::*Day>
Key<G> stay_date(std::string_view name, std::string_view sentence, std::string_view instead_of) {
  Key<G> key = declare<G>(name, Kind::date, sentence, yours);
  key.optional = true;
  key.get = [](const G& group, const S& s) -> Value {
    if (group.stay.*Day < 0.0) return {};
    return start_day(s) + static_cast<std::int64_t>(group.stay.*Day);
  };
  key.set = [](G& group, const Value& value, const S& s) -> std::optional<std::string> {
    const std::int64_t* date = std::get_if<std::int64_t>(&value);
    if (date != nullptr && *date < start_day(s)) return "must not lie before run.start; a group that is there by then needs no such date, and one that comes and goes each year the next one";
    if (date != nullptr && beyond(*date, s)) return std::string(too_late);
    group.stay.*Day = date == nullptr ? -1.0 : static_cast<double>(*date - start_day(s));
    return std::nullopt;
  };
  return std::move(key).instead({instead_of});
}

}  // namespace

Table<S> keeper_keys() {
  return {
      clock<S>("keeper.morning", AT(keeper.morning), "When the morning feeding is.", yours),
      clock<S>("keeper.evening", AT(keeper.evening), "When the evening feeding is.", yours),
      real<S>("keeper.minutes_per_day", {5.0, 1440.0}, AT(keeper.minutes_per_day),
              "Time you have for the line; what there is no time for is left undone. A plain number is minutes.", yours).in("min").bare_number(),
      real<S>("keeper.evening_minutes", {0.0, 1440.0}, AT(keeper.evening_minutes),
              "So many of those minutes are in the evening and no others, and the rest in the morning; \"none\": as the work falls. A plain number is minutes.", yours)
          .in("min").bare_number(),
      real<S>("keeper.miss_chance", {0.0, 0.5}, AT(keeper.miss_chance),
              "Chance that a whole feeding round is missed.", "assumed"),
      flag<S>("keeper.second_keeper", AT(keeper.second_keeper),
              "Whether somebody else who knows the line holds the round when the keeper cannot.", yours),
      real<S>("keeper.notice_spoiled", {0.0, 1.0}, AT(keeper.notice_spoiled),
              "Chance that a spoiled mat is seen and thrown out.", "assumed"),
      option<S>("keeper.handling", {"ladder", "fixed"}, AT(keeper.handling),
                "All trays move a place each day, or each stays where it was sown.", yours),
      real<S>("keeper.soak_per_batch", {0.0, 240.0}, AT(keeper.times.soak_per_batch),
              "Time to put one batch to soak.", practice).in("min"),
      real<S>("keeper.drain_per_batch", {0.0, 240.0}, AT(keeper.times.drain_per_batch),
              "Time to drain it.", practice).in("min"),
      real<S>("keeper.sow_per_tray", {0.0, 60.0}, AT(keeper.times.sow_per_tray),
              "Time to sow a tray.", practice).in("min"),
      real<S>("keeper.move_per_tray", {0.0, 60.0}, AT(keeper.times.move_per_tray),
              "Time to move a tray one place.", practice).in("min"),
      real<S>("keeper.harvest_per_tray", {0.0, 60.0}, AT(keeper.times.harvest_per_tray),
              "Time to harvest a tray.", practice).in("min"),
      real<S>("keeper.feed_per_group", {0.0, 240.0}, AT(keeper.times.feed_per_group),
              "Time to feed a group.", practice).in("min"),
      real<S>("keeper.wash_per_tray", {0.0, 60.0}, AT(keeper.times.wash_per_tray),
              "Time to wash a tray.", practice).in("min"),
      real<S>("keeper.walking_speed", {5.0, 200.0}, AT(keeper.times.walking_speed),
              "Walking speed when loaded.", practice).in("m/min"),
      real<S>("keeper.store_to_soak", {0.0, 2000.0}, AT(keeper.store_to_soak),
              "Way from grain store to soak buckets.", yours),
      real<S>("keeper.soak_to_rack", {0.0, 2000.0}, AT(keeper.soak_to_rack), "Way from soak buckets to rack.", yours),
      real<S>("keeper.rack_to_animals", {0.0, 5000.0}, AT(keeper.rack_to_animals), "Way from rack to animals.", yours),
      real<S>("keeper.animals_to_wash", {0.0, 5000.0}, AT(keeper.animals_to_wash),
              "Way from animals to the washing place.", yours),
      whole<S>("keeper.soak_buckets", {1, 200}, AT(keeper.soak_buckets), "Buckets for soaking.", yours),
      real<S>("keeper.trays_per_bucket", {0.1, 200.0}, AT(keeper.trays_per_bucket),
              "Trays' worth of grain one bucket takes.", yours),
      real<S>("keeper.wash_trays", {1.0, 10000.0}, AT(keeper.wash_trays_per_day),
              "Trays a day that the washing place takes.", "assumed"),
  };
}

const Table<G>& group_keys() {
  static const Table<G> table{
      text<G>("name", AT(name), "What you call this group.", yours).must(),
      text<G>("class", AT(animal_class), "Kind of animal.", yours).must(),
      whole<G>("count", {0, 100000}, AT(count), "How many head, grown animals.", yours).must(),
      real<G>("ration", {0.0, 100.0}, AT(ration), "Fresh fodder a head a day; \"none\": by share.", yours).or_in("kg/d"),
      real<G>("share", {0.0, 1.0}, AT(share), "Share of the dry matter eaten that is to be sprouted fodder.", practice),
      real<G>("weight", {0.02, 1500.0}, AT(weight), "Live weight; \"none\": usual for the class.", yours),
      real<G>("milk", {0.0, 80.0}, AT(milk), "Milk a head a day, where the class milks; \"none\": usual for the class.",
              yours).or_in("kg/d"),
      whole<G>("feedings", {1, 2}, AT(feedings), "Feedings a day: 1 mornings, 2 mornings and evenings.", yours),
      real<G>("demand_spread", {0.0, 1.0}, AT(demand_sd), "Day-to-day spread of appetite.", "assumed"),
      real<G>("introduction", {0.0, 24.0 * 60.0}, AT(introduction),
              "Time over which the ration is brought in, from the first day with fodder on, and each time the group arrives; 7 to 14 d for a new feed.", practice).show("d"),
      real<G>("arrives_day", {-1.0, last_group_day}, AT(stay.arrives),
              "Day of the run from which the group is fed here; -1 for here from the start.", yours),
      stay_date<&herd::Stay::arrives>("arrives", "Date from which the group is fed here: bought, lent, or back from grass.", "arrives_day"),
      real<G>("leaves_day", {-1.0, last_group_day}, AT(stay.leaves), "Day of the run from which it is not; -1 for never.", yours),
      stay_date<&herd::Stay::leaves>("leaves", "Date from which it is not: sold, or out at grass. One that leaves before it arrives is there at first, and again.",
                "leaves_day"),
      flag<G>("stays_each_year", AT(stay.each_year), "Whether it arrives and leaves on those dates every year.", yours),
      real<G>("first_births_day", {-1.0, last_group_day}, AT(breeding.first_birth_day),
              "Day of the run on which the first births fall; -1 for none.", yours),
      first_births_key(),
      real<G>("births_every", {24.0 * 20.0, 24.0 * 2000.0}, AT(breeding.every),
              "Time between birth seasons.", yours).show("d"),
      flag<G>("births_before", AT(breeding.before),
              "Whether the herd gave birth at this interval before first_births too, so that young of an earlier season may stand there when the run starts.", yours),
      real<G>("birth_spread", {0.0, 365.0}, AT(breeding.spread_days),
              "Time over which a season's births are spread.", "assumed").in("d"),
      real<G>("conception", {0.0, 1.0}, AT(breeding.conception), "Share of females that give birth.", "assumed"),
      real<G>("litter", {0.0, 40.0}, AT(litter), "Young born to each, mean; \"none\": usual for the class.", yours),
      real<G>("litter_spread", {0.0, 20.0}, AT(breeding.litter_sd), "Spread of it (standard deviation).", "assumed"),
      real<G>("young_death", {0.0, 1.0}, AT(breeding.neonatal_death), "Share of young lost before weaning.", "assumed"),
      real<G>("weaning", {0.0, 24.0 * 1000.0}, AT(breeding.weaning),
              "Age at which young begin to want fodder.", yours).show("d"),
      real<G>("sale", {24.0, 24.0 * 3000.0}, AT(breeding.sale), "Age at which they leave.", yours).show("d"),
      real<G>("yearly_death", {0.0, 0.9}, AT(yearly_death), "Share of grown animals lost in a year.", "assumed"),
      real<G>("growth", {-0.5, 2.0}, AT(growth), "How much the number of grown animals grows in a year.", yours),
  };
  return table;
}

}  // namespace rackwright::keys
