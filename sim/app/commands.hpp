#pragma once
// The commands of the program, one file each, in one table.

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "sim/app/options.hpp"

namespace rackwright::app {

struct Command {
  std::string_view name;
  std::string_view arguments;  ///< as shown in help
  std::string_view sentence;
  std::vector<Option> options;
  int (*run)(const Options&);  ///< returns an Exit; throws BadInput for wrong input
};
const std::vector<Command>& commands();

int new_scenario(const Options& options);
int check(const Options& options);
int simulate(const Options& options);
int size(const Options& options);
int sweep(const Options& options);
int stress(const Options& options);
int schedule(const Options& options);
int journal(const Options& options);
int report(const Options& options);
int lot(const Options& options);
int evaluate(const Options& options);
int describe(const Options& options);
int fit(const Options& options);

/// Finds the command, reads its options, runs it. Every exception becomes words on standard error and an exit code
/// here.
int run(const std::vector<std::string>& arguments);

}  // namespace rackwright::app
