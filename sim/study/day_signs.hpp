#pragma once
// What gave way first in a hard time, and when the animals were fed as ever again: rules on the daily record of the
// struck run against that of the undisturbed one.

#include <array>
#include <optional>
#include <span>
#include <string_view>

#include "sim/replication/outcome.hpp"

namespace rackwright::study {

enum class Sign { no_hands, frost, no_water, no_grain, no_room, sour, mould, thin_mats, slow_mats, more_wanted };
inline constexpr std::array<std::string_view, 10> sign_names{
    "rounds not held", "frost", "no water",  "no grain to sow",   "no room on the rack", "souring",
    "mould",           "thin mats", "mats not yet ripe", "more wanted"};

struct FirstSign { Sign sign; int day; };  ///< day of the run

/// The first day, from `first` to `until`, on which a sign shows more than undisturbed; on one day, the first in the order of
/// Sign. A missed round, a mat that frost killed or a tray it kept from being sown, a tray unsown or without a place and any watering missed by a tray count from one up; mats sour or
/// mould when two more have turned since `first`; they are thin when those cut are more than a tenth lighter, and not yet
/// ripe when fewer are cut and the animals get less; more is wanted from a twentieth up. On a day on which the animals get less (by more
/// than 2 % of what they want) mats a fiftieth lighter are thin, and anything more is more wanted.
std::optional<FirstSign> first_sign(std::span<const DailyRow> undisturbed, std::span<const DailyRow> struck, int first,
                                    int until);

/// First day of the run from `first` on on which the struck run's fill is worse by more than `tolerance` [1].
std::optional<int> first_short(std::span<const DailyRow> undisturbed, std::span<const DailyRow> struck, int first,
                               double tolerance);

struct Recovery {
  int days = 0;           ///< from `first` to the day from which on fill is as undisturbed; 0: it never was worse
  bool over = true;       ///< false: still worse, or not yet shown to be over, when the run ended
};
/// A day is worse when it and the week that ends with it are: what one day lacks and its neighbour has over is no harm. Over
/// for good: after the hard time cannot show any more (`until`), a fortnight without a worse day.
Recovery recovery(std::span<const DailyRow> undisturbed, std::span<const DailyRow> struck, int first, int until,
                  double tolerance);

}  // namespace rackwright::study
