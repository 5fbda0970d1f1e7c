#include "sim/scenario/whole_file.hpp"

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>

#include <fmt/format.h>

namespace rackwright {

std::variant<std::string, FileFault> whole_file(const std::string& path, std::size_t mebibytes) {
  std::error_code error;
  const auto status = std::filesystem::status(path, error);
  if (status.type() == std::filesystem::file_type::not_found) return FileFault{"there is no such file"};
  if (error || !std::filesystem::is_regular_file(status)) return FileFault{"is not a file that can be read"};
  std::ifstream file(path, std::ios::binary);
  if (!file) return FileFault{"cannot be read: " + std::string(std::strerror(errno))};
  const auto size = std::filesystem::file_size(path, error);
  if (error || size > mebibytes << 20U) return FileFault{fmt::format("is larger than {} MiB", mebibytes)};
  std::string text(size, '\0');
  file.read(text.data(), static_cast<std::streamsize>(size));
  if (file.bad()) return FileFault{"cannot be read"};
  text.resize(static_cast<std::size_t>(file.gcount()));
  return text;
}

}  // namespace rackwright
