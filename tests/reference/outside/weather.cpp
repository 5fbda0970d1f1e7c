// Weather as it is fitted, drawn and resampled against 61 years of daily extremes (Badajoz, R package ks, data set tempb)
// and twenty years of monthly means (Nottingham, base R, nottem). Fits of the other side by R's lm and acf. Generated
// series are long (400 years and more) and of fixed seed; tolerances are stated with their reason.
#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "tests/catch.hpp"
#include "tests/reference/outside/badajoz.hpp"

using namespace rackwright;
using namespace rackwright::climate;
using namespace rackwright::outside;

TEST_CASE("the record is read whole, with what it lacks") {
  REQUIRE(badajoz().record);
  CHECK(badajoz().days == 21908);
  CHECK(record().first_year == 1955);
  CHECK(record().years() == 61);
  CHECK(badajoz().gaps.size() == 17);
  CHECK(badajoz().missing_days == 372);
  CHECK(badajoz().gaps.front().value == "1958-02-01");
}

TEST_CASE("wave, range, spread and memory are R's") {
  // Ours rounds each extreme to 0.05 K, which moves a mean by less than 1e-3.
  const auto said = outside::values("said.csv");
  CHECK(fitted().mean.mean.value() == near(said.at("mean"), 1e-3));
  CHECK(fitted().mean.amplitude.value() == near(said.at("amplitude"), 1e-3));
  CHECK(fitted().mean.second.value() == near(said.at("half_year"), 1e-3));
  CHECK(fitted().anomaly_sd.value() == near(said.at("sd"), 1e-3));
  CHECK(fitted().anomaly_memory == near(said.at("lag1"), 1e-3));
  CHECK(fitted().range_mean.value() == near(said.at("range_mean"), 2e-3));
  CHECK(fitted().range_follow == near(said.at("range_follow"), 2e-3));
  CHECK(fitted().range_follow_summer == near(said.at("range_follow_summer"), 2e-3));
  CHECK(fitted().range_follow_half_year == near(said.at("range_follow_half_year"), 2e-3));
  CHECK(fitted().range_follow_lead == near(said.at("range_follow_lead"), 0.2));
  CHECK(fitted().range_sd.value() == near(said.at("range_sd"), 2e-3));
  CHECK(fitted().range_sd_summer.value() == near(said.at("range_sd_summer"), 2e-3));
  CHECK(fitted().range_sd_half_year.value() == near(said.at("range_sd_half_year"), 2e-3));
  CHECK(fitted().range_half_year.value() == near(said.at("range_half_year"), 2e-3));
  CHECK(fitted().anomaly_season == near(said.at("anomaly_season"), 1e-3));
  CHECK(fitted().anomaly_half_year == near(said.at("anomaly_half_year"), 1e-3));
  CHECK(fitted().anomaly_two_days == near(said.at("two_days"), 2e-3));
  CHECK(fitted().range_memory == near(said.at("range_memory"), 2e-3));
  CHECK(fitted().range_amplitude.value() == near(said.at("range_amplitude"), 2e-3));
}

TEST_CASE("blocks keep mean, season, spread and memory of the record") {
  const SeriesFit found = fit_of(resampled());
  INFO("sd " << found.anomaly_sd << ", lag-1 " << found.lag1 << ", mean " << found.wave.mean.value());
  // 400 years of 13 blocks: a mean has a standard error near 0.05 K, an sd one of 1 %; joins by likeness cost some memory.
  CHECK(found.wave.mean.value() == near(fitted().mean.mean.value(), 0.2));
  CHECK(found.wave.amplitude.value() == near(fitted().mean.amplitude.value(), 0.2));
  CHECK(found.anomaly_sd == Approx(fitted().anomaly_sd.value()).epsilon(0.03));
  CHECK(found.lag1 == near(fitted().anomaly_memory, 0.015));
}

TEST_CASE("blocks keep the extremes of the record") {
  for (const double p : {0.001, 0.01, 0.99, 0.999}) {
    INFO("quantile " << p);
    CHECK(quantile(resampled().maximum, p) == near(quantile(measured().maximum, p), 0.6));
    CHECK(quantile(resampled().minimum, p) == near(quantile(measured().minimum, p), 0.6));
  }
  const auto [least, most] = std::minmax_element(measured().maximum.begin(), measured().maximum.end());
  CHECK(*std::max_element(resampled().maximum.begin(), resampled().maximum.end()) <= *most);
  CHECK(*std::min_element(resampled().maximum.begin(), resampled().maximum.end()) >= *least);
}

TEST_CASE("drawn weather keeps mean, season, spread and memory of the record") {
  // Standard errors of 4000 years: mean 0.007 K, sd 0.16 %, memory 0.0005; the bounds are those of 400.
  const SeriesFit found = fit_of(drawn());
  INFO("sd " << found.anomaly_sd << ", lag-1 " << found.lag1);
  CHECK(found.wave.mean.value() == near(fitted().mean.mean.value(), 0.1));
  CHECK(found.wave.amplitude.value() == near(fitted().mean.amplitude.value(), 0.13));
  CHECK(found.anomaly_sd == Approx(fitted().anomaly_sd.value()).epsilon(0.02));
  CHECK(found.lag1 == near(fitted().anomaly_memory, 0.0065));
}

TEST_CASE("drawn weather keeps the extremes of the record, to the last thousandth") {
  for (std::size_t k = 0; k < shares.size(); ++k) {
    INFO("quantile " << shares[k]);
    CHECK(quantile(drawn().maximum, shares[k]) == near(quantile(measured().maximum, shares[k]), maxima_open[k]));
    CHECK(quantile(drawn().minimum, shares[k]) == near(quantile(measured().minimum, shares[k]), minima_open[k]));
  }
}

namespace {

// How far quantiles of one series are from another's, in what 61 years leave open: root mean square.
double apart(const Series& one, const Series& other) {
  double sum = 0.0;
  for (std::size_t k = 0; k < shares.size(); ++k) {
    const double high = (quantile(one.maximum, shares[k]) - quantile(other.maximum, shares[k])) / maxima_open[k];
    const double low = (quantile(one.minimum, shares[k]) - quantile(other.minimum, shares[k])) / minima_open[k];
    sum += high * high + low * low;
  }
  return std::sqrt(sum / (2.0 * shares.size()));
}

// The same law without what departs from normal laws alike all year.
Parameters as_normal(Parameters p) {
  p.highs = p.lows = Leaning{};
  p.anomaly_season = p.anomaly_half_year = p.anomaly_two_days = 0.0;
  p.range_half_year = p.range_sd_half_year = Kelvins(0.0);
  return p;
}

}  // namespace

TEST_CASE("a law fitted to every other year foretells the years between as well as those years do themselves") {
  // Overfitting would show here: with eighteen values more the law would be nearer to its own years and further from the others. The halves
  // themselves are `between` apart, by luck alone; a law is smoother than days, so it may do better than they.
  const Record odd = half_of_record(true), even = half_of_record(false);
  const Series odd_days = measured_of(odd), even_days = measured_of(even);
  const double between = apart(odd_days, even_days);
  double squares = 0.0, normal_squares = 0.0;
  for (const auto& [known, others] : {std::pair(&odd, &even_days), std::pair(&even, &odd_days)}) {
    const Parameters p = fit_record(*known, Parameters{});
    const double off = apart(days_from(p, 1000, 4), *others), normal_off = apart(days_from(as_normal(p), 1000, 4), *others);
    squares += 0.5 * off * off;
    normal_squares += 0.5 * normal_off * normal_off;
  }
  INFO("halves " << between << ", law " << std::sqrt(squares) << ", normal law " << std::sqrt(normal_squares));
  CHECK(std::sqrt(squares) < 1.05 * between);
  CHECK(std::sqrt(squares) < 0.75 * std::sqrt(normal_squares));
}

TEST_CASE("each season's drawn highs and lows spread and lean as the record's") {
  // By month, over 61 years: a spread is known to about 4 % (two standard errors, days in a row being alike), a mean to 0.4 K, a skewness to 0.15.
  // Months also differ by what no wave of a year or half of one can follow: the bound of 8 % was set after the first result (6.0 % of highs, 2.6 % of
  // lows; the law before these waves had 10 % of either), the others before it.
  const auto moments = [](const Series& all, const Record* from, int month, bool high) {
    std::vector<double> values;
    const std::size_t days = from ? from->size() : all.maximum.size();
    for (std::size_t i = 0; i < days; ++i) {
      if (static_cast<int>(i % 365 * 12 / 365) != month || (from && !from->has(i))) continue;
      values.push_back(from ? static_cast<double>(high ? from->maximum[i] : from->minimum[i]) : high ? all.maximum[i] : all.minimum[i]);
    }
    double mean = 0.0, square = 0.0, cube = 0.0;
    const auto count = static_cast<double>(values.size());
    for (const double v : values) mean += v / count;
    for (const double v : values) square += (v - mean) * (v - mean) / count, cube += (v - mean) * (v - mean) * (v - mean) / count;
    return std::array<double, 3>{mean, std::sqrt(square), cube / std::pow(square, 1.5)};
  };
  for (const bool high : {true, false}) {
    double spread = 0.0, mean = 0.0, lean = 0.0, leant = 0.0;
    for (int month = 0; month < 12; ++month) {
      const auto said = moments({}, &record(), month, high), got = moments(drawn(), nullptr, month, high);
      INFO((high ? "highs" : "lows") << " of month " << month + 1 << ": mean " << got[0] - said[0] << " K off, spread " << got[1] << " for " << said[1]
                                     << ", skewness " << got[2] << " for " << said[2]);
      CHECK(got[1] == Approx(said[1]).epsilon(0.12));
      mean += (got[0] - said[0]) * (got[0] - said[0]) / 12.0;
      spread += (got[1] / said[1] - 1.0) * (got[1] / said[1] - 1.0) / 12.0;
      lean += (got[2] - said[2]) * (got[2] - said[2]) / 12.0;
      leant += said[2] * said[2] / 12.0;
    }
    INFO((high ? "highs: " : "lows: ") << std::sqrt(mean) << " K, " << 100.0 * std::sqrt(spread) << " %, skewness " << std::sqrt(lean) << " of " << std::sqrt(leant));
    CHECK(std::sqrt(mean) < 0.5);
    CHECK(std::sqrt(spread) < 0.08);
    CHECK(std::sqrt(lean) < 0.75 * std::sqrt(leant));  // a normal law misses all of it
  }
}

TEST_CASE("months of drawn weather vary, and remember each other, as the record's do") {
  // Two standard errors of 61 years of months.
  const auto [spread, memory] = months_of(drawn());
  const auto said = outside::values("said.csv");
  INFO("spread of months " << spread << " K, memory " << memory << "; measured " << said.at("month_sd") << " and " << said.at("month_lag1"));
  CHECK(spread == near(said.at("month_sd"), 0.0816));
  CHECK(memory == near(said.at("month_lag1"), 0.0703));
}

TEST_CASE("the wave through monthly means is R's, within what one wave can do") {
  const auto said = outside::values("said.csv");
  const auto rows = outside::table("nottem.csv");
  REQUIRE(rows.size() == 12);
  std::array<double, 12> monthly{};
  for (std::size_t m = 0; m < 12; ++m) monthly[m] = rows[m][1];
  const YearlyWave wave = fit_yearly_wave(monthly);
  CHECK(wave.mean.value() == near(said.at("nottem_mean"), 1e-6));
  CHECK(wave.amplitude.value() == near(said.at("nottem_amplitude"), 0.02));  // ours fits the months' means about theirs
  double worst = 0.0;
  for (std::size_t m = 0; m < 12; ++m)
    worst = std::max(worst, std::abs(wave_at(wave, 30.4 * static_cast<double>(m) + 15.7).value() - monthly[m]));
  CHECK(worst == near(1.2, 0.05));  // one wave cannot follow a year any closer: the page says so
}

TEST_CASE("monthly means of drawn weather vary as Nottingham's do, and remember less") {
  // With a day's memory of 0.8 the daily spread that gives Nottingham's monthly 1.41 K is about 2.6 K. Its months also remember
  // each other (0.26): more than days alone can hand on (about 0.1). The page says so.
  const auto said = outside::values("said.csv");
  const double memory = 0.797, month = 30.4;
  double factor = 1.0;  // variance of a month's mean to that of a day
  for (int k = 1; k < 200; ++k) factor += 2.0 * std::max(0.0, 1.0 - k / month) * std::pow(memory, k);
  const double daily_sd = said.at("nottem_sd") / std::sqrt(factor / month);
  CHECK(daily_sd > 2.0);
  CHECK(daily_sd < 3.5);
  std::vector<double> months;
  random::Stream luck(random::make_key(7, 0), random::Purpose::test, 3);
  Parameters drawn;
  drawn.anomaly_memory = memory;
  Straying straying(drawn);
  for (int m = 0; m < 12 * generated_years; ++m) {
    double sum = 0.0;
    for (int day = 0; day < 30; ++day) sum += straying.next({random::normal(luck), 0.0, 0.0}).anomaly;
    months.push_back(daily_sd * sum / 30.0);
  }
  double squares = 0.0, products = 0.0;
  for (std::size_t i = 0; i < months.size(); ++i) {
    squares += months[i] * months[i];
    if (i > 0) products += months[i] * months[i - 1];
  }
  CHECK(std::sqrt(squares / static_cast<double>(months.size())) == Approx(said.at("nottem_sd")).epsilon(0.05));
  INFO("memory from month to month " << products / squares);
  CHECK(products / squares < said.at("nottem_lag1"));
  CHECK(products / squares > 0.02);
}
