#pragma once
// What nobody has measured: each replication takes other values of the uncertain model parameters to be true, drawn from stated laws.

#include "models/base/origin.hpp"
#include "sim/random/philox_stream.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// Factors on the scenario's model parameters. At their central values 1, but for what `own_line` says of times, flatness and warmth.
struct Ignorance {
  double mould = 1.0;        ///< rate of mould
  double sour = 1.0;         ///< rate of souring
  double clock = 1.0;        ///< growth days a day
  double loss = 1.0;         ///< dry matter lost, and the heat of it
  double swell = 1.0;        ///< water a mat holds beyond soaked grain
  double measured_time = 1.0, borrowed_time = 1.0;  ///< time to germinate, of species measured and borrowed
  double flatness = 0.0;     ///< spread of germination: -1 steeper, 0 as published, 1 flatter
  double ageing = 1.0;       ///< of grain in store
  double warmth = 1.0;       ///< how much warmer heat makes a mat
  double carry = 1.0;        ///< inoculum that spoiled mats shed
  double height = 1.0;       ///< of a mat
  double dead = 1.0;         ///< what mould finds where no grain is dead: less makes dead grain count for more
  double lag = 1.0;          ///< growth time until mould is under way
  double dead_power = 1.0;   ///< exponent by which dead grain raises mould

  [[nodiscard]] double germination_time(Origin origin) const {
    return origin == Origin::measured ? measured_time : borrowed_time;
  }
};

/// What stands in a scenario's spoilage under these assumptions: floor, lag and exponent of dead grain (at most 6, as its key).
spoilage::Parameters assumed(spoilage::Parameters stated, const Ignorance& known);

/// What a law draws.
double Ignorance::*drawn_by(Law law);

/// All laws at their centres.
Ignorance central(const Scenario& scenario);

/// Draws every law from its own stream of Purpose::parameter, entity its place in the table, then ties them.
Ignorance draw_ignorance(const Scenario& scenario, random::Key key);

}  // namespace rackwright
