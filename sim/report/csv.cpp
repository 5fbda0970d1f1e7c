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

std::vector<Column> columns(const ResultFile& file, std::string_view group, const std::string& first) {
  std::vector<Column> all;
  for (const Dataset& d : results::datasets()) {
    const Array* array = d.group == group ? file.find(d.path) : nullptr;
    if (array == nullptr || d.dimensions.empty() || d.dimensions.front() != first) continue;
    if (d.dimensions.size() == 1) {
      all.push_back({quoted(heading(d, file)), array, 1, 0, d.name == "unit" ? units_with_money(file, group) : std::vector<std::string>{}});
      continue;
    }
    const Array& second = file.at(d.group + "/" + d.dimensions[1]);
    const std::size_t n = array->shape[1];
    for (std::size_t k = 0; k < n; ++k)
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

}  // namespace

std::vector<std::string> csv_groups(const ResultFile& file) {
  std::vector<std::string> names;
  for (const results::Group& g : results::groups())
    if (std::any_of(file.arrays.begin(), file.arrays.end(),
                    [&](const auto& entry) { return entry.first.starts_with(std::string(g.name) + "/"); }))
      names.emplace_back(g.name);
  return names;
}

std::string csv(const ResultFile& file, std::string_view group) {
  const auto known = csv_groups(file);
  EXPECTS(std::find(known.begin(), known.end(), group) != known.end());
  if (group == "series") return long_table(file);
  for (const Dataset& d : results::datasets())
    if (d.group == group && d.coordinate() && group != "scenario") {
      const Array* lines = file.find(d.path);
      return table(columns(file, group, d.name), lines == nullptr ? 0 : lines->shape[0]);
    }
  return singles(file, group);
}

}  // namespace rackwright::report
