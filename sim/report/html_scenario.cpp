#include "sim/report/html_scenario.hpp"

#include <algorithm>
#include <variant>

#include "sim/scenario/units.hpp"

namespace rackwright::report {
namespace {

/// A value without the quotes and backslashes of its TOML text.
std::string bare(std::string_view value) {
  if (value.size() < 2 || value.front() != '"' || value.back() != '"') return std::string(value);
  value = value.substr(1, value.size() - 2);
  std::string out;
  for (std::size_t i = 0; i < value.size(); ++i) {
    if (value[i] == '\\' && i + 1 < value.size()) {
      ++i;
      out += value[i] == 'n' || value[i] == 't' ? ' ' : value[i];
    } else {
      out += value[i];
    }
  }
  return out;
}

/// The texts of a list as TOML has it.
std::vector<std::string> texts_of(std::string_view list) {
  std::vector<std::string> all;
  for (std::size_t at = list.find('"'); at != std::string_view::npos; at = list.find('"', at)) {
    std::size_t end = at + 1;
    while (end < list.size() && list[end] != '"') end += list[end] == '\\' ? 2 : 1;
    all.push_back(bare(list.substr(at, end + 1 - at)));
    at = std::min(end + 1, list.size());
  }
  return all;
}

/// "KEY = VALUE" without the blanks about them.
Setting parted(std::string_view text) {
  const auto equals = text.find('=');
  const auto trimmed = [](std::string_view part) {
    const auto from = part.find_first_not_of(' '), to = part.find_last_not_of(' ');
    return from == std::string_view::npos ? std::string() : std::string(part.substr(from, to - from + 1));
  };
  if (equals == std::string_view::npos) return {trimmed(text), ""};
  return {trimmed(text.substr(0, equals)), trimmed(text.substr(equals + 1))};
}

/// "[[grain]]" begins one of a list, "[rack]" a section; "" for any other line.
std::string heading(std::string_view line, bool& of_list) {
  of_list = line.starts_with("[[") && line.ends_with("]]");
  if (of_list) return std::string(line.substr(2, line.size() - 4));
  if (line.starts_with("[") && line.ends_with("]") && line.find('=') == std::string_view::npos)
    return std::string(line.substr(1, line.size() - 2));
  return "";
}

}  // namespace

StoredScenario::StoredScenario(std::string_view resolved, const std::vector<Setting>& settings) {
  sections_.push_back({""});
  bool of_list = false;
  for (std::size_t at = 0; at < resolved.size();) {
    const std::size_t end = std::min(resolved.find('\n', at), resolved.size());
    const std::string_view line = resolved.substr(at, end - at);
    at = end + 1;
    bool list = false;
    if (const std::string name = heading(line, list); !name.empty()) {
      of_list = list;
      sections_.push_back({name});
      continue;
    }
    const auto equals = line.find(" = ");
    if (equals == std::string_view::npos) continue;
    // A value that follows from another key stands in a remark.
    const std::size_t from = line.starts_with("# ") ? 2 : 0;
    const std::string key = bare(line.substr(from, equals - from)), value = bare(line.substr(equals + 3));
    Section& section = sections_.back();
    if (of_list && key == "name") section.name += "." + value;
    section.items.emplace_back(key, value);
  }
  for (const auto& [key, value] : with_kits(settings))
    for (Section& section : sections_)
      for (Setting& item : section.items)
        if (section.name != "choose" && (section.name.empty() ? item.first : section.name + "." + item.first) == key)
          item.second = value;
}

std::vector<Setting> StoredScenario::with_kits(const std::vector<Setting>& settings) const {
  std::vector<Setting> all;
  for (const auto& [key, value] : settings) {
    all.emplace_back(key, value);
    if (!key.starts_with("kit.")) continue;
    for (const Section& section : sections_) {
      if (section.name != "kit." + value) continue;
      const auto item = [&](std::string_view name) {
        for (const auto& [own, text] : section.items)
          if (own == name) return text;
        return std::string();
      };
      if (item("part") != key.substr(4)) continue;
      for (const std::string& text : texts_of(item("sets"))) all.push_back(parted(text));
    }
  }
  return all;
}

std::vector<std::string> StoredScenario::names(std::string_view list) const {
  std::vector<std::string> found;
  const std::string start = std::string(list) + ".";
  for (const Section& section : sections_)
    if (section.name.starts_with(start)) found.push_back(section.name.substr(start.size()));
  return found;
}

std::optional<std::string> StoredScenario::text(std::string_view key) const {
  for (const Section& section : sections_)
    for (const auto& [name, value] : section.items)
      if ((section.name.empty() ? name : section.name + "." + name) == key) return value;
  return std::nullopt;
}

std::optional<double> StoredScenario::number(std::string_view key, std::string_view unit) const {
  const auto written = text(key);
  if (!written) return std::nullopt;
  const auto value = read_quantity(*written, unit);
  if (const double* number = std::get_if<double>(&value)) return *number;
  return std::nullopt;
}

}  // namespace rackwright::report
