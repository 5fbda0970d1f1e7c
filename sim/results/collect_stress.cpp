// Paired studies as datasets: changes against the scenario, hard times and countermeasures.

#include <cmath>
#include <limits>

#include <fmt/core.h>

#include "models/base/expects.hpp"
#include "sim/replication/columns.hpp"
#include "sim/results/collect.hpp"
#include "sim/scenario/hard_time_words.hpp"

namespace rackwright::results {
namespace {

using study::Estimate;

/// One value of every item.
template <class Item, class Get>
Array each(const std::vector<Item>& items, Get get) {
  Array array;
  array.shape = {items.size()};
  for (const Item& item : items) {
    if constexpr (std::is_arithmetic_v<decltype(get(item))>) array.numbers.push_back(static_cast<double>(get(item)));
    else array.texts.emplace_back(get(item));
  }
  return array;
}

template <class Item, class Get>
void interval(Arrays& all, const std::string& path, const std::vector<Item>& items, Get get) {
  all[path] = each(items, [&](const Item& item) { return get(item).mean; });
  all[path + "_low"] = each(items, [&](const Item& item) { return get(item).low; });
  all[path + "_high"] = each(items, [&](const Item& item) { return get(item).high; });
}

std::string_view limit_name(const std::optional<study::HeatLimit>& limit) {
  if (!limit) return "";
  switch (limit->kind) {
    case study::HeatLimit::Kind::found: return "found";
    case study::HeatLimit::Kind::never: return "never";
    case study::HeatLimit::Kind::beyond: return "beyond";
  }
  return "";
}

Estimate limit_of(const std::optional<study::HeatLimit>& limit) {
  constexpr double none = std::numeric_limits<double>::quiet_NaN();
  if (!limit) return {none, none, none, none, none, none};
  return {limit->peak, limit->low, limit->high, 0.0, limit->low, limit->high};
}

template <class Item>
void effects(Arrays& all, const std::string& group, const std::vector<Item>& items) {
  interval(all, group + "/short_days", items, [](const Item& i) { return i.effects.short_days; });
  interval(all, group + "/spoiled", items, [](const Item& i) { return i.effects.spoiled; });
  interval(all, group + "/spoiled_fed", items, [](const Item& i) { return i.effects.spoiled_fed; });
  interval(all, group + "/unripe_fed", items, [](const Item& i) { return i.effects.unripe_fed; });
  interval(all, group + "/fill_rate", items, [](const Item& i) { return i.effects.fill_rate; });
  interval(all, group + "/cost", items, [](const Item& i) { return i.effects.cost; });
  interval(all, group + "/limit", items, [](const Item& i) { return limit_of(i.limit); });
  all[group + "/limit_kind"] = each(items, [](const Item& i) { return limit_name(i.limit); });
  all[group + "/why_not"] = each(items, [](const Item& i) { return i.why_not; });
  all[group + "/replications"] = each(items, [](const Item& i) { return i.replications; });
}

std::string as_typed(const study::Settings& settings) {
  std::string out;
  for (const auto& [key, value] : settings) out += fmt::format("{}{}={}", out.empty() ? "" : ", ", key, value);
  return out;
}

void trials(Arrays& all, const study::StressResult& result) {
  if (result.trials.empty()) return;
  using study::Trial;
  const std::string group = "countermeasure";
  effects(all, group, result.trials);
  std::vector<double> numbers(result.trials.size());
  for (std::size_t i = 0; i < numbers.size(); ++i) numbers[i] = static_cast<double>(i);
  all[group + "/trial"] = row(std::move(numbers));
  all[group + "/hard_time"] = each(result.trials, [&](const Trial& t) { return result.hard_times.at(t.hard_time).hard.name; });
  all[group + "/name"] = each(result.trials, [](const Trial& t) { return std::string(t.what.name); });
  all[group + "/settings"] = each(result.trials, [](const Trial& t) { return as_typed(t.what.settings); });
  all[group + "/priced"] = each(result.trials, [](const Trial& t) { return t.what.priced ? 1 : 0; });
  all[group + "/needs"] = each(result.trials, [](const Trial& t) { return t.what.needs; });
  all[group + "/by_service"] = each(result.trials, [](const Trial& t) { return t.by_service; });
  all[group + "/by_cost"] = each(result.trials, [](const Trial& t) { return t.by_cost; });
}

}  // namespace

Arrays stress_arrays(const study::StressResult& result, double asked, bool us) {
  using study::Struck;
  const auto& items = result.hard_times;
  EXPECTS(!items.empty());
  Arrays all;
  effects(all, "stress", items);
  all["stress/hard_time"] = each(items, [](const Struck& s) { return s.hard.name; });
  all["stress/kind"] = each(items, [](const Struck& s) { return hard_time_name(s.hard.kind); });
  all["stress/what"] = each(items, [us](const Struck& s) { return in_words(s.hard, us); });
  all["stress/day"] = each(items, [](const Struck& s) { return s.hard.first_day; });
  all["stress/own"] = each(items, [](const Struck& s) { return s.own ? 1 : 0; });
  interval(all, "stress/recovery", items, [](const Struck& s) { return s.recovery; });
  interval(all, "stress/first_day", items, [](const Struck& s) { return s.first_day; });
  interval(all, "stress/first_short", items, [](const Struck& s) { return s.first_short; });
  all["stress/not_over"] = each(items, [](const Struck& s) { return s.not_over; });
  all["stress/any_short"] = each(items, [](const Struck& s) { return s.any_short; });
  all["stress/sign"] = row(std::vector<std::string>(study::sign_names.begin(), study::sign_names.end()));
  Array first{{items.size(), study::sign_names.size()}, {}, {}};
  for (const Struck& s : items) first.numbers.insert(first.numbers.end(), s.first.begin(), s.first.end());
  all["stress/first"] = std::move(first);
  all["stress/asked"] = number(asked);
  all["stress/stopped"] = number(result.stopped ? 1.0 : 0.0);
  trials(all, result);
  return all;
}

Arrays against_arrays(const std::vector<study::Comparison>& comparisons) {
  using study::Comparison;
  EXPECTS(!comparisons.empty());
  Arrays all;
  const auto quantities = study::compared();
  all["against/change"] = each(comparisons, [](const Comparison& c) { return c.change; });
  all["against/replications"] = each(comparisons, [](const Comparison& c) { return c.replications; });
  std::vector<std::string> names, units;
  for (const study::Compared& q : quantities) {
    names.emplace_back(q.column);
    units.emplace_back(find_column(q.column)->unit);
  }
  all["against/quantity"] = row(std::move(names));
  all["against/unit"] = row(std::move(units));
  const std::vector<std::size_t> shape{comparisons.size(), quantities.size()};
  all["against/verdict"].shape = shape;
  const auto put = [&](const std::string& path, const Estimate& e) {
    for (const auto& [end, value] : {std::pair{"", e.mean}, std::pair{"_low", e.low}, std::pair{"_high", e.high}}) {
      all[path + end].shape = shape;
      all[path + end].numbers.push_back(value);
    }
  };
  for (const Comparison& c : comparisons) {
    EXPECTS(c.columns.size() == quantities.size());
    for (std::size_t q = 0; q < quantities.size(); ++q) {
      put("against/before", c.columns[q].before);
      put("against/after", c.columns[q].after);
      put("against/difference", c.columns[q].difference);
      all["against/verdict"].texts.push_back(study::verdict(c.columns[q].difference, quantities[q].better));
    }
  }
  return all;
}

}  // namespace rackwright::results
