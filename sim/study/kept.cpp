#include "sim/study/kept.hpp"

#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"
#include "sim/study/intervals.hpp"
#include "sim/study/limits.hpp"

namespace rackwright::study {

double gap(const Kept& kept) {
  const double scale = kept.mean && std::abs(kept.least) > 1e-12 ? std::abs(kept.least) : 1.0;
  return (kept.value.mean - kept.least) / scale;
}

double gap(std::span<const Kept> all) {
  double least = 1.0;
  for (const Kept& kept : all) least = std::min(least, gap(kept));
  return all.empty() ? -1.0 : least;
}

void Keeping::add(std::span<const double> given) {
  given_.resize(given.size());
  for (std::size_t r = 0; r < given.size(); ++r) given_[r].add(given[r]);
}

std::vector<Kept> Keeping::kept(const Target& target) const {
  std::vector<Kept> all;
  if (given_.empty()) return all;
  const auto asked = requirements(target);
  const auto names = requirement_names(target);
  EXPECTS(asked.size() == given_.size() && names.size() == given_.size());
  for (std::size_t r = 0; r < asked.size(); ++r) {
    const bool mean = asked[r].kind == Requirement::Kind::mean;
    const auto good = static_cast<std::uint64_t>(std::llround(given_[r].mean() * static_cast<double>(years())));
    all.push_back({names[r], mean ? mean_estimate(given_[r]) : share_estimate(good, years()), asked[r].least, mean});
  }
  return all;
}

}  // namespace rackwright::study
