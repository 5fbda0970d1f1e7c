// Shares of one study at work on one folder: who holds what, and who writes the whole.

#include <atomic>
#include <filesystem>
#include <fstream>
#include <thread>
#include <vector>

#include "sim/results/fault.hpp"
#include "sim/results/parts.hpp"
#include "tests/catch.hpp"
#include "tests/unit/results/sample.hpp"

using namespace rackwright;
using namespace rackwright::results;

namespace fs = std::filesystem;

TEST_CASE("parts: the last share takes all when the others are through, one that comes after it finds the study written") {
  const sample::Folder folder;
  const std::string out = folder.file("out.h5");
  {
    Parts one(out, 7, Earlier::keep, false, {1, 2});
    one.write("a", "1");
  }
  Parts two(out, 7, Earlier::keep, false, {2, 2});
  two.write("b", "2");
  REQUIRE(two.take_all());
  CHECK(two.names() == std::vector<std::string>{"a", "b"});
  CHECK(two.take_all());  // whole already
  two.finish();
  CHECK(folder.files() == 0);
}

TEST_CASE("parts: the last share clears away what a killed one of the same process number was writing") {
  const sample::Folder folder;
  const std::string out = folder.file("out.h5");
  Parts last(out, 7, Earlier::keep, false, {2, 2});
  last.write("a", "1");
  std::ofstream(last.temporary()) << "half a result";  // in a container every run may be process 1
  std::ofstream(out + ".d/b.part.tmp-1-2") << "half a part";
  REQUIRE(last.take_all());
  CHECK_FALSE(fs::exists(last.temporary()));
  CHECK_FALSE(fs::exists(out + ".d/b.part.tmp-1-2"));
  CHECK(last.read("a") == "1");
  sample::write_simulate(out, 10);
  last.finish();
  CHECK(folder.files() == 1);
}

// Whoever lets go of a share removes its lock; one that has opened it by then must not take that for the share.
TEST_CASE("parts: however quickly runs follow one another, a share is never held by two") {
  const sample::Folder folder;
  const std::string out = folder.file("out.h5");
  const Parts other(out, 7, Earlier::keep, false, {2, 2});  // keeps the folder there
  std::atomic<int> holders{0}, taken{0}, together{0};
  std::vector<std::thread> runs;
  for (int t = 0; t < 4; ++t)
    runs.emplace_back([&] {
      for (int i = 0; i < 3000; ++i) try {
          const Parts share(out, 7, Earlier::keep, false, {1, 2});
          if (++holders > 1) ++together;
          ++taken;
          std::this_thread::yield();
          --holders;
        } catch (const WriteFault&) {}
    });
  for (std::thread& run : runs) run.join();
  CHECK(taken > 0);
  CHECK(together == 0);
}

TEST_CASE("parts: a share whose study another has written and cleared away does not write it again") {
  const sample::Folder folder;
  const std::string out = folder.file("out.h5");
  Parts late(out, 7, Earlier::keep, false, {1, 2});
  fs::remove_all(out + ".d");  // what finish() of the other leaves
  CHECK_FALSE(late.take_all());
}
