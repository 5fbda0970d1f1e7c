#include "sim/scenario/cautions_usual.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "models/design/rack.hpp"
#include "models/herd/animals.hpp"
#include "sim/scenario/names.hpp"
#include "sim/scenario/sowing_order.hpp"
#include "sim/scenario/store_policy.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright {
namespace {

using Lines = std::vector<std::string>;

std::string amount(const Scenario& s, double value, std::string_view unit) { return write_quantity(value, unit, s.units == Units::us, 3); }

/// Gestations are those of the classes (veterinary manuals, from memory). A rabbit may be mated on the day she gives birth and a mare within a
/// fortnight of it; others are not in heat again for a month or more (common practice, no source).
void births_apart(const Scenario& s, Lines& out) {
  constexpr double rest = 30.0;
  for (const Group& group : s.groups) {
    const auto kind = herd::find_class(group.animal_class);
    if (group.breeding.first_birth_day < 0.0 || group.count <= 0 || !kind || kind->gestation.value() <= 0.0) continue;
    const double every = in_days(group.breeding.every), carried = in_days(kind->gestation);
    const bool soon_again = kind->species == "rabbit" || kind->species == "horse";
    if (every < carried) {
      out.push_back(fmt::format("{}: births every {:.3g} d, but they carry their young for about {:.3g} d: no animal gives birth so often. If parts of the herd take "
                                "turns, write a [[group]] for each part.",
                                group.name, every, carried));
    } else if (!soon_again && every < carried + rest) {
      out.push_back(fmt::format("{}: births every {:.3g} d leave {:.3g} d between a birth and the next mating (they carry their young for about {:.3g} d): few are in "
                                "heat again so soon.",
                                group.name, every, every - carried, carried));
    }
  }
}

/// Trials sowed 4 to 8 kg/m2 (Sneath & McIntosh 2003, from memory; 4.0 to 6.5 in an Egyptian one); keepers 3 to 8 (common practice, no source).
void sowing_density(const Scenario& s, Lines& out) {
  constexpr double thin = 2.0, thick = 10.0;
  const double density = s.line.sowing_density.value();
  if (density >= thin && density <= thick) return;
  out.push_back(fmt::format("{} is sown, where 3 to 8 kg/m2 (0.6 to 1.6 lb/ft2) is usual: no trial tells how so {} a mat grows and spoils, so rely little on what is "
                            "worked out here.",
                            amount(s, density, "kg/m2"), density < thin ? "thin" : "thick"));
}

/// The range of docs/models/soak.md.
void soak_water(const Scenario& s, Lines& out) {
  constexpr double coldest = 5.0, warmest = 35.0;
  const double water = s.line.soak_water.value();
  if (water >= coldest && water <= warmest) return;
  out.push_back(fmt::format("Soak water of {}: what is known of soaking is for {} to {}{}.", amount(s, water, "degC"), amount(s, coldest, "degC"),
                            amount(s, warmest, "degC"), water > warmest ? "; warmer water kills grain within hours, which is not worked out here" : ""));
}

/// A floor has no shape here: told where a tier is twice as long as a square one's side.
void rack_length(const Scenario& s, Lines& out) {
  const double tier = s.rack.trays_per_tier * s.rack.tray_width.value(), side = std::sqrt(s.room.floor_area.value());
  if (tier <= 2.0 * side || design::footprint(s.rack) > s.room.floor_area) return;  // told otherwise
  out.push_back(fmt::format("A tier of {} trays side by side is {} long; a square room of {} is only {} long. See that it goes in, or set up two shorter racks.",
                            s.rack.trays_per_tier, amount(s, tier, "m"), amount(s, s.room.floor_area.value(), "m2"), amount(s, side, "m")));
}

/// Grain sown while an order is on its way, on average.
void ordered_too_late(const Scenario& s, Lines& out) {
  if (s.line.sow != SowRule::all) return;  // how much is sown is not said beforehand
  for (std::size_t i = 0; i < s.grains.size(); ++i) {
    const GrainSupply& grain = s.grains[i];
    const double a_day = most_sown_a_day(s, i);
    const double used = a_day * in_days(grain.store.delivery), ordered_at = policy_in_use(grain).reorder_point.value();
    // Orders are whole bags that go into the bin beside what is left.
    const double fits_at = grain.store.bin.value() - grain.store.bag.value();
    if (used > fits_at && fits_at < ordered_at && a_day > 0.0) {
      out.push_back(fmt::format("{}: a bag of {} goes into the bin only when {} or less are left there, whatever reorder says, and {} are sown in the {:.3g} d that a delivery "
                                "takes: it runs out by plan. Take a larger bin, or smaller bags.",
                                keys::grain_head(s, i), amount(s, grain.store.bag.value(), "kg"), amount(s, std::max(0.0, fits_at), "kg"), amount(s, used, "kg"),
                                in_days(grain.store.delivery)));
      continue;
    }
    if (!(used > ordered_at)) continue;
    out.push_back(fmt::format("{}: ordered when {} are left, but {} are sown in the {:.3g} d that a delivery takes: it runs out by plan. Set reorder to more than that, "
                              "and to more again for late deliveries.",
                              keys::grain_head(s, i), amount(s, ordered_at, "kg"), amount(s, used, "kg"), in_days(grain.store.delivery)));
  }
}

/// "0.95 %" is written where 95 % is meant.
void hardly_a_share(const Scenario& s, Lines& out) {
  const auto told = [&](const char* key, double share, double least) {
    if (share > 0.0 && share < least)
      out.push_back(fmt::format("{} is {:.3g} %: is {:.3g} % meant? A share is written 0.95 or \"95 %\".", key, 100.0 * share, 1e4 * share));
  };
  constexpr double mistaken = 0.0101;
  told("target.fill_rate", s.target.fill_rate, mistaken);
  told("target.years", s.target.years, mistaken);
  told("line.wash", s.line.wash, mistaken);
  told("keeper.notice_spoiled", s.keeper.notice_spoiled, mistaken);
  told("room.shade", s.room.shade, mistaken);
}

}  // namespace

void unusual_cautions(const Scenario& scenario, std::vector<std::string>& out) {
  births_apart(scenario, out);
  sowing_density(scenario, out);
  soak_water(scenario, out);
  rack_length(scenario, out);
  ordered_too_late(scenario, out);
  hardly_a_share(scenario, out);
}

}  // namespace rackwright
