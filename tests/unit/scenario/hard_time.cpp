#include "sim/scenario/hard_time.hpp"
#include "sim/scenario/hard_time_words.hpp"

#include <string>

#include "sim/scenario/read.hpp"
#include "tests/catch.hpp"
#include "tests/unit/scenario/sample.hpp"

using namespace rackwright;

namespace {

Reading read_with(const std::string& keys) {
  return read_scenario(sample::small + "[[hard_time]]\nname = \"august\"\n" + keys);
}

}  // namespace

TEST_CASE("a hard time is read with its kind's usual values where it states none") {
  const Reading reading = read_with("kind = \"heat-wave\"\nstart = 2026-08-01\n");
  REQUIRE(reading.problems.empty());
  const HardTime& hard = reading.scenario->hard_times.at(0);
  CHECK(hard.first_day == 153.0);  // from the first of March
  CHECK(change_of(hard).value() == 9.0);
  CHECK(length_of(hard).value() == 240.0);
  CHECK(in_words(hard) == "a heat wave, 9 degC (16.2 degF) warmer for 10 days");
  CHECK(in_words(hard, true) == "a heat wave, 16.2 degF warmer for 10 days");
  CHECK(get_key(*reading.scenario, "hard_time.august.kind") == "heat-wave");
}

TEST_CASE("a cold snap is colder by what is stated above zero") {
  const Reading reading = read_with("kind = \"cold-snap\"\nday = \"9 d\"\nchange = \"9 degF\"\n");
  REQUIRE(reading.problems.empty());
  CHECK(change_of(reading.scenario->hard_times[0]).value() == Approx(-5.0));
}

TEST_CASE("what a kind has no use for, names that do not exist and names used twice are problems") {
  const auto why = [](const std::string& keys) {
    const Reading reading = read_with(keys);
    REQUIRE(reading.problems.size() == 1);
    return reading.problems[0].key + ": " + reading.problems[0].why;
  };
  CHECK(why("kind = \"pump-stop\"\nday = \"9 d\"\nshare = 0.2\n") ==
        "hard_time.august.share: means nothing for the kind pump-stop");
  CHECK(why("kind = \"poor-lot\"\nday = \"9 d\"\nshare = 1.5\n") ==
        "hard_time.august.share: no more than all of a lot can be dead");
  CHECK(why("kind = \"poor-lot\"\nday = \"9 d\"\ngrain = \"wheat\"\n") ==
        "hard_time.august.grain: is not the name of a [[grain]]");
  CHECK(why("kind = \"larger-litter\"\nday = \"9 d\"\ngroup = \"pigs\"\n") ==
        "hard_time.august.group: is not the name of a [[group]]");
  CHECK(why("kind = \"missed-rounds\"\nday = \"9 d\"\n[[hard_time]]\nname = \"august\"\nkind = \"pump-stop\"\nday = \"1 d\"\n") ==
        "hard_time.2.name: is the name of another hard time too");
}

TEST_CASE("every kind has a name, words and something that makes it hard") {
  for (std::size_t i = 0; i < hard_time_names.size(); ++i) {
    HardTime hard;
    hard.kind = static_cast<HardTimeKind>(i);
    INFO(hard_time_name(hard.kind));
    CHECK(in_words(hard).size() > 10);
    CHECK((length_of(hard).value() > 0.0 || share_of(hard) > 0.0));
  }
}
