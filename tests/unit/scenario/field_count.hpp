#pragma once
// How many members an aggregate has, found by trying to initialise it from ever more things that become anything.

#include <cstddef>
#include <utility>

namespace rackwright {

struct BecomesAnything {
  template <class T>
  operator T() const;  // only ever named, never called
};

template <std::size_t>
using Anything = BecomesAnything;

template <class T, std::size_t... I>
constexpr bool takes(std::index_sequence<I...>) {
  return requires { T{Anything<I>{}...}; };
}

/// Members of T, a flat aggregate with at most 60.
template <class T, std::size_t N = 60>
constexpr std::size_t field_count() {
  if constexpr (takes<T>(std::make_index_sequence<N>{})) {
    return N;
  } else {
    static_assert(N > 0);
    return field_count<T, N - 1>();
  }
}

}  // namespace rackwright
