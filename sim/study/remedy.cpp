#include "sim/study/remedy.hpp"

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "sim/replication/replicate.hpp"
#include "sim/scenario/read.hpp"
#include "sim/study/levers.hpp"
#include "sim/study/size.hpp"
#include "sim/study/tally.hpp"
#include "sim/study/verdict_words.hpp"

namespace rackwright::study {
namespace {

/// What a step comes to.
struct Reached { double gap = 0.0, success = 0.0, cost_year = 0.0; };

/// One row, or none where the change cannot be simulated: it is then no remedy.
std::vector<Reached> play(const Scenario& design, std::uint64_t random_seed, std::uint32_t years) try {
  if (!check_scenario(design).empty() || !screen(design).empty()) return {};
  const Plan plan = make_plan(design);
  Replicator replicator(plan);
  Tally tally;
  Candidate candidate;
  for (std::uint32_t year = 0; year < years; ++year) {
    tally.add(replicator.run(random_seed, year), design.target);
    if (year + 1 != years / 3) continue;  // hopeless already?
    tally.describe(candidate, design.target);
    if (gap(candidate) < -0.4) break;
  }
  tally.describe(candidate, design.target);
  return {{gap(candidate), candidate.success.mean, candidate.cost_year.mean}};
} catch (const std::exception&) {
  return {};
}

}  // namespace

std::vector<Remedy> remedies(const Scenario& design, std::uint64_t random_seed, std::uint32_t years,
                             const std::atomic<bool>* stop, PieceMemory* memory) {
  std::vector<Remedy> reached;
  struct Best { Remedy remedy; Scenario changed; std::vector<std::string> keys; Lever lever; };
  std::optional<Best> best;
  // One lever after the other, on top of what was `changed` before.
  const auto try_all = [&](const Scenario& from, const std::vector<std::string>& before, Lever without, bool with_time) {
    for (const Lever lever : single_levers()) {
      if (lever == without) continue;
      for (int step = 1; step <= lever_steps; ++step) {
        if (stop != nullptr && stop->load()) return;
        Scenario changed = from;
        auto keys = lever(changed, step);
        if (keys.empty()) break;
        if (with_time) keys.push_back(more_time(changed, step).front());
        for (const std::string& key : before)
          if (std::find(keys.begin(), keys.end(), key) == keys.end()) keys.push_back(key);
        std::string setting = change_words(design, changed, keys);
        const auto rows = remembered(memory, "remedy-" + setting, stop, [&] { return play(changed, random_seed, years); });
        if (rows.empty()) continue;
        const Reached& row = rows.front();
        Remedy tried{std::move(setting), row.gap >= 0.0, row.gap, row.success, row.cost_year};
        if (tried.reaches) {
          reached.push_back(std::move(tried));
          break;
        }
        if (!best || tried.gap > best->remedy.gap) best = Best{std::move(tried), std::move(changed), std::move(keys), lever};
      }
    }
  };
  try_all(design, {}, nullptr, false);
  // More trays want more hands: dirty trays spoil mats where washing is left undone.
  if (reached.empty()) try_all(design, {}, &more_time, true);
  // Two things may be lacking: what helped most, with another.
  if (reached.empty() && best) {
    const Best first = *best;
    try_all(first.changed, first.keys, first.lever, false);
  }
  std::stable_sort(reached.begin(), reached.end(),
                   [](const Remedy& a, const Remedy& b) { return a.cost_year < b.cost_year; });
  if (reached.empty() && best) reached.push_back(best->remedy);
  return reached;
}

std::string remedy_words(const Remedy& remedy, const std::string& currency) {
  const std::string money = money_words(remedy.cost_year, currency);
  return remedy.reaches
             ? fmt::format("{}: the target holds in {:.3g} % of years, at {}", remedy.setting, 100.0 * remedy.success, money)
             : fmt::format("no change that was tried is enough; the best is {}, with which it holds in {:.3g} % of "
                           "years, at {}", remedy.setting, 100.0 * remedy.success, money);
}

}  // namespace rackwright::study
