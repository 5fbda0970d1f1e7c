#include "sim/scenario/weather_days.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include <fmt/format.h>

namespace rackwright::weather {
namespace {

constexpr std::int64_t longest_silence = 240, day_minutes = 1440;
constexpr int fewest_stuck = 3;

/// Gathers how much of each day lies in silences that are too long. Minutes are counted from midnight of the first day.
class Silences {
 public:
  explicit Silences(const Days& days) : days_(days), origin_(days.begin()->first) {}

  void reading(DayNumber day, int minute) {
    until(day_minutes * (day - origin_) + minute, !begun_);
    begun_ = true;
  }
  void end() { until(day_minutes * (days_.rbegin()->first + 1 - origin_), true); }

  [[nodiscard]] std::vector<DayNumber> days() const {
    std::vector<DayNumber> silent;
    for (const auto& [day, minutes] : of_day_)
      if (minutes > longest_silence) silent.push_back(day);
    return silent;
  }
  /// The shortest of those that are too long, or, where each is cut off by an end of the log, what they come to on a day.
  [[nodiscard]] double shortest_hours() const {
    std::int64_t shortest = shortest_;
    if (shortest == none_yet)
      for (const auto& [day, minutes] : of_day_) shortest = std::min(shortest, minutes);
    return static_cast<double>(shortest) / 60.0;
  }

 private:
  /// How long it was silent before the log began, and is after its end, nobody knows: that counts, however short.
  void until(std::int64_t now, bool cut_off) {
    const bool too_long = now - before_ > longest_silence;
    if (too_long) shortest_ = std::min(shortest_, now - before_);
    if (too_long || cut_off) {
      for (auto day = days_.lower_bound(origin_ + static_cast<DayNumber>(before_ / day_minutes)); day != days_.end(); ++day) {
        const std::int64_t midnight = day_minutes * (day->first - origin_);
        if (midnight >= now) break;
        of_day_[day->first] += std::min(now, midnight + day_minutes) - std::max(before_, midnight);
      }
    }
    before_ = now;
  }

  static constexpr std::int64_t none_yet = std::numeric_limits<std::int64_t>::max();
  const Days& days_;
  DayNumber origin_;
  bool begun_ = false;
  std::int64_t before_ = 0, shortest_ = none_yet;
  std::map<DayNumber, std::int64_t> of_day_;
};

}  // namespace

void GatheredDay::add(double celsius, double dew) {
  maximum = std::isnan(maximum) ? celsius : std::max(maximum, celsius);
  minimum = std::isnan(minimum) ? celsius : std::min(minimum, celsius);
  if (std::isnan(dew)) return;
  dew_sum += dew;
  ++dew_count;
}

std::string drop_silent(Days& days) {
  if (days.empty()) return {};
  Silences silences(days);
  std::size_t most = 0;  // readings of a day
  for (auto& [day, gathered] : days) {
    std::sort(gathered.minutes.begin(), gathered.minutes.end());
    most = std::max(most, gathered.minutes.size());
    for (const int minute : gathered.minutes) silences.reading(day, minute);
  }
  silences.end();
  for (const DayNumber day : silences.days()) days.erase(day);
  if (!days.empty()) return {};
  if (most == 1)
    return "there is one reading a day, and one does not tell a day's highest and lowest: name columns of both, maximum and minimum, or take readings every four hours or oftener";
  return fmt::format("on every day {:.3g} hours or more go by without a reading (a night counts whole), and a day counts where no more than four do",
                     silences.shortest_hours());
}

std::vector<Stretch> drop_stuck(Days& days) {
  std::vector<Stretch> all;
  Stretch now;
  const auto end = [&] {
    if (now.days >= fewest_stuck) all.push_back(now);
    now = {};
  };
  for (const auto& [day, gathered] : days) {
    const bool still = !(gathered.maximum > gathered.minimum);
    if (now.days > 0 && (!still || day != now.first + now.days)) end();
    if (!still) continue;
    if (now.days == 0) now.first = day;
    ++now.days;
    now.line = gathered.line;
  }
  end();
  for (const Stretch& stretch : all) days.erase(days.lower_bound(stretch.first), days.lower_bound(stretch.first + stretch.days));
  return all;
}

}  // namespace rackwright::weather
