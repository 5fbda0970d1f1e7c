#include "sim/app/say.hpp"

#include <cstdio>

#include <fmt/core.h>

#include "sim/scenario/raw_text.hpp"

namespace rackwright::app {

std::string did_you_mean(std::string_view name) { return name.empty() ? "" : fmt::format(" (did you mean {}?)", name); }

namespace {

std::string value_words(const std::string& value) {
  if (value.empty()) return "";
  return value.front() == '"' ? " = " + value : fmt::format(" = \"{}\"", value);
}

// The reason often begins with the value, which has just been shown.
std::string_view why_alone(const Problem& p) {
  std::string_view why = p.why;
  const std::string again = "\"" + p.value + "\" ";
  if (!p.value.empty() && why.starts_with(again)) why.remove_prefix(again.size());
  return why;
}

}  // namespace

std::string problems_text(std::string_view where, const Problems& problems) {
  std::string text;
  for (const Problem& p : problems) {
    if (!p.key.starts_with("--")) {  // an option is its own place
      text += p.typed ? "command line" : where;
      if (p.line > 0) text += fmt::format(":{}", p.line);
      text += ": ";
    }
    if (!p.key.empty() && (p.key != where || p.key.starts_with("--"))) text += fmt::format("{}{}: ", p.key, value_words(p.value));
    text += fmt::format("{}{}\n", why_alone(p), did_you_mean(p.suggestion));
  }
  if (!text.empty()) text.pop_back();
  return harmless(text);  // what came from outside may hold anything; a terminal must not obey it
}

void talk(bool quiet, std::string_view line) {
  if (!quiet) message("{}\n", harmless(line));
}

}  // namespace rackwright::app
