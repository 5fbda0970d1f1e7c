#include "sim/study/bands.hpp"

#include <cmath>
#include <vector>

#include "models/base/expects.hpp"
#include "sim/replication/columns.hpp"
#include "sim/study/quantile_sketch.hpp"

namespace rackwright::study {
namespace {

// Sums are whole numbers of 2^-20: adding them in any order gives the same bits. A value up to 1e6 may be added
// 8 million times before 63 bits are full.
constexpr double steps_per_unit = 1048576.0;
constexpr double most_value = 1e9;

// Years wait until this many can be counted together, day by day: each day's counts are then fetched from memory once.
constexpr std::size_t most_waiting = 16;

// std::llround of what fits, without the call: the part cut off is exact.
std::int64_t nearest(double value) {
  const auto whole = static_cast<std::int64_t>(value);
  const double rest = value - static_cast<double>(whole);
  return whole + static_cast<int>(rest >= 0.5) - static_cast<int>(rest <= -0.5);
}

}  // namespace

struct Bands::State {
  int days = 0;
  std::size_t columns = 0;
  std::uint64_t replications = 0;
  std::vector<QuantileSketch> sketches{};  ///< by day, then column
  std::vector<std::int64_t> sums{};        ///< likewise, in steps
  std::vector<DailyRow> waiting{};         ///< whole years not yet counted

  void count_waiting();

  [[nodiscard]] std::size_t place(int day, std::size_t column) const {
    EXPECTS(day >= 0 && day < days && column < columns);
    return static_cast<std::size_t>(day) * columns + column;
  }
};

void Bands::State::count_waiting() {
  if (waiting.empty()) return;
  const auto table = daily_columns();
  const auto length = static_cast<std::size_t>(days);
  for (std::size_t day = 0; day < length; ++day) {
    for (std::size_t column = 0; column < columns; ++column) {
      const std::size_t place = day * columns + column;
      for (std::size_t row = day; row < waiting.size(); row += length) {
        const double value = waiting[row].*table[column].member;
        sketches[place].add(value);
        sums[place] += nearest(value * steps_per_unit);
      }
    }
  }
  waiting.clear();
}

Bands::Bands(int days) : state_(std::make_unique<State>()) {
  EXPECTS(days > 0);
  state_->days = days;
  state_->columns = daily_columns().size();
  state_->sketches.resize(static_cast<std::size_t>(days) * state_->columns);
  state_->sums.resize(state_->sketches.size());
}

Bands::~Bands() = default;
Bands::Bands(Bands&&) noexcept = default;
Bands& Bands::operator=(Bands&&) noexcept = default;

void Bands::add(std::span<const DailyRow> rows) {
  State& s = *state_;
  EXPECTS(rows.size() == static_cast<std::size_t>(s.days));
  const auto columns = daily_columns();
  for (const DailyRow& row : rows) {
    for (const DailyColumn& column : columns) EXPECTS(std::abs(row.*column.member) < most_value);  // false for NaN too
  }
  s.waiting.insert(s.waiting.end(), rows.begin(), rows.end());
  ++s.replications;
  if (s.waiting.size() >= most_waiting * rows.size()) s.count_waiting();
}

void Bands::merge(const Bands& other) {
  State& s = *state_;
  EXPECTS(s.days == other.state_->days && &other != this);
  s.count_waiting();
  other.state_->count_waiting();
  for (std::size_t place = 0; place < s.sketches.size(); ++place) {
    s.sketches[place].merge(other.state_->sketches[place]);
    s.sums[place] += other.state_->sums[place];
  }
  s.replications += other.state_->replications;
}

int Bands::days() const { return state_->days; }
std::uint64_t Bands::replications() const { return state_->replications; }

double Bands::quantile(int day, std::size_t column, double p) const {
  state_->count_waiting();
  return state_->sketches[state_->place(day, column)].quantile(p);
}

double Bands::mean(int day, std::size_t column) const {
  const std::size_t place = state_->place(day, column);
  if (state_->replications == 0) return 0.0;
  state_->count_waiting();
  return static_cast<double>(state_->sums[place]) / steps_per_unit / static_cast<double>(state_->replications);
}

Bands::Parts Bands::parts() const {
  state_->count_waiting();
  Parts parts{state_->days, state_->replications, state_->sums, {}};
  parts.sketches.reserve(state_->sketches.size());
  for (const QuantileSketch& sketch : state_->sketches) parts.sketches.push_back(sketch.parts());
  return parts;
}

Bands Bands::from(const Parts& parts) {
  Bands bands(parts.days);
  State& s = *bands.state_;
  EXPECTS(parts.sums.size() == s.sums.size() && parts.sketches.size() == s.sketches.size());
  s.replications = parts.replications;
  s.sums = parts.sums;
  for (std::size_t place = 0; place < s.sketches.size(); ++place) {
    s.sketches[place] = QuantileSketch::from(parts.sketches[place]);
  }
  return bands;
}

}  // namespace rackwright::study
