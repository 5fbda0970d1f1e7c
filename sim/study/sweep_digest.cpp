#include "sim/study/sweep_digest.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace rackwright::study {
namespace {

// Whole numbers from the least to the most.
std::size_t whole_numbers(const SweepAxis& axis) { return static_cast<std::size_t>(std::llround(axis.high - axis.low)) + 1; }

bool listed(const SweepAxis& axis) {
  return !axis.words.empty() || (axis.levels() > 0 && axis.levels() <= SweepDigest::most_listed);
}

/// A range of whole numbers that are few enough for a row each.
bool counted(const SweepAxis& axis) { return !listed(axis) && axis.whole && whole_numbers(axis) <= SweepDigest::most_listed; }

std::size_t slices_of(const SweepAxis& axis) {
  return listed(axis) ? axis.levels() : counted(axis) ? whole_numbers(axis) : SweepDigest::range_slices;
}

/// "7 and 8", "9 to 12": the whole numbers that fall into a slice.
std::string whole_label(const SweepAxis& axis, std::size_t slice) {
  const std::size_t all = whole_numbers(axis), slices = slices_of(axis);
  const auto first_of = [&](std::size_t s) {
    const std::size_t before = (s * all + slices - 1) / slices;
    return axis.low + static_cast<double>(before);
  };
  const double from = first_of(slice), to = first_of(slice + 1) - 1.0;
  std::string last = axis_text(axis, to);
  if (!(from < to)) return last;
  return fmt::format("{:.0f} {} {}", from, to - from < 1.5 ? "and" : "to", last);
}

std::string slice_label(const SweepAxis& axis, std::size_t slice) {
  if (axis.whole) return whole_label(axis, slice);
  const double step = (axis.high - axis.low) / static_cast<double>(SweepDigest::range_slices);
  const double from = axis.low + step * static_cast<double>(slice);
  SweepAxis plain = axis;
  plain.typed.clear();
  if (axis.us) return fmt::format("{} to {}", axis_text(plain, from), axis_text(plain, from + step));
  return fmt::format("{} to {}", fmt::format("{:.4g}", from), axis_text(plain, from + step));
}

double cost(const SweepRow& row) { return row.spreads[cost_year_column].mean; }
double fill(const SweepRow& row) { return row.spreads[fill_rate_column].mean; }

}  // namespace

SweepDigest::SweepDigest(const Sweep& sweep) : sweep_(sweep) {
  for (std::size_t a = 0; a < sweep.axes.size(); ++a) {
    const SweepAxis& axis = sweep.axes[a];
    first_effect_.push_back(effects_.size());
    for (std::size_t s = 0; s < slices_of(axis); ++s) {
      const double level = axis.words.empty() && listed(axis) ? axis.numbers[s] : static_cast<double>(s);
      effects_.push_back({a, listed(axis) ? axis_text(axis, level) : slice_label(axis, s), {}, {}, {}});
    }
  }
}

std::size_t SweepDigest::slice(std::size_t a, double value) const {
  const SweepAxis& axis = sweep_.axes[a];
  if (!axis.words.empty()) return static_cast<std::size_t>(value);
  if (listed(axis))
    return static_cast<std::size_t>(std::find(axis.numbers.begin(), axis.numbers.end(), value) - axis.numbers.begin());
  if (axis.whole) return static_cast<std::size_t>(std::llround(value - axis.low)) * slices_of(axis) / whole_numbers(axis);
  const double share = axis.high > axis.low ? (value - axis.low) / (axis.high - axis.low) : 0.0;
  const double at = std::clamp(share * static_cast<double>(range_slices), 0.0, static_cast<double>(range_slices - 1));
  return static_cast<std::size_t>(at);
}

void SweepDigest::add(const SweepRow& row) {
  const auto status = static_cast<std::size_t>(row.status);
  if (counts_[status]++ == 0) examples_[status] = row.why;
  if (!row.has_numbers()) return;
  ++played_;
  for (std::size_t a = 0; a < row.values.size(); ++a) {
    Effect& effect = effects_[first_effect_[a] + slice(a, row.values[a])];
    effect.fill_rate.add(row.spreads[fill_rate_column].mean);
    effect.cost_year.add(cost(row));
    effect.success.add(row.success);
  }
  lead(row);
}

void SweepDigest::lead(const SweepRow& row) {
  // Points of whole numbers and words often fall on one another: the same design on the same luck is one leader.
  const auto same = [&](const SweepRow& other) { return other.values == row.values && other.gap == row.gap && cost(other) == cost(row); };
  if (std::any_of(leaders_.begin(), leaders_.end(), same)) return;
  const bool meets = row.gap >= 0.0;
  if (meets && !met_) leaders_.clear();
  if (!meets && met_) return;
  met_ = met_ || meets;
  const auto better = [&](const SweepRow& a, const SweepRow& b) {
    // Where none meets the target the nearest lead, then those that serve most.
    if (!met_ && a.gap != b.gap) return a.gap > b.gap;
    if (!met_ && fill(a) != fill(b)) return fill(a) > fill(b);
    return cost(a) < cost(b);
  };
  if (leaders_.size() == most_leaders && !better(row, leaders_.back())) return;
  leaders_.insert(std::upper_bound(leaders_.begin(), leaders_.end(), row, better), row);
  if (leaders_.size() > most_leaders) leaders_.pop_back();
}

}  // namespace rackwright::study
