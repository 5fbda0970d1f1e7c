// Pictures and their curves; the published points are those of the rows, or of the data named in the title.
#include "tests/reference/table/curves_parts.hpp"
#include "tests/reference/table/steady.hpp"

#include <array>
#include <cmath>
#include <tuple>

#include <fmt/format.h>

#include "models/climate/climate.hpp"
#include "models/cost/ledger.hpp"
#include "models/germination/fit.hpp"
#include "models/grain/lot.hpp"
#include "models/grain/viability.hpp"
#include "models/growth/mat.hpp"
#include "models/herd/animals.hpp"
#include "models/room/moist_air.hpp"
#include "models/route/stations.hpp"
#include "models/soak/uptake.hpp"
#include "models/spoilage/hazard.hpp"
#include "models/water/friction.hpp"
#include "models/water/hydraulics.hpp"

namespace rackwright::validation {
namespace {

void soak_marks(Marks& out) {
  for (const auto& [species, celsius] : {std::pair{"wheat", 20.0}, std::pair{"barley", 13.5}, std::pair{"barley", 20.0}})
    line(out, "soak", fmt::format("{}, {} degC", species, celsius), 0.0, 50.0, [s = species, c = celsius](double h) {
      return 100.0 * soak::moisture_after(*soak::preset(s), Celsius(c), 0.12, Hours(h));
    });
  for (const auto& [h, percent] : {std::pair{2.0, 24.4}, std::pair{4.0, 27.6}, std::pair{8.0, 31.8}, std::pair{12.0, 34.6}, std::pair{24.0, 40.3}})
    point(out, "soak", "wheat, 20 degC", h, percent);
  point(out, "soak", "barley, 13.5 degC", 45.0, 45.0, 3.5);
}

void germination_marks(Marks& out) {
  const auto p = *germination::preset("barley");
  for (const auto& dish : germination::barley_counts()) {
    if (dish.temperature == Celsius(40.0)) continue;
    const auto series = fmt::format("{} degC", dish.temperature.value());
    line(out, "germination", series, 0.0, 21.0, [&](double day) {
      return 100.0 * germination::at_constant(p, dish.temperature, days(day), germination::barley_counts_germinable).germinated;
    });
    for (std::size_t i = 0; i < dish.day.size(); ++i)
      if (dish.day[i] <= 21.0) point(out, "germination", series, dish.day[i], 100.0 * dish.germinated[i] / dish.sown);
  }
}

void mat_marks(Marks& out) {
  const auto mat_at = [](const char* species, double celsius, double day) { return mat_in(species, celsius, day); };
  const struct { const char* species; double celsius; } dried[] = {{"barley", 17.5}, {"barley", 21.0}, {"barley", 24.0}, {"wheat", 24.0}};
  for (const auto& mat : dried)
    line(out, "mat", fmt::format("{}, {} degC", mat.species, mat.celsius), 0.0, 12.0,
         [&](double day) { return 100.0 * mat_at(mat.species, mat.celsius, day).dry_matter; });
  point(out, "mat", "barley, 21 degC", 8.0, 12.23, 1.78);   // Nait-Merzeg et al., 18 to 24 degC
  point(out, "mat", "barley, 17.5 degC", 8.0, 14.14, 2.44);  // the same, 11 to 24 degC
  point(out, "mat", "barley, 24 degC", 8.0, 17.1);           // Al-Karaki & Al-Hashimi 2012
  point(out, "mat", "wheat, 24 degC", 8.0, 17.6);            // the same
  for (const double celsius : {18.0, 20.0, 24.0})
    line(out, "mat-loss", fmt::format("barley, {} degC", celsius), 0.0, 12.0,
         [&](double day) { return 100.0 * mat_at("barley", celsius, day).dry_matter_loss; });
  point(out, "mat-loss", "Dung, Godwin & Nolan 2010", 7.0, 21.9);
  point(out, "mat-loss", "university extension, 25 to 30 %", 6.5, 27.5, 2.5);
  point(out, "mat-loss", "our middle of trials and reviews", 7.05, 20.0, 6.0);  // beside the first, to be seen
}

void spoilage_marks(Marks& out) {
  const spoilage::Cardinal printed{Celsius(5.0), Celsius(20.0), Celsius(30.0)};
  const spoilage::Parameters p;
  const auto factor = [](const spoilage::Cardinal& c) { return [&c](double t) { return spoilage::growth_factor(c, Celsius(t)); }; };
  line(out, "spoilage", "5, 20, 30 degC", 0.0, 52.0, factor(printed));
  line(out, "spoilage", "mould (assumed)", 0.0, 52.0, factor(p.mould));
  line(out, "spoilage", "souring (assumed)", 0.0, 52.0, factor(p.sour));
  for (const auto& [t, y] : {std::pair{6.0, 0.02}, std::pair{8.0, 0.14666667}, std::pair{10.0, 0.33333333}, std::pair{15.0, 0.80},
                             std::pair{20.0, 1.0}, std::pair{22.0, 0.96333333}, std::pair{25.0, 0.76190476}})
    point(out, "spoilage", "5, 20, 30 degC", t, y);
}

void climate_marks(Marks& out) {
  constexpr std::array<double, 12> middle{16, 45.5, 75, 105.5, 136, 166.5, 197, 228, 258.5, 289, 319.5, 350};
  const std::array<double, 12> badajoz{8.64, 10.38, 13.38, 15.17, 18.73, 23.49, 26.08, 25.88, 22.82, 17.73, 12.64, 9.64};
  std::array<double, 12> nottingham{39.70, 39.19, 42.20, 46.29, 52.56, 58.04, 61.90, 60.52, 56.48, 49.50, 42.58, 39.53};
  for (double& month : nottingham) month = (month - 32.0) / 1.8;
  for (const auto& [name, months] : {std::pair{"Badajoz 1981-2010", badajoz}, std::pair{"Nottingham 1920-1939", nottingham}}) {
    const auto wave = climate::fit_yearly_wave(months);
    line(out, "climate", name, 1.0, 365.0, [&](double day) { return climate::wave_at(wave, day).value(); });
    for (std::size_t m = 0; m < 12; ++m) point(out, "climate", name, middle[m], months[m]);
  }
}

void room_marks(Marks& out) {
  line(out, "room", "saturated air", -5.0, 40.0, [](double t) { return 1000.0 * room::saturation_humidity_ratio(Celsius(t)); });
  line(out, "room", "half saturated", 0.0, 40.0, [](double t) { return 1000.0 * room::from_relative_humidity(Celsius(t), 0.5).humidity_ratio; });
  for (const auto& [t, w] : {std::pair{20.0, 14.758}, std::pair{25.0, 20.170}}) point(out, "room", "saturated air", t, w);
  point(out, "room", "half saturated", 20.0, 7.26174);
}

void water_marks(Marks& out) {
  constexpr double gpm = 3.785411784 * 60.0;
  for (const auto& [inches, name] : {std::pair{1.049, "1 in"}, std::pair{1.380, "1 1/4 in"}, std::pair{1.610, "1 1/2 in"}})
    line(out, "water", name, 0.8, 22.0, [i = inches](double g) {
      return water::hazen_williams_loss(LitresPerHour(g * gpm), Metres(i * 0.0254), Metres(30.48)).value() / 0.3048;
    });
  line(out, "water", "1 in, Darcy-Weisbach", 0.8, 22.0, [](double g) {
    return water::pipe_loss(LitresPerHour(g * gpm), Metres(1.049 * 0.0254), Metres(30.48)).value() / 0.3048;
  });
  for (const auto& [g, feet] : {std::pair{1, 0.07}, std::pair{2, 0.28}, std::pair{3, 0.60}, std::pair{4, 1.01}, std::pair{5, 1.52},
                                std::pair{6, 2.14}, std::pair{8, 3.63}, std::pair{10, 5.50}})
    point(out, "water", "1 in", g, feet);
  point(out, "water", "1 1/4 in", 10, 1.46);
  point(out, "water", "1 1/4 in", 20, 5.23);
  point(out, "water", "1 1/2 in", 5, 0.18);
  point(out, "water", "1 1/2 in", 10, 0.70);
}

void route_marks(Marks& out) {
  using route::LiftDuration;
  for (const auto& [duration, name] : {std::pair{LiftDuration::up_to_1_hour, "up to 1 h"}, std::pair{LiftDuration::up_to_2_hours, "up to 2 h"},
                                       std::pair{LiftDuration::up_to_8_hours, "up to 8 h"}})
    line(out, "route", name, 0.2, 15.0, [d = duration](double lifts) { return route::frequency_multiplier(lifts, Metres(0.75), d); });
  for (const auto& [name, lifts, y] : {std::tuple{"up to 1 h", 0.2, 1.0}, std::tuple{"up to 1 h", 1.0, 0.94}, std::tuple{"up to 1 h", 5.0, 0.80},
                                       std::tuple{"up to 1 h", 10.0, 0.45}, std::tuple{"up to 2 h", 0.2, 0.95}, std::tuple{"up to 2 h", 5.0, 0.60},
                                       std::tuple{"up to 8 h", 0.2, 0.85}, std::tuple{"up to 8 h", 5.0, 0.35}, std::tuple{"up to 8 h", 9.0, 0.15}})
    point(out, "route", name, lifts, y);
}

void herd_marks(Marks& out) {
  const auto kid = herd::find_class("goat-kid")->growth;
  const auto curve = [](double a, double b, double w0) {
    return [=](double day) { return herd::weight_at({Kilograms(a), b, Kilograms(w0)}, days(day)).value(); };
  };
  line(out, "herd", "pig", 0.0, 160.0, curve(230, 0.0126, 1.5));
  line(out, "herd", "ewe lamb", 0.0, 160.0, curve(100, 0.0108, 5.0));
  line(out, "herd", "goat kid", 0.0, 160.0, curve(kid.mature.value(), kid.rate_per_day, 3.25));
  point(out, "herd", "pig", 100, 55.2);
  point(out, "herd", "pig", 150, 107.5);
  point(out, "herd", "ewe lamb", 100, 36.2);
  point(out, "herd", "goat kid", 105, 13.5);
}

void store_marks(Marks& out) {
  const auto barley = *grain::viability_constants("barley");
  for (const auto& [moisture, celsius, name] : {std::tuple{10.0, 20.0, "10 %, 20 degC"}, std::tuple{12.0, 15.0, "12 %, 15 degC"},
                                               std::tuple{12.0, 20.0, "12 %, 20 degC"}, std::tuple{14.0, 30.0, "14 %, 30 degC"}})
    line(out, "grain", name, 0.0, 800.0, [barley, moisture = moisture, celsius = celsius](double day) {
      return 100.0 * grain::viability_after(0.98, day / grain::sigma_days(barley, moisture, Celsius(celsius)));
    });
  point(out, "grain", "10 %, 20 degC", 365, 95.0);
  point(out, "grain", "12 %, 15 degC", 365, 92.6);
  point(out, "grain", "12 %, 20 degC", 365, 83.6);
  point(out, "grain", "14 %, 30 degC", 82.6, 50.0);
}

void lot_marks(Marks& out) {
  // The rule behind the table: binomial spread times the studentised range of four, 3.984 (Miles 1963).
  line(out, "lot", "rule behind the table", 51.0, 99.5, [](double mean) { return 3.984 * std::sqrt(mean * (100.0 - mean) / 100.0); });
  for (int mean = 51; mean <= 99; mean += 2) point(out, "lot", "table in use, four replicates", mean, grain::tolerated_range(mean, 4));
}

void cost_marks(Marks& out) {
  for (const double interest : {0.05, 0.10})
    line(out, "cost", fmt::format("{} % interest", 100.0 * interest), 1.0, 20.0,
         [interest](double years) { return cost::annual_cost(Money(1), years, interest).value(); });
  for (const auto& [years, y] : {std::pair{5.0, 0.23097}, std::pair{10.0, 0.12950}, std::pair{20.0, 0.08024}}) point(out, "cost", "5 % interest", years, y);
  for (const auto& [years, y] : {std::pair{1.0, 1.1}, std::pair{5.0, 0.26380}, std::pair{10.0, 0.16275}}) point(out, "cost", "10 % interest", years, y);
}

}  // namespace

const std::vector<Picture>& pictures() {
  static const std::vector<Picture> all{
      {"soak", "Water taken up in the soak", "hours in water", "moisture, % wet basis"},
      {"germination", "Barley: counts of 150 kernels and the fitted curves", "days since wetting", "germinated, %"},
      {"mat", "Dry matter of a mat", "days on the rack", "dry matter, %"},
      {"mat-loss", "Dry matter lost by a barley mat", "days on the rack", "of the grain's dry matter, %"},
      {"spoilage", "Growth factor of the cardinal model", "temperature, degC", "factor"},
      {"climate", "Yearly wave through monthly means", "day of the year", "temperature, degC"},
      {"room", "Humidity ratio of air at one atmosphere", "temperature, degC", "g water per kg dry air"},
      {"water", "Friction in Schedule 40 pipe: Hazen-Williams at C = 150, and Darcy-Weisbach", "gallons a minute", "feet per 100 feet", true, true},
      {"route", "Lifting: frequency factor", "lifts a minute", "factor"},
      {"herd", "Growth of young", "age, days", "weight, kg"},
      {"grain", "Barley in store, 98 % alive at first", "days in store", "alive, %"},
      {"lot", "Largest range between four replicates of 100", "mean germination, %", "range, %"},
      {"cost", "Yearly payment for a capital of one", "years", "payment"},
      {"chores", "A keeper's day at the usual minutes, three feedings", "trays a day", "minutes"},
      {"design", "Load of a level, ripe mats and water film", "grain sown, kg/m2", "kg/m2"},
      {"feed", "Crude protein of mats", "dry matter lost, %", "% of dry matter"},
      {"queue", "Share of customers that wait: Erlang's formula, and games on the event kernel", "utilisation", "share"},
      {"random", "Laws, and 20,000 draws from each", "value", "share below"},
      {"sizing", "Years without a failure that show a share of good years", "share of years", "years", false, true},
      {"statistics", "Exact 95 % limits of a share seen as 0.9, and as 0.5", "trials", "limit", true},
      {"store", "Barley in store under the usual rule, 6 kg a day", "days", "kg"},
  };
  return all;
}

std::vector<Mark> marks() {
  Marks out;
  for (const auto add : {soak_marks, germination_marks, mat_marks, spoilage_marks, climate_marks, room_marks, water_marks, route_marks,
                         herd_marks, store_marks, lot_marks, cost_marks, work_marks})
    add(out);
  return out;
}

std::string curves_csv() {
  std::string text;
  for (const Picture& p : pictures())
    text += fmt::format("picture;{};{};{};{};{:d};{:d}\n", p.model, p.title, p.x_label, p.y_label, p.log_x, p.log_y);
  for (const Mark& m : marks()) text += fmt::format("mark;{};{};{:d};{:.6g};{:.6g};{:.6g}\n", m.model, m.series, m.published, m.x, m.y, m.half_width);
  return text;
}

}  // namespace rackwright::validation
