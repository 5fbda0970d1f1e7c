#include "sim/study/remedy.hpp"

#include <algorithm>
#include <bitset>
#include <limits>
#include <map>
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

/// The most years that one look at a design takes.
constexpr std::size_t most_years = 192;
/// For each year of the search so many fresh ones: what was picked for its luck in some is told of others.
constexpr std::uint32_t fresh_for_one = 3;

/// So many replications of a seed, from one of them on.
struct Years { std::uint64_t random_seed = 1; std::uint32_t first = 0, count = 0; };

/// The judgement's fresh years, which neither sizing nor the search of remedies plays.
Years fresh_years(const Scenario& design, std::uint64_t random_seed, std::uint32_t searched, std::uint32_t judgement) {
  const std::uint32_t count = fresh_for_one * searched;
  return {random_seed, std::max(searched, static_cast<std::uint32_t>(design.choose.most_replications)) + judgement * count, count};
}

/// What a step comes to.
struct Reached {
  double gap = 0.0, success = 0.0, cost_year = 0.0;
  std::bitset<most_years> good{};  ///< a bit for each year that meets all limits
  std::uint32_t years = 0;
  bool lacks_years = false;        ///< a share of years is missed, not only a mean
};

/// Do the limits hold, those with a share of their own among them?
bool all_hold(const std::vector<double>& given, const std::vector<Requirement>& asked) {
  for (std::size_t r = 0; r < given.size(); ++r)
    if (asked[r].kind == Requirement::Kind::share && given[r] <= 0.0) return false;
  return true;
}

/// One row, or none where the change cannot be simulated: it is then no remedy.
std::vector<Reached> play(const Scenario& design, const Years& years, const std::atomic<bool>* stop, bool to_the_end = true) try {
  if (!check_scenario(design).empty() || !screen(design).empty()) return {};
  const Plan plan = make_plan(design);
  Replicator replicator(plan);
  Tally tally;
  Candidate candidate;
  Reached reached;
  const std::vector<Requirement> asked = requirements(design.target);
  for (std::uint32_t year = 0; year < years.count && !(stop != nullptr && stop->load()); ++year) {
    reached.good[year] = all_hold(tally.add(replicator.run(years.random_seed, years.first + year), design.target), asked);
    if (to_the_end || year + 1 != years.count / 3) continue;  // hopeless already?
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

/// A changed design beside the design as it is on the same years; `without` is empty where that cannot be played.
Remedy beside(std::string setting, const Reached& with, const std::vector<Reached>& without) {
  Remedy tried{std::move(setting), with.gap >= 0.0, with.gap, with.success, with.cost_year, with.years, static_cast<std::uint32_t>(with.good.count()), 0};
  if (without.empty()) return tried;
  const Reached& base = without.front();
  const auto played = ~std::bitset<most_years>{} >> (most_years - std::min(with.years, base.years));
  tried.good_before = static_cast<std::uint32_t>((base.good & played).count());
  // Two changes that give a year more or less than none may be alike: what is told must help for sure.
  const auto became = [&](const Reached& good, const Reached& bad) { return static_cast<std::uint32_t>((good.good & ~bad.good & played).count()); };
  tried.reaches = tried.reaches && (beyond_luck(became(with, base), became(base, with)) || (!base.lacks_years && base.gap < 0.0));
  return tried;
}

}  // namespace

bool beyond_luck(std::uint32_t became_good, std::uint32_t became_bad) {
  const std::uint32_t changed = became_good + became_bad;
  return changed > 0 && share_lower_bound(became_good, changed, 0.05) > 0.5;
}

std::vector<Remedy> remedies(const Scenario& design, std::uint64_t random_seed, std::uint32_t years,
                             const std::atomic<bool>* stop, PieceMemory* memory) {
  EXPECTS(years <= most_years / fresh_for_one);
  const Years searched{random_seed, 0, years};
  const auto stopped = [stop] { return stop != nullptr && stop->load(); };
  const auto as_it_is = remembered(memory, "remedy-search-none", stop, [&] { return play(design, searched, stop); });
  std::map<std::uint32_t, std::vector<Reached>> afresh;  // the design as it is, by judgement
  // What was picked for its luck in the search is judged, and told, on years of which it knew none; none where they cannot be played.
  const auto judged = [&](const std::string& setting, const Scenario& changed, std::uint32_t judgement) -> std::optional<Remedy> {
    const Years fresh = fresh_years(design, random_seed, years, judgement);
    const auto name = [&](const std::string& what) { return fmt::format("remedy-fresh-{}-{}-{}", fresh.first, fresh.count, what); };
    if (!afresh.contains(judgement)) afresh[judgement] = remembered(memory, name("none"), stop, [&] { return play(design, fresh, stop); });
    const auto rows = remembered(memory, name(setting), stop, [&] { return play(changed, fresh, stop); });
    if (rows.empty() || stopped()) return {};
    return beside(setting, rows.front(), afresh[judgement]);
  };
  std::vector<Remedy> reached;
  struct Best { Remedy remedy; Scenario changed; std::vector<std::string> keys; Lever lever; std::optional<std::uint32_t> judgement; };
  std::optional<Best> best;
  // One lever after the other, on top of what was `changed` before.
  const auto try_all = [&](const Scenario& from, const std::vector<std::string>& before, Lever without, bool with_time) {
    for (const Lever lever : single_levers()) {
      if (lever == without) continue;
      std::uint32_t judgements = 0;  // at most one a step, each on years of its own
      for (int step = 1; step <= lever_steps; ++step) {
        if (stopped()) return;
        Scenario changed = from;
        auto keys = lever(changed, step);
        if (keys.empty()) break;
        if (with_time)
          for (const std::string& key : more_time(changed, step)) keys.push_back(key);
        for (const std::string& key : before)
          if (std::find(keys.begin(), keys.end(), key) == keys.end()) keys.push_back(key);
        if (!writable(changed, keys)) break;
        const std::string setting = change_words(design, changed, keys);
        const auto rows = remembered(memory, "remedy-search-" + setting, stop, [&] { return play(changed, searched, stop, false); });
        if (rows.empty() || stopped()) continue;
        std::optional<Remedy> tried = beside(setting, rows.front(), as_it_is);
        std::optional<std::uint32_t> judgement;
        if (tried->reaches) {
          judgement = judgements++;
          tried = judged(setting, changed, *judgement);
          if (!tried) continue;
        }
        if (tried->reaches) {
          reached.push_back(std::move(*tried));
          break;
        }
        if (!best || tried->gap > best->remedy.gap) best = Best{std::move(*tried), std::move(changed), std::move(keys), lever, judgement};
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
  if (reached.empty() && best && !stopped()) {
    const std::uint32_t judgement = best->judgement.value_or(0);
    const auto told = best->judgement ? best->remedy : judged(best->remedy.setting, best->changed, judgement);
    // What comes no nearer than the design as it is helps nobody.
    if (told && (afresh[judgement].empty() || told->gap > afresh[judgement].front().gap)) reached.push_back(*told);
  }
  std::stable_sort(reached.begin(), reached.end(),
                   [](const Remedy& a, const Remedy& b) { return a.cost_year < b.cost_year; });
  return reached;
}

std::string thrift_words(const Scenario& design, std::uint64_t random_seed, std::uint32_t years, const std::atomic<bool>* stop, PieceMemory* memory) {
  struct Year { double cost = 0.0, composted = 0.0, good = 0.0, fill_rate = 0.0, short_days = 0.0; std::uint64_t held = 0; };  // held: a bit a requirement
  if (design.line.sow == SowRule::as_wanted) return {};
  const auto played = [&](const Scenario& one, const Years& luck, const char* name) {
    return remembered(memory, fmt::format("thrift-{}-{}-{}", luck.first, luck.count, name), stop, [&] {
      const Plan plan = make_plan(one);
      const std::vector<Requirement> asked = requirements(one.target);
      Replicator replicator(plan);
      std::vector<Year> all;
      for (std::uint32_t year = 0; year < luck.count && !(stop != nullptr && stop->load()); ++year) {
        const Outcome& o = replicator.run(luck.random_seed, luck.first + year);
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
  // Empty where it does not save, or the target does not hold, in these years.
  const auto told_of = [&](const Years& luck) -> std::string {
    const std::vector<Year> before = played(design, luck, "none"), after = played(wanted, luck, "wanted");
    if (before.size() != luck.count || after.size() != luck.count) return {};
    Moments saved, composted, cost, fill_rate, fill_before, short_days, short_before;
    std::uint32_t good = 0, good_before = 0;
    for (std::uint32_t year = 0; year < luck.count; ++year) {
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
      return asked[r].kind != Requirement::Kind::share || static_cast<double>(held) >= asked[r].least * luck.count;
    };
    if (!(money.low > 0.0)) return {};
    for (std::size_t r = 0; r < asked.size(); ++r)
      if (!kept(r)) return {};
    if (fill_rate.mean() < target.mean_fill_rate.value_or(0.0) || cost.mean() > target.mean_yearly_cost.value_or(std::numeric_limits<double>::infinity())) return {};
    return fmt::format("sowing as many trays as are to be wanted (line.sow = \"as-wanted\") saves {:.0f} {} a year ({:.0f} to {:.0f}), with {:.0f} fewer sound mats composted; fodder served goes "
                       "from {:.1f} to {:.1f} %, short days a year from {:.1f} to {:.1f}; the target then {}",
                       money.mean, design.currency, money.low, money.high, composted.mean(), 100.0 * fill_before.mean(), 100.0 * fill_rate.mean(), short_before.mean(), short_days.mean(),
                       holds_words(good, good_before, luck.count, in_days(design.run.length) >= 365.0));
  };
  // Told of years in which it was not picked.
  if (told_of({random_seed, 0, years}).empty() || (stop != nullptr && stop->load())) return {};
  return told_of(fresh_years(design, random_seed, years, 0));
}

std::string holds_words(std::uint32_t good, std::uint32_t good_before, std::uint32_t years, bool whole_years) {
  const Estimate share = share_estimate(good, years);
  return fmt::format("holds in {} of {} other {} ({:.0f} to {:.0f} %; without it {:.0f} %)", good, years, whole_years ? "years" : "runs", 100.0 * share.low, 100.0 * share.high,
                     100.0 * good_before / std::max(1U, years));
}

std::string remedy_words(const Remedy& remedy, const std::string& currency, bool whole_years) {
  const std::string holds = holds_words(remedy.good, remedy.good_before, remedy.years, whole_years) + ", at " + money_words(remedy.cost_year, currency);
  if (remedy.reaches) return fmt::format("{}: the target {}", remedy.setting, holds);
  return fmt::format("no change that was tried {}; the best is {}, with which the target {}",
                     remedy.gap >= 0.0 ? "helps by more than luck may explain" : "is enough", remedy.setting, holds);
}

}  // namespace rackwright::study
