#pragma once
// rackwright fit trays: what a keeper's log says, for people, for programs, and as keys of a scenario.

#include <optional>
#include <string>

#include "sim/app/options.hpp"
#include "sim/study/fit_draws.hpp"
#include "sim/study/forecast.hpp"

namespace rackwright::app {

/// All that the answer is made of.
struct TrayAnswer {
  std::string path;
  const TrayLog& log;
  const Scenario& scenario;                 ///< before the log
  const Scenario& fitted;                   ///< after
  const study::FitLog& used;
  const study::TrayFit& fit;
  const study::Posterior& before;
  const study::Posterior& after;
  study::UsualTray usual;
  study::Usual usual_before, usual_after;
};

int fit_trays(const Options& options);

/// Writes keys of a scenario to --out; an existing file is BadInput without --force.
void write_block(const Options& options, const std::string& text);

/// One law's centre and its 95 % limits: a factor, or flatness itself.
struct LawBand { double centre, low, high; };
LawBand law_band(const Scenario& scenario, const study::Posterior& posterior, Law law);
/// Trays of the log; rows that only read the room are none.
int trays_logged(const study::FitLog& used);
/// Share of a law's doubt (variance of its score) that the log took away.
double told(const TrayAnswer& answer, Law law);

std::string tray_text(const TrayAnswer& answer);
std::string tray_json(const TrayAnswer& answer, const std::optional<study::ForecastCheck>& check);
std::string forecast_text(const study::ForecastCheck& check, Units units);

/// Sections of a scenario: what the fit changes, with what it was.
std::string tray_block(const TrayAnswer& answer);

}  // namespace rackwright::app
