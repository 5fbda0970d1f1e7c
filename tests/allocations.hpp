#pragma once
// Counts every allocation of a test program by replacing the global operators. Include in one source of a program only.

#include <cstddef>
#include <cstdlib>
#include <new>

namespace {
long allocations = 0;

void* taken_or_null(std::size_t n, std::size_t alignment) {
  ++allocations;
  const std::size_t whole = (n + alignment - 1) / alignment * alignment;
  return std::aligned_alloc(alignment, whole ? whole : alignment);
}

void* take(std::size_t n, std::size_t alignment) {
  if (void* p = taken_or_null(n, alignment)) return p;
  throw std::bad_alloc();
}
}  // namespace

// Not put into their callers: a compiler that sees the one freed by the other without the operator calls it a mismatch.
#define COUNTED __attribute__((noinline))
COUNTED void* operator new(std::size_t n) { return take(n, alignof(std::max_align_t)); }
COUNTED void* operator new[](std::size_t n) { return take(n, alignof(std::max_align_t)); }
COUNTED void* operator new(std::size_t n, std::align_val_t a) { return take(n, static_cast<std::size_t>(a)); }
COUNTED void* operator new[](std::size_t n, std::align_val_t a) { return take(n, static_cast<std::size_t>(a)); }
COUNTED void* operator new(std::size_t n, const std::nothrow_t&) noexcept { return taken_or_null(n, alignof(std::max_align_t)); }
COUNTED void* operator new[](std::size_t n, const std::nothrow_t&) noexcept { return taken_or_null(n, alignof(std::max_align_t)); }
COUNTED void operator delete(void* p) noexcept { std::free(p); }
COUNTED void operator delete[](void* p) noexcept { std::free(p); }
COUNTED void operator delete(void* p, std::size_t) noexcept { std::free(p); }
COUNTED void operator delete[](void* p, std::size_t) noexcept { std::free(p); }
COUNTED void operator delete(void* p, std::align_val_t) noexcept { std::free(p); }
COUNTED void operator delete[](void* p, std::align_val_t) noexcept { std::free(p); }
COUNTED void operator delete(void* p, std::size_t, std::align_val_t) noexcept { std::free(p); }
COUNTED void operator delete[](void* p, std::size_t, std::align_val_t) noexcept { std::free(p); }
#undef COUNTED
