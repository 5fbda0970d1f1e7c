// The rows of tests/reference/table/kept.hpp, worked out anew: they need data that only R has, so they are kept there to be printed.
#include <cmath>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "sim/random/laws.hpp"
#include "tests/catch.hpp"
#include "tests/reference/outside/badajoz.hpp"
#include "tests/reference/outside/foretold.hpp"
#include "tests/reference/table/kept.hpp"

using namespace rackwright;
using validation::kept_rows;

namespace {

struct Fresh { std::string what; double expected = 0.0, tolerance = 0.0, got = 0.0; };

void add_growth(std::vector<Fresh>& rows, const std::string& animals, const outside::Score& score) {
  rows.push_back({"bias of foretold weights, " + animals, 0.0, 200.0 * score.bias_error, 100.0 * score.bias});
  rows.push_back({"error of foretold weights to a straight line's, " + animals, 0.5, 0.5, score.error / score.straight_line_error});
}

/// Whole years of the record, drawn with replacement: what a statistic of 61 years would have been in 61 others of that climate.
template <class Statistic>
double sampling_error(std::uint32_t number, const Statistic& statistic) {
  constexpr int draws = 300;
  const auto& record = outside::record();
  const auto years = static_cast<std::size_t>(record.years());
  random::Stream luck(random::make_key(7, 0), random::Purpose::test, 100 + number);
  double sum = 0.0, square = 0.0;
  for (int draw = 0; draw < draws; ++draw) {
    outside::Series series;
    for (std::size_t k = 0; k < years; ++k) {
      const auto year = static_cast<std::size_t>(random::uniform01(luck) * static_cast<double>(years));
      for (std::size_t i = 365 * year; i < 365 * (year + 1); ++i) {
        if (!record.has(i)) continue;
        series.maximum.push_back(static_cast<double>(record.maximum[i]));
        series.minimum.push_back(static_cast<double>(record.minimum[i]));
      }
    }
    const double value = statistic(series);
    sum += value / draws;
    square += value * value / draws;
  }
  return std::sqrt(square - sum * sum);
}

std::vector<Fresh> worked_out() {
  std::vector<Fresh> rows;
  add_growth(rows, "pigs", outside::predict("pigs.csv", 56.0, {Kilograms(230), 0.0126, Kilograms(1.5)}));
  add_growth(rows, "chicks", outside::predict("chicks.csv", 12.0, {Kilograms(2.2), 0.0239, Kilograms(0.04)}));
  std::uint32_t number = 0;
  for (const double share : {0.001, 0.01, 0.1, 0.5, 0.9, 0.99, 0.999}) {
    const auto highs = [share](const outside::Series& s) { return outside::quantile(s.maximum, share); };
    const auto lows = [share](const outside::Series& s) { return outside::quantile(s.minimum, share); };
    rows.push_back({fmt::format("{:g} % of daily maxima, drawn", 100.0 * share), highs(outside::measured()), 2.0 * sampling_error(++number, highs),
                    highs(outside::drawn())});
    rows.push_back({fmt::format("{:g} % of daily minima, drawn", 100.0 * share), lows(outside::measured()), 2.0 * sampling_error(++number, lows),
                    lows(outside::drawn())});
  }
  const auto said = outside::values("said.csv");
  const auto found = outside::fit_of(outside::drawn());
  const auto [spread, memory] = outside::months_of(outside::drawn());
  // By theory (Bartlett) for 61 years of a series with this memory: 0.57 % of a spread, 0.0042 of a memory from day to day.
  const double days = 365.0 * 61.0, r = said.at("lag1"), months = 12.0 * 61.0, m = said.at("month_lag1");
  rows.push_back({"spread of the daily mean, drawn", said.at("sd"), 2.0 * said.at("sd") * std::sqrt((1.0 + r * r) / (1.0 - r * r) / (2.0 * days)),
                  found.anomaly_sd});
  rows.push_back({"memory of a day, drawn", r, 2.0 * std::sqrt((1.0 - r * r) / days), found.lag1});
  rows.push_back({"spread of monthly means, drawn", said.at("month_sd"),
                  2.0 * said.at("month_sd") * std::sqrt((1.0 + m * m) / (1.0 - m * m) / (2.0 * months)), spread});
  rows.push_back({"memory from month to month, drawn", m, 2.0 * std::sqrt((1.0 - m * m) / months), memory});
  return rows;
}

}  // namespace

TEST_CASE("what the table keeps of comparisons with R's data is what comes out") {
  const std::vector<Fresh> fresh = worked_out();
  std::string text;
  for (const Fresh& row : fresh) text += fmt::format("{}: {:.5g}, {:.3g}, {:.5g}\n", row.what, row.expected, row.tolerance, row.got);
  INFO("expected, tolerance and what came out, for tests/reference/table/kept.hpp:\n" << text);
  REQUIRE(fresh.size() == kept_rows.size());
  for (std::size_t i = 0; i < fresh.size(); ++i) {
    const auto& kept = kept_rows[i];
    INFO(kept.what);
    CHECK(fresh[i].what == kept.what);
    // To the digits that are kept.
    CHECK(fresh[i].expected == Approx(kept.expected).epsilon(1e-4).margin(1e-9));
    CHECK(fresh[i].tolerance == Approx(kept.tolerance).epsilon(5e-3).margin(1e-9));
    CHECK(fresh[i].got == Approx(kept.got).epsilon(1e-4).margin(1e-4));
  }
}
