#pragma once
// What `rackwright lot` works out before it says anything.

#include <optional>
#include <string>
#include <vector>

#include "models/grain/trial.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright::app {

/// What was asked.
struct LotQuestion {
  std::vector<grain::TrialTray> candidate, current;  ///< current empty: what the scenario says of its grain
  double candidate_price = 0.0;                      ///< [currency/kg]
  double sure = 0.95;                                ///< how sure a switch must be
  std::optional<double> height_cm{}, height_days{}, height_temperature{};  ///< days until the mats stood at a height
};

enum class Advice { change, stay, repeat, larger, alike };

struct LotAnswer {
  grain::FractionLaw candidate, current;
  grain::Agreement agreement;        ///< of the candidate's trays
  grain::Comparison money{};         ///< green fodder per unit of money
  Advice advice = Advice::stay;
  bool poorer = false;               ///< does it germinate worse than the lot in use, by more than the trial leaves open?
  std::vector<grain::TrialValue> trials{};  ///< what 50, 100, ... further kernels would bring
  std::optional<int> decides{};      ///< kernels after which the wrong lot is chosen with a chance of 1 - sure at most
  std::optional<int> worth_trying{};  ///< kernels of the trial that brings most of what any can, where that is 1 % or more
  double break_even_price = 0.0;     ///< of the candidate [currency/kg]
  double thickest = 7.6;             ///< sowing density beyond which sprouts find no room [kg/m2]
  double same_sprouts = 0.0;         ///< sowing density of the candidate with as many sprouts as now [kg/m2]
  std::optional<grain::Vigour> vigour{};
  std::optional<double> days_as_ripe{};  ///< on the rack until its mats are as far as the line's usual ones, at 20 degC [d]
  double keep_back = 0.0;            ///< of the old lot [kg]
  double keep_days = 0.0;            ///< until the new one has proved itself
  std::optional<double> ageing_days{};  ///< until the old lot, if kept on, gives no more for the money than the new
};

/// Green fodder of a kilogram of grain by germinable fraction, on the grid: the part that grew, times the chance that the
/// mat stays sound, for this scenario's species, density, soak and days at 20 degC.
grain::Worth green_fodder(const Scenario& scenario, const GrainSupply& supply);

/// Of a lot tried in the place of that grain of the scenario.
LotAnswer study_lot(const Scenario& scenario, std::size_t grain, const LotQuestion& question);

}  // namespace rackwright::app
