#include "sim/study/remedy.hpp"

#include <algorithm>
#include <bit>
#include <limits>
#include <optional>

#include <fmt/format.h>

#include "models/base/expects.hpp"
#include "sim/replication/replicate.hpp"
#include "sim/scenario/read.hpp"
#include "sim/study/intervals.hpp"
#include "sim/study/levers.hpp"
#include "sim/study/limits.hpp"
#include "sim/study/moments.hpp"
#include "sim/study/size.hpp"
#include "sim/study/tally.hpp"
#include "sim/study/verdict_words.hpp"

namespace rackwright::study {
namespace {

/// What a step comes to.
struct Reached {
  double gap = 0.0, success = 0.0, cost_year = 0.0;
  std::uint64_t good = 0;     ///< a bit for each year that meets all limits
  std::uint32_t years = 0;
  bool lacks_years = false;   ///< a share of years is missed, not only a mean
};

/// Do the limits hold, those with a share of their own among them?
bool all_hold(const std::vector<double>& given, const std::vector<Requirement>& asked) {
  for (std::size_t r = 0; r < given.size(); ++r)
    if (asked[r].kind == Requirement::Kind::share && given[r] <= 0.0) return false;
  return true;
}

std::uint32_t count(std::uint64_t bits) { return static_cast<std::uint32_t>(std::popcount(bits)); }

/// One row, or none where the change cannot be simulated: it is then no remedy.
std::vector<Reached> play(const Scenario& design, std::uint64_t random_seed, std::uint32_t years, bool to_the_end = false) try {
  if (!check_scenario(design).empty() || !screen(design).empty()) return {};
  const Plan plan = make_plan(design);
  Replicator replicator(plan);
  Tally tally;
  Candidate candidate;
  Reached reached;
  const std::vector<Requirement> asked = requirements(design.target);
  for (std::uint32_t year = 0; year < years; ++year) {
    const bool good = all_hold(tally.add(replicator.run(random_seed, year), design.target), asked);
    reached.good |= static_cast<std::uint64_t>(good ? 1 : 0) << year;
    if (to_the_end || year + 1 != years / 3) continue;  // hopeless already?
    tally.describe(candidate, design.target);
    if (gap(candidate) < -0.4) break;
  }
  tally.describe(candidate, design.target);
  reached.gap = gap(candidate);
  reached.success = candidate.success.mean;
  reached.cost_year = candidate.cost_year.mean;
  reached.years = candidate.replications;
  for (std::size_t r = 0; r < asked.size() && r < candidate.kept.size(); ++r)
    reached.lacks_years = reached.lacks_years || (asked[r].kind == Requirement::Kind::share && candidate.kept[r].value.mean < asked[r].least);
  return {reached};
} catch (const std::exception&) {
  return {};
}

}  // namespace

bool beyond_luck(std::uint32_t became_good, std::uint32_t became_bad) {
  const std::uint32_t changed = became_good + became_bad;
  return changed > 0 && share_lower_bound(became_good, changed, 0.05) > 0.5;
}

std::vector<Remedy> remedies(const Scenario& design, std::uint64_t random_seed, std::uint32_t years,
                             const std::atomic<bool>* stop, PieceMemory* memory) {
  EXPECTS(years <= 64);
  std::vector<Remedy> reached;
  const auto as_it_is = remembered(memory, "remedy-none-whole", stop, [&] { return play(design, random_seed, years, true); });
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
        if (with_time)
          for (const std::string& key : more_time(changed, step)) keys.push_back(key);
        for (const std::string& key : before)
          if (std::find(keys.begin(), keys.end(), key) == keys.end()) keys.push_back(key);
        if (!writable(changed, keys)) break;
        std::string setting = change_words(design, changed, keys);
        const auto rows = remembered(memory, "remedy-" + setting, stop, [&] { return play(changed, random_seed, years); });
        if (rows.empty()) continue;
        const Reached& row = rows.front();
        Remedy tried{std::move(setting), row.gap >= 0.0, row.gap, row.success, row.cost_year, row.years, count(row.good), 0};
        if (!as_it_is.empty()) {
          const Reached& base = as_it_is.front();
          const std::uint64_t played = ~std::uint64_t{0} >> (64 - std::min(row.years, base.years));
          tried.good_before = count(base.good & played);
          // Two changes that give a year more or less than none may be alike: what is told must help for sure.
          const bool apart = beyond_luck(count(row.good & ~base.good & played), count(base.good & ~row.good & played));
          tried.reaches = tried.reaches && (apart || (!base.lacks_years && base.gap < 0.0));
        }
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
  // What comes no nearer than the design as it is helps nobody.
  if (reached.empty() && best && (as_it_is.empty() || best->remedy.gap > as_it_is.front().gap)) reached.push_back(best->remedy);
  return reached;
}

std::string thrift_words(const Scenario& design, std::uint64_t random_seed, std::uint32_t years, const std::atomic<bool>* stop, PieceMemory* memory) {
  struct Year { double cost = 0.0, composted = 0.0, good = 0.0, fill_rate = 0.0, short_days = 0.0; std::uint64_t held = 0; };  // held: a bit a requirement
  if (design.line.sow == SowRule::as_wanted) return {};
  const auto played = [&](const Scenario& one, const char* name) {
    return remembered(memory, name, stop, [&] {
      const Plan plan = make_plan(one);
      const std::vector<Requirement> asked = requirements(one.target);
      Replicator replicator(plan);
      std::vector<Year> all;
      for (std::uint32_t year = 0; year < years && !(stop != nullptr && stop->load()); ++year) {
        const Outcome& o = replicator.run(random_seed, year);
        const double scale = 365.0 / o.days;
        const std::vector<double> given = given_by(o, one.target);
        std::uint64_t held = 0;
        for (std::size_t r = 0; r < asked.size(); ++r) held |= static_cast<std::uint64_t>(given[r] >= 1.0 ? 1 : 0) << r;
        all.push_back({o.cost_total * scale, static_cast<double>(o.composted_surplus + o.composted_overdue + o.composted_unripe) * scale,
                       all_hold(given, asked) ? 1.0 : 0.0, o.fill_rate, o.short_days * scale, held});
      }
      return all;
    });
  };
  Scenario wanted = design;
  wanted.line.sow = SowRule::as_wanted;
  if (!check_scenario(wanted).empty()) return {};
  const std::vector<Year> before = played(design, "thrift-none"), after = played(wanted, "thrift-wanted");
  if (before.size() != years || after.size() != years) return {};
  Moments saved, composted, cost, fill_rate, fill_before, short_days, short_before;
  std::uint32_t good = 0, good_before = 0;
  for (std::uint32_t year = 0; year < years; ++year) {
    saved.add(before[year].cost - after[year].cost);
    composted.add(before[year].composted - after[year].composted);
    cost.add(after[year].cost);
    fill_rate.add(after[year].fill_rate);
    fill_before.add(before[year].fill_rate);
    short_days.add(after[year].short_days);
    short_before.add(before[year].short_days);
    good += after[year].good > 0.0 ? 1 : 0;
    good_before += before[year].good > 0.0 ? 1 : 0;
  }
  const Estimate money = mean_estimate(saved);
  const Target& target = design.target;
  const std::vector<Requirement> asked = requirements(target);
  const auto kept = [&](std::size_t r) {
    const auto held = std::count_if(after.begin(), after.end(), [r](const Year& year) { return (year.held >> r & 1U) != 0; });
    return asked[r].kind != Requirement::Kind::share || static_cast<double>(held) >= asked[r].least * years;
  };
  if (!(money.low > 0.0)) return {};
  for (std::size_t r = 0; r < asked.size(); ++r)
    if (!kept(r)) return {};
  if (fill_rate.mean() < target.mean_fill_rate.value_or(0.0) || cost.mean() > target.mean_yearly_cost.value_or(std::numeric_limits<double>::infinity())) return {};
  return fmt::format("sowing as many trays as are to be wanted (line.sow = \"as-wanted\") saves {:.0f} {} a year ({:.0f} to {:.0f}), with {:.0f} fewer sound mats composted; fodder served goes "
                     "from {:.1f} to {:.1f} %, short days a year from {:.1f} to {:.1f}; the target then holds in {} of {} {} ({} without it)",
                     money.mean, design.currency, money.low, money.high, composted.mean(), 100.0 * fill_before.mean(), 100.0 * fill_rate.mean(), short_before.mean(), short_days.mean(), good, years, in_days(design.run.length) >= 365.0 ? "years" : "runs", good_before);
}

std::string remedy_words(const Remedy& remedy, const std::string& currency, bool whole_years) {
  const std::string holds = fmt::format("holds in {} of {} {} ({} without it), at {}", remedy.good, remedy.years, whole_years ? "years" : "runs", remedy.good_before,
                                        money_words(remedy.cost_year, currency));
  if (remedy.reaches) return fmt::format("{}: the target {}", remedy.setting, holds);
  return fmt::format("no change that was tried {}; the best is {}, with which the target {}",
                     remedy.gap >= 0.0 ? "helps by more than luck may explain" : "is enough", remedy.setting, holds);
}

}  // namespace rackwright::study
