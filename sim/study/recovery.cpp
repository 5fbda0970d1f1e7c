#include "sim/study/recovery.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "sim/replication/plan.hpp"
#include "sim/scenario/units.hpp"
#include "sim/study/intervals.hpp"
#include "sim/study/line_today.hpp"
#include "sim/study/moments.hpp"

namespace rackwright::study {
namespace {

/// The next sowings that can still be put to soak, in order.
std::vector<std::pair<int, int>> next_sowings(const Scenario& s, const Opening& opening, int count) {
  std::vector<std::pair<int, int>> all;
  for (int day = 0; static_cast<int>(all.size()) < count; ++day) {
    for (int session = 0; session < s.line.batches_per_day && static_cast<int>(all.size()) < count; ++session) {
      const double clock = (session == 0 ? s.keeper.morning : s.keeper.evening).value();
      const double put = 60.0 * (24.0 * day + clock - s.line.soak.value());
      if (put >= static_cast<double>(opening.now)) all.emplace_back(day, session);
    }
  }
  return all;
}

class Mover {
 public:
  Mover(const Scenario& s, const Opening& opening, double ahead)
      : s_(s), opening_(opening), count_(std::max(1, static_cast<int>(std::lround(std::abs(ahead))))), usual_(s.line.trays_per_batch), trays_(usual_trays(s, opening, 0, days_ahead)) {}

  std::vector<Move> behind() {
    for (const int younger : {1, 2}) {
      if (younger < s_.line.days_on_rack - 2) add_younger(younger);
    }
    sow(count_, 2.0, 1.0, count_ == 1 ? std::string("sow double in the next sowing") : fmt::format("sow double in the next {} sowings", count_));
    if (usual_ > 1) sow(2 * count_, 1.5, 1.0, fmt::format("sow half as many trays again in the next {} sowings", 2 * count_));
    for (const double charge : {1.15, 1.3}) charged(charge, "thicker");
    warm();
    ration(true);
    ration(false);
    return std::move(moves_);
  }

  std::vector<Move> ahead() {
    sow(count_, 0.0, 1.0, count_ == 1 ? std::string("skip the next sowing") : fmt::format("skip the next {} sowings", count_));
    sow(2 * count_, 0.5, 1.0, fmt::format("sow half as many trays in the next {} sowings", 2 * count_));
    for (const double charge : {0.85, 0.7}) charged(charge, "thinner");
    return std::move(moves_);
  }

 private:
  Course& add(std::string what) { return moves_.emplace_back(Move{std::move(what), opening_.course}).course; }
  [[nodiscard]] int a_turn() const { return s_.line.days_on_rack; }

  void add_younger(int younger) {
    Course& course = add(fmt::format("harvest {} day{} younger for {} days", younger, younger == 1 ? "" : "s", a_turn()));
    course.days = a_turn();
    course.younger = younger;
    course.ready = s_.line.ready * (s_.line.days_on_rack - younger) / s_.line.days_on_rack;
  }

  // So many times as many trays as usual; of an odd number half more is rounded up, half as many down.
  void sow(int sowings, double times, double charge, std::string what) {
    Course& course = add(std::move(what));
    for (const auto& [day, session] : next_sowings(s_, opening_, sowings)) {
      const int sowing = std::min(day, days_ahead) * s_.line.batches_per_day + session;
      const double trays = times * trays_.at(static_cast<std::size_t>(sowing));
      course.sowings.push_back({day, session, static_cast<int>(times > 1.0 ? std::ceil(trays) : std::floor(trays)), charge, {}});
    }
  }

  void charged(double charge, const char* how) {
    const std::string density = write_quantity(charge * s_.line.sowing_density.value(), "kg/m2", s_.units == Units::us, 3);
    sow(a_turn() * s_.line.batches_per_day, 1.0, charge, fmt::format("sow {}, {}, for {} days", how, density, a_turn()));
  }

  // A mat grows fast at this warmth, and mould not yet at its fastest (assumed).
  void warm() {
    constexpr double warm = 24.0, borrowed_watts = 1000.0;
    const bool there = s_.room.heater.value() > 0.0;
    const double set = s_.room.heater_set.value();
    if (there && set >= warm) return;
    const std::string at = write_quantity(warm, "degC", s_.units == Units::us, 3);
    Course& course = add(there ? fmt::format("set the heater to {} for {} days", at, a_turn())
                                                      : fmt::format("put in a heater of {:.0f} W, set to {}, for {} days", borrowed_watts, at, a_turn()));
    course.days = a_turn();
    course.warmer = Kelvins(warm - set);
    if (!there) course.heater = Watts(borrowed_watts);
  }

  // What is missing, spread evenly over the time until the gap has been eaten.
  void ration(bool hay) {
    const double share = std::max(0.3, 1.0 - static_cast<double>(count_) / (a_turn() * s_.line.batches_per_day));
    Course& course = add(fmt::format("give {:.0f} % of the ration for {} days, {}", 100.0 * share, a_turn(), hay ? "reserve feed for the rest" : "nothing for the rest"));
    course.days = a_turn();
    course.ration = share;
    course.reserve = hay;
  }

  const Scenario& s_;
  const Opening& opening_;
  static constexpr int days_ahead = 60;
  int count_, usual_;
  std::vector<int> trays_;  ///< batch after batch
  std::vector<Move> moves_;
};

enum Figure : std::size_t { money, loss, shorts, missing, asked, figures };
using Figures = std::array<double, figures>;

Figures figures_of(const Plan& plan, const Outcome& o) {
  const Scenario& s = plan.scenario;
  const double by_hay = s.feed.hay.dry_matter / plan.standard_dry_matter;  // fresh fodder that a kilogram of hay stands for
  const double unfed = std::max(0.0, o.wanted - o.served - o.reserve_feed * by_hay);
  const double growing = o.trays_on_rack * plan.grain_per_tray * s.grains.front().price();
  return {o.cost_total, o.cost_total + unfed / by_hay * s.prices.reserve_per_kg - growing, static_cast<double>(o.short_feedings),
          o.wanted - o.served, o.wanted};
}

}  // namespace

std::vector<Move> moves(const Scenario& scenario, const Opening& opening, double ahead) {
  if (std::abs(ahead) < 0.5) return {};
  Mover mover(scenario, opening, ahead);
  return ahead < 0.0 ? mover.behind() : mover.ahead();
}

void rank(Recovery& recovery) {
  using Verdict = Tried::Verdict;
  constexpr double small = 0.01;
  const double worth_kg = small * std::max(recovery.wanted_a_day, recovery.missing.mean), worth_meals = std::max(0.1, small * recovery.short_feedings.mean);
  const auto more = [](const Estimate& e, double worth) { return e.low > 0.0 && e.mean > worth; };
  const auto less = [](const Estimate& e, double worth) { return e.high < 0.0 && e.mean < -worth; };
  for (Tried& tried : recovery.tried) {
    // Fewer short meals with more missing in the rest, or the other way round, is neither better nor worse.
    const bool worse = more(tried.missing, worth_kg) || more(tried.short_feedings, worth_meals);
    const bool better = less(tried.missing, worth_kg) || less(tried.short_feedings, worth_meals);
    tried.verdict = worse && better ? Verdict::both_ways : worse ? Verdict::feeds_less : better ? Verdict::feeds_more : Verdict::alike;
  }
  const double step = std::max(worth_kg, 1e-9);
  std::stable_sort(recovery.tried.begin(), recovery.tried.end(), [step](const Tried& a, const Tried& b) {
    if (a.verdict != b.verdict) return a.verdict < b.verdict;
    const double lacks_a = std::round(a.missing.mean / step), lacks_b = std::round(b.missing.mean / step);
    if (a.verdict != Verdict::alike && lacks_a != lacks_b) return lacks_a < lacks_b;
    return a.loss.mean < b.loss.mean;
  });
}

Recovery recover(const Scenario& scenario, const Opening& opening, double ahead, const PairRequest& request) {
  const std::vector<Move> all = moves(scenario, opening, ahead);
  std::vector<Plan> plans{make_plan(scenario, opening)};
  for (const Move& move : all) {
    Opening changed = opening;
    changed.course = move.course;
    plans.push_back(make_plan(scenario, changed));
  }
  Recovery recovery;
  recovery.days = plans.front().horizon_days;
  using Record = std::vector<Figures>;
  const auto make_worker = [&] {
    std::vector<LazyReplicator> replicators(plans.begin(), plans.end());
    return [&plans, seed = request.random_seed, replicators = std::move(replicators)](std::uint32_t r) mutable {
      Record record;
      for (std::size_t p = 0; p < plans.size(); ++p) record.push_back(figures_of(plans[p], (*replicators[p]).run(seed, r)));
      return record;
    };
  };
  std::vector<std::array<Moments, figures>> changes(all.size());
  std::array<Moments, figures> usual;
  recovery.replications = in_blocks<Record>(request, make_worker, [&](const Record& record) {
    for (std::size_t f = 0; f < figures; ++f) {
      usual[f].add(record[0][f]);
      for (std::size_t m = 0; m < all.size(); ++m) changes[m][f].add(record[m + 1][f] - record[0][f]);
    }
  });
  recovery.short_feedings = mean_estimate(usual[shorts]);
  recovery.missing = mean_estimate(usual[missing]);
  for (std::size_t m = 0; m < all.size(); ++m) {
    const auto& c = changes[m];
    recovery.tried.push_back({all[m].what, mean_estimate(c[money]), mean_estimate(c[loss]), mean_estimate(c[shorts]), mean_estimate(c[missing])});
  }
  recovery.wanted_a_day = usual[asked].mean() / recovery.days;
  rank(recovery);
  return recovery;
}

}  // namespace rackwright::study
