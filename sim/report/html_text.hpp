#pragma once
// Pieces of HTML. Whatever comes from a file passes through escaped() on its way in.

#include <string>
#include <string_view>
#include <vector>

namespace rackwright::report::html {

/// Text that no reader of HTML or XML takes for markup; control characters become spaces.
std::string escaped(std::string_view text);

/// <p>text</p>, the text escaped.
std::string paragraph(std::string_view text, std::string_view css_class = "");

/// A list of sentences, each escaped; empty for no sentence.
std::string bullets(const std::vector<std::string>& sentences);

/// Cells are plain text. The first of each line names it.
struct Table {
  std::string caption;
  std::vector<std::string> heads;
  std::vector<std::vector<std::string>> lines;
  std::string align;  ///< a letter a column: l or r; r where there is none but for the first, which is l
};
/// In a box of its own that scrolls when the table is wider than the page, and that the keyboard reaches.
std::string table(const Table& data);

/// A part that opens on demand; `inner` is HTML.
std::string folded(std::string_view summary, const std::string& inner);

/// A picture with its caption and, folded, the numbers behind it. `svg` is markup.
std::string figure(const std::string& svg, std::string_view caption, const Table& numbers);

/// A section of the page: an anchor, a heading and HTML; empty when there is nothing inside.
std::string section(std::string_view anchor, std::string_view heading, const std::string& inner);

}  // namespace rackwright::report::html
