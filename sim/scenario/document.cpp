#include "sim/scenario/document.hpp"

#include <algorithm>
#include <optional>
#include <sstream>

#include <fmt/format.h>
#include <toml++/toml.h>

#include "sim/scenario/names.hpp"
#include "sim/scenario/raw_text.hpp"
#include "sim/scenario/suggest.hpp"
#include "sim/scenario/unquoted.hpp"

namespace rackwright {
namespace {

using keys::Raw;

int line_of(const toml::node& node) { return static_cast<int>(node.source().begin.line); }

template <class Value>
std::string streamed(const Value& value) {
  std::ostringstream out;
  out << value;
  return out.str();
}

Raw raw_of(const toml::node& node) {
  if (const auto* text = node.as_string()) return Raw{Raw::Shape::text, text->get(), {}};
  if (const auto* number = node.as_integer()) return Raw{Raw::Shape::number, fmt::format("{}", number->get()), {}};
  if (const auto* number = node.as_floating_point())
    return Raw{Raw::Shape::number, fmt::format("{}", number->get()), {}};
  if (const auto* flag = node.as_boolean()) return Raw{Raw::Shape::flag, flag->get() ? "true" : "false", {}};
  if (const auto* date = node.as_date()) return Raw{Raw::Shape::date, streamed(date->get()), {}};
  if (const auto* time = node.as_time()) {
    return Raw{Raw::Shape::clock, fmt::format("{:02}:{:02}", time->get().hour, time->get().minute), {}};
  }
  if (const auto* moment = node.as_date_time()) return Raw{Raw::Shape::text, streamed(moment->get()), {}};
  if (const auto* list = node.as_array()) {
    Raw raw{Raw::Shape::list, "", {}};
    for (const toml::node& item : *list) {
      raw.items.push_back(raw_of(item));
      raw.text += (raw.text.empty() ? "" : ", ") + raw.items.back().text;
    }
    return raw;
  }
  return Raw{Raw::Shape::table, "", {}};
}

bool has_tables(const toml::node& node) {
  const auto* list = node.as_array();
  return list != nullptr && !list->empty() && list->get(0)->is_table();
}

/// Walks the parsed tree once.
class Cutter {
 public:
  explicit Cutter(const DocumentShape* shape) : shape_(shape) {}
  Document take(const toml::table& root) {
    tables(root, "");
    return std::move(document_);
  }

 private:
  void tables(const toml::table& table, const std::string& prefix) {
    for (const auto& [name, node] : table) {
      const std::string path = prefix.empty() ? std::string(name.str()) : prefix + "." + std::string(name.str());
      if (is_list(path)) {
        list(path, node);
      } else if (node.is_table()) {
        section(path, *node.as_table(), line_of(node));
      } else if (has_tables(node) && !path.starts_with("choose.")) {
        const bool once = is_section(path);
        complain(line_of(node), path, "",
                 once ? fmt::format("stands once: write [{}]", path) : "is not a known section",
                 once ? "" : keys_nearest(path));
      } else if (is_section(path)) {
        complain(line_of(node), path, shown(raw_of(node)),
                 fmt::format("is a section: write [{}] and its keys below", path), "");
      } else {
        document_.leaves.push_back(Leaf{path, line_of(node), raw_of(node), false});
      }
    }
  }

  void section(const std::string& path, const toml::table& table, int line) {
    if (is_section(path) || path.starts_with("choose.")) {
      tables(table, path);
    } else {
      const std::vector<std::string>& names = keys::scenario_key_names();
      if (std::find(names.begin(), names.end(), path) != names.end())
        complain(line, path, "", "is one value, not a section: write it as such, without braces or a heading of its own", "");
      else
        complain(line, path, "", "is not a known section", keys_nearest(path));
    }
  }

  void list(const std::string& path, const toml::node& node) {
    const auto* entries = node.as_array();
    if (entries == nullptr) {
      const auto* table = node.as_table();
      if (table == nullptr) return complain(line_of(node), path, "", fmt::format("is a list: write [[{}]] in double brackets, once for each", path), "");
      complain(line_of(node), "", "", list_heading_words(path), "");
      document_.entries.push_back(Entry{path, line_of(node), {}});  // the rest is judged as it is meant
      return entry(*table, "");
    }
    for (const toml::node& item : *entries) {
      if (const auto* table = item.as_table()) {
        document_.entries.push_back(Entry{path, line_of(item), {}});
        entry(*table, "");
      } else {
        complain(line_of(item), path, shown(raw_of(item)), fmt::format("must be tables, each headed [[{}]]", path), "");
      }
    }
  }

  void entry(const toml::table& table, const std::string& prefix) {
    for (const auto& [name, node] : table) {
      const std::string path = prefix + std::string(name.str());
      if (const auto* inner = node.as_table(); inner != nullptr && !inner->empty()) {
        entry(*inner, path + ".");
      } else {
        document_.entries.back().leaves.push_back(Leaf{path, line_of(node), raw_of(node), false});
      }
    }
  }

  static bool among(const std::vector<std::string_view>& names, std::string_view path) {
    return std::find(names.begin(), names.end(), path) != names.end();
  }
  [[nodiscard]] bool is_list(std::string_view path) const { return shape_ ? among(shape_->lists, path) : keys::is_list(path); }
  [[nodiscard]] bool is_section(std::string_view path) const { return shape_ ? among(shape_->sections, path) : keys::is_section(path); }
  [[nodiscard]] std::string keys_nearest(const std::string& path) const {
    if (!shape_) return nearest(path, keys::table_names());
    std::vector<std::string> names(shape_->sections.begin(), shape_->sections.end());
    names.insert(names.end(), shape_->lists.begin(), shape_->lists.end());
    return nearest(path, names);
  }

  void complain(int line, const std::string& path, std::string value, std::string why, std::string suggestion) {
    document_.problems.push_back(
        Problem{line, one_line(path), std::move(value), std::move(why), std::move(suggestion)});
  }

  Document document_;
  const DocumentShape* shape_;
};

/// Fills `document`; the syntax error instead, if there is one.
std::optional<Problem> cut(std::string_view text, Document& document, const DocumentShape* shape) {
  try {
    document = Cutter(shape).take(toml::parse(text, std::string_view("scenario")));
    std::stable_sort(document.leaves.begin(), document.leaves.end(),
                     [](const Leaf& a, const Leaf& b) { return a.line < b.line; });  // toml++ sorts by name
    return std::nullopt;
  } catch (const toml::parse_error& error) {
    const auto begin = error.source().begin;
    return Problem{static_cast<int>(begin.line), fmt::format("column {}", begin.column), "",
                   "cannot be read as TOML: " + one_line(error.description()), ""};
  }
}

}  // namespace

std::string shown(const keys::Raw& raw) {
  if (raw.shape == Raw::Shape::list) return one_line("[" + raw.text + "]");
  return one_line(raw.text);
}

Document parse_document(std::string_view text, const DocumentShape* shape) {
  Document document;
  if (auto unreadable = text_problem(text)) {
    document.problems.push_back(*unreadable);
    return document;
  }
  if (auto syntax = cut(text, document, shape)) {
    // In the words of a keeper where the line shows what was meant; and then the rest can still be read.
    Mended mended = mend_lines(text, shape == nullptr ? nullptr : &shape->lists);
    if (mended.problems.empty()) {
      document.problems.push_back(*syntax);
      return document;
    }
    if (auto left = cut(mended.text, document, shape)) mended.problems.push_back(*left);
    document.problems.insert(document.problems.begin(), mended.problems.begin(), mended.problems.end());
  }
  return document;
}

}  // namespace rackwright
