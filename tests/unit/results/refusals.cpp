#include <signal.h>
#include <sys/mount.h>
#include <sys/resource.h>

#include <filesystem>

#include "sim/results/fault.hpp"
#include "sim/results/output_file.hpp"
#include "sim/results/result_file.hpp"
#include "tests/catch.hpp"
#include "tests/unit/results/sample.hpp"

using namespace rackwright;
using namespace rackwright::results;
using Cause = WriteFault::Cause;

// HDF5 cannot close a file that it could not write to its end, and keeps what it had in memory for it. A program that
// meets a full disk ends soon after; the leak checker is told, of that library alone.
extern "C" const char* __lsan_default_suppressions();
extern "C" const char* __lsan_default_suppressions() { return "leak:libhdf5"; }

namespace {

/// Cause and words of the fault that opening this output meets.
std::pair<Cause, std::string> refusal(const std::string& path, bool force = false) {
  try {
    Writer writer(path, force, sample::header("simulate", 1));
  } catch (const WriteFault& fault) {
    return {fault.cause(), fault.what()};
  }
  FAIL(path << " was not refused");
  return {};
}

/// Writes until the disk refuses; true if it did, with cause `full`.
bool runs_full(const std::string& path) {
  try {
    sample::write_simulate(path, 60000);
  } catch (const WriteFault& fault) {
    return fault.cause() == Cause::full && !fault.user_input() &&
           std::string(fault.what()).find(path) != std::string::npos;
  }
  return false;
}

}  // namespace

TEST_CASE("an output that is there is neither replaced nor touched without force") {
  const sample::Folder folder;
  const std::string path = folder.file("runs.h5");
  std::ofstream(path) << "years of work";
  const auto [cause, why] = refusal(path);
  CHECK(cause == Cause::exists);
  CHECK(why.find("--force") != std::string::npos);
  CHECK(sample::bytes(path) == "years of work");
  CHECK(folder.files() == 1);

  sample::write_simulate(path, 10, sample::header("simulate", 10), true);
  CHECK(read_result(path).header.replications_completed == 10);
  CHECK(folder.files() == 1);
}

TEST_CASE("with force, what is there stays until the new file is whole") {
  const sample::Folder folder;
  const std::string path = folder.file("runs.h5");
  std::ofstream(path) << "years of work";
  {
    Writer writer(path, true, sample::header("simulate", 10));
    writer.append(sample::block(0, 10));
    CHECK(sample::bytes(path) == "years of work");
  }
  CHECK(sample::bytes(path) == "years of work");
  CHECK(folder.files() == 1);
}

TEST_CASE("a file that appears while a study runs is kept") {
  const sample::Folder folder;
  const std::string path = folder.file("runs.h5");
  {
    Writer writer(path, false, sample::header("simulate", 10));
    std::ofstream(path) << "another run was quicker";
    std::ofstream(folder.file("runs-2.h5")) << "and a third one";
    writer.append(sample::block(0, 10));
    try {
      writer.finish(sample::arrays());
      FAIL("nothing was said");
    } catch (const WriteFault& fault) {
      CHECK(fault.cause() == Cause::taken);
      CHECK_FALSE(fault.user_input());
      CHECK(std::string(fault.what()).find("this result is in " + folder.file("runs-3.h5")) != std::string::npos);
    }
  }
  CHECK(sample::bytes(path) == "another run was quicker");
  CHECK(sample::bytes(folder.file("runs-2.h5")) == "and a third one");
  CHECK(read_result(folder.file("runs-3.h5")).header.replications_completed == 10);
  CHECK(folder.files() == 3);
}

TEST_CASE("a name beside one that was taken keeps its ending, and a folder's dots are no ending") {
  const sample::Folder folder;
  std::filesystem::create_directory(folder.file("a.b"));
  for (const auto& [name, beside] : {std::pair{"a.b/runs", "a.b/runs-2"}, std::pair{"a.b/.h5", "a.b/.h5-2"}, std::pair{"a.b/x.tar.h5", "a.b/x.tar-2.h5"}}) {
    OutputFile file(folder.file(name), false);
    std::ofstream(file.temporary()) << "new";
    std::ofstream(folder.file(name)) << "old";
    CHECK_THROWS_AS(file.put_in_place_or_beside(), WriteFault);
    CHECK(sample::bytes(folder.file(beside)) == "new");
    CHECK(sample::bytes(folder.file(name)) == "old");
  }
}

TEST_CASE("folders that cannot be written in are named, and nothing is left behind") {
  const sample::Folder folder;
  std::ofstream(folder.file("plain")) << "x";
  CHECK(refusal(folder.file("absent/runs.h5")).first == Cause::folder);
  CHECK(refusal(folder.file("absent/runs.h5")).second.find("does not exist") != std::string::npos);
  CHECK(refusal(folder.file("plain/runs.h5")).first == Cause::folder);
  CHECK(refusal(folder.file("")).first == Cause::folder);
  CHECK(refusal(folder.file("."), true).first == Cause::folder);
  CHECK(refusal("").first == Cause::folder);
  CHECK(refusal("/dev/full", true).first == Cause::exists);
  // Not even root may write there.
  const auto [cause, why] = refusal("/proc/runs.h5");
  CHECK((cause == Cause::folder || cause == Cause::permission));
  CHECK(why.find("/proc") != std::string::npos);
  CHECK(folder.files() == 1);
}

TEST_CASE("a limit on file size, met at any point, is told and leaves nothing behind") {
  const sample::Folder folder;
  const auto old_action = signal(SIGXFSZ, SIG_IGN);
  rlimit old{};
  getrlimit(RLIMIT_FSIZE, &old);
  for (const rlim_t limit : {1UL, 3000UL, 40000UL, 100000UL, 400000UL, 1000000UL}) {
    const rlimit small{limit, old.rlim_max};
    setrlimit(RLIMIT_FSIZE, &small);
    const bool full = runs_full(folder.file("runs.h5"));
    setrlimit(RLIMIT_FSIZE, &old);
    INFO(limit);
    CHECK(full);
    CHECK(folder.files() == 0);
  }
  signal(SIGXFSZ, old_action);
  // The library is in order again.
  sample::write_simulate(folder.file("runs.h5"), 10);
  CHECK(read_result(folder.file("runs.h5")).header.replications_completed == 10);
}

TEST_CASE("a full disk is told and leaves nothing behind") {
  const sample::Folder folder;
  std::filesystem::create_directory(folder.file("disk"));
  for (const char* size : {"size=64k", "size=1m", "size=2m"}) {
    if (mount("none", folder.file("disk").c_str(), "tmpfs", 0, size) != 0) {
      WARN("skipped: a small disk cannot be mounted here; the test of file size limits stands for it");
      return;
    }
    const bool full = runs_full(folder.file("disk/runs.h5"));
    const bool empty = std::filesystem::is_empty(folder.file("disk"));
    umount2(folder.file("disk").c_str(), MNT_DETACH);
    INFO(size);
    CHECK(full);
    CHECK(empty);
  }
}

TEST_CASE("files that are no results of ours are told apart") {
  const sample::Folder folder;
  const auto why = [](const std::string& path) -> std::string {
    try {
      read_result(path);
    } catch (const ReadFault& fault) {
      return fault.what();
    }
    return "";
  };
  std::ofstream(folder.file("text")) << "fill rate: very good indeed";
  std::ofstream(folder.file("empty")).flush();
  CHECK(why(folder.file("absent")).find("No such file") != std::string::npos);
  CHECK(why(folder.file("empty")).find("is empty") != std::string::npos);
  CHECK(why(folder.file("text")).find("is not a result file") != std::string::npos);
  CHECK(why(folder.file("")).find("is not a file") != std::string::npos);

  sample::write_simulate(folder.file("whole"), 10);
  const std::string whole = sample::bytes(folder.file("whole"));
  std::ofstream(folder.file("cut"), std::ios::binary) << whole.substr(0, whole.size() / 2);
  CHECK(why(folder.file("cut")).find("cut short") != std::string::npos);
}
