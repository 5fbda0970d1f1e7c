#pragma once
// A TOML text cut into leaves: dotted path, line and value as written. The only part that knows toml++.

#include <string>
#include <string_view>
#include <vector>

#include "sim/scenario/key_text.hpp"
#include "sim/scenario/problem.hpp"

namespace rackwright {

/// One stated value.
struct Leaf {
  std::string path;   ///< dotted, inside its table entry or from the top
  int line = 0;
  keys::Raw raw;
  bool used = false;
};

/// One entry of a list of tables.
struct Entry {
  std::string list;   ///< "group"
  int line = 0;
  std::vector<Leaf> leaves{};
};

struct Document {
  std::vector<Leaf> leaves{};
  std::vector<Entry> entries{};
  Problems problems{};   ///< syntax, unknown sections, wrong shapes
};

/// Largest text accepted [bytes].
constexpr std::size_t largest_text = std::size_t{1} << 20U;

/// Sections and lists that a text may have.
struct DocumentShape { std::vector<std::string_view> sections{}, lists{}; };

/// Parses; a text that is not TOML gives no leaves and one problem with its line and column. Without a shape it is a scenario's.
Document parse_document(std::string_view text, const DocumentShape* shape = nullptr);

/// What of a raw value to show in a message: one line, shortened.
std::string shown(const keys::Raw& raw);

}  // namespace rackwright
