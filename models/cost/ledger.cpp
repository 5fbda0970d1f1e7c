#include "models/cost/ledger.hpp"

#include <cmath>
#include <initializer_list>

#include "models/base/expects.hpp"

namespace rackwright::cost {

Money annual_cost(Money capital, double years, double interest) {
  EXPECTS(capital.value() >= 0.0 && years > 0.0 && interest >= 0.0);
  EXPECTS(std::isfinite(years) && std::isfinite(interest));
  if (interest == 0.0) return capital / years;
  // 1 - (1+i)^-n by expm1 and log1p, so that a very small interest meets the straight line.
  return capital * (interest / -std::expm1(-years * std::log1p(interest)));
}

double Ledger::total() const {
  for (const double entry : {capital, grain, water, power, labour, reserve, disposal}) EXPECTS(entry >= 0.0);
  return capital + grain + water + power + labour + reserve + disposal;
}

std::vector<Part> bill(const Build& build, const Prices& prices) {
  EXPECTS(build.tiers >= 0 && build.trays >= 0 && build.buckets >= 0);
  EXPECTS(build.insulation_m3 >= 0.0 && build.shaded_m2 >= 0.0);
  const bool rack = build.tiers > 0;
  std::vector<Part> parts{{"tiers", static_cast<double>(build.tiers), "1", prices.tier},
                          {"trays", static_cast<double>(build.trays), "1", prices.tray},
                          {"soak buckets", static_cast<double>(build.buckets), "1", prices.bucket},
                          {"frame", rack ? 1.0 : 0.0, "1", prices.frame},
                          {"pump with timer and pipes", rack ? 1.0 : 0.0, "1", prices.pump},
                          {"heater", build.heater ? 1.0 : 0.0, "1", prices.heater},
                          {"cooler", build.cooler ? 1.0 : 0.0, "1", prices.cooler},
                          {"insulation", build.insulation_m3, "m3", Money(prices.insulation_per_m3)},
                          {"shade", build.shaded_m2, "m2", Money(prices.shade_per_m2)}};
  std::erase_if(parts, [](const Part& part) { return part.amount <= 0.0; });
  return parts;
}

Money capital(const Build& build, const Prices& prices) {
  Money sum;
  for (const Part& part : bill(build, prices)) sum += part.amount * part.each;
  return sum;
}

double per_kilogram(double money, double kilograms) {
  EXPECTS(money >= 0.0 && kilograms >= 0.0);
  return kilograms > 0.0 ? money / kilograms : 0.0;
}

double bought_per_kilogram_dry(double price_per_kg, double dry_matter) {
  EXPECTS(price_per_kg >= 0.0 && dry_matter > 0.0 && dry_matter <= 1.0);
  return price_per_kg / dry_matter;
}

}  // namespace rackwright::cost
