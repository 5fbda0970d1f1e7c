// `evaluate`: moist air and weather, called exactly as the simulator calls them.
#include <algorithm>
#include <array>
#include <cmath>

#include <string>

#include <fmt/format.h>

#include "models/climate/climate.hpp"
#include "models/climate/fitted_values.hpp"
#include "models/room/moist_air.hpp"
#include "sim/app/evaluate_keys.hpp"

namespace rackwright::app {

namespace {

constexpr const char* psychrometrics =
    "ASHRAE Handbook Fundamentals, Psychrometrics (Hyland-Wexler saturation pressure, ideal-gas mixture)";

std::vector<Result> saturation_pressure(const Arguments& in) {
  return {{"pressure", room::saturation_pressure(Celsius(in.number("temperature"))).value(), "Pa"}};
}

constexpr const char* boils = "water boils there: its vapour alone would exceed the pressure";

room::MoistAir air_of(const Arguments& in) {
  const Celsius temperature(in.number("temperature"));
  const Pascals pressure(in.number("pressure"));
  if (in.has("wet_bulb") == in.has("relative_humidity"))
    throw BadArguments{"give either wet_bulb or relative_humidity, and not both"};
  if (in.has("relative_humidity")) {
    const double humidity = in.number("relative_humidity") / 100.0;
    if (humidity * room::saturation_pressure(temperature) >= pressure) throw BadArguments{boils};
    return room::from_relative_humidity(temperature, humidity, pressure);
  }
  const Celsius wet_bulb(in.number("wet_bulb"));
  if (wet_bulb > temperature) throw BadArguments{"wet_bulb cannot be above temperature"};
  if (room::saturation_pressure(wet_bulb) >= pressure) throw BadArguments{boils};
  if (room::wet_bulb_humidity_ratio(temperature, wet_bulb, pressure) <= 0.0)
    throw BadArguments{"wet_bulb is lower than the driest air of this temperature can show"};
  return room::from_wet_bulb(temperature, wet_bulb, pressure);
}

std::vector<Result> moist_air(const Arguments& in) {
  const room::MoistAir air = air_of(in);
  if (air.dew_point <= room::coldest) throw BadArguments{"the air is so dry that its dew point lies below -100 degC"};
  return {{"humidity_ratio", air.humidity_ratio, "1"},
          {"relative_humidity", 100.0 * air.relative_humidity, "%"},
          {"dew_point", air.dew_point.value(), "degC"},
          {"enthalpy", air.enthalpy, "kJ/kg"},
          {"volume", air.volume, "m3/kg"},
          {"wet_bulb", in.has("wet_bulb") ? in.number("wet_bulb") : room::wet_bulb(Celsius(in.number("temperature")), air.humidity_ratio, Pascals(in.number("pressure"))).value(), "degC"}};
}

std::vector<Result> sun(const Arguments& in) {
  const Degrees latitude(in.number("latitude"));
  const double day = in.number("day");
  const climate::SunTimes times = climate::sun_times(latitude, day);
  return {{"day_length", times.sunset - times.sunrise, "h"},
          {"sunrise", times.sunrise, "h"},
          {"sunset", times.sunset, "h"},
          {"radiation", climate::extraterrestrial_radiation(latitude, day), "MJ/m2"}};
}

std::vector<Result> daily_temperature(const Arguments& in) {
  const climate::SunTimes sun{in.number("sunrise"), in.number("sunset")};
  if (in.number("min") > in.number("max")) throw BadArguments{"min cannot be above max"};
  if (sun.sunrise >= sun.sunset) throw BadArguments{"sunrise must come before sunset"};
  const Celsius temperature =
      climate::temperature_at(Celsius(in.number("max")), Celsius(in.number("min")), sun, in.number("hour"));
  return {{"temperature", temperature.value(), "degC"}};
}

std::vector<Result> yearly_wave(const Arguments& in) {
  const std::vector<double>& given = in.list("monthly");
  std::array<double, 12> monthly{};
  if (given.size() != monthly.size()) throw BadArguments{"monthly needs twelve values, January first"};
  std::copy(given.begin(), given.end(), monthly.begin());
  const climate::YearlyWave wave = climate::fit_yearly_wave(monthly);
  // Twelve months alike leave nothing but rounding.
  if (wave.amplitude.value() < 1e-12 * (1.0 + std::abs(wave.mean.value()))) return {{"mean", wave.mean.value(), "degC"}, {"amplitude", 0.0, "K"}};
  return {{"mean", wave.mean.value(), "degC"},
          {"amplitude", wave.amplitude.value(), "K"},
          {"peak_day", wave.peak_day, "d"}};
}

std::vector<Result> leaning_score(const Arguments& in) {
  const climate::Shape shape = climate::shape_of(in.number("skew"), in.number("tail"));
  return {{"shaped", climate::shaped(shape, in.number("score")), "1"}};
}

/// The keys that make a day of drawn weather, as the key table has them, but for those of moisture and sun.
std::vector<Argument> day_arguments() {
  static const std::vector<std::string> standards = [] {
    std::vector<std::string> texts;
    for (const climate::FittedValue& value : climate::fitted_values()) texts.push_back(fmt::format("{}", value.get(climate::Parameters{})));
    return texts;
  }();
  std::vector<Argument> all{{"day", "1", "", 1.0, 365.0, "day of the year, 1 January = 1"},
                            {"anomaly", "1", "0", -6.0, 6.0, "luck of the day's mean, in standard deviations"},
                            {"range", "1", "0", -6.0, 6.0, "luck of the daily range besides, in standard deviations"}};
  const auto values = climate::fitted_values();
  for (std::size_t k = 0; k < values.size(); ++k) {
    const Argument argument = key_argument(values[k].key, standards[k]);
    // Memories make one day of the last: they have no part in a single day.
    if (argument.name.ends_with("memory") || argument.name == "anomaly_two_days" || argument.name == "slow_share") continue;
    all.push_back(argument);
  }
  return all;
}

std::vector<Result> day_extremes(const Arguments& in) {
  climate::Parameters site;
  for (const climate::FittedValue& value : climate::fitted_values())
    if (const auto name = value.key.substr(std::string_view("climate.").size()); in.has(name)) value.set(site, in.number(name));
  const climate::Normal usual = climate::normal_of(site, in.number("day"));
  const auto [mean, half_range] = climate::extremes_from(usual, {in.number("anomaly"), 0.0, in.number("range")});
  return {{"max", mean + half_range, "degC"},
          {"min", mean - half_range, "degC"},
          {"usual_mean", usual.mean, "degC"},
          {"mean_spread", usual.spread, "K"},
          {"max_spread", usual.high_spread, "K"},
          {"min_spread", usual.low_spread, "K"}};
}

}  // namespace

std::vector<Evaluator> climate_evaluators() {
  return {
      {"saturation-pressure",
       "Saturation pressure of water vapour, over ice below 0.01 degC.",
       psychrometrics,
       {{"temperature", "degC", "", -100.0, 200.0, "temperature"}},
       saturation_pressure},
      {"moist-air",
       "State of moist air from its wet bulb or its relative humidity.",
       psychrometrics,
       {{"temperature", "degC", "", -60.0, 150.0, "dry-bulb temperature"},
        {"wet_bulb", "degC", "", -60.0, 100.0, "thermodynamic wet-bulb temperature", true},
        {"relative_humidity", "%", "", 0.01, 100.0, "relative humidity", true},
        {"pressure", "Pa", "101325", 30000.0, 200000.0, "barometric pressure"}},
       moist_air},
      {"daily-temperature",
       "Temperature at an hour of the day between its minimum and maximum (a 1.86, b 2.20, c -0.17; period day length + 2a).",
       "Parton & Logan 1981, Agric. Meteorol. 23:205-216",
       {{"max", "degC", "", -80.0, 70.0, "the day's maximum"},
        {"min", "degC", "", -80.0, 70.0, "the day's minimum"},
        {.name = "sunrise", .unit = "h", .standard = "", .least = 0.0, .most = 24.0, .sentence = "hour of sunrise", .clock = true},
        {.name = "sunset", .unit = "h", .standard = "", .least = 0.0, .most = 24.0, .sentence = "hour of sunset", .clock = true},
        {.name = "hour",
         .unit = "h",
         .standard = "",
         .least = 0.0,
         .most = 24.0,
         .sentence = "hour of the day; before sunrise the night of the same two temperatures",
         .clock = true}},
       daily_temperature},
      {"yearly-wave",
       "Mean, amplitude and peak day of the year's temperature wave through twelve monthly means.",
       "first harmonic by least squares at mid-month days, about the mean of the twelve months",
       {{"monthly", "degC", "", -80.0, 70.0, "twelve monthly means, January first", false, true}},
       yearly_wave},
      {"leaning-score",
       "A standard normal score as highs or lows that lean have it: still of mean 0 and spread 1.",
       "sinh-arcsinh law, Jones & Pewsey 2009, Biometrika 96:761-780, brought to mean 0 and spread 1",
       {{"score", "1", "", -8.0, 8.0, "score before"},
        {"skew", "1", "0", -climate::most_skew, climate::most_skew, "above 0 the warm side reaches further"},
        {"tail", "1", "0", -climate::most_tail, climate::most_tail, "above 0 both tails are shorter than normal ones"}},
       leaning_score},
      {"day-extremes",
       "High and low of a drawn day from its luck and the keys of [climate].",
       "yearly waves, normal luck, leaning highs and lows; at least 1 K between high and low, seen to after the leaning "
       "(docs/models/climate.md)",
       day_arguments(),
       day_extremes},
      {"sun",
       "Sunrise and sunset in local solar time, and radiation above the air on flat ground, on a day of the year.",
       "FAO Irrigation and Drainage Paper 56, eqs 21 to 25; the sun's centre, no refraction; its declination is up to 1.3 degrees off in "
       "autumn: days then up to 8 min short at 38.9 degrees north (long in the south), 15 at 55, 26 at 66; flat ground then "
       "gets up to 3, 6 and 17 % too little (docs/models/climate.md)",
       {{"latitude", "degree", "", -66.0, 66.0, "latitude, north positive"}, {"day", "1", "", 1.0, 366.0, "day of the year, 1 January = 1"}},
       sun},
  };
}

}  // namespace rackwright::app
