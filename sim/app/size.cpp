// `rackwright size`: the cheapest design of the grid that meets the target.

#include <algorithm>
#include <chrono>

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
#include "sim/app/study_output.hpp"
#include "sim/results/collect.hpp"
#include "sim/results/kept_pieces.hpp"
#include "sim/results/kept_years.hpp"
#include "sim/results/writer.hpp"
#include "sim/scenario/cautions.hpp"
#include "sim/scenario/cautions_place.hpp"
#include "sim/scenario/read.hpp"
#include "sim/study/size.hpp"

namespace rackwright::app {

namespace {

study::SizeResult search(const Scenario& scenario, const Options& options, results::Parts& parts,
                         results::KeptPieces& pieces) {
  results::KeptYears kept(parts);
  study::SizeRequest request;
  request.random_seed = scenario.run.random_seed;
  request.threads = options.threads;
  request.stop = &catch_interrupts();
  request.memory = &kept;
  request.pieces = &pieces;
  Progress progress(options.quiet);
  request.progress = [&](const std::string& stage, std::size_t done, std::size_t of) {
    progress.show(stage, done, of);
  };
  const auto begun = std::chrono::steady_clock::now();
  study::SizeResult result = study::size(scenario, request);
  // What took long must outlive a disk that is full, or a stop, when the result is made and written.
  const bool quick = std::chrono::steady_clock::now() - begun < std::chrono::milliseconds(500);
  if (result.stopped || !parts.empty() || !quick) {
    kept.flush();
    pieces.flush();
  }
  return result;
}

int find(const Loaded& loaded, const Options& options, const StudyMark& mark, results::Parts& parts) {
  const std::string& out = parts.output();
  // The writer comes first: an output that cannot be written is refused before the search, not after.
  results::Writer writer(out, parts.replace(),
                         results::describe_run(loaded.scenario, "size", options.command_line, results::utc_now()), 32,
                         parts.temporary());
  results::KeptPieces pieces(parts);
  const study::SizeResult result = search(loaded.scenario, options, parts, pieces);
  results::Arrays arrays =
      results::scenario_arrays(loaded.scenario, loaded.text, resolved_text(loaded.scenario), cautions(loaded.scenario));
  arrays["scenario/mark"] = results::text(mark.text());
  arrays.merge(results::design_arrays(result));
  results::Arrays shown = play_shown(loaded.scenario, result, options, writer, {parts, pieces});
  // Cautions are those of the design that is shown, where there is one.
  if (const auto care = shown.find("scenario/caution"); care != shown.end()) arrays.erase(care->first);
  arrays.merge(shown);
  if (std::any_of(result.help.begin(), result.help.end(), [](const std::string& help) { return help.find("room.heater") != std::string::npos; })) {
    std::vector<std::string> care = arrays["scenario/caution"].texts;
    say_once(care, heater_caution());
    arrays["scenario/caution"] = results::row(care);
  }
  const bool stopped = result.stopped || catch_interrupts().load();
  if (stopped) pieces.flush();
  if (stopped) arrays["design/stopped"] = results::number(1.0);
  finish_file(writer, arrays, parts, !stopped);
  if (!stopped) parts.finish();
  show_result(out, options.json);
  talk(options.quiet, fmt::format("\nwritten: {}", out));
  if (stopped) {
    message("stopped early: the verdicts are those reached so far\n");
    tell_resume(options, parts);
    return fault;
  }
  return result.chosen < 0 ? none_meets : good;
}

int already_found(const Options& options, const std::string& out) {
  show_result(out, options.json);
  talk(options.quiet, fmt::format("\n{} was finished already", out));
  const auto chosen = results::read_result(out, results::Part::summary).number("design/chosen");
  return chosen.value_or(-1.0) < 0.0 ? none_meets : good;
}

}  // namespace

int size(const Options& options) {
  const Loaded loaded = load(options);
  const std::string out = output_path(options, loaded.path);
  if (const std::string few = study::too_few_words(loaded.scenario, 1); !few.empty()) talk(options.quiet, "Beware: " + few + ".\n");
  if (loaded.scenario.choose.choices.empty())
    throw BadInput(fmt::format(
        "{}: nothing to choose from; list values under [choose], such as \"rack.tiers\" = [3, 4, 5]", loaded.path));
  const StudyMark mark = mark_study("size", loaded.scenario);
  const auto parts = open_parts(options, out, mark, [](const results::ResultFile& file) {
    return file.number("design/stopped").value_or(1.0) == 0.0;
  });
  if (!parts) return already_found(options, out);
  try {
    return find(loaded, options, mark, *parts);
  } catch (...) {
    tell_resume(options, *parts);
    throw;
  }
}

}  // namespace rackwright::app
