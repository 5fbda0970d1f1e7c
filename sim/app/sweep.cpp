// `rackwright sweep`: the same farm with some keys set to many values, every point on the same luck.

#include <algorithm>
#include <exception>
#include <functional>
#include <memory>
#include <optional>
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
#include "sim/app/sweep_merge.hpp"
#include "sim/results/fault.hpp"
#include "sim/results/sweep_part.hpp"
#include "sim/scenario/kits.hpp"
#include "sim/study/crew.hpp"
#include "sim/study/sweep_run.hpp"

namespace rackwright::app {

namespace {

study::Sweep read_sweep(const Loaded& loaded, const Options& options) {
  Problems problems;
  const auto method = study::method_named(options.method.value_or("grid"));
  if (!method)
    throw BadInput(fmt::format("--method {}: write grid, latin, even or sobol", *options.method));
  std::vector<study::SweepAxis> axes;
  for (const std::string& vary : options.vary) axes.push_back(study::read_axis(loaded.scenario, vary, *method, problems));
  study::Sweep sweep;
  if (problems.empty()) sweep = study::make_sweep(loaded.scenario, *method, std::move(axes), options.points, problems);
  if (!problems.empty()) throw BadInput(problems_text("--vary", problems));
  std::vector<Stated> stated = typed_settings(options.settings);
  for (const study::SweepAxis& axis : sweep.axes) stated.push_back({axis.key, ""});
  if (const auto both = clash(loaded.scenario, stated))
    throw BadInput(fmt::format("--vary {}: varies what --set {} sets; write one of them", stated[both->later].key, stated[both->earlier].key));
  sweep.play_all = options.play_all;
  return sweep;
}

// Blocks of this run's share that are not among the parts.
std::vector<std::uint64_t> missing(const study::Sweep& sweep, results::Parts& parts, const results::Shard& shard) {
  std::vector<std::uint64_t> blocks;
  for (std::uint64_t block = shard.number - 1; block < sweep.blocks(); block += shard.of) {
    // A damaged part goes when it is read, and is worked again.
    if (!parts.has(results::block_part(block)) || !parts.read(results::block_part(block))) blocks.push_back(block);
  }
  return blocks;
}

/// What is to be swept, and where to.
struct Job {
  explicit Job(const Options& o)
      : options(o), loaded(load(o)), sweep(read_sweep(loaded, o)), out(output_path(o, loaded.path)),
        mark(mark_study("sweep", loaded.scenario, sweep.description())) {}
  const Options& options;
  Loaded loaded;
  study::Sweep sweep;
  std::string out;
  StudyMark mark;
};

// What one thread does with a block.
std::function<bool(std::uint64_t)> worker(const Job& job, results::Parts& parts) {
  auto player = std::make_shared<study::SweepPlayer>(job.loaded.scenario, job.sweep, &catch_interrupts());
  return [player, &job, &parts](std::uint64_t block) {
    const std::uint64_t first = block * job.sweep.block_points();
    const auto rows = player->play(first, std::min(job.sweep.block_points(), job.sweep.points - first));
    if (rows) parts.write(results::block_part(block), results::bytes_of(*rows));
    return rows.has_value();
  };
}

study::BlockWork work_of(const Job& job, results::Parts& parts) {
  study::BlockWork work;
  work.make_worker = [&] { return worker(job, parts); };
  work.threads = job.options.threads;
  work.stop = &catch_interrupts();
  return work;
}

// Works the missing blocks; true when all of the share is done.
bool work_share(const Job& job, const std::vector<std::uint64_t>& blocks, const study::Crew& crew,
                results::Parts& parts) {
  const study::Sweep& sweep = job.sweep;
  study::BlockWork work = work_of(job, parts);
  Progress progress(job.options.quiet);
  const std::uint64_t here = job.options.shard.whole() ? sweep.blocks() : blocks.size();
  const std::uint64_t before = here - blocks.size();
  work.progress = [&](std::size_t done) {
    const std::uint64_t of = std::min(here * sweep.block_points(), sweep.points);
    progress.show("points", std::min((before + done) * sweep.block_points(), of), of);
  };
  const std::size_t done = crew.work(blocks, work);
  progress.finish();
  if (done == blocks.size()) return true;
  message("stopped early: {} of {} blocks are finished\n", before + done, here);
  tell_resume(job.options, parts);
  return false;
}

int write_whole(const Job& job, results::Parts& parts) {
  merge_sweep(job.loaded, job.options, job.sweep, job.mark, parts);
  parts.finish();
  show_result(parts.output(), job.options.json);
  talk(job.options.quiet, fmt::format("\nwritten: {}", parts.output()));
  return good;
}

// What rank 0, or the only process, does once it holds the parts.
int lead(const Job& job, const std::vector<std::uint64_t>& blocks, const study::Crew& crew, results::Parts& parts) {
  const Options& options = job.options;
  if (!options.merge && !work_share(job, blocks, crew, parts)) return fault;
  parts.look_again();
  std::uint64_t left = 0;
  for (std::uint64_t block = 0; block < job.sweep.blocks(); ++block)
    if (!parts.has(results::block_part(block))) ++left;
  if (left > 0 && options.merge)
    throw BadInput(fmt::format("{} of {} blocks are not in {} yet; run the shares that are missing, or the command with "
                               "--resume instead of --merge to do them here",
                               left, job.sweep.blocks(), parts.folder()));
  if (left > 0 && options.shard.whole())
    throw results::WriteFault(results::WriteFault::Cause::disk,
                              fmt::format("{} of {} blocks were removed from {} while this ran", left,
                                          job.sweep.blocks(), parts.folder()));
  if (left > 0) {
    talk(options.quiet, fmt::format("share {} of {} is finished; {} of {} blocks are still to come from others",
                                    options.shard.number, options.shard.of, left, job.sweep.blocks()));
    return good;
  }
  // Taking it waits until the others have let go; one of them may then have written the whole.
  if (!parts.take_all()) {
    talk(options.quiet, fmt::format("written by another share: {}", parts.output()));
    return good;
  }
  return write_whole(job, parts);
}

int sweep_as_first(const Options& options, const study::Crew& crew) {
  std::unique_ptr<results::Parts> parts;
  std::optional<Job> job;
  std::vector<std::uint64_t> blocks;
  try {
    job.emplace(options);
    parts = open_parts(options, job->out, job->mark, [](const results::ResultFile&) { return true; });
    if (parts && !options.merge) blocks = missing(job->sweep, *parts, options.shard);
  } catch (...) {
    static_cast<void>(crew.of_first(0));
    throw;
  }
  // The others begin when rank 0 has made and locked the folder, if they read the same study there.
  if (crew.of_first(parts && !options.merge ? job->mark.number : 0) != 0 && crew.most(0) != 0)
    throw std::runtime_error("a rank reads another scenario than rank 0, or runs another version of the program");
  if (!parts) {
    show_result(job->out, options.json);
    talk(options.quiet, fmt::format("\n{} was finished already", job->out));
    return good;
  }
  try {
    return lead(*job, blocks, crew, *parts);
  } catch (const BadInput&) {
    throw;
  } catch (...) {
    tell_resume(options, *parts);
    throw;
  }
}

// Another rank: writes its blocks into the folder that rank 0 has made and locked.
int sweep_as_other(const Options& options, const study::Crew& crew) {
  const std::uint64_t mark = crew.of_first(0);
  if (mark == 0) return good;  // rank 0 tells why
  std::optional<Job> job;
  std::exception_ptr error;
  try {
    job.emplace(options);
  } catch (...) {
    error = std::current_exception();
  }
  const bool same = job && job->mark.number == mark;
  if (crew.most(same ? 0 : 1) != 0) {
    if (error) std::rethrow_exception(error);
    return fault;
  }
  results::Parts parts = results::Parts::of_another(job->out, mark);
  crew.work({}, work_of(*job, parts));
  return good;
}

}  // namespace

int sweep(const Options& options) {
  const study::Crew crew;
  if (crew.size() > 1 && !options.shard.whole())
    throw BadInput("--shard is for runs without MPI; under mpirun the ranks share the work by themselves");
  return crew.rank() == 0 ? sweep_as_first(options, crew) : sweep_as_other(options, crew);
}

}  // namespace rackwright::app
