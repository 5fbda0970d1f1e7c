#include "sim/study/stress.hpp"

#include <algorithm>
#include <span>

#include "sim/scenario/fits.hpp"
#include "sim/study/intervals.hpp"

namespace rackwright::study {
namespace {

/// What a pair of runs differs by.
struct Apart { double short_days = 0.0, spoiled = 0.0, spoiled_fed = 0.0, unripe_fed = 0.0, fill_rate = 0.0, cost = 0.0, frozen = 0.0; };

/// Days of the run that count as the hard time's own.
struct Window { int first = 0, last = 0; };

struct Tally { double short_days = 0.0, spoiled = 0.0, wanted = 0.0, served = 0.0, frozen = 0.0; };

Tally tally(std::span<const DailyRow> rows, Window window) {
  Tally sum;
  for (int day = window.first; day < std::min(window.last, static_cast<int>(rows.size())); ++day) {
    const DailyRow& row = rows[static_cast<std::size_t>(day)];
    sum.short_days += static_cast<double>(row.signs.short_day);
    sum.spoiled += static_cast<double>(row.signs.sour) + static_cast<double>(row.signs.mould) + static_cast<double>(row.signs.frost);
    sum.wanted += static_cast<double>(row.wanted);
    sum.served += static_cast<double>(row.served);
    sum.frozen += static_cast<double>(row.signs.frost) + static_cast<double>(row.signs.frozen);
  }
  return sum;
}

Apart apart(const Side& a, const Side& b, Window window) {
  const Tally before = tally(a.rows, window), after = tally(b.rows, window);
  const auto fill = [](const Tally& t) { return t.wanted > 0.0 ? t.served / t.wanted : 1.0; };
  return {after.short_days - before.short_days, after.spoiled - before.spoiled,
          static_cast<double>(b.outcome.spoiled_fed - a.outcome.spoiled_fed),
          static_cast<double>(b.outcome.unripe_fed - a.outcome.unripe_fed), fill(after) - fill(before),
          b.outcome.cost_total - a.outcome.cost_total, after.frozen - before.frozen};
}

struct ApartMoments {
  Moments short_days{}, spoiled{}, spoiled_fed{}, unripe_fed{}, fill_rate{}, cost{};
  void add(const Apart& by) {
    short_days.add(by.short_days);
    spoiled.add(by.spoiled);
    spoiled_fed.add(by.spoiled_fed);
    unripe_fed.add(by.unripe_fed);
    fill_rate.add(by.fill_rate);
    cost.add(by.cost);
  }
  [[nodiscard]] Effects effects() const {
    return {mean_estimate(short_days), mean_estimate(spoiled), mean_estimate(spoiled_fed), mean_estimate(unripe_fed),
            mean_estimate(fill_rate), mean_estimate(cost)};
  }
};

constexpr int never = -1;
/// As it is kept: days of the run, or never.
struct Story {
  Apart by{};
  FirstSign sign{Sign{}, never};
  int short_day = never;
  Recovery recovered{};
};

Scenario struck_by(const Scenario& calm, const HardTime& hard) {
  Scenario s = calm;
  s.hard_times = {hard};
  return s;
}

class Study {
 public:
  Study(const Scenario& scenario, const StressRequest& request) : calm_(scenario), request_(request) {
    calm_.hard_times.clear();
    calm_.choose.choices.clear();
    calm_plan_ = make_plan(calm_);
  }

  /// By the design as written, whatever a countermeasure does to the days on the rack.
  [[nodiscard]] Window window_of(const HardTime& hard) const {
    return {std::max(0, static_cast<int>(hard.first_day)), shows_until(calm_, hard) + 15};
  }

  [[nodiscard]] bool stopped() const { return request_.pairs.stop != nullptr && request_.pairs.stop->load(); }

  Struck strike(const Planned& planned) const {
    Struck out{planned.hard, planned.own};
    out.why_not = cannot_strike(calm_, planned.hard);
    if (!out.why_not.empty()) return out;
    const int first = static_cast<int>(planned.hard.first_day), until = shows_until(calm_, planned.hard);
    const double tolerance = calm_.feed.tolerance;
    const auto judge = [&](const Side& usual, const Side& struck) {
      return Story{apart(usual, struck, window_of(planned.hard)), first_sign(usual.rows, struck.rows, first, until).value_or(FirstSign{Sign{}, never}),
                   study::first_short(usual.rows, struck.rows, first, tolerance).value_or(never),
                   recovery(usual.rows, struck.rows, first, until, tolerance)};
    };
    ApartMoments by;
    Moments recovered, sign_day, short_day;
    double frozen = 0.0;
    const auto stories = remembered_pairs<Story>(label(planned) + " and its frost", judge, [&] {
      return std::pair{calm_plan_, make_plan(struck_by(calm_, planned.hard))};
    });
    out.replications = static_cast<std::uint32_t>(stories.size());
    for (const Story& story : stories) {
      by.add(story.by);
      recovered.add(story.recovered.days);
      out.not_over += story.recovered.over ? 0.0 : 1.0;
      frozen += story.by.frozen > 0.0 ? 1.0 : 0.0;
      if (story.short_day != never) short_day.add(story.short_day - first);
      if (story.sign.day == never) continue;
      out.first[static_cast<std::size_t>(story.sign.sign)] += 1.0;
      sign_day.add(story.sign.day - first);
    }
    const double count = std::max(1.0, static_cast<double>(out.replications));
    for (double& share : out.first) share /= count;
    out.not_over /= count;
    constexpr double often = 0.1;
    out.freezes = frozen >= often * count;
    out.any_short = static_cast<double>(short_day.count()) / count;
    out.effects = by.effects();
    out.recovery = mean_estimate(recovered);
    out.first_day = mean_estimate(sign_day);
    out.first_short = mean_estimate(short_day);
    if (planned.hard.kind == HardTimeKind::heat_wave && !stopped())
      out.limit = limit_of(label(planned), struck_by(calm_, planned.hard));
    return out;
  }

  Trial attempt(const Planned& planned, std::size_t number, Countermeasure what) const {
    const HardTime& hard = planned.hard;
    Trial out{number, std::move(what)};
    auto design = changed(calm_, out.what.settings);
    if (const auto* problems = std::get_if<Problems>(&design)) {
      out.why_not = problems->front().key + " " + problems->front().why;
      return out;
    }
    if (const auto why = what_does_not_fit(std::get<Scenario>(design)); !why.empty() && what_does_not_fit(calm_).empty()) {
      out.why_not = why.front();
      return out;
    }
    const Scenario helped = struck_by(std::get<Scenario>(design), hard);
    ApartMoments by;
    const Window window = window_of(hard);
    const auto judge = [window](const Side& a, const Side& b) { return apart(a, b, window); };
    const std::string name = label(planned) + " helped by " + std::string(out.what.name);
    const auto differences = remembered_pairs<Apart>(name, judge, [&] {
      return std::pair{make_plan(struck_by(calm_, hard)), make_plan(helped)};
    });
    for (const Apart& difference : differences) by.add(difference);
    out.replications = static_cast<std::uint32_t>(differences.size());
    out.effects = by.effects();
    if (hard.kind == HardTimeKind::heat_wave && !stopped()) out.limit = limit_of(name, helped);
    return out;
  }

 private:
  /// What its runs are remembered by. One of the keeper's own may be called as a usual one is.
  [[nodiscard]] static std::string label(const Planned& planned) { return (planned.own ? "own " : "usual ") + planned.hard.name; }

  /// A record of every pair of runs, in order; fewer when stopped. `plans()` is asked only when they are to be played.
  template <class Record, class Judge, class MakePlans>
  std::vector<Record> remembered_pairs(const std::string& name, const Judge& judge, const MakePlans& plans) const {
    return remembered(request_.memory, "pairs " + name, request_.pairs.stop, [&] {
      const std::pair<Plan, Plan> two = plans();
      std::vector<Record> records;
      paired_runs(two.first, two.second, request_.pairs, judge, [&](const Record& record) { records.push_back(record); });
      return records;
    });
  }

  [[nodiscard]] HeatLimit limit_of(const std::string& name, const Scenario& struck) const {
    return remembered(request_.memory, "limit " + name, request_.pairs.stop,
                      [&] { return std::vector{heat_limit(struck, request_.pairs)}; }).front();
  }

  Scenario calm_;
  const StressRequest& request_;
  Plan calm_plan_{};
};

/// Places by short days, then by fill; and by cost.
void rank(std::vector<Trial>& trials) {
  std::vector<Trial*> tried;
  for (Trial& t : trials)
    if (t.why_not.empty()) tried.push_back(&t);
  const auto place = [&](int Trial::*member, auto before) {
    std::stable_sort(tried.begin(), tried.end(), [&](const Trial* a, const Trial* b) { return before(*a, *b); });
    for (std::size_t i = 0; i < tried.size(); ++i) tried[i]->*member = static_cast<int>(i) + 1;
  };
  place(&Trial::by_cost, [](const Trial& a, const Trial& b) { return a.effects.cost.mean < b.effects.cost.mean; });
  place(&Trial::by_service, [](const Trial& a, const Trial& b) {
    const auto key = [](const Trial& t) { return std::pair{t.effects.short_days.mean, -t.effects.fill_rate.mean}; };
    return key(a) < key(b);
  });
  std::stable_sort(trials.begin(), trials.end(), [](const Trial& a, const Trial& b) {
    return (a.by_service == 0 ? 1000 : a.by_service) < (b.by_service == 0 ? 1000 : b.by_service);
  });
}

std::vector<Planned> asked_for(const Scenario& scenario, const std::vector<std::string>& names) {
  std::vector<Planned> all = hard_list(scenario);
  if (names.empty()) return all;
  std::erase_if(all, [&](const Planned& p) { return std::find(names.begin(), names.end(), p.hard.name) == names.end(); });
  return all;
}

}  // namespace

StressResult stress(const Scenario& scenario, const StressRequest& request) {
  StressResult result;
  const Study study(scenario, request);
  const std::vector<Planned> planned = asked_for(scenario, request.names);
  std::size_t steps = planned.size(), done = 0;
  const auto what_may_help = [&](const Planned& p, bool freezes) { return countermeasures(scenario, p.hard.kind, middle_of(p.hard), freezes); };
  for (const Planned& p : planned) steps += what_may_help(p, false).size();
  const auto tell = [&](const std::string& stage) {
    ++done;
    if (request.progress) request.progress(stage, done, steps);
  };
  for (const Planned& p : planned) {
    if (study.stopped()) break;
    Struck struck = study.strike(p);
    const std::size_t number = result.hard_times.size();
    std::vector<Trial> trials;
    if (struck.freezes) steps += what_may_help(p, true).size() - what_may_help(p, false).size();
    tell("hard times");
    for (Countermeasure& what : what_may_help(p, struck.freezes)) {
      if (!struck.why_not.empty() || study.stopped()) break;
      trials.push_back(study.attempt(p, number, std::move(what)));
      tell("hard times");
    }
    if (study.stopped()) break;  // half a hard time is told as none
    rank(trials);
    result.hard_times.push_back(std::move(struck));
    result.trials.insert(result.trials.end(), trials.begin(), trials.end());
  }
  result.stopped = study.stopped();
  return result;
}

}  // namespace rackwright::study
