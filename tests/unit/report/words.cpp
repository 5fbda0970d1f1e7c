#include "sim/report/words.hpp"

#include <cmath>
#include <limits>

#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::report;

TEST_CASE("numbers are rounded to what their interval can bear, and never written with exponents") {
  CHECK(plain(62838.2, 0) == "62838");
  CHECK(plain(1e9, 1) == "1000000000.0");
  CHECK(plain(-0.0004, 2) == "0.00");
  CHECK(plain(-0.6, 1) == "-0.6");
  CHECK(decimals_for(0.04, 97.8) == 1);   // three digits are enough, ...
  CHECK(decimals_for(0.04, 7.8) == 2);    // 7.80 +- 0.04 to 0.10
  CHECK(decimals_for(1.6, 39.9) == 1);
  CHECK(decimals_for(2.0, 1650.0) == 0);  // ... of a thousand and more four
  CHECK(decimals_for(250.0, 9000.0) == 0);
  CHECK(decimals_for(20.0, 62838.0) == -1);
  CHECK(decimals_for(0.001, 62838.0) == 0);  // a count of one replication
  CHECK(plain(62838.0, -1) == "62840");
  CHECK(plain(-62838.0, -3) == "-63000");
  CHECK(plain(4.0, -1) == "0");
  CHECK(decimals_for(0.0, 0.4432) == 3);
  CHECK(decimals_for(0.5, 97.8) == 1);
  CHECK(decimals_for(5.6, 37.8) == 0);
  CHECK(decimals_for(0.0, 0.0) == 0);
}

TEST_CASE("estimates show mean, interval and range in the reader's unit") {
  const study::Estimate mass{1000.0, 990.0, 1010.0, 5.0, 900.0, 1100.0};
  CHECK(cells(mass, shown_in("kg", false)).mean == "1000 kg");
  CHECK(cells(mass, shown_in("kg", false)).interval == "990 to 1010");
  CHECK(with_interval(mass, shown_in("kg", true)) == "2205 lb (2183 to 2227)");
  const study::Estimate warmth{20.0, 19.5, 20.5, 1.0, 10.0, 30.0};
  CHECK(cells(warmth, shown_in("degC", true)).mean == "68.0 degF");
  CHECK(cells(warmth, shown_in("degC", true)).range == "50 to 86");
  const study::Estimate price{1.0, 0.9, 1.1, 0.1, 0.5, 1.5};
  CHECK(cells(price, shown_in("kg-1", false)).mean == "1.00 /kg");
  CHECK(shown_in("kg-1", true).unit == "/lb");
  CHECK(shown_in("kg-1", true).scale == Approx(0.45359237));
  CHECK(shown_in("kW h", true).unit == "kWh");
  CHECK(shown_in("1", true).unit.empty());
}

TEST_CASE("what is never below nought shows no interval below it") {
  const study::Estimate rare{0.003, -0.002, 0.008, 0.05, 0.0, 1.0};
  CHECK(cells(rare, {}).interval == "0.000 to 0.008");
  const study::Estimate frost{0.003, -0.002, 0.008, 0.05, -1.0, 1.0};
  CHECK(cells(frost, {}).interval == "-0.002 to 0.008");
}

TEST_CASE("what has a top shows no interval above it") {
  CHECK(with_interval({0.99, 0.91, 1.07, 0.05, 0.8, 1.0}, as_share()) == "99 % (91 to 100)");
  CHECK(with_interval({360.0, 340.0, 380.0, 9.0, 330.0, 365.0}, days_a_year()) == "360 (340 to 365)");
  Shown run;
  run.top = most_possible("longest_short_run", 365.0);
  CHECK(with_interval({200.0, -150.0, 589.0, 90.0, 0.0, 365.0}, run) == "200 (0 to 365)");
  CHECK(most_possible("short_days", 100.0) == 100.0);
  CHECK(most_possible("short_days_year", 100.0) == 365.0);
  CHECK(std::isinf(most_possible("spoiled_trays", 100.0)));
}

TEST_CASE("without spread there is no interval") {
  const study::Estimate sure{1025.0, 1025.0, 1025.0, 0.0, 1025.0, 1025.0};
  CHECK(with_interval(sure, {1.0, 0.0, "EUR"}) == "1025 EUR");
  CHECK(cells(sure, {}).range.empty());
}

TEST_CASE("one replication has no interval, and one that the digits hide is not shown") {
  const double no_end = std::numeric_limits<double>::infinity();
  const study::Estimate single{37.0, -no_end, no_end, 0.0, 37.0, 37.0};
  CHECK(with_interval(single, {}) == "37");
  const study::Estimate narrow{119.52, 119.519, 119.521, 0.001, 119.5, 119.55};
  CHECK(cells(narrow, {}).interval.empty());
}

TEST_CASE("paragraphs are broken between words, counted in characters") {
  const std::string long_text =
      wrapped(std::string(30, 'x') + " " + std::string(30, 'y') + " " + std::string(40, 'z'), 2, 3);
  CHECK(long_text ==
        "  " + std::string(30, 'x') + " " + std::string(30, 'y') + "\n     " + std::string(40, 'z') + "\n");
  CHECK(width("Südhang") == 7);
  CHECK(left("Süd", 5) == "Süd  ");
  CHECK(right("97 %", 6) == "  97 %");
  CHECK(left("too long", 3) == "too long");
  const std::string split = wrapped(std::string(92, 'x') + " 97 % of it");
  CHECK(split == std::string(92, 'x') + "\n97 % of it\n");
}
