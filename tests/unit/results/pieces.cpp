// Pieces of a study that outlive the program.

#include <atomic>
#include <stdexcept>
#include <string>
#include <vector>

#include "sim/results/kept_pieces.hpp"
#include "sim/study/piece_memory.hpp"
#include "tests/catch.hpp"
#include "tests/unit/results/sample.hpp"

using namespace rackwright;
using results::Earlier;
using results::KeptPieces;
using results::Parts;
using results::sample::Folder;

namespace {
struct Row { int day = 0; double value = 0.0; };
}  // namespace

TEST_CASE("pieces: what was finished is not worked again, in this run or in one after it") {
  const Folder folder;
  const std::string out = folder.file("a.h5");
  int made = 0;
  const auto make = [&] {
    ++made;
    return std::vector<Row>{{1, 0.5}, {-2, 1e300}};
  };
  {
    Parts parts(out, 7, Earlier::refuse, false);
    KeptPieces pieces(parts);
    CHECK(study::remembered(&pieces, "one", nullptr, make).size() == 2);
    CHECK(study::remembered(&pieces, "one", nullptr, make)[1].day == -2);
    CHECK(made == 1);
    CHECK(study::remembered(&pieces, "none", nullptr, [] { return std::vector<int>{}; }).empty());
    pieces.flush();
  }
  Parts parts(out, 7, Earlier::keep, false);
  KeptPieces pieces(parts);
  const auto rows = study::remembered(&pieces, "one", nullptr, make);
  REQUIRE(rows.size() == 2);
  CHECK(rows[0].value == 0.5);
  CHECK(rows[1].value == 1e300);
  CHECK(made == 1);
  CHECK(study::remembered(&pieces, "none", nullptr, []() -> std::vector<int> { throw std::logic_error("known"); }).empty());
  CHECK(study::remembered(&pieces, "other", nullptr, make).size() == 2);
  CHECK(made == 2);
}

TEST_CASE("pieces: one that a stop cut short is not taken for whole, and without a memory all is worked") {
  const Folder folder;
  Parts parts(folder.file("a.h5"), 7, Earlier::refuse, false);
  KeptPieces pieces(parts);
  std::atomic<bool> stop = false;
  const auto cut = [&] {
    stop = true;
    return std::vector<int>{1};
  };
  CHECK(study::remembered(&pieces, "half", &stop, cut).size() == 1);
  CHECK_FALSE(pieces.recall("half"));
  stop = false;
  CHECK(study::remembered(&pieces, "half", &stop, [] { return std::vector<int>{1, 2, 3}; }).size() == 3);
  CHECK(pieces.recall("half").value().size() == 3 * sizeof(int));
  int made = 0;
  for (int i = 0; i < 2; ++i) CHECK(study::remembered(nullptr, "x", nullptr, [&] { return std::vector<int>{++made}; })[0] == i + 1);
}
