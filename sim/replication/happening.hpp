#pragma once
// What a journal is told besides sentences: plain facts, from which causes can be worked out.

#include <cstdint>

namespace rackwright {

struct Happening {
  enum class Kind {
    sown,          ///< trays; amount: germinable share of the lot as sown; other: its vigour (1: usual); which: grain
    no_grain,      ///< trays not soaked for want of grain
    no_bucket,     ///< trays not soaked for want of buckets
    nobody_soaked, ///< trays not soaked because nobody was there; which: grain
    foul,          ///< trays whose grain stood in water for days, since nobody sowed it, and was poured out; which: grain
    grain_too_old, ///< amount: grain past its use-by, thrown out [kg]; which: grain
    no_time,       ///< trays not sown for want of the keeper's time
    rushed,        ///< the keeper's time was up before enough was cut; trays: that stay of the batch; amount: what is missing; other: its next mat [kg]
    no_place,      ///< trays that found no place
    moulded,       ///< trays thrown out mouldy
    soured,        ///< trays thrown out sour
    frosted,       ///< trays thrown out killed by frost
    frozen_out,    ///< trays not soaked, or not sown, because the room was freezing; which: grain
    ice,           ///< mats could not be cut because the room was freezing
    composted,     ///< sound trays thrown out because their time was over
    unready,       ///< trays due by their days but not grown; amount: growth over what may be fed; other: the room [degC]; water: of what they drink
    cut,           ///< trays; amount: their fresh mass [kg]; other: mean sprouted share; which: 1 where they count as unripe
    dried,         ///< trays; amount: hours dry; other: share of sprouts killed
    missed_round,
    fed,           ///< amount wanted, other served [kg]; trays: 1 when short
    pump, power, clog, ///< amount: hours, where known
    soaked,        ///< trays; amount: grain [kg]; which: grain
    ordered,       ///< amount: grain [kg]; other: hours until it is expected; which: grain
    delivered,     ///< amount: grain [kg]; which: grain
    trial_laid,    ///< amount: grain it takes [kg]; other: hours until it is counted; which: grain
    trial_counted, ///< amount: grain refused for it [kg]; other: kernels that sprouted; which: grain
    moved, washed, ///< trays; amount: trays that wanted it
    given,         ///< to one group: amount: given, other: wanted [kg]; which: group
    ripe,          ///< a batch that may be fed by its growth
    risk           ///< of trays that leave: amount: chance that such a tray has spoiled by now; other: growth over what may be fed [1]
  };
  Kind kind = Kind::fed;
  int day = 0, session = 0;  ///< of a batch its identity: what it was soaked for; else now
  int trays = 0;
  double amount = 0.0, other = 0.0;
  double water = 1.0;        ///< share of what mats drink that they were given [1]
  int which = 0;             ///< grain or group, by its place in the scenario
};

}  // namespace rackwright
