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
#include "sim/app/study_output.hpp"
#include "sim/results/collect.hpp"
#include "sim/results/kept_pieces.hpp"
#include "sim/results/writer.hpp"
#include "sim/scenario/cautions.hpp"
#include "sim/scenario/cautions_place.hpp"
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

study::StressResult play(const Scenario& scenario, const Options& options, results::KeptPieces& pieces) {
  study::StressRequest request;
  request.pairs = {scenario.run.random_seed, static_cast<std::uint32_t>(scenario.run.replications), options.threads,
                   &catch_interrupts()};
  request.names = options.hard_times;
  request.memory = &pieces;
  Progress progress(options.quiet);
  request.progress = [&](const std::string& stage, std::size_t done, std::size_t of) { progress.show(stage, done, of); };
  return study::stress(scenario, request);
}

int try_all(const Loaded& loaded, const Options& options, const StudyMark& mark, results::Parts& parts) {
  const std::string& out = parts.output();
  results::Writer writer(out, parts.replace(), results::describe_run(loaded.scenario, "stress", options.command_line, results::utc_now()),
                         32, parts.temporary());
  results::KeptPieces pieces(parts);
  const study::StressResult result = play(loaded.scenario, options, pieces);
  // What took long must outlive a disk that is full, or a stop, when the result is written.
  pieces.flush();
  if (result.hard_times.empty())
    throw std::runtime_error(fmt::format("stopped before the first hard time was through, so {} was not written", out));
  std::vector<std::string> care = cautions(loaded.scenario);
  const auto heats = [](const study::Trial& trial) {
    return std::any_of(trial.what.settings.begin(), trial.what.settings.end(), [](const auto& set) { return set.first == "room.heater"; });
  };
  if (std::any_of(result.trials.begin(), result.trials.end(), heats)) say_once(care, heater_caution());
  results::Arrays arrays = results::scenario_arrays(loaded.scenario, loaded.text, resolved_text(loaded.scenario), care);
  arrays["scenario/mark"] = results::text(mark.text());
  arrays.merge(results::stress_arrays(result, loaded.scenario.target.fill_rate, loaded.scenario.units == Units::us));
  finish_file(writer, arrays, parts, !result.stopped);
  if (!result.stopped) parts.finish();
  show_result(out, options.json);
  talk(options.quiet, fmt::format("\nwritten: {}", out));
  if (!result.stopped) return good;
  message("stopped early: {} holds the hard times that were through\n", out);
  tell_resume(options, parts);
  return fault;
}

}  // namespace

int stress(const Options& options) {
  const Loaded loaded = load(options);
  const std::string out = output_path(options, loaded.path);
  check_names(loaded.scenario, options.hard_times);
  std::string names;
  for (const std::string& name : options.hard_times) names += name + "\n";
  const StudyMark mark = mark_study("stress", loaded.scenario, names);
  const auto parts = open_parts(options, out, mark, [](const results::ResultFile& file) {
    return file.number("stress/stopped").value_or(0.0) == 0.0;
  });
  if (!parts) {
    show_result(out, options.json);
    talk(options.quiet, fmt::format("\n{} was finished already", out));
    return good;
  }
  try {
    return try_all(loaded, options, mark, *parts);
  } catch (...) {
    tell_resume(options, *parts);
    throw;
  }
}

}  // namespace rackwright::app
