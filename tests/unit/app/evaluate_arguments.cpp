#include "sim/app/evaluate_arguments.hpp"

#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::app;

namespace {

Evaluator toy() {
  return {
      .name = "toy",
      .sentence = "A model for tests.",
      .source = "none",
      .arguments =
          {{.name = "temperature", .unit = "degC", .standard = "", .least = -40.0, .most = 60.0, .sentence = "of it"},
           {.name = "length", .unit = "m", .standard = "2", .least = 0.0, .most = 10.0, .sentence = "of it"},
           {.name = "other",
            .unit = "m",
            .standard = "",
            .least = 0.0,
            .most = 10.0,
            .sentence = "of it",
            .optional = true},
           {.name = "kind", .unit = "", .standard = "plain", .sentence = "of it"},
           {.name = "monthly",
            .unit = "degC",
            .standard = "",
            .least = -80.0,
            .most = 70.0,
            .sentence = "of it",
            .optional = true,
            .list = true},
           {.name = "wetness",
            .unit = "%",
            .standard = "",
            .least = 0.0,
            .most = 100.0,
            .sentence = "of it",
            .optional = true},
           {.name = "share", .unit = "1", .standard = "", .least = 0.0, .most = 1.0, .sentence = "of it", .optional = true},
           {.name = "milk",
            .unit = "kg",
            .standard = "",
            .least = 0.0,
            .most = 100.0,
            .sentence = "of it",
            .optional = true,
            .or_unit = "kg/d"},
           {.name = "hour",
            .unit = "h",
            .standard = "",
            .least = 0.0,
            .most = 24.0,
            .sentence = "of it",
            .optional = true,
            .clock = true}},
      .run = [](const Arguments&) { return std::vector<Result>{}; }};
}

Problems problems_of(const std::vector<std::string>& words) {
  Problems problems;
  read_arguments(toy(), words, problems);
  return problems;
}

Arguments read(const std::vector<std::string>& words) {
  Problems problems;
  Arguments arguments = read_arguments(toy(), words, problems);
  REQUIRE(problems.empty());
  return arguments;
}

}  // namespace

TEST_CASE("evaluate arguments: bare numbers are native, any unit converts, standards fill in") {
  const Arguments a = read({"temperature=68 degF", "kind=fancy"});
  CHECK(a.number("temperature") == Approx(20.0));
  CHECK(a.number("length") == 2.0);
  CHECK(a.word("kind") == "fancy");
  CHECK_FALSE(a.has("other"));
  CHECK(read({"temperature=293.15 K"}).number("temperature") == Approx(20.0));
  CHECK(read({"temperature=-40"}).number("temperature") == -40.0);
  CHECK(read({"temperature=20", "length=3 ft"}).number("length") == Approx(0.9144));
  CHECK(read({"temperature=20"}).word("kind") == "plain");
}

TEST_CASE("evaluate arguments: a list takes one unit at its end or one each") {
  CHECK(read({"temperature=1", "monthly=10,20"}).list("monthly") == std::vector<double>{10.0, 20.0});
  const auto fahrenheit = read({"temperature=1", "monthly=50, 68 degF"}).list("monthly");
  REQUIRE(fahrenheit.size() == 2);
  CHECK(fahrenheit[0] == Approx(10.0));
  CHECK(fahrenheit[1] == Approx(20.0));
  const auto mixed = read({"temperature=1", "monthly=50 degF, 20 degC"}).list("monthly");
  CHECK(mixed[0] == Approx(10.0));
  CHECK(mixed[1] == Approx(20.0));
}

TEST_CASE("evaluate arguments: every complaint at once, with the nearest name") {
  const Problems p = problems_of({"temperatur=3", "length=3 kg", "loose", "kind=", "other=11"});
  REQUIRE(p.size() == 6);  // the missing temperature is the sixth
  CHECK(p[0].suggestion == "temperature");
  CHECK(p[1].key == "length");
  CHECK(p[2].why == "is not of the form key=value");
  CHECK(p[3].key == "kind");
  CHECK(p[4].why == "is outside 0 to 10 m");
  CHECK(p[5].key == "temperature");
}

TEST_CASE("evaluate arguments: no number that is none, none out of range, none twice") {
  for (const char* word : {"temperature=nan", "temperature=inf", "temperature=-inf", "temperature=1e400",
                           "temperature=", "temperature=20 degX", "temperature=20 20", "temperature=60.0001",
                           "temperature=-41", "temperature=0 K"})
    CHECK(problems_of({word}).size() == 1);
  CHECK(problems_of({"temperature=1", "temperature=2"}).size() == 1);
  CHECK(problems_of({"temperature=1", "monthly=1,,2"}).size() == 1);
  CHECK(problems_of({"temperature=1", "monthly=1,nan"}).size() == 1);
}

TEST_CASE("evaluate arguments: a bare number that may be a share or a percentage is asked about, not guessed") {
  for (const char* word : {"wetness=0.5", "wetness=1", "wetness=1e-3"}) {
    const Problems p = problems_of({"temperature=1", word});
    INFO(word);
    REQUIRE(p.size() == 1);
    CHECK(p[0].why.find("could be a share or a percentage") != std::string::npos);
  }
  CHECK(problems_of({"temperature=1", "wetness=0.5"})[0].why.find("\"50 %\" or \"0.5 %\"") != std::string::npos);
  CHECK(read({"temperature=1", "wetness=0.5 %"}).number("wetness") == 0.5);
  CHECK(read({"temperature=1", "wetness=0"}).number("wetness") == 0.0);
  CHECK(read({"temperature=1", "wetness=50"}).number("wetness") == 50.0);
  const Problems p = problems_of({"temperature=1", "share=94"});
  REQUIRE(p.size() == 1);
  CHECK(p[0].why.find("\"94 %\"") != std::string::npos);
  CHECK(read({"temperature=1", "share=94 %"}).number("share") == Approx(0.94));
  CHECK(problems_of({"temperature=1", "share=940"})[0].why == "is outside 0 to 1");
}

TEST_CASE("evaluate arguments: a second unit, a time of day, a limit reached in another unit") {
  const Arguments daily = read({"temperature=1", "milk=66 lb/day"});
  CHECK(daily.number("milk") == Approx(66 * 0.45359237));
  CHECK(daily.unit("milk") == "kg/d");
  CHECK(read({"temperature=1", "milk=30 kg"}).unit("milk").empty());
  CHECK(problems_of({"temperature=1", "milk=30 kg/m2"}).size() == 1);
  CHECK(read({"temperature=1", "hour=6:30"}).number("hour") == 6.5);
  CHECK(read({"temperature=1", "hour=390 min"}).number("hour") == Approx(6.5));
  CHECK(problems_of({"temperature=1", "hour=6:70"}).size() == 1);
  CHECK(problems_of({"temperature=1", "hour=25:00"}).size() == 1);
  CHECK(read({"temperature=140 degF"}).number("temperature") <= 60.0);
}

TEST_CASE("evaluate arguments: a list with blanks or brackets") {
  const std::vector<double> twice{10.0, 20.0};
  CHECK(read({"temperature=1", "monthly=10 20"}).list("monthly") == twice);
  CHECK(read({"temperature=1", "monthly=[10, 20]"}).list("monthly") == twice);
  CHECK(read({"temperature=1", "monthly=10 20 degC"}).list("monthly") == twice);
  const auto fahrenheit = read({"temperature=1", "monthly=50 degF 68 degF"}).list("monthly");
  REQUIRE(fahrenheit.size() == 2);
  CHECK(fahrenheit[1] == Approx(20.0));
}
