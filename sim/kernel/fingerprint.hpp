#pragma once
// A hash of what a run did, for regression tests: the same events in the same order give the same number.

#include <cstdint>

#include "sim/kernel/event_key.hpp"

namespace rackwright::kernel {

/// Order-sensitive 64-bit hash. Each word is mixed by the finaliser of SplitMix64 (Steele, Lea & Flood 2014, OOPSLA).
class Fingerprint {
 public:
  constexpr void add(std::uint64_t word) {
    std::uint64_t z = (state_ ^ word) + 0x9e3779b97f4a7c15U;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
    state_ = z ^ (z >> 31);
  }
  /// Time, phase and sequence; the slot is left out, being a matter of storage.
  constexpr void add(EventKey key) {
    add(static_cast<std::uint64_t>(key.time()));
    add(key.order() >> EventKey::slot_bits);
  }
  [[nodiscard]] constexpr std::uint64_t value() const { return state_; }

 private:
  std::uint64_t state_ = 0;
};

/// Stands in for Fingerprint where no trace is wanted; costs nothing.
struct NoTrace {
  constexpr void add(std::uint64_t) {}
  constexpr void add(EventKey) {}
  [[nodiscard]] constexpr std::uint64_t value() const { return 0; }
};

}  // namespace rackwright::kernel
