#pragma once
// Whether many years keep what a target asks: requirement by requirement.

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "sim/replication/outcome.hpp"
#include "sim/scenario/scenario.hpp"
#include "sim/study/estimate.hpp"
#include "sim/study/moments.hpp"

namespace rackwright::study {

/// One requirement of a target: what was reached, and what was asked. `mean`: a mean (a cost below zero), else a share of years.
struct Kept { std::string name; Estimate value; double least = 0.0; bool mean = false; };

/// How near a requirement is: its mean less what was asked, of means in parts of what was asked. 0 or more: kept.
double gap(const Kept& kept);
/// The least of all; -1 where there is none.
double gap(std::span<const Kept> all);

/// Sums of what years gave for each requirement.
class Keeping {
 public:
  /// Adds a year's given_by().
  void add(std::span<const double> given);
  [[nodiscard]] std::uint64_t years() const { return given_.empty() ? 0 : given_.front().count(); }
  /// Requirement by requirement, the limits taken together first; empty without years.
  [[nodiscard]] std::vector<Kept> kept(const Target& target) const;

 private:
  std::vector<Moments> given_{};
};

}  // namespace rackwright::study
