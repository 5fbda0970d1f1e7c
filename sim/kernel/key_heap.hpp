#pragma once
// A 4-ary implicit heap of bare 128-bit keys. The four children of a node share one cache line.

#include <bit>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <new>
#include <vector>

#include "sim/kernel/earlier.hpp"
#include "sim/kernel/event_key.hpp"

namespace rackwright::kernel {

/// Memory that starts on a cache line.
template <class T>
struct LineAllocator {
  using value_type = T;
  LineAllocator() = default;
  template <class U>
  explicit LineAllocator(const LineAllocator<U>&) {}
  static constexpr std::align_val_t line{64};
  T* allocate(std::size_t n) { return static_cast<T*>(::operator new(n * sizeof(T), line)); }
  void deallocate(T* p, std::size_t) { ::operator delete(p, line); }
  friend bool operator==(const LineAllocator&, const LineAllocator&) { return true; }
};

/// Smallest key first. Keeps its capacity. The caller keeps keys distinct and below the largest 128-bit number, and
/// asks nothing of an empty heap.
///
/// Places 3 (the root), 4, 5 ... are in use; the children of p are 4p - 8 ... 4p - 5. Every unused place, and the whole
/// of the last line, holds the largest key, so that a missing child is never the smaller one.
class KeyHeap {
 public:
  KeyHeap() { reserve(1); }

  [[nodiscard]] std::size_t size() const { return size_; }
  [[nodiscard]] std::size_t capacity() const { return spare() - root_; }
  [[nodiscard]] EventKey top() const { return keys_[root_]; }

  /// Room for n keys without a further allocation.
  void reserve(std::size_t n) {
    if (keys_.empty() || capacity() < n) keys_.resize((root_ + n + 3) / 4 * 4 + 4, nothing());
  }

  void push(EventKey key) {
    if (size_ == capacity()) reserve(2 * size_ + 8);
    rise(root_ + size_++, key);
  }

  /// The smallest key leaves and `key` enters, in one pass.
  void replace_top(EventKey key) { sink(key); }

  void pop() {
    const std::size_t last = root_ + --size_;
    const EventKey moved = keys_[last];
    keys_[last] = nothing();
    if (size_ > 0) sink(moved);
  }

  void clear() {
    for (std::size_t i = 0; i < size_; ++i) keys_[root_ + i] = nothing();
    size_ = 0;
  }

  /// Drops every key for which keep(key) is false, without allocating.
  template <class Keep>
  void filter(Keep keep) {
    const std::size_t end = root_ + size_;
    size_ = 0;
    for (std::size_t place = root_; place < end; ++place) {
      const EventKey key = keys_[place];
      keys_[place] = nothing();  // a kept key re-enters at or before the place it came from
      if (keep(key)) push(key);
    }
  }

 private:
  static constexpr std::size_t root_ = 3;  // so that brothers share a line
  static constexpr EventKey nothing() {
    constexpr auto most = std::numeric_limits<std::uint64_t>::max();
    return EventKey(most, most);
  }
  /// The first place of the last line, which stays empty.
  [[nodiscard]] std::size_t spare() const { return keys_.size() - 4; }

  // A line is named by its distance in bytes from keys_ on, a key by the distance of its children's line: the next load then waits
  // for no arithmetic, and its own distance, a quarter of that and 32 more, is worked out aside (hold model of 500: a tenth quicker).
  using Distance = std::uint64_t;
  static constexpr Distance first_line = 4 * sizeof(EventKey);
  [[nodiscard]] static Distance own(Distance children) { return children / 4 + 2 * sizeof(EventKey); }
  [[nodiscard]] EventKey* at(Distance distance) {
    return std::launder(reinterpret_cast<EventKey*>(reinterpret_cast<char*>(keys_.data()) + distance));
  }

  /// The smallest key of a line, with its children's line for a place.
  [[nodiscard]] Candidate smallest_of_line(Distance line) {
    const EventKey* k = at(line);
    const Distance children = 4 * line - 8 * sizeof(EventKey);
    constexpr Distance apart = 4 * sizeof(EventKey);
    return earlier(earlier({k[0], children}, {k[1], children + apart}), earlier({k[2], children + 2 * apart}, {k[3], children + 3 * apart}));
  }

  /// Leaves the smaller of key and child in the place and returns the larger.
  EventKey settle(Distance place, EventKey key, EventKey child) {
    const EventKey smaller = earlier({key, 0}, {child, 0}).key;
    *at(place) = smaller;
    return EventKey(key.instant() ^ child.instant() ^ smaller.instant(), key.order() ^ child.order() ^ smaller.order());
  }

  // Puts key in at the root and walks the path of smallest children to the end, leaving the smaller of key and child at
  // each step. Stopping early would be right too, but it is a branch nobody can predict; so is asking whether the last
  // level's children exist: if not, the empty last line stands in for them.
  void sink(EventKey key) {
    const unsigned depth = static_cast<unsigned>(std::bit_width(3 * size_ - 2) - 1) / 2;
    if (depth == 0) {
      keys_[root_] = key;
      return;
    }
    Distance place = root_ * sizeof(EventKey), line = first_line;
    for (unsigned level = 1; level < depth; ++level) {  // all levels but the last are full
      const Candidate child = smallest_of_line(line);
      key = settle(place, key, child.key);
      line = child.place;
      place = own(line);
    }
    const Distance end = (root_ + size_) * sizeof(EventKey), empty = spare() * sizeof(EventKey);
    const Distance there = Distance{0} - static_cast<Distance>(line < end);
    const Candidate child = smallest_of_line(empty ^ ((empty ^ line) & there));
    key = settle(place, key, child.key);
    *at(own(child.place)) = key;
  }

  void rise(std::size_t place, EventKey key) {
    while (place > root_) {
      const std::size_t parent = place / 4 + 2;
      if (keys_[parent] < key) break;
      keys_[place] = keys_[parent];
      place = parent;
    }
    keys_[place] = key;
  }

  std::vector<EventKey, LineAllocator<EventKey>> keys_;
  std::size_t size_ = 0;
};

}  // namespace rackwright::kernel
