#pragma once
// Pages as one line of text, wherever their lines are broken.

#include <string>

#include "sim/report/html_page.hpp"
#include "sim/report/text.hpp"
#include "tests/catch.hpp"
#include "tests/unit/report/html_sample.hpp"

namespace rackwright::report::sample {

inline std::string flat(const std::string& text) {
  std::string out;
  for (const char c : text) {
    const char letter = c == '\n' ? ' ' : c;
    if (letter != ' ' || out.empty() || out.back() != ' ') out += letter;
  }
  return out;
}
inline std::string terminal(const results::ResultFile& file) { return flat(terminal_text(file)); }
/// The page, which must be sound.
inline std::string page(const results::ResultFile& file) {
  const std::string text = html_page(file, {});
  CHECK(markup_fault(text) == "");
  return flat(text);
}
inline bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace rackwright::report::sample
