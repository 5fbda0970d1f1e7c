#include "sim/study/day_signs.hpp"

#include <algorithm>

#include "models/base/expects.hpp"

namespace rackwright::study {
namespace {

constexpr int quiet_days = 14;

double fill(const DailyRow& row) {
  return row.wanted > 0.0F ? static_cast<double>(row.served) / static_cast<double>(row.wanted) : 1.0;
}

double a_mat(const DaySigns& s) { return s.cut > 0.0F ? static_cast<double>(s.cut_fresh) / static_cast<double>(s.cut) : 0.0; }

constexpr double mats_turned = 2.0;

bool shows(Sign sign, const DailyRow& usual, const DailyRow& row) {
  const DaySigns &was = usual.signs, &is = row.signs;
  // Where the animals get less already, less tells why.
  const bool less = fill(row) < fill(usual) - 0.02;
  switch (sign) {
    case Sign::no_hands: return is.missed > was.missed;
    case Sign::frost: return is.frost + is.frozen > was.frost + was.frozen;
    case Sign::no_water: return is.dry_hours > was.dry_hours + 1.0F;
    case Sign::no_grain: return is.unsown > was.unsown;
    case Sign::no_room: return is.blocked > was.blocked;
    case Sign::sour:
    case Sign::mould: return false;  // by their sum, see below
    case Sign::thin_mats: return is.cut > 0.0F && was.cut > 0.0F && a_mat(is) < (less ? 0.98 : 0.9) * a_mat(was);
    case Sign::slow_mats: return is.cut < was.cut && less;
    case Sign::more_wanted: return row.wanted > (less ? 1.001F : 1.05F) * usual.wanted;
  }
  return false;
}

bool worse(const DailyRow& usual, const DailyRow& row, double tolerance) { return fill(row) < fill(usual) - tolerance; }

/// That day, and the week that ends with it.
bool worse_week(std::span<const DailyRow> usual, std::span<const DailyRow> struck, std::size_t day, double tolerance) {
  if (!worse(usual[day], struck[day], tolerance)) return false;
  double wanted = 0.0, missing = 0.0;
  for (std::size_t d = day < 6 ? 0 : day - 6; d <= day; ++d) {
    wanted += static_cast<double>(usual[d].wanted);
    missing += static_cast<double>(usual[d].wanted) * (fill(usual[d]) - fill(struck[d]));
  }
  return missing > tolerance * wanted;
}

}  // namespace

std::optional<FirstSign> first_sign(std::span<const DailyRow> undisturbed, std::span<const DailyRow> struck, int first,
                                    int until) {
  EXPECTS(undisturbed.size() == struck.size());
  double sour = 0.0, mould = 0.0;
  const auto end = std::min(struck.size(), static_cast<std::size_t>(std::max(0, until + 1)));
  for (auto day = static_cast<std::size_t>(std::max(0, first)); day < end; ++day) {
    sour += static_cast<double>(struck[day].signs.sour - undisturbed[day].signs.sour);
    mould += static_cast<double>(struck[day].signs.mould - undisturbed[day].signs.mould);
    for (std::size_t s = 0; s < sign_names.size(); ++s) {
      const auto sign = static_cast<Sign>(s);
      const bool turned = (sign == Sign::sour && sour >= mats_turned) || (sign == Sign::mould && mould >= mats_turned);
      if (turned || shows(sign, undisturbed[day], struck[day])) return FirstSign{sign, static_cast<int>(day)};
    }
  }
  return std::nullopt;
}

std::optional<int> first_short(std::span<const DailyRow> undisturbed, std::span<const DailyRow> struck, int first,
                               double tolerance) {
  EXPECTS(undisturbed.size() == struck.size());
  for (auto day = static_cast<std::size_t>(std::max(0, first)); day < struck.size(); ++day) {
    if (worse(undisturbed[day], struck[day], tolerance)) return static_cast<int>(day);
  }
  return std::nullopt;
}

Recovery recovery(std::span<const DailyRow> undisturbed, std::span<const DailyRow> struck, int first, int until,
                  double tolerance) {
  EXPECTS(undisturbed.size() == struck.size());
  const int end = static_cast<int>(struck.size());
  int last_worse = -1;
  for (int day = std::max(0, first); day < end; ++day) {
    const auto d = static_cast<std::size_t>(day);
    if (worse_week(undisturbed, struck, d, tolerance)) last_worse = day;
    if (day - std::max(last_worse, until) >= quiet_days) return {last_worse < 0 ? 0 : last_worse + 1 - first, true};
  }
  const bool over = end - 1 - std::max(last_worse, until) >= quiet_days;
  return {last_worse < 0 ? 0 : last_worse + 1 - first, over};
}

}  // namespace rackwright::study
