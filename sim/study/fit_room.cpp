#include "sim/study/fit_room.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "models/base/expects.hpp"

namespace rackwright::study {
namespace {

constexpr double coldest_hour = 6.0, warmest_hour = 15.0;
constexpr int longest_stay = 62;  // days behind the last sowing

// From `low` to `high` as the share of the way goes from 0 to 1.
double swing(double low, double high, double share) { return low + (high - low) * 0.5 * (1.0 - std::cos(std::numbers::pi * share)); }

}  // namespace

LoggedRoom::LoggedRoom(const TrayLog& log, std::optional<std::chrono::sys_days> until) {
  EXPECTS(!log.trays.empty());
  struct Sum { double maximum = 0.0, minimum = 0.0, count = 0.0; };
  std::map<int, Sum> read;
  first_ = log.trays.front().sown;
  for (const LoggedTray& tray : log.trays) {
    if (!tray.room_max || !tray.room_min || (until && tray.sown >= *until)) continue;
    Sum& sum = read[day_of(tray.sown)];
    sum.maximum += tray.room_max->value();
    sum.minimum += tray.room_min->value();
    sum.count += 1.0;
  }
  const auto days = static_cast<std::size_t>(day_of(log.trays.back().sown)) + static_cast<std::size_t>(longest_stay);
  maximum_.assign(days, 20.0);
  minimum_.assign(days, 20.0);
  known_.assign(days, 0);
  std::vector<int> all;
  double sum = 0.0;
  for (const auto& [day, what] : read) {
    maximum_[static_cast<std::size_t>(day)] = what.maximum / what.count;
    minimum_[static_cast<std::size_t>(day)] = what.minimum / what.count;
    sum += 0.5 * (what.maximum + what.minimum) / what.count;
    all.push_back(day);
  }
  readings_ = static_cast<int>(all.size());
  if (all.empty()) return;
  mean_ = sum / readings_;
  fill(all);
  take_weeks(all);
  if (until) hold(std::max(0, day_of(*until)));
}

void LoggedRoom::fill(const std::vector<int>& days) {
  const auto at = [](int day) { return static_cast<std::size_t>(day); };
  std::size_t next = 0;
  for (int day = 0; day < this->days(); ++day) {
    while (next < days.size() && days[next] < day) ++next;
    const int after = next < days.size() ? days[next] : days.back(), before = next > 0 ? days[std::min(next, days.size()) - 1] : days.front();
    if (day == after) { known_[at(day)] = 1; continue; }
    const double share = after > before ? std::clamp((day - before) / static_cast<double>(after - before), 0.0, 1.0) : 0.0;
    maximum_[at(day)] = maximum_[at(before)] + share * (maximum_[at(after)] - maximum_[at(before)]);
    minimum_[at(day)] = minimum_[at(before)] + share * (minimum_[at(after)] - minimum_[at(before)]);
    known_[at(day)] = std::min(std::abs(day - before), std::abs(after - day)) <= bridged_days;
  }
}

void LoggedRoom::hold(int from) {
  double maximum = 0.0, minimum = 0.0, count = 0.0;
  for (int day = std::min(from, days()) - 1; day >= 0 && count < mean_days; --day) {
    maximum += maximum_[static_cast<std::size_t>(day)];
    minimum += minimum_[static_cast<std::size_t>(day)];
    count += 1.0;
  }
  if (count == 0.0) return;
  for (auto day = static_cast<std::size_t>(from); day < maximum_.size(); ++day) {
    maximum_[day] = maximum / count;
    minimum_[day] = minimum / count;
    known_[day] = 1;
  }
}

void LoggedRoom::take_weeks(const std::vector<int>& days) {
  std::vector<double> means;
  for (int from = days.front(); from + mean_days <= days.back() + 1; from += mean_days) {
    double sum = 0.0;
    for (int day = from; day < from + mean_days; ++day) sum += 0.5 * (maximum_[static_cast<std::size_t>(day)] + minimum_[static_cast<std::size_t>(day)]);
    means.push_back(sum / mean_days);
  }
  constexpr std::size_t fewest = 4;
  if (means.size() < fewest) return;
  double square = 0.0;
  for (std::size_t i = 1; i < means.size(); ++i) square += (means[i] - means[i - 1]) * (means[i] - means[i - 1]);
  weekly_step_ = std::sqrt(square / static_cast<double>(means.size() - 1));
}

bool LoggedRoom::known(int from, int to) const {
  if (from < 0 || to >= days()) return false;
  return std::all_of(known_.begin() + from, known_.begin() + to + 1, [](char known) { return known != 0; });
}

double LoggedRoom::at(int day, double hour) const {
  const auto clamped = [&](int d) { return static_cast<std::size_t>(std::clamp(d, 0, days() - 1)); };
  constexpr double night = 24.0 - (warmest_hour - coldest_hour);
  if (hour < coldest_hour) return swing(maximum_[clamped(day - 1)], minimum_[clamped(day)], (hour + 24.0 - warmest_hour) / night);
  if (hour < warmest_hour) return swing(minimum_[clamped(day)], maximum_[clamped(day)], (hour - coldest_hour) / (warmest_hour - coldest_hour));
  return swing(maximum_[clamped(day)], minimum_[clamped(day + 1)], (hour - warmest_hour) / night);
}

RoomResponse::RoomResponse(const LoggedRoom& room, const SpeciesModels& species, const spoilage::Parameters& spoil) {
  // Response by temperature first, a tenth of a kelvin apart: the hours of all days and warmths look it up.
  constexpr double coldest = -60.0, step = 0.1, warmest = 110.0;
  std::vector<DayIncrement> table;
  double degrees = coldest;
  while (degrees < warmest) {
    const double rate = germination::rate(species.germination, Celsius(degrees));
    table.push_back({spoilage::growth_factor(spoil.mould, Celsius(degrees)), spoilage::growth_factor(spoil.sour, Celsius(degrees)),
                     growth::growth_rate(species.growth, Celsius(degrees)), rate, rate * germination::fraction(species.germination, Celsius(degrees))});
    degrees += step;
  }
  rows_.resize(static_cast<std::size_t>(room.days()) * nodes);
  for (int day = 0; day < room.days(); ++day) {
    DayIncrement* row = rows_.data() + static_cast<std::size_t>(day) * nodes;
    for (int h = 0; h < 24; ++h) {
      const double hour = morning + h + 0.5;
      const double air = room.at(day + (hour >= 24.0 ? 1 : 0), hour >= 24.0 ? hour - 24.0 : hour);
      for (int node = 0; node < nodes; ++node) {
        const double t = std::clamp(air + first_node + node_step * node, coldest, warmest - 2.0 * step);
        const DayIncrement& now = table[static_cast<std::size_t>(std::lround((t - coldest) / step))];
        row[node].mould += now.mould / 24.0;
        row[node].sour += now.sour / 24.0;
        row[node].growth += now.growth / 24.0;
        row[node].rate += now.rate / 24.0;
        row[node].rate_fraction += now.rate_fraction / 24.0;
      }
    }
  }
}

// Catmull and Rom's cubic between nodes: a search of slopes meets no corners.
DayIncrement RoomResponse::of(int day, double warmer) const {
  const double at = std::clamp((warmer - first_node) / node_step, 0.0, nodes - 1 - 1e-9);
  const int node = static_cast<int>(at);
  const double t = at - node;
  const DayIncrement* row = rows_.data() + static_cast<std::size_t>(day) * nodes;
  const DayIncrement& before = row[std::max(0, node - 1)];
  const DayIncrement& a = row[node];
  const DayIncrement& b = row[node + 1];
  const DayIncrement& after = row[std::min(nodes - 1, node + 2)];
  const double w0 = 0.5 * t * (t * (2.0 - t) - 1.0), w1 = 0.5 * (t * t * (3.0 * t - 5.0) + 2.0);
  const double w2 = 0.5 * t * (t * (4.0 - 3.0 * t) + 1.0), w3 = 0.5 * t * t * (t - 1.0);
  const auto mix = [&](double DayIncrement::*what) { return std::max(0.0, w0 * before.*what + w1 * a.*what + w2 * b.*what + w3 * after.*what); };
  return {mix(&DayIncrement::mould), mix(&DayIncrement::sour), mix(&DayIncrement::growth), mix(&DayIncrement::rate), mix(&DayIncrement::rate_fraction)};
}

}  // namespace rackwright::study
