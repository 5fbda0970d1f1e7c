#include "sim/replication/ignorance.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "models/base/expects.hpp"
#include "sim/random/laws.hpp"

namespace rackwright {
namespace {

constexpr std::array<double Ignorance::*, law_count> fields{
    &Ignorance::mould,         &Ignorance::sour,     &Ignorance::clock,  &Ignorance::loss,   &Ignorance::swell, &Ignorance::measured_time,
    &Ignorance::borrowed_time, &Ignorance::flatness, &Ignorance::ageing, &Ignorance::warmth, &Ignorance::carry, &Ignorance::height,
    &Ignorance::dead,          &Ignorance::lag,    &Ignorance::dead_power};

}  // namespace

spoilage::Parameters assumed(spoilage::Parameters stated, const Ignorance& known) {
  constexpr double steepest = 6.0;
  stated.dead_grain_floor *= known.dead;
  stated.mould_lag *= known.lag;
  stated.dead_grain_power = std::min(steepest, stated.dead_grain_power * known.dead_power);
  return stated;
}

double Ignorance::*drawn_by(Law law) { return fields.at(place_of(law)); }

Ignorance central(const Scenario& scenario) {
  Ignorance known;
  known.measured_time = scenario.own_line.measured_time;
  known.borrowed_time = scenario.own_line.borrowed_time;
  known.flatness = scenario.own_line.flatness;
  known.warmth = scenario.own_line.warmth;
  return known;
}

Ignorance draw_ignorance(const Scenario& scenario, random::Key key) {
  std::vector<double> scores(law_count);
  for (std::uint32_t i = 0; i < law_count; ++i) {
    random::Stream luck{key, random::Purpose::parameter, i, 0};
    scores[i] = random::normal(luck);
  }
  if (!scenario.ignorance.ties.empty()) {
    const auto lower = tied_scores(scenario.ignorance);
    EXPECTS(lower.has_value());
    scores = times(*lower, scores);
  }
  Ignorance drawn = central(scenario);
  for (std::size_t i = 0; i < law_count; ++i) {
    const double score = scenario.ignorance.spread[i] * scores[i];
    double& value = drawn.*fields[i];
    value = fields[i] == &Ignorance::flatness ? std::clamp(value + score, -1.0, 1.0) : value * std::exp(score);
  }
  return drawn;
}

}  // namespace rackwright
