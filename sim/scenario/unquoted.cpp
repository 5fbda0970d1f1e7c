#include "sim/scenario/unquoted.hpp"

#include <algorithm>
#include <cctype>
#include <optional>
#include <regex>
#include <set>

#include <fmt/format.h>

#include "sim/scenario/names.hpp"
#include "sim/scenario/raw_text.hpp"

namespace rackwright {
namespace {

using std::string;
using std::string_view;

string_view trimmed(string_view text) {
  while (!text.empty() && std::isspace(static_cast<unsigned char>(text.front())) != 0) text.remove_prefix(1);
  while (!text.empty() && std::isspace(static_cast<unsigned char>(text.back())) != 0) text.remove_suffix(1);
  return text;
}

/// Longer lines are left to the parser: matching them could use up the stack.
constexpr std::size_t longest_line = 400;

bool fits(string_view text, const std::regex& pattern) { return std::regex_match(text.begin(), text.end(), pattern); }

// What TOML takes as it stands, and what it nearly takes. Made when first asked for: most scenarios need none.
struct Patterns {
  std::regex plain_number{R"([+-]?(0|[1-9][0-9_]*)(\.[0-9]+)?([eE][+-]?[0-9]+)?)"};
  std::regex odd_number{R"([+-]?(nan|inf)|0[xob][0-9a-fA-F_]+)"};
  std::regex date_or_clock{
      R"([0-9]{4}-[0-9]{2}-[0-9]{2}([T ][0-9:.Z+-]+)?|[0-9]{2}:[0-9]{2}:[0-9]{2}(\.[0-9]+)?)"};
  std::regex with_comma{R"([+-]?[0-9]+,[0-9]+)"}, without_front{R"(\.[0-9]+)"}, without_end{R"([0-9]+\.)"};
  std::regex clock{R"([0-9]{1,2}:[0-9]{2})"};
  std::regex leading_zero{R"(0+[0-9]+)"}, loose_date{R"(([0-9]{4})-([0-9]{1,2})-([0-9]{1,2}))"};
  std::regex header{R"((\[\[?)\s*([A-Za-z0-9_.-]+)\s*(\]*))"};
  std::regex with_colon{R"(([A-Za-z0-9_.-]+)\s*:\s*(\S.*))"}, without_equals{R"(([A-Za-z0-9_.-]+)\s+([0-9"'+-].*))"};
};
const Patterns& patterns() {
  static const Patterns all;
  return all;
}

/// Calls visit(place) for every character outside quotes, opening quotes too, until it says false.
template <class Visit>
void walk_outside_quotes(string_view line, Visit&& visit) {
  char quote = 0;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const char c = line[i];
    if (quote != 0) {
      if (c == '\\' && quote == '"') ++i;
      else if (c == quote) quote = 0;
    } else {
      if (!visit(i)) return;
      if (c == '"' || c == '\'') quote = c;
    }
  }
}

/// Where the character stands outside quotes; npos if nowhere.
std::size_t outside_quotes(string_view line, char wanted) {
  std::size_t found = string_view::npos;
  walk_outside_quotes(line, [&](std::size_t i) {
    if (line[i] == wanted) found = i;
    return found == string_view::npos;
  });
  return found;
}

string_view without_remark(string_view line) { return line.substr(0, outside_quotes(line, '#')); }

/// Open brackets of the line outside quotes, minus closed ones.
int depth_change(string_view line) {
  int depth = 0;
  walk_outside_quotes(without_remark(line), [&](std::size_t i) {
    const char c = line[i];
    depth += c == '[' || c == '{' ? 1 : c == ']' || c == '}' ? -1 : 0;
    return true;
  });
  return depth;
}

/// Why a value that is neither text in quotes, list nor table cannot stand, and what to write; nothing if TOML takes it.
struct Advice {
  string why, write;
};
std::optional<Advice> advice_for(string_view value) {
  if (fits(value, patterns().plain_number) || fits(value, patterns().odd_number) || fits(value, patterns().date_or_clock)) return std::nullopt;
  if (value == "true" || value == "false") return std::nullopt;
  string low(value);
  for (char& c : low) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  if (low == "true" || low == "yes") return Advice{"yes and no are written true and false", "true"};
  if (low == "false" || low == "no") return Advice{"yes and no are written true and false", "false"};
  if (fits(value, patterns().with_comma)) {
    low[low.find(',')] = '.';
    return Advice{"a decimal is written with a point", low};
  }
  if (fits(value, patterns().without_front)) return Advice{"a decimal begins with a figure", "0" + low};
  if (fits(value, patterns().without_end)) return Advice{"a decimal ends with a figure", low + "0"};
  if (fits(value, patterns().leading_zero)) {
    const std::size_t first = std::min(low.find_first_not_of('0'), low.size() - 1);
    return Advice{"a number does not begin with 0", low.substr(first)};
  }
  if (std::smatch part; std::regex_match(low, part, patterns().loose_date))
    return Advice{"a date is written with two figures for month and day",
                  fmt::format("{}-{:0>2}-{:0>2}", part[1].str(), part[2].str(), part[3].str())};
  if (value.front() == '=') return Advice{"one equals sign is enough", string(trimmed(value.substr(1)))};
  string inside;
  for (const char c : value) {
    if (c != '"' && c != '\\') inside += c;
  }
  const string quoted = fmt::format("\"{}\"", trimmed(inside));
  const bool number = std::isdigit(static_cast<unsigned char>(value.front())) != 0 || value.front() == '-' ||
                      value.front() == '+' || value.front() == '.';
  if (fits(value, patterns().clock)) return Advice{"a time of day stands in quotes", quoted};
  return Advice{number ? "a quantity stands in quotes with its unit" : "text stands in quotes", quoted};
}

/// Neither text in quotes, list nor table.
bool is_bare(string_view value) { return string_view("\"'[{").find(value.front()) == string_view::npos; }

/// The value without the commas or semicolons other languages end a line with; the same text if there are none or nothing else.
string_view without_end_mark(string_view value) {
  string_view left = value;
  while (!left.empty() && (left.back() == ',' || left.back() == ';')) left = trimmed(left.substr(0, left.size() - 1));
  return left.empty() ? value : left;
}

bool open_quote(string_view value) {
  if (value.empty() || (value.front() != '"' && value.front() != '\'')) return false;
  for (std::size_t i = 1; i < value.size(); ++i) {
    if (value[i] == '\\' && value.front() == '"') ++i;
    else if (value[i] == value.front()) return false;
  }
  return true;
}

/// One text, line by line.
class Mender {
 public:
  explicit Mender(const std::vector<string_view>* lists) : lists_(lists) {}
  Mended take(string_view text) {
    while (!text.empty() || line_ == 0) {
      const std::size_t end = std::min(text.find('\n'), text.size());
      ++line_;
      result_.text += mended(text.substr(0, end)) + "\n";
      text.remove_prefix(std::min(end + 1, text.size()));
    }
    if (depth_ > 0) result_.problems.push_back(Problem{opened_, "", "", "a bracket is opened here and never closed", ""});
    return std::move(result_);
  }

 private:
  string mended(string_view line) {
    string same(line);
    if (line.size() > longest_line || result_.problems.size() > most_problems) return same;
    if (!long_quote_.empty()) {
      if (line.find(long_quote_) != string_view::npos) long_quote_.clear();
      return same;
    }
    const string_view body = trimmed(without_remark(line));
    if (depth_ > 0) {
      depth_ = std::max(0, depth_ + depth_change(line));
      return same;
    }
    if (body.empty()) return same;
    if (body.front() == '[') return section(body, same);
    const std::size_t equals = outside_quotes(body, '=');
    if (equals == string_view::npos) return no_equals(body);
    const string_view key = trimmed(body.substr(0, equals)), value = trimmed(body.substr(equals + 1));
    if (key.empty()) return complain("", value, "has no name before the equals sign", "");
    return pair(key, value, same);
  }

  [[nodiscard]] bool is_list(string_view name) const {
    return lists_ == nullptr ? keys::is_list(name) : std::find(lists_->begin(), lists_->end(), name) != lists_->end();
  }

  string section(string_view body, const string& same) {
    std::smatch part;
    const string text(body);
    if (std::regex_match(text, part, patterns().header)) {
      const string name = part[2].str();
      const bool of_list = is_list(name), list = part[1].length() == 2 || of_list;
      head_ = name + ".";
      if (list) seen_.clear();
      string right = list ? "[[" + name + "]]" : "[" + name + "]";
      if (part[3].length() == part[1].length()) {
        if (!of_list || part[1].length() == 2) return same;
        if (told_.insert(name).second) complain("", "", list_heading_words(name), "");
        return right;
      }
      complain("", text, "the bracket is not closed as it was opened; write " + right, "");
      return right;
    }
    return same;  // the parser will say
  }

  string no_equals(string_view body) {
    const string text(body);
    std::smatch part;
    if (std::regex_match(text, part, patterns().with_colon))
      return pair_meant(part[1].str(), part[2].str(), "write an equals sign, not a colon");
    if (std::regex_match(text, part, patterns().without_equals))
      return pair_meant(part[1].str(), part[2].str(), "the equals sign is missing");
    if (text.starts_with("//") || text.starts_with(";"))
      return complain("", text, "a remark begins with #", "");
    return complain("", text, "is neither `key = value` nor a [section]; a remark begins with #", "");
  }

  string pair_meant(const string& key, const string& value, const string& why) {
    const auto advice = value.front() == '"' || value.front() == '\'' ? std::nullopt : advice_for(value);
    string right = key + " = " + (advice ? advice->write : value);
    complain(head_ + key, "", why + ": write " + right, "");
    return open_quote(value) ? "" : right;
  }

  string pair(string_view key, string_view value, const string& same) {
    const string name(key);
    const string path = head_ + name;
    if (!seen_.insert(path).second) return complain(path, value, "is written twice; keep one of them", "");
    if (value.empty()) return complain(path, "", "has no value after the equals sign", "");
    if (value.starts_with("\"\"\"") || value.starts_with("'''")) {
      const string_view three = value.substr(0, 3);
      if (value.find(three, 3) == string_view::npos) long_quote_ = string(three);
      return same;
    }
    if (open_quote(value)) return complain(path, value, "the quotes are not closed", "");
    if (const string_view alone = without_end_mark(value); alone.size() < value.size() && depth_change(value) == 0) {
      const auto advice = is_bare(alone) ? advice_for(alone) : std::nullopt;
      string right = name + " = " + (advice ? advice->write : string(alone));
      complain(path, value, "nothing stands behind a value but a remark: write " + right, "");
      return right;
    }
    if (value.front() == '"' || value.front() == '\'') return same;
    if (value.front() == '{') return same;
    if (value.front() == '[') return list(name, value, same);
    if (const auto advice = advice_for(value)) {
      string right = name + " = " + advice->write;
      complain(path, value, advice->why + ": write " + right, "");
      return right;
    }
    return same;
  }

  /// A list on one line: each piece by itself.
  string list(const string& name, string_view value, const string& same) {
    const int change = depth_change(value);
    if (change > 0) {
      depth_ = change;
      opened_ = line_;
    }
    if (change != 0 || value.back() != ']' || value.find_first_of("{[", 1) != string_view::npos) return same;
    string right = name + " = [";
    string_view rest = value.substr(1, value.size() - 2);
    bool wrong = false, first = true;
    string why;
    while (!trimmed(rest).empty()) {
      const std::size_t comma = std::min(outside_quotes(rest, ','), rest.size());
      const string_view item = trimmed(rest.substr(0, comma));
      rest.remove_prefix(std::min(comma + 1, rest.size()));
      if (item.empty() || open_quote(item)) return same;
      const auto advice = item.front() == '"' || item.front() == '\'' ? std::nullopt : advice_for(item);
      if (advice) why = advice->why;
      wrong = wrong || advice.has_value();
      right += (first ? "" : ", ") + (advice ? advice->write : string(item));
      first = false;
    }
    if (!wrong) return same;
    right += "]";
    complain(head_ + name, value, why + ": write " + right, "");
    return right;
  }

  string complain(const string& key, string_view value, string why, string suggestion) {
    result_.problems.push_back(Problem{line_, one_line(key), one_line(value), std::move(why), std::move(suggestion)});
    return "";
  }

  static constexpr std::size_t most_problems = 50;
  Mended result_;
  int line_ = 0, depth_ = 0, opened_ = 0;
  string head_, long_quote_;
  std::set<string> seen_, told_;  ///< keys of this section; lists whose heading was named
  const std::vector<string_view>* lists_;
};

}  // namespace

std::string list_heading_words(std::string_view list) {
  string one(list.substr(list.rfind('.') + 1));
  std::replace(one.begin(), one.end(), '_', ' ');
  return fmt::format("[{0}] must be [[{0}]], once for each {1}", list, one);
}

Mended mend_lines(std::string_view text, const std::vector<std::string_view>* lists) { return Mender(lists).take(text); }

}  // namespace rackwright
