#include <algorithm>

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

/// One number a candidate.
template <class Get>
Array each(const std::vector<Candidate>& candidates, Get get) {
  std::vector<double> values;
  for (const Candidate& c : candidates) values.push_back(static_cast<double>(get(c)));
  return row(std::move(values));
}

void add_estimates(Arrays& all, const std::vector<Candidate>& candidates) {
  for (const EstimateColumn& column : estimate_columns) {
    const std::string path = column.path;
    all[path] = each(candidates, [&](const Candidate& c) { return (c.*column.member).mean; });
    all[path + "_low"] = each(candidates, [&](const Candidate& c) { return (c.*column.member).low; });
    all[path + "_high"] = each(candidates, [&](const Candidate& c) { return (c.*column.member).high; });
  }
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
  add_estimates(all, candidates);
  add_broken(all, candidates);

  Array seasons{{candidates.size(), 4}, {}, {}};
  for (const Candidate& c : candidates)
    seasons.numbers.insert(seasons.numbers.end(), c.short_seasons.begin(), c.short_seasons.end());
  all["design/season"] = row(season_names());
  all["design/short_season"] = std::move(seasons);
  return all;
}

}  // namespace rackwright::results
