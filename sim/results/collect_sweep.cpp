// From a sweep to the datasets of /sweep.

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>

#include "models/base/expects.hpp"
#include "sim/results/sweep_part.hpp"
#include "sim/study/intervals.hpp"

namespace rackwright::results {
namespace {

using study::PointStatus;
using study::Spread;
using study::Sweep;
using study::SweepAxis;
using study::SweepRow;

/// One number an item.
template <class Items, class Get>
Array each(const Items& items, Get get) {
  std::vector<double> values;
  values.reserve(items.size());
  for (const auto& item : items) values.push_back(static_cast<double>(get(item)));
  return row(std::move(values));
}

Array count_up(std::size_t n) {
  std::vector<double> values(n);
  for (std::size_t i = 0; i < n; ++i) values[i] = static_cast<double>(i);
  return row(std::move(values));
}

struct SpreadPart {
  const char* end;
  double Spread::*member;
};
constexpr SpreadPart spread_parts[] = {{"", &Spread::mean},     {"_se", &Spread::standard_error}, {"_sd", &Spread::sd},
                                       {"_q05", &Spread::low},  {"_q50", &Spread::median},        {"_q95", &Spread::high}};

void add_leaders(Arrays& all, const Sweep& sweep, const std::vector<SweepRow>& leaders) {
  if (leaders.empty()) return;
  std::vector<std::string> values;
  for (const SweepRow& leader : leaders)
    for (std::size_t a = 0; a < sweep.axes.size(); ++a) values.push_back(axis_text(sweep.axes[a], leader.values[a]));
  const auto mean = [](std::string_view name) {
    return [name](const SweepRow& r) {
      for (std::size_t c = 0; c < r.spreads.size(); ++c)
        if (study::sweep_columns()[c].name == name) return r.spreads[c].mean;
      EXPECTS(false);
      return 0.0;
    };
  };
  all["sweep/leader"] = each(leaders, [](const SweepRow& r) { return r.point; });
  all["sweep/leader_value"] = {{leaders.size(), sweep.axes.size()}, {}, std::move(values)};
  all["sweep/leader_success"] = each(leaders, [](const SweepRow& r) { return r.success; });
  all["sweep/leader_fill_rate"] = each(leaders, mean("fill_rate"));
  all["sweep/leader_cost_year"] = each(leaders, mean("cost_year"));
  all["sweep/leader_cost_year_se"] =
      each(leaders, [](const SweepRow& r) { return r.spreads[study::cost_year_column].standard_error; });
  const auto end = [&](double side) {
    return each(leaders, [&](const SweepRow& r) {
      const auto& cost = r.spreads[study::cost_year_column];
      const double sd = cost.standard_error * std::sqrt(static_cast<double>(sweep.replications));
      return cost.mean + side * study::mean_half_width(sd, sweep.replications);
    });
  };
  all["sweep/leader_cost_year_low"] = end(-1.0);
  all["sweep/leader_cost_year_high"] = end(1.0);
  all["sweep/leader_short_days"] = each(leaders, mean("short_days"));
  all["sweep/leader_spoiled_fed"] = each(leaders, mean("spoiled_fed"));
  all["sweep/leader_unripe_fed"] = each(leaders, mean("unripe_fed"));
}

}  // namespace

Arrays sweep_arrays(const Sweep& sweep) {
  Arrays all;
  std::vector<std::string> keys, units, words;
  std::vector<double> word_keys;
  for (const SweepAxis& axis : sweep.axes) {
    for (const std::string& word : axis.words) {
      words.push_back(word);
      word_keys.push_back(static_cast<double>(keys.size()));
    }
    keys.push_back(axis.key);
    units.push_back(axis.unit);
  }
  all["sweep/key"] = row(keys);
  all["sweep/unit"] = row(units);
  all["sweep/low"] = each(sweep.axes, [](const SweepAxis& a) { return a.low; });
  all["sweep/high"] =
      each(sweep.axes, [](const SweepAxis& a) { return a.words.empty() ? a.high : double(a.words.size() - 1); });
  if (!words.empty()) {
    all["sweep/word"] = row(words);
    all["sweep/word_key"] = row(word_keys);
  }
  all["sweep/method"] = text(std::string(method_name(sweep.method)));
  all["sweep/points"] = number(static_cast<double>(sweep.points));
  return all;
}

Arrays row_arrays(const Sweep& sweep, const std::vector<SweepRow>& rows) {
  Arrays all;
  all["sweep/point"] = each(rows, [](const SweepRow& r) { return r.point; });
  all["sweep/status"] = each(rows, [](const SweepRow& r) { return static_cast<int>(r.status); });
  all["sweep/success"] = each(rows, [](const SweepRow& r) { return r.success; });
  all["sweep/gap"] = each(rows, [](const SweepRow& r) { return r.gap; });
  Array values{{rows.size(), sweep.axes.size()}, {}, {}};
  std::vector<double> refused;
  std::vector<std::string> whys;
  for (const SweepRow& r : rows) {
    values.numbers.insert(values.numbers.end(), r.values.begin(), r.values.end());
    if (r.why.empty()) continue;
    refused.push_back(static_cast<double>(r.point));
    whys.push_back(r.why);
  }
  all["sweep/value"] = std::move(values);
  for (std::size_t c = 0; c < study::sweep_column_count; ++c)
    for (const SpreadPart& part : spread_parts)
      all["sweep/" + std::string(study::sweep_columns()[c].name) + part.end] =
          each(rows, [&](const SweepRow& r) { return r.spreads[c].*part.member; });
  if (refused.empty()) return all;
  all["sweep/refused"] = row(std::move(refused));
  all["sweep/why"] = row(std::move(whys));
  return all;
}

Arrays digest_arrays(const Sweep& sweep, const study::SweepDigest& digest) {
  Arrays all;
  const auto count = [&](const std::string& what, PointStatus status) {
    all["sweep/count" + what] = number(static_cast<double>(digest.count(status)));
    if (!digest.example(status).empty()) all["sweep/example" + what] = text(digest.example(status));
  };
  all["sweep/target_met"] = number(digest.target_met() ? 1.0 : 0.0);
  all["sweep/count"] = number(static_cast<double>(digest.played()));
  count("_hopeless", PointStatus::hopeless);
  count("_invalid", PointStatus::invalid);
  count("_failed", PointStatus::failed);
  add_leaders(all, sweep, digest.leaders());

  const auto& effects = digest.effects();
  std::vector<std::string> labels;
  labels.reserve(effects.size());
  for (const study::Effect& effect : effects) labels.push_back(effect.label);
  const auto mean = [](study::Moments study::Effect::*of) {  // of no point there is none
    return [of](const study::Effect& e) { return (e.*of).count() > 0 ? (e.*of).mean() : std::numeric_limits<double>::quiet_NaN(); };
  };
  all["sweep/effect"] = count_up(effects.size());
  all["sweep/effect_key"] = each(effects, [](const study::Effect& e) { return e.axis; });
  all["sweep/effect_label"] = row(std::move(labels));
  all["sweep/effect_points"] = each(effects, [](const study::Effect& e) { return e.fill_rate.count(); });
  all["sweep/effect_fill_rate"] = each(effects, mean(&study::Effect::fill_rate));
  all["sweep/effect_cost_year"] = each(effects, mean(&study::Effect::cost_year));
  all["sweep/effect_success"] = each(effects, mean(&study::Effect::success));
  return all;
}

Arrays index_arrays(const Sweep& sweep, const std::vector<study::SobolIndices>& indices) {
  Arrays all;
  const std::size_t keys = sweep.axes.size(), outcomes = indices.size();
  all["sweep/outcome"] = row(std::vector<std::string>{"fill_rate", "cost_year"});
  all["sweep/rows"] = number(static_cast<double>(indices.front().rows()));
  all["sweep/outcome_mean"] = each(indices, [](const study::SobolIndices& i) { return i.mean(); });
  all["sweep/outcome_sd"] = each(indices, [](const study::SobolIndices& i) { return std::sqrt(std::max(i.variance(), 0.0)); });
  const char* const paths[] = {"sweep/first_order", "sweep/first_order_low", "sweep/first_order_high",
                               "sweep/total",       "sweep/total_low",       "sweep/total_high"};
  for (const char* path : paths) all[path] = {{keys, outcomes}, std::vector<double>(keys * outcomes), {}};
  for (std::size_t o = 0; o < outcomes; ++o) {
    const auto inputs = indices[o].indices(sweep.random_seed);
    for (std::size_t k = 0; k < keys; ++k) {
      const auto& first = inputs[k].first_order;
      const auto& total = inputs[k].total;
      const double values[] = {first.value, first.low, first.high, total.value, total.low, total.high};
      for (std::size_t i = 0; i < std::size(paths); ++i) all[paths[i]].numbers[k * outcomes + o] = values[i];
    }
  }
  return all;
}

}  // namespace rackwright::results
