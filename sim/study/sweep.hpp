#pragma once
// A sweep: the same farm with some keys set to many values, every point on the same luck.

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "sim/scenario/problem.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright::study {

/// How points are laid.
enum class SweepMethod {
  grid,         ///< every combination of the listed values; the last key varies fastest
  latin,        ///< Latin hypercube (McKay, Beckman & Conover 1979): each of N equal slices of each key once
  even,         ///< spread evenly: the Sobol sequence
  sensitivity,  ///< "sobol" in words: N rows of k + 2 points each, for Sobol' indices (Saltelli et al. 2010), on a Sobol sequence
};
std::string_view method_name(SweepMethod method);
std::optional<SweepMethod> method_named(std::string_view name);

/// One key that varies: over a range, or over a list of numbers or words. Numbers are in the key's native unit.
struct SweepAxis {
  std::string key{};
  std::string unit{};                ///< empty for words
  bool whole = false;                ///< whole numbers only
  double low = 0.0, high = 0.0;      ///< of a range; least and most of a list of numbers
  std::vector<double> numbers{};     ///< listed
  std::vector<std::string> words{};  ///< listed, when values are not numbers; a point's value is then the place here
  std::vector<std::string> typed{};  ///< numbers as the keeper wrote them; empty for a range
  bool us = false;                   ///< values of a range are told in US units
  [[nodiscard]] bool is_number() const { return words.empty(); }
  /// Listed values; 0 for a range.
  [[nodiscard]] std::size_t levels() const { return words.empty() ? numbers.size() : words.size(); }
};

/// What is swept.
struct Sweep {
  SweepMethod method = SweepMethod::grid;
  std::vector<SweepAxis> axes{};
  std::uint64_t points = 0;
  std::uint32_t replications = 0;  ///< of each point
  std::uint64_t random_seed = 1;
  bool play_all = false;           ///< play points too that arithmetic rules out

  /// Points of a block, the unit of work and of what is kept: depends on nothing but the sweep.
  [[nodiscard]] std::uint64_t block_points() const;
  [[nodiscard]] std::uint64_t blocks() const { return (points + block_points() - 1) / block_points(); }
  /// All that decides the results besides the scenario, as text.
  [[nodiscard]] std::string description() const;
};

constexpr std::uint64_t most_sweep_points = 1'000'000'000;

/// Why runs under other values of a key cannot be compared, or nothing: sweep and simulate --against refuse it in these words.
std::string_view why_fixed(std::string_view key);
/// The same, and why the key has no say in this scenario.
std::string_view why_fixed(const Scenario& scenario, std::string_view key);

/// Reads "KEY=A,B,C" (";" between values that hold commas) or "KEY=LOW:HIGH[:COUNT]". On a fault a problem is added. A
/// range under a grid has COUNT levels, five unless told.
SweepAxis read_axis(const Scenario& scenario, std::string_view text, SweepMethod method, Problems& problems);

/// The sweep of those axes. `points`: how many (latin, even), or rows (sensitivity); a grid has its own number.
Sweep make_sweep(const Scenario& scenario, SweepMethod method, std::vector<SweepAxis> axes,
                 std::optional<std::uint64_t> points, Problems& problems);

/// Coordinates of points. One a thread.
class SweepPoints {
 public:
  explicit SweepPoints(const Sweep& sweep);
  ~SweepPoints();
  /// Value of each axis at a point: a number in its native unit, or the place of the word.
  std::span<const double> at(std::uint64_t point);

 private:
  struct State;
  std::unique_ptr<State> state_;
};

/// The value of an axis at `share` in [0, 1) of its way.
double axis_value(const SweepAxis& axis, double share);
/// As a person would write it, "10 h" or "ladder".
std::string axis_text(const SweepAxis& axis, double value);
/// Sets the key.
std::optional<Problem> set_axis(Scenario& scenario, const SweepAxis& axis, double value);

}  // namespace rackwright::study
