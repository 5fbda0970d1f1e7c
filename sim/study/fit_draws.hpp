#pragma once
// Draws from a fit, and what they mean for a usual tray.

#include <cmath>
#include <cstdint>
#include <vector>

#include "sim/random/beta_gamma.hpp"
#include "sim/random/laws.hpp"
#include "sim/random/philox_stream.hpp"
#include "sim/study/fit_trays.hpp"

namespace rackwright::study {

/// `count` draws of all that is unknown.
std::vector<Drawn> draw(const TrayFit& fit, const Posterior& posterior, std::uint32_t count, random::Key key);

/// Student's t of the scatter's freedom.
inline double student_draw(random::Stream& luck) {
  const double chi2 = 2.0 * random::gamma(luck, 0.5 * scatter_freedom, 1.0);
  return random::normal(luck) / std::sqrt(chi2 / scatter_freedom);
}

/// What a usual tray comes to, as a keeper would ask: middle and 5 and 95 % of each.
struct Usual {
  struct Band { double middle = 0.0, low = 0.0, high = 0.0; };
  Band fresh_ratio, height_cm, spoiled;      ///< of a tray that kept sound; chance of being lost
};

/// A usual tray: the log's first species, a lot that is not known yet, so many days at one temperature, sown and soaked as the scenario says.
struct UsualTray {
  double celsius = 20.0, days = 7.0;
  std::string species = "barley";
};
Usual usual_tray(const Scenario& scenario, const UsualTray& tray, const TrayFit& fit, const Posterior& posterior);

}  // namespace rackwright::study
