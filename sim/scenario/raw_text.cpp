#include "sim/scenario/raw_text.hpp"

#include <algorithm>
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
      if (deepest_ > most_levels) return line_;
      if (c == '#') {
        comment();
      } else if (c == '"' || c == '\'') {
        string(c);
      } else if (beyond_ascii(c)) {
        return line_;
      } else {
        levels_ = c == '.' ? levels_ + 1 : between_keys(c) ? 0 : levels_;
        deepest_ = std::max(deepest_, levels_);
        step();
      }
    }
    return 0;
  }
  /// Was it a name of too many parts? The parser would follow each by calling itself.
  [[nodiscard]] bool too_deep() const { return deepest_ > most_levels; }

 private:
  static constexpr int most_levels = 60;
  static bool between_keys(char c) { return c == '\n' || c == '=' || c == ',' || c == '[' || c == ']' || c == '{' || c == '}'; }

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
  int line_ = 1, levels_ = 0, deepest_ = 0;
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
  constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";  // some editors begin a file with it
  if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
  Walker walker(text);
  if (const int line = walker.offence(); line > 0) {
    if (walker.too_deep()) return Problem{line, "", "", "has a name of too many parts", ""};
    for (const std::string_view curly : {"\xE2\x80\x9C", "\xE2\x80\x9D", "\xE2\x80\x98", "\xE2\x80\x99"}) {
      if (line_at(text, line).find(curly) != std::string_view::npos)
        return Problem{line, "", "", "has curly quotes; write straight ones, as in soak = \"10 h\"", ""};
    }
    return Problem{line, "", "", "has a letter outside plain ASCII; put such names and texts in quotes", ""};
  }
  return std::nullopt;
}

std::size_t control_at(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t k) { return at + k < text.size() ? static_cast<unsigned char>(text[at + k]) : 0U; };
  const unsigned first = byte(0), second = byte(1), third = byte(2);
  if (first < 0x20 || first == 0x7F) return 1;
  if (first == 0xC2 && second >= 0x80 && second <= 0x9F) return 2;
  if (first != 0xE2) return 0;
  const bool marks = second == 0x80 && (third == 0x8E || third == 0x8F || (third >= 0xAA && third <= 0xAE));
  const bool isolates = second == 0x81 && third >= 0xA6 && third <= 0xA9;
  return marks || isolates ? 3 : 0;
}

bool has_control(std::string_view text) {
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (control_at(text, at) > 0) return true;
  }
  return false;
}

namespace {

// Controls as '?', but for `kept`; a cut at `most` bytes ends with the letter under way.
std::string shown(std::string_view text, std::size_t most, std::string_view kept) {
  std::string out;
  for (std::size_t at = 0; at < text.size(); ++at) {
    const bool starts_letter = (static_cast<unsigned char>(text[at]) & 0xC0U) != 0x80U;
    if (out.size() >= most && starts_letter) return out + "...";
    const std::size_t control = kept.find(text[at]) != std::string_view::npos ? 0 : control_at(text, at);
    out += control > 0 ? '?' : text[at];
    if (control > 0) at += control - 1;
  }
  return out;
}

}  // namespace

std::string one_line(std::string_view text, std::size_t most) { return shown(text, most, ""); }
std::string harmless(std::string_view text) { return shown(text, std::string::npos, "\n"); }

std::string listed(const std::vector<std::string>& words) {
  std::string all;
  for (std::size_t i = 0; i < words.size(); ++i) all += (i == 0 ? "" : i + 1 < words.size() ? ", " : " and ") + words[i];
  return all;
}

}  // namespace rackwright
