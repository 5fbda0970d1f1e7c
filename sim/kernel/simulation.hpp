#pragma once
// The clock and the run loop.

#include <cstddef>
#include <cstdint>
#include <limits>
#include <utility>

#include "models/base/expects.hpp"
#include "sim/kernel/calendar.hpp"
#include "sim/kernel/fingerprint.hpp"
#include "sim/kernel/time.hpp"

namespace rackwright::kernel {

/// A clock that jumps from event to event. Trace is NoTrace or Fingerprint, chosen when compiling.
template <class Payload, class Trace = NoTrace>
class Simulation {
 public:
  using Event = typename Calendar<Payload>::Event;

  [[nodiscard]] Ticks now() const { return now_; }
  /// Events still to come.
  [[nodiscard]] std::size_t pending() const { return calendar_.size(); }
  [[nodiscard]] bool pending(Handle handle) const { return calendar_.pending(handle); }

  /// Expects a time that is not past. An event at the present instant happens in this run, after those already due that
  /// sort before it; a phase already over at this instant is not refused.
  Handle schedule_at(Ticks time, std::uint8_t phase, Payload payload) {
    EXPECTS(time >= now_);
    return calendar_.schedule(time, phase, std::move(payload));
  }

  /// Expects a delay of at least 0 that keeps the time within 64 bits.
  Handle schedule_after(Ticks delay, std::uint8_t phase, Payload payload) {
    EXPECTS(delay >= 0 && (now_ <= 0 || delay <= std::numeric_limits<Ticks>::max() - now_));
    return calendar_.schedule(now_ + delay, phase, std::move(payload));
  }

  bool cancel(Handle handle) { return calendar_.cancel(handle); }

  /// Runs handler(event) for every event before `end`, in order, those scheduled meanwhile included. Then now() == end,
  /// unless stop() was called: then now() is the time of the last event. Calls with rising ends meet each event once.
  template <class Handler>
  void run_until(Ticks end, Handler&& handler) {
    run_until(end, 0, std::forward<Handler>(handler));
  }

  /// The same, with the events at `end` of phases before `phase`. Then now() == end; a later call meets the others.
  template <class Handler>
  void run_until(Ticks end, std::uint8_t phase, Handler&& handler) {
    EXPECTS(end >= now_);
    stopped_ = false;
    const auto due = [&](const EventKey& key) { return key.time() < end || (key.time() == end && key.phase() < phase); };
    while (!stopped_ && !calendar_.empty() && due(calendar_.next_key())) step(handler);
    if (!stopped_) now_ = end;
  }

  /// Runs until nothing is scheduled or stop() is called.
  template <class Handler>
  void run(Handler&& handler) {
    stopped_ = false;
    while (!stopped_ && !calendar_.empty()) step(handler);
  }

  /// Ends the run after the event in hand. Nothing else is lost: a later run goes on.
  void stop() { stopped_ = true; }

  /// Adds a word of the model's own state to the trace.
  void trace(std::uint64_t word) { trace_.add(word); }
  [[nodiscard]] std::uint64_t fingerprint() const { return trace_.value(); }

  void reserve(std::size_t n) { calendar_.reserve(n); }

  /// Back to an empty calendar at `start`, keeping the memory.
  void reset(Ticks start = 0) {
    calendar_.clear();
    trace_ = Trace{};
    now_ = start;
    stopped_ = false;
  }

 private:
  template <class Handler>
  void step(Handler& handler) {
    Event event = calendar_.pop();
    now_ = event.time();
    trace_.add(event.key);
    handler(event);
  }

  Calendar<Payload> calendar_;
  Ticks now_ = 0;
  bool stopped_ = false;
  [[no_unique_address]] Trace trace_;
};

}  // namespace rackwright::kernel
