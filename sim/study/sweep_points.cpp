// Where the points of a sweep lie. Any point can be had by itself, so blocks of them can be worked anywhere.

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "models/base/expects.hpp"
#include "sim/random/permutation.hpp"
#include "sim/random/sobol_points.hpp"
#include "sim/scenario/kits.hpp"
#include "sim/study/sweep.hpp"

namespace rackwright::study {
namespace {

constexpr std::array<std::string_view, 4> names{"grid", "latin", "even", "sobol"};

// Rack-years in a block. Small enough to share out, large enough for a file each; as a sweep grows its blocks do, so
// that there are never more than some tens of thousands.
constexpr std::uint64_t least_block = 512, most_block = 65536, usual_blocks = 8192;

// Numbers of the permutations and of what is drawn within a slice; see random::Permutation for the former.
constexpr std::uint32_t jitter_entity = 0x80000000U;

std::optional<std::uint64_t> grid_points(const std::vector<SweepAxis>& axes) {
  std::uint64_t points = 1;
  for (const SweepAxis& axis : axes) {
    if (axis.levels() == 0 || axis.levels() > most_sweep_points / points) return std::nullopt;
    points *= axis.levels();
  }
  return points;
}

/// Each key is to have one value at a point: none stands twice, nor beside a kit that brings it.
void check_keys(const Scenario& scenario, const std::vector<SweepAxis>& axes, Problems& problems) {
  std::vector<Stated> stated;
  stated.reserve(axes.size());
  for (const SweepAxis& axis : axes) stated.push_back({axis.key, ""});
  if (auto told = told_clash(scenario, stated, "varies twice", "vary")) problems.push_back({0, std::move(told->key), "", std::move(told->why), ""});
}

}  // namespace

std::string_view method_name(SweepMethod method) { return names.at(static_cast<std::size_t>(method)); }

std::optional<SweepMethod> method_named(std::string_view name) {
  const auto at = std::find(names.begin(), names.end(), name);
  if (at == names.end()) return std::nullopt;
  return static_cast<SweepMethod>(at - names.begin());
}

std::uint64_t Sweep::block_points() const {
  const std::uint64_t each = std::max<std::uint64_t>(replications, 1);
  const std::uint64_t years = std::clamp(points * each / usual_blocks, least_block, most_block);
  const std::uint64_t whole = std::max<std::uint64_t>(years / each, 1);
  if (method != SweepMethod::sensitivity) return whole;
  const std::uint64_t row = axes.size() + 2;  // a row's points stay together
  return (whole + row - 1) / row * row;
}

std::string Sweep::description() const {
  std::string text = fmt::format("{} {} points, {} replications, seed {}, all {}\n", method_name(method), points,
                                 replications, random_seed, play_all);
  for (const SweepAxis& axis : axes) {
    text += fmt::format("{} [{}] {} {} {}:", axis.key, axis.unit, axis.whole, axis.low, axis.high);
    for (const double number : axis.numbers) text += fmt::format(" {}", number);
    for (const std::string& word : axis.words) text += " \"" + word + "\"";
    text += "\n";
  }
  return text;
}

Sweep make_sweep(const Scenario& scenario, SweepMethod method, std::vector<SweepAxis> axes,
                 std::optional<std::uint64_t> points, Problems& problems) {
  Sweep sweep{method, std::move(axes), points.value_or(0), static_cast<std::uint32_t>(scenario.run.replications),
              scenario.run.random_seed};
  if (sweep.axes.empty()) problems.push_back({0, "--vary", "", "say at least once what varies: --vary KEY=A,B,C", ""});
  if (sweep.axes.size() > 1000) problems.push_back({0, "--vary", "", "more than 1000 keys vary", ""});
  check_keys(scenario, sweep.axes, problems);
  if (!problems.empty()) return sweep;
  if (method == SweepMethod::grid) {
    if (points) problems.push_back({0, "--points", fmt::format("{}", *points), "a grid has its own number of points", ""});
    const auto all = grid_points(sweep.axes);
    if (!all) problems.push_back({0, "--vary", "", fmt::format("the grid has more than {} points", most_sweep_points), ""});
    sweep.points = all.value_or(0);
    return sweep;
  }
  if (!points) {
    problems.push_back({0, "--points", "", fmt::format("say how many with --method {}", method_name(method)), ""});
  } else if (method == SweepMethod::sensitivity) {
    if (*points < 16) problems.push_back({0, "--points", fmt::format("{}", *points), "too few rows to tell; 16 is the least, 1024 a good number", ""});
    sweep.points = *points * (sweep.axes.size() + 2);
  }
  if (sweep.points > most_sweep_points)
    problems.push_back({0, "--points", "", fmt::format("makes more than {} points", most_sweep_points), ""});
  return sweep;
}

struct SweepPoints::State {
  const Sweep& sweep;
  random::Key key;
  std::optional<random::SobolPoints> sobol{};
  std::vector<random::Permutation> slices{};
  std::vector<double> values;

  explicit State(const Sweep& s) : sweep(s), key(random::make_key(s.random_seed, 0)), values(s.axes.size()) {
    const auto axes = static_cast<std::uint32_t>(s.axes.size());
    if (s.method == SweepMethod::even) sobol.emplace(axes);
    if (s.method == SweepMethod::sensitivity) sobol.emplace(2 * axes);
    for (std::uint32_t a = 0; a < axes && s.method == SweepMethod::latin; ++a) slices.emplace_back(key, a, s.points);
  }

  void grid(std::uint64_t point) {
    for (std::size_t a = values.size(); a-- > 0;) {
      const SweepAxis& axis = sweep.axes[a];
      const auto at = static_cast<std::size_t>(point % axis.levels());
      values[a] = axis.words.empty() ? axis.numbers[at] : static_cast<double>(at);
      point /= axis.levels();
    }
  }
  void latin(std::uint64_t point) {
    for (std::uint32_t a = 0; a < values.size(); ++a) {
      const std::uint64_t slice = slices[a](point);
      const auto drawn = random::first_block(key, random::Purpose::sample, jitter_entity + a, static_cast<std::uint32_t>(point));
      const double within = static_cast<double>(drawn.first >> 11U) * 0x1p-53;
      values[a] = axis_value(sweep.axes[a], std::min((static_cast<double>(slice) + within) / static_cast<double>(sweep.points), 1.0 - 0x1p-53));
    }
  }
  void evenly(std::uint64_t point) {
    const auto& shares = sobol->at(point);
    for (std::size_t a = 0; a < values.size(); ++a) values[a] = axis_value(sweep.axes[a], shares[a]);
  }
  // A row is A, B, and A with one column of B after the other.
  void row(std::uint64_t point) {
    const std::size_t axes = values.size();
    const auto& shares = sobol->at(point / (axes + 2));
    const std::uint64_t member = point % (axes + 2);
    for (std::size_t a = 0; a < axes; ++a) {
      const bool from_b = member == 1 || member == a + 2;
      values[a] = axis_value(sweep.axes[a], shares[from_b ? axes + a : a]);
    }
  }
};

SweepPoints::SweepPoints(const Sweep& sweep) : state_(std::make_unique<State>(sweep)) {}
SweepPoints::~SweepPoints() = default;

std::span<const double> SweepPoints::at(std::uint64_t point) {
  State& s = *state_;
  EXPECTS(point < s.sweep.points);
  switch (s.sweep.method) {
    case SweepMethod::grid: s.grid(point); break;
    case SweepMethod::latin: s.latin(point); break;
    case SweepMethod::even: s.evenly(point); break;
    case SweepMethod::sensitivity: s.row(point); break;
  }
  return s.values;
}

}  // namespace rackwright::study
