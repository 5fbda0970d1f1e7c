// One tray in a room of constant temperature, from soak to harvest: the same functions, composed the same way, as a
// replication uses hour by hour.

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "models/germination/germination.hpp"
#include "models/grain/species.hpp"
#include "models/growth/mat.hpp"
#include "models/soak/uptake.hpp"
#include "models/spoilage/hazard.hpp"
#include "sim/app/evaluate_biology.hpp"

namespace rackwright::app {
namespace {

// The tray as asked for, with the presets it needs.
struct TrayCase {
  germination::Parameters germination;
  growth::Parameters growth;
  soak::Effect soak;
  Celsius room;
  KilogramsPerSquareMetre density;
  double days = 0.0, fraction = 0.0, grain_dry_matter = 0.0, relative_humidity = 0.0;
};

// Chance that this risk comes first.
struct Spoiled {
  double mould = 0.0, sour = 0.0;
};

// What grows when: the soak's net start shifts both clocks, which otherwise run at the room's rates.
double growth_days_at(const TrayCase& tray, double age_days) {
  const double start = (tray.soak.head_start - tray.soak.delay) / 24.0;
  return std::max(0.0, start + growth::growth_rate(tray.growth, tray.room) * age_days);
}

double germinable(const TrayCase& tray) {
  return tray.fraction * tray.soak.survival * germination::fraction(tray.germination, tray.room);
}

double sprouted_at(const TrayCase& tray, double age_days) {
  const double start =
      (tray.soak.head_start - tray.soak.delay) / 24.0 * germination::rate(tray.germination, Celsius(20.0));
  const double progress = start + germination::rate(tray.germination, tray.room) * age_days;
  return germinable(tray) * germination::share_germinated(tray.germination, progress);
}

Kelvins excess_at(const TrayCase& tray, double growth_days) {
  const double rate = growth::growth_rate(tray.growth, tray.room);
  const double per_kg = growth::heat_watts(tray.growth, growth_days, germinable(tray), rate, tray.grain_dry_matter);
  return growth::mat_excess(per_kg * tray.density.value());
}

// Competing risks over the tray's age, hour by hour, at the temperature of the mat.
Spoiled spoil(const TrayCase& tray, double& warmest_excess) {
  const spoilage::Parameters parameters;
  const double growing = growth::growing_share(tray.growth, germinable(tray), tray.density);
  const spoilage::Onset onset = spoilage::onset(parameters);
  const spoilage::Tray state{.dead_fraction = 1.0 - growing,
                             .density = tray.density,
                             .relative_humidity = tray.relative_humidity,
                             .soak_stress = tray.soak.stress};
  const double mould_rate = spoilage::mould_multiplier(parameters, state);
  const double sour_rate = spoilage::sour_multiplier(parameters, state);
  const int steps = std::max(1, static_cast<int>(std::ceil(24.0 * tray.days)));
  const double step = tray.days / steps;
  Spoiled result;
  double sound = 1.0;
  warmest_excess = 0.0;
  for (int i = 0; i < steps; ++i) {
    const double age = growth_days_at(tray, (i + 0.5) * step);
    const Kelvins excess = excess_at(tray, age);
    warmest_excess = std::max(warmest_excess, excess.value());
    const Celsius mat = tray.room + excess;
    const double mould = mould_rate * spoilage::growth_factor(parameters.mould, mat) * spoilage::onset_factor(onset, age);
    const double sour = sour_rate * spoilage::growth_factor(parameters.sour, mat);
    const double lost = sound * spoilage::spoiled_probability((mould + sour) * step);
    if (mould + sour > 0.0) {
      result.mould += lost * mould / (mould + sour);
      result.sour += lost * sour / (mould + sour);
    }
    sound -= lost;
  }
  return result;
}

TrayCase tray_of(const Arguments& given) {
  const grain::Species species = preset_of(given, grain::find_species);
  TrayCase tray;
  tray.germination = preset_of(given, germination::preset);
  tray.growth = preset_of(given, growth::preset);
  tray.room = Celsius(given.number("temperature"));
  tray.density = KilogramsPerSquareMetre(given.number("sowing_density"));
  tray.days = given.number("days");
  tray.fraction = given.number("fraction");
  tray.relative_humidity = given.number("relative_humidity") / 100.0;
  tray.grain_dry_matter = 1.0 - species.store_moisture;
  // The soak bucket stands in the same room unless its water is given; it does not freeze.
  const double water = given.has("soak_water") ? given.number("soak_water") : std::max(0.0, tray.room.value());
  tray.soak =
      soak::effect(preset_of(given, soak::preset), Celsius(water), species.store_moisture, Hours(given.number("soak")));
  return tray;
}

constexpr double oldest_known = 15.0;  // growth days, at 20 degC; the page states 12, and a soak goes before

std::vector<Result> run_mat(const Arguments& given) {
  const TrayCase tray = tray_of(given);
  const double first = growth_days_at(tray, 0.0), last = growth_days_at(tray, tray.days);
  if (last > oldest_known)
    throw BadArguments{fmt::format("a mat of {:.0f} growth days is past what the model knows (to {:.0f}: {:.1f} days here)", last, oldest_known,
                                   tray.days - (last - oldest_known) / growth::growth_rate(tray.growth, tray.room))};
  const double sprouted = sprouted_at(tray, tray.days);
  const growth::Mat mat = growth::mat(tray.growth, last, sprouted, tray.density, tray.grain_dry_matter);
  // The integral of heat over the days is the respired dry matter's.
  const double respired = tray.growth.respired_share * tray.grain_dry_matter * sprouted *
                          (growth::loss(tray.growth, last) - growth::loss(tray.growth, first));
  const double mean_heat = respired * growth::respiration_heat_mj * 1e6 / (tray.days * 86400.0);
  double excess = 0.0;
  const Spoiled spoiled = spoil(tray, excess);
  return {{"fresh_ratio", mat.fresh_ratio, "1"},
          {"dry_matter", 100.0 * mat.dry_matter, "%"},
          {"dry_matter_loss", 100.0 * mat.dry_matter_loss, "%"},
          {"height", mat.height_cm, "cm"},
          {"water", mat.water_litres / mat.fresh_ratio, "L/kg"},
          {"heat", mean_heat, "W/kg"},
          {"mat_excess", excess, "K"},
          {"spoiled_mould", 100.0 * spoiled.mould, "%"},
          {"spoiled_sour", 100.0 * spoiled.sour, "%"}};
}

}  // namespace

Evaluator mat_evaluator() {
  return {.name = "mat",
          .sentence =
              "One tray at a constant temperature: yield, dry matter, height, net water per kg fresh, mean heat per kg "
              "grain of what has sprouted at harvest, the largest warming of the mat at the middle of any hour (all that will "
              "sprout counts from sowing), and the chance of each kind of spoiling.",
          .source =
              "levels: Dung et al. 2010; Al-Karaki & Al-Hashimi 2012; Soder & Heins 2016; shapes and all spoilage "
              "rates assumed",
          .arguments = {species_argument(),
                        quantity("temperature", "degC", "20", -60.0, 45.0, "of the room; in the cold nothing grows (evaluate frost tells what dies)"),
                        quantity("days", "d", "7", 0.01, 60.0, "from sowing to harvest"),
                        quantity("sowing_density", "kg/m2", "5", 0.1, 50.0, "dry grain per tray area"),
                        quantity("soak", "h", "10", 0.0, 240.0, "time in the soak"),
                        quantity("fraction", "1", "0.94", 0.0, 1.0, "of the lot germinable at the best temperature"),
                        {.name = "soak_water",
                         .unit = "degC",
                         .standard = "",
                         .least = 0.0,
                         .most = 60.0,
                         .sentence = "temperature of the soak, known for 5 to 35 degC (hot water kills grain, which is not told); the room's when left out",
                         .optional = true},
                        quantity("relative_humidity", "%", "70", 0.0, 100.0, "of the room's air")},
          .run = run_mat};
}

}  // namespace rackwright::app
