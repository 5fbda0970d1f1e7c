#pragma once
// The room, hour by hour, and the running integrals of every response curve that its trays will ask for.

#include <algorithm>
#include <array>
#include <cstdint>
#include <utility>
#include <vector>

#include "sim/replication/fortune.hpp"
#include "sim/replication/plan.hpp"

namespace rackwright {

/// Increments of the response integrals over some stretch of time for a mat at one warmth.
struct Increment {
  double mould = 0.0, sour = 0.0, growth = 0.0, rate = 0.0, rate_fraction = 0.0;
};

/// What the room did since the last day began.
struct RoomDay {
  double sum = 0.0, most = -1e9, least = 1e9;        ///< of air temperature [degC h, degC]
  double humidity = 0.0, saturation = 0.0;           ///< summed ratios; their quotient is the mean relative humidity
  double outdoor = 0.0;                              ///< summed, a day's hours at its mean [degC h]
  double evaporated = 0.0, condensed = 0.0;          ///< [kg]
  double heater_wh = 0.0, cooler_wh = 0.0;           ///< [Wh]
  double mats_wh = 0.0;                              ///< heat the mats gave [Wh]
  int hours = 0;
};

class RoomMarch {
 public:
  /// Books of the room's heat since the start [Wh]. `unexplained`: stored, less all that came and went; `moved`: all of them without sign,
  /// and what the room held at the start, whose rounding is in every sum.
  struct Heat { double unexplained = 0.0, moved = 0.0; };


  explicit RoomMarch(const Plan& plan);
  /// Starts at midnight, `hour` (since day 0), with the room at that day's outdoor mean.
  void start(const Fortune& fortune, std::int64_t hour);
  /// What frost there was: hours that began with the room below freezing [h], and the coldest end of an hour since it froze [degC].
  struct Frost {
    double hours = 0.0, least = 1e9;
    [[nodiscard]] bool any() const { return hours > 0.0 || least < frost::freezing.value(); }
  };
  [[nodiscard]] const Frost& frost() const { return frost_; }
  Frost take_frost() { return std::exchange(frost_, Frost{}); }
  /// Runs whole hours up to `hour`. `mat_heat` is W at one growth day a day for each species in use; `powered` is whether
  /// heater and cooler have electricity; the surfaces of `trays` are wet.
  void advance_to(const Fortune& fortune, std::int64_t hour, const std::vector<double>& mat_heat, bool powered, int trays);

  /// Starts the integrals of one of two marks (0 morning, 1 evening) anew.
  void set_mark(int mark);
  /// Increments since a mark for a mat `warmer` than room air [K] of a species.
  [[nodiscard]] Increment since(int mark, int species, double warmer) const {
    constexpr double last = ResponseTable::nodes - 1 - 1e-9;
    const double at = std::min(last, std::max(0.0, (warmer - ResponseTable::first_node) * (1.0 / ResponseTable::node_step)));
    const int node = static_cast<int>(at);
    const double share = at - node;
    const std::size_t stride = plan_->response.stride();
    const double* low = since_.data() + static_cast<std::size_t>(mark * ResponseTable::nodes + node) * stride;
    const double* high = low + stride;
    const auto value = [&](std::size_t curve) { return low[curve] + share * (high[curve] - low[curve]); };
    return {value(ResponseTable::mould), value(ResponseTable::sour), value(ResponseTable::growth(species)),
            value(ResponseTable::rate(species)), value(ResponseTable::rate_fraction(species))};
  }

  [[nodiscard]] double temperature() const;  ///< of the room's air [degC]
  /// What a square metre of wet surface has evaporated since the start [kg/m2].
  [[nodiscard]] double evaporated_depth() const { return evaporated_depth_; }
  [[nodiscard]] std::int64_t hour() const { return hour_; }
  RoomDay& day() { return day_; }
  [[nodiscard]] const Heat& heat() const { return heat_; }

  /// All integrals: [mark][node][curve], curves `stride()` apart from node to node.
  [[nodiscard]] const double* integrals() const { return since_.data(); }
  [[nodiscard]] std::size_t stride() const { return plan_->response.stride(); }

  /// Saturation humidity ratio, and the cooling it does in air drier (drying) and wetter (wetting) than itself, as straight lines over one
  /// row of temperature: value at row 0, rise a row.
  struct Damp { double drying, drying_rise, wetting, wetting_rise, ratio, ratio_rise; };
  /// Cooling by a unit of dryness, above and below 0 [K or rows, as the step].
  static double drying(const room::Step& step) { return room::latent_watts_per_kg_h * step.evaporation * step.gain_to_kelvin; }
  static double wetting(const room::Step& step) { return room::latent_watts_per_kg_h * step.vapour_vent * step.gain_to_kelvin; }

 private:
  void prepare(const Fortune& fortune, int day);
  void wet_walls(const room::Step& step, double mean_rows, double outdoor_rows, double ratio, bool evaporating, int hours, double wet_area);
  void book_heat(const room::Step& step, double began, double sum_begun, double sum_ended, double owed, double gained, double latent, double pushed);
  void march(const Fortune& fortune, int first_hour, int hours, const std::vector<double>& mat_heat, bool powered, int level);

  // The wet surface follows the trays on the rack in sixteenths of its places.
  static constexpr int levels = 16;
  [[nodiscard]] int level_of(int trays) const;  ///< today's: those of open doors and windows come after the others
  [[nodiscard]] const Damp* damp_of(int level) const { return damp_.data() + static_cast<std::size_t>(level) * damp_rows_; }

  const Plan* plan_;
  std::int64_t hour_ = 0;
  double rows_ = 160.0;          ///< the room's temperature, in rows of the response table
  RoomDay day_;
  Heat heat_;
  Frost frost_;
  double capacity_;              ///< heat that a row of temperature stores [Wh]
  // Outdoors and sun by the hour of one day.
  int prepared_day_ = 0;
  std::int64_t midnight_ = 0;      ///< hour with which it begins
  double outdoor_mean_ = 0.0;      ///< [degC]
  bool open_ = false;              ///< do doors and windows stand open?
  std::array<double, 24> owed_{};  ///< room::outdoor_part, in rows
  std::size_t integrals_;          ///< of one mark
  bool lanes_ = false;             ///< has the processor AVX2?
  std::vector<double> since_;      ///< [mark][node][curve]
  std::vector<room::Step> steps_;  ///< by level, in rows
  std::vector<room::Step> heated_; ///< likewise, as the opening's course heats
  std::vector<double> wet_area_;   ///< by level [m2]
  std::vector<Damp> damp_;         ///< [level][row]
  std::size_t damp_rows_ = 0;
  double evaporated_depth_ = 0.0;
};

}  // namespace rackwright
