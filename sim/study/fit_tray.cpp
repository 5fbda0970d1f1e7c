#include "sim/study/fit_tray.hpp"

#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"

namespace rackwright::study {
namespace {

// Steepness of the flatter and the steeper sprout curve, as in a replication.
constexpr double flatter_shape = 0.7, steeper_shape = 1.4;

double share_germinated(const SpeciesOnDays& s, double progress, double flatness) {
  const double own = germination::share_germinated(s.models.germination, progress);
  if (flatness == 0.0) return own;
  // Through the three curves that a replication mixes, smoothly, so that a search finds no corner at 0.
  const double flat = germination::share_germinated(s.flatter, progress), steep = germination::share_germinated(s.steeper, progress);
  return own + 0.5 * flatness * (flat - steep + flatness * (flat + steep - 2.0 * own));
}

growth::Parameters mats_of(growth::Parameters p, const LineFactors& line) {
  return on_line(p, {.loss = line.loss, .swelling = line.swelling, .height = line.height});
}

}  // namespace

TrayModel::TrayModel(const Scenario& scenario, const LoggedRoom& room, const std::vector<std::string>& species)
    : line_(scenario.line), spoil_(scenario.spoilage), onset_(spoilage::onset(scenario.spoilage)) {
  const double tray = (1.0 - line_.wash) * soak::dip_effect(line_.tray_dip).surface_left;
  for (const std::string& name : species) {
    const auto models = species_models(scenario, name);
    EXPECTS(models.has_value());
    SpeciesOnDays one{name, *models, models->germination, models->germination, germination::rate(models->germination, Celsius(20.0)),
                      std::make_shared<RoomResponse>(room, *models, spoil_)};
    const auto grain = std::find_if(scenario.grains.begin(), scenario.grains.end(), [&](const GrainSupply& supply) { return supply.species == name; });
    const double brought = grain == scenario.grains.end() ? grain::Grade{}.inoculum : grain->grade.inoculum;
    one.inoculum = (brought * soak::dip_effect(line_.dip).inoculum_left + tray) / spoilage::usual_inoculum;
    one.flatter.shape *= flatter_shape;
    one.steeper.shape *= steeper_shape;
    species_.push_back(std::move(one));
  }
}

void TrayModel::soak(TrayCase& tray, const LoggedRoom& room, Hours soak) const {
  const SpeciesOnDays& s = species(tray.species);
  const Celsius water = soak::bucket_temperature(line_.soak_water, Celsius(room.at(tray.first_day, RoomResponse::morning)), soak);
  const soak::Effect effect = soak::effect(s.models.soak, water, 1.0 - tray.grain_dry_matter, soak);
  tray.ahead_days = (effect.head_start - effect.delay) / 24.0;
  tray.survival = effect.survival * soak::dip_effect(line_.dip).germination_kept;
  tray.stress = effect.stress;
  tray.inoculum = s.inoculum;
  tray.undrained = 1.0 - line_.drainage;
}

TrayEnd TrayModel::grow(const TrayCase& tray, const LineFactors& line, const LotState& lot, double shift, int shifted_from) const {
  const SpeciesOnDays& s = species(tray.species);
  const double time = s.models.germination.origin == Origin::measured ? line.measured_time : line.borrowed_time;
  const double vigour = lot.vigour / time;
  const double germinable = std::clamp(lot.germinable * tray.survival, 0.0, 1.0);
  const KilogramsPerSquareMetre density(tray.density);
  const growth::Parameters mats = mats_of(s.models.growth, line);
  const double uncrowded = growth::growing_share(mats, 1.0, density);
  const double excess_per_heat = growth::mat_excess(1.0).value() * tray.density * line.warmth;

  double ripeness = tray.ahead_days + (1.0 - 1.0 / vigour) / s.median_rate_20;
  double progress = std::max(0.0, tray.ahead_days * s.median_rate_20);
  double had_chance = share_germinated(s, progress, line.flatness), germinated = had_chance;
  double excess = 0.0, mould = 0.0, sour = 0.0;
  for (int day = 0; day < tray.days; ++day) {
    const double part = std::min(1.0, tray.days - day);
    const int on = tray.first_day + day;
    const DayIncrement got = s.response->of(on, excess + (on >= shifted_from ? shift : 0.0));
    const double grown = got.growth * part * line.pace;
    const double age = ripeness + 0.5 * grown;
    ripeness += grown;
    progress += got.rate * part * vigour;
    const double came = share_germinated(s, progress, line.flatness) - had_chance;
    germinated += came * (got.rate > 0.0 ? got.rate_fraction / got.rate : 1.0);
    had_chance += came;
    const double fraction = had_chance > 1e-6 ? std::min(1.0, germinated / had_chance) : 1.0;
    const double sprouted = germinable * fraction;
    mould += got.mould * part * spoilage::onset_factor(onset_, age) * spoilage::dead_grain_factor(spoil_, 1.0 - sprouted * uncrowded);
    sour += got.sour * part;
    const double heat = growth::heat_watts(mats, ripeness, sprouted, line.pace, tray.grain_dry_matter);
    excess = heat * got.growth * excess_per_heat;
  }
  spoilage::Tray like{.inoculum = tray.inoculum, .dead_fraction = spoil_.usual_dead_fraction, .density = density,
                      .soak_stress = tray.stress, .undrained = tray.undrained};
  TrayEnd end;
  end.growth_days = ripeness;
  end.sprouted = std::clamp(germinable * germinated, 0.0, 1.0);
  const growth::Mat mat = growth::mat(mats, ripeness, end.sprouted, density, tray.grain_dry_matter);
  end.fresh_ratio = mat.fresh_ratio;
  end.height_cm = std::max(0.0, mat.height_cm);
  end.mould = line.mould * spoilage::mould_multiplier(spoil_, like) * mould;
  end.sour = line.sour * spoilage::sour_multiplier(spoil_, like) * sour;
  return end;
}

}  // namespace rackwright::study
