#pragma once
// What a fuzzing program tries: any bytes at all must be answered or refused, never crash, hang, leak or contradict.

#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

namespace rackwright::fuzz {

/// Good inputs to start from.
std::vector<std::string> seeds();
/// Pieces that mean something to the reader under test; may be empty.
std::vector<std::string> words();
/// One try. Breaks a promise by demand() below, or by crashing.
void attempt(const std::string& input);

/// Stops the program when a promise is broken, so that every fuzzing engine notices.
inline void demand(bool kept, const char* promise) {
  if (kept) return;
  std::fprintf(stderr, "broken promise: %s\n", promise);
  std::abort();
}

}  // namespace rackwright::fuzz
