#include "sim/report/command_words.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace rackwright::report {
namespace {

constexpr std::string_view set_option = "--set";

/// Words as a shell reads them, with their quotes.
std::vector<std::string> words_of(std::string_view line) {
  std::vector<std::string> words(1);
  bool quoted = false;
  for (std::size_t at = 0; at < line.size(); ++at) {
    const char c = line[at];
    if (!quoted && c == '\\' && at + 1 < line.size()) {
      words.back() += c;
      words.back() += line[++at];
      continue;
    }
    if (c == '\'') quoted = !quoted;
    if (c == ' ' && !quoted) words.emplace_back();
    else words.back() += c;
  }
  std::erase(words, "");
  return words;
}

std::string_view bare(std::string_view word) {
  return word.size() > 1 && word.front() == '\'' && word.back() == '\'' ? word.substr(1, word.size() - 2) : word;
}

/// The key that a setting sets, without its operator.
std::string_view key_of(std::string_view setting) {
  return setting.substr(0, setting.find_first_of("=+*- "));
}

std::string_view out_name(std::string_view command_line) { return command_line.find("against.h5") == std::string_view::npos ? "against.h5" : "compared.h5"; }

bool is_scenario(std::string_view word) {
  const std::string_view path = bare(word);
  return path.ends_with(".toml") && !path.starts_with("-") && !path.starts_with("@") && path.find('=') == std::string_view::npos;
}

}  // namespace

std::string farm_words(std::string_view command_line, const std::vector<std::pair<std::string, std::string>>& design) {
  const std::vector<std::string> words = words_of(command_line);
  const auto scenario = std::find_if(words.begin(), words.end(), is_scenario);
  std::string text = scenario == words.end() ? "FARM.toml" : *scenario;
  const auto add = [&](const std::string& setting) {
    const std::string_view key = key_of(bare(setting));
    if (std::none_of(design.begin(), design.end(), [&](const auto& of) { return of.first == key; })) text += fmt::format(" {} {}", set_option, setting);
  };
  for (std::size_t at = 0; at < words.size(); ++at) {
    if (words[at] == set_option && at + 1 < words.size()) {
      add(words[++at]);
    } else if (const std::string_view word = bare(words[at]); word.starts_with("--set=")) {
      const std::string setting(word.substr(set_option.size() + 1));
      add(words[at] == word ? setting : "'" + setting + "'");
    }
  }
  for (const auto& [key, value] : design) text += fmt::format(" {} \"{}={}\"", set_option, key, value);
  return text;
}

std::string compare_command(std::string_view command_line, std::string_view change, const std::vector<std::pair<std::string, std::string>>& design) {
  return fmt::format("`rackwright simulate {} --against \"{}\" --out {}`", farm_words(command_line, design), change, out_name(command_line));
}

std::vector<std::string> with_farm(std::vector<std::string> cautions, std::string_view command_line, const std::vector<std::pair<std::string, std::string>>& design) {
  constexpr std::string_view simulate = "`rackwright simulate FARM.toml ", out = "--out against.h5`";
  const std::string named = fmt::format("`rackwright simulate {} ", farm_words(command_line, design)), to = fmt::format("--out {}`", out_name(command_line));
  for (std::string& caution : cautions) {
    const auto at = caution.find(simulate);
    if (at == std::string::npos) continue;
    caution.replace(at, simulate.size(), named);
    if (const auto end = caution.find(out, at + named.size()); end != std::string::npos) caution.replace(end, out.size(), to);
  }
  return cautions;
}

}  // namespace rackwright::report
