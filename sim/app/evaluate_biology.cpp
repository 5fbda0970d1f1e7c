// Grain, soak, germination and mould behind `evaluate`. The mat, which composes several of them, has its own file.

#include "sim/app/evaluate_biology.hpp"

#include <fmt/format.h>

#include "models/germination/germination.hpp"
#include "models/grain/species.hpp"
#include "models/soak/uptake.hpp"
#include "models/spoilage/hazard.hpp"
#include "sim/app/say.hpp"
#include "sim/scenario/suggest.hpp"

namespace rackwright::app {

std::vector<Evaluator> biology_evaluators() {
  return {viability_evaluator(), soak_evaluator(),           germination_evaluator(),       mould_growth_evaluator(),
          mat_evaluator(),       test_tolerance_evaluator(), germination_trial_evaluator(), grade_evaluator(),
          lot_rule_evaluator(), grain_mass_evaluator()};
}

Argument species_argument() {
  return {
      .name = "species", .unit = "", .standard = "barley", .sentence = "barley, wheat, oat, rye, triticale or maize"};
}

Argument quantity(std::string_view name, std::string_view unit, std::string_view standard, double least, double most,
                  std::string_view sentence) {
  return {.name = name, .unit = unit, .standard = standard, .least = least, .most = most, .sentence = sentence};
}

Argument count(std::string_view name, std::string_view standard, double least, double most, std::string_view sentence) {
  Argument argument = quantity(name, "1", standard, least, most, sentence);
  argument.whole = true;
  return argument;
}

void refuse_species(const std::string& name) {
  std::string known;
  for (const grain::Species& species : grain::all_species()) {
    known += (known.empty() ? "" : ", ") + std::string(species.name);
  }
  std::vector<std::string> names;
  for (const grain::Species& species : grain::all_species()) names.emplace_back(species.name);
  throw BadArguments{"no species is called \"" + name + "\"" + did_you_mean(nearest(name, names)) + "; known are " + known};
}

Evaluator soak_evaluator() {
  return {
      .name = "soak",
      .sentence = "Moisture of grain after a time in water, and what that soak is worth once sown: its head start less its delay, in hours at "
                  "20 degC, its stress, and the share of the germinable that it keeps. Known for 5 to 35 degC and 8 to 16 % at the start; "
                  "hot water kills grain, which is not told.",
      .source =
          "Becker 1960, Cereal Chem. 37:309-323 (wheat); Mok et al. 1983 (barley's activation energy); others borrowed; "
          "worth of a soak assumed (docs/models/soak.md)",
      .arguments = {species_argument(), quantity("temperature", "degC", "", 0.0, 60.0, "of the water"),
                    quantity("start_moisture", "%", "12", 0.0, 40.0, "of the grain, wet basis"),
                    quantity("time", "h", "", 0.0, 240.0, "in the water")},
      .run = [](const Arguments& given) -> std::vector<Result> {
        const soak::Parameters parameters = preset_of(given, soak::preset);
        const Celsius water(given.number("temperature"));
        const double start = given.number("start_moisture") / 100.0;
        const soak::Effect effect = soak::effect(parameters, water, start, Hours(given.number("time")));
        return {{"moisture", 100.0 * effect.moisture, "%"},
                {"diffusivity", soak::diffusivity(parameters, water), "cm2/s"},
                {"head_start", effect.head_start, "h"},
                {"delay", effect.delay, "h"},
                {"stress", effect.stress, "1"},
                {"survival", 100.0 * effect.survival, "%"}};
      }};
}

Evaluator germination_evaluator() {
  return {.name = "germination",
          .sentence = "Share of grain germinated at a constant temperature. Where it stands still, frozen (-2 degC and below) or too warm, "
                      "final_fraction is 0 and median_time never (null with --json). Barley is known for 1 to 35 degC.",
          .source =
              "Rowse & Finch-Savage 2003, fitted to barley counts of Onofri et al. 2018, Eur. J. Agron. 101:129-139; "
              "others borrowed",
          .arguments = {species_argument(), quantity("temperature", "degC", "", -20.0, 60.0, "of the wet grain"),
                        quantity("time", "d", "7", 0.0, 365.0, "since wetting"),
                        quantity("fraction", "1", "1", 0.0, 1.0, "germinable at the best temperature")},
          .run = [](const Arguments& given) -> std::vector<Result> {
            const germination::Parameters parameters = preset_of(given, germination::preset);
            const germination::Constant constant = germination::at_constant(
                parameters, Celsius(given.number("temperature")), days(given.number("time")), given.number("fraction"));
            return {{"median_time", in_days(constant.median_time), "d"},
                    {"final_fraction", constant.final_fraction, "1"},
                    {"germinated", constant.germinated, "1"}};
          }};
}

Evaluator mould_growth_evaluator() {
  const auto cardinal = [](std::string_view name, std::string_view sentence) {
    return Argument{.name = name, .unit = "degC", .standard = "", .least = -40.0, .most = 120.0, .sentence = sentence};
  };
  return {
      .name = "mould-growth",
      .sentence = "Growth of a mould relative to its best temperature.",
      .source = "Rosso, Lobry & Flandrois 1993, J. Theor. Biol. 162:447-463",
      .arguments = {cardinal("tmin", "no growth below"), cardinal("topt", "growth fastest"),
                    cardinal("tmax", "no growth above"), cardinal("temperature", "of the mould")},
      .run = [](const Arguments& given) -> std::vector<Result> {
        const double least = given.number("tmin"), best = given.number("topt"), most = given.number("tmax");
        if (!(least < best && best < most)) throw BadArguments{"tmin, topt and tmax must rise in that order"};
        if (2.0 * best < least + most) {
          throw BadArguments{fmt::format(
              "topt must not lie below the middle of tmin and tmax ({:g} degC): the curve has no value there",
              (least + most) / 2.0)};
        }
        const spoilage::Cardinal mould{Celsius(least), Celsius(best), Celsius(most), 1.0};
        return {{"factor", spoilage::growth_factor(mould, Celsius(given.number("temperature"))), "1"}};
      }};
}

Evaluator grain_mass_evaluator() {
  return {.name = "grain-mass",
          .sentence = "Mass of a volume of loose grain.",
          .source = "bulk densities as a combine harvester's manual has them, up to 0.3 % above the legal bushel weights over 35.239 L; "
                    "triticale the crop insurers' 50 lb, as much above; a lot may lie a tenth to either side (docs/models/grain.md)",
          .arguments = {species_argument(), quantity("volume", "m3", "", 0.0, 1e5, "of loose grain")},
          .run = [](const Arguments& given) -> std::vector<Result> {
            const grain::Species species = preset_of(given, grain::find_species);
            return {{"mass", grain::mass_of_volume(species, CubicMetres(given.number("volume"))).value(), "kg"}};
          }};
}

}  // namespace rackwright::app
