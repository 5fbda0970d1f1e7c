// `rackwright size`: the cheapest design of the grid that meets the target.

#include <fmt/core.h>

#include "sim/app/commands.hpp"
#include "sim/app/exit.hpp"
#include "sim/app/interrupt.hpp"
#include "sim/app/load.hpp"
#include "sim/app/output.hpp"
#include "sim/app/progress.hpp"
#include "sim/app/say.hpp"
#include "sim/app/show.hpp"
#include "sim/app/size_shown.hpp"
#include "sim/results/collect.hpp"
#include "sim/results/writer.hpp"
#include "sim/scenario/cautions.hpp"
#include "sim/scenario/read.hpp"
#include "sim/study/size.hpp"

namespace rackwright::app {

namespace {

study::SizeResult search(const Scenario& scenario, const Options& options) {
  study::SizeRequest request;
  request.random_seed = scenario.run.random_seed;
  request.threads = options.threads;
  request.stop = &catch_interrupts();
  Progress progress(options.quiet);
  request.progress = [&](const std::string& stage, std::size_t done, std::size_t of) {
    progress.show(stage, done, of);
  };
  return study::size(scenario, request);
}

}  // namespace

int size(const Options& options) {
  const Loaded loaded = load(options);
  const std::string out = output_path(options, loaded.path);
  if (loaded.scenario.choose.choices.empty())
    throw BadInput(fmt::format(
        "{}: nothing to choose from; list values under [choose], such as \"rack.tiers\" = [3, 4, 5]", loaded.path));
  // The writer comes first: an output that cannot be written is refused before the search, not after.
  results::Writer writer(out, options.force,
                         results::describe_run(loaded.scenario, "size", options.command_line, results::utc_now()));
  const study::SizeResult result = search(loaded.scenario, options);
  results::Arrays arrays =
      results::scenario_arrays(loaded.scenario, loaded.text, resolved_text(loaded.scenario), cautions(loaded.scenario));
  arrays.merge(results::design_arrays(result));
  arrays.merge(play_shown(loaded.scenario, result, options, writer));
  writer.finish(arrays);
  show_result(out, options.json);
  talk(options.quiet, fmt::format("\nwritten: {}", out));
  if (result.stopped) {
    fmt::print(stderr,
               "stopped early: the verdicts are those reached so far; the same command with --force searches anew\n");
    return fault;
  }
  return result.chosen < 0 ? none_meets : good;
}

}  // namespace rackwright::app
