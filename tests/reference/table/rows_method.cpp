// Random numbers against published vectors and the tables of their laws; Sobol' indices against functions solved in closed form.
#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <vector>

#include <fmt/core.h>

#include "sim/random/laws.hpp"
#include "sim/random/philox_stream.hpp"
#include "sim/random/sobol_points.hpp"
#include "sim/study/sobol_indices.hpp"
#include "tests/reference/table/models.hpp"

namespace rackwright::validation {
namespace {

/// Indices of `f` by the design of a sensitivity sweep.
template <class Function>
std::vector<study::InputIndices> indices_of(std::size_t inputs, const Function& f) {
  constexpr std::uint64_t rows = 8192;
  random::SobolPoints points(2 * inputs);
  study::SobolIndices indices(inputs);
  for (std::uint64_t row = 0; row < rows; ++row) {
    const std::vector<double> both = points.at(row);
    const std::vector<double> a(both.begin(), both.begin() + static_cast<std::ptrdiff_t>(inputs));
    const std::vector<double> b(both.begin() + static_cast<std::ptrdiff_t>(inputs), both.end());
    std::vector<double> mixed;
    for (std::size_t i = 0; i < inputs; ++i) {
      std::vector<double> one = a;
      one[i] = b[i];
      mixed.push_back(f(one));
    }
    indices.add(f(a), f(b), mixed);
  }
  return indices.indices(1);
}

constexpr double index_tolerance = 0.01;  // error of 8192 rows, our reading

void ishigami(Sheet& sheet) {
  constexpr double pi = std::numbers::pi, a = 7.0, b = 0.1;
  const auto found = indices_of(3, [](const std::vector<double>& share) {
    const auto x = [&](std::size_t i) { return pi * (2.0 * share[i] - 1.0); };
    return std::sin(x(0)) + a * std::pow(std::sin(x(1)), 2) + b * std::pow(x(2), 4) * std::sin(x(0));
  });
  const double first = std::pow(1.0 + b * std::pow(pi, 4) / 5.0, 2) / 2.0, second = a * a / 8.0, both = 8.0 * b * b * std::pow(pi, 8) / 225.0;
  const double variance = first + second + both;
  sheet.from("Ishigami & Homma 1990, sin x1 + 7 sin^2 x2 + 0.1 x3^4 sin x1: parts of the variance by integration", Standing::worked, Bound::ours);
  const std::array<double, 3> alone{first, second, 0.0}, total{first + both, second, both};
  for (std::size_t i = 0; i < 3; ++i) {
    sheet.near(fmt::format("Ishigami, input {} by itself", i + 1), "1", alone[i] / variance, index_tolerance, found[i].first_order.value);
    sheet.near(fmt::format("Ishigami, input {} with the others", i + 1), "1", total[i] / variance, index_tolerance, found[i].total.value);
  }
}

void product(Sheet& sheet) {
  constexpr std::array<double, 4> weight{0.0, 1.0, 4.5, 9.0};
  const auto found = indices_of(weight.size(), [&](const std::vector<double>& share) {
    double g = 1.0;
    for (std::size_t i = 0; i < weight.size(); ++i) g *= (std::abs(4.0 * share[i] - 2.0) + weight[i]) / (1.0 + weight[i]);
    return g;
  });
  double all = 1.0;
  for (const double w : weight) all *= 1.0 + 1.0 / (3.0 * (1.0 + w) * (1.0 + w));
  sheet.from("Saltelli & Sobol' 1995, product of (|4 x - 2| + a)/(1 + a), a = 0, 1, 4.5, 9: parts of the variance by integration", Standing::worked,
             Bound::ours);
  for (std::size_t i = 0; i < weight.size(); ++i) {
    const double part = 1.0 / (3.0 * (1.0 + weight[i]) * (1.0 + weight[i]));
    sheet.near(fmt::format("product, input {} by itself", i + 1), "1", part / (all - 1.0), index_tolerance, found[i].first_order.value);
    sheet.near(fmt::format("product, input {} with the others", i + 1), "1", part * all / (1.0 + part) / (all - 1.0), index_tolerance, found[i].total.value);
  }
}

}  // namespace

Sheet random_rows() {
  Sheet sheet("random numbers");
  sheet.from("Random123 1.14, kat_vectors, philox4x32-10 of zeros (Salmon, Moraes, Dror & Shaw 2011): words as printed", Standing::memory, Bound::rounding);
  random::Stream zeros(random::Key{}, static_cast<random::Purpose>(0), 0, 0);
  const std::uint64_t one = zeros(), two = zeros();
  sheet.near("Philox, first word", "1", 0x6627e8d5, 0.0, static_cast<double>(one & 0xffffffffU));
  sheet.near("Philox, second word", "1", 0xe169c58d, 0.0, static_cast<double>(one >> 32U));
  sheet.near("Philox, third word", "1", 0xbc57ac4c, 0.0, static_cast<double>(two & 0xffffffffU));
  sheet.near("Philox, fourth word", "1", 0x9b00dbd8, 0.0, static_cast<double>(two >> 32U));
  sheet.from("any table of the normal and the exponential law; 3.89 standard errors of 400,000 draws", Standing::memory, Bound::scatter);
  constexpr int draws = 400000;
  random::Stream luck(random::make_key(20261129, 0), random::Purpose::test, 9);
  double beyond = 0.0, within = 0.0, long_wait = 0.0;
  for (int i = 0; i < draws; ++i) {
    const double z = std::abs(random::normal(luck));
    beyond += z > 1.959964 ? 1.0 : 0.0;
    within += z < 0.6744898 ? 1.0 : 0.0;
    long_wait += random::exponential(luck, 1.0) > 3.0 ? 1.0 : 0.0;
  }
  const auto share = [&](const char* what, double expected, double count) {
    sheet.near(what, "1", expected, 3.89 * std::sqrt(expected * (1.0 - expected) / draws), count / draws);
  };
  share("normal beyond 1.96", 0.05, beyond);
  share("normal within 0.674", 0.5, within);
  share("exponential beyond three means", 0.0497871, long_wait);
  return sheet;
}

Sheet sensitivity_rows() {
  Sheet sheet("sensitivity");
  ishigami(sheet);
  product(sheet);
  return sheet;
}

}  // namespace rackwright::validation
