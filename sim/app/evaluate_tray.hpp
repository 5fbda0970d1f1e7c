#pragma once
// One tray in a room whose air stays at one temperature, from sowing to harvest, morning by morning as a replication settles it.

#include <optional>

#include "models/germination/germination.hpp"
#include "models/growth/mat.hpp"
#include "models/soak/uptake.hpp"
#include "models/spoilage/hazard.hpp"

namespace rackwright::app {

/// The tray asked about: sown in the morning, on an inner tier whose air is the room's.
struct SteadyTray {
  germination::Parameters germination;
  growth::Parameters growth;
  spoilage::Parameters spoilage;
  soak::Effect soak;
  Celsius air{20.0};                     ///< of the room; of the mat itself where it is held
  bool own_warmth = true;                ///< does the mat warm itself? false: it is held at `air`, as in a thin layer or a cabinet
  KilogramsPerSquareMetre density{5.0};
  double days = 7.0;                     ///< from sowing to harvest
  double fraction = 0.94;                ///< of the lot germinable at the best temperature [1]
  double vigour = 1.0;                   ///< of the lot: so many times as fast to germinate as usual; what it is later, its mats are later [1]
  double grain_dry_matter = 0.88;        ///< [1]
  double warmth = 1.0;                   ///< so many times as much warmer as the model has it does its heat make the mat [1]
  double relative_humidity = 0.7;        ///< of the room's air [1]
  double undrained = 0.05;               ///< 0 drains freely .. 1 stands in water
};

/// What came of it.
struct SteadyEnd {
  growth::Mat mat;
  double growth_days = 0.0, first_growth_days = 0.0;  ///< at harvest and at sowing (the soak's start) [d at 20 degC]
  double sprouted = 0.0;                 ///< of the grain [1]
  Kelvins excess{};                      ///< the most that the mat was warmer than the air on a day
  double mould = 0.0, sour = 0.0;        ///< chance that this risk came first [1]
};

/// As the simulator: the excess of a day is that of its middle, by the pace of growth until its morning (none on the first), and curves of
/// temperature are straight lines between the warmths that ResponseTable has; a held tray follows the laws themselves. Against a replication's own settling within 0.2 % (tests/unit/app/evaluate_tray.cpp).
SteadyEnd grow(const SteadyTray& tray);

/// Days after which it is `growth_days` old; nothing where it is not so old by tray.days.
std::optional<double> days_until(const SteadyTray& tray, double growth_days);

}  // namespace rackwright::app
