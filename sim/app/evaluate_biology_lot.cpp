// A lot's ageing and its trials behind `evaluate`.

#include <array>
#include <cmath>
#include <string>

#include "models/grain/lot.hpp"
#include "models/grain/viability.hpp"
#include "sim/app/evaluate_biology.hpp"

namespace rackwright::app {
namespace {

// The species' published constants, or the four given; not both.
grain::ViabilityConstants constants_of(const Arguments& given) {
  const bool own = given.has("ke") || given.has("cw") || given.has("ch") || given.has("cq");
  if (own && given.has("species")) throw BadArguments{"give either species or ke, cw, ch and cq, not both"};
  if (given.has("species")) return preset_of(given, grain::viability_constants);
  if (!given.has("ke") || !given.has("cw")) throw BadArguments{"give species, or ke and cw (and ch and cq)"};
  grain::ViabilityConstants constants;  // ch and cq default to the universal 0.0329 and 0.000478
  constants.ke = given.number("ke");
  constants.cw = given.number("cw");
  if (given.has("ch")) constants.ch = given.number("ch");
  if (given.has("cq")) constants.cq = given.number("cq");
  return constants;
}

std::vector<Result> run_viability(const Arguments& given) {
  const grain::ViabilityConstants constants = constants_of(given);
  const double initial = given.number("initial") / 100.0;
  const double sigma = grain::sigma_days(constants, given.number("moisture"), Celsius(given.number("temperature")));
  const double left = grain::viability_after(initial, given.number("storage") / sigma);
  return {{"sigma", sigma, "d"},
          {"half_life", in_days(grain::half_life(initial, sigma)), "d"},
          {"viability", 100.0 * left, "%"}};
}

struct Prior {
  std::string_view name;
  double germinated, failed;
};

// weak: every fraction alike. jeffreys: the usual reference prior. feed-grade: mean 85 %, worth ten kernels, as wide as
// feed lots are (60 to 95 %). seed-grade: mean 92 %, worth 25. The last two are assumed.
constexpr std::array<Prior, 4> priors{
    {{"weak", 1.0, 1.0}, {"jeffreys", 0.5, 0.5}, {"feed-grade", 8.5, 1.5}, {"seed-grade", 23.0, 2.0}}};

std::vector<Result> run_trial(const Arguments& given) {
  const int germinated = static_cast<int>(given.number("germinated"));
  const int sown = static_cast<int>(given.number("sown"));
  if (germinated > sown) throw BadArguments{"germinated must not exceed sown"};
  for (const Prior& prior : priors) {
    if (prior.name != given.word("prior")) continue;
    const grain::TrialPosterior posterior = grain::trial_posterior(germinated, sown, prior.germinated, prior.failed);
    return {{"mean", 100.0 * posterior.mean, "%"},
            {"low", 100.0 * posterior.low, "%"},
            {"high", 100.0 * posterior.high, "%"}};
  }
  throw BadArguments{"prior is weak, jeffreys, feed-grade or seed-grade"};
}

std::vector<Result> run_tolerance(const Arguments& given) {
  const int replicates = static_cast<int>(given.number("replicates"));
  if (replicates != 2 && replicates != 4) throw BadArguments{"the table is for 2 or 4 replicates of 100"};
  const double range = grain::tolerated_range(given.number("mean"), replicates);
  if (range < 0.0) throw BadArguments{replicates == 4 ? "the table for four replicates runs from 2 to 99 %; beyond that, any replicate that "
                                              "differs by more than a few kernels is worth a second look"
                                            : "the table for two replicates runs from 4 to 30 % and from 71 to 97 %"};
  return {{"max_range", range, "%"}};
}

}  // namespace

Evaluator viability_evaluator() {
  const auto constant = [](std::string_view name, double least, double most, std::string_view sentence) {
    return Argument{.name = name,
                    .unit = "1",
                    .standard = "",
                    .least = least,
                    .most = most,
                    .sentence = sentence,
                    .optional = true};
  };
  Argument species = species_argument();
  species.standard = "";
  species.optional = true;
  return {.name = "viability",
          .sentence = "What is left of a lot's germination after a time in store.",
          .source =
              "Ellis & Roberts 1980, Ann. Bot. 45:13-30; constants compiled by Hong, Linington & Ellis 1996, wheat and "
              "maize Ellis et al. 2007 as a table of constants has them; the abstract of Ellis & Hong 2007 prefers others, a fifth shorter in life "
              "at 12 % and 20 degC; good to a factor of two (docs/models/grain.md)",
          .arguments = {species, constant("ke", 0.0, 20.0, "species constant K_E"),
                        constant("cw", 0.0, 15.0, "moisture constant C_W"),
                        constant("ch", 0.0, 0.2, "temperature constant C_H [1/degC]; 0.0329 when left out"),
                        constant("cq", 0.0, 0.01, "temperature constant C_Q [1/degC2]; 0.000478 when left out"),
                        quantity("moisture", "%", "", 3.0, 25.0,
                                 "of the grain, wet basis; the equation was fitted between 5 and 25 %"),
                        quantity("temperature", "degC", "", -20.0, 90.0, "of the store"),
                        quantity("storage", "d", "365", 0.0, 1e6, "time in store"),
                        quantity("initial", "%", "98", 0.01, 99.9999, "viability at the start")},
          .run = run_viability};
}

Evaluator test_tolerance_evaluator() {
  return {.name = "test-tolerance",
          .sentence = "Largest range between replicates of 100 that chance explains.",
          .source = "US 7 CFR 201.55, table of maximum tolerated ranges",
          .arguments = {quantity("mean", "%", "", 0.0, 100.0, "germination, mean of the replicates"),
                        count("replicates", "4", 2.0, 4.0, "2 or 4")},
          .run = run_tolerance};
}

Evaluator germination_trial_evaluator() {
  return {.name = "germination-trial",
          .sentence = "What a trial says of a lot: posterior mean and 95 % limits.",
          .source = "beta-binomial conjugate posterior (textbook)",
          .arguments = {count("germinated", "", 0.0, 1e6, "kernels that sprouted"),
                        count("sown", "", 1.0, 1e6, "kernels put down"),
                        {.name = "prior",
                         .unit = "",
                         .standard = "weak",
                         .sentence = "weak, jeffreys, feed-grade or seed-grade"}},
          .run = run_trial};
}

}  // namespace rackwright::app
