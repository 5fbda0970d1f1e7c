#include <cmath>

#include "sim/results/result_file.hpp"
#include "tests/catch.hpp"
#include "tests/unit/results/sample.hpp"

using namespace rackwright;
using namespace rackwright::results;

namespace {

/// What reading sample::write_simulate() back must give.
ResultFile expected(std::uint32_t replications) {
  ResultFile want;
  want.header = sample::header("simulate", replications);
  want.header.replications_completed = replications;
  want.header.replications_failed = 1;
  want.arrays = sample::arrays();
  Array numbers{{replications}, {}, {}};
  for (std::uint32_t i = 0; i < replications; ++i) numbers.numbers.push_back(i);
  want.arrays["replication/replication"] = numbers;
  for (const Column& c : outcome_columns()) {
    Array column{{replications}, {}, {}};
    for (std::uint32_t i = 0; i < replications; ++i) column.numbers.push_back(c.get(sample::outcome(i)));
    want.arrays["replication/" + std::string(c.name)] = column;
  }
  want.arrays["series/replication"] = row(std::vector<double>{3, 40});
  want.arrays["series/day"] = want.arrays["daily/day"];
  for (const DailyColumn& c : daily_columns()) {
    Array days{{2, 365}, {}, {}};
    for (const std::uint32_t r : {3U, 40U})
      for (const DailyRow& d : sample::series(r, 365).rows) days.numbers.push_back(static_cast<double>(d.*c.member));
    want.arrays["series/" + std::string(c.name)] = days;
  }
  want.arrays["failures/replication"] = row(std::vector<double>{41});
  want.arrays["failures/what"] = row(std::vector<std::string>{"a balance that did not close"});
  return want;
}

}  // namespace

TEST_CASE("a file of replications comes back as it was written") {
  const sample::Folder folder;
  // Fewer than a chunk, exactly one, several and a part.
  for (const std::uint32_t n : {40U, 512U, 1300U}) {
    const std::string path = folder.file(std::to_string(n) + ".h5");
    sample::write_simulate(path, n);
    const ResultFile got = read_result(path);
    const ResultFile want = expected(n);
    CHECK(got.header == want.header);
    REQUIRE(got.arrays.size() == want.arrays.size() - (n <= 32 ? 1 : 0));
    for (const auto& [array_path, array] : want.arrays) {
      INFO(array_path);
      REQUIRE(got.find(array_path) != nullptr);
      CHECK(got.at(array_path) == array);
    }
  }
}

TEST_CASE("without replications a file still opens, and says that there are none") {
  const sample::Folder folder;
  const std::string path = folder.file("none.h5");
  Writer writer(path, false, sample::header("simulate", 400));
  writer.finish(sample::arrays());
  const ResultFile got = read_result(path);
  CHECK(got.header.replications_asked == 400);
  CHECK(got.header.replications_completed == 0);
  CHECK(got.at("replication/fill_rate").numbers.empty());
}

TEST_CASE("a file of size keeps replications only when some were appended") {
  const sample::Folder folder;
  study::Block block;
  block.outcomes.resize(3);
  for (std::uint32_t i = 0; i < 3; ++i) block.outcomes[i].replication = i;
  for (const bool some : {true, false}) {
    const std::string path = folder.file(some ? "some.h5" : "none.h5");
    Writer writer(path, false, sample::header("size", 400));
    if (some) writer.append(block);
    study::SizeResult found;
    found.candidates.emplace_back();
    writer.finish(design_arrays(found));
    const ResultFile got = read_result(path);
    CHECK(got.header.replications_completed == (some ? 3 : 0));
    CHECK((got.find("replication/fill_rate") != nullptr) == some);
    if (some) CHECK(got.at("replication/replication").numbers == std::vector<double>{0, 1, 2});
  }
}

TEST_CASE("a part read leaves out what grows with the number of replications") {
  const sample::Folder folder;
  const std::string path = folder.file("runs.h5");
  sample::write_simulate(path);
  const ResultFile got = read_result(path, Part::summary);
  CHECK(got.find("replication/fill_rate") == nullptr);
  CHECK(got.find("series/served") == nullptr);
  CHECK(got.estimate("fill_rate").has_value());
  CHECK(got.estimate("success")->mean == got.at("summary/mean").numbers.back());
  CHECK_FALSE(got.estimate("no such thing").has_value());
}

// What is not known equals nothing, not even itself: told apart by a number that no dataset holds.
static Arrays without_gaps(Arrays arrays) {
  for (auto& [path, array] : arrays)
    for (double& value : array.numbers) value = std::isnan(value) ? -987654.0 : value;
  return arrays;
}

TEST_CASE("designs come back with their texts, intervals and places") {
  const sample::Folder folder;
  const std::string path = folder.file("size.h5");
  study::SizeResult result;
  result.keys = {"rack.tiers", "line.sowing_density"};
  for (int i = 0; i < 3; ++i) {
    study::Candidate c;
    c.values = {std::to_string(5 + i), "5 kg/m2"};
    c.verdict = i == 1 ? study::Verdict::chosen : study::Verdict::fails;
    c.why = i == 0 ? "" : "because, in a sentence";
    c.replications = 24U * static_cast<unsigned>(i);
    c.success = {0.9, 0.8 + i, 0.95, 0, 0, 0};
    c.cost_year = {1000.0 * i, 900, 1100, 0, 0, 0};
    c.short_seasons = {0.0, 0.25, 0.5, 0.25};
    if (i == 2) c.broken = {{"short days", 0.75}, {"fill rate", 0.5}};
    result.candidates.push_back(c);
  }
  result.chosen = 1;
  result.runners_up = {2, 0};
  result.binding = "short days, June to August";
  result.replications = 72;

  const Arrays arrays = design_arrays(result);
  Writer writer(path, false, sample::header("size", 2000));
  writer.finish(arrays);
  const ResultFile got = read_result(path);
  CHECK(without_gaps(got.arrays) == without_gaps(arrays));
  CHECK(std::isnan(got.design("cost_year", 0).mean));  // never played: nothing is known, not zero
  CHECK(got.candidates() == 3);
  CHECK(got.design("success", 2).low == 2.8);
  CHECK(got.at("design/runner_up").numbers == std::vector<double>{2, 0, 1});
  CHECK(got.at("design/verdict").texts == std::vector<std::string>{"fails", "chosen", "fails"});
  CHECK(got.at("design/broken").numbers == std::vector<double>{0, 0, 0, 0, 0.75, 0.5});
  CHECK(got.text("design/binding") == result.binding);
}

TEST_CASE("a path that is not in the schema table is our fault, and leaves nothing behind") {
  const sample::Folder folder;
  {
    Writer writer(folder.file("x.h5"), false, sample::header("simulate", 1));
    CHECK_THROWS_AS(writer.finish({{"daily/nonsense", number(1.0)}}), std::logic_error);
  }
  CHECK(folder.files() == 0);
}

TEST_CASE("the same inputs give the same bytes, but for time and command line") {
  const sample::Folder folder;
  Header first = sample::header("simulate", 100);
  sample::write_simulate(folder.file("a.h5"), 100, first);
  sample::write_simulate(folder.file("b.h5"), 100, first);
  const std::string a = sample::bytes(folder.file("a.h5"));
  CHECK(a == sample::bytes(folder.file("b.h5")));
  // Of the same length, so that only its own bytes, the checksum of its object header and the seal may differ.
  first.created_utc = "2031-12-31T23:59:59Z";
  sample::write_simulate(folder.file("c.h5"), 100, first);
  const std::string c = sample::bytes(folder.file("c.h5"));
  REQUIRE(a.size() == c.size());
  std::size_t differences = 0;
  for (std::size_t i = 0; i < a.size(); ++i) differences += a[i] != c[i] ? 1U : 0U;
  CHECK(differences > 0);
  CHECK(differences <= 20 + 4 + 8);
}
