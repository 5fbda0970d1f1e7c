#pragma once
// The scenario a command is given.

#include <string>
#include <vector>

#include "sim/app/options.hpp"
#include "sim/scenario/kits.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright::app {

struct Loaded {
  std::string path;
  std::string text;      ///< as it stands in the file
  Scenario scenario;     ///< with the options' settings, checked
};

/// What `settings` state themselves, not in a file of them.
std::vector<Stated> typed_settings(const std::vector<std::string>& settings);

/// Reads the one scenario among the words of `options`. Throws BadInput with every problem it has.
Loaded load(const Options& options);

}  // namespace rackwright::app
