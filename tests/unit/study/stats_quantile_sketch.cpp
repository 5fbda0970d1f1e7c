#include <limits>
#include <stdexcept>

#include "sim/study/quantile_sketch.hpp"
#include "tests/catch.hpp"

using rackwright::study::QuantileSketch;

TEST_CASE("an empty sketch answers zero", "[statistics]") {
  const QuantileSketch sketch;
  CHECK(sketch.count() == 0);
  CHECK(sketch.quantile(0.5) == 0.0);
  CHECK(sketch.bytes() == 0);
}

TEST_CASE("whole numbers come back whole and exact up to 128", "[statistics]") {
  QuantileSketch sketch;
  for (int i = -128; i <= 128; ++i) sketch.add(i);
  for (int i = 0; i <= 256; ++i) {
    INFO(i);
    CHECK(sketch.quantile((i + 1) / 257.0) == i - 128);
  }
}

TEST_CASE("one fraction among whole numbers ends the rounding", "[statistics]") {
  QuantileSketch sketch;
  for (int i = 0; i < 9; ++i) sketch.add(0.3);
  sketch.add(2.0);
  CHECK(sketch.quantile(0.5) == Approx(0.3).epsilon(QuantileSketch::relative_error));
}

TEST_CASE("ends are exact", "[statistics]") {
  QuantileSketch sketch;
  for (const double x : {0.123456789, 55.5555, -7.77777}) sketch.add(x);
  CHECK(sketch.quantile(0.0) == -7.77777);
  CHECK(sketch.quantile(1.0) == 55.5555);
  CHECK(sketch.least() == -7.77777);
  CHECK(sketch.most() == 55.5555);
}

TEST_CASE("tiny counts as zero, huge is kept at the end", "[statistics]") {
  QuantileSketch sketch;
  for (int i = 0; i < 3; ++i) sketch.add(1e-12);
  for (int i = 0; i < 3; ++i) sketch.add(1e300);
  CHECK(sketch.quantile(0.4) == 1e-12);  // zero's bin, held within least and most
  CHECK(sketch.quantile(0.7) >= QuantileSketch::largest);
  CHECK(sketch.quantile(1.0) == 1e300);
}

TEST_CASE("memory is bounded by the spread, not by the number", "[statistics]") {
  QuantileSketch sketch;
  for (int i = 0; i < 100000; ++i) sketch.add(1.0 + (i % 1000) * 0.001);
  const auto before = sketch.bytes();
  for (int i = 0; i < 100000; ++i) sketch.add(1.0 + (i % 1000) * 0.001);
  CHECK(sketch.bytes() == before);
  CHECK(before <= 64 * 2 * sizeof(std::uint32_t));
  for (const double x : {1e-300, 1e-9, 1e300, -1e-9, -1e300}) sketch.add(x);
  CHECK(sketch.bytes() < 74000);
}

TEST_CASE("a sketch goes into plain numbers and back", "[statistics]") {
  QuantileSketch sketch;
  for (const double x : {-3.25, 0.0, 0.0, 1e-3, 17.0, 17.1, 4e5}) sketch.add(x);
  CHECK(QuantileSketch::from(sketch.parts()) == sketch);
  CHECK(QuantileSketch::from(QuantileSketch().parts()) == QuantileSketch());
}

TEST_CASE("a sketch refuses what is no number", "[statistics]") {
  QuantileSketch sketch;
  CHECK_THROWS_AS(sketch.add(std::numeric_limits<double>::quiet_NaN()), std::logic_error);
  CHECK_THROWS_AS(sketch.add(std::numeric_limits<double>::infinity()), std::logic_error);
  CHECK_THROWS_AS(sketch.quantile(1.5), std::logic_error);
  CHECK_THROWS_AS(QuantileSketch::from({{{999999, 1}}, 0.0, 1.0, true}), std::logic_error);
}
