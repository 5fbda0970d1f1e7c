#include "sim/study/runway.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>

#include <fmt/format.h>

#include "models/base/expects.hpp"
#include "sim/scenario/read.hpp"
#include "sim/study/intervals.hpp"
#include "sim/study/levers.hpp"
#include "sim/study/moments.hpp"
#include "sim/study/paired.hpp"

namespace rackwright::study {
namespace {

constexpr int year = 365;

std::string date_words(const Run& run, int day) {
  constexpr const char* months[] = {"January", "February", "March",     "April",   "May",      "June",
                                    "July",    "August",   "September", "October", "November", "December"};
  const std::chrono::year_month_day date{std::chrono::sys_days(run.start) + std::chrono::days(day)};
  return fmt::format("{} {} {}", static_cast<unsigned>(date.day()), months[static_cast<unsigned>(date.month()) - 1],
                     static_cast<int>(date.year()));
}

double fill_between(std::span<const DailyRow> rows, int first, int last) {
  double wanted = 0.0, served = 0.0;
  for (int day = first; day < std::min(last, static_cast<int>(rows.size())); ++day) {
    wanted += rows[static_cast<std::size_t>(day)].wanted;
    served += rows[static_cast<std::size_t>(day)].served;
  }
  return wanted > 0.0 ? served / wanted : 1.0;
}

/// A record of every run, in order; fewer when stopped.
template <class Judge>
auto play(const Scenario& design, std::uint32_t first, std::uint32_t runs, const RunwayRequest& request, const std::string& name, const Judge& judge) {
  using Record = std::invoke_result_t<const Judge&, const Side&>;
  return remembered(request.memory, name, request.stop, [&] {
    const Plan plan = make_plan(design);
    std::vector<Record> records;
    const auto make_worker = [&] {
      return [&, only = LazyReplicator(plan)](std::uint32_t r) mutable {
        const Outcome outcome = (*only).run(request.random_seed, first + r);
        return judge(Side{outcome, (*only).daily()});
      };
    };
    in_blocks<Record>({request.random_seed, runs, request.threads, request.stop}, make_worker, [&](const Record& record) { records.push_back(record); });
    return records;
  });
}

/// The years of a run that were good, as one bit each: records are kept as bytes.
class Judged {
 public:
  Judged() = default;
  explicit Judged(const std::vector<std::uint8_t>& years) {
    EXPECTS(years.size() <= 64);
    for (std::size_t k = 0; k < years.size(); ++k) bits_ |= static_cast<std::uint64_t>(years[k]) << k;
  }
  [[nodiscard]] bool good(int k) const { return (bits_ >> k & 1U) != 0; }

 private:
  std::uint64_t bits_ = 0;
};

struct Trial { bool good = false; double cost = 0.0; };

constexpr double fill_rounding = 1e-9;

/// Share of years in which the fodder must be served as asked.
double years_asked(const Target& target) { return target.fill_rate_years.value_or(target.years); }

/// Runs in which an extension is looked for, and others in which it is judged.
std::uint32_t searched_runs(std::uint32_t replications) { return std::max(8U, replications / 2); }
std::uint32_t fresh_runs(std::uint32_t replications) { return 3 * searched_runs(replications); }

/// So many runs, from one of them on.
struct Runs { std::uint32_t first = 0, count = 0; };

/// The year that begins on `from`, with the extension in place from the start of the run.
std::vector<Trial> try_extension(Scenario design, int from, const std::string& words, const Runs& runs, const RunwayRequest& request) {
  design.run.length = days(from + year);
  return play(design, runs.first, runs.count, request, fmt::format("extension-{}-{}-{}", runs.first, runs.count, words), [&](const Side& side) {
    return Trial{fill_between(side.rows, from, from + year) >= design.target.fill_rate - fill_rounding,
                 side.outcome.cost_total * 365.0 / side.outcome.days};
  });
}

double good_share(const std::vector<Trial>& trials) {
  const auto good = std::count_if(trials.begin(), trials.end(), [](const Trial& trial) { return trial.good; });
  return trials.empty() ? 0.0 : static_cast<double>(good) / static_cast<double>(trials.size());
}

/// The herd as it will be, for the arithmetic of the screen.
Scenario grown_by(const Scenario& design, int day) {
  Scenario later = design;
  for (Group& group : later.groups) {
    group.stay = herd::later_start(group.stay, day);
    group.count = static_cast<int>(std::lround(group.count * std::pow(1.0 + group.growth, day / 365.0)));
  }
  return later;
}

using Named = std::pair<std::string, Scenario>;

/// Minutes of the keeper's in step with the trays, where they bound before: more trays take more hands.
Scenario with_hands(const Scenario& extended, const Scenario& design) {
  Scenario more = extended;
  const double trays = static_cast<double>(extended.line.trays_per_batch) / design.line.trays_per_batch;
  more.keeper.minutes_per_day = std::min(1440.0, std::ceil(design.keeper.minutes_per_day * std::max(1.0, trays)));
  if (auto& evening = more.keeper.evening_minutes) *evening = std::floor(*evening * more.keeper.minutes_per_day / design.keeper.minutes_per_day);
  return more;
}

/// What a keeper may do then: a design of the grid, more trays, a shorter cycle, a second rack; each with the hands there are, and with
/// more.
std::vector<Named> extensions(const Scenario& design, const std::vector<Named>& grid) {
  constexpr std::size_t most_of_grid = 8;
  std::vector<Named> all;
  const auto add = [&](const std::string& words, const Scenario& extended) {
    if (!check_scenario(extended).empty()) return;
    all.emplace_back(words, extended);
    const Scenario hands = with_hands(extended, design);
    std::vector<std::string> hands_keys{"keeper.minutes_per_day"};
    if (hands.keeper.evening_minutes != design.keeper.evening_minutes) hands_keys.emplace_back("keeper.evening_minutes");
    if (hands.keeper.minutes_per_day > design.keeper.minutes_per_day)
      all.emplace_back(words + " and " + change_words(design, hands, hands_keys), hands);
  };
  for (std::size_t i = 0; i < std::min(grid.size(), most_of_grid); ++i) add(grid[i].first, grid[i].second);
  const std::pair<Lever, const char*> levers[] = {{trays_and_places, ""}, {shorter_cycle, ""}, {second_rack, "a second rack beside it, with "}};
  for (const auto& [lever, before] : levers) {
    for (int step = 1; step <= lever_steps; ++step) {
      Scenario extended = design;
      const auto keys = lever(extended, step);
      if (keys.empty() || !writable(extended, keys)) break;
      add(before + change_words(design, extended, keys), extended);
    }
  }
  return all;
}

void find_extension(Runway& found, const Scenario& design, const std::vector<Named>& grid, const RunwayRequest& request) {
  const int from = std::max(found.outgrown, 0);
  const auto stopped = [&] { return request.stop != nullptr && request.stop->load(); };
  const auto more_than = [](const std::vector<Trial>& trials, const std::vector<Trial>& now) {
    Moments more;
    for (std::size_t k = 0; k < std::min(trials.size(), now.size()); ++k) more.add(trials[k].cost - now[k].cost);
    return more;
  };
  const Runs searched{0, searched_runs(request.replications)};
  const std::vector<Trial> now = try_extension(design, from, "none", searched, request);
  struct Enough { Named what; double more = 0.0; };
  std::vector<Enough> enough;
  for (Named& other : extensions(design, grid)) {
    if (stopped()) return;
    if (!screen(grown_by(other.second, from)).empty()) continue;
    const std::vector<Trial> trials = try_extension(other.second, from, other.first, searched, request);
    if (stopped()) return;
    if (good_share(trials) >= years_asked(design.target)) enough.push_back({std::move(other), more_than(trials, now).mean()});
  }
  std::stable_sort(enough.begin(), enough.end(), [](const Enough& a, const Enough& b) { return a.more < b.more; });
  // The cheapest of many that were enough may owe it to luck: each is judged, and the one told, on runs of its own that nothing else played.
  const std::uint32_t count = fresh_runs(request.replications);
  Runs fresh{std::max(request.replications, static_cast<std::uint32_t>(design.choose.most_replications)), count};
  for (const Enough& one : enough) {
    const std::vector<Trial> trials = try_extension(one.what.second, from, one.what.first, fresh, request);
    if (stopped()) return;
    if (good_share(trials) >= years_asked(design.target)) {
      found.extension_cost = mean_estimate(more_than(trials, try_extension(design, from, "none", fresh, request)));
      if (stopped()) return;
      found.extension = one.what.first;
      found.extension_success = good_share(trials);
      return;
    }
    fresh.first += count;
  }
}

}  // namespace

std::vector<std::uint8_t> good_years(std::span<const DailyRow> rows, double least) {
  std::vector<std::uint8_t> good;
  for (int first = 0; first + year <= static_cast<int>(rows.size()); first += year)
    good.push_back(fill_between(rows, first, first + year) >= least - fill_rounding ? 1 : 0);
  return good;
}

int outgrown_year(std::span<const Estimate> good, double asked) {
  const auto below = [asked](const Estimate& share) { return share.mean < asked; };
  for (std::size_t k = 0; k < good.size(); ++k)
    if (below(good[k]) && (good[k].high < asked || std::all_of(good.begin() + static_cast<std::ptrdiff_t>(k), good.end(), below))) return static_cast<int>(k);
  return -1;
}

bool grows(const Scenario& scenario) {
  return std::any_of(scenario.groups.begin(), scenario.groups.end(),
                     [&](const Group& group) {
                       const bool comes_later = group.stay.arrives >= in_days(scenario.run.length);
                       return group.count > 0 && (group.growth > 0.0 || comes_later);
                     });
}

Runway runway(const Scenario& design, const std::vector<std::pair<std::string, Scenario>>& others,
              const RunwayRequest& request) {
  EXPECTS(request.replications > 0);
  Scenario longer = design;
  const int years = static_cast<int>(std::ceil(in_days(design.choose.look_ahead) / year));
  longer.run.length = days(years * year);
  const auto runs = play(longer, 0, request.replications, request, "years", [&](const Side& side) {
    return Judged(good_years(side.rows, design.target.fill_rate));
  });
  if (runs.empty() || (request.stop != nullptr && request.stop->load())) return {};
  Runway found;
  found.look_ahead = years * year;
  found.replications = static_cast<std::uint32_t>(runs.size());
  for (int k = 0; k < years; ++k) {
    const auto good = std::count_if(runs.begin(), runs.end(), [k](const Judged& run) { return run.good(k); });
    found.good.push_back(share_estimate(static_cast<std::uint64_t>(good), runs.size()));
  }
  const int at = outgrown_year(found.good, years_asked(design.target));
  if (at < 0) return found;
  found.outgrown = at * year;
  find_extension(found, design, others, request);
  if (request.stop != nullptr && request.stop->load()) return {};  // of what was not tried nothing can be said
  return found;
}

std::string runway_words(const Runway& runway, const Scenario& design) {
  const std::string least = fmt::format("{:.4g} % of what is wanted", 100.0 * design.target.fill_rate);
  const std::string asked = fmt::format("{:.4g} %", 100.0 * years_asked(design.target));
  std::string each;
  for (std::size_t k = 0; k < runway.good.size(); ++k)
    each += fmt::format("{}{:.0f}", k == 0 ? "" : k + 1 == runway.good.size() ? " and " : ", ", 100.0 * runway.good[k].mean);
  const std::string all = runway.good.size() == 1 ? fmt::format("{} % of {} runs", each, runway.replications)
                                                  : fmt::format("year after year it does in {} % of {} runs", each, runway.replications);
  if (runway.outgrown < 0)
    return fmt::format("the rack stays large enough for the herd over the {} looked ahead: a year serves at least {} in {} of years or more, as [target] "
                       "asks ({})", runway.good.size() == 1 ? "year" : fmt::format("{} years", runway.good.size()), least, asked, all);
  const auto at = static_cast<std::size_t>(runway.outgrown / year);
  std::string words = fmt::format(
      "the herd outgrows the rack in year {}, from {} on: that year serves {} in {:.0f} % of runs, where [target] asks for {} ({})", at + 1,
      date_words(design.run, runway.outgrown), least, 100.0 * runway.good[at].mean, asked, all);
  if (runway.extension.empty()) return words + ". Nothing that was tried would be enough then: no design of the grid, no more trays, no "
                                                  "shorter cycle, no second rack, and no more hands with them";
  const std::uint32_t judged = fresh_runs(runway.replications);
  const Estimate enough = share_estimate(static_cast<std::uint64_t>(std::lround(runway.extension_success * judged)), judged);
  return words + fmt::format(". The cheapest change tried that is enough for the year from then on ({:.0f} % of {} other runs, {:.0f} to {:.0f}): {}, for "
                             "{:.0f} {} a year more ({:.0f} to {:.0f})", 100.0 * enough.mean, judged, 100.0 * enough.low, 100.0 * enough.high, runway.extension, runway.extension_cost.mean, design.currency, runway.extension_cost.low,
                             runway.extension_cost.high);
}

}  // namespace rackwright::study
