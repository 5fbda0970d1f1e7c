#include "sim/scenario/hard_time.hpp"
#include "sim/scenario/hard_time_words.hpp"

#include <cmath>

#include <fmt/format.h>

namespace rackwright {
namespace {

std::string span(Hours length) {
  const double hours = length.value();
  if (hours < 48.0) return fmt::format("{:.3g} hours", hours);
  return fmt::format("{:.3g} days", hours / 24.0);
}

std::string in_all(const std::string& name) { return name.empty() ? "" : " of " + name; }

}  // namespace

// Sizes a keeper of a dry southern hillside would call hard but has met; assumed, no source.
UsualHardTime usual(HardTimeKind kind) {
  switch (kind) {
    case HardTimeKind::heat_wave: return {days(10), Kelvins(9.0), {}};
    case HardTimeKind::cold_snap: return {days(7), Kelvins(8.0), {}};
    case HardTimeKind::poor_lot: return {{}, {}, 0.4};
    case HardTimeKind::late_delivery: return {days(10), {}, {}};
    case HardTimeKind::pump_stop:
    case HardTimeKind::power_cut:
    case HardTimeKind::missed_rounds: return {days(1), {}, {}};
    case HardTimeKind::larger_litter: return {days(365), {}, 0.4};
    case HardTimeKind::keeper_away: return {days(7), {}, {}};
    case HardTimeKind::price_jump: return {days(180), {}, 0.3};
  }
  return {};
}

Hours length_of(const HardTime& hard) { return hard.length.value_or(usual(hard.kind).length.value_or(Hours(0.0))); }

Kelvins change_of(const HardTime& hard) {
  const Kelvins change = hard.change.value_or(usual(hard.kind).change.value_or(Kelvins(0.0)));
  return hard.kind == HardTimeKind::cold_snap ? Kelvins(-change.value()) : change;
}

double share_of(const HardTime& hard) { return hard.share.value_or(usual(hard.kind).share.value_or(0.0)); }

std::int64_t starts(const HardTime& hard) {
  return std::llround(1440.0 * std::floor(hard.first_day) + 60.0 * hard.at.value());
}

std::int64_t ends(const HardTime& hard) { return starts(hard) + std::llround(60.0 * length_of(hard).value()); }

std::string in_words(const HardTime& hard) { return in_words(hard, false); }

std::string in_words(const HardTime& hard, bool us) {
  const std::string lasting = span(length_of(hard)), of_grain = in_all(hard.grain);
  const double change = std::abs(change_of(hard).value()), percent = 100.0 * share_of(hard);
  const std::string degrees = us ? fmt::format("{:.3g} degF", 1.8 * change) : fmt::format("{:.3g} degC ({:.3g} degF)", change, 1.8 * change);
  switch (hard.kind) {
    case HardTimeKind::heat_wave: return fmt::format("a heat wave, {} warmer for {}", degrees, lasting);
    case HardTimeKind::cold_snap: return fmt::format("a cold snap, {} colder for {}", degrees, lasting);
    case HardTimeKind::poor_lot:
      return fmt::format("a poor lot{}, {:.3g} % of the living grain dead in the next {}", of_grain, percent,
                         hard.times == 1 ? "that comes" : fmt::format("{} that come", hard.times));
    case HardTimeKind::late_delivery:
      return fmt::format("a late delivery{}, the next {} {} later", of_grain,
                         hard.times == 1 ? "order comes" : fmt::format("{} orders come", hard.times), lasting);
    case HardTimeKind::pump_stop: return fmt::format("the pump dead for {}", lasting);
    case HardTimeKind::power_cut: return fmt::format("no electricity for {}", lasting);
    case HardTimeKind::missed_rounds: return fmt::format("every round missed for {}", lasting);
    case HardTimeKind::larger_litter: return fmt::format("{:.3g} % more young reared{}", percent, in_all(hard.group));
    case HardTimeKind::keeper_away: return fmt::format("nobody at the rack for {}", lasting);
    case HardTimeKind::price_jump: return fmt::format("grain{} {:.3g} % dearer for {}", of_grain, percent, lasting);
  }
  return "";
}

}  // namespace rackwright
