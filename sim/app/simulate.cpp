// `rackwright simulate`: many replications of the design as written, into a result file.

#include <algorithm>
#include <functional>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include <fmt/core.h>

#include "sim/app/against.hpp"
#include "sim/app/commands.hpp"
#include "sim/app/exit.hpp"
#include "sim/app/interrupt.hpp"
#include "sim/app/load.hpp"
#include "sim/app/output.hpp"
#include "sim/app/play.hpp"
#include "sim/app/say.hpp"
#include "sim/app/short_causes.hpp"
#include "sim/app/show.hpp"
#include "sim/app/study_output.hpp"
#include "sim/replication/plan.hpp"
#include "sim/results/collect.hpp"
#include "sim/results/kept_pieces.hpp"
#include "sim/results/writer.hpp"
#include "sim/scenario/cautions.hpp"
#include "sim/scenario/read.hpp"
#include "sim/study/bad_years.hpp"
#include "sim/study/doubt.hpp"
#include "sim/study/precision.hpp"
#include "sim/study/run.hpp"
#include "sim/study/summary.hpp"

namespace rackwright::app {

namespace {

using results::Stretch;

struct Done {
  std::uint32_t completed = 0, asked = 0;
  bool whole = false;  ///< with all that is told beside the replications
  std::vector<study::Failure> failures{};
};

// One more than the last replication of every share before this one's.
std::uint32_t share_end(std::uint32_t replications, std::uint32_t shares, std::uint32_t of) {
  return static_cast<std::uint32_t>(std::uint64_t{replications} * shares / of);
}

// How much of the spread is luck, and how much is not knowing the models' parameters.
results::Arrays doubts_of(const Plan& plan, const Options& options, std::uint32_t replications, study::PieceMemory& pieces) {
  study::RunRequest request;
  request.random_seed = plan.scenario.run.random_seed;
  request.threads = options.threads;
  request.stop = &catch_interrupts();
  return results::doubt_arrays(study::doubts(plan, request, study::doubt_pairs(replications), &pieces));
}

// With --precision the number of replications is found first, and the run is then the plain one with that number, of which
// all is played by then. False when stopped before.
bool settle_replications(Scenario& scenario, const Options& options, results::Parts& parts) {
  const auto cap = static_cast<std::uint32_t>(scenario.run.replications);
  const Plan plan = make_plan(scenario);
  Player player(plan, options, parts, "replications for the precision");
  player.keep_all();
  const study::Precision found = study::replications_for(
      *options.precision, cap, [&](std::uint32_t first, std::uint32_t count, const std::function<void(const study::Block&)>& sink) {
        return player.play({first, count}, nullptr, sink);
      });
  if (player.stopped()) return false;
  scenario.run.replications = static_cast<int>(std::max(found.replications, 1U));
  talk(options.quiet, fmt::format("{} replications: the share served is known to +-{:.2g} percentage points and the yearly cost to +-{:.2g} % "
                                  "(95 % intervals){}", found.replications, 100.0 * found.fill_rate_half, 100.0 * found.cost_half,
                                  found.reached                                                             ? ""
                                  : std::max(found.fill_rate_half, found.cost_half) > *options.precision    ? "; the precision asked for was not reached"
                                  : found.replications < study::first_look ? fmt::format("; fewer than {} are too few to rely on that", study::first_look)
                                                                           : "; a tenth narrower is wanted to be sure of the precision asked for"));
  return true;
}

// Room for --precision to go on in, where the number of replications is not set by hand.
void lift_cap(Scenario& scenario, const Options& options) {
  constexpr int usual_cap = 100'000;
  const auto given = [](const std::string& setting) { return setting.starts_with("run.replications="); };
  if (std::none_of(options.settings.begin(), options.settings.end(), given)) scenario.run.replications = usual_cap;
}

// What decides the results besides the scenario.
std::string asked_words(const Options& options, const std::vector<Change>& changes) {
  std::string words = options.precision ? fmt::format("precision {:.17g}\n", *options.precision) : "";
  for (const Change& change : changes) words += "against " + change.typed + "\n";
  return words;
}

// Plays what is missing and writes the whole.
Done write_all(const Loaded& loaded, const Options& options, const StudyMark& mark, results::Parts& parts,
               Player& player, const Plan& plan, const std::vector<Change>& changes) {
  const Scenario& scenario = loaded.scenario;
  results::Writer writer(parts.output(), parts.replace(),
                         results::describe_run(scenario, "simulate", options.command_line, results::utc_now()),
                         player.block(), parts.temporary());
  study::Bands bands(player.days());
  study::Summary summary(scenario.target);
  study::BadYears bad_years;
  Done done{.asked = player.replications()};
  done.completed = player.play({0, done.asked}, &bands, [&](const study::Block& block) {
    writer.append(block);
    for (const Outcome& outcome : block.outcomes) summary.add(outcome), bad_years.add(outcome.fill_rate);
    done.failures.insert(done.failures.end(), block.failures.begin(), block.failures.end());
  });
  if (summary.replications() == 0) {
    const std::string why = done.failures.empty() ? "it was stopped at once" : done.failures.front().what;
    throw std::runtime_error(
        fmt::format("no replication was finished, so {} was not written: {}", parts.output(), why));
  }
  results::Arrays arrays = results::scenario_arrays(scenario, loaded.text, resolved_text(scenario), cautions(scenario));
  arrays["scenario/mark"] = results::text(mark.text());
  arrays.merge(results::band_arrays(bands));
  arrays.merge(results::summary_arrays(summary));
  arrays.merge(results::bad_year_arrays(bad_years));
  arrays.merge(results::build_arrays(scenario));
  if (done.completed == done.asked) {
    results::KeptPieces pieces(parts);
    if (!changes.empty()) arrays.merge(against_arrays(loaded, options, changes, pieces));
    arrays.merge(doubts_of(plan, options, done.asked, pieces));
    arrays.merge(short_causes(plan, scenario.run.random_seed, done.asked, pieces));
    if (catch_interrupts().load() || !parts.empty()) pieces.flush();
    done.whole = !catch_interrupts().load();
    if (!done.whole) arrays["summary/stopped"] = results::number(1.0);
  }
  finish_file(writer, arrays, parts, done.whole);
  return done;
}

// Plays one share of the replications and says whether all shares are done and this run is to write the whole.
bool play_share(const Options& options, results::Parts& parts, Player& player) {
  const std::uint32_t all = player.replications();
  const std::uint32_t first = share_end(all, options.shard.number - 1, options.shard.of);
  const std::uint32_t count = share_end(all, options.shard.number, options.shard.of) - first;
  if (player.play({first, count}, nullptr, {}) < count) {
    message("stopped early\n");
    tell_resume(options, parts);
    return false;
  }
  talk(options.quiet, fmt::format("share {} of {} is finished: {} replications are kept in {}", options.shard.number,
                                  options.shard.of, count, parts.folder()));
  // Only when all is there: taking it waits until the others have let go.
  parts.look_again();
  if (!player.all_finished() || !parts.take_all() || !player.all_finished()) return false;
  talk(options.quiet, "all shares are finished; writing the whole");
  return true;
}

int tell(const Loaded& loaded, const Options& options, results::Parts& parts, const Done& done) {
  show_result(parts.output(), options.json);
  talk(options.quiet, fmt::format("\nwritten: {}", parts.output()));
  for (const study::Failure& failure : done.failures) {
    message("replication {} failed: {}\n  to see it alone: rackwright journal {} --replication {} --random-seed {}\n",
        failure.replication, failure.what, loaded.path, failure.replication, loaded.scenario.run.random_seed);
  }
  if (!done.whole) {
    if (done.completed < done.asked) message("stopped early: {} holds {} of {} replications\n", parts.output(), done.completed, done.asked);
    else message("stopped early: {} holds all {} replications, but not all that is told beside them (how sure it is, why meals are short)\n", parts.output(), done.asked);
    tell_resume(options, parts);
    if (parts.empty() && options.shard.whole()) message("nothing is kept beside it, as it was soon played; finish it by\n  {}{}\n", options.command_line, options.resume ? "" : " --resume");
    return fault;
  }
  return done.failures.empty() ? good : fault;
}

}  // namespace

int simulate(const Options& options) {
  Loaded loaded = load(options);
  const std::string out = output_path(options, loaded.path);
  if (options.precision) lift_cap(loaded.scenario, options);
  const std::vector<Change> changes = read_changes(loaded, options);
  const StudyMark mark = mark_study("simulate", loaded.scenario, asked_words(options, changes));
  const auto parts = open_parts(options, out, mark, [](const results::ResultFile& file) {
    return file.header.replications_completed + file.header.replications_failed == file.header.replications_asked &&
           file.number("summary/stopped").value_or(0.0) == 0.0;
  });
  if (!parts) {
    show_result(out, options.json);
    talk(options.quiet, fmt::format("\n{} was finished already", out));
    return good;
  }
  try {
    if (options.precision && !settle_replications(loaded.scenario, options, *parts)) {
      message("stopped early\n");
      tell_resume(options, *parts);
      return fault;
    }
    const Plan plan = make_plan(loaded.scenario);
    Player player(plan, options, *parts);
    if (!options.shard.whole() && !play_share(options, *parts, player)) return player.stopped() ? fault : good;
    const Done done = write_all(loaded, options, mark, *parts, player, plan, changes);
    if (done.whole) parts->finish();
    return tell(loaded, options, *parts, done);
  } catch (...) {
    tell_resume(options, *parts);
    throw;
  }
}

}  // namespace rackwright::app
