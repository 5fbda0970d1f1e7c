// Curves of the pages on rules of work, of chance and of counting. Points that are not published values are games played, and say so.
#include <algorithm>
#include <cmath>
#include <functional>
#include <tuple>

#include <boost/math/distributions/beta.hpp>
#include <fmt/format.h>

#include "models/design/rack.hpp"
#include "models/feed/value.hpp"
#include "models/grain/species.hpp"
#include "models/grain/store.hpp"
#include "models/route/stations.hpp"
#include "sim/kernel/queue_models.hpp"
#include "sim/random/beta_gamma.hpp"
#include "sim/random/laws.hpp"
#include "sim/random/philox_stream.hpp"
#include "sim/study/intervals.hpp"
#include "tests/reference/table/curves_parts.hpp"
#include "tests/reference/table/steady.hpp"

namespace rackwright::validation {
namespace {

void chores_marks(Marks& out) {
  for (const auto& [handling, name] : {std::pair{route::Handling::fixed, "fixed places"}, std::pair{route::Handling::ladder, "ladder: every tray moves a place a day"}})
    line(out, "chores", name, 1.0, 24.0, [h = handling](double trays) {
      route::SessionWork work;
      const int whole = static_cast<int>(std::lround(trays));
      work.trays_sown = work.trays_harvested = work.trays_washed = whole;
      work.trays_moved = h == route::Handling::ladder ? 8 * whole : 0;
      work.groups_fed = 3;
      work.batches_soaked = 1;
      return route::session_minutes({}, work);
    });
  // By hand: 3 + 2 + 9 for soaking, draining and feeding, 5.5 a tray, and 8 moves of a quarter minute on a ladder.
  point(out, "chores", "fixed places", 8, 14.0 + 8 * 5.5);
  point(out, "chores", "ladder: every tray moves a place a day", 8, 14.0 + 8 * 7.5);
}

void design_marks(Marks& out) {
  for (const double ratio : {4.0, 5.0, 6.0})
    line(out, "design", fmt::format("{} kg of mat per kg of grain", ratio), 2.0, 8.0, [ratio](double density) {
      return design::mat_load(KilogramsPerSquareMetre(density), ratio).value() + 4.0;
    });
  point(out, "design", "5 kg of mat per kg of grain", 5.5, 27.5 + 4.5, 1.5);  // a film of 3 to 6 kg/m2, common practice
}

void feed_marks(Marks& out) {
  const auto protein = [](double of_grain) {
    return [of_grain](double lost) {
      const auto mat = feed::mat(Kilograms(1), 0.89, lost / 100.0, 0.1, {of_grain, 13.0});
      return 100.0 * mat.crude_protein / mat.dry_matter;
    };
  };
  for (const auto& [species, seen] : {std::pair{"barley", 14.1}, std::pair{"wheat", 14.8}, std::pair{"oat", 13.0}, std::pair{"rye", 11.1}}) {
    const double of_grain = grain::find_species(species)->crude_protein;
    const std::string name = fmt::format("{}, {:g} % in the grain", species, 100.0 * of_grain);
    line(out, "feed", name, 0.0, 30.0, protein(of_grain));
    point(out, "feed", name, 100.0 * mat_in(species, 20.0, 7.0).dry_matter_loss, seen, 1.0);
  }
}

// Erlang's delay formula.
double share_that_waits(int servers, double erlang) {
  double loss = 1.0;
  for (int n = 1; n <= servers; ++n) loss = erlang * loss / (n + erlang * loss);
  return servers * loss / (servers - erlang * (1.0 - loss));
}

void queue_marks(Marks& out) {
  for (const int servers : {1, 2, 5, 10}) {
    const std::string name = fmt::format("{} server{}", servers, servers == 1 ? "" : "s");
    line(out, "queue", name, 0.02, 0.98, [servers](double rho) { return share_that_waits(servers, rho * servers); });
    for (const double rho : {0.3, 0.6, 0.9}) {
      random::Stream luck(random::make_key(20261127, static_cast<std::uint64_t>(servers)), random::Purpose::test, static_cast<std::uint32_t>(100.0 * rho));
      const kernel::QueueModel model{servers, rho * servers, 1.0, kernel::ServiceLaw::exponential};
      kernel::QueuePlan plan = kernel::plan_for(model);
      plan.batch = std::max<decltype(plan.batch)>(1, plan.batch / 20);
      const kernel::QueueResult played = kernel::run_queue(model, plan, luck);
      point(out, "queue", name, rho, played.wait_probability.mean, 2.0 * played.wait_probability.standard_error);
    }
  }
}

void random_marks(Marks& out) {
  constexpr int draws = 20000;
  const auto played = [&](const char* name, std::uint32_t entity, const std::function<double(random::Stream&)>& draw, double from, double to) {
    random::Stream luck(random::make_key(20261128, 0), random::Purpose::test, entity);
    std::vector<double> values;
    for (int i = 0; i < draws; ++i) values.push_back(draw(luck));
    std::sort(values.begin(), values.end());
    for (int i = 1; i < 12; ++i) {
      const double x = from + (to - from) * i / 12;
      const auto below = std::lower_bound(values.begin(), values.end(), x) - values.begin();
      point(out, "random", name, x, static_cast<double>(below) / draws);
    }
  };
  const auto normal = [](double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); };
  line(out, "random", "beta, mean 0.9, over-dispersion 0.01", 0.75, 1.0, [](double x) {
    return x >= 1.0 ? 1.0 : boost::math::cdf(boost::math::beta_distribution<double>(0.9 * 99.0, 0.1 * 99.0), x);
  });
  played("beta, mean 0.9, over-dispersion 0.01", 1, [](random::Stream& s) { return random::beta(s, 0.9, 0.01); }, 0.75, 1.0);
  line(out, "random", "lognormal, median 1, 0.3", 0.3, 2.0, [&](double x) { return normal(std::log(x) / 0.3); });
  played("lognormal, median 1, 0.3", 2, [](random::Stream& s) { return std::exp(0.3 * random::normal(s)); }, 0.3, 2.0);
  line(out, "random", "exponential, mean 0.5", 0.0, 2.0, [](double x) { return 1.0 - std::exp(-2.0 * x); });
  played("exponential, mean 0.5", 3, [](random::Stream& s) { return random::exponential(s, 0.5); }, 0.0, 2.0);
}

void sizing_marks(Marks& out) {
  for (const double error : {0.05, 0.01})
    line(out, "sizing", fmt::format("at {} % error", 100.0 * error), 0.5, 0.995, [error](double share) { return std::ceil(std::log(error) / std::log(share)); });
  for (const auto& [share, years] : {std::pair{0.90, 29.0}, std::pair{0.95, 59.0}, std::pair{0.99, 299.0}}) point(out, "sizing", "at 5 % error", share, years);
}

void statistics_marks(Marks& out) {
  for (const double share : {0.9, 0.5}) {
    const auto limit = [share](bool high) {
      return [=](double trials) {
        // Whole numbers of trials with a whole number of successes.
        const auto n = static_cast<std::uint64_t>(10.0 * std::ceil(trials / 10.0));
        const study::Interval found = study::clopper_pearson(static_cast<std::uint64_t>(std::lround(share * static_cast<double>(n))), n);
        return high ? found.high : found.low;
      };
    };
    line(out, "statistics", fmt::format("seen {}, upper", share), 10.0, 400.0, limit(true));
    line(out, "statistics", fmt::format("seen {}, lower", share), 10.0, 400.0, limit(false));
  }
  point(out, "statistics", "seen 0.9, upper", 400, 0.9276);
  point(out, "statistics", "seen 0.9, lower", 400, 0.8663);
}

void stock_marks(Marks& out) {
  // The rule day by day: use, delivery after three days, review.
  const grain::StorePolicy rule;
  double stock = 200.0, coming = 0.0;
  int arrives = -1;
  for (int day = 0; day <= 90; ++day) {
    if (day == arrives) {
      stock += coming;
      coming = 0.0;
    }
    out.push_back({"store", "on hand", false, static_cast<double>(day), stock, 0.0});
    out.push_back({"store", "reorder point", false, static_cast<double>(day), rule.reorder_point.value(), 0.0});
    const double order = grain::order_quantity(rule, Kilograms(stock), Kilograms(coming)).value();
    if (order > 0.0) {
      coming = order;
      arrives = day + 3;
      out.push_back({"store", "order placed", true, static_cast<double>(day), stock, 0.0});
    }
    stock = std::max(0.0, stock - 6.0);
  }
}

}  // namespace

void work_marks(Marks& out) {
  for (const auto add : {chores_marks, design_marks, feed_marks, queue_marks, random_marks, sizing_marks, statistics_marks, stock_marks}) add(out);
}

}  // namespace rackwright::validation
