#include "sim/study/elimination.hpp"

#include <algorithm>
#include <limits>
#include <numeric>

#include "models/base/expects.hpp"
#include "sim/study/intervals.hpp"

namespace rackwright::study {

std::vector<std::uint32_t> looks(const ChoiceRules& rules) {
  std::vector<std::uint32_t> sizes;
  for (std::uint64_t size = std::max(rules.first_stage, 2U); size < rules.most; size *= 2) {
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
  // Any design may wrongly be shown to meet the target, and would be chosen; only the truly best one must not be shown
  // to fail, nor lose to one of the others: of each pair both cost questions are asked.
  return {error / 2.0 / many, error / 4.0, error / 4.0 / (2.0 * others * stages)};
}

Elimination::Elimination(std::size_t designs, const ChoiceRules& rules)
    : rules_(rules), levels_(levels(rules, designs)), looks_(looks(rules)),
      target_(rules.years, levels_.meets, levels_.fails, looks_.size(), Spending::even), tries_(designs) {
  EXPECTS(rules.years >= 0.0 && rules.years <= 1.0);
  EXPECTS(rules.indifference >= 0.0 && rules.indifference < 1.0);
  rules_.most = looks_.back();
}

void Elimination::record(std::size_t design, bool success, double cost) {
  Try& each = tries_[design];
  each.costs.push_back(cost);
  if (success) ++each.successes;
}

void Elimination::drop(std::size_t design) { tries_[design].standing = Standing::dropped; }

std::uint32_t Elimination::years(std::size_t design) const {
  return static_cast<std::uint32_t>(tries_[design].costs.size());
}

double Elimination::success_share(std::size_t design) const {
  const Try& each = tries_[design];
  return each.costs.empty() ? 0.0 : each.successes / static_cast<double>(each.costs.size());
}

bool Elimination::rival(std::size_t design) const { return alive(design) && tries_[design].rival; }

bool Elimination::alive(std::size_t design) const {
  const Standing standing = tries_[design].standing;
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

bool Elimination::surely_dearer(std::size_t design, std::size_t than, double factor) const {
  const auto& costs = tries_[design].costs;
  const auto& other = tries_[than].costs;
  const std::size_t common = std::min(costs.size(), other.size());
  if (common < looks_.front()) return false;
  Moments difference;  // year by year on the same fortunes
  for (std::size_t year = 0; year < common; ++year) difference.add(costs[year] - factor * other[year]);
  return mean_lower_bound(difference, levels_.dearer) > 0.0;
}

void Elimination::judge_target() {
  for (Try& each : tries_) {
    if (each.standing != Standing::open || each.costs.size() == each.looked) continue;
    each.looked = static_cast<std::uint32_t>(each.costs.size());
    const auto look = std::lower_bound(looks_.begin(), looks_.end(), each.looked) - looks_.begin();
    const Proof proof = target_.at(static_cast<std::size_t>(look), each.successes, each.looked);
    if (proof == Proof::shown) each.standing = Standing::meets;
    if (proof == Proof::refuted) each.standing = Standing::fails;
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
  if (!best_) return;
  for (std::size_t design = 0; design < tries_.size(); ++design) {
    Try& each = tries_[design];
    each.rival = false;
    if (design == *best_ || !alive(design)) continue;
    if (surely_dearer(design, *best_, 1.0)) {
      each.standing = Standing::costlier;
    } else {
      each.rival = !surely_dearer(design, *best_, 1.0 - rules_.indifference);
    }
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
    if (!can_grow(design) || success_share(design) < rules_.years) continue;
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
