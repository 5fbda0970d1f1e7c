#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>

#include "sim/scenario/document.hpp"
#include "sim/scenario/read.hpp"

namespace rackwright {
namespace {

Reading refused(const std::string& path, std::string why) {
  Reading reading;
  reading.problems.push_back(Problem{0, path, "", std::move(why), ""});
  return reading;
}

}  // namespace

Reading read_scenario_file(const std::string& path, const std::vector<std::string>& settings) {
  std::error_code error;
  const auto status = std::filesystem::status(path, error);
  if (status.type() == std::filesystem::file_type::not_found) return refused(path, "there is no such file");
  if (std::filesystem::is_directory(status)) return refused(path, "is a folder; a scenario is a file");
  if (error) return refused(path, "cannot be read: " + error.message());
  std::ifstream file(path, std::ios::binary);
  if (!file) return refused(path, "cannot be read: " + std::string(std::strerror(errno)));
  std::string text(largest_text + 1, '\0');
  file.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (file.bad()) return refused(path, "cannot be read");
  text.resize(static_cast<std::size_t>(file.gcount()));
  const std::string folder = std::filesystem::path(path).parent_path().string();
  return read_scenario(text, settings, folder.empty() ? "." : folder);
}

}  // namespace rackwright
