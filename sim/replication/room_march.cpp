#include "sim/replication/room_march.hpp"

#include <algorithm>
#include <cmath>

#include "models/room/heat_balance.hpp"

namespace rackwright {
namespace {

constexpr auto nodes = static_cast<std::size_t>(ResponseTable::nodes);
constexpr auto node_rows = static_cast<std::size_t>(ResponseTable::node_step / ResponseTable::bin);
constexpr int first_row = static_cast<int>(ResponseTable::first_node / ResponseTable::bin);
static_assert(node_rows * ResponseTable::bin == ResponseTable::node_step && first_row * ResponseTable::bin == ResponseTable::first_node);

// Up to a day of hours, with everything the loop below reads. Temperatures are in rows of the response table: the hours hang
// on one another by a chain of arithmetic, and the chain is shorter when a temperature is its own place in the tables.
struct Stretch {
  const ResponseTable* table;
  const RoomMarch::Damp* damp;
  const room::Step* step;             // in rows
  double outdoor_ratio;
  const double* outdoor;              // what each hour owes to outdoor air and sun [rows]
  const double* mat_heat;
  std::size_t species;
  int hours;
  double temperature;                 // in: at the start; out: at the end [rows]
  double nothing = 0.0;               // read at run time: of a maximum with a plain 0 gcc 12 makes three instructions
  double* since[2];                   // of each mark, [node][curve]; the stretch is added
  // Sums over the hours: room air, saturation ratio, its excess over the outdoor ratio, what heater and cooler did [rows].
  double sum = 0.0, most = -1e9, least = 1e9, saturated = 0.0, dryness = 0.0, dampness = 0.0, heated = 0.0, cooled = 0.0;
};

// One hour's rows at every node added up.
template <std::size_t Stride>
[[gnu::always_inline]] inline void add_rows(float* sums, const float* low, std::size_t stride, float share) {
  const std::size_t width = Stride != 0 ? Stride : stride;
#pragma GCC unroll 5
  for (std::size_t node = 0; node < nodes; ++node) {
    for (std::size_t i = 0; i < width; ++i) sums[i] += low[i] + share * low[i + width];
    sums += width;
    low += 2 * node_rows * width;
  }
}

// The stretch's integrals, in single precision, added to those since each mark, in double.
template <std::size_t Size>
[[gnu::always_inline]] inline void add_stretch(const Stretch& s, const float* sums, std::size_t size) {
  const std::size_t count = Size != 0 ? Size : size;
  for (double* since : s.since) {
    for (std::size_t i = 0; i < count; ++i) since[i] += static_cast<double>(sums[i]);
  }
}

// The curves are read at the temperature that begins the hour: over many hours that is the trapezoid rule.
// Stride 0 takes the table's own; a constant one lets the compiler keep the rows in vector registers, and says how many
// species there can be: the heat of those there are not is zero.
template <std::size_t Stride>
[[gnu::always_inline]] inline void hours_of(Stretch& s, float* spare_sums) {
  const ResponseTable& table = *s.table;
  const std::size_t stride = Stride != 0 ? Stride : table.stride();
  constexpr std::size_t fixed_species = Stride != 0 ? (Stride - 2) / 3 : 1;
  const double most_row = static_cast<double>(table.bins() - 2 - nodes * node_rows) - 1e-6;
  // A local array of constant size can live in registers.
  alignas(32) std::array<float, nodes * (Stride != 0 ? Stride : 1)> own;
  if (Stride != 0) std::copy_n(spare_sums, own.size(), own.data());  // zeros, in whole registers
  float* sums = Stride != 0 ? own.data() : spare_sums;
  const RoomMarch::Damp* damp = s.damp;
  const float* rows = table.row(0);
  const room::Step step = *s.step;
  const double outdoor_ratio = s.outdoor_ratio, nothing = s.nothing;
  const double outdoor_drying = outdoor_ratio * RoomMarch::drying(step), outdoor_wetting = outdoor_ratio * RoomMarch::wetting(step);
  const double heat_scale = 24.0 * step.gain_to_kelvin;  // curves are per hour, heat is at one growth day a day
  std::array<double, fixed_species> heat{};
  if (Stride != 0) for (std::size_t i = 0; i < s.species; ++i) heat[i] = heat_scale * s.mat_heat[i];
  double temperature = s.temperature;
  double sum = 0.0, most = -1e9, least = 1e9, saturated = 0.0, dryness = 0.0, excess = 0.0, heated = 0.0, pushed = 0.0;
  const int hours = s.hours;
  for (int h = 0; h < hours; ++h) {
    const double at = room::detail::lesser(most_row, room::detail::greater(-static_cast<double>(first_row), temperature));
    const int whole = static_cast<int>(at);
    const float share = static_cast<float>(at - whole);
    const RoomMarch::Damp& air = damp[whole];
    const float* here = rows + static_cast<std::ptrdiff_t>(2 * stride) * whole;
    double gain = 0.0;
    if (Stride != 0) {
#pragma GCC unroll 5
      for (std::size_t i = 0; i < fixed_species; ++i) gain += heat[i] * static_cast<double>(here[2 + 3 * i]);
    } else {
      for (std::size_t i = 0; i < s.species; ++i) gain += heat_scale * s.mat_heat[i] * static_cast<double>(here[2 + 3 * i]);
    }
    add_rows<Stride>(sums, here + 2 * first_row * static_cast<std::ptrdiff_t>(stride), stride, share);
    // Venting brings more than a film gives: below 0 the lesser of the two is what condenses.
    const double drying = room::detail::lesser(air.drying_rise * at + (air.drying - outdoor_drying),
                                               air.wetting_rise * at + (air.wetting - outdoor_wetting));
    const room::Drift next = room::drift(step, temperature, s.outdoor[h], gain, drying);
    const double saturation = air.ratio + air.ratio_rise * at;
    saturated += saturation;
    excess += saturation - outdoor_ratio;
    dryness += room::detail::greater(saturation - outdoor_ratio, nothing);
    temperature = next.temperature;
    sum += temperature;
    most = room::detail::greater(most, temperature);
    least = room::detail::lesser(least, temperature);
    const double push = temperature - next.drifted;
    pushed += push;
    heated += room::detail::greater(push, nothing);
  }
  add_stretch<Stride * nodes>(s, sums, nodes * stride);
  s.temperature = temperature;
  s.sum = sum;
  s.most = most;
  s.least = least;
  s.saturated = saturated;
  s.dryness = dryness;
  s.dampness = dryness - excess;
  s.heated = heated;
  s.cooled = heated - pushed;
}

// Wider registers where the processor has them; the same bits either way, since nothing is contracted or reordered.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__SANITIZE_THREAD__) && !defined(__SANITIZE_ADDRESS__)
#define RACKWRIGHT_WIDE __attribute__((target_clones("avx2", "default")))
#else
#define RACKWRIGHT_WIDE
#endif
RACKWRIGHT_WIDE void hours_8(Stretch& s, float* zeros) { hours_of<8>(s, zeros); }
RACKWRIGHT_WIDE void hours_16(Stretch& s, float* zeros) { hours_of<16>(s, zeros); }
RACKWRIGHT_WIDE void hours_any(Stretch& s, float* sums) { hours_of<0>(s, sums); }

}  // namespace

namespace {

constexpr double in_rows(double celsius) { return (celsius - ResponseTable::coldest) * (1.0 / ResponseTable::bin); }
constexpr double in_celsius(double rows) { return ResponseTable::coldest + ResponseTable::bin * rows; }

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
    : plan_(&plan), recent_(nodes * plan.response.stride()), damp_rows_(plan.saturation.size() - 1) {
  since_.resize(2 * recent_.size());
  for (int level = 0; level <= levels; ++level) {
    const double share = static_cast<double>(level) / levels;
    wet_area_.push_back(plan.scenario.room.wet_area.value() + share * plan.positions * plan.tray_area);
    const room::Step step = steps_.emplace_back(step_in_rows(room_step(plan, share)));
    for (std::size_t row = 0; row < damp_rows_; ++row) {
      const auto here = static_cast<double>(plan.saturation[row]);
      const double rise = static_cast<double>(plan.saturation[row + 1]) - here;
      const double at_zero = here - rise * static_cast<double>(row);
      damp_.push_back({drying(step) * at_zero, drying(step) * rise, wetting(step) * at_zero, wetting(step) * rise, at_zero, rise});
    }
  }
}

int RoomMarch::level_of(int trays) const {
  return plan_->positions > 0 ? (trays * levels + plan_->positions / 2) / plan_->positions : 0;
}

void RoomMarch::start(const Fortune& fortune, std::int64_t hour) {
  hour_ = hour;
  const auto day = static_cast<int>(hour / 24);
  const climate::Day& today = fortune.weather(day);
  rows_ = in_rows(0.5 * (today.maximum + today.minimum));
  day_ = RoomDay{};
  evaporated_depth_ = 0.0;
  prepare(fortune, day);
  set_mark(0);
  set_mark(1);
}

double RoomMarch::temperature() const { return in_celsius(rows_); }

void RoomMarch::set_mark(int mark) {
  std::fill_n(since_.data() + static_cast<std::size_t>(mark) * recent_.size(), recent_.size(), 0.0);
}

namespace {

// A day's hours outdoors, and what each owes to outdoor air and sun [rows].
RACKWRIGHT_WIDE void hours_outdoors(const DayPlan& shape, const climate::Day& today, const climate::Day& yesterday,
                                    const room::Step& step, double* outdoor_before, double* owed) {
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
  for (std::size_t h = 0; h < 24; ++h) outdoor_before[h + 1] = outdoor_before[h] + static_cast<double>(outdoor[h]);
}

}  // namespace

void RoomMarch::prepare(const Fortune& fortune, int day) {
  const DayPlan& shape = plan_->days[static_cast<std::size_t>((plan_->first_day_of_year + day + 730) % 365)];
  hours_outdoors(shape, fortune.weather(day), fortune.weather(std::max(day - 1, -lead_days)), steps_.front(), outdoor_before_.data(), owed_.data());
  prepared_day_ = day;
}

void RoomMarch::advance_to(const Fortune& fortune, std::int64_t hour, const std::vector<double>& mat_heat, bool powered, int trays) {
  const int level = level_of(trays);
  while (hour_ < hour) {
    // Floor division: days before day 0 count downwards.
    const auto day = static_cast<int>((hour_ - (((hour_ % 24) + 24) % 24)) / 24);
    const auto first = static_cast<int>(hour_ - std::int64_t{24} * day);
    const auto hours = static_cast<int>(std::min<std::int64_t>(24 - first, hour - hour_));
    march(fortune, day, first, hours, mat_heat, powered, level);
    hour_ += hours;
  }
}

void RoomMarch::march(const Fortune& fortune, int day, int first_hour, int hours, const std::vector<double>& mat_heat,
                      bool powered, int level) {
  const Plan& plan = *plan_;
  if (day != prepared_day_) prepare(fortune, day);
  room::Step step = steps_[static_cast<std::size_t>(level)];
  // Without electricity neither runs, whatever the set points.
  if (!powered) step.heater_watts = step.cooler_watts = step.heater_rise = step.cooler_fall = 0.0;
  Stretch s;
  s.table = &plan.response;
  s.damp = damp_of(level);
  s.step = &step;
  s.outdoor_ratio = fortune.weather(day).humidity_ratio;
  s.outdoor = owed_.data() + first_hour;
  s.mat_heat = mat_heat.data();
  s.species = mat_heat.size();
  s.hours = hours;
  s.temperature = rows_;
  s.since[0] = since_.data();
  s.since[1] = since_.data() + recent_.size();
  switch (plan.response.stride()) {
    case 8: hours_8(s, recent_.data()); break;
    case 16: hours_16(s, recent_.data()); break;
    default:
      std::fill(recent_.begin(), recent_.end(), 0.0F);
      hours_any(s, recent_.data());
  }
  rows_ = s.temperature;
  day_.sum += ResponseTable::coldest * hours + ResponseTable::bin * s.sum;
  day_.most = std::max(day_.most, in_celsius(s.most));
  day_.least = std::min(day_.least, in_celsius(s.least));
  day_.humidity += s.saturated - step.outdoor_share * s.dryness;
  day_.saturation += s.saturated;
  const double evaporated = step.evaporation * s.dryness, wet = wet_area_[static_cast<std::size_t>(level)];
  day_.evaporated += evaporated;
  day_.condensed += step.vapour_vent * s.dampness;
  evaporated_depth_ += wet > 0.0 ? evaporated / wet : 0.0;
  // By rounding alone a push could pass full power, or be one where there is no machine.
  day_.heater_wh += std::min(step.heater_watts * hours, s.heated * step.kelvin_to_gain);
  day_.cooler_wh += std::min(step.cooler_watts * hours, std::max(0.0, s.cooled * step.kelvin_to_gain)) * step.cooler_input;
  day_.outdoor += outdoor_before_[static_cast<std::size_t>(first_hour + hours)] - outdoor_before_[static_cast<std::size_t>(first_hour)];
  day_.hours += hours;
}

}  // namespace rackwright
