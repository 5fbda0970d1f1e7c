#pragma once
// When a group is here: animals bought or lent for a season, or out at grass.

namespace rackwright::herd {

/// A day before all others: here since ever, as far as the run knows.
inline constexpr double since_ever = -1e9;

/// From which day and until which day of the run a group is fed here. Both, and away first where it leaves before it arrives.
struct Stay {
  double arrives = -1.0;   ///< first day; < 0: here from the start, unless it leaves
  double leaves = -1.0;    ///< first day without it; < 0: never
  bool each_year = false;  ///< both again every 365 days
  double came = since_ever;  ///< day before the run on which a group that is here at first came; of no use to one that is not
};

/// Or is it here from the start to the end?
constexpr bool comes_or_goes(const Stay& stay) { return stay.arrives >= 0.0 || stay.leaves >= 0.0; }

struct Presence {
  bool here = true;
  double since = since_ever;  ///< day of its last arrival, where it is known
};

/// Is the group here on that day (>= 0), and since when? Whichever comes first tells what was before: a group that is to arrive is not yet
/// here, one that is to leave is. Expects that it does not arrive and leave on one day.
Presence presence(const Stay& stay, double day);

/// The stay of a run that starts so many days later (or, below nought, earlier).
Stay later_start(Stay stay, double days);

}  // namespace rackwright::herd
