// `rackwright simulate`: many replications of the design as written, into a result file.

#include <algorithm>
#include <stdexcept>

#include <fmt/core.h>

#include "sim/app/commands.hpp"
#include "sim/app/exit.hpp"
#include "sim/app/interrupt.hpp"
#include "sim/app/load.hpp"
#include "sim/app/output.hpp"
#include "sim/app/progress.hpp"
#include "sim/app/say.hpp"
#include "sim/app/show.hpp"
#include "sim/replication/plan.hpp"
#include "sim/results/collect.hpp"
#include "sim/results/writer.hpp"
#include "sim/scenario/cautions.hpp"
#include "sim/scenario/read.hpp"
#include "sim/study/run.hpp"
#include "sim/study/summary.hpp"

namespace rackwright::app {

namespace {

struct Done {
  std::uint32_t completed = 0, asked = 0;
  std::vector<study::Failure> failures{};
};

// Replications whose days are kept whole: the first few, enough to look at.
std::vector<std::uint32_t> kept_whole(std::uint32_t asked) {
  std::vector<std::uint32_t> list;
  for (std::uint32_t i = 0; i < std::min(asked, 3U); ++i) list.push_back(i);
  return list;
}

Done play(const Loaded& loaded, const Options& options, const std::string& out) {
  const Scenario& scenario = loaded.scenario;
  const Plan plan = make_plan(scenario);
  study::RunRequest request;
  request.random_seed = scenario.run.random_seed;
  request.replications = static_cast<std::uint32_t>(scenario.run.replications);
  request.threads = options.threads;
  request.series = kept_whole(request.replications);
  request.stop = &catch_interrupts();
  Progress progress(options.quiet);
  request.progress = [&](std::uint32_t done) { progress.show("replications", done, request.replications); };

  results::Writer writer(out, options.force,
                         results::describe_run(scenario, "simulate", options.command_line, results::utc_now()),
                         request.block);
  study::Bands bands(plan.horizon_days);
  study::Summary summary(scenario.target);
  Done done{0, request.replications, {}};
  done.completed = study::run_replications(plan, request, &bands, [&](const study::Block& block) {
    writer.append(block);
    for (const Outcome& outcome : block.outcomes) summary.add(outcome);
    done.failures.insert(done.failures.end(), block.failures.begin(), block.failures.end());
  });
  progress.finish();
  if (summary.replications() == 0) {
    const std::string why = done.failures.empty() ? "it was stopped at once" : done.failures.front().what;
    throw std::runtime_error(fmt::format("no replication was finished, so {} was not written: {}", out, why));
  }
  results::Arrays arrays = results::scenario_arrays(scenario, loaded.text, resolved_text(scenario), cautions(scenario));
  arrays.merge(results::band_arrays(bands));
  arrays.merge(results::summary_arrays(summary));
  writer.finish(arrays);
  return done;
}

}  // namespace

int simulate(const Options& options) {
  const Loaded loaded = load(options);
  const std::string out = output_path(options, loaded.path);
  const Done done = play(loaded, options, out);
  show_result(out, options.json);
  talk(options.quiet, fmt::format("\nwritten: {}", out));
  for (const study::Failure& failure : done.failures) {
    fmt::print(
        stderr,
        "replication {} failed: {}\n  to see it alone: rackwright journal {} --replication {} --random-seed {}\n",
        failure.replication, failure.what, loaded.path, failure.replication, loaded.scenario.run.random_seed);
  }
  if (done.completed < done.asked) {
    fmt::print(stderr,
               "stopped early: {} holds {} of {} replications; the same command with --force plays them all again\n",
               out, done.completed, done.asked);
    return fault;
  }
  return done.failures.empty() ? good : fault;
}

}  // namespace rackwright::app
