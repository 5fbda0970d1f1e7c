#include "sim/app/size_shown.hpp"

#include <algorithm>
#include <variant>

#include "sim/app/interrupt.hpp"
#include "sim/app/play.hpp"
#include "sim/app/short_causes.hpp"
#include "sim/replication/plan.hpp"
#include "sim/results/collect.hpp"
#include "sim/scenario/cautions.hpp"
#include "sim/scenario/cautions_plans.hpp"
#include "sim/study/bad_years.hpp"
#include "sim/study/design_runs.hpp"
#include "sim/study/influence.hpp"
#include "sim/study/run.hpp"

namespace rackwright::app {
namespace {

// Bands of fewer replications are ragged.
constexpr std::uint32_t least_replications = 200;

// What the answer owes to each assumption.
std::vector<study::Influence> weighed(const Scenario& design, const Options& options, study::PieceMemory& pieces) {
  study::InfluenceRequest request;
  request.random_seed = design.run.random_seed;
  request.threads = options.threads;
  request.stop = &catch_interrupts();
  request.memory = &pieces;
  Progress progress(options.quiet);
  request.progress = [&](std::size_t done, std::size_t of) { progress.show("assumptions weighed", done, of); };
  std::vector<study::Influence> found = study::influences(design, request);
  progress.finish();
  return found;
}

}  // namespace

results::Arrays play_shown(const Scenario& scenario, const study::SizeResult& found, const Options& options,
                           results::Writer& writer, const KeptBefore& before) {
  const int shown = found.chosen >= 0 ? found.chosen : found.nearest;
  if (shown < 0 || found.stopped) return {};
  const study::Candidate& candidate = found.candidates.at(static_cast<std::size_t>(shown));
  const auto checked = study::design_of(scenario, candidate.values);
  const auto* found_design = std::get_if<Scenario>(&checked);
  if (found_design == nullptr) return {};
  Scenario design = *found_design;
  design.run.replications = static_cast<int>(std::max(candidate.replications, least_replications));
  const Plan plan = make_plan(design);
  Player player(plan, options, before.parts, "replications of the design found");
  study::Bands bands(plan.horizon_days);
  study::Summary summary(scenario.target);
  study::BadYears bad_years;
  player.play({0, player.replications()}, &bands, [&](const study::Block& block) {
    writer.append(block);
    for (const Outcome& outcome : block.outcomes) summary.add(outcome), bad_years.add(outcome.fill_rate);
  });
  if (summary.replications() == 0) return {};
  study::RunRequest request;
  request.random_seed = scenario.run.random_seed;
  request.threads = options.threads;
  request.stop = &catch_interrupts();
  results::Arrays arrays = results::band_arrays(bands);
  arrays.merge(results::summary_arrays(summary));
  arrays.merge(results::bad_year_arrays(bad_years));
  arrays.merge(results::build_arrays(design));
  arrays.merge(results::influence_arrays(weighed(design, options, before.pieces)));
  arrays.merge(results::doubt_arrays(study::doubts(plan, request, study::doubt_pairs(player.replications()), &before.pieces)));
  arrays.merge(short_causes(plan, request.random_seed, player.replications(), before.pieces));
  // What to be careful about with the design that is shown, rather than with the one as first drawn.
  // Of what was there to choose the scenario knows: a design has nothing left.
  auto care = cautions(design);
  choice_cautions(scenario, care);
  if (!care.empty()) arrays["scenario/caution"] = results::row(care);
  return arrays;
}

}  // namespace rackwright::app
