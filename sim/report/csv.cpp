#include "sim/report/csv.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "models/base/expects.hpp"
#include "sim/replication/columns.hpp"
#include "sim/results/schema.hpp"

namespace rackwright::report {
namespace {

using results::Array;
using results::Dataset;
using results::ResultFile;

std::string quoted(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string out = "\"";
  for (const char c : text) out += c == '"' ? std::string("\"\"") : std::string(1, c);
  return out + "\"";
}

std::string field(const Array& array, std::size_t i) {
  return array.texts.empty() ? fmt::format("{}", array.numbers[i]) : quoted(array.texts[i]);
}

/// "EUR", or "EUR/kg" for a price.
std::string money_unit(const std::string& unit, const ResultFile& file) {
  return file.header.currency + (unit == "1" ? "" : unit == "kg-1" ? "/kg" : " " + unit);
}

/// Units of quantities that stand below each other, one a line; those of money with the currency.
std::vector<std::string> units_with_money(const ResultFile& file, std::string_view group) {
  const Array* quantities = file.find(fmt::format("{}/quantity", group));
  std::vector<std::string> units = file.at(fmt::format("{}/unit", group)).texts;
  for (std::size_t i = 0; quantities != nullptr && i < units.size(); ++i)
    if (in_money(quantities->texts[i])) units[i] = money_unit(units[i], file);
  return units;
}

/// One column: a dataset, or one value of its second dimension.
struct Column {
  std::string heading;
  const Array* array;
  std::size_t step, start;  ///< line i holds value start + i * step
  std::vector<std::string> instead{};  ///< texts shown in place of the array's
};

std::string heading(const Dataset& d, const ResultFile& file) {
  if (d.money) return fmt::format("{} [{}]", d.name, money_unit(d.unit, file));
  if (d.unit.empty() || d.unit == "1") return d.name;
  if (d.unit == "days since") return d.name + " [days since " + file.header.start_date + "]";
  return d.name + " [" + d.unit + "]";
}

/// Names of the keys of a sweep, where a table holds their places.
std::vector<std::string> key_names(const ResultFile& file, const Array& places) {
  std::vector<std::string> names;
  for (const double place : places.numbers) names.push_back(file.at("sweep/key").texts.at(static_cast<std::size_t>(place)));
  return names;
}

/// What the points of a sweep have for one of its keys, headed with its unit; words in place of their numbers.
Column key_column(const ResultFile& file, const Array& values, std::size_t key) {
  const std::size_t keys = values.shape[1];
  const std::string& unit = file.at("sweep/unit").texts.at(key);
  Column c{quoted(fmt::format("value at {}{}", file.at("sweep/key").texts.at(key), unit.empty() || unit == "1" ? "" : " [" + unit + "]")), &values, keys, key};
  const Array *words = file.find("sweep/word"), *of = file.find("sweep/word_key");
  std::vector<std::string> own;
  for (std::size_t w = 0; words != nullptr && of != nullptr && w < words->texts.size(); ++w)
    if (of->numbers[w] == static_cast<double>(key)) own.push_back(words->texts[w]);
  for (std::size_t i = 0; !own.empty() && i < values.shape[0]; ++i) c.instead.push_back(own.at(static_cast<std::size_t>(values.numbers[i * keys + key])));
  return c;
}

std::vector<Column> columns(const ResultFile& file, std::string_view group, const std::string& first) {
  std::vector<Column> all;
  for (const Dataset& d : results::datasets()) {
    const Array* array = d.group == group ? file.find(d.path) : nullptr;
    if (array == nullptr || d.dimensions.empty() || d.dimensions.front() != first) continue;
    if (d.dimensions.size() == 1) {
      const bool places = d.path == "sweep/effect_key" || d.path == "sweep/word_key";
      all.push_back({quoted(heading(d, file)), array, 1, 0,
                     places ? key_names(file, *array) : d.name == "unit" ? units_with_money(file, group) : std::vector<std::string>{}});
      continue;
    }
    const Array& second = file.at(d.group + "/" + d.dimensions[1]);
    const std::size_t n = array->shape[1];
    for (std::size_t k = 0; k < n && d.path == "sweep/value"; ++k) all.push_back(key_column(file, *array, k));
    for (std::size_t k = 0; k < n && d.path != "sweep/value"; ++k)
      all.push_back({quoted(fmt::format("{} at {}", heading(d, file),
                                        second.texts.empty() ? fmt::format("{}", second.numbers[k]) : second.texts[k])),
                     array, n, k});
  }
  return all;
}

std::string table(const std::vector<Column>& all, std::size_t lines) {
  std::string out;
  for (std::size_t c = 0; c < all.size(); ++c) out += (c == 0 ? "" : ",") + all[c].heading;
  out += "\n";
  for (std::size_t i = 0; i < lines; ++i) {
    for (std::size_t c = 0; c < all.size(); ++c)
      out += (c == 0 ? "" : ",") + (all[c].instead.empty() ? field(*all[c].array, all[c].start + i * all[c].step) : quoted(all[c].instead[i]));
    out += "\n";
  }
  return out;
}

/// One line a replication and day.
std::string long_table(const ResultFile& file) {
  const Array& replications = file.at("series/replication");
  const Array& days = file.at("series/day");
  Array replication, day;
  for (const double r : replications.numbers)
    for (const double d : days.numbers) replication.numbers.push_back(r), day.numbers.push_back(d);
  std::vector<Column> all{{"replication", &replication, 1, 0},
                          {"day [days since " + file.header.start_date + "]", &day, 1, 0}};
  for (const Dataset& d : results::datasets())
    if (d.group == "series" && d.dimensions.size() == 2 && file.find(d.path) != nullptr)
      all.push_back({quoted(heading(d, file)), file.find(d.path), 1, 0});
  return table(all, replication.numbers.size());
}

std::string singles(const ResultFile& file, std::string_view group) {
  std::string out = "name,value\n";
  for (const Dataset& d : results::datasets())
    if (d.group == group && d.dimensions.empty() && file.find(d.path) != nullptr)
      out += quoted(heading(d, file)) + "," + field(file.at(d.path), 0) + "\n";
  return out;
}

/// A table of its own: the lines are those of `lines`, or single values where that is nullptr.
struct Table {
  std::string name;
  std::string group;
  const Dataset* lines = nullptr;
};

bool any_single(const ResultFile& file, std::string_view group) {
  const auto& all = results::datasets();
  return std::any_of(all.begin(), all.end(), [&](const Dataset& d) { return d.group == group && d.dimensions.empty() && file.find(d.path) != nullptr; });
}

/// Does anything stand beside the coordinate's own values? Where nothing does, headings of another table may hold them all.
bool worth_a_table(const ResultFile& file, const Dataset& coordinate) {
  bool heads_columns = false;
  for (const Dataset& d : results::datasets()) {
    if (d.group != coordinate.group || d.path == coordinate.path || d.dimensions.empty() || file.find(d.path) == nullptr) continue;
    if (d.dimensions.front() == coordinate.name) return true;
    heads_columns = heads_columns || d.dimensions.back() == coordinate.name;
  }
  return !heads_columns;
}

std::vector<Table> tables(const ResultFile& file) {
  std::vector<Table> all;
  for (const results::Group& g : results::groups()) {
    const std::string group(g.name);
    if (std::none_of(file.arrays.begin(), file.arrays.end(), [&](const auto& entry) { return entry.first.starts_with(group + "/"); })) continue;
    std::vector<Table> of_group;
    for (const Dataset& d : results::datasets()) {
      if (d.group != group || !d.coordinate() || group == "series") continue;
      if (of_group.empty() && group != "scenario") of_group.push_back({group, group, &d});
      else if (file.find(d.path) != nullptr && worth_a_table(file, d)) of_group.push_back({group + "_" + d.name, group, &d});
    }
    if (of_group.empty() || group == "scenario") of_group.insert(of_group.begin(), {group, group, nullptr});
    else if (any_single(file, group)) of_group.push_back({group + "_values", group, nullptr});
    all.insert(all.end(), of_group.begin(), of_group.end());
  }
  return all;
}

}  // namespace

std::vector<std::string> csv_tables(const ResultFile& file) {
  std::vector<std::string> names;
  for (const Table& t : tables(file)) names.push_back(t.name);
  return names;
}

std::string csv(const ResultFile& file, std::string_view name) {
  const auto known = tables(file);
  const auto found = std::find_if(known.begin(), known.end(), [&](const Table& t) { return t.name == name; });
  EXPECTS(found != known.end());
  if (name == "series") return long_table(file);
  if (found->lines == nullptr) return singles(file, found->group);
  const Array* lines = file.find(found->lines->path);
  return table(columns(file, found->group, found->lines->name), lines == nullptr ? 0 : lines->shape[0]);
}

}  // namespace rackwright::report
