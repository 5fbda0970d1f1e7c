// Keys of a run, of the outdoor climate and its spells.
#include <algorithm>
#include <utility>
#include <vector>

#include "models/climate/climate.hpp"
#include "sim/scenario/horizon.hpp"
#include "sim/scenario/key_at.hpp"
#include "sim/scenario/key_table.hpp"
#include "sim/scenario/weather.hpp"

namespace rackwright::keys {
namespace {

using S = Scenario;
constexpr std::string_view yours = "yours";
constexpr Range leaning{-climate::most_tail, climate::most_tail};  // each part of a skew or tail; what they add up to is held by shape_of
constexpr std::string_view normals = "fitted to the 1981-2010 daily series of Badajoz (data set tempb, R package ks)";

std::int64_t day_number(std::chrono::year_month_day date) {
  return std::chrono::sys_days(date).time_since_epoch().count();
}

/// Moving the start keeps spells, hard times, arrivals and births on their calendar dates; births already past move to the next season.
std::optional<std::string> set_start(S& scenario, const Value& value, const S&) {
  const std::int64_t day = std::get<std::int64_t>(value);
  const auto later = static_cast<double>(day - day_number(scenario.run.start));
  std::vector<Group> groups = scenario.groups;
  for (Group& group : groups) {
    group.stay = herd::later_start(group.stay, later);
    if (group.breeding.first_birth_day >= 0.0) {
      group.breeding.first_birth_day -= later;
      while (group.breeding.first_birth_day < 0.0) group.breeding.first_birth_day += in_days(group.breeding.every);
    }
    if (std::max({group.stay.arrives, group.stay.leaves, group.breeding.first_birth_day}) > last_group_day)
      return "must not lie more than 4000 days before a date of the group " + group.name;
  }
  for (climate::Overlay& spell : scenario.spells) spell.first_day -= later;
  for (HardTime& hard : scenario.hard_times) hard.first_day -= later;
  scenario.groups = std::move(groups);
  scenario.run.start = std::chrono::year_month_day{std::chrono::sys_days(std::chrono::days(day))};
  return std::nullopt;
}

Key<S> start_key() {
  Key<S> key = declare<S>("run.start", Kind::date, "First day of a run.", yours);
  key.get = [](const S& s, const S&) -> Value { return day_number(s.run.start); };
  key.set = set_start;
  return key;
}

/// Another file has other days: those of the old one go.
std::optional<std::string> set_weather_file(S& scenario, const Value& value, const S&) {
  const auto& written = std::get<std::string>(value);
  // As the page of keys tells its default, and as "" comes from a command line.
  const std::string file = written == "none" || written == "\"\"" ? "" : written;
  if (file != scenario.weather.file) {
    scenario.weather.record.reset();
    scenario.weather.hash.clear();
  }
  scenario.weather.file = file;
  return std::nullopt;
}

Key<S> weather_file_key() {
  Key<S> key = text<S>("climate.file", AT(weather.file),
                       "A CSV file of measured weather beside the scenario, used in place of drawn weather; what it tells goes "
                       "before the other keys of this section.", yours);
  key.set = set_weather_file;
  return key;
}

std::optional<std::string> set_weather_days(S& scenario, const Value& value, const S&) {
  const auto& written = std::get<std::string>(value);
  if (written.empty()) {
    scenario.weather.record.reset();
    return std::nullopt;
  }
  std::optional<climate::Record> record = climate::decode(written);
  if (!record) return "is not a record the program wrote";
  return take_weather(scenario, std::move(*record));
}

Key<S> weather_days_key() {
  Key<S> key = declare<S>("climate.days", Kind::text,
                          "The days of that file as the program keeps them, so that a result needs no file; not to be typed.", yours);
  key.most = 500000.0;
  key.get = [](const S& s, const S&) -> Value { return s.weather.record ? climate::encode(s.weather.record->record) : std::string(); };
  key.set = set_weather_days;
  return key;
}

std::optional<std::string> set_monthly(S& scenario, const Value& value, const S&) {
  const auto& months = std::get<std::vector<double>>(value);
  std::array<double, 12> normals_c{};
  if (months.size() != normals_c.size()) return "must list twelve monthly means, January first";
  std::copy(months.begin(), months.end(), normals_c.begin());
  scenario.climate.mean = climate::fit_yearly_wave(normals_c);
  return std::nullopt;
}

Key<S> monthly_key() {
  Key<S> key = declare<S>("climate.monthly_mean", Kind::reals,
                          "Twelve monthly mean temperatures, January first; a yearly wave is fitted to them.", yours);
  key.unit = "degC";
  key.least = -50.0;
  key.most = 50.0;
  key.get = [](const S&, const S&) -> Value { return {}; };
  key.set = set_monthly;
  return std::move(key).instead({"climate.mean", "climate.amplitude", "climate.peak_day"});
}

Key<climate::Overlay> spell_start_key() {
  using Spell = climate::Overlay;
  Key<Spell> key = declare<Spell>("start", Kind::date, "Date on which the spell begins.", yours);
  key.get = [](const Spell& spell, const S& s) -> Value {
    return day_number(s.run.start) + static_cast<std::int64_t>(spell.first_day);
  };
  key.set = [](Spell& spell, const Value& value, const S& s) -> std::optional<std::string> {
    spell.first_day = static_cast<double>(std::get<std::int64_t>(value) - day_number(s.run.start));
    return std::nullopt;
  };
  return std::move(key).instead({"day"});
}

}  // namespace

Table<S> run_keys() {
  return {
      text<S>("title", AT(title), "What this scenario is called.", yours),
      option<S>("units", {"metric", "us"}, AT(units), "Units the program answers in; any unit may be written.", yours),
      text<S>("currency", AT(currency), "Your money; amounts are plain numbers in it. Left out with units = \"us\": USD.", yours),
      start_key(),
      real<S>("run.length", {24.0, 24.0 * 3660.0}, AT(run.length), "How long one run lasts.", yours).show("d"),
      flag<S>("run.ignorance", AT(run.ignorance),
              "Whether runs also differ in what nobody has measured of sprouting (docs/models/ignorance.md), not in luck alone.", yours),
      whole<S>("run.replications", {1, 1000000}, AT(run.replications),
               "How many times the run is repeated with other luck.", yours),
      whole<S>("run.random_seed", {0, 9.0e18}, AT(run.random_seed),
               "Starting number of all luck; the same number gives the same luck.", yours),
      option<S>("run.warm_up", {"usual", "auto"}, AT(run.warm_up),
                "How long the line is run in before a run counts: usual, or auto for a steady answer, found from a pilot.",
                yours),
      real<S>("run.warm_up_length", {0.0, 24.0 * 60.0}, AT(run.warm_up_length),
              "Run in for so long instead; \"none\": as run.warm_up says.", yours).show("d"),
      flag<S>("run.full_at_start", AT(run.rack_full_at_start),
              "Whether the run opens with the rack already turning over.", yours),
      weather_file_key(),
      text<S>("climate.file_hash", AT(weather.hash),
              "What the bytes of that file come to; a file that comes to something else is refused.", yours),
      real<S>("climate.block", {24.0 * shortest_block, 24.0 * 180}, AT(weather.block),
              "Days in a row that are taken from one measured year before another is gone to.", "assumed").show("d"),
      weather_days_key(),
      real<S>("climate.mean", {-30.0, 40.0}, AT(climate.mean.mean), "Mean outdoor temperature of the year.", normals),
      real<S>("climate.amplitude", {0.0, 40.0}, AT(climate.mean.amplitude),
              "How far the warmest time of year lies above that mean.", normals),
      real<S>("climate.peak_day", {0.0, 366.0}, AT(climate.mean.peak_day),
              "Warmest day of the year, counted from 1 January.", normals),
      real<S>("climate.half_year", {0.0, 15.0}, AT(climate.mean.second),
              "How far a half-year wave lies above and below that yearly one: sharper summers, flatter winters; 0 for none.", yours),
      real<S>("climate.half_year_peak", {0.0, 366.0}, AT(climate.mean.second_peak),
              "A day on which the half-year wave is highest, counted from 1 January.", yours),
      monthly_key(),
      real<S>("climate.range_mean", {0.0, 40.0}, AT(climate.range_mean),
              "Warmest minus coldest hour of a day, mean of the year.", normals),
      real<S>("climate.range_amplitude", {-20.0, 20.0}, AT(climate.range_amplitude),
              "How much wider that daily range is at the warmest time.", normals),
      real<S>("climate.range_lead", {-183.0, 183.0}, AT(climate.range_lead_days),
              "How long before the warmest time of year the daily range is widest.", normals).in("d"),
      real<S>("climate.range_half_year", {0.0, 15.0}, AT(climate.range_half_year),
              "How far a half-year wave of that daily range lies above and below its yearly one; 0 for none.", yours),
      real<S>("climate.range_half_year_peak", {0.0, 366.0}, AT(climate.range_half_year_peak),
              "A day on which that half-year wave is highest, counted from 1 January.", yours),
      real<S>("climate.range_follow", {-1.0, 1.0}, AT(climate.range_follow),
              "How much wider that daily range is for each kelvin that a day is warmer than its season.", yours),
      real<S>("climate.range_follow_summer", {-2.0, 2.0}, AT(climate.range_follow_summer),
              "How much more than that at the warmest time of year, and as much less at the coldest.", yours),
      real<S>("climate.range_follow_half_year", {-2.0, 2.0}, AT(climate.range_follow_half_year),
              "How much more than that at the warmest and the coldest time of year, and as much less between.", yours),
      real<S>("climate.range_follow_lead", {-90.0, 90.0}, AT(climate.range_follow_lead),
              "How long before the warmest time of year those two peak, and the two of range_sd.", yours).in("d"),
      real<S>("climate.range_sd", {0.0, 15.0}, AT(climate.range_sd),
              "How far the daily range strays besides (standard deviation); 0 for not at all.", yours),
      real<S>("climate.range_sd_summer", {-15.0, 15.0}, AT(climate.range_sd_summer),
              "How much more than that at the warmest time of year, and as much less at the coldest.", yours),
      real<S>("climate.range_sd_half_year", {-15.0, 15.0}, AT(climate.range_sd_half_year),
              "How much more than that at the warmest and the coldest time of year, and as much less between.", yours),
      real<S>("climate.range_memory", {0.0, 0.99}, AT(climate.range_memory),
              "How much of that straying is left tomorrow.", yours),
      real<S>("climate.anomaly_sd", {0.0, 15.0}, AT(climate.anomaly_sd),
              "How far a day's mean strays from its season (standard deviation).", normals),
      real<S>("climate.anomaly_season", {0.0, 0.95}, AT(climate.anomaly_season),
              "By what share of its mean the square of that straying is larger at one time of year, and smaller half a year off; 0 for alike all year.", yours),
      real<S>("climate.anomaly_season_peak", {0.0, 366.0}, AT(climate.anomaly_season_peak),
              "That time, counted in days from 1 January.", yours),
      real<S>("climate.anomaly_half_year", {0.0, 0.95}, AT(climate.anomaly_half_year),
              "The same twice a year: by what share it is larger at two times of year, and smaller between.", yours),
      real<S>("climate.anomaly_half_year_peak", {0.0, 366.0}, AT(climate.anomaly_half_year_peak),
              "One of those two times, counted in days from 1 January.", yours),
      real<S>("climate.anomaly_memory", {0.0, 0.99}, AT(climate.anomaly_memory),
              "How much of today's straying is left tomorrow.", normals),
      real<S>("climate.anomaly_two_days", {-0.9, 0.9}, AT(climate.anomaly_two_days),
              "How today's straying hangs on that of two days ago besides yesterday's (partial correlation, of what does not last); 0 for not at all.", yours),
      real<S>("climate.slow_share", {0.0, 0.9}, AT(climate.slow_share),
              "Share of the straying (of its variance) that lasts for weeks and months: mild winters, hot summers.", yours),
      real<S>("climate.slow_memory", {0.8, 0.999}, AT(climate.slow_memory),
              "How much of that share is left tomorrow.", yours),
      real<S>("climate.highs_skew", leaning, AT(climate.highs.skew),
              "How daily highs lean: above 0, hot days reach further from the usual than cool ones; below 0, the other way; 0 for a normal law.", yours),
      real<S>("climate.highs_skew_summer", leaning, AT(climate.highs.skew_summer),
              "How much more than that at the warmest time of year, and as much less at the coldest.", yours),
      real<S>("climate.highs_skew_half_year", leaning, AT(climate.highs.skew_half_year),
              "How much more than that at the warmest and the coldest time of year, and as much less between.", yours),
      real<S>("climate.highs_tail", leaning, AT(climate.highs.tail),
              "How much shorter than a normal law's the tails of daily highs are, on both sides; below 0, longer.", yours),
      real<S>("climate.highs_tail_summer", leaning, AT(climate.highs.tail_summer),
              "How much shorter than that at the warmest time of year, and as much longer at the coldest.", yours),
      real<S>("climate.highs_tail_half_year", leaning, AT(climate.highs.tail_half_year),
              "How much shorter than that at the warmest and the coldest time of year, and as much longer between.", yours),
      real<S>("climate.lows_skew", leaning, AT(climate.lows.skew),
              "How daily lows lean: above 0, mild nights reach further from the usual than cold ones; below 0, the other way; 0 for a normal law.", yours),
      real<S>("climate.lows_skew_summer", leaning, AT(climate.lows.skew_summer),
              "How much more than that at the warmest time of year, and as much less at the coldest.", yours),
      real<S>("climate.lows_skew_half_year", leaning, AT(climate.lows.skew_half_year),
              "How much more than that at the warmest and the coldest time of year, and as much less between.", yours),
      real<S>("climate.lows_tail", leaning, AT(climate.lows.tail),
              "How much shorter than a normal law's the tails of daily lows are, on both sides; below 0, longer.", yours),
      real<S>("climate.lows_tail_summer", leaning, AT(climate.lows.tail_summer),
              "How much shorter than that at the warmest time of year, and as much longer at the coldest.", yours),
      real<S>("climate.lows_tail_half_year", leaning, AT(climate.lows.tail_half_year),
              "How much shorter than that at the warmest and the coldest time of year, and as much longer between.", yours),
      real<S>("climate.dew_depression_mean", {0.0, 40.0}, AT(climate.dew_depression_mean),
              "Mean temperature minus dew point: larger is drier air.", "assumed"),
      real<S>("climate.dew_depression_amplitude", {-30.0, 30.0}, AT(climate.dew_depression_amplitude),
              "How much drier the warmest time of year is.", "assumed"),
      real<S>("climate.dew_depression_sd", {0.0, 15.0}, AT(climate.dew_depression_sd),
              "Day-to-day spread of dryness.", "assumed"),
      real<S>("climate.latitude", {-65.0, 65.0}, AT(climate.latitude),
              "Latitude, which sets the length of the days.", yours),
      real<S>("climate.clear_sky", {0.05, 0.9}, AT(climate.clear_sky_share),
              "Share of the sun above the air that reaches the ground.", "assumed"),
  };
}

const Table<climate::Overlay>& spell_keys() {
  using Spell = climate::Overlay;
  static const Table<Spell> table{
      real<Spell>("day", {-4000.0, 4000.0}, AT(first_day),
                  "First day of the spell, counted from the start of the run.", yours).in("d").must(),
      spell_start_key(),
      real<Spell>("length", {1.0, 365.0}, AT(length_days), "How long it lasts.", yours).in("d").must(),
      real<Spell>("rise", {-30.0, 30.0}, AT(rise),
                  "How much warmer (or, below zero, colder) than it would have been.", yours).must(),
  };
  return table;
}

}  // namespace rackwright::keys
