#include "sim/scenario/raw_text.hpp"

#include <cstddef>

#include "sim/scenario/document.hpp"

namespace rackwright {
namespace {

bool beyond_ascii(char c) { return (static_cast<unsigned char>(c) & 0x80U) != 0; }

/// Walks a TOML text knowing only strings and comments, and stops at the first letter beyond ASCII outside both.
class Walker {
 public:
  explicit Walker(std::string_view text) : text_(text) {}

  /// Line of the offence, or 0.
  int offence() {
    while (at_ < text_.size()) {
      const char c = text_[at_];
      if (c == '#') {
        comment();
      } else if (c == '"' || c == '\'') {
        string(c);
      } else if (beyond_ascii(c)) {
        return line_;
      } else {
        step();
      }
    }
    return 0;
  }

 private:
  void step() {
    if (text_[at_] == '\n') ++line_;
    ++at_;
  }
  void comment() {
    while (at_ < text_.size() && text_[at_] != '\n') ++at_;
  }
  void string(char quote) {
    const std::string three(3, quote);
    const bool long_one = text_.substr(at_, 3) == three;
    const std::string_view end = long_one ? std::string_view(three) : std::string_view(three).substr(0, 1);
    at_ += end.size();
    while (at_ < text_.size() && text_.substr(at_, end.size()) != end) {
      if (!long_one && text_[at_] == '\n') return;  // unclosed: the parser will say so
      if (quote == '"' && text_[at_] == '\\' && at_ + 1 < text_.size()) step();
      step();
    }
    at_ += end.size();
  }

  std::string_view text_;
  std::size_t at_ = 0;
  int line_ = 1;
};

std::string_view line_at(std::string_view text, int line) {
  for (; line > 1; --line) text.remove_prefix(text.find('\n') + 1);
  return text.substr(0, text.find('\n'));
}

}  // namespace

std::optional<Problem> text_problem(std::string_view text) {
  if (text.size() > largest_text) {
    return Problem{0, "", "", "is larger than 1 MiB; a scenario is a short text", ""};
  }
  if (text.find('\0') != std::string_view::npos) return Problem{0, "", "", "is not a text file", ""};
  if (const int line = Walker(text).offence(); line > 0) {
    for (const std::string_view curly : {"\xE2\x80\x9C", "\xE2\x80\x9D", "\xE2\x80\x98", "\xE2\x80\x99"}) {
      if (line_at(text, line).find(curly) != std::string_view::npos)
        return Problem{line, "", "", "has curly quotes; write straight ones, as in soak = \"10 h\"", ""};
    }
    return Problem{line, "", "", "has a letter outside plain ASCII; put such names and texts in quotes", ""};
  }
  return std::nullopt;
}

std::string one_line(std::string_view text) {
  constexpr std::size_t most = 80;
  std::string out;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    const bool starts_letter = (byte & 0xC0U) != 0x80U;
    if (out.size() >= most && starts_letter) return out + "...";
    out += byte < 0x20 || byte == 0x7F ? '?' : c;
  }
  return out;
}

}  // namespace rackwright
