#pragma once
// Outdoor weather: annual wave + daily anomaly with memory + a day's shape + humidity + sun, and overlays.
// Equations, sources and what is left out: docs/models/climate.md.

#include <array>
#include <vector>

#include "models/base/quantity.hpp"
#include "models/climate/shape.hpp"

namespace rackwright::climate {

/// T(d) = mean + amplitude cos(2 pi (d - peak)/365) + second cos(4 pi (d - second_peak)/365); d is the day of the year,
/// 1 January = 1. The half-year wave (none unless fitted) sharpens summers and flattens winters, or the other way round.
/// The default is the daily mean of a dry southern inland station (37 years of daily data, fitted).
struct YearlyWave {
  Celsius mean{17.07};
  Kelvins amplitude{8.65};
  double peak_day = 204.8;
  Kelvins second{};
  double second_peak = 0.0;  ///< a day on which the half-year wave is highest, 0..182.5
};

/// First harmonic of twelve monthly means: their plain mean (as climate normals reckon the year), and cosine and sine by
/// least squares about it, each month set at its middle day. Peak day in 0..365.
YearlyWave fit_yearly_wave(const std::array<double, 12>& monthly_celsius);
Celsius wave_at(const YearlyWave& wave, double day_of_year);

/// How the daily highs (or lows) of each season depart from a normal law, see Shape: skew of the year's mean, more than that at the mean's
/// peak (as much less half a year off), more than that at both (as much less between), all [1]; tail likewise.
struct Leaning {
  double skew = 0.0, skew_summer = 0.0, skew_half_year = 0.0, tail = 0.0, tail_summer = 0.0, tail_half_year = 0.0;
  friend bool operator==(const Leaning&, const Leaning&) = default;
};

/// The shape where the yearly and the half-year wave about the mean's peak stand at `summer` and `half_year`, each -1 to 1.
Shape shape_at(const Leaning& leaning, double summer, double half_year);

/// Site climate.
struct Parameters {
  YearlyWave mean;                       ///< of the daily mean, taken as half of maximum plus minimum
  Kelvins range_mean{13.5};              ///< daily maximum minus minimum, yearly mean
  Kelvins range_amplitude{4.1};          ///< its wave
  double range_lead_days = 22.8;         ///< the range peaks this long before the mean (widest July, narrowest December) [d]
  Kelvins range_half_year{};             ///< a half-year wave of the range
  double range_half_year_peak = 0.0;     ///< a day on which that is highest
  double range_follow = 0.0;             ///< how much wider the range is for each kelvin of anomaly, mean of the year [K/K]
  double range_follow_summer = 0.0;      ///< more than that at the mean's peak, as much less half a year off (clear days are hot in summer, cold in winter) [K/K]
  double range_follow_half_year = 0.0;   ///< more than that at the mean's peak and half a year off, as much less between [K/K]
  double range_follow_lead = 0.0;        ///< so long before the mean's peak these waves peak, and those of range_sd [d]
  Kelvins range_sd{};                    ///< of the range about all that
  Kelvins range_sd_summer{};             ///< more than that at the mean's peak, as much less half a year off
  Kelvins range_sd_half_year{};          ///< more than that at the mean's peak and half a year off, as much less between
  double range_memory = 0.0;             ///< its lag-1 correlation [1]
  Kelvins anomaly_sd{2.91};              ///< of the daily mean about the wave
  double anomaly_season = 0.0;           ///< by what share of its mean the anomaly's variance is larger at a time of year, and less half a year off [1]
  double anomaly_season_peak = 0.0;      ///< that time, day of the year
  double anomaly_half_year = 0.0;        ///< the same of a half-year wave [1]
  double anomaly_half_year_peak = 0.0;   ///< a day on which that is highest
  double anomaly_memory = 0.797;         ///< lag-1 correlation [1]
  double anomaly_two_days = 0.0;         ///< partial correlation with two days ago, of the part that does not last [1]
  double slow_share = 0.0;               ///< of the anomaly's variance that lasts for weeks and months [1]
  double slow_memory = 0.98;             ///< its lag-1 correlation [1]
  Leaning highs, lows;                   ///< none: normal laws
  Kelvins dew_depression_mean{8.0};      ///< daily mean temperature minus dew point, yearly mean (assumed)
  Kelvins dew_depression_amplitude{4.0}; ///< its wave, same peak day (assumed)
  Kelvins dew_depression_sd{2.0};        ///< its day-to-day spread (assumed)
  Degrees latitude{38.9};
  double clear_sky_share = 0.65;         ///< of extraterrestrial radiation reaching the ground, mean [1]
};

/// A heat wave or a cold snap laid over whatever the weather is.
struct Overlay { double first_day = 0.0; double length_days = 0.0; Kelvins rise{}; };  ///< first_day counts from the start of the run

/// Rise on the day with number `day`, taken at its noon: the first day ramps up, the last ramps down (half the rise each),
/// the days between have all of it. Overlays add.
Kelvins overlay_rise(const std::vector<Overlay>& overlays, double day);

/// Sun times [h, local solar time].
struct SunTimes { double sunrise = 6.0, sunset = 18.0; };

/// From declination 0.409 sin(2 pi d/365 - 1.39) and sunset hour angle acos(-tan latitude tan declination)
/// (FAO Irrigation and Drainage Paper 56, eqs 24, 25): the sun's centre, no refraction. Polar day 0..24, polar night 12..12.
SunTimes sun_times(Degrees latitude, double day_of_year);

/// Extraterrestrial radiation on a horizontal surface over a day [MJ/m2] (FAO-56 eq. 21).
double extraterrestrial_radiation(Degrees latitude, double day_of_year);

/// Mean sun on flat ground in each hour h..h+1 of the day [W/m2]: extraterrestrial radiation (FAO-56 eq. 28) times the share.
std::array<double, 24> hourly_sun(Degrees latitude, double day_of_year, double clear_sky_share);

/// Constants a, b, c of the day's shape for air at 150 cm (Parton & Logan 1981, Agric. Meteorol. 23:205-216).
struct DayShape { double a = 1.86, b = 2.20, c = -0.17; };

/// Temperature at an hour 0..24 of the day. From sunrise to sunset Tn + (Tx - Tn) sin(pi m/(Y + 2a)), m hours since
/// sunrise + c (c shifts the start of the sine, not its period; the minimum holds until it starts); otherwise
/// Tn + (Ts - Tn) exp(-b n/Z), n hours since the last sunset. Y, Z day and night length, Ts temperature at sunset.
/// Continuous at sunset; at sunrise there is a step of a degree or so, since the night does not quite reach the minimum.
Celsius temperature_at(Celsius maximum, Celsius minimum, SunTimes sun, double hour, const DayShape& shape = {});

/// Outdoor temperature in the middle of an hour (h + 1/2) as
///   today_max * Tx + today_min * Tn + yesterday_max * Tx(yesterday) + yesterday_min * Tn(yesterday).
/// The weights add to 1. From sunrise on, only today's are not zero, and the sum equals temperature_at. Before sunrise the
/// air cools from yesterday's sunset temperature (yesterday's weights) towards today's minimum (today_min); with
/// yesterday like today the sum equals temperature_at there too.
struct HourWeights { double today_max = 0.0, today_min = 0.0, yesterday_max = 0.0, yesterday_min = 0.0; };
std::array<HourWeights, 24> hour_weights(SunTimes sun, const DayShape& shape = {});

/// One day of weather.
struct Day { double maximum = 0.0, minimum = 0.0, humidity_ratio = 0.0; };  ///< [degC, degC, kg/kg]

/// A day's luck: the anomaly of its mean and that of its range, each in sd units, and a standard normal for its dew point.
struct Luck { double anomaly = 0.0, dew = 0.0, range = 0.0; };

/// Builds a day from its luck; `rise` of overlays. Maximum and minimum are wave + anomaly + rise, plus and minus half the range, which
/// follows the anomaly and strays by itself (never under 1 K). Where the highs or lows lean, the score of each (what it strays, in its own
/// spread) is shaped before it is laid on: that keeps who is warm when, and for how long; the minimum then gives way to the least range. The dew point is the day's mean without the rise, less the depression
/// (never under 0.5 K), and not above the minimum: an overlay brings no water, and a night that reaches saturation dries to it.
Day day_from(const Parameters& parameters, double day_of_year, const Luck& luck, Kelvins rise);

/// What day_from takes from the day of the year alone: the waves of mean, range and dew-point depression [degC, K, K], half the range's
/// following [K/K] and half its spread [K]; the anomaly's spread [K]; the spreads of highs and lows [K] and their shapes, if they have any.
struct Normal {
  double mean = 0.0, half_range = 0.0, dew_depression = 0.0, half_follow = 0.0, half_spread = 0.0, spread = 0.0;
  bool leaning = false;
  double high_spread{}, low_spread{};
  Shape highs{}, lows{};
};
Normal normal_of(const Parameters& parameters, double day_of_year);
/// A day's mean and half its range before any overlay, by that [degC, K].
struct Extremes { double mean = 0.0, half_range = 0.0; };
Extremes extremes_from(const Normal& normal, const Luck& luck);
/// day_from with the waves read beforehand: the same bits, without a cosine.
Day day_from(const Parameters& parameters, const Normal& normal, const Luck& luck, Kelvins rise);

/// Humidity ratio at a dew point and 101325 Pa [1], by FAO-56 eq. 11; within 0.5 % of room::saturation_humidity_ratio at 0..40 degC.
double humidity_ratio_at_dew_point(Celsius dew_point);

/// Lag-1 memory of the part of the anomaly that does not last, [0, 1): what is left when the slow part's is taken off.
double fast_memory(const Parameters& parameters);

/// How that part comes from its yesterday and the day before: weights [1]. (memory, 0) unless anomaly_two_days says otherwise.
struct Recall { double yesterday = 0.0, before = 0.0; };
Recall recall(const Parameters& parameters);

/// The anomalies of days on end, of mean and range, in sd units: the mean's is an AR(1) and a slower one by its share, which together have the
/// lag-1 memory of the parameters. Where two days ago counts besides yesterday, the first is an AR(2).
class Straying {
 public:
  explicit Straying(const Parameters& parameters);
  /// A day's four standard normals; the first day's are taken as they are, so that it is of no season's luck.
  struct Innovation { double fast = 0.0, slow = 0.0, range = 0.0; };
  struct Strayed { double anomaly = 0.0, range = 0.0; };
  Strayed next(const Innovation& innovation);

 private:
  double fast_weight_, slow_weight_, fast_memory_, slow_memory_, range_memory_, fast_rest_, slow_rest_, range_rest_;
  Recall recall_;
  double recall_rest_;
  double fast_ = 0.0, fast_before_ = 0.0, slow_ = 0.0, range_ = 0.0;
  int days_ = 0;  // up to 2
};

/// What a daily series says of itself.
struct SeriesFit { YearlyWave wave; double anomaly_sd = 0.0, lag1 = 0.0; };  ///< [-, K, 1]

/// Fits wave, spread and memory; day_of_year and celsius have equal length >= 60. Only neighbours one day apart (31
/// December and 1 January too) count towards the memory, so gaps do no harm. `half_year`: the half-year wave too.
SeriesFit fit_series(const std::vector<double>& day_of_year, const std::vector<double>& celsius, bool half_year = false);

}  // namespace rackwright::climate
