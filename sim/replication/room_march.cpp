#include "sim/replication/room_march.hpp"

#include <algorithm>
#include <cmath>
#include <span>

#include "models/base/checked_build.hpp"
#include "models/base/expects.hpp"
#include "models/room/heat_balance.hpp"

#if defined(__x86_64__) && defined(__GNUC__)
#include <immintrin.h>
#define RACKWRIGHT_LANES 1
#endif

namespace rackwright {
namespace {

constexpr auto nodes = static_cast<std::size_t>(ResponseTable::nodes);
constexpr auto node_rows = static_cast<std::size_t>(ResponseTable::node_step / ResponseTable::bin);
constexpr int first_row = static_cast<int>(ResponseTable::first_node / ResponseTable::bin);
static_assert(node_rows * ResponseTable::bin == ResponseTable::node_step && first_row * ResponseTable::bin == ResponseTable::first_node);

// Hours that began within one row, and their shares of the way to the next row summed.
struct Visit {
  std::int32_t row;
  float hours, shares;
};

// Up to a day of hours, with everything the loop below reads. Temperatures are in rows of the response table: the hours hang
// on one another by a chain of arithmetic, and the chain is shorter when a temperature is its own place in the tables.
struct Stretch {
  const ResponseTable* table;
  const RoomMarch::Damp* damp;
  const room::Step* step;             // in rows
  double heater_rise, cooler_fall;    // [rows]; 0 without electricity
  double outdoor_ratio;
  const double* outdoor;              // what each hour owes to outdoor air and sun [rows]
  const double* mat_heat;
  std::size_t species;
  int hours;
  double temperature;                 // in: at the start; out: at the end [rows]
  double nothing = 0.0;               // read at run time: of a maximum with a plain 0 gcc 12 makes three instructions
  double* since[2];                   // of each mark, [node][curve]; the stretch is added
  std::array<Visit, 24> visits;       // out
  std::size_t visit_count = 0;
  [[nodiscard]] std::span<const Visit> visited() const { return {visits.data(), visit_count}; }
  // Sums over the hours: room air, saturation ratio, its excess over the outdoor ratio, what heater and cooler did [rows].
  double sum = 0.0, most = -1e9, least = 1e9, saturated = 0.0, dryness = 0.0, dampness = 0.0, heated = 0.0, cooled = 0.0;
  double gained = 0.0;  // from the mats [rows]
};

// The rows visited, at every node, added up in single precision and then, in double, to the integrals of both marks.
void add_visits(const Stretch& s, std::size_t stride) {
  const float* rows = s.table->row(0) + std::ptrdiff_t{2} * first_row * static_cast<std::ptrdiff_t>(stride);
  for (std::size_t node = 0; node < nodes; ++node, rows += 2 * node_rows * stride) {
    for (std::size_t curve = 0; curve < stride; ++curve) {
      float sum = 0.0F;
      for (const Visit& visit : s.visited()) {
        const float* low = rows + (2 * stride * static_cast<std::size_t>(visit.row) + curve);
        sum += visit.hours * low[0] + visit.shares * low[stride];
      }
      for (double* since : s.since) since[node * stride + curve] += static_cast<double>(sum);
    }
  }
}

#ifdef RACKWRIGHT_LANES
// The same in lanes, eight curves at a time from the first given on: the same bits.
__attribute__((target("avx2"))) void add_visits_in_lanes(const Stretch& s, std::size_t stride) {
  const float* rows = s.table->row(0) + std::ptrdiff_t{2} * first_row * static_cast<std::ptrdiff_t>(stride);
  const auto apart = static_cast<std::ptrdiff_t>(2 * node_rows * stride);
  for (std::size_t curve = 0; curve < stride; curve += 8, rows += 8) {
    __m256 sums[nodes] = {};
    for (const Visit& visit : s.visited()) {
      const float* low = rows + 2 * stride * static_cast<std::size_t>(visit.row);
      const __m256 hours = _mm256_set1_ps(visit.hours), shares = _mm256_set1_ps(visit.shares);
#pragma GCC unroll 5
      for (std::size_t node = 0; node < nodes; ++node, low += apart) {
        sums[node] += hours * _mm256_loadu_ps(low) + shares * _mm256_loadu_ps(low + stride);
      }
    }
#pragma GCC unroll 2
    for (double* since : s.since) {
      double* here = since + curve;
#pragma GCC unroll 5
      for (std::size_t node = 0; node < nodes; ++node, here += stride) {
        _mm256_storeu_pd(here, _mm256_loadu_pd(here) + _mm256_cvtps_pd(_mm256_castps256_ps128(sums[node])));
        _mm256_storeu_pd(here + 4, _mm256_loadu_pd(here + 4) + _mm256_cvtps_pd(_mm256_extractf128_ps(sums[node], 1)));
      }
    }
  }
}
#endif

// The curves are read at the temperature that begins the hour: over many hours that is the trapezoid rule.
// While the room stays within one row, everything but heater and cooler is one straight line, kept in registers, and the processor, who
// guesses that it stays, need not wait for a temperature to know its row: a third of the way from hour to hour otherwise. The
// row's curves are added once, when the room leaves it.
// Stride 0 takes the table's own; a constant one says how many species there can be: the heat of those there are not is zero.
template <std::size_t Stride>
[[gnu::always_inline]] inline void hours_of(Stretch& s) {
  const ResponseTable& table = *s.table;
  const std::size_t stride = Stride != 0 ? Stride : table.stride();
  constexpr std::size_t fixed_species = Stride != 0 ? (Stride - 2) / 3 : 1;
  const double most_row = static_cast<double>(table.bins() - 2 - nodes * node_rows) - 1e-6;
  std::size_t visited = 0;
  const float* rows = table.row(0);
  const room::Step& step = *s.step;
  const double outdoor_ratio = s.outdoor_ratio, nothing = s.nothing, rise = s.heater_rise, fall = s.cooler_fall;
  const double heater_set = step.heater_set, cooler_set = step.cooler_set, decay = step.decay;
  const double outdoor_drying = outdoor_ratio * RoomMarch::drying(step), outdoor_wetting = outdoor_ratio * RoomMarch::wetting(step);
  const double heat_scale = 24.0 * step.gain_to_kelvin;  // curves are per hour, heat is at one growth day a day
  std::array<double, fixed_species> heat{};
  if (Stride != 0) for (std::size_t i = 0; i < s.species; ++i) heat[i] = heat_scale * s.mat_heat[i];
  double temperature = s.temperature;
  double sum = 0.0, most = -1e9, least = 1e9, saturated = 0.0, dryness = 0.0, dampness = 0.0, heated = 0.0, pushed = 0.0, gained = 0.0;
  const int hours = s.hours;
  int h = 0;
  while (h < hours) {
    const double at = room::detail::lesser(most_row, room::detail::greater(-static_cast<double>(first_row), temperature));
    const int whole = static_cast<int>(at);
    const double from = whole, to = from + 1.0;
    const RoomMarch::Damp& air = s.damp[whole];
    const float* here = rows + static_cast<std::ptrdiff_t>(2 * stride) * whole;
    double gain = 0.0;  // as in the middle of the row
    if (Stride != 0) {
#pragma GCC unroll 5
      for (std::size_t i = 0; i < fixed_species; ++i) gain += heat[i] * static_cast<double>(here[2 + 3 * i] + 0.5F * here[stride + 2 + 3 * i]);
    } else {
      for (std::size_t i = 0; i < s.species; ++i) gain += heat_scale * s.mat_heat[i] * static_cast<double>(here[2 + 3 * i] + 0.5F * here[stride + 2 + 3 * i]);
    }
    // Venting brings more than a film gives: below 0 the lesser of the two is what condenses.
    const double excess_from = air.ratio + air.ratio_rise * from - outdoor_ratio, excess_to = excess_from + air.ratio_rise;
    const bool dry = excess_from >= 0.0 && excess_to >= 0.0, wet = excess_from <= 0.0 && excess_to <= 0.0;
    const int first = h;
    double places = 0.0;  // summed, of the hours in this row
    const auto hour = [&](double drifted) {
      // As in room::advance(), in the order that makes the shortest chain from one hour to the next.
      const double warmed = room::detail::lesser(room::detail::greater(drifted, heater_set), drifted + rise);
      const double cooled = room::detail::greater(cooler_set, drifted - fall);
      temperature = room::detail::lesser(warmed, cooled);
      sum += temperature;
      most = room::detail::greater(most, temperature);
      least = room::detail::lesser(least, temperature);
      const double push = temperature - drifted;
      pushed += push;
      heated += room::detail::greater(push, nothing);
      ++h;
    };
    if (temperature == at && (dry || wet)) {
      const double slope = decay - (dry ? air.drying_rise : air.wetting_rise);
      const double constant = gain - (dry ? air.drying - outdoor_drying : air.wetting - outdoor_wetting);
      do {
        places += temperature;
        hour(temperature * slope + (s.outdoor[h] + constant));
      } while (h < hours && temperature >= from && temperature < to);
    } else {
      places = at;
      const double drying = room::detail::lesser(air.drying_rise * at + (air.drying - outdoor_drying),
                                                 air.wetting_rise * at + (air.wetting - outdoor_wetting));
      hour(((temperature * decay + s.outdoor[h]) - drying) + gain);
    }
    const double passed = h - first;
    gained += gain * passed;
    const double saturation = air.ratio * passed + air.ratio_rise * places;
    saturated += saturation;
    const double excess = saturation - outdoor_ratio * passed;
    dryness += room::detail::greater(excess, nothing);
    dampness += room::detail::greater(-excess, nothing);
    s.visits[visited++] = {whole, static_cast<float>(passed), static_cast<float>(places - from * passed)};
  }
  s.visit_count = visited;
  s.temperature = temperature;
  s.sum = sum;
  s.most = most;
  s.least = least;
  s.saturated = saturated;
  s.dryness = dryness;
  s.dampness = dampness;
  s.heated = heated;
  s.cooled = heated - pushed;
  s.gained = gained;
}

// Wider registers where the processor has them; the same bits either way, since nothing is contracted or reordered. Under a checker the
// choice would be made before the checker is ready.
#if defined(__x86_64__) && defined(__GNUC__) && !RACKWRIGHT_CHECKED
#define RACKWRIGHT_WIDE __attribute__((target_clones("avx2", "default")))
#else
#define RACKWRIGHT_WIDE
#endif
RACKWRIGHT_WIDE void hours_8(Stretch& s) { hours_of<8>(s); }
RACKWRIGHT_WIDE void hours_16(Stretch& s) { hours_of<16>(s); }
RACKWRIGHT_WIDE void hours_any(Stretch& s) { hours_of<0>(s); }

constexpr double in_rows(double celsius) { return (celsius - ResponseTable::coldest) * (1.0 / ResponseTable::bin); }
constexpr double in_celsius(double rows) { return ResponseTable::coldest + ResponseTable::bin * rows; }
constexpr auto freezing_row = static_cast<std::int32_t>(in_rows(frost::freezing.value()));

// The room's step is linear in temperature, so it holds in any degrees.
room::Step step_in_rows(room::Step step) {
  constexpr double per_kelvin = 1.0 / ResponseTable::bin;
  step.gain_to_kelvin *= per_kelvin;
  step.kelvin_to_gain /= per_kelvin;
  step.heater_rise *= per_kelvin;
  step.cooler_fall *= per_kelvin;
  step.heater_set = in_rows(step.heater_set);
  step.cooler_set = in_rows(step.cooler_set);
  return step;
}

}  // namespace

RoomMarch::RoomMarch(const Plan& plan)
    : plan_(&plan), capacity_(plan.scenario.room.heat_capacity.value() / 3.6 * ResponseTable::bin), integrals_(nodes * plan.response.stride()), damp_rows_(plan.saturation.size() - 1) {
  since_.resize(2 * integrals_);
#ifdef RACKWRIGHT_LANES
  lanes_ = __builtin_cpu_supports("avx2") != 0;
#endif
  for (int place = 0; place < (plan.scenario.opened.stated() ? 2 : 1) * (levels + 1); ++place) {
    const bool open = place > levels;
    const double share = static_cast<double>(place % (levels + 1)) / levels;
    wet_area_.push_back(plan.scenario.room.wet_area.value() + share * plan.positions * plan.tray_area);
    const room::Step step = steps_.emplace_back(step_in_rows(room_step(plan, share, open)));
    if (plan.opening) heated_.push_back(step_in_rows(room_step(plan, share, open, true)));
    for (std::size_t row = 0; row < damp_rows_; ++row) {
      const auto here = static_cast<double>(plan.saturation[row]);
      const double rise = static_cast<double>(plan.saturation[row + 1]) - here;
      const double at_zero = here - rise * static_cast<double>(row);
      damp_.push_back({drying(step) * at_zero, drying(step) * rise, wetting(step) * at_zero, wetting(step) * rise, at_zero, rise});
    }
  }
}

int RoomMarch::level_of(int trays) const {
  return (open_ ? levels + 1 : 0) + (plan_->positions > 0 ? (trays * levels + plan_->positions / 2) / plan_->positions : 0);
}

void RoomMarch::start(const Fortune& fortune, std::int64_t hour) {
  hour_ = hour;
  EXPECTS(hour % 24 == 0);
  prepared_day_ = static_cast<int>(hour / 24);
  midnight_ = hour;
  const climate::Day& today = fortune.weather(prepared_day_);
  rows_ = in_rows(0.5 * (today.maximum + today.minimum));
  day_ = RoomDay{};
  frost_ = Frost{};
  evaporated_depth_ = 0.0;
  heat_ = Heat{0.0, capacity_ * std::abs(rows_)};
  prepare(fortune, prepared_day_);
  set_mark(0);
  set_mark(1);
}

double RoomMarch::temperature() const { return in_celsius(rows_); }

void RoomMarch::set_mark(int mark) {
  std::fill_n(since_.data() + static_cast<std::size_t>(mark) * integrals_, integrals_, 0.0);
}

namespace {

// What each hour of a day owes to outdoor air and sun [rows]; returns the day's mean outdoors.
RACKWRIGHT_WIDE double hours_outdoors(const DayPlan& shape, const climate::Day& today, const climate::Day& yesterday,
                                      const room::Step& step, double* owed) {
  std::array<float, 24> outdoor;
  const auto most = static_cast<float>(today.maximum), least = static_cast<float>(today.minimum);
  const auto most_before = static_cast<float>(yesterday.maximum), least_before = static_cast<float>(yesterday.minimum);
  for (std::size_t h = 0; h < 24; ++h) {
    outdoor[h] = shape.today_max[h] * most + shape.today_min[h] * least + shape.yesterday_max[h] * most_before +
                 shape.yesterday_min[h] * least_before;
  }
  for (std::size_t h = 0; h < 24; ++h) {
    owed[h] = room::outdoor_part(step, in_rows(static_cast<double>(outdoor[h])), static_cast<double>(shape.sun[h]));
  }
  // Eight sums side by side, as registers are wide.
  std::array<float, 8> sums;
  for (std::size_t i = 0; i < 8; ++i) sums[i] = (outdoor[i] + outdoor[i + 8]) + outdoor[i + 16];
  const float sum = ((sums[0] + sums[4]) + (sums[2] + sums[6])) + ((sums[1] + sums[5]) + (sums[3] + sums[7]));
  return static_cast<double>(sum) / 24.0;
}

}  // namespace

void RoomMarch::prepare(const Fortune& fortune, int day) {
  const int day_of_year = plan_->day_of_year(day);
  const DayPlan& shape = plan_->days[static_cast<std::size_t>(day_of_year)];
  open_ = plan_->scenario.opened.holds(day_of_year);
  outdoor_mean_ = hours_outdoors(shape, fortune.weather(day), fortune.weather(std::max(day - 1, -lead_days)), steps_[static_cast<std::size_t>(level_of(0))], owed_.data());
}

void RoomMarch::advance_to(const Fortune& fortune, std::int64_t hour, const std::vector<double>& mat_heat, bool powered, int trays) {
  while (hour_ < hour) {
    if (hour_ == midnight_ + 24) {
      midnight_ = hour_;
      prepare(fortune, ++prepared_day_);
    }
    const auto first = static_cast<int>(hour_ - midnight_);
    const auto hours = static_cast<int>(std::min<std::int64_t>(24 - first, hour - hour_));
    march(fortune, first, hours, mat_heat, powered, level_of(trays));
    hour_ += hours;
  }
}

// A stretch's condensation on the inside of the walls, from its means; its heat changes the temperature the stretch ends with.
void RoomMarch::wet_walls(const room::Step& step, double mean_rows, double outdoor_rows, double ratio, bool evaporating, int hours,
                          double wet_area) {
  const double surface = mean_rows - step.wall_fall * (mean_rows - outdoor_rows);
  const double at = std::clamp(surface, 0.0, static_cast<double>(damp_rows_) - 1e-6);
  const auto row = static_cast<std::size_t>(at);
  const auto low = static_cast<double>(plan_->saturation[row]), high = static_cast<double>(plan_->saturation[row + 1]);
  const double wall_ratio = low + (at - static_cast<double>(row)) * (high - low);
  if (ratio <= wall_ratio) return;
  const room::Walls walls = room::on_walls(step, ratio, wall_ratio, evaporating);
  day_.condensed += walls.condensed * hours;
  day_.evaporated += walls.drawn * hours;
  day_.humidity -= walls.lowered * hours;
  evaporated_depth_ += wet_area > 0.0 ? walls.drawn * hours / wet_area : 0.0;
  rows_ += walls.watts * step.gain_to_kelvin * (1.0 - std::pow(step.decay, hours)) / step.ingress;
}

// The stretch once more as a balance in watt-hours, with what the walls and the air let through taken from each hour's mean of the exact
// solution, and what is stored from the heat capacity that was asked for.
void RoomMarch::book_heat(const room::Step& step, double began, double sum_begun, double sum_ended, double owed, double gained, double latent,
                          double pushed) {
  const double conductance = step.conductance * ResponseTable::bin;
  const double share = step.ingress * capacity_ / conductance;  // of an hour's fall to its goal that its mean has yet to go
  const double means = (1.0 - share) / step.ingress * (sum_ended - step.decay * sum_begun) + share * sum_begun;
  const double through = owed * step.kelvin_to_gain - conductance * means;
  const double mats = gained * step.kelvin_to_gain, machines = pushed * step.kelvin_to_gain;
  const double stored = capacity_ * (rows_ - began);
  day_.mats_wh += mats;
  heat_.unexplained += stored - (through + mats + latent + machines);
  heat_.moved += std::abs(stored) + std::abs(through) + mats + std::abs(latent) + std::abs(machines);
}

void RoomMarch::march(const Fortune& fortune, int first_hour, int hours, const std::vector<double>& mat_heat, bool powered, int level) {
  const Plan& plan = *plan_;
  const bool course = plan.opening && hour_ >= 0 && hour_ < std::int64_t{24} * plan.opening->course.days;
  const room::Step& step = (course ? heated_ : steps_)[static_cast<std::size_t>(level)];
  Stretch s;
  s.table = &plan.response;
  s.damp = damp_of(level);
  s.step = &step;
  // Without electricity neither runs, whatever the set points.
  s.heater_rise = powered ? step.heater_rise : 0.0;
  s.cooler_fall = powered ? step.cooler_fall : 0.0;
  s.outdoor_ratio = fortune.weather(prepared_day_).humidity_ratio;
  s.outdoor = owed_.data() + first_hour;
  s.mat_heat = mat_heat.data();
  s.species = mat_heat.size();
  s.hours = hours;
  s.temperature = rows_;
  s.since[0] = since_.data();
  s.since[1] = since_.data() + integrals_;
  switch (plan.response.stride()) {
    case 8: hours_8(s); break;
    case 16: hours_16(s); break;
    default: hours_any(s);
  }
#ifdef RACKWRIGHT_LANES
  if (lanes_) add_visits_in_lanes(s, plan.response.stride());
  else add_visits(s, plan.response.stride());
#else
  add_visits(s, plan.response.stride());
#endif
  const double began = rows_;
  rows_ = s.temperature;
  if (std::min(began, s.least) < freezing_row) {
    frost_.least = std::min(frost_.least, in_celsius(s.least));
    for (const Visit& visit : s.visited()) frost_.hours += visit.row < freezing_row ? static_cast<double>(visit.hours) : 0.0;
  }
  day_.sum += ResponseTable::coldest * hours + ResponseTable::bin * s.sum;
  day_.most = std::max(day_.most, in_celsius(s.most));
  day_.least = std::min(day_.least, in_celsius(s.least));
  day_.humidity += s.saturated - step.outdoor_share * s.dryness;
  day_.saturation += s.saturated;
  const double evaporated = step.evaporation * s.dryness, condensed = step.vapour_vent * s.dampness, wet = wet_area_[static_cast<std::size_t>(level)];
  day_.evaporated += evaporated;
  day_.condensed += condensed;
  evaporated_depth_ += wet > 0.0 ? evaporated / wet : 0.0;
  double owed = 0.0;
  for (int h = 0; h < hours; ++h) owed += owed_[static_cast<std::size_t>(first_hour) + static_cast<std::size_t>(h)];
  book_heat(step, began, s.sum - s.temperature + began, s.sum, owed, s.gained, room::latent_watts_per_kg_h * (condensed - evaporated),
            powered ? s.heated - s.cooled : 0.0);
  wet_walls(step, s.sum / hours, owed / (hours * step.ingress), (s.saturated - step.outdoor_share * s.dryness) / hours, s.dryness > 0.0, hours, wet);
  // By rounding alone a push could pass full power, or be one where there is no machine.
  if (powered) {
    day_.heater_wh += std::min(step.heater_watts * hours, s.heated * step.kelvin_to_gain);
    day_.cooler_wh += std::min(step.cooler_watts * hours, std::max(0.0, s.cooled * step.kelvin_to_gain)) * step.cooler_input;
  }
  day_.outdoor += outdoor_mean_ * hours;
  day_.hours += hours;
}

}  // namespace rackwright
