#include "sim/app/output.hpp"

#include <cerrno>
#include <cstdio>
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

void write_whole(const std::string& page, results::OutputFile& out) {
  std::FILE* file = std::fopen(out.temporary().c_str(), "wb");
  if (file == nullptr) results::throw_write_fault(out.path(), errno, "cannot be opened");
  errno = 0;
  const bool written = std::fwrite(page.data(), 1, page.size(), file) == page.size() && std::fflush(file) == 0;
  int failed = written ? 0 : errno;
  if (std::fclose(file) != 0 && failed == 0) failed = errno;
  if (!written || failed != 0) results::throw_write_fault(out.path(), failed, "not all of it could be written");
}

}  // namespace rackwright::app
