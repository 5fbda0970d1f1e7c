#include <algorithm>
#include <limits>

#include "models/base/expects.hpp"
#include "sim/results/collect.hpp"

namespace rackwright::results {
namespace {

using study::Candidate;
using study::Estimate;

/// A column of /design and what it is made from.
struct EstimateColumn {
  const char* path;
  Estimate Candidate::*member;
};

constexpr EstimateColumn estimate_columns[] = {
    {"design/success", &Candidate::success},           {"design/fill_rate", &Candidate::fill_rate},
    {"design/cost_year", &Candidate::cost_year},       {"design/short_days", &Candidate::short_days},
    {"design/spoiled_trays", &Candidate::spoiled_trays}, {"design/overdue_trays", &Candidate::overdue_trays},
    {"design/labour", &Candidate::labour},
};

constexpr double nothing = std::numeric_limits<double>::quiet_NaN();

/// One number a candidate.
template <class Get>
Array each(const std::vector<Candidate>& candidates, Get get) {
  std::vector<double> values;
  values.reserve(candidates.size());
  for (const Candidate& c : candidates) values.push_back(static_cast<double>(get(c)));
  return row(std::move(values));
}

void add_estimates(Arrays& all, const std::vector<Candidate>& candidates) {
  for (const EstimateColumn& column : estimate_columns) {
    const std::string path = column.path;
    const auto take = [&](double Estimate::*part) {  // nothing is known of a design that was not played
      return each(candidates, [&](const Candidate& c) { return c.replications > 0 ? c.*column.member.*part : nothing; });
    };
    all[path] = take(&Estimate::mean);
    all[path + "_low"] = each(candidates, [&](const Candidate& c) { return c.replications > 0 ? low_of(c.*column.member) : nothing; });
    all[path + "_high"] = take(&Estimate::high);
  }
}

void add_capital(Arrays& all, const std::vector<Candidate>& candidates) {
  all["design/capital"] = each(candidates, [](const Candidate& c) { return c.capital.value_or(nothing); });
}

void add_texts(Arrays& all, const study::SizeResult& result) {
  std::vector<std::string> verdicts, whys, values;
  for (const Candidate& c : result.candidates) {
    verdicts.emplace_back(study::verdict_name(c.verdict));
    whys.push_back(c.why);
    values.insert(values.end(), c.values.begin(), c.values.end());
  }
  all["design/verdict"] = row(std::move(verdicts));
  all["design/why"] = row(std::move(whys));
  if (result.keys.empty()) return;
  all["design/choice"] = row(result.keys);
  all["design/value"] = {{result.candidates.size(), result.keys.size()}, {}, std::move(values)};
}

void add_broken(Arrays& all, const std::vector<Candidate>& candidates) {
  std::vector<std::string> limits;
  for (const Candidate& c : candidates)
    for (const auto& [limit, share] : c.broken)
      if (std::find(limits.begin(), limits.end(), limit) == limits.end()) limits.push_back(limit);
  if (limits.empty()) return;
  Array shares{{candidates.size(), limits.size()}, std::vector<double>(candidates.size() * limits.size(), 0.0), {}};
  for (std::size_t i = 0; i < candidates.size(); ++i)
    for (const auto& [limit, share] : candidates[i].broken) {
      const auto at = static_cast<std::size_t>(std::find(limits.begin(), limits.end(), limit) - limits.begin());
      shares.numbers[i * limits.size() + at] = share;
    }
  all["design/limit"] = row(std::move(limits));
  all["design/broken"] = std::move(shares);
}

void add_requirements(Arrays& all, const std::vector<Candidate>& candidates) {
  const auto played = std::find_if(candidates.begin(), candidates.end(), [](const Candidate& c) { return !c.kept.empty(); });
  std::vector<std::string> names{"the limits together"};
  std::vector<double> asked{nothing};
  if (played != candidates.end()) {
    names.clear(), asked.clear();
    for (const study::Kept& kept : played->kept) names.push_back(kept.name), asked.push_back(kept.least);
  }
  const std::size_t n = names.size();
  const auto take = [&](double Estimate::*part) {
    Array table{{candidates.size(), n}, {}, {}};
    for (const Candidate& c : candidates)
      for (std::size_t r = 0; r < n; ++r) table.numbers.push_back(r < c.kept.size() ? c.kept[r].value.*part : nothing);
    return table;
  };
  all["design/reached"] = take(&Estimate::mean);
  all["design/reached_low"] = take(&Estimate::low);
  all["design/reached_high"] = take(&Estimate::high);
  all["design/requirement"] = row(std::move(names));
  all["design/asked"] = row(std::move(asked));
}

void add_advice(Arrays& all, const study::SizeResult& result) {
  std::vector<double> places(result.candidates.size(), 0.0);
  for (std::size_t i = 0; i < result.frontier.size(); ++i)
    places.at(static_cast<std::size_t>(result.frontier[i])) = static_cast<double>(i + 1);
  all["design/frontier"] = row(std::move(places));
  all["design/knee"] = number(result.knee);
  all["design/promise"] = text(result.promise);
  all["design/equal_allocation"] = number(static_cast<double>(result.equal_allocation));
  if (!result.buys.empty()) all["design/buys"] = row(result.buys);
  if (!result.help.empty()) all["design/help"] = row(result.help);
  if (!result.thrift.empty()) all["design/thrift"] = text(result.thrift);
  if (result.runway.look_ahead == 0) return;
  all["design/runway"] = text(result.runway_words);
  all["design/look_ahead"] = number(result.runway.look_ahead);
  std::vector<double> first, share;
  for (const study::Estimate& good : result.runway.good) first.push_back(365.0 * static_cast<double>(first.size())), share.push_back(good.mean);
  all["design/runway_day"] = row(std::move(first));
  all["design/runway_share"] = row(std::move(share));
  all["design/runway_outgrown"] = number(result.runway.outgrown);
}

}  // namespace

Arrays design_arrays(const study::SizeResult& result) {
  Arrays all;
  const auto& candidates = result.candidates;
  EXPECTS(!candidates.empty());
  all["design/chosen"] = number(result.chosen);
  all["design/nearest"] = number(result.nearest);
  all["design/binding"] = text(result.binding);
  all["design/spent"] = number(static_cast<double>(result.replications));
  all["design/settled"] = number(result.settled ? 1.0 : 0.0);
  all["design/stopped"] = number(result.stopped ? 1.0 : 0.0);
  std::vector<double> numbers(candidates.size()), places(candidates.size(), 0.0);
  for (std::size_t i = 0; i < candidates.size(); ++i) numbers[i] = static_cast<double>(i);
  for (std::size_t i = 0; i < result.runners_up.size(); ++i)
    places.at(static_cast<std::size_t>(result.runners_up[i])) = static_cast<double>(i + 1);
  all["design/candidate"] = row(std::move(numbers));
  all["design/runner_up"] = row(std::move(places));
  all["design/replications"] = each(candidates, [](const Candidate& c) { return c.replications; });
  add_texts(all, result);
  add_capital(all, candidates);
  add_estimates(all, candidates);
  add_broken(all, candidates);
  add_requirements(all, candidates);
  add_advice(all, result);

  Array seasons{{candidates.size(), 4}, {}, {}};
  for (const Candidate& c : candidates)
    seasons.numbers.insert(seasons.numbers.end(), c.short_seasons.begin(), c.short_seasons.end());
  all["design/season"] = row(season_names());
  all["design/short_season"] = std::move(seasons);
  return all;
}

}  // namespace rackwright::results
