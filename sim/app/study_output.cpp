#include "sim/app/study_output.hpp"

#include <cstdio>
#include <filesystem>
#include <optional>

#include <fmt/core.h>

#include "sim/app/say.hpp"
#include "sim/replication/outcome.hpp"
#include "sim/results/build_info.hpp"
#include "sim/results/fault.hpp"
#include "sim/scenario/read.hpp"

namespace rackwright::app {

namespace {

/// The file at the output if it is a whole result of this very study.
std::optional<results::ResultFile> own_result(const std::string& out, const StudyMark& mark) {
  try {
    results::ResultFile file = results::read_result(out, results::Part::summary);
    if (file.text("scenario/mark") == mark.text()) return file;
  } catch (const results::ReadFault&) {}  // whatever it is, it is not ours to replace
  return std::nullopt;
}

results::Earlier earlier(const Options& options) {
  if (options.resume || options.merge || !options.shard.whole()) return results::Earlier::keep;
  return options.force ? results::Earlier::discard : results::Earlier::refuse;
}

}  // namespace

std::string StudyMark::text() const { return fmt::format("{:016x}", number); }

StudyMark mark_study(const std::string& kind, const Scenario& scenario, const std::string& more) {
  results::Header build;
  results::add_build_info(build);
  // Parts hold values as this build lays them out; another commit may mean another law.
  return {results::study_mark(fmt::format("{}\n{} {} {} {}\n{}\n{}", kind, build.program_version, build.commit,
                                          sizeof(Outcome), sizeof(DailyRow), resolved_text(scenario), more))};
}

std::unique_ptr<results::Parts> open_parts(const Options& options, const std::string& out, const StudyMark& mark,
                                           const std::function<bool(const results::ResultFile&)>& complete) {
  bool replace = options.force;
  if ((options.resume || options.merge || !options.shard.whole()) && std::filesystem::is_regular_file(out)) {
    if (const auto file = own_result(out, mark)) {
      if (complete(*file)) {
        results::remove_parts(out);
        return nullptr;
      }
      replace = true;  // it holds what had been done when the study was stopped
    }
  }
  return std::make_unique<results::Parts>(out, mark.number, earlier(options), replace, options.shard);
}

void finish_file(results::Writer& writer, const results::Arrays& arrays, results::Parts& parts, bool whole) {
  try {
    writer.finish(arrays);
  } catch (const results::WriteFault& taken) {
    if (whole && taken.cause() == results::WriteFault::Cause::taken) parts.finish();
    throw;
  }
}

void tell_resume(const Options& options, results::Parts& parts) {
  parts.look_again();  // somebody may have removed them
  if (parts.empty()) return;
  message("what is finished is kept in {}; go on with it by\n  {}{}\n", parts.folder(), options.command_line,
             options.resume || !options.shard.whole() ? "" : " --resume");
}

}  // namespace rackwright::app
