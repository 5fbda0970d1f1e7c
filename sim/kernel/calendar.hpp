#pragma once
// The event list: what is scheduled, in the order it will happen.

#include <concepts>
#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

#include "models/base/expects.hpp"
#include "sim/kernel/event_key.hpp"
#include "sim/kernel/key_heap.hpp"

namespace rackwright::kernel {

/// Names one scheduled event. Once that has happened, been cancelled or been cleared away it names nothing, for ever.
class Handle {
 public:
  Handle() = default;
  friend bool operator==(const Handle&, const Handle&) = default;

 private:
  template <class Payload>
  friend class Calendar;
  Handle(std::uint64_t order, std::uint32_t epoch) : order_(order), epoch_(epoch) {}
  std::uint64_t order_ = 0;
  std::uint32_t epoch_ = 0;
};

/// Events in the total order (time, phase, sequence). No allocation once it has grown to its working size.
///
/// Payloads stay in slots; the heap holds keys only. A cancelled event frees its slot at once and leaves its key
/// behind; the key is recognised as stale when it surfaces, because the slot then carries another order word. With
/// n events live at most at any one time, there are never more than n + `slack` stale keys: a cancellation that would
/// leave more than that sweeps them out. A popped key's place at the root is kept open, so that the usual pop followed
/// by schedule costs one pass through the heap.
template <class Payload>
class Calendar {
  static_assert(std::default_initializable<Payload> && std::movable<Payload>);

 public:
  struct Event {
    EventKey key;
    Payload payload;
    [[nodiscard]] Ticks time() const { return key.time(); }
    [[nodiscard]] std::uint8_t phase() const { return key.phase(); }
  };

  /// Live events.
  [[nodiscard]] std::size_t size() const { return live_; }
  [[nodiscard]] bool empty() const { return live_ == 0; }
  /// Keys in the heap, stale ones included.
  [[nodiscard]] std::size_t keys_held() const { return heap_.size(); }

  /// Room for n live events, whatever is cancelled, without a further allocation.
  void reserve(std::size_t n) {
    EXPECTS(n < EventKey::slot_limit);
    slots_.reserve(n);
    heap_.reserve(2 * n + slack + 2);
  }

  /// Throws std::logic_error beyond 2^20 - 1 events pending or 2^36 - 1 scheduled since the last clear().
  Handle schedule(Ticks time, std::uint8_t phase, Payload payload) {
    EXPECTS(sequence_ + 1 < EventKey::sequence_limit);
    const std::uint32_t slot = take_slot();
    const EventKey key(time, phase, ++sequence_, slot);
    slots_[slot].order = key.order();
    slots_[slot].payload = std::move(payload);
    ++live_;
    if (hole_) heap_.replace_top(key);
    else heap_.push(key);
    hole_ = false;
    return Handle(key.order(), epoch_);
  }

  /// False, and nothing changes, if the handle names no event that is still to come.
  bool cancel(Handle handle) {
    if (!pending(handle)) return false;
    release(EventKey(0, handle.order_).slot());
    if (heap_.size() > 2 * live_ + slack) sweep();
    return true;
  }

  /// True if the event named is still to come.
  [[nodiscard]] bool pending(Handle handle) const {
    const std::uint32_t slot = EventKey(0, handle.order_).slot();
    return handle.epoch_ == epoch_ && slot < slots_.size() && slots_[slot].order == handle.order_;
  }

  /// The key of the next live event. Expects one.
  [[nodiscard]] EventKey next_key() {
    EXPECTS(live_ > 0);
    surface();
    return heap_.top();
  }

  /// Takes out the next live event. Expects one.
  Event pop() {
    const EventKey key = next_key();
    Event event{key, std::move(slots_[key.slot()].payload)};
    release(key.slot());
    hole_ = true;
    return event;
  }

  /// Forgets every event, keeps the memory, starts the sequence anew; handles given out before are refused.
  void clear() {
    heap_.clear();
    slots_.clear();
    free_ = none_;
    live_ = 0;
    sequence_ = 0;
    hole_ = false;
    ++epoch_;
  }

  static constexpr std::size_t slack = 64;

 private:
  // order: of the event in the slot, or, in a free slot, the next free one; sequence 0 tells the two apart.
  struct Slot {
    std::uint64_t order;
    Payload payload;
  };
  static constexpr std::uint32_t none_ = EventKey::slot_limit - 1;

  std::uint32_t take_slot() {
    if (free_ == none_) {
      EXPECTS(slots_.size() < none_);
      slots_.push_back(Slot{0, Payload{}});
      return static_cast<std::uint32_t>(slots_.size() - 1);
    }
    const std::uint32_t slot = free_;
    free_ = static_cast<std::uint32_t>(slots_[slot].order);
    return slot;
  }

  void release(std::uint32_t slot) {
    slots_[slot].order = free_;
    free_ = slot;
    --live_;
  }

  [[nodiscard]] bool stale(EventKey key) const { return slots_[key.slot()].order != key.order(); }

  void surface() {
    if (hole_) heap_.pop();
    hole_ = false;
    while (stale(heap_.top())) heap_.pop();
  }

  void sweep() {
    hole_ = false;  // the popped key is stale too and goes with the others
    heap_.filter([this](EventKey key) { return !stale(key); });
  }

  KeyHeap heap_;
  std::vector<Slot> slots_;
  std::uint32_t free_ = none_;
  std::uint32_t epoch_ = 1;
  std::size_t live_ = 0;
  std::uint64_t sequence_ = 0;
  bool hole_ = false;
};

}  // namespace rackwright::kernel
