#include "sim/study/against.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <optional>

#include <fmt/format.h>

#include "models/base/expects.hpp"
#include "sim/replication/columns.hpp"
#include "sim/scenario/kits.hpp"
#include "sim/scenario/read.hpp"
#include "sim/study/intervals.hpp"
#include "sim/study/sweep.hpp"

namespace rackwright::study {
namespace {

constexpr std::array<Compared, compared_count> table{
    Compared{"fill_rate", 1},      Compared{"short_days_year", -1}, Compared{"spoiled_trays", -1},
    Compared{"spoiled_fed", -1},   Compared{"unripe_fed", -1},      Compared{"cost_year", -1},       Compared{"cost_per_kg_fresh", -1},
    Compared{"labour", -1},        Compared{"grain_used", 0},
};

bool of_a_key(char c) {
  const auto u = static_cast<unsigned char>(c);
  return u >= 0x80 || std::isalnum(u) != 0 || c == '_' || c == '.' || c == '-' || c == ' ';
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  return text;
}

/// Where the next KEY= after a comma begins, or npos: commas stand in lists of values too.
std::size_t next_comma(std::string_view text, std::size_t from) {
  for (std::size_t comma = text.find(',', from); comma != std::string_view::npos; comma = text.find(',', comma + 1)) {
    std::size_t end = comma + 1;
    while (end < text.size() && of_a_key(text[end])) ++end;
    if (end < text.size() && (text[end] == '+' || text[end] == '*')) ++end;
    const bool key = end < text.size() && text[end] == '=' &&
                     trimmed(text.substr(comma + 1, end - comma - 1)).find('.') != std::string_view::npos;
    if (key) return comma;
  }
  return std::string_view::npos;
}

struct Amount { double number = 0.0; std::string unit; };

std::optional<Amount> amount_of(std::string_view text) {
  text = trimmed(text);
  if (!text.empty() && text.front() == '+') text.remove_prefix(1);
  double number = 0.0;
  const auto [stop, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc{}) return std::nullopt;
  return Amount{number, std::string(trimmed(text.substr(static_cast<std::size_t>(stop - text.data()))))};
}

Problem wrong(std::string_view key, std::string_view value, std::string why) {
  return {0, std::string(key), std::string(value), std::move(why), ""};
}

/// What the key is now, changed by an operator.
std::variant<Setting, Problem> worked_out(const Scenario& scenario, const std::string& key, char how,
                                          std::string_view by) {
  const auto now_text = get_key(scenario, key);
  if (!now_text) {
    Scenario copy = scenario;
    if (auto problem = set_key(copy, key, by)) return *problem;  // says which key was perhaps meant
    return wrong(key, by, "has no value to change");
  }
  const auto now = amount_of(*now_text), step = amount_of(by);
  if (!now || !step) return wrong(key, by, fmt::format("is not a number to change \"{}\" by", *now_text));
  double value = now->number;
  const bool share = step->unit == "%" && now->unit != "%";
  const double sign = how == '-' ? -1.0 : 1.0;
  if (how == '*' && step->unit.empty()) value *= step->number;
  else if (how != '*' && share) value *= 1.0 + sign * step->number / 100.0;
  else if (how != '*' && (step->unit.empty() || step->unit == now->unit)) value += sign * step->number;
  else return wrong(key, by, fmt::format("must be in the unit of \"{}\", or a share such as 20 %", *now_text));
  return Setting{key, fmt::format("{:.10g}{}{}", value, now->unit.empty() ? "" : " ", now->unit)};
}

std::variant<Setting, Problem> read_one(const Scenario& scenario, std::string_view part) {
  const auto equals = part.find('=');
  if (equals == std::string_view::npos || equals == 0)
    return wrong(part, "", "is no change: write KEY=VALUE, such as line.soak=8 h");
  const char how = part[equals - 1];
  const bool relative = how == '+' || how == '-' || how == '*';
  const std::string key(trimmed(part.substr(0, equals - (relative ? 1 : 0))));
  const std::string_view value = trimmed(part.substr(equals + 1));
  if (relative) return worked_out(scenario, key, how, value);
  return Setting{key, std::string(value)};
}

}  // namespace

std::span<const Compared> compared() { return table; }

std::variant<Settings, Problem> read_change(const Scenario& scenario, std::string_view text) {
  Settings settings;
  for (std::size_t from = 0; from <= text.size();) {
    const std::size_t comma = std::min(next_comma(text, from), text.size());
    auto one = read_one(scenario, text.substr(from, comma - from));
    if (auto* problem = std::get_if<Problem>(&one)) return std::move(*problem);
    Setting& setting = std::get<Setting>(one);
    if (const auto fixed = why_fixed(scenario, setting.first); !fixed.empty()) return wrong(setting.first, setting.second, std::string(fixed));
    if (setting.first.starts_with("target.")) return wrong(setting.first, setting.second, "changes what is asked, not what happens: nothing would differ");
    if (std::any_of(settings.begin(), settings.end(), [&](const Setting& s) { return s.first == setting.first; }))
      return wrong(setting.first, setting.second, "is set twice in one change: write it once, or give --against twice");
    settings.push_back(std::move(setting));
    from = comma + 1;
  }
  std::vector<Stated> stated;
  for (const auto& [key, value] : settings) stated.push_back({key, value});
  if (const auto both = clash(scenario, stated))
    return wrong(stated[both->later].key, stated[both->later].value, fmt::format("sets again what {} does: write one of them, or give --against twice", stated[both->earlier].key));
  return settings;
}

std::variant<Scenario, Problems> changed(const Scenario& scenario, const Settings& settings) {
  Scenario after = scenario;
  Problems problems;
  for (const auto& [key, value] : settings) {
    if (auto problem = set_key(after, key, value)) problems.push_back(std::move(*problem));
  }
  after.choose.choices.clear();  // of no meaning where nothing is chosen
  if (problems.empty()) problems = check_scenario(after);
  if (!problems.empty()) return problems;
  return after;
}

std::string verdict(const Estimate& difference, int better) {
  if (!(difference.low > 0.0 || difference.high < 0.0)) return "no difference shown";
  const int sign = difference.low > 0.0 ? 1 : -1;
  if (better == 0) return sign > 0 ? "more" : "less";
  return sign == better ? "better" : "worse";
}

Differences::Differences() : columns_(compared().size()) {}

Differences::Record Differences::judge(const Side& before, const Side& after) {
  Record record{};
  for (std::size_t i = 0; i < record.size(); ++i) {
    const rackwright::Column* found = find_column(table[i].column);
    EXPECTS(found != nullptr);
    record[i] = {found->get(before.outcome), found->get(after.outcome)};
  }
  return record;
}

void Differences::add(const Record& record) {
  for (std::size_t i = 0; i < record.size(); ++i) {
    columns_[i].before.add(record[i][0]);
    columns_[i].after.add(record[i][1]);
    columns_[i].difference.add(record[i][1] - record[i][0]);
  }
}

std::vector<Difference> Differences::columns() const {
  std::vector<Difference> all;
  for (const Column& c : columns_)
    all.push_back({mean_estimate(c.before), mean_estimate(c.after), mean_estimate(c.difference)});
  return all;
}

Comparison compare(const Scenario& before, const Scenario& after, const PairRequest& request, PieceMemory* memory,
                   const std::string& name) {
  const auto records = remembered(memory, name, request.stop, [&] {
    const Plan first = make_plan(before), second = make_plan(after);
    std::vector<Differences::Record> played;
    paired_runs(first, second, request, Differences::judge, [&](const Differences::Record& record) { played.push_back(record); });
    return played;
  });
  Differences differences;
  for (const Differences::Record& record : records) differences.add(record);
  Comparison result;
  result.replications = static_cast<std::uint32_t>(records.size());
  result.columns = differences.columns();
  return result;
}

}  // namespace rackwright::study
