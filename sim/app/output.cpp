#include "sim/app/output.hpp"

#include <filesystem>
#include <system_error>

#include <fmt/core.h>

#include "sim/app/exit.hpp"

namespace rackwright::app {

std::string output_path(const Options& options, const std::string& input) {
  if (!options.out || options.out->empty()) throw BadInput("say where to write the result: --out FILE.h5");
  std::error_code ignored;
  if (std::filesystem::equivalent(*options.out, input, ignored))
    throw BadInput(fmt::format("--out {}: that is the input; --force does not go that far", *options.out));
  return *options.out;
}

}  // namespace rackwright::app
