#pragma once
// What can happen, and in which order at the same instant.

#include <cstdint>

namespace rackwright {

/// Kinds of event. The number in Phase is the order within one minute, and part of the model.
enum class EventKind : std::uint8_t {
  close_day,      ///< the day that ends is booked before anything of the next
  outage_starts,  ///< what breaks, breaks before people act on the same minute
  outage_ends,
  clog_starts,
  take_over,      ///< what stood in the barn at the opening goes on by itself from here
  tank_empty,     ///< a tank filled by hand has run empty
  delivery,       ///< grain that arrives can be soaked at once
  round,          ///< feeding: look, cut, feed, wash, sow
  soak,           ///< after the round, which frees the buckets
  trial_over,     ///< a lot is kept or refused before people act on the same minute
};

/// Order at equal times: books, breakdowns, deliveries, people, soaking. Harvest happens inside the round after the trays
/// have been brought up to date, so a mat is never cut on yesterday's growth.
enum Phase : std::uint8_t { phase_books = 0, phase_trouble = 1, phase_delivery = 2, phase_round = 3, phase_soak = 4 };

/// One scheduled event; which fields count depends on the kind.
struct Event {
  EventKind kind = EventKind::close_day;
  std::uint8_t session = 0;     ///< round, soak: 0 morning, 1 evening
  std::uint8_t system = 0;      ///< outage: 0 pump, 1 power; delivery: 1 ordered while the grain was short
  std::int32_t day = 0;         ///< round, soak: the day (of sowing); close_day: the day that ends
  std::int32_t grain = 0;       ///< delivery, trial
  std::uint32_t number = 0;     ///< delivery, trial: order number; outage: index
  double kilograms = 0.0;       ///< delivery
};

}  // namespace rackwright
