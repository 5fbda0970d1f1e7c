// Values of options: shares, parts of a study, precision, settings by file, and what is said of an option nobody declared.
#include "sim/app/exit.hpp"
#include "sim/app/options.hpp"
#include "tests/catch.hpp"

using namespace rackwright::app;

namespace {

const std::vector<Option> taken{Option::precision, Option::shard, Option::years, Option::points, Option::set, Option::resume, Option::text, Option::against};

Options read(const std::vector<std::string>& words) { return read_options("simulate", taken, words); }

std::string complaint(const std::vector<std::string>& words) {
  try {
    read(words);
  } catch (const BadInput& bad) { return bad.text(); }
  return "";
}

bool says(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("options: a precision is a share, as a number or in per cent, above nothing and up to a half") {
  CHECK(read({"--precision", "0.005"}).precision == 0.005);
  CHECK(read({"--precision", "0.5 %"}).precision.value() == Approx(0.005));
  CHECK(read({"--precision", "50%"}).precision == 0.5);
  CHECK_FALSE(read({}).precision.has_value());
  for (const char* bad : {"0", "-1 %", "51 %", "0.6", "half", "1 % or so", "%", "nan"}) {
    INFO(bad);
    CHECK(says(complaint({"--precision", bad}), "not a share above 0 and up to 50 %, such as 0.5 %"));
  }
}

TEST_CASE("options: a part of a study is one of so many, and shares of it need their number of replications") {
  const auto shard = read({"--shard", "3/16"}).shard;
  CHECK(shard.number == 3);
  CHECK(shard.of == 16);
  CHECK(read({}).shard.whole());
  for (const char* bad : {"3", "0/4", "5/4", "3/", "/4", "3/4/5", "a/b", "3/2000000"}) {
    INFO(bad);
    CHECK(says(complaint({"--shard", bad}), "write K/N with whole numbers, K from 1 to N"));
  }
  CHECK(says(complaint({"--shard", "1/2", "--precision", "1 %"}), "shares must know the number of replications beforehand"));
  CHECK(complaint({"--shard", "1/1", "--precision", "1 %"}).empty());  // the whole is no share
}

TEST_CASE("options: years and points within their limits, a run of a day at least") {
  CHECK(read({"--years", "10"}).settings == std::vector<std::string>{"run.length=3650 d"});
  CHECK(read({"--years", "0.003"}).settings == std::vector<std::string>{"run.length=1 d"});
  CHECK(says(complaint({"--years", "0.001"}), "--years 0.001: shorter than the shortest run, one day"));
  for (const char* bad : {"0", "-1", "10.1", "two", "1 year"}) {
    INFO(bad);
    CHECK(says(complaint({"--years", bad}), "not a number above 0 and up to 10"));
  }
  CHECK(read({"--points", "1000000000"}).points == 1'000'000'000);
  for (const char* bad : {"0", "1000000001", "99999999999999999999", "1e3"}) {
    INFO(bad);
    CHECK(says(complaint({"--points", bad}), "not a whole number from 1 to 1000000000"));
  }
}

TEST_CASE("options: settings are KEY=VALUE or a file of them") {
  CHECK(read({"--set", "@mine.toml", "--set", "rack.tiers="}).settings == std::vector<std::string>{"@mine.toml", "rack.tiers="});
  for (const char* bad : {"rack.tiers", "=5", "@", ""}) {
    INFO(bad);
    CHECK(says(complaint({"--set", bad}), "write KEY=VALUE, such as --set line.days_on_rack=8, or @FILE"));
  }
  CHECK(says(complaint({"--set", "line.soak=8 h", "--set", "@mine.toml", "--set", "line.soak=9 h"}), "--set line.soak=9 h: line.soak is set twice; write it once"));
  CHECK(read({"--against", "rack.tiers=5", "--against", "line.soak=12 h"}).changes.size() == 2);
}

TEST_CASE("options: of an unknown one the nearest is named, of another command's that it is not taken here") {
  CHECK(says(complaint({"--resum"}), "unknown option --resum (did you mean --resume?)"));
  CHECK(says(complaint({"--zzzzzz=3"}), "unknown option --zzzzzz\n"));
  CHECK(says(complaint({"--method=lhs"}), "`rackwright simulate` does not take --method"));
  CHECK(says(complaint({"---resume"}), "---resume is no option: options begin with two dashes"));
  CHECK(says(complaint({"---resume", "--points", "0"}), "not a whole number"));  // all at once
  CHECK(says(complaint({"--resum"}), "see rackwright simulate --help"));
}

TEST_CASE("options: the help has a line for each that is taken") {
  const std::string help = options_help(taken);
  for (const Option option : taken) CHECK(says(help, "  --" + std::string(option_name(option))));
  CHECK_FALSE(says(help, "--method"));
}
