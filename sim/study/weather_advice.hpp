#pragma once
// What a spell of weather asks for: each figure from the runs that would happen, with the same luck, were it done.

#include <optional>
#include <utility>
#include <vector>

#include "sim/replication/opening.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright::study {

/// Batches by day and session for which they were soaked.
using BatchKeys = std::vector<std::pair<int, int>>;

/// Mats that the weather would spoil more often than the season's usual weather does.
struct HeatAdvice {
  BatchKeys batches{};                ///< to be sown in the days looked at
  double usual = 0.0, risk = 0.0;     ///< chance that a tray spoils before it is cut, in usual weather and in this one [1]
  struct Step { double value = 0.0, risk = 0.0; };
  std::optional<Step> soak{};         ///< longest soak that brings the chance back, else the one that brings it down most [h]
  std::optional<Step> charge{};       ///< likewise the sowing density [kg/m2]
  std::optional<Step> both{};         ///< that density, with that soak [kg/m2]; where neither is enough alone
  BatchKeys standing{};               ///< on the rack or in soak already: nothing but an early cut helps them
  double standing_usual = 0.0, standing_risk = 0.0;  ///< of the worst of them [1]
};

/// Mats that are not grown when their days are over.
struct ColdAdvice {
  BatchKeys batches{};
  double usual_late = 0.0, late = 0.0;  ///< of the latest that may be fed at all, after its days on the rack [d]
  BatchKeys never{};                    ///< of them, those that do not ripen in this cold, or that frost kills
};

struct WeatherAdvice { std::optional<HeatAdvice> heat{}; std::optional<ColdAdvice> cold{}; };

/// What is lost beyond this share of trays, or later than this, is worth a word.
inline constexpr double worth_a_word = 0.02, worth_a_wait_days = 0.4;

/// `scenario`: without_luck, from the opening's day on and long enough for what is sown in the first `days` to be cut. An opening
/// without weather gets no advice.
WeatherAdvice weather_advice(const Scenario& scenario, const Opening& opening, int days);

}  // namespace rackwright::study
