// Parts of a study on disk: kept whatever happens, refused when they are another's, done again when damaged.

#include "sim/results/parts.hpp"

#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "sim/results/bytes.hpp"
#include "sim/results/fault.hpp"
#include "sim/results/kept_runs.hpp"
#include "sim/results/kept_years.hpp"
#include "sim/results/sweep_part.hpp"
#include "tests/catch.hpp"
#include "tests/unit/results/sample.hpp"

using namespace rackwright;
using namespace rackwright::results;

namespace {

namespace fs = std::filesystem;

std::string refusal(const std::string& out, std::uint64_t mark, Earlier earlier, Shard shard = {}) {
  try {
    const Parts parts(out, mark, earlier, false, shard);
  } catch (const WriteFault& fault) {
    CHECK(fault.user_input());
    return fault.what();
  }
  return "";
}

bool says(const std::string& text, const char* part) { return text.find(part) != std::string::npos; }

void overwrite(const std::string& path, std::size_t at, char byte) {
  std::fstream file(path, std::ios::binary | std::ios::in | std::ios::out);
  file.seekp(static_cast<std::streamoff>(at));
  file.put(byte);
}

/// Some replications in a row, their days all alike.
study::Block block(std::uint32_t first, std::uint32_t count) {
  study::Block made;
  made.first = first;
  for (std::uint32_t i = 0; i < count; ++i) made.outcomes.push_back(sample::outcome(first + i));
  return made;
}
void add_days(study::Bands& bands, std::uint32_t first, std::uint32_t count) {
  for (std::uint32_t i = 0; i < count; ++i) {
    DailyRow row;
    row.wanted = static_cast<float>(first + i);
    bands.add(std::vector<DailyRow>{row, row});
  }
}

}  // namespace

TEST_CASE("parts: what was written is there again, and nothing is left behind when the study is whole") {
  const sample::Folder folder;
  const std::string out = folder.file("out.h5");
  {
    Parts parts(out, 7, Earlier::refuse, false);
    parts.write("a", "first");
    parts.write("b", std::string("\0two\0", 5));
    parts.write("c", "");
  }
  Parts parts(out, 7, Earlier::keep, false);
  CHECK(parts.names() == std::vector<std::string>{"a", "b", "c"});
  CHECK(parts.read("a") == "first");
  CHECK(parts.read("b") == std::string("\0two\0", 5));
  CHECK(parts.read("c") == "");
  CHECK_FALSE(parts.read("d"));
  parts.finish();
  CHECK(folder.files() == 0);
}

TEST_CASE("parts: a run that kept nothing leaves nothing") {
  const sample::Folder folder;
  { const Parts parts(folder.file("out.h5"), 7, Earlier::refuse, false); }
  CHECK(folder.files() == 0);
}

TEST_CASE("parts: earlier work is not thrown away unasked, nor another study's taken for one's own") {
  const sample::Folder folder;
  const std::string out = folder.file("out.h5");
  Parts(out, 7, Earlier::refuse, false).write("a", "first");
  CHECK(says(refusal(out, 7, Earlier::refuse), "--resume"));
  CHECK(says(refusal(out, 8, Earlier::keep), "another study"));
  CHECK(Parts(out, 7, Earlier::keep, false).read("a") == "first");
  { CHECK(Parts(out, 8, Earlier::discard, false).empty()); }
  CHECK(folder.files() == 0);
}

TEST_CASE("parts: two runs on one output, the second is refused, shares of one study go side by side") {
  const sample::Folder folder;
  const std::string out = folder.file("out.h5");
  {
    const Parts held(out, 7, Earlier::refuse, false);
    CHECK(says(refusal(out, 7, Earlier::keep), "another run is at work"));
    CHECK(says(refusal(out, 7, Earlier::discard), "another run is at work"));
    CHECK(says(refusal(out, 7, Earlier::keep, {1, 2}), "another run is at work"));
  }
  Parts one(out, 7, Earlier::keep, false, {1, 2});
  Parts two(out, 7, Earlier::keep, false, {2, 2});
  CHECK(says(refusal(out, 7, Earlier::keep, {2, 2}), "same share"));
  CHECK(says(refusal(out, 7, Earlier::keep), "another run is at work"));
  one.write("a", "1");
  two.look_again();
  CHECK(two.read("a") == "1");
}

TEST_CASE("parts: damaged ones are told from whole ones, whatever byte it is") {
  const sample::Folder folder;
  const std::string out = folder.file("out.h5"), path = out + ".d/a.part";
  Parts parts(out, 7, Earlier::refuse, false);
  parts.write("a", "what was worked out");
  const std::string whole = sample::bytes(path);
  for (std::size_t at = 0; at < whole.size(); ++at) {
    INFO("byte " << at);
    parts.write("a", "what was worked out");
    overwrite(path, at, static_cast<char>(whole[at] ^ 0x10));
    CHECK_FALSE(parts.read("a"));
    CHECK_FALSE(parts.has("a"));
  }
  for (const std::size_t size : {std::size_t{0}, std::size_t{5}, whole.size() - 1}) {
    parts.write("a", "what was worked out");
    fs::resize_file(path, size);
    CHECK_FALSE(parts.read("a"));
  }
  parts.write("a", "what was worked out");
  fs::rename(path, out + ".d/b.part");  // the work of one block under the name of another
  parts.look_again();
  CHECK_FALSE(parts.read("b"));
}

TEST_CASE("parts: what a killed run was writing goes, what somebody else put there stays") {
  const sample::Folder folder;
  const std::string out = folder.file("out.h5");
  Parts(out, 7, Earlier::refuse, false).write("a", "1");
  for (const char* name : {"/b.part.tmp-12-34", "/result.tmp-12", "/notes.txt"}) std::ofstream(out + ".d" + name) << "x";
  Parts parts(out, 7, Earlier::keep, false);
  CHECK(parts.names() == std::vector<std::string>{"a"});
  CHECK_FALSE(fs::exists(out + ".d/b.part.tmp-12-34"));
  CHECK_FALSE(fs::exists(out + ".d/result.tmp-12"));
  parts.finish();
  CHECK(fs::exists(out + ".d/notes.txt"));
}

TEST_CASE("parts: a folder that vanishes is the machine's fault, a name that cannot be is the user's") {
  const sample::Folder folder;
  const std::string out = folder.file("out.h5");
  CHECK(says(refusal(folder.file("no/such.h5"), 7, Earlier::refuse), "does not exist"));
  std::ofstream(out) << "something";
  CHECK(says(refusal(out, 7, Earlier::refuse), "is there already"));
  fs::remove(out);
  Parts parts(out, 7, Earlier::refuse, false);
  fs::remove_all(out + ".d");
  try {
    parts.write("a", "1");
    FAIL("written into nowhere");
  } catch (const WriteFault& fault) {
    CHECK_FALSE(fault.user_input());
    CHECK(says(fault.what(), "gone"));
  }
}

TEST_CASE("kept runs: stretches and their days come back, days kept for a chain go with it") {
  const sample::Folder folder;
  const std::string out = folder.file("out.h5");
  study::Bands all(2);
  {
    Parts parts(out, 7, Earlier::refuse, false);
    KeptRuns kept(parts);
    study::Bands chain(2);
    for (const Stretch s : {Stretch{0, 3}, Stretch{3, 2}, Stretch{5, 4}}) {
      add_days(chain, s.first, s.count);
      add_days(all, s.first, s.count);
      kept.keep(block(s.first, s.count), s.count, chain, 0);
    }
    study::Bands later(2);
    add_days(later, 20, 2);
    add_days(all, 20, 2);
    kept.keep(block(20, 2), 2, later, 20);
    CHECK(parts.names().size() == 6);  // four stretches, two chains
  }
  Parts parts(out, 7, Earlier::keep, false);
  const KeptRuns kept(parts);
  CHECK(kept.finished() == std::vector<Stretch>{{0, 3}, {3, 2}, {5, 4}, {20, 2}});
  CHECK(kept.read({3, 2}).outcomes.at(1).wanted == sample::outcome(4).wanted);
  study::Bands back(2);
  kept.add_bands(back, 100);
  CHECK(back.replications() == 11);
  for (const double p : {0.0, 0.3, 0.7, 1.0}) CHECK(back.quantile(1, 0, p) == all.quantile(1, 0, p));
  CHECK(back.mean(0, 0) == all.mean(0, 0));
  study::Bands early(2);
  kept.add_bands(early, 9);
  CHECK(early.replications() == 9);
}

TEST_CASE("kept runs: a stretch without its days, or killed between the two, is done again") {
  const sample::Folder folder;
  const std::string out = folder.file("out.h5");
  Parts parts(out, 7, Earlier::refuse, false);
  {
    KeptRuns kept(parts);
    study::Bands chain(2);
    add_days(chain, 0, 3);
    kept.keep(block(0, 3), 3, chain, 0);
    const std::string before = *parts.read("bands-0000000000-0000000003");
    add_days(chain, 3, 2);
    kept.keep(block(3, 2), 2, chain, 0);
    // As if killed before the shorter chain's days were removed: the longer ones count.
    parts.write("bands-0000000000-0000000003", before);
    CHECK(KeptRuns(parts).finished().size() == 2);
    // As if killed before the second stretch was in place.
    parts.remove("runs-0000000003-0000000002");
    CHECK(KeptRuns(parts).finished() == std::vector<Stretch>{{0, 3}});
    parts.remove("bands-0000000000-0000000003");
    CHECK(KeptRuns(parts).finished().empty());
  }
}

TEST_CASE("kept years: by design and year, over several parts") {
  const sample::Folder folder;
  const std::string out = folder.file("out.h5");
  Parts parts(out, 7, Earlier::refuse, false);
  {
    KeptYears kept(parts);
    kept.keep(3, 0, block(0, 8).outcomes);
    kept.flush();
    kept.keep(3, 8, block(8, 2).outcomes);
    kept.keep(5, 4, block(4, 1).outcomes);
    kept.flush();
    kept.flush();
  }
  CHECK(parts.names().size() == 2);
  KeptYears kept(parts);
  CHECK(kept.known() == 11);
  CHECK(kept.recall(3, 0, 100).size() == 10);
  CHECK(kept.recall(3, 9, 100).size() == 1);
  CHECK(kept.recall(3, 2, 3).at(2).wanted == sample::outcome(4).wanted);
  CHECK(kept.recall(4, 0, 100).empty());
  CHECK(kept.next_known(3, 4, 100) == 4);
  CHECK(kept.next_known(5, 0, 100) == 4);
  CHECK(kept.next_known(5, 0, 2) == 2);
  CHECK(kept.next_known(5, 5, 100) == 100);
}

TEST_CASE("rows appended in other pieces make the same datasets") {
  const sample::Folder folder;
  const auto write = [&](const std::string& name, std::size_t step) {
    Header header;
    header.kind = "sweep";
    header.start_date = "2026-03-01";
    Writer writer(folder.file(name), false, header);
    writer.put({{"sweep/key", row(std::vector<std::string>{"a", "b"})}});
    for (std::size_t first = 0; first < 5000; first += step) {
      std::vector<double> points, values, refused;
      std::vector<std::string> whys;
      for (std::size_t p = first; p < std::min<std::size_t>(first + step, 5000); ++p) {
        points.push_back(static_cast<double>(p));
        values.insert(values.end(), {0.5 * static_cast<double>(p), 2.0});
        if (p % 3 != 0) continue;
        refused.push_back(static_cast<double>(p));
        whys.push_back("why " + std::to_string(p));
      }
      const std::size_t n = points.size();
      Arrays rows{{"sweep/point", row(points)}, {"sweep/value", {{n, 2}, values, {}}}};
      if (!refused.empty()) rows.merge(Arrays{{"sweep/refused", row(refused)}, {"sweep/why", row(whys)}});
      writer.append(rows);
    }
    writer.finish({});
    return folder.file(name);
  };
  const auto same = [](const std::string& one, const std::string& other) {
    return std::system(("h5diff -q " + one + " " + other).c_str()) == 0;
  };
  const std::string whole = write("whole.h5", 5000);
  CHECK(same(write("pieces.h5", 7), whole));
  CHECK(same(write("chunks.h5", 2048), whole));
  CHECK_FALSE(same(folder.file("none.h5"), whole));
}

TEST_CASE("a block of a sweep comes back, also the points that were not played") {
  study::SweepRow played, refused;
  played.point = 41;
  played.values = {1.5, 2.0};
  played.success = 0.25;
  played.gap = -0.65;
  played.spreads[3] = {1.0, 2.0, 3.0, 4.0, 5.0, 6.0};
  refused.point = 42;
  refused.status = study::PointStatus::hopeless;
  refused.values = {0.5, 1.0};
  refused.why = "no";
  refused.success = std::nan("");
  const auto rows = rows_of(bytes_of({played, refused}));
  REQUIRE(rows.size() == 2);
  CHECK(rows[0].spreads[3].high == 6.0);
  CHECK(rows[0].values == played.values);
  CHECK(rows[0].success == 0.25);
  CHECK(rows[0].gap == -0.65);
  CHECK(rows[1].why == "no");
  CHECK(rows[1].status == study::PointStatus::hopeless);
  CHECK(std::isnan(rows[1].spreads[0].mean));
  const std::string bytes = bytes_of({played, refused});
  for (std::size_t size = 0; size < bytes.size(); size += 7) CHECK_THROWS(rows_of(bytes.substr(0, size)));
}

TEST_CASE("parts: a part that cannot be given its name is the machine's fault, and nothing half-written stays") {
  const sample::Folder folder;
  const std::string out = folder.file("out.h5");
  Parts parts(out, 7, Earlier::refuse, false);
  fs::create_directories(out + ".d/a.part/in the way");
  try {
    parts.write("a", "1");
    FAIL("written over a folder");
  } catch (const WriteFault& fault) {
    CHECK_FALSE(fault.user_input());
    CHECK(says(fault.what(), "was not written"));
  }
  CHECK_FALSE(parts.has("a"));
  for (const auto& entry : fs::directory_iterator(out + ".d")) CHECK(entry.path().filename().string().find(".tmp-") == std::string::npos);
  fs::remove_all(out + ".d/a.part");
}

TEST_CASE("parts: what a study kept is removed when its file is whole, and where nothing was kept that is no fault") {
  const sample::Folder folder;
  const std::string out = folder.file("out.h5");
  CHECK_NOTHROW(remove_parts(out));
  Parts(out, 7, Earlier::refuse, false).write("a", "1");
  CHECK(fs::exists(out + ".d"));
  remove_parts(out);
  CHECK(folder.files() == 0);
}

TEST_CASE("kept runs: a replication that broke off is kept with its reason, and a stretch that vanished is told") {
  const sample::Folder folder;
  const std::string out = folder.file("out.h5");
  Parts parts(out, 7, Earlier::refuse, false);
  KeptRuns kept(parts);
  study::Bands none(2);
  study::Block broken = block(0, 3);
  broken.failures.push_back({2, "a balance that did not close"});
  kept.keep(broken, 4, none, 0);
  const study::Block back = kept.read({0, 4});
  REQUIRE(back.failures.size() == 1);
  CHECK(back.failures[0].replication == 2);
  CHECK(back.failures[0].what == "a balance that did not close");
  CHECK(back.outcomes.size() == 3);
  for (const auto& entry : fs::directory_iterator(out + ".d"))
    if (entry.path().extension() == ".part") fs::remove(entry.path());
  try {
    (void)kept.read({0, 4});
    FAIL("read from nowhere");
  } catch (const WriteFault& fault) { CHECK(says(fault.what(), "was removed or damaged while this ran")); }
}
