// What the system refuses, in words a keeper can act on, and whose fault each is.
#include <unistd.h>

#include <cerrno>

#include "sim/results/fault.hpp"
#include "sim/results/output_file.hpp"
#include "tests/catch.hpp"
#include "tests/unit/results/sample.hpp"

using namespace rackwright::results;
using Cause = WriteFault::Cause;

namespace {

WriteFault fault(const std::string& path, int error, const std::string& otherwise = "") {
  try {
    throw_write_fault(path, error, otherwise);
  } catch (const WriteFault& told) { return told; }
}

WriteFault refused(const std::string& path, bool force = false) {
  try {
    check_output(path, force);
  } catch (const WriteFault& told) { return told; }
  FAIL(path << " was not refused");
  return {Cause::disk, ""};
}

}  // namespace

TEST_CASE("write faults: what is full is told as full and is not mended by typing") {
  CHECK(std::string(fault("barn/runs.h5", ENOSPC).what()) == "the disk is full: barn/runs.h5 was not written");
  CHECK(std::string(fault("barn/runs.h5", EDQUOT).what()) == "your disk quota is used up: barn/runs.h5 was not written");
  CHECK(std::string(fault("barn/runs.h5", EFBIG).what()) == "barn/runs.h5 was not written: it grew beyond the largest file allowed here");
  for (const int error : {ENOSPC, EDQUOT, EFBIG}) {
    CHECK(fault("runs.h5", error).cause() == Cause::full);
    CHECK_FALSE(fault("runs.h5", error).user_input());
  }
}

TEST_CASE("write faults: a folder is named with what is the matter with it, and another name mends it") {
  CHECK(std::string(fault("/no-such-folder/runs.h5", ENOENT).what()) == "the folder /no-such-folder does not exist; make it first");
  CHECK(std::string(fault("runs.h5", ENOENT).what()) == "no file can be made in the folder .");
  CHECK(std::string(fault("/runs.h5", EACCES).what()) == "not allowed to write in the folder /");
  CHECK(std::string(fault("barn/runs.h5", EPERM).what()) == "not allowed to write in the folder barn");
  CHECK(std::string(fault("barn/runs.h5", EROFS).what()) == "the folder barn is on a read-only disk");
  CHECK(std::string(fault("barn/runs.h5", ENOTDIR).what()) == "barn is not a folder");
  CHECK(std::string(fault("barn", EISDIR).what()) == "barn is a folder; name a file");
  CHECK(std::string(fault("barn/runs.h5", ENAMETOOLONG).what()) == "barn/runs.h5 is too long a name");
  for (const int error : {ENOENT, ENOTDIR, EISDIR, ENAMETOOLONG}) CHECK(fault("barn/runs.h5", error).cause() == Cause::folder);
  for (const int error : {EACCES, EPERM, EROFS}) CHECK(fault("barn/runs.h5", error).cause() == Cause::permission);
  for (const int error : {ENOENT, EACCES, EROFS, EISDIR}) CHECK(fault("barn/runs.h5", error).user_input());
}

TEST_CASE("write faults: whatever else the disk says is passed on, and where it says nothing what was being done") {
  CHECK(std::string(fault("runs.h5", EIO).what()).starts_with("runs.h5 was not written: "));
  CHECK(fault("runs.h5", EIO).cause() == Cause::disk);
  CHECK(std::string(fault("runs.h5", 0, "not all of it could be written").what()) == "runs.h5 was not written: not all of it could be written");
  CHECK_FALSE(fault("runs.h5", 0).user_input());
}

TEST_CASE("an output is refused before anything is done when its name cannot be one") {
  const sample::Folder folder;
  std::ofstream(folder.file("old.h5")) << "x";
  REQUIRE(symlink(folder.file("old.h5").c_str(), folder.file("link.h5").c_str()) == 0);
  REQUIRE(symlink(folder.file("nowhere").c_str(), folder.file("broken.h5").c_str()) == 0);
  CHECK_NOTHROW(check_output(folder.file("new.h5"), false));
  CHECK_NOTHROW(check_output(folder.file("old.h5"), true));
  CHECK(refused(folder.file("old.h5")).cause() == Cause::exists);
  for (const char* link : {"link.h5", "broken.h5"})  // --force would leave what it leads to as it was
    for (const bool force : {false, true}) CHECK(std::string(refused(folder.file(link), force).what()).find("is a link to another place") != std::string::npos);
  CHECK(std::string(refused("/dev/null", true).what()) == "/dev/null is not a plain file and cannot be replaced");
  CHECK(std::string(refused(folder.file("new/")).what()).ends_with("new/ is a folder; name a file"));
  CHECK(std::string(refused(folder.file(std::string(300, 'x'))).what()).ends_with("is too long a name"));
  CHECK(std::string(refused(folder.file("old.h5/runs.h5")).what()).ends_with("old.h5 is not a folder"));
  CHECK(std::string(refused("").what()) == "the output has no name");
}

TEST_CASE("a file under another name in the way is not another run's work thrown away") {
  const sample::Folder folder;
  std::ofstream(folder.file("busy")) << "another run's";
  try {
    const OutputFile file(folder.file("runs.h5"), true, folder.file("busy"));
    FAIL("the name was taken");
  } catch (const WriteFault& told) {
    CHECK(told.cause() == Cause::exists);
    CHECK(std::string(told.what()).ends_with("busy is in the way; remove it if no other run is using it"));
  }
  CHECK(sample::bytes(folder.file("busy")) == "another run's");
}

TEST_CASE("a file that cannot be put in place is told, and what stood there stays") {
  const sample::Folder folder;
  std::ofstream(folder.file("old.h5")) << "years of work";
  {
    OutputFile file(folder.file("old.h5"), true);
    unlink(file.temporary().c_str());  // by somebody, while it was written
    CHECK_THROWS_AS(file.put_in_place(), WriteFault);
  }
  CHECK(sample::bytes(folder.file("old.h5")) == "years of work");
  CHECK(folder.files() == 1);
}
