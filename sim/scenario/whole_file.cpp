#include "sim/scenario/whole_file.hpp"

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>

#include <fmt/format.h>

namespace rackwright {

std::variant<std::string, FileFault> whole_file(const std::string& path, std::size_t mebibytes, FileKind kind) {
  std::error_code error;
  const auto status = std::filesystem::status(path, error);
  if (status.type() == std::filesystem::file_type::not_found) return FileFault{"there is no such file"};
  if (std::filesystem::is_directory(status)) return FileFault{"is a folder, not a file"};
  if (error) return FileFault{"cannot be read: " + error.message()};
  if (kind == FileKind::regular && !std::filesystem::is_regular_file(status)) return FileFault{"is not a file that can be read"};
  std::ifstream file(path, std::ios::binary);
  if (!file) return FileFault{"cannot be read: " + std::string(std::strerror(errno))};
  // A pipe does not say how much is to come, and the size a file states may be that of an endless device.
  constexpr std::size_t stretch = std::size_t{1} << 16U;
  const std::size_t most = mebibytes << 20U;
  std::string text;
  while (file && text.size() <= most) {
    const std::size_t before = text.size();
    text.resize(before + std::min(stretch, most + 1 - before));
    file.read(text.data() + before, static_cast<std::streamsize>(text.size() - before));
    text.resize(before + static_cast<std::size_t>(file.gcount()));
  }
  if (file.bad()) return FileFault{"cannot be read"};
  if (text.size() > most) return FileFault{fmt::format("is larger than {} MiB", mebibytes)};
  return text;
}

}  // namespace rackwright
