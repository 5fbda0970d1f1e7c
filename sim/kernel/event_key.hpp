#pragma once
// The total order of events: time, then phase, then the order in which they were scheduled.

#include <cstdint>

#include "sim/kernel/time.hpp"

namespace rackwright::kernel {

__extension__ typedef unsigned __int128 Uint128;  // a compiler extension: the macro keyword keeps -Wpedantic quiet

/// (time, phase, sequence) in one 128-bit word, so that "earlier" is one comparison.
///
///   bit 127 .. 64   time, sign bit turned over so that negative times sort first
///   bit  63 .. 56   phase: the order of things that happen at the same instant; part of the model
///   bit  55 .. 20   sequence: 1, 2, 3 ... as scheduled, hence no two keys are equal
///   bit  19 ..  0   slot of the payload; below the sequence, so it never decides anything
class EventKey {
 public:
  static constexpr unsigned slot_bits = 20;
  static constexpr unsigned sequence_bits = 36;
  /// One above the largest slot and the largest sequence number a key can hold.
  static constexpr std::uint64_t slot_limit = std::uint64_t{1} << slot_bits;
  static constexpr std::uint64_t sequence_limit = std::uint64_t{1} << sequence_bits;

  constexpr EventKey() = default;
  /// From the upper and the lower half.
  constexpr EventKey(std::uint64_t instant, std::uint64_t order) : order_(order), instant_(instant) {}
  constexpr EventKey(Ticks time, std::uint8_t phase, std::uint64_t sequence, std::uint32_t slot)
      : order_((std::uint64_t{phase} << (slot_bits + sequence_bits)) | (sequence << slot_bits) | slot),
        instant_(static_cast<std::uint64_t>(time) ^ sign_) {}

  [[nodiscard]] constexpr Ticks time() const { return static_cast<Ticks>(instant_ ^ sign_); }
  [[nodiscard]] constexpr std::uint8_t phase() const {
    return static_cast<std::uint8_t>(order_ >> (slot_bits + sequence_bits));
  }
  [[nodiscard]] constexpr std::uint64_t sequence() const { return (order_ >> slot_bits) & (sequence_limit - 1); }
  [[nodiscard]] constexpr std::uint32_t slot() const { return static_cast<std::uint32_t>(order_ & (slot_limit - 1)); }

  /// The upper half: time, sign bit turned over.
  [[nodiscard]] constexpr std::uint64_t instant() const { return instant_; }
  /// The lower half: phase, sequence and slot; unlike any other scheduled since the calendar was cleared.
  [[nodiscard]] constexpr std::uint64_t order() const { return order_; }
  [[nodiscard]] constexpr Uint128 bits() const { return (static_cast<Uint128>(instant_) << 64) | order_; }

  friend constexpr bool operator==(EventKey, EventKey) = default;
  friend constexpr bool operator<(EventKey a, EventKey b) { return a.bits() < b.bits(); }

 private:
  static constexpr std::uint64_t sign_ = std::uint64_t{1} << 63;
  // Halves, not one 128-bit member: compilers move such a member through vector registers, and reading back half of one
  // just written, or the whole of two halves just written, stalls.
  std::uint64_t order_ = 0;
  std::uint64_t instant_ = 0;
};

}  // namespace rackwright::kernel
