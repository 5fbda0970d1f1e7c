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

constexpr int window = 28;
constexpr int settled_year = 365;      // an extension must be enough for so long after the date

std::string date_words(const Run& run, int day) {
  constexpr const char* months[] = {"January", "February", "March",     "April",   "May",      "June",
                                    "July",    "August",   "September", "October", "November", "December"};
  const std::chrono::year_month_day date{std::chrono::sys_days(run.start) + std::chrono::days(day)};
  return fmt::format("{} {} {}", static_cast<unsigned>(date.day()), months[static_cast<unsigned>(date.month()) - 1],
                     static_cast<int>(date.year()));
}

/// Day that a share p of the runs has reached by; -1 when fewer have become too small at all.
int quantile(std::vector<int> days, double p) {
  for (int& day : days) day = day < 0 ? INT32_MAX : day;
  std::sort(days.begin(), days.end());
  const auto rank = static_cast<std::size_t>(std::ceil(p * static_cast<double>(days.size())));
  const int day = days[std::max<std::size_t>(rank, 1) - 1];
  return day == INT32_MAX ? -1 : day;
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
auto play(const Scenario& design, std::uint32_t runs, const RunwayRequest& request, const std::string& name, const Judge& judge) {
  using Record = std::invoke_result_t<const Judge&, const Side&>;
  return remembered(request.memory, name, request.stop, [&] {
    const Plan plan = make_plan(design);
    std::vector<Record> records;
    single_runs(plan, {request.random_seed, runs, request.threads, request.stop}, judge,
                [&](const Record& record) { records.push_back(record); });
    return records;
  });
}

struct Trial { bool good = false; double cost = 0.0; };

/// The year that begins on `from`, with the extension in place from the start of the run.
std::vector<Trial> try_extension(Scenario design, int from, const std::string& words, const RunwayRequest& request) {
  design.run.length = days(from + settled_year);
  return play(design, std::max(8U, request.replications / 2), request, "extension-" + words, [&](const Side& side) {
    return Trial{fill_between(side.rows, from, from + settled_year) >= design.target.fill_rate,
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
    if (hands.keeper.minutes_per_day > design.keeper.minutes_per_day)
      all.emplace_back(words + " and " + change_words(design, hands, {"keeper.minutes_per_day"}), hands);
  };
  for (std::size_t i = 0; i < std::min(grid.size(), most_of_grid); ++i) add(grid[i].first, grid[i].second);
  const std::pair<Lever, const char*> levers[] = {{trays_and_places, ""}, {shorter_cycle, ""}, {second_rack, "a second rack beside it, with "}};
  for (const auto& [lever, before] : levers) {
    for (int step = 1; step <= lever_steps; ++step) {
      Scenario extended = design;
      const auto keys = lever(extended, step);
      if (keys.empty()) break;
      add(before + change_words(design, extended, keys), extended);
    }
  }
  return all;
}

void find_extension(Runway& found, const Scenario& design, const std::vector<Named>& grid, const RunwayRequest& request) {
  const int from = std::max(found.days[1], 0);
  const std::vector<Trial> now = try_extension(design, from, "none", request);
  double least = 0.0;
  for (const auto& [words, other] : extensions(design, grid)) {
    if (request.stop != nullptr && request.stop->load()) return;
    if (!screen(grown_by(other, from)).empty()) continue;
    const std::vector<Trial> trials = try_extension(other, from, words, request);
    if (request.stop != nullptr && request.stop->load()) return;
    if (good_share(trials) < design.target.years) continue;
    Moments more;
    for (std::size_t k = 0; k < std::min(trials.size(), now.size()); ++k) more.add(trials[k].cost - now[k].cost);
    if (!found.extension.empty() && more.mean() >= least) continue;
    least = more.mean();
    found.extension = words;
    found.extension_success = good_share(trials);
    found.extension_cost = mean_estimate(more);
  }
}

}  // namespace

int too_small_from(std::span<const DailyRow> rows, double least, int tail) {
  double wanted = 0.0, served = 0.0;
  int since = -1;
  const int days = static_cast<int>(rows.size());
  for (int day = 0; day < days; ++day) {
    const auto& row = rows[static_cast<std::size_t>(day)];
    wanted += row.wanted;
    served += row.served;
    if (day >= window) {
      wanted -= rows[static_cast<std::size_t>(day - window)].wanted;
      served -= rows[static_cast<std::size_t>(day - window)].served;
    }
    if (day < window - 1) continue;
    if (served >= least * wanted - 1e-6) since = -1;
    else if (since < 0) since = day;
  }
  return since >= 0 && days - since >= tail ? since : -1;
}

bool grows(const Scenario& scenario) {
  return std::any_of(scenario.groups.begin(), scenario.groups.end(),
                     [](const Group& group) { return group.growth > 0.0 && group.count > 0; });
}

Runway runway(const Scenario& design, const std::vector<std::pair<std::string, Scenario>>& others,
              const RunwayRequest& request) {
  EXPECTS(request.replications > 0);
  Scenario longer = design;
  longer.run.length = days(std::ceil(in_days(design.choose.look_ahead)));
  const std::vector<int> dates = play(longer, request.replications, request, "outgrown", [&](const Side& side) {
    return too_small_from(side.rows, design.target.fill_rate);
  });
  if (dates.empty() || (request.stop != nullptr && request.stop->load())) return {};
  Runway found;
  found.look_ahead = static_cast<int>(in_days(longer.run.length));
  found.replications = static_cast<std::uint32_t>(dates.size());
  found.share = share_estimate(static_cast<std::uint64_t>(std::count_if(dates.begin(), dates.end(), [](int d) { return d >= 0; })),
                               dates.size());
  found.days = {quantile(dates, 0.1), quantile(dates, 0.5), quantile(dates, 0.9)};
  if (found.days[1] >= 0) find_extension(found, design, others, request);
  return found;
}

std::string runway_words(const Runway& runway, const Scenario& design) {
  const double years = runway.look_ahead / 365.0;
  const std::string least = fmt::format("{:.4g} %", 100.0 * design.target.fill_rate);
  if (runway.days[1] < 0) {
    return fmt::format("the rack stays large enough for the growing herd in {:.3g} % of runs over the {:.3g} years looked "
                       "ahead (too small: from some day on, what the last four weeks served stays below {})",
                       100.0 * (1.0 - runway.share.mean), years, least);
  }
  const auto date = [&](int day) { return day < 0 ? "after the years looked ahead" : date_words(design.run, day); };
  std::string words = fmt::format(
      "the herd outgrows the rack about {} (one run in ten by {}, nine in ten by {}): from then on what the last four weeks "
      "served stays below {}", date(runway.days[1]), date(runway.days[0]), date(runway.days[2]), least);
  if (runway.extension.empty()) return words + ". Nothing that was tried would be enough then: no design of the grid, no more trays, no "
                                                  "shorter cycle, no second rack, and no more hands with them";
  return words + fmt::format(". The cheapest change tried that is enough for the year from then on ({:.0f} % of runs): {}, for "
                             "{:.0f} {} a year more ({:.0f} to {:.0f})", 100.0 * runway.extension_success, runway.extension,
                             runway.extension_cost.mean, design.currency, runway.extension_cost.low,
                             runway.extension_cost.high);
}

}  // namespace rackwright::study
