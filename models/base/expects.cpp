#include "models/base/expects.hpp"

#include <stdexcept>
#include <string>

namespace rackwright {

void contract_broken(const char* kind, const char* condition, const char* file, int line) {
  throw std::logic_error(std::string(kind) + " " + condition + " broken at " + file + ":" + std::to_string(line));
}

}  // namespace rackwright
