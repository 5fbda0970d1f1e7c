#pragma once
// Money: capital spread over its life, running costs by part, and what the fodder cost against the alternatives.

#include <string_view>
#include <vector>

#include "models/base/quantity.hpp"

namespace rackwright::cost {

/// Yearly payment, at the end of each year, that spreads `capital` over `years` (> 0) at `interest` (>= 0, a year)
/// (annuity); straight line at zero interest.
Money annual_cost(Money capital, double years, double interest);

/// Standing prices are round figures of common practice, no source: the keeper's own belong in the scenario.
struct Prices {
  Money tier{60.0}, tray{9.0}, pump{70.0}, bucket{8.0}, frame{120.0}, heater{150.0}, cooler{450.0};
  double life_years = 8.0;
  double interest = 0.05;
  double water_per_m3 = 2.0;
  double power_per_kwh = 0.25;
  double labour_per_hour = 0.0;
  double reserve_per_kg = 0.30;     ///< reserve feed as bought, e.g. hay
  double hay_per_kg = 0.25;
  double disposal_per_kg = 0.0;     ///< of spoiled mats
  double insulation_per_m3 = 180.0; ///< with what holds it: 9 a square metre of a board of 5 cm
  double shade_per_m2 = 0.0;        ///< of window or roof shaded; 0 where the shade is there already
};

/// What one replication spends; every entry >= 0. total() is their sum, checked.
struct Ledger {
  double capital = 0.0, grain = 0.0, water = 0.0, power = 0.0, labour = 0.0, reserve = 0.0, disposal = 0.0;
  [[nodiscard]] double total() const;
};

struct Build { int tiers = 0, trays = 0, buckets = 0; bool heater = false, cooler = false; double insulation_m3 = 0.0, shaded_m2 = 0.0; };
/// A part of what is built: how much of it, in `unit` ("1", "m3", "m2"), and what one costs.
struct Part { std::string_view name; double amount{}; std::string_view unit; Money each{}; };
/// One rack and its room, part by part, without those of which there are none: frame and pump once, the rest by count or measure.
std::vector<Part> bill(const Build& build, const Prices& prices);
/// What the bill comes to; nothing when there is nothing.
Money capital(const Build& build, const Prices& prices);

/// Cost per kilogram, or nothing-served guarded to 0.
double per_kilogram(double money, double kilograms);
/// Cost per kilogram of dry matter of a feed bought at `price_per_kg` with `dry_matter` [1] in it: grain fed dry, or
/// hay.
double bought_per_kilogram_dry(double price_per_kg, double dry_matter);

}  // namespace rackwright::cost
