// Result files: a file that is not whole and ours is refused in words before the HDF5 library sees it.
#include <cstdio>
#include <fstream>
#include <iterator>

#include <unistd.h>

#include "sim/results/fault.hpp"
#include "sim/results/result_file.hpp"
#include "tests/fuzz/target.hpp"
#include "tests/unit/results/sample.hpp"

namespace rackwright::fuzz {
namespace {

const results::sample::Folder& folder() {
  static const results::sample::Folder one;
  return one;
}

/// As little as a file of ours can hold: what is not whole is refused before its tables matter, and a short file is tried far more often.
/// Whole results are damaged bit by bit in tests/unit/results.
const std::string& whole() {
  static const std::string bytes = [] {
    const std::string path = folder().file("whole.h5");
    results::Writer writer(path, false, results::sample::header("a kind without tables", 0), 32);
    results::Arrays little;
    little["scenario/text"] = results::text("title = \"Hillside\"\n");
    writer.finish(little);
    return results::sample::bytes(path);
  }();
  return bytes;
}

}  // namespace

std::vector<std::string> seeds() { return {whole(), "\x89HDF\r\n\x1a\n", ""}; }

std::vector<std::string> words() { return {"\x89HDF\r\n\x1a\n", std::string(8, '\0'), std::string(8, '\xFF'), "TREE", "SNOD", "OHDR", "HEAP"}; }

void attempt(const std::string& input) {
  const std::string path = folder().file("tried.h5");
  std::remove(path.c_str());  // cutting the old one short instead has some file systems wait for the disk
  std::ofstream(path, std::ios::binary) << input;
  try {
    results::read_result(path);
    demand(input == whole(), "only an unchanged file is read");
  } catch (const results::ReadFault& fault) {
    demand(input != whole(), "an unchanged file is read");
    demand(std::string(fault.what()).size() > path.size(), "a refused file is told why");
  }
}

}  // namespace rackwright::fuzz
