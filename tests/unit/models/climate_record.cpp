#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <set>
#include <vector>

#include "models/climate/record.hpp"
#include "models/climate/record_blocks.hpp"
#include "models/climate/record_spread.hpp"
#include "tests/catch.hpp"
#include "tests/normal_draws.hpp"

using namespace rackwright;
using namespace rackwright::climate;

namespace {

const float missing = std::numeric_limits<float>::quiet_NaN();

// `years` of 365 days about a wave; year y is y K warmer than the first.
Record made(int years, bool dew = false) {
  Record record;
  record.first_year = 1990;
  for (int i = 0; i < 365 * years; ++i) {
    const double mean = 12.0 + 8.0 * std::cos(2.0 * 3.14159265358979 * (i % 365 + 1 - 200) / 365.0) + i / 365;
    record.maximum.push_back(rounded_to_step(mean + 5.0));
    record.minimum.push_back(rounded_to_step(mean - 5.0));
    if (dew) record.dew_point.push_back(rounded_to_step(mean - 7.0));
  }
  return record;
}

void lose(Record& record, std::size_t day) { record.maximum[day] = record.minimum[day] = missing; }

}  // namespace

TEST_CASE("a record comes back from its text to the bit") {
  Record record = made(2, true);
  lose(record, 17);
  record.dew_point[40] = missing;
  const std::string text = encode(record);
  CHECK(text.size() == 7 + 2U * 3U * 730U);
  const auto back = decode(text);
  REQUIRE(back);
  CHECK(back->first_year == 1990);
  CHECK(encode(*back) == text);
  for (std::size_t i = 0; i < record.size(); ++i) {
    if (record.has(i)) CHECK(back->maximum[i] == record.maximum[i]);
    CHECK(back->has(i) == record.has(i));
  }
}

TEST_CASE("texts that are no record are refused") {
  const std::string good = encode(made(1));
  REQUIRE(decode(good));
  for (const std::string& bad : {std::string(), std::string("1990"), std::string("1990 2 "), std::string("1990 4 AAAA"), good + "A",
                                 good.substr(0, good.size() - 2), "x" + good, std::string("99999") + good.substr(4),
                                 good.substr(0, 20) + "\xC3\xA9" + good.substr(22), good.substr(0, 7) + "//" + good.substr(9),
                                 good.substr(0, 7) + "AA" + good.substr(9)}) {
    INFO(bad.substr(0, 30));
    CHECK_FALSE(decode(bad));
  }
}

TEST_CASE("a hundred years are a record, a hundred and one are none") {
  const std::string year = encode(made(1));
  std::string text = year.substr(0, 7);
  for (int i = 0; i < longest_record; ++i) text += year.substr(7);
  CHECK(decode(text));
  CHECK_FALSE(decode(text + year.substr(7)));
}

TEST_CASE("the fit of a record gives the wave it was made of") {
  const Record flat = made(1, true);
  REQUIRE(enough_to_fit(flat));
  const Parameters p = fit_record(flat, Parameters{});
  CHECK(p.mean.mean.value() == near(12.0, 0.01));
  CHECK(p.mean.amplitude.value() == near(8.0, 0.01));
  CHECK(p.mean.peak_day == near(200.0, 0.1));
  CHECK(p.mean.second.value() < 0.01);
  CHECK(p.range_mean.value() == near(10.0, 0.01));
  CHECK(p.anomaly_sd.value() < 0.03);  // rounding to a twentieth
  CHECK(p.dew_depression_mean.value() == near(7.0, 0.01));
  CHECK(p.latitude == Parameters{}.latitude);
  Record winter = made(1);
  for (std::size_t day = 100; day < 250; ++day) lose(winter, day);
  CHECK_FALSE(enough_to_fit(winter));
}

TEST_CASE("what lasts for months is not fitted to fewer than ten years") {
  Parameters otherwise;
  otherwise.slow_share = 0.3;
  otherwise.slow_memory = 0.95;
  const Parameters p = fit_record(made(6), otherwise);
  CHECK(p.slow_share == 0.0);
  CHECK(p.slow_memory == Parameters{}.slow_memory);
}

TEST_CASE("blocks begin on the day asked for, in a year without a gap in them") {
  Record record = made(5);
  lose(record, 3 * 365 + 110);
  const RecordedWeather weather = prepare(record, {Celsius(12.0), Kelvins(8.0), 200.0});
  CHECK(candidates(weather, 100, 28) == 4);
  CHECK(candidates(weather, 112, 28) == 5);
  CHECK(candidates(weather, 360, 28) == 4);  // the last year ends
  CHECK(candidates(weather, scarcest_day(weather, 28), 28) == 4);
  std::set<std::size_t> begun;
  for (double luck = 0.0; luck < 1.0; luck += 0.01) begun.insert(next_block(weather, 100, 28, -1, luck));
  CHECK(begun == std::set<std::size_t>{99, 365 + 99, 2 * 365 + 99, 4 * 365 + 99});
}

TEST_CASE("one whole year is enough: a block goes on past its last day, at the same season") {
  const RecordedWeather year = prepare(made(1), {Celsius(12.0), Kelvins(8.0), 200.0});
  for (int day = 1; day <= 365; ++day) CHECK(candidates(year, day, 180) == 1);
  CHECK(longest_block(year, 180) == 180);
  CHECK(next_block(year, 340, 28, 338, 0.9) == 339);
  CHECK(day_after(year, 363) == 364);
  CHECK(day_after(year, 364) == 0);
}

TEST_CASE("twelve months from July on are a whole year, too") {
  Record record = made(2);
  for (std::size_t day = 0; day < 181; ++day) lose(record, day);
  for (std::size_t day = 365 + 181; day < 730; ++day) lose(record, day);
  const RecordedWeather months = prepare(record, {Celsius(12.0), Kelvins(8.0), 200.0});
  for (int day = 1; day <= 365; ++day) CHECK(candidates(months, day, 28) == 1);
  CHECK(day_after(months, 364) == 365);
  CHECK(day_after(months, 365 + 180) == 181);
  CHECK(next_block(months, 170, 28, -1, 0.5) == 365 + 169);
}

TEST_CASE("where some year has the block whole, none is taken past the end of the record") {
  const RecordedWeather weather = prepare(made(2), {Celsius(12.0), Kelvins(8.0), 200.0});
  CHECK(candidates(weather, 360, 28) == 1);
  for (const double luck : {0.0, 0.4, 0.99}) CHECK(next_block(weather, 360, 28, -1, luck) == 359);
}

TEST_CASE("a gap in the only year leaves no block there, and the longest that is left is known") {
  Record record = made(1);
  lose(record, 200);
  CHECK(longest_block(prepare(record, {}), 28) == 0);  // that day is in none
  Record two = made(2);
  lose(two, 200);
  lose(two, 365 + 212);
  // On day 201 the first year has no weather, and the second has twelve days until its own gap.
  const RecordedWeather weather = prepare(two, {});
  CHECK(candidates(weather, 201, 28) == 0);
  CHECK(longest_block(weather, 28) == 12);
  CHECK(candidates(weather, scarcest_day(weather, 12), 12) == 1);
}

TEST_CASE("a block follows on weather like yesterday's") {
  const RecordedWeather weather = prepare(made(9), {Celsius(16.0), Kelvins(8.0), 200.0});
  const int yesterday = 4 * 365 + 98;  // the middle year, neither warm nor cold
  std::set<std::size_t> years;
  for (double luck = 0.0; luck < 1.0; luck += 0.01) years.insert(next_block(weather, 100, 28, yesterday, luck) / 365);
  CHECK(years == std::set<std::size_t>{3, 4, 5});
}

TEST_CASE("a measured day keeps its extremes, its moisture is measured or drawn") {
  const RecordedWeather dry = prepare(made(1), {}), wet = prepare(made(1, true), {});
  const Parameters p;
  const Normal usual{0.0, 0.0, 8.0};
  const Day day = day_of(dry, 10, p, usual, 0.0, Kelvins(3.0));
  CHECK(day.maximum == Approx(static_cast<double>(dry.record.maximum[10]) + 3.0));
  CHECK(day.humidity_ratio == Approx(humidity_ratio_at_dew_point(Celsius(dry.record.mean(10) - 8.0))));
  CHECK(day_of(dry, 10, p, usual, -1.0, Kelvins(0.0)).humidity_ratio > day.humidity_ratio);
  const Day measured = day_of(wet, 10, p, usual, 0.0, Kelvins(0.0));
  CHECK(measured.humidity_ratio == Approx(humidity_ratio_at_dew_point(Celsius(static_cast<double>(wet.record.dew_point[10])))));
  CHECK(day_of(wet, 10, p, usual, 2.0, Kelvins(0.0)).humidity_ratio == measured.humidity_ratio);
}

TEST_CASE("a half-year wave is fitted and drawn") {
  const YearlyWave made_of{Celsius(15.0), Kelvins(9.0), 205.0, Kelvins(1.5), 30.0};
  Record record;
  record.first_year = 2000;
  for (int i = 0; i < 730; ++i) {
    const double mean = wave_at(made_of, i % 365 + 1.0).value();
    record.maximum.push_back(rounded_to_step(mean + 4.0));
    record.minimum.push_back(rounded_to_step(mean - 4.0));
  }
  const YearlyWave found = fit_record(record, Parameters{}).mean;
  CHECK(found.second.value() == near(1.5, 0.005));
  CHECK(found.second_peak == near(30.0, 0.2));
  CHECK(found.amplitude.value() == near(9.0, 0.005));
  CHECK(wave_at(made_of, 30.0).value() - wave_at({Celsius(15.0), Kelvins(9.0), 205.0}, 30.0).value() == Approx(1.5));
}

TEST_CASE("how well a record tells is known also where a season was not measured, but not from too few seasons") {
  Record record = made(8);
  const auto lose_block = [&](std::size_t block) {
    for (std::size_t day = 116 * block; day < 116 * (block + 1); ++day) lose(record, day);  // a 25th of eight years
  };
  const auto whole = fit_spread(record, Parameters{});
  REQUIRE(whole);
  lose_block(12);
  const auto with_gap = fit_spread(record, Parameters{});
  REQUIRE(with_gap);
  // Years a degree apart: the mean is told to within some degrees, with the gap or without.
  for (const auto& spread : {whole, with_gap}) {
    CHECK(spread->half_of("climate.mean") > 0.5);
    CHECK(spread->half_of("climate.mean") < 5.0);
  }
  for (const std::size_t block : {2U, 7U, 19U}) lose_block(block);
  CHECK_FALSE(fit_spread(record, Parameters{}));
}

// Künsch 1989 (block jackknife): n estimates, each without one block, on (n - 1) degrees of freedom. Here 25 blocks of 116 days
// and one of 20, worked out from single fits; Student's quantile 2.0595 for 25 degrees of freedom from a handbook table.
TEST_CASE("how well a record tells is the jackknife's spread and shortfall") {
  Record record = made(8);
  std::uint32_t luck = 20;
  double anomaly = 0.0;
  for (std::size_t day = 0; day < record.size(); ++day) {
    anomaly = 0.7 * anomaly + 1.5 * test::pseudo_normal(luck);
    record.maximum[day] = rounded_to_step(static_cast<double>(record.maximum[day]) + anomaly);
    record.minimum[day] = rounded_to_step(static_cast<double>(record.minimum[day]) + anomaly);
  }
  const auto spread = fit_spread(record, Parameters{});
  REQUIRE(spread);
  std::vector<double> means, sds, memories;
  for (std::size_t from = 0; from < record.size(); from += 116) {
    Record rest = record;
    for (std::size_t day = from; day < std::min(record.size(), from + 116); ++day) lose(rest, day);
    const Parameters fitted = fit_record(rest, Parameters{});
    means.push_back(fitted.mean.mean.value());
    sds.push_back(fitted.anomaly_sd.value());
    memories.push_back(fitted.anomaly_memory);
  }
  const Parameters whole = fit_record(record, Parameters{});
  const double n = static_cast<double>(means.size());
  REQUIRE(n == 26.0);
  const auto mean_of = [](const std::vector<double>& all) { return std::accumulate(all.begin(), all.end(), 0.0) / static_cast<double>(all.size()); };
  double squares = 0.0;
  for (const double mean : means) squares += (mean - mean_of(means)) * (mean - mean_of(means));
  CHECK(spread->half_of("climate.mean") == Approx(2.0595 * std::sqrt(25.0 / 26.0 * squares)).epsilon(1e-4));
  CHECK(spread->short_of("climate.mean") == 0.0);
  CHECK(spread->short_of("climate.anomaly_sd") == Approx(25.0 * (whole.anomaly_sd.value() - mean_of(sds))).epsilon(1e-6));
  CHECK(spread->short_of("climate.anomaly_memory") == Approx(25.0 * (whole.anomaly_memory - mean_of(memories))).epsilon(1e-6));
}
