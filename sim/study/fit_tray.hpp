#pragma once
// One logged tray from soak to harvest: the simulator's models, composed as a replication composes them, morning by morning.

#include <memory>
#include <string>
#include <vector>

#include "sim/scenario/ignorance_laws.hpp"
#include "sim/study/fit_room.hpp"

namespace rackwright::study {

/// What the laws of ignorance are about, as factors on a scenario's own parameters (its own line taken in already).
struct LineFactors {
  double mould = 1.0, sour = 1.0, pace = 1.0, loss = 1.0, swelling = 1.0, height = 1.0;
  double measured_time = 1.0, borrowed_time = 1.0, flatness = 0.0, warmth = 1.0;  ///< these as they are
};

/// A lot as it is.
struct LotState { double germinable = 0.92, vigour = 1.0; };

/// How a tray was sown and kept. Trays alike in all of it come to the same.
struct TrayCase {
  int species = 0, lot = 0;
  int first_day = 0;                     ///< of the room
  double days = 7.0;
  double density = 5.0;                  ///< [kg/m2]
  double grain_dry_matter = 0.88;
  double ahead_days = 0.0;               ///< by the soak, less what it cost [d at 20 degC]
  double survival = 1.0;                 ///< of germination through soak and dip [1]
  double stress = 0.0;                   ///< by the soak [1]
  double inoculum = 1.0, undrained = 0.05;
  friend bool operator==(const TrayCase&, const TrayCase&) = default;
};

/// What came of it.
struct TrayEnd {
  double fresh_ratio = 0.0;              ///< fresh mass over dry grain
  double height_cm = 0.0;
  double mould = 0.0, sour = 0.0;        ///< integrated hazards
  double growth_days = 0.0, sprouted = 0.0;
};

/// A species on a room's days.
struct SpeciesOnDays {
  std::string name;
  SpeciesModels models;
  germination::Parameters flatter, steeper;  ///< its sprout curve at flatness 1 and -1
  double median_rate_20 = 1.0;               ///< [1/d]
  std::shared_ptr<const RoomResponse> response;
  double inoculum = 1.0;                     ///< of its first grain on a tray, relative to usual [1]
};

class TrayModel {
 public:
  TrayModel(const Scenario& scenario, const LoggedRoom& room, const std::vector<std::string>& species);

  /// `shift`: how much warmer than the room's days it is from day `shifted_from` on [K].
  [[nodiscard]] TrayEnd grow(const TrayCase& tray, const LineFactors& line, const LotState& lot, double shift = 0.0, int shifted_from = 0) const;

  /// Fills in what follows from a soak of `soak` that ended on the morning of its first day.
  void soak(TrayCase& tray, const LoggedRoom& room, Hours soak) const;
  [[nodiscard]] const SpeciesOnDays& species(int index) const { return species_[static_cast<std::size_t>(index)]; }
  [[nodiscard]] int species_count() const { return static_cast<int>(species_.size()); }

 private:
  Line line_;
  spoilage::Parameters spoil_;
  spoilage::Onset onset_;
  std::vector<SpeciesOnDays> species_;
};

}  // namespace rackwright::study
