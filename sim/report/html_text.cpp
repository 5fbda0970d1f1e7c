#include "sim/report/html_text.hpp"

#include <fmt/format.h>

namespace rackwright::report::html {

std::string escaped(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += static_cast<unsigned char>(c) < 0x20 && c != '\n' ? ' ' : c;
    }
  }
  return out;
}

std::string paragraph(std::string_view text, std::string_view css_class) {
  if (text.empty()) return "";
  if (css_class.empty()) return fmt::format("<p>{}</p>\n", escaped(text));
  return fmt::format("<p class=\"{}\">{}</p>\n", css_class, escaped(text));
}

std::string bullets(const std::vector<std::string>& sentences) {
  if (sentences.empty()) return "";
  std::string out = "<ul>\n";
  for (const std::string& sentence : sentences) out += fmt::format("<li>{}</li>\n", escaped(sentence));
  return out + "</ul>\n";
}

std::string table(const Table& data) {
  const auto right = [&](std::size_t column) {
    return column < data.align.size() ? data.align[column] == 'r' : column > 0;
  };
  std::string out = fmt::format(
      "<div class=\"box\" tabindex=\"0\" role=\"region\" aria-label=\"table: {0}\">\n<table>\n<caption>{0}</caption>\n"
      "<thead><tr>",
      escaped(data.caption));
  for (std::size_t c = 0; c < data.heads.size(); ++c)
    out += fmt::format("<th scope=\"col\"{}>{}</th>", right(c) ? " class=\"n\"" : "", escaped(data.heads[c]));
  out += "</tr></thead>\n<tbody>\n";
  for (const auto& line : data.lines) {
    out += "<tr>";
    for (std::size_t c = 0; c < line.size(); ++c)
      out += c == 0 ? fmt::format("<th scope=\"row\">{}</th>", escaped(line[c]))
                    : fmt::format("<td{}>{}</td>", right(c) ? "" : " class=\"w\"", escaped(line[c]));
    out += "</tr>\n";
  }
  return out + "</tbody>\n</table>\n</div>\n";
}

std::string folded(std::string_view summary, const std::string& inner) {
  return fmt::format("<details>\n<summary>{}</summary>\n{}</details>\n", escaped(summary), inner);
}

namespace {
/// The name a picture gives itself, markup as it stands there.
std::string_view name_of(std::string_view svg) {
  const auto tag = svg.find("<title id=");
  const auto from = svg.find('>', tag), to = svg.find("</title>", tag);
  if (tag == std::string_view::npos || from == std::string_view::npos || to == std::string_view::npos) return {};
  return svg.substr(from + 1, to - from - 1);
}
}  // namespace

std::string figure(const std::string& svg, std::string_view caption, const Table& numbers) {
  // Those who hear the page are told the name by the picture itself.
  std::string out = fmt::format("<figure>\n<p class=\"name\" aria-hidden=\"true\">{}</p>\n{}<figcaption>{}</figcaption>\n",
                                name_of(svg), svg, escaped(caption));
  if (!numbers.lines.empty()) out += folded("The numbers behind this picture: " + numbers.caption, table(numbers));
  return out + "</figure>\n";
}

std::string section(std::string_view anchor, std::string_view heading, const std::string& inner) {
  if (inner.empty()) return "";
  return fmt::format("<section id=\"{0}\" aria-labelledby=\"{0}-h\">\n<h2 id=\"{0}-h\">{1}</h2>\n{2}</section>\n",
                     anchor, escaped(heading), inner);
}

}  // namespace rackwright::report::html
