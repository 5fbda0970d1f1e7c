#include <algorithm>
#include <cmath>
#include <functional>
#include <random>
#include <vector>

#include "sim/study/quantile_sketch.hpp"
#include "tests/catch.hpp"

using rackwright::study::QuantileSketch;

namespace {
struct Law { const char* name; std::function<double(std::mt19937&)> draw; };
const std::vector<Law> laws{
    {"normal", [](std::mt19937& e) { return std::normal_distribution<double>(0, 10)(e); }},
    {"log-normal, wide", [](std::mt19937& e) { return std::lognormal_distribution<double>(0, 4)(e); }},
    {"mostly zero",
     [](std::mt19937& e) {
       return std::uniform_real_distribution<double>(0, 1)(e) < 0.8 ? 0.0 : std::exponential_distribution<double>(3)(e);
     }},
    {"counts", [](std::mt19937& e) { return static_cast<double>(std::poisson_distribution<int>(7)(e)); }},
    {"large counts", [](std::mt19937& e) { return static_cast<double>(std::poisson_distribution<int>(5000)(e)); }},
    {"narrow far from zero", [](std::mt19937& e) { return 20.0 + std::uniform_real_distribution<double>(0, 0.5)(e); }},
    {"negative", [](std::mt19937& e) { return -std::lognormal_distribution<double>(3, 1)(e); }},
};
std::vector<double> draw(const Law& law, std::mt19937& engine, int n) {
  std::vector<double> values;
  for (int i = 0; i < n; ++i) values.push_back(law.draw(engine));
  return values;
}
QuantileSketch sketch_of(const std::vector<double>& values) {
  QuantileSketch sketch;
  for (const double x : values) sketch.add(x);
  return sketch;
}
}  // namespace

TEST_CASE("sketched quantiles are the exact ones within the stated error", "[property][statistics]") {
  std::mt19937 engine(41);
  for (const Law& law : laws) {
    for (const int n : {1, 2, 3, 10, 101, 5000}) {
      auto values = draw(law, engine, n);
      const auto sketch = sketch_of(values);
      std::sort(values.begin(), values.end());
      for (const double p : {0.0, 0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99, 1.0}) {
        const auto rank = static_cast<std::size_t>(std::max(1.0, std::ceil(p * n - 1e-9)));
        const double exact = values[rank - 1];
        INFO(law.name << ", n " << n << ", p " << p);
        REQUIRE(std::abs(sketch.quantile(p) - exact) <=
                QuantileSketch::relative_error * std::abs(exact) + QuantileSketch::smallest);
      }
    }
  }
}

TEST_CASE("counts below 128 are sketched exactly", "[property][statistics]") {
  std::mt19937 engine(42);
  auto values = draw(laws[3], engine, 3001);
  const auto sketch = sketch_of(values);
  std::sort(values.begin(), values.end());
  for (std::size_t rank = 1; rank <= values.size(); ++rank) {
    REQUIRE(sketch.quantile(static_cast<double>(rank) / 3001.0) == values[rank - 1]);
  }
}

TEST_CASE("order and split do not change a bit", "[property][statistics]") {
  std::mt19937 engine(43);
  for (const Law& law : laws) {
    auto values = draw(law, engine, 2000);
    const auto whole = sketch_of(values);
    for (int round = 0; round < 5; ++round) {
      std::shuffle(values.begin(), values.end(), engine);
      std::vector<QuantileSketch> parts(7);
      for (std::size_t i = 0; i < values.size(); ++i) parts[i % parts.size()].add(values[i]);
      std::shuffle(parts.begin(), parts.end(), engine);
      QuantileSketch merged;
      for (const auto& part : parts) merged.merge(part);
      INFO(law.name);
      REQUIRE(merged == whole);
      REQUIRE(QuantileSketch::from(merged.parts()) == whole);
    }
  }
}

TEST_CASE("quantiles climb with p and stay within the range", "[property][statistics]") {
  std::mt19937 engine(44);
  for (const Law& law : laws) {
    const auto sketch = sketch_of(draw(law, engine, 777));
    double before = sketch.least();
    for (int i = 0; i <= 1000; ++i) {
      const double here = sketch.quantile(i / 1000.0);
      INFO(law.name << " at " << i);
      REQUIRE(here >= before);
      REQUIRE(here <= sketch.most());
      before = here;
    }
  }
}
