#include "sim/app/options.hpp"

#include "sim/app/exit.hpp"
#include "tests/catch.hpp"

using namespace rackwright::app;

namespace {

const std::vector<Option> most{Option::replications, Option::years, Option::random_seed, Option::threads,
                               Option::out,          Option::set,   Option::quiet};

Options read(const std::vector<std::string>& words) { return read_options("simulate", most, words); }

std::string complaint(const std::vector<std::string>& words) {
  try {
    read(words);
  } catch (const BadInput& bad) { return bad.text(); }
  return "";
}

bool says(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("options: words, values and switches in any order") {
  const Options o = read({"--quiet", "farm.toml", "--out=runs.h5", "--threads", "2"});
  CHECK(o.words == std::vector<std::string>{"farm.toml"});
  CHECK(o.out == "runs.h5");
  CHECK(o.threads == 2);
  CHECK(o.quiet);
  CHECK_FALSE(o.force);
}

TEST_CASE("options: short forms of scenario keys become settings after --set, so that they win") {
  const Options o = read(
      {"--years", "0.1", "--set", "run.length=30 d", "--replications", "5", "--random-seed", "18446744073709551615"});
  CHECK(o.settings == std::vector<std::string>{"run.length=30 d", "run.replications=5", "run.length=37 d",
                                               "run.random_seed=18446744073709551615"});
}

TEST_CASE("options: a value that starts with a dash is a value") {
  CHECK(read({"--replications", "-5"}).settings.front() == "run.replications=-5");  // refused later, by the key table
  CHECK(says(complaint({"--threads", "-5"}), "--threads -5: not a whole number from 1 to 1024"));
}

TEST_CASE("options: every complaint at once") {
  const std::string text =
      complaint({"--relications", "4", "--threads", "many", "--years", "nan", "--set", "novalue", "--force"});
  CHECK(says(text, "unknown option --relications (did you mean --replications?)"));
  CHECK(says(text, "--threads many"));
  CHECK(says(text, "--years nan"));
  CHECK(says(text, "--set novalue"));
  CHECK(says(text, "`rackwright simulate` does not take --force"));
}

TEST_CASE("options: an option of a later day is not taken silently") {
  CHECK(says(complaint({"--rewind"}), "unknown option --rewind"));
}

TEST_CASE("options: a shortened name is a mistake, a missing or repeated value too") {
  CHECK(says(complaint({"--thr", "2"}), "--thr"));
  CHECK(says(complaint({"--threads"}), "threads"));
  CHECK(says(complaint({"--threads", "1", "--threads", "2"}), "threads"));
}

TEST_CASE("options: whole numbers are whole") {
  CHECK(read_whole("12", 0, 20) == 12U);
  for (const char* text : {"", "1.5", "-1", "+1", " 1", "1 ", "0x1", "21", "99999999999999999999"})
    CHECK_FALSE(read_whole(text, 0, 20));
}
