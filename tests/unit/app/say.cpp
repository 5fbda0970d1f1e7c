#include "sim/app/say.hpp"

#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::app;

TEST_CASE("say: a problem has place, key, value, reason and a way out") {
  CHECK(problems_text("farm.toml", {{12, "line.soak", "3 kg", "is not a length of time", "10 h"}}) ==
        "farm.toml:12: line.soak = \"3 kg\": is not a length of time (did you mean 10 h?)");
  CHECK(problems_text("farm.toml", {{0, "group", "", "nobody is fed", ""}}) == "farm.toml: group: nobody is fed");
  CHECK(problems_text("farm.toml", {{0, "", "", "cannot be read", ""}}) == "farm.toml: cannot be read");
  CHECK(problems_text("f", {{1, "a", "1", "x", ""}, {2, "b", "\"2\"", "y", ""}}) ==
        "f:1: a = \"1\": x\nf:2: b = \"2\": y");
  CHECK(problems_text("f", {}).empty());
}

TEST_CASE("say: an option is named, also where it is the place of all problems") {
  CHECK(problems_text("--forecast", {{0, "--forecast", "", "says nothing", ""}}) == "--forecast: says nothing");
  CHECK(problems_text("--forecast", {{0, "--forecast, day 1 (22/38)", "", "the day's highest first", ""}}) == "--forecast, day 1 (22/38): the day's highest first");
  CHECK(problems_text("w.csv", {{0, "w.csv", "", "there is no such file", ""}}) == "w.csv: there is no such file");
}

TEST_CASE("say: a value is shown once, and nothing a terminal would obey") {
  CHECK(problems_text("f", {{3, "line.soak", "3 kg", "\"3 kg\" is not a length of time", ""}}) ==
        "f:3: line.soak = \"3 kg\": is not a length of time");
  const std::string text = problems_text("f", {{0, "k", "\x1b[31mred", "is odd\x07", ""}});
  CHECK(text.find('\x1b') == std::string::npos);
  CHECK(text.find('\x07') == std::string::npos);
}
