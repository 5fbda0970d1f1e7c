// What the models say of water, room, weather, rack, work and money at a few typical places.
#include <array>
#include <cmath>
#include <numbers>
#include <string>

#include "models/climate/climate.hpp"
#include "models/climate/record.hpp"
#include "models/cost/ledger.hpp"
#include "models/design/rack.hpp"
#include "models/grain/store.hpp"
#include "models/room/heat_balance.hpp"
#include "models/room/moist_air.hpp"
#include "models/route/stations.hpp"
#include "models/water/demand.hpp"
#include "models/water/friction.hpp"
#include "models/water/hydraulics.hpp"
#include "models/water/network.hpp"
#include "tests/normal_draws.hpp"
#include "tests/regression/models/statement.hpp"

using namespace rackwright;
using test::Statements;

namespace {

template <class Q>
std::vector<double> values(const std::vector<Q>& quantities) {
  std::vector<double> out;
  for (const Q& q : quantities) out.push_back(q.value());
  return out;
}

}  // namespace

TEST_CASE("what is said of water") {
  Statements s;
  const std::vector<Metres> heights{Metres(0.4), Metres(0.8), Metres(1.2), Metres(1.6)};
  const water::Pump pump{Metres(3.2), LitresPerHour(1800.0), Watts(45.0)};
  for (const auto& [name, feed, emitter] : {std::tuple("side by side", water::Feed::parallel, water::Emitter{}), std::tuple("one after another", water::Feed::cascade, water::Emitter{}),
                                            std::tuple("alike under any head", water::Feed::parallel, water::Emitter{LitresPerHour(40.0), Metres(1.0), 0.0}),
                                            std::tuple("nearly so", water::Feed::parallel, water::Emitter{LitresPerHour(40.0), Metres(1.0), 0.1})}) {
    const water::Network network = water::usual_network(feed, heights, Metres(0.02), Metres(0.013), Metres(2.5), pump, emitter, 6);
    const water::Solution found = water::solve(network);
    s.say(name, {found.pump_flow.value(), found.pump_head.value(), static_cast<double>(found.limiting_pipe), found.cut_capacity.value(), found.drain_needed.value(),
                 static_cast<double>(water::find_faults(network).size())});
    s.say("  tiers", values(found.tier_flow));
    s.say("  pipes", values(found.pipe_flow));
    s.say("  heads", values(found.head));
    std::vector<double> below;
    for (const auto& tiers : found.downstream) below.push_back(static_cast<double>(tiers.size()));
    s.say("  drained onto", below);
  }
  for (const double flow : {20.0, 140.0, 180.0, 600.0, 3000.0})
    s.say("lost at " + std::to_string(static_cast<int>(flow)) + " L/h", {water::pipe_loss(LitresPerHour(flow), Metres(0.016), Metres(10.0)).value(), water::pipe_loss(LitresPerHour(flow), Metres(0.016), Metres(10.0), {Metres(1.5e-4), Celsius(8.0)}).value(),
                                             water::hazen_williams_loss(LitresPerHour(flow), Metres(0.016), Metres(10.0)).value(), water::minor_loss(LitresPerHour(flow), Metres(0.016), 2.0).value(), water::PipeFriction(Metres(0.016), Metres(10.0)).at(flow).slope});
  s.say("small things", {water::kinematic_viscosity(Celsius(35.0)), water::friction_factor(3000.0, 1e-3), water::emitter_flow({}, Metres(1.7)).value(), water::emitter_head({}, LitresPerHour(70.0)).value(), water::orifice_flow(Metres(0.003), Metres(1.2)).value(),
                         water::pump_head(pump, LitresPerHour(900.0)).value(), water::drain_capacity(Metres(0.04), 0.01).value(), water::velocity(LitresPerHour(500.0), Metres(0.016)), water::flow_at(1.5, Metres(0.016)).value()});
  const water::Schedule round{6.0, Hours(0.05), true, 2.0}, once{6.0, Hours(0.05), false, 0.0};
  const water::Daily there = water::daily_use(round, LitresPerHour(1100.0), Watts(45.0), 20.0, 8.0, 150.0, 0.1), through = water::daily_use(once, LitresPerHour(1100.0), Watts(45.0), 20.0, 8.0, 150.0);
  s.say("a day's water", {there.pump_time.value(), there.through_litres, there.fresh_litres, there.energy.value(), through.through_litres, through.fresh_litres});
  s.say("a tank", {water::tank_lasts(round, LitresPerHour(1100.0), 150.0, 30.0).value(), water::tank_lasts(once, LitresPerHour(1100.0), 150.0, 30.0).value()});
  const water::DryDamage dry = water::dry_damage(Hours(14.0), Celsius(24.0)), longer = water::dry_damage(Hours(60.0), Celsius(24.0));
  s.say("without water", {water::dry_weight(Celsius(30.0)), dry.growth_lost_days, dry.sprouts_killed, longer.growth_lost_days, longer.sprouts_killed});
  s.compare(R"(
side by side: 1041 2.1297 0 1696.5 3123 0
  tiers: 363.87 305.32 235.56 136.25
  pipes: 1041 363.87 677.13 305.32 371.81 235.56 136.25 136.25 136.25 235.56 305.32 363.87
  heads: 2.1297 1.7093 1.7218 1.7487 1.7836 0 1.8337 1.8119 1.8047 1.8039
  drained onto: 0 0 0 0
one after another: 361.77 3.0707 1 716.75 1085.3 0
  tiers: 361.77 361.77 361.77 361.77
  pipes: 361.77 361.77 361.77 361.77 361.77 361.77
  heads: 3.0707 0.4 0.8 1.2 2.8943 0 3.0173
  drained onto: 0 1 2 3
alike under any head: 960 2.2898 0 1696.5 2880 0
  tiers: 240 240 240 240
  pipes: 960 240 720 240 480 240 240 240 240 240 240 240
  heads: 2.2898 1.9772 1.9528 1.9413 1.9381 0 2.0352 2.0107 1.9992 1.996
  drained onto: 0 0 0 0
nearly so: 947.51 2.3133 0 1696.5 2842.5 0
  tiers: 251.58 244.05 234 217.89
  pipes: 947.51 251.58 695.93 244.05 451.88 234 217.89 217.89 217.89 234 244.05 251.58
  heads: 2.3133 2.0017 1.9821 1.9763 1.9803 0 2.0648 2.0419 2.0316 2.0289
  drained onto: 0 0 0 0
lost at 20 L/h: 0.0035353 0.0048817 0.0010279 7.7853e-05 0.00017676
lost at 140 L/h: 0.040629 0.035559 0.037762 0.0038148 0.00088701
lost at 180 L/h: 0.080309 0.069707 0.060144 0.0063061 0.00080849
lost at 600 L/h: 0.63318 0.95491 0.55919 0.070068 0.0018362
lost at 3000 L/h: 10.925 21.217 11.017 1.7517 0.0065497
small things: 7.234e-07 0.033616 69.104 1.7444 75.306 2.4 2333.1 0.69078 1085.7
a day's water: 0.27 297 70.857 0.01215 330 330
a tank: 120 10.909
without water: 2.8284 0.58105 0.091959 2.5 0.97447
)");
}

TEST_CASE("what is said of the room and the weather") {
  Statements s;
  const room::Parameters barn{.shade = 0.3, .heater = Watts(800.0), .cooler = Watts(600.0), .wet_area = SquareMetres(9.0)};
  const room::Step step = room::prepare(barn);
  s.say("an hour's step", {step.decay, step.conductance, step.gain_to_kelvin, step.heater_rise, step.cooler_fall, step.solar_area, step.vapour_vent, step.vapour_film, step.outdoor_share, step.evaporation, step.wall_film, step.wall_fall});
  for (const double outdoor : {2.0, 18.0, 38.0}) {
    const double wet = room::saturation_humidity_ratio(Celsius(20.0));
    const room::Hour hour = room::advance(step, 20.0, outdoor, 0.006, wet, 300.0, 400.0);
    s.say("an hour at " + std::to_string(static_cast<int>(outdoor)) + " degC outdoors", {hour.temperature, hour.humidity_ratio, hour.evaporated, hour.condensed, hour.heater_wh, hour.cooler_wh});
  }
  const room::Walls walls = room::on_walls(step, 0.012, 0.008, true);
  s.say("walls", {walls.condensed, walls.drawn, walls.lowered, walls.watts});
  const room::MoistAir air = room::from_relative_humidity(Celsius(24.0), 0.55), dry = room::from_wet_bulb(Celsius(35.0), Celsius(19.0), Pascals(93000.0));
  s.say("moist air", {air.humidity_ratio, air.dew_point.value(), air.enthalpy, air.volume, dry.humidity_ratio, dry.relative_humidity, dry.dew_point.value(), room::wet_bulb(Celsius(24.0), 0.009).value()});
  s.say("saturated", {room::saturation_pressure(Celsius(-30.0)).value(), room::saturation_pressure(Celsius(5.0)).value(), room::saturation_pressure(Celsius(90.0)).value(), room::dew_point(Pascals(300.0)).value()});

  climate::Parameters hillside;
  hillside.mean.second = Kelvins(1.2);
  hillside.mean.second_peak = 20.0;
  hillside.range_half_year = Kelvins(0.8);
  hillside.range_half_year_peak = 60.0;
  hillside.range_follow = 0.3;
  hillside.range_follow_summer = 0.1;
  hillside.range_follow_half_year = -0.1;
  hillside.range_follow_lead = 9.0;
  hillside.range_sd = Kelvins(2.5);
  hillside.range_sd_summer = Kelvins(-0.6);
  hillside.range_sd_half_year = Kelvins(0.3);
  hillside.anomaly_season = 0.2;
  hillside.anomaly_season_peak = 30.0;
  hillside.anomaly_half_year = 0.1;
  hillside.anomaly_half_year_peak = 80.0;
  climate::Parameters leaning = hillside;
  leaning.highs = {-0.1, -0.05, 0.03, 0.12, 0.02, -0.04};
  leaning.lows = {0.08, 0.02, 0.01, -0.03, 0.05, 0.02};
  for (const double day : {20.0, 110.0, 205.0, 300.0}) {
    const climate::Day plain = climate::day_from(hillside, day, {1.3, -0.4, 0.7}, Kelvins(0.5)), shaped = climate::day_from(leaning, day, {1.3, -0.4, 0.7}, Kelvins(0.5));
    s.say("day " + std::to_string(static_cast<int>(day)), {plain.maximum, plain.minimum, plain.humidity_ratio, shaped.maximum, shaped.minimum});
    const climate::SunTimes sun = climate::sun_times(Degrees(38.9), day);
    const auto sunny = climate::hourly_sun(Degrees(38.9), day, 0.65);
    s.say("  its sun", {sun.sunrise, sun.sunset, climate::extraterrestrial_radiation(Degrees(38.9), day), sunny[7], sunny[12], sunny[18]});
    s.say("  its hours", {climate::temperature_at(Celsius(28.0), Celsius(14.0), sun, 5.0).value(), climate::temperature_at(Celsius(28.0), Celsius(14.0), sun, 15.0).value(), climate::temperature_at(Celsius(28.0), Celsius(14.0), sun, 22.0).value()});
  }
  climate::Parameters two = leaning;
  two.anomaly_two_days = -0.1;
  two.slow_share = 0.15;
  two.range_memory = 0.3;
  climate::Straying straying(two);
  std::vector<double> path;
  for (const double luck : {1.0, -0.5, 0.2, 0.9, -1.4}) {
    const auto strayed = straying.next({luck, -luck, 0.5 * luck});
    path.insert(path.end(), {strayed.anomaly, strayed.range});
  }
  s.say("five days of straying", path);
  s.say("twelve months", {climate::fit_yearly_wave({8, 9, 12, 14, 18, 23, 26, 26, 22, 17, 12, 9}).mean.value(), climate::fit_yearly_wave({8, 9, 12, 14, 18, 23, 26, 26, 22, 17, 12, 9}).amplitude.value(), climate::fit_yearly_wave({8, 9, 12, 14, 18, 23, 26, 26, 22, 17, 12, 9}).peak_day});
  s.say("overlays", {climate::overlay_rise({{10.0, 5.0, Kelvins(3.0)}, {12.0, 9.0, Kelvins(2.0)}}, 10.0).value(), climate::overlay_rise({{10.0, 5.0, Kelvins(3.0)}, {12.0, 9.0, Kelvins(2.0)}}, 14.9).value(), climate::overlay_rise({{10.0, 5.0, Kelvins(3.0)}, {12.0, 9.0, Kelvins(2.0)}}, 15.0).value()});
  s.compare(R"(
an hour's step: 0.91434 99.504 0.00086088 0.6887 0.51653 0.56 34.56 99 0.25876 25.617 550 0.23377
an hour at 2 degC outdoors: 18.779 0.012445 0.22274 0 0 0
an hour at 18 degC outdoors: 20.149 0.012445 0.22274 0 0 0
an hour at 38 degC outdoors: 21.862 0.012445 0.22274 0 0 0
walls: 0.42986 0.31863 0.0032184 7.3117
moist air: 0.010244 14.411 50.221 0.85566 0.0084003 0.22022 10.138 16.817
saturated: 38.016 872.49 70180 -8.3738
day 20: 20.481 7.8841 0.0066024 20.463 7.8096
  its sun: 7.1563 16.844 16.31 57.866 461.7 0
  its hours: 15.597 27.346 18.684
day 110: 28.706 10.878 0.0080965 28.587 10.842
  its sun: 5.381 18.619 35.947 364.22 771.42 33.428
  its hours: 15.025 27.59 18.287
day 205: 40.738 20.697 0.013802 40.619 20.705
  its sun: 4.8771 19.123 39.964 423.47 806.37 100.67
  its hours: 14.717 27.634 18.256
day 300: 26.829 12.413 0.0088429 26.708 12.369
  its sun: 6.7654 17.235 20.375 124.3 537.62 0
  its hours: 15.462 27.415 18.564
five days of straying: 0.53466 0.5 0.066963 -0.088485 0.019599 0.068848 0.38979 0.44993 -0.48589 -0.53278
twelve months: 16.333 8.9057 205.99
overlays: 1.5 2 2
)");
}

TEST_CASE("what a record of thirteen years is fitted with") {
  // Drawn from a law by numbers of no pattern, fixed: the fit must keep saying the same of it.
  climate::Parameters law;
  law.range_follow = 0.2;
  law.range_follow_summer = 0.3;
  law.range_follow_half_year = -0.1;
  law.range_follow_lead = 12.0;
  law.range_sd = Kelvins(2.5);
  law.range_sd_summer = Kelvins(0.5);
  law.range_memory = 0.25;
  law.anomaly_season = 0.3;
  law.anomaly_season_peak = 20.0;
  law.anomaly_half_year = 0.15;
  law.anomaly_half_year_peak = 100.0;
  law.slow_share = 0.12;
  law.anomaly_two_days = -0.08;
  law.highs = {-0.2, 0.05, 0.0, 0.1, 0.0, 0.05};
  law.lows = {0.1, 0.0, -0.1, 0.05, 0.1, 0.0};
  climate::Straying straying(law);
  climate::Record record;
  record.first_year = 1990;
  std::uint32_t state = 2024;
  const auto pseudo = [&] { return test::pseudo_normal(state); };
  for (int i = 0; i < 13 * 365; ++i) {
    const double a = pseudo(), b = pseudo(), c = pseudo(), dew = pseudo();
    const auto strayed = straying.next({a, b, c});
    const climate::Day day = climate::day_from(law, i % 365 + 1.0, {strayed.anomaly, dew, strayed.range}, Kelvins(0.0));
    record.maximum.push_back(climate::rounded_to_step(day.maximum));
    record.minimum.push_back(climate::rounded_to_step(day.minimum));
    record.dew_point.push_back(climate::rounded_to_step(room::dew_point(Pascals(101325.0 * day.humidity_ratio / (0.621945 + day.humidity_ratio))).value()));
  }
  const climate::Parameters p = climate::fit_record(record, {});
  Statements s;
  s.say("mean", {p.mean.mean.value(), p.mean.amplitude.value(), p.mean.peak_day, p.mean.second.value(), p.mean.second_peak});
  s.say("range", {p.range_mean.value(), p.range_amplitude.value(), p.range_lead_days, p.range_half_year.value(), p.range_half_year_peak, p.range_follow, p.range_follow_summer, p.range_follow_half_year, p.range_follow_lead});
  s.say("its spread", {p.range_sd.value(), p.range_sd_summer.value(), p.range_sd_half_year.value(), p.range_memory});
  s.say("anomaly", {p.anomaly_sd.value(), p.anomaly_season, p.anomaly_season_peak, p.anomaly_half_year, p.anomaly_half_year_peak, p.anomaly_memory, p.anomaly_two_days, p.slow_share, p.slow_memory});
  for (const auto& [name, l] : {std::pair("highs", p.highs), std::pair("lows", p.lows)}) s.say(name, {l.skew, l.skew_summer, l.skew_half_year, l.tail, l.tail_summer, l.tail_half_year});
  s.say("dew point", {p.dew_depression_mean.value(), p.dew_depression_amplitude.value(), p.dew_depression_sd.value()});
  s.compare(R"(
mean: 17.106 8.4643 204.83 0.050927 27.227
range: 13.477 4.073 23.337 0.038591 33.819 0.20805 0.30332 -0.098133 0
its spread: 2.5061 0.43376 -0.022657 0.25582
anomaly: 2.8714 0.32343 363.01 0.12876 100.14 0.79256 -0.092977 0.19326 0.96171
highs: -0.29743 0.13547 0.09845 0.30053 -0.074573 -0.031216
lows: 0.15329 0.042033 -0.13049 0.25852 0.11725 -0.17929
dew point: 8.6325 3.3824 1.5862
)");
}

TEST_CASE("what is said of rack, work and money") {
  Statements s;
  const design::Rack rack;
  const design::Load load = design::loaded(rack, KilogramsPerSquareMetre(5.0), 5.2);
  s.say("a rack", {static_cast<double>(design::positions(rack)), design::tray_area(rack).value(), design::total_height(rack).value(), design::footprint(rack).value(), design::slenderness(rack), load.per_tray.value(), load.per_tier.value(), load.total.value(),
                   design::tier_heights(rack).back().value()});
  const route::Times times;
  for (const auto& [name, handling] : {std::pair("ladder", route::Handling::ladder), std::pair("fixed", route::Handling::fixed)}) {
    const route::LineShape shape;
    const route::Plan plan = route::plan(route::usual_layout(shape, handling, times), shape, handling, times);
    s.say(name, {plan.daily_ceiling, plan.minutes_per_day, plan.walk_per_day.value()});
    s.say(name, plan.bottleneck);
  }
  s.say("a session", {route::session_minutes(times, {4, 28, 4, 3, 4, 1}), route::littles_law(4.0, days(8), Hours(10.0)).on_rack, route::littles_law(4.0, days(8), Hours(10.0)).in_soak});
  for (const auto& [name, duration] : {std::pair("an hour", route::LiftDuration::up_to_1_hour), std::pair("two", route::LiftDuration::up_to_2_hours), std::pair("eight", route::LiftDuration::up_to_8_hours)}) {
    std::vector<double> low, high;
    for (const double rate : {0.1, 0.2, 0.5, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 11.0, 12.0, 13.0, 14.0, 15.0, 16.0}) {
      low.push_back(route::frequency_multiplier(rate, Metres(0.3), duration));
      high.push_back(route::frequency_multiplier(rate, Metres(1.0), duration));
    }
    s.say(std::string("lifting for ") + name + ", low", low);
    s.say(std::string("lifting for ") + name + ", high", high);
  }
  for (const int coupling : {0, 1, 2})
    s.say("a lift", {route::lifting_limit(Metres(0.35), Metres(0.5), Metres(0.6), Degrees(20.0), 0.5, coupling).value(), route::lifting_limit(Metres(0.5), Metres(1.3), Metres(0.3), Degrees(0.0), 2.0, coupling).value()});
  const cost::Prices prices;
  s.say("money", {cost::annual_cost(Money(1000.0), 8.0, 0.05).value(), cost::annual_cost(Money(1000.0), 8.0, 0.0).value(), cost::capital({5, 60, 3, true, true}, prices).value(), cost::capital({4, 30, 2, false, false}, prices).value(), cost::per_kilogram(30.0, 12.0), cost::bought_per_kilogram_dry(0.3, 0.88)});
  const grain::StorePolicy store;
  s.say("a store", {grain::order_quantity(store, Kilograms(40.0), Kilograms(0.0)).value(), grain::order_quantity(store, Kilograms(120.0), Kilograms(0.0)).value(), grain::order_quantity(store, Kilograms(10.0), Kilograms(225.0)).value(), grain::bag_life(Kilograms(25.0), Kilograms(3.0)).value()});
  s.compare(R"(
a rack: 32 0.18 1.7 1.44 2.8333 6.2 49.6 198.4 1.35
ladder: 5 46 120
ladder: rack
fixed: 5 38 120
fixed: rack
a session: 43 32 1.6667
lifting for an hour, low: 1 1 0.97 0.94 0.91 0.88 0.84 0.8 0.75 0.7 0.6 0.52 0.45 0.41 0.37 0 0 0 0
lifting for an hour, high: 1 1 0.97 0.94 0.91 0.88 0.84 0.8 0.75 0.7 0.6 0.52 0.45 0.41 0.37 0.34 0.31 0.28 0
lifting for two, low: 0.95 0.95 0.92 0.88 0.84 0.79 0.72 0.6 0.5 0.42 0.35 0.3 0.26 0 0 0 0 0 0
lifting for two, high: 0.95 0.95 0.92 0.88 0.84 0.79 0.72 0.6 0.5 0.42 0.35 0.3 0.26 0.23 0.21 0 0 0 0
lifting for eight, low: 0.85 0.85 0.81 0.75 0.65 0.55 0.45 0.35 0.27 0.22 0.18 0 0 0 0 0 0 0 0
lifting for eight, high: 0.85 0.85 0.81 0.75 0.65 0.55 0.45 0.35 0.27 0.22 0.18 0.15 0.13 0 0 0 0 0 0
a lift: 12.348 8.4761
a lift: 11.731 8.4761
a lift: 11.114 7.6285
money: 154.72 125 1654 716 2.5 0.34091
a store: 225 0 0 200
)");
}
