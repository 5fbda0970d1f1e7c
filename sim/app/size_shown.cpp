#include "sim/app/size_shown.hpp"

#include <algorithm>
#include <variant>

#include "sim/app/interrupt.hpp"
#include "sim/replication/plan.hpp"
#include "sim/results/collect.hpp"
#include "sim/study/design_runs.hpp"
#include "sim/study/run.hpp"

namespace rackwright::app {
namespace {

// Bands of fewer replications are ragged.
constexpr std::uint32_t least_replications = 200;

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
  return arrays;
}

}  // namespace rackwright::app
