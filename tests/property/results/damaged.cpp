// Whatever happens to a file's bytes, reading it gives a result or a ReadFault: never a crash, never another exception.

#include <random>

#include "sim/results/fault.hpp"
#include "sim/results/result_file.hpp"
#include "tests/catch.hpp"
#include "tests/unit/results/sample.hpp"

using namespace rackwright;
using namespace rackwright::results;

namespace {

void put(const std::string& path, const std::string& bytes) {
  std::ofstream(path, std::ios::binary | std::ios::trunc) << bytes;
}

/// The file's content, or nothing when it is refused.
std::optional<ResultFile> read(const std::string& path) {
  try {
    return read_result(path);
  } catch (const ReadFault& fault) {
    CHECK(std::string(fault.what()).find(path) != std::string::npos);
    return std::nullopt;
  }
}

}  // namespace

TEST_CASE("flipped bits never crash the reader nor pass unnoticed") {
  const sample::Folder folder;
  const std::string path = folder.file("runs.h5");
  sample::write_simulate(path, 40);
  const std::string good = sample::bytes(path);
  std::mt19937_64 random(20260301);
  for (int trial = 0; trial < 300; ++trial) {
    std::string bytes = good;
    for (int flips = 1 + trial % 4; flips > 0; --flips) {
      // Half of them in the first pages, where the file's structure is.
      const std::size_t at = random() % (trial % 2 == 0 ? bytes.size() : std::min<std::size_t>(bytes.size(), 16384));
      bytes[at] = static_cast<char>(bytes[at] ^ (1 << random() % 8));
    }
    INFO("trial " << trial);
    put(path, bytes);
    const bool changed = bytes != good;  // two flips can meet
    CHECK(read(path).has_value() == !changed);
  }
}

TEST_CASE("a file cut anywhere is refused") {
  const sample::Folder folder;
  const std::string path = folder.file("runs.h5");
  sample::write_simulate(path, 40);
  const std::string good = sample::bytes(path);
  std::mt19937_64 random(20260302);
  for (int trial = 0; trial < 100; ++trial) {
    put(path, good.substr(0, random() % good.size()));
    CHECK_FALSE(read(path).has_value());
  }
}
