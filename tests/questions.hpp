#pragma once
// The question of `rackwright new` that an option answers.

#include <stdexcept>

#include "sim/app/starter_answers.hpp"

namespace rackwright::test {

inline const app::Question& question(app::Option option) {
  for (const app::Question& q : app::questions()) {
    if (q.option == option) return q;
  }
  throw std::logic_error("no such question");
}

}  // namespace rackwright::test
