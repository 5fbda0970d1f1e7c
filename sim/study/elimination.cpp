#include "sim/study/elimination.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "models/base/expects.hpp"
#include "sim/study/intervals.hpp"

namespace rackwright::study {

std::vector<std::uint32_t> looks(const ChoiceRules& rules) {
  std::vector<std::uint32_t> sizes;
  for (std::uint64_t size = std::max(rules.first_stage, 2U); size < rules.most; size += (size + 1) / 2) {
    sizes.push_back(static_cast<std::uint32_t>(size));
  }
  sizes.push_back(std::max(rules.most, 2U));
  return sizes;
}

Levels levels(const ChoiceRules& rules, std::size_t designs) {
  const double error = 1.0 - rules.confidence;
  const auto stages = static_cast<double>(looks(rules).size());
  const auto many = static_cast<double>(std::max<std::size_t>(designs, 1));
  const auto others = std::max(many - 1.0, 1.0);
  const auto asked = static_cast<double>(std::max<std::size_t>(rules.requirements.size(), 1));
  // Any design that misses something may wrongly be shown to meet all, and would be chosen; it misses one requirement at
  // least, and that one must be shown wrongly, so this error is not divided among requirements. The truly best design must
  // not be shown to miss any of them, nor lose to one of the others: of each pair both cost questions are asked.
  return {error / 2.0 / many, error / 4.0 / asked, error / 4.0 / (2.0 * others * stages)};
}

std::uint64_t least_years(const ChoiceRules& rules, std::size_t designs) {
  double most_asked = 0.0;
  for (const Requirement& each : rules.requirements)
    if (each.kind == Requirement::Kind::share) most_asked = std::max(most_asked, each.least);
  if (most_asked <= 0.0 || most_asked >= 1.0) return 0;
  // More years are looked at more often, which asks for some more.
  ChoiceRules enough = rules;
  for (;;) {
    const double at_one_look = levels(enough, designs).meets / static_cast<double>(looks(enough).size());
    const double years = std::ceil(std::log(at_one_look) / std::log(most_asked));
    if (years <= static_cast<double>(enough.most) || years >= static_cast<double>(std::numeric_limits<std::uint32_t>::max())) return static_cast<std::uint64_t>(years);
    enough.most = static_cast<std::uint32_t>(years);
  }
}

Elimination::Elimination(std::size_t designs, const ChoiceRules& rules)
    : rules_(rules), levels_(levels(rules, designs)), looks_(looks(rules)),
      tries_(designs) {
  EXPECTS(!rules.requirements.empty());
  for (const Requirement& each : rules.requirements) {
    const double share = each.kind == Requirement::Kind::share ? each.least : 0.5;
    target_.emplace_back(share, levels_.meets, levels_.fails, looks_.size(), Spending::even);
  }
  for (Try& each : tries_) {
    each.given.resize(rules.requirements.size());
    each.shown.resize(rules.requirements.size());
  }
  EXPECTS(rules.indifference >= 0.0 && rules.indifference < 1.0);
  rules_.most = looks_.back();
}

void Elimination::record(std::size_t design, std::span<const double> given, double cost) {
  Try& each = tries_[design];
  EXPECTS(given.size() == each.given.size());
  each.costs.push_back(cost);
  for (std::size_t r = 0; r < given.size(); ++r) each.given[r].add(given[r]);
}

void Elimination::drop(std::size_t design) {
  tries_[design].standing = Standing::dropped;
  if (best_ != design) return;
  find_best();
  judge_cost();
}

std::uint32_t Elimination::years(std::size_t design) const {
  return static_cast<std::uint32_t>(tries_[design].costs.size());
}

bool Elimination::seems_to_meet(std::size_t design) const {
  const Try& each = tries_[design];
  for (std::size_t r = 0; r < each.given.size(); ++r) {
    if (each.given[r].mean() < rules_.requirements[r].least) return false;
  }
  return !each.costs.empty();
}

bool Elimination::rival(std::size_t design) const { return alive(design) && tries_[design].rival; }

bool Elimination::alive(std::size_t design) const {
  const Standing standing = this->standing(design);
  return standing == Standing::open || standing == Standing::meets;
}

double Elimination::cost_difference(std::size_t a, std::size_t b) const {
  const auto& first = tries_[a].costs;
  const auto& second = tries_[b].costs;
  const std::size_t common = std::min(first.size(), second.size());
  double sum = 0.0;
  for (std::size_t year = 0; year < common; ++year) sum += first[year] - second[year];
  return common > 0 ? sum / static_cast<double>(common) : 0.0;
}

// Rare dear years a design had after its first `common` ones: what they cost above the dearest of those, spread over all
// its years. A few common years without one say too little of their spread.
double Elimination::unseen_excess(std::size_t design, std::size_t common) const {
  const auto& costs = tries_[design].costs;
  if (costs.size() <= common) return 0.0;
  const auto end = costs.begin() + static_cast<std::ptrdiff_t>(common);
  const double dearest = *std::max_element(costs.begin(), end);
  double sum = 0.0;
  for (auto cost = end; cost != costs.end(); ++cost) sum += std::max(0.0, *cost - dearest);
  return sum / static_cast<double>(costs.size());
}

bool Elimination::surely_dearer(std::size_t design, std::size_t than, double factor) const {
  constexpr double allowance = 2.0;  // so many times what is known to be unseen (assumed; it only makes the search go on)
  const auto& costs = tries_[design].costs;
  const auto& other = tries_[than].costs;
  const std::size_t common = std::min(costs.size(), other.size());
  if (common < looks_.front()) return false;
  Moments difference;  // year by year on the same fortunes
  for (std::size_t year = 0; year < common; ++year) difference.add(costs[year] - factor * other[year]);
  return mean_lower_bound(difference, levels_.dearer) > allowance * factor * unseen_excess(than, common);
}

Proof Elimination::proof_of(const Try& each, std::size_t r, std::size_t look) const {
  const Moments& given = each.given[r];
  const Requirement& asked = rules_.requirements[r];
  if (asked.kind == Requirement::Kind::share) {
    return target_[r].at(look, static_cast<std::uint64_t>(std::llround(given.mean() * each.looked)), each.looked);
  }
  const auto stages = static_cast<double>(looks_.size());
  if (mean_lower_bound(given, levels_.meets / stages) >= asked.least) return Proof::shown;
  return mean_upper_bound(given, levels_.fails / stages) < asked.least ? Proof::refuted : Proof::open;
}

void Elimination::judge_target() {
  for (Try& each : tries_) {
    if (each.standing != Standing::open || each.costs.size() == each.looked) continue;
    each.looked = static_cast<std::uint32_t>(each.costs.size());
    const auto look = static_cast<std::size_t>(std::lower_bound(looks_.begin(), looks_.end(), each.looked) - looks_.begin());
    for (std::size_t r = 0; r < each.given.size(); ++r) {
      const Proof proof = proof_of(each, r, look);
      if (proof == Proof::shown) each.shown[r] = 1;
      if (proof == Proof::refuted) each.standing = Standing::fails;
    }
    const bool all = std::all_of(each.shown.begin(), each.shown.end(), [](char shown) { return shown != 0; });
    if (all && each.standing == Standing::open) each.standing = Standing::meets;
  }
}

void Elimination::find_best() {
  best_.reset();
  for (std::size_t design = 0; design < tries_.size(); ++design) {
    if (tries_[design].standing != Standing::meets) continue;
    if (!best_ || cost_difference(design, *best_) < 0.0) best_ = design;
  }
}

void Elimination::judge_cost() {
  for (std::size_t design = 0; design < tries_.size(); ++design) {
    Try& each = tries_[design];
    each.rival = each.costlier = false;  // what was said against an earlier best holds no longer
    if (!best_ || design == *best_ || !alive(design)) continue;
    each.costlier = surely_dearer(design, *best_, 1.0);
    each.rival = !each.costlier && !surely_dearer(design, *best_, 1.0 - rules_.indifference);
  }
}

std::uint32_t Elimination::next_look(std::uint32_t years) const {
  return *std::upper_bound(looks_.begin(), looks_.end(), years);
}

// Rivals must be shown to fail or to be dearer; the best is simulated along with the one that has most years.
std::vector<std::size_t> Elimination::against_best() const {
  std::vector<std::size_t> found;
  bool best_lags = false;
  for (std::size_t design = 0; design < tries_.size(); ++design) {
    if (!rival(design)) continue;
    if (can_grow(design)) found.push_back(design);
    best_lags = best_lags || years(design) >= years(*best_);
  }
  if (best_lags && can_grow(*best_)) found.push_back(*best_);
  return found;
}

// No design is shown to meet the target yet: go on with the cheapest that looks as if it does and with all that are
// cheaper still. Dearer ones wait, most will never need another year.
std::vector<std::size_t> Elimination::before_any_is_shown() const {
  std::optional<std::size_t> leader;
  for (std::size_t design = 0; design < tries_.size(); ++design) {
    if (!can_grow(design) || !seems_to_meet(design)) continue;
    if (!leader || cost_difference(design, *leader) < 0.0) leader = design;
  }
  std::vector<std::size_t> found;
  for (std::size_t design = 0; design < tries_.size(); ++design) {
    if (can_grow(design) && (!leader || cost_difference(design, *leader) <= 0.0)) found.push_back(design);
  }
  return found;
}

std::vector<Elimination::Work> Elimination::next() {
  judge_target();
  find_best();
  judge_cost();
  std::vector<std::size_t> found;
  const auto untried = [&](std::size_t design) { return alive(design) && years(design) < looks_.front(); };
  for (std::size_t design = 0; design < tries_.size(); ++design) {
    if (untried(design)) found.push_back(design);
  }
  if (found.empty()) found = best_ ? against_best() : before_any_is_shown();

  bool open = false;
  for (std::size_t design = 0; design < tries_.size(); ++design) {
    open = open || (best_ ? rival(design) : alive(design)) || tries_[design].standing == Standing::dropped;
  }
  settled_ = !open;

  std::uint32_t fewest = std::numeric_limits<std::uint32_t>::max();
  for (const std::size_t design : found) fewest = std::min(fewest, years(design));
  std::vector<Work> work;
  for (const std::size_t design : found) {
    if (years(design) == fewest) work.push_back({design, fewest, next_look(fewest) - fewest});
  }
  return work;
}

}  // namespace rackwright::study
