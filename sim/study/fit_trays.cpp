// The posterior density of a tray log, its slope and its curvature.
#include "sim/study/fit_trays.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include <boost/math/distributions/normal.hpp>

#include "models/base/beta.hpp"
#include "models/base/expects.hpp"

namespace rackwright::study {
namespace {

constexpr double tiny = 1e-12;   // a hazard that no tray reaches, for logarithms
constexpr double nudge = 1e-5;   // of a score, for slopes
constexpr double most_spent = 0.8;  // of weights or heights that go to what else is fitted: never all of them

}  // namespace

LotState lot_at(const grain::Grade& grade, double germination_score, double vigour_score, const LotTrial& trial) {
  constexpr double furthest = 4.0;
  LotState lot;
  const double mean = grade.germination_mean, rho = grade.germination_rho;
  lot.germinable = mean;
  double score = 0.0;  // of the germination among lots of its grade
  const auto at = [&](double good, double bad) {
    return beta_quantile(good, bad, boost::math::cdf(boost::math::normal(), std::clamp(germination_score, -furthest, furthest)));
  };
  // A count stands alone: half a seed to either side is what is known before it (Jeffreys's law).
  if (trial.seeds > 0.0) lot.germinable = at(trial.came + 0.5, trial.seeds - trial.came + 0.5);
  if (rho > 0.0 && mean > 0.0 && mean < 1.0) {
    const double both = (1.0 - rho) / rho;
    if (!(trial.seeds > 0.0)) lot.germinable = at(mean * both, (1.0 - mean) * both);
    score = std::clamp((lot.germinable - mean) / std::sqrt(rho * mean * (1.0 - mean)), -3.0, 3.0);
  }
  const double r = grade.vigour_correlation;
  lot.vigour = std::exp(grade.vigour_sd * (r * score + std::sqrt(1.0 - r * r) * vigour_score));
  return lot;
}

LotState lot_at(const LoggedLot& lot, double germination_score, double vigour_score) {
  return lot_at(lot.grade, germination_score, vigour_score, lot.trial());
}

double Posterior::sd(std::size_t score) const { return std::sqrt(covariance(score, score)); }

TrayFit::TrayFit(const Scenario& scenario, const TrayModel& model, const FitLog& log)
    : scenario_(&scenario), model_(&model), log_(&log), lots_(log.lots.size()), prior_(law_count) {
  const auto feel = [&](Law law, bool felt) {
    if (felt && scenario.ignorance.spread[place_of(law)] > 0.0) felt_.push_back(place_of(law));
  };
  bool measured = false, borrowed = false;
  for (int i = 0; i < model.species_count(); ++i)
    (model.species(i).models.germination.origin == Origin::measured ? measured : borrowed) = true;
  feel(Law::mould, log.judged > 0);
  feel(Law::sour, log.judged > 0);
  feel(Law::measured_time, measured);
  feel(Law::borrowed_time, borrowed);
  feel(Law::height, log.heights > 0);
  for (const Law law : {Law::pace, Law::loss, Law::swelling, Law::flatness, Law::warmth}) feel(law, true);
  const auto ties = tied_scores(scenario.ignorance);
  EXPECTS(ties.has_value());
  prior_inverse_ = inverse_of(*ties);
  for (std::size_t i = 0; i < law_count; ++i)
    for (std::size_t j = 0; j < law_count; ++j)
      for (std::size_t k = 0; k <= std::min(i, j); ++k) prior_(i, j) += (*ties)(i, k) * (*ties)(j, k);
}

Posterior TrayFit::prior() const {
  Posterior p{std::vector<double>(unknowns(), 0.0), Matrix::identity(unknowns())};
  for (std::size_t i = 0; i < law_count; ++i)
    for (std::size_t j = 0; j < law_count; ++j) p.covariance(i, j) = prior_(i, j);
  return p;
}

Drawn TrayFit::at(const std::vector<double>& scores) const {
  const auto& spread = scenario_->ignorance.spread;
  const OwnLine& own = scenario_->own_line;
  const auto score = [&](Law law) { return spread[place_of(law)] * scores[place_of(law)]; };
  const auto factor = [&](Law law) { return std::exp(score(law)); };
  Drawn d;
  d.line = {factor(Law::mould), factor(Law::sour), factor(Law::pace), factor(Law::loss), factor(Law::swelling), factor(Law::height),
            own.measured_time * factor(Law::measured_time), own.borrowed_time * factor(Law::borrowed_time),
            std::clamp(own.flatness + score(Law::flatness), -1.0, 1.0), own.warmth * factor(Law::warmth)};
  for (std::size_t lot = 0; lot < lots_; ++lot)
    d.lots.push_back(lot_at(log_->lots[lot], scores[law_count + lot], scores[law_count + lots_ + lot]));
  d.weight_scatter = usual_weight_scatter * std::exp(scatter_spread * scores[weight_scatter_place()]);
  d.height_scatter = usual_height_scatter * std::exp(scatter_spread * scores[weight_scatter_place() + 1]);
  return d;
}

std::vector<TrayFit::Ends> TrayFit::ends(const std::vector<double>& scores) const {
  const Drawn drawn = at(scores);
  std::vector<Ends> all;
  all.reserve(log_->cases.size());
  for (const TrayCase& what : log_->cases) {
    const TrayEnd end = model_->grow(what, drawn.line, drawn.lots[static_cast<std::size_t>(what.lot)]);
    all.push_back({std::log(end.fresh_ratio), log_of_height(end.height_cm), std::log(end.mould + tiny), std::log(end.sour + tiny)});
  }
  return all;
}

// How the ends rise with each score that they feel. A lot's scores move its own trays only, so that all lots are nudged at once: places
// law_count and law_count + 1 stand for every tray's own lot.
std::vector<std::pair<std::size_t, std::vector<TrayFit::Ends>>> TrayFit::rises(const std::vector<double>& scores, const std::vector<Ends>& here) const {
  std::vector<std::pair<std::size_t, std::vector<Ends>>> all;
  const auto add = [&](std::size_t place, const std::vector<double>& moved) {
    std::vector<Ends> there = ends(moved);
    for (std::size_t i = 0; i < there.size(); ++i)
      there[i] = {(there[i].fresh - here[i].fresh) / nudge, (there[i].height - here[i].height) / nudge,
                  (there[i].mould - here[i].mould) / nudge, (there[i].sour - here[i].sour) / nudge};
    all.emplace_back(place, std::move(there));
  };
  for (const std::size_t law : felt_) {
    std::vector<double> moved = scores;
    moved[law] += nudge;
    add(law, moved);
  }
  for (std::size_t kind = 0; kind < 2 && lots_ > 0; ++kind) {
    std::vector<double> moved = scores;
    for (std::size_t lot = 0; lot < lots_; ++lot) moved[law_count + kind * lots_ + lot] += nudge;
    add(law_count + kind, moved);
  }
  return all;
}

std::size_t TrayFit::place_in(std::size_t rise, const Seen& seen) const {
  if (rise < law_count) return rise;
  return law_count + (rise - law_count) * lots_ + static_cast<std::size_t>(log_->cases[static_cast<std::size_t>(seen.tray_case)].lot);
}

TrayFit::Pull TrayFit::pull(const Seen& seen, const Ends& at, double weight_scatter, double height_scatter, bool expected, bool curved) const {
  Pull out;
  const auto scatter = [&](std::size_t which, double miss, double scale, double ruler, ReadSpan span, double counts) {
    const double both = std::hypot(scale, ruler), own = scale * scale / (both * both);
    const Miss m = student(miss, both, span, curved);
    out.minus_log += counts * m.minus_log;
    out.slope[which] += counts * m.slope;
    out.curvature[which][which] += counts * m.curvature;
    out.scale_slope[which] += counts * own * m.scale_slope;
    out.scale_curvature[which] += counts * own * own * m.scale_curvature;
    out.own[which] = own;
  };
  if (seen.log_fresh) scatter(0, *seen.log_fresh - at.fresh, weight_scatter, 0.0, seen.fresh_span, log_->weight_column.counts());
  if (seen.log_height) scatter(1, *seen.log_height - at.height, height_scatter, seen.ruler, seen.height_span, log_->height_column.counts());
  if (!seen.spoiled) return out;
  const std::array<double, 2> risk{std::exp(at.mould), std::exp(at.sour)};
  const double both = risk[0] + risk[1];
  const auto bend = [&](std::size_t i, std::size_t j, double by) { out.curvature[2 + i][2 + j] += by; };
  if (*seen.spoiled == LoggedSpoil::sound) {
    out.minus_log += both;
    for (std::size_t i = 0; i < 2; ++i) {
      out.slope[2 + i] += risk[i];
      bend(i, i, expected ? 0.0 : risk[i]);
    }
  } else {
    const double odds = 1.0 / std::expm1(both);
    out.minus_log -= std::log(-std::expm1(-both));
    for (std::size_t i = 0; i < 2; ++i) {
      out.slope[2 + i] -= odds * risk[i];
      if (expected) continue;
      bend(i, i, -odds * risk[i]);
      for (std::size_t j = 0; j < 2; ++j) bend(i, j, odds * (1.0 + odds) * risk[i] * risk[j]);
    }
    if (*seen.spoiled != LoggedSpoil::spoiled) {  // which of the two it was
      const std::size_t which = *seen.spoiled == LoggedSpoil::mould ? 0 : 1;
      out.minus_log += std::log(both) - std::log(risk[which]);
      out.slope[2 + which] -= 1.0;
      for (std::size_t i = 0; i < 2; ++i) {
        out.slope[2 + i] += risk[i] / both;
        if (expected) continue;
        bend(i, i, risk[i] / both);
        for (std::size_t j = 0; j < 2; ++j) bend(i, j, -risk[i] * risk[j] / (both * both));
      }
    }
  }
  if (expected)  // of a tray that may spoil or not
    for (std::size_t i = 0; i < 2; ++i)
      for (std::size_t j = 0; j < 2; ++j) bend(i, j, risk[i] * risk[j] / std::expm1(both));
  return out;
}

double TrayFit::minus_log_density(const std::vector<double>& scores, std::vector<double>* slope, std::array<double, 2> spent) const {
  double sum = 0.0;
  if (slope) slope->assign(unknowns(), 0.0);
  for (std::size_t i = 0; i < unknowns(); ++i) {
    double pulled = scores[i];
    if (i < law_count) {
      pulled = 0.0;
      for (std::size_t j = 0; j < law_count; ++j) pulled += prior_inverse_(i, j) * scores[j];
    }
    sum += 0.5 * scores[i] * pulled;
    if (slope) (*slope)[i] = pulled;
  }
  const std::vector<Ends> here = ends(scores);
  const auto risen = slope ? rises(scores, here) : decltype(rises(scores, here)){};
  const Drawn drawn = at(scores);
  const std::size_t scatter = weight_scatter_place();
  for (const Seen& seen : log_->seen) {
    const auto which = static_cast<std::size_t>(seen.tray_case);
    const Pull p = pull(seen, here[which], drawn.weight_scatter, drawn.height_scatter, false, false);
    sum += p.minus_log;
    if (!slope) continue;
    for (const auto& [place, rise] : risen) {
      const Ends& by = rise[which];
      (*slope)[place_in(place, seen)] += p.slope[0] * by.fresh + p.slope[1] * by.height + p.slope[2] * by.mould + p.slope[3] * by.sour;
    }
    for (std::size_t k = 0; k < 2; ++k) (*slope)[scatter + k] += scatter_spread * p.scale_slope[k];
  }
  for (std::size_t k = 0; k < 2; ++k) {
    sum -= spent[k] * scatter_spread * scores[scatter + k];
    if (slope) (*slope)[scatter + k] -= spent[k] * scatter_spread;
  }
  return sum;
}

Matrix TrayFit::curvature(const std::vector<double>& scores, bool expected, std::array<double, 2> spent) const {
  Matrix m = Matrix::identity(unknowns());
  for (std::size_t i = 0; i < law_count; ++i)
    for (std::size_t j = 0; j < law_count; ++j) m(i, j) = prior_inverse_(i, j);
  const std::vector<Ends> here = ends(scores);
  const auto risen = rises(scores, here);
  const Drawn drawn = at(scores);
  const std::size_t scatter = weight_scatter_place();
  std::array<double, 2> of_scatter{};
  for (const Seen& seen : log_->seen) {
    const auto which = static_cast<std::size_t>(seen.tray_case);
    const Pull p = pull(seen, here[which], drawn.weight_scatter, drawn.height_scatter, expected, true);
    for (const auto& [a, rise_a] : risen) {
      const std::array<double, 4> x{rise_a[which].fresh, rise_a[which].height, rise_a[which].mould, rise_a[which].sour};
      std::array<double, 4> bent{};
      for (std::size_t i = 0; i < 4; ++i)
        for (std::size_t j = 0; j < 4; ++j) bent[j] += x[i] * p.curvature[i][j];
      for (const auto& [b, rise_b] : risen) {
        const Ends& y = rise_b[which];
        m(place_in(a, seen), place_in(b, seen)) += bent[0] * y.fresh + bent[1] * y.height + bent[2] * y.mould + bent[3] * y.sour;
      }
    }
    for (std::size_t k = 0; k < 2; ++k) of_scatter[k] += p.scale_curvature[k];
  }
  for (std::size_t k = 0; k < 2; ++k) {
    const double lost = std::min(spent[k] * 2.0 * scatter_freedom / (scatter_freedom + 3.0), most_spent * of_scatter[k]);
    m(scatter + k, scatter + k) += scatter_spread * scatter_spread * (of_scatter[k] - lost);
  }
  return m;
}

std::array<double, 2> TrayFit::spent(const std::vector<double>& scores, const Matrix& covariance) const {
  const std::vector<Ends> here = ends(scores);
  const auto risen = rises(scores, here);
  const Drawn drawn = at(scores);
  std::array<double, 2> sum{};
  for (const Seen& seen : log_->seen) {
    const auto which = static_cast<std::size_t>(seen.tray_case);
    const Pull p = pull(seen, here[which], drawn.weight_scatter, drawn.height_scatter, false, true);
    for (const auto& [a, rise_a] : risen) {
      for (const auto& [b, rise_b] : risen) {
        const double tied = covariance(place_in(a, seen), place_in(b, seen));
        sum[0] += tied * p.own[0] * p.curvature[0][0] * rise_a[which].fresh * rise_b[which].fresh;
        sum[1] += tied * p.own[1] * p.curvature[1][1] * rise_a[which].height * rise_b[which].height;
      }
    }
  }
  return {std::min(sum[0], most_spent * log_->weights * log_->weight_column.counts()), std::min(sum[1], most_spent * log_->heights * log_->height_column.counts())};
}

std::vector<double> TrayFit::weight_misses(const std::vector<double>& scores) const {
  const std::vector<Ends> here = ends(scores);
  const double scale = at(scores).weight_scatter;
  std::vector<double> all;
  for (const Seen& seen : log_->seen)
    all.push_back(seen.log_fresh ? (*seen.log_fresh - here[static_cast<std::size_t>(seen.tray_case)].fresh) / scale
                                 : std::numeric_limits<double>::quiet_NaN());
  return all;
}

}  // namespace rackwright::study
