// One tray in a room of constant temperature, from soak to harvest: the same functions, composed the same way, as a
// replication uses morning by morning.

#include <algorithm>

#include <fmt/format.h>

#include "sim/app/evaluate_biology.hpp"
#include "sim/app/evaluate_tray.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright::app {
namespace {

SteadyTray tray_of(const Arguments& given) {
  SteadyTray tray;
  tray.germination = preset_of(given, germination::preset);
  tray.growth = preset_of(given, growth::preset);
  tray.air = Celsius(given.number("temperature"));
  tray.own_warmth = !given.has("own_warmth") || given.yes("own_warmth");
  tray.density = KilogramsPerSquareMetre(given.number("sowing_density"));
  tray.days = given.number("days");
  tray.fraction = given.number("fraction");
  if (given.has("vigour")) tray.vigour = given.number("vigour");
  tray.relative_humidity = given.number("relative_humidity") / 100.0;
  tray.undrained = 1.0 - (given.has("drainage") ? given.number("drainage") : Line{}.drainage);
  const double moisture = given.has("moisture") ? given.number("moisture") / 100.0 : GrainSupply{}.moisture;
  tray.grain_dry_matter = 1.0 - moisture;
  // The soak bucket stands in the same room unless its water is given; it does not freeze.
  const double water = given.has("soak_water") ? given.number("soak_water") : std::max(0.0, tray.air.value());
  tray.soak = soak::effect(preset_of(given, soak::preset), Celsius(water), moisture, Hours(given.number("soak")));
  return tray;
}

constexpr double oldest_known = 15.0;  // growth days, at 20 degC; the page states 12, and a soak goes before

std::vector<Result> run_mat(const Arguments& given) {
  const SteadyTray tray = tray_of(given);
  const SteadyEnd end = grow(tray);
  if (end.growth_days > oldest_known)
    throw BadArguments{fmt::format("a mat of {:.0f} growth days is past what the model knows (to {:.0f}: {:.1f} days here)", end.growth_days, oldest_known,
                                   days_until(tray, oldest_known).value_or(tray.days))};
  // The integral of heat over the days is the respired dry matter's.
  const double respired = tray.growth.respired_share * tray.grain_dry_matter * end.sprouted *
                          (growth::loss(tray.growth, end.growth_days) - growth::loss(tray.growth, end.first_growth_days));
  const double mean_heat = respired * growth::respiration_heat_mj * 1e6 / (tray.days * 86400.0);
  return {{"fresh_ratio", end.mat.fresh_ratio, "1"},
          {"dry_matter", 100.0 * end.mat.dry_matter, "%"},
          {"dry_matter_loss", 100.0 * end.mat.dry_matter_loss, "%"},
          {"height", end.mat.height_cm, "cm"},
          {"water", end.mat.water_litres / end.mat.fresh_ratio, "L/kg"},
          {"heat", mean_heat, "W/kg"},
          {"mat_excess", end.excess.value(), "K"},
          {"sprouted", 100.0 * end.sprouted, "%"},
          {"growth_days", end.growth_days, "d"},
          {"spoiled_mould", 100.0 * end.mould, "%"},
          {"spoiled_sour", 100.0 * end.sour, "%"}};
}

}  // namespace

Evaluator mat_evaluator() {
  return {.name = "mat",
          .sentence =
              "One tray in a room of constant temperature, warming itself as in the simulator: yield, dry matter, height, net water per kg fresh, mean heat "
              "per kg grain of what has sprouted at harvest, the most that the mat was warmer than the air on a day, the share of the grain that has "
              "sprouted, its age in days at 20 degC (a soak counts), and the chance of each kind of spoiling.",
          .source =
              "levels: Dung et al. 2010; Al-Karaki & Al-Hashimi 2012; Soder & Heins 2016; shapes and all spoilage "
              "rates assumed",
          .arguments = {species_argument(),
                        quantity("temperature", "degC", "20", -60.0, 45.0, "of the room's air; in the cold nothing grows (evaluate frost tells what dies)"),
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
                        quantity("relative_humidity", "%", "70", 0.0, 100.0, "of the room's air"),
                        {.name = "moisture", .unit = "%", .standard = "", .least = 3.0, .most = 25.0, .sentence = "of the grain, wet basis; 12 % when left out", .optional = true},
                        {.name = "drainage", .unit = "1", .standard = "", .least = 0.0, .most = 1.0,
                         .sentence = "of the trays: 1 drains freely, 0 stands in water; 0.95 when left out", .optional = true},
                        {.name = "vigour", .unit = "1", .standard = "", .least = 0.1, .most = 10.0,
                         .sentence = "of the lot: so many times as fast to germinate as usual, and its mats so much sooner; 1 when left out", .optional = true},
                        {.name = "own_warmth", .unit = "", .standard = "",
                         .sentence = "yes: the mat warms itself above the room's air, as in the simulator; no: it is held at the temperature; yes when left out", .optional = true}},
          .run = run_mat};
}

}  // namespace rackwright::app
