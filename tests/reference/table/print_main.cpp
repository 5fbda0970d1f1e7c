// Prints docs/validation.md.
#include <cstdio>

#include <fmt/core.h>

#include "tests/reference/table/sheet.hpp"

int main() {
  fmt::print("{}", rackwright::validation::page());
  return 0;
}
