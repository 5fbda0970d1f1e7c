#pragma once
// The scenario a command is given.

#include <string>

#include "sim/app/options.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright::app {

struct Loaded {
  std::string path;
  std::string text;      ///< as it stands in the file
  Scenario scenario;     ///< with the options' settings, checked
};

/// Reads the one scenario among the words of `options`. Throws BadInput with every problem it has.
Loaded load(const Options& options);

}  // namespace rackwright::app
