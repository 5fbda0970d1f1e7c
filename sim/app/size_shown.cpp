#include "sim/app/size_shown.hpp"

#include <algorithm>
#include <variant>

#include "sim/app/interrupt.hpp"
#include "sim/replication/plan.hpp"
#include "sim/results/collect.hpp"
#include "sim/scenario/cautions.hpp"
#include "sim/study/design_runs.hpp"
#include "sim/study/influence.hpp"
#include "sim/study/run.hpp"

namespace rackwright::app {
namespace {

// Bands of fewer replications are ragged.
constexpr std::uint32_t least_replications = 200;

// What the answer owes to each assumption.
std::vector<study::Influence> weighed(const Scenario& design, const Options& options) {
  study::InfluenceRequest request;
  request.random_seed = design.run.random_seed;
  request.threads = options.threads;
  request.stop = &catch_interrupts();
  Progress progress(options.quiet);
  request.progress = [&](std::size_t done, std::size_t of) { progress.show("assumptions weighed", done, of); };
  std::vector<study::Influence> found = study::influences(design, request);
  progress.finish();
  return found;
}

}  // namespace

results::Arrays play_shown(const Scenario& scenario, const study::SizeResult& found, const Options& options,
                           results::Writer& writer) {
  const int shown = found.chosen >= 0 ? found.chosen : found.nearest;
  if (shown < 0 || found.stopped) return {};
  const study::Candidate& candidate = found.candidates.at(static_cast<std::size_t>(shown));
  const auto checked = study::design_of(scenario, candidate.values);
  const auto* design = std::get_if<Scenario>(&checked);
  if (design == nullptr) return {};
  const Plan plan = make_plan(*design);
  study::RunRequest request;
  request.random_seed = scenario.run.random_seed;
  request.replications = std::max(candidate.replications, least_replications);
  request.threads = options.threads;
  request.stop = &catch_interrupts();
  Progress progress(options.quiet);
  request.progress = [&](std::uint32_t done) {
    progress.show("replications of the design found", done, request.replications);
  };
  study::Bands bands(plan.horizon_days);
  study::Summary summary(scenario.target);
  study::run_replications(plan, request, &bands, [&](const study::Block& block) {
    writer.append(block);
    for (const Outcome& outcome : block.outcomes) summary.add(outcome);
  });
  progress.finish();
  if (summary.replications() == 0) return {};
  results::Arrays arrays = results::band_arrays(bands);
  arrays.merge(results::summary_arrays(summary));
  arrays.merge(results::influence_arrays(weighed(*design, options)));
  arrays.merge(results::doubt_arrays(study::doubts(plan, request, study::doubt_pairs(request.replications))));
  // What to be careful about with the design that is shown, rather than with the one as first drawn.
  if (const auto care = cautions(*design); !care.empty()) arrays["scenario/caution"] = results::row(care);
  return arrays;
}

}  // namespace rackwright::app
