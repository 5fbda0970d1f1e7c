#pragma once
// What a sweep says in short, gathered row by row: the best points, and what each key does by itself.

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "sim/study/moments.hpp"
#include "sim/study/sweep_run.hpp"

namespace rackwright::study {

/// One value of a key, or one slice of its range, over all points that have it, whatever the other keys are there.
struct Effect {
  std::size_t axis = 0;
  std::string label{};
  Moments fill_rate{}, cost_year{}, success{};
};

class SweepDigest {
 public:
  static constexpr std::size_t most_leaders = 5;
  static constexpr std::size_t range_slices = 5;
  static constexpr std::size_t most_listed = 40;  ///< more numbers of a list, or whole ones of a range, are sliced

  explicit SweepDigest(const Sweep& sweep);
  /// Rows in order: means are added up as they come.
  void add(const SweepRow& row);

  /// Designs, each once: the cheapest points whose replications met the target, all that it asks; when none did, those that came nearest.
  [[nodiscard]] const std::vector<SweepRow>& leaders() const { return leaders_; }
  [[nodiscard]] bool target_met() const { return met_; }
  /// Axis by axis in the order of its values.
  [[nodiscard]] const std::vector<Effect>& effects() const { return effects_; }
  /// What is said of the first point of that status; empty when there is none.
  [[nodiscard]] const std::string& example(PointStatus status) const { return examples_[static_cast<std::size_t>(status)]; }
  /// Points with figures, those among them that arithmetic rules out.
  [[nodiscard]] std::uint64_t played() const { return played_; }
  [[nodiscard]] std::uint64_t count(PointStatus status) const { return counts_[static_cast<std::size_t>(status)]; }

 private:
  [[nodiscard]] std::size_t slice(std::size_t axis, double value) const;
  void lead(const SweepRow& row);

  const Sweep& sweep_;
  std::vector<SweepRow> leaders_{};
  bool met_ = false;
  std::vector<Effect> effects_{};
  std::vector<std::size_t> first_effect_{};  ///< by axis
  std::array<std::uint64_t, 4> counts_{};
  std::uint64_t played_ = 0;
  std::array<std::string, 4> examples_{};
};

}  // namespace rackwright::study
