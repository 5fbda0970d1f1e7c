#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>

#include "sim/scenario/document.hpp"
#include "sim/scenario/raw_text.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/whole_file.hpp"

namespace rackwright {

namespace {

std::string value_text(const keys::Raw& raw) {
  if (raw.shape != keys::Raw::Shape::list) return raw.text;
  std::string all;
  for (const keys::Raw& item : raw.items) all += (all.empty() ? "" : ", ") + item.text;
  return all;
}

/// A setting "@FILE" stands for every key that FILE, a scenario or a part of one, states outside its lists.
std::vector<std::string> expanded(const std::vector<std::string>& settings, Problems& problems) {
  std::vector<std::string> all;
  for (const std::string& setting : settings) {
    if (!setting.starts_with('@')) {
      all.push_back(setting);
      continue;
    }
    const std::string path = setting.substr(1);
    const auto complain = [&](int line, const std::string& key, const std::string& why) {
      problems.push_back({line, path + (key.empty() ? "" : ": " + key), "", why, ""});
    };
    const auto text = whole_file(path, 1);
    if (const auto* fault = std::get_if<FileFault>(&text)) { complain(0, "", fault->why); continue; }
    if (const auto why = text_problem(std::get<std::string>(text))) { complain(why->line, why->key, why->why); continue; }
    const Document document = parse_document(std::get<std::string>(text));
    for (const Problem& problem : document.problems) complain(problem.line, problem.key, problem.why);
    for (const Entry& entry : document.entries) complain(entry.line, entry.list, "is a list, and a file of settings holds single keys only");
    for (const Leaf& leaf : document.leaves) all.push_back(leaf.path + "=" + value_text(leaf.raw));
  }
  return all;
}

}  // namespace

std::optional<Problem> read_whole_file(const std::string& path, const std::string& if_folder, std::string& text) {
  const auto refused = [&](std::string why) { return Problem{0, path, "", std::move(why), ""}; };
  std::error_code error;
  const auto status = std::filesystem::status(path, error);
  if (status.type() == std::filesystem::file_type::not_found) return refused("there is no such file");
  if (std::filesystem::is_directory(status)) return refused(if_folder);
  if (error) return refused("cannot be read: " + error.message());
  std::ifstream file(path, std::ios::binary);
  if (!file) return refused("cannot be read: " + std::string(std::strerror(errno)));
  text.assign(largest_text + 1, '\0');
  file.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (file.bad()) return refused("cannot be read");
  text.resize(static_cast<std::size_t>(file.gcount()));
  return std::nullopt;
}

Reading read_scenario_file(const std::string& path, const std::vector<std::string>& settings) {
  std::string text;
  if (auto problem = read_whole_file(path, "is a folder; a scenario is a file", text)) {
    Reading reading;
    reading.problems.push_back(std::move(*problem));
    return reading;
  }
  const std::string folder = std::filesystem::path(path).parent_path().string();
  Problems problems;
  const std::vector<std::string> all = expanded(settings, problems);
  Reading reading = read_scenario(text, all, folder.empty() ? "." : folder);
  if (!problems.empty()) {
    reading.scenario.reset();
    reading.problems.insert(reading.problems.begin(), problems.begin(), problems.end());
  }
  return reading;
}

}  // namespace rackwright
