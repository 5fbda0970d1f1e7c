#include "sim/study/fit_draws.hpp"

#include <algorithm>

#include "models/base/expects.hpp"

namespace rackwright::study {
namespace {

constexpr std::uint32_t usual_draws = 2000;
constexpr std::uint64_t usual_seed = 20261;

Usual::Band band_of(std::vector<double>& values) {
  std::sort(values.begin(), values.end());
  const auto at = [&](double share) { return values[static_cast<std::size_t>(share * static_cast<double>(values.size() - 1))]; };
  return {at(0.5), at(0.05), at(0.95)};
}

}  // namespace

std::vector<Drawn> draw(const TrayFit& fit, const Posterior& posterior, std::uint32_t count, random::Key key) {
  const auto lower = cholesky(posterior.covariance);
  ENSURES(lower.has_value());
  std::vector<Drawn> all;
  all.reserve(count);
  for (std::uint32_t d = 0; d < count; ++d) {
    random::Stream luck{key, random::Purpose::sample, 0, d};
    std::vector<double> scores(posterior.mean.size());
    for (double& score : scores) score = random::normal(luck);
    scores = times(*lower, scores);
    for (std::size_t i = 0; i < scores.size(); ++i) scores[i] += posterior.mean[i];
    all.push_back(fit.at(scores));
  }
  return all;
}

Usual usual_tray(const Scenario& scenario, const UsualTray& tray, const TrayFit& fit, const Posterior& posterior) {
  TrayLog one;  // a room of one temperature
  one.trays.resize(1);
  one.trays[0].room_max = one.trays[0].room_min = Celsius(tray.celsius);
  const LoggedRoom room(one);
  const TrayModel model(scenario, room, {tray.species});
  const auto grain = std::find_if(scenario.grains.begin(), scenario.grains.end(), [&](const GrainSupply& g) { return g.species == tray.species; });
  const grain::Grade grade = grain == scenario.grains.end() ? grain::Grade{} : grain->grade;
  TrayCase what;
  what.days = tray.days;
  what.density = scenario.line.sowing_density.value();
  what.grain_dry_matter = 1.0 - (grain == scenario.grains.end() ? model.species(0).models.physical.store_moisture : grain->moisture);
  model.soak(what, room, scenario.line.soak);
  std::vector<double> fresh, height, spoiled;
  const random::Key key = random::make_key(usual_seed, 0);
  std::uint32_t number = 0;
  for (const Drawn& drawn : draw(fit, posterior, usual_draws, key)) {
    random::Stream luck{key, random::Purpose::sample, 1, number++};
    const double germination = random::normal(luck), vigour = random::normal(luck);
    const TrayEnd end = model.grow(what, drawn.line, lot_at(grade, germination, vigour));
    fresh.push_back(end.fresh_ratio);
    height.push_back(end.height_cm);
    spoiled.push_back(spoilage::spoiled_probability(end.mould + end.sour));
  }
  return {band_of(fresh), band_of(height), band_of(spoiled)};
}

}  // namespace rackwright::study
