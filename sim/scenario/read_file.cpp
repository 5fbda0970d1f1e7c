#include <filesystem>
#include <map>
#include <string>

#include <fmt/format.h>

#include "sim/scenario/document.hpp"
#include "sim/scenario/raw_text.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/whole_file.hpp"

namespace rackwright {

namespace {

struct Place {
  std::string file{};
  int line = 0;
};

/// An option is its own place in messages, not the scenario.
std::string place_words(const Place& place, const std::string& key) {
  return "--set @" + place.file + (place.line > 0 ? fmt::format(":{}", place.line) : "") + (key.empty() ? "" : ": " + key);
}

std::string value_text(const keys::Raw& raw) {
  if (raw.shape != keys::Raw::Shape::list) return raw.text;
  std::string all;
  for (const keys::Raw& item : raw.items) all += (all.empty() ? "" : ", ") + item.text;
  return all;
}

/// A setting "@FILE" stands for every key that FILE, a scenario or a part of one, states outside its lists.
/// `places` tells where a key stands whose last value is a file's.
std::vector<std::string> expanded(const std::vector<std::string>& settings, Problems& problems, std::map<std::string, Place>& places) {
  std::vector<std::string> all;
  for (const std::string& setting : settings) {
    if (!setting.starts_with('@')) {
      all.push_back(setting);
      places.erase(setting.substr(0, setting.find('=')));
      continue;
    }
    const std::string path = setting.substr(1);
    const auto complain = [&](int line, const std::string& key, const std::string& why) {
      problems.push_back({0, place_words({path, line}, key), "", why, ""});
    };
    const auto text = whole_file(path, 1, FileKind::any);
    if (const auto* fault = std::get_if<FileFault>(&text)) { complain(0, "", fault->why); continue; }
    if (const auto why = text_problem(std::get<std::string>(text))) { complain(why->line, why->key, why->why); continue; }
    const Document document = parse_document(std::get<std::string>(text));
    for (const Problem& problem : document.problems) complain(problem.line, problem.key, problem.why);
    for (const Entry& entry : document.entries) complain(entry.line, entry.list, "is a list, and a file of settings holds single keys only");
    for (const Leaf& leaf : document.leaves) {
      all.push_back(leaf.path + "=" + value_text(leaf.raw));
      places[leaf.path] = {path, leaf.line};
    }
  }
  return all;
}

}  // namespace

Reading read_scenario_file(const std::string& path, const std::vector<std::string>& settings) {
  const auto text = whole_file(path, 1, FileKind::any);
  if (const auto* fault = std::get_if<FileFault>(&text)) {
    Reading reading;
    reading.problems.push_back({0, path, "", fault->why, ""});
    return reading;
  }
  const std::string folder = std::filesystem::path(path).parent_path().string();
  Problems problems;
  std::map<std::string, Place> places;
  const std::vector<std::string> all = expanded(settings, problems, places);
  Reading reading = read_scenario(std::get<std::string>(text), all, folder.empty() ? "." : folder);
  for (Problem& problem : reading.problems) {
    const auto place = places.find(problem.key);
    if (!problem.typed || place == places.end()) continue;
    problem.key = place_words(place->second, problem.key);
    problem.line = 0;
  }
  if (!problems.empty()) {
    reading.scenario.reset();
    reading.problems.insert(reading.problems.begin(), problems.begin(), problems.end());
  }
  return reading;
}

}  // namespace rackwright
