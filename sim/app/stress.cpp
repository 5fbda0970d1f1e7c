// `rackwright stress`: the design as written through hard times, and what helps.

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
#include "sim/results/collect.hpp"
#include "sim/results/writer.hpp"
#include "sim/scenario/cautions.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/suggest.hpp"
#include "sim/study/stress.hpp"

namespace rackwright::app {

namespace {

void check_names(const Scenario& scenario, const std::vector<std::string>& names) {
  std::vector<std::string> known;
  std::string all;
  for (const study::Planned& planned : study::hard_list(scenario)) {
    known.push_back(planned.hard.name);
    all += (all.empty() ? "" : ", ") + planned.hard.name;
  }
  for (const std::string& name : names) {
    if (std::find(known.begin(), known.end(), name) != known.end()) continue;
    throw BadInput(fmt::format("--hard-time {}: there is no such hard time{}; this scenario has {}", name,
                               did_you_mean(nearest(name, known)), all));
  }
}

study::StressResult play(const Scenario& scenario, const Options& options) {
  study::StressRequest request;
  request.pairs = {scenario.run.random_seed, static_cast<std::uint32_t>(scenario.run.replications), options.threads,
                   &catch_interrupts()};
  request.names = options.hard_times;
  Progress progress(options.quiet);
  request.progress = [&](const std::string& stage, std::size_t done, std::size_t of) { progress.show(stage, done, of); };
  return study::stress(scenario, request);
}

}  // namespace

int stress(const Options& options) {
  const Loaded loaded = load(options);
  const std::string out = output_path(options, loaded.path);
  check_names(loaded.scenario, options.hard_times);
  results::Writer writer(out, options.force,
                         results::describe_run(loaded.scenario, "stress", options.command_line, results::utc_now()));
  const study::StressResult result = play(loaded.scenario, options);
  if (result.hard_times.empty())
    throw std::runtime_error(fmt::format("stopped before the first hard time was through, so {} was not written", out));
  results::Arrays arrays =
      results::scenario_arrays(loaded.scenario, loaded.text, resolved_text(loaded.scenario), cautions(loaded.scenario));
  arrays.merge(results::stress_arrays(result, loaded.scenario.target.fill_rate));
  writer.finish(arrays);
  show_result(out, options.json);
  talk(options.quiet, fmt::format("\nwritten: {}", out));
  if (!result.stopped) return good;
  fmt::print(stderr, "stopped early: {} holds the hard times that were through; the same command with --force tries all\n", out);
  return fault;
}

}  // namespace rackwright::app
