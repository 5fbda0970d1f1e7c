#include "sim/study/influence.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string_view>
#include <type_traits>
#include <utility>
#include <variant>

#include "models/base/expects.hpp"
#include "sim/replication/columns.hpp"
#include "sim/replication/plan.hpp"
#include "sim/scenario/key_table.hpp"
#include "sim/scenario/key_text.hpp"
#include "sim/scenario/read.hpp"
#include "sim/study/intervals.hpp"
#include "sim/study/moments.hpp"
#include "sim/study/run.hpp"

namespace rackwright::study {
namespace {

/// A scenario with one key turned down and one with it turned up, and what to say about it.
struct Dial {
  Influence said;
  Scenario less, more;
};

/// Halving a temperature in degC would mean nothing.
bool is_assumed(const keys::KeyInfo& key) {
  return key.kind == keys::Kind::real && key.source.starts_with("assumed") && key.instead_of.empty() && key.unit != "degC";
}

/// A share between nothing and all of something.
bool is_share(const keys::KeyInfo& key) { return key.unit == "1" && key.least >= 0.0 && key.most == 1.0; }

/// Three digits are enough for a value that stands for "about twice".
double three_digits(double value) {
  if (value == 0.0 || !std::isfinite(value)) return value;
  const double power = std::pow(10.0, 2.0 - std::floor(std::log10(std::abs(value))));
  return std::round(value * power) / power;
}

/// Half or double; of a share half or double the odds. Nothing where that changes nothing.
std::optional<double> turned(const keys::KeyInfo& key, double value, double factor) {
  double to = factor * value;
  if (is_share(key)) {
    if (value <= 0.0 || value >= 1.0) return std::nullopt;
    const double odds = factor * value / (1.0 - value);
    to = odds / (1.0 + odds);
  }
  to = std::clamp(three_digits(to), key.least, key.most);
  if (to == value) return std::nullopt;
  return to;
}

/// Adds another value's text unless it stands there.
void note(std::string& all, const std::string& text) {
  if (all.empty())
    all = text;
  else if ((", " + all + ",").find(", " + text + ",") == std::string::npos)
    all += ", " + text;
}

/// Turns the key in all of `owners`, which live in `into`; false when none can be turned or the scenario does not bear it.
template <class T>
bool turn(const keys::Key<T>& key, double factor, const std::vector<T*>& owners, Scenario& into, Shift& shift,
          std::string& used) {
  const bool us = into.units == Units::us;
  bool any = false;
  used.clear();
  for (T* owner : owners) {
    const keys::Value now = key.get(*owner, into);
    const double* number = std::get_if<double>(&now);
    if (number == nullptr) continue;
    const auto to = turned(key, *number, factor);
    if (!to || key.set(*owner, keys::Value(*to), into)) continue;
    note(used, keys::plain_text(key, now, us));
    note(shift.value, keys::plain_text(key, keys::Value(*to), us));
    any = true;
  }
  return any && check_scenario(into).empty();
}

template <class T, class Owners>
void add_dial(std::vector<Dial>& dials, const Scenario& scenario, const keys::Key<T>& key, std::string name, Owners owners) {
  if (!is_assumed(key)) return;
  Dial dial{{std::move(name), std::string(key.sentence), std::string(key.source), {}, {}, {}}, scenario, scenario};
  if (turn(key, 0.5, owners(dial.less), dial.less, dial.said.less, dial.said.used) &&
      turn(key, 2.0, owners(dial.more), dial.more, dial.said.more, dial.said.used))
    dials.push_back(std::move(dial));
}

std::vector<Dial> dials_of(const Scenario& scenario) {
  std::vector<Dial> dials;
  for (const auto& key : keys::scenario_keys())
    add_dial(dials, scenario, key, key.name, [](Scenario& s) { return std::vector<Scenario*>{&s}; });
  keys::for_each_list([&](const auto& list) {
    for (const auto& key : list.keys())
      add_dial(dials, scenario, key, std::string(list.path) + "." + key.name, [&](Scenario& s) {
        auto& items = list.items(s);
        std::vector<std::remove_reference_t<decltype(items[0])>*> owners;
        owners.reserve(items.size());
        for (auto& item : items) owners.push_back(&item);
        return owners;
      });
  });
  return dials;
}

/// What is compared, year by year, for 365 days.
using Year = std::array<double, 3>;

std::vector<Year> play(const Scenario& scenario, const InfluenceRequest& request) {
  static constexpr std::array<std::string_view, 3> names{"fill_rate", "short_days_year", "cost_year"};
  const Plan plan = make_plan(scenario);
  RunRequest run;
  run.random_seed = request.random_seed;
  run.replications = request.replications;
  run.threads = request.threads;
  run.block = 4;  // small, so that a couple of dozen years keep all cores busy
  run.stop = request.stop;
  std::vector<Year> years;
  run_replications(plan, run, nullptr, [&](const Block& block) {
    for (const Outcome& outcome : block.outcomes) {
      Year year{};
      for (std::size_t i = 0; i < names.size(); ++i) year[i] = find_column(names[i])->get(outcome);
      years.push_back(year);
    }
  });
  return years;
}

void compare(const std::vector<Year>& changed, const std::vector<Year>& as_it_is, Shift& into) {
  std::array<Moments, 3> apart;
  for (std::size_t y = 0; y < changed.size(); ++y)
    for (std::size_t i = 0; i < apart.size(); ++i) apart[i].add(changed[y][i] - as_it_is[y][i]);
  into.fill_rate = mean_estimate(apart[0]);
  into.short_days = mean_estimate(apart[1]);
  into.cost_year = mean_estimate(apart[2]);
}

double most_moved(const Influence& i) { return std::max(std::abs(i.less.fill_rate.mean), std::abs(i.more.fill_rate.mean)); }

}  // namespace

std::vector<Influence> influences(const Scenario& scenario, const InfluenceRequest& request) {
  EXPECTS(request.replications >= 2);
  std::vector<Dial> dials = dials_of(scenario);
  const auto played = [&](const std::string& name, const Scenario& what) {
    return remembered(request.memory, "assumed-" + name, request.stop, [&] { return play(what, request); });
  };
  const std::vector<Year> as_it_is = played("none", scenario);
  std::vector<Influence> all;
  for (std::size_t d = 0; d < dials.size(); ++d) {
    if (request.progress) request.progress(d, dials.size());
    const std::string& key = dials[d].said.key;
    const std::vector<Year> less = played(key + "-less", dials[d].less), more = played(key + "-more", dials[d].more);
    if (request.stop != nullptr && request.stop->load()) return {};
    // A year that broke off would set the others out of step: such a key is left out.
    if (less.size() != as_it_is.size() || more.size() != as_it_is.size()) continue;
    compare(less, as_it_is, dials[d].said.less);
    compare(more, as_it_is, dials[d].said.more);
    all.push_back(std::move(dials[d].said));
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const Influence& a, const Influence& b) { return most_moved(a) > most_moved(b); });
  return all;
}

}  // namespace rackwright::study
