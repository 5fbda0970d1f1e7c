#pragma once
// A hard time: something bad that happens in every replication, on top of ordinary luck.

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "models/base/quantity.hpp"

namespace rackwright {

enum class HardTimeKind {
  heat_wave,      ///< so much warmer outdoors for so long
  cold_snap,      ///< so much colder outdoors for so long
  poor_lot,       ///< of the next lots that come, so much of the germinable grain is dead
  late_delivery,  ///< the next orders come so much later
  pump_stop,      ///< no water for so long
  power_cut,      ///< no electricity for so long
  missed_rounds,  ///< no round is held for so long; grain is put to soak as ever
  larger_litter,  ///< so many more young are reared of all births for so long
  keeper_away,    ///< no round is held and no grain put to soak for so long
  price_jump,     ///< grain costs so much more for so long
};
inline constexpr std::array<std::string_view, 10> hard_time_names{
    "heat-wave", "cold-snap",     "poor-lot",      "late-delivery", "pump-stop",
    "power-cut", "missed-rounds", "larger-litter", "keeper-away",   "price-jump"};
inline std::string_view hard_time_name(HardTimeKind kind) { return hard_time_names[static_cast<std::size_t>(kind)]; }

/// Values left out take those of `usual`; a value the kind has no use for is a problem of the scenario.
struct HardTime {
  std::string name;
  HardTimeKind kind = HardTimeKind::heat_wave;
  double first_day = 0.0;            ///< counted from the start of the run
  Hours at{0.0};                     ///< clock time on that day
  std::optional<Hours> length{};     ///< how long it lasts; of a late delivery, how much later it comes
  std::optional<Kelvins> change{};   ///< how much warmer or colder, above zero
  std::optional<double> share{};     ///< dead, more young, dearer [1]
  int times = 1;                     ///< lots or orders it hits, one after the other
  std::string grain{};               ///< name; empty: every grain
  std::string group{};               ///< name; empty: every group
};

/// What a kind is when nothing else is said, and which of the three it has at all.
struct UsualHardTime {
  std::optional<Hours> length{};
  std::optional<Kelvins> change{};
  std::optional<double> share{};
};
UsualHardTime usual(HardTimeKind kind);

// With the usual values filled in; 0 where the kind has none.
Hours length_of(const HardTime& hard);
Kelvins change_of(const HardTime& hard);  ///< outdoors: above zero warmer, below zero colder
double share_of(const HardTime& hard);

/// Minutes since the start of the run.
std::int64_t starts(const HardTime& hard);
std::int64_t ends(const HardTime& hard);
inline bool covers(const HardTime& hard, std::int64_t minute) { return minute >= starts(hard) && minute < ends(hard); }

/// "a heat wave, 9 K warmer for 10 days".
std::string in_words(const HardTime& hard);

}  // namespace rackwright
