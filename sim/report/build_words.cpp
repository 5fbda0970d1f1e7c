#include "sim/report/build_words.hpp"

#include <fmt/format.h>

#include "sim/report/parts.hpp"
#include "sim/report/words.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright::report {
namespace {

std::string whole_money(double money) { return plain(money, decimals_for(0.0, money)); }

}  // namespace

std::string part_words(double amount, std::string_view unit, double each, std::string_view currency, bool us) {
  if (unit == "1" && amount == 1.0) return std::string(currency);
  // A price by the area or volume is for the metre: of the amount in other units it would be another.
  const std::string much = unit == "1" ? plain(amount, 0) : us ? fmt::format("{} ({})", write_quantity(amount, unit, false, 3), write_quantity(amount, unit, true, 3)) : write_quantity(amount, unit, false, 3);
  return fmt::format("{}, {} at {:.7g}{}", currency, much, each, unit == "1" ? "" : fmt::format(" /{}", unit));
}

std::string annuity_words(double years, double interest) {
  return fmt::format("over {:.3g} years{}", years, interest > 0.0 ? fmt::format(" at {:.3g} % interest", 100.0 * interest) : std::string(" without interest"));
}

std::string build_words(const results::ResultFile& file) {
  const auto capital = file.number("scenario/capital"), years = file.number("scenario/capital_years"), interest = file.number("scenario/capital_interest");
  const results::Array* names = file.find("scenario/part");
  if (!capital || !years || !interest || names == nullptr) return "";
  const auto& amounts = file.at("scenario/part_amount").numbers;
  const auto& costs = file.at("scenario/part_cost").numbers;
  std::string list, free;
  for (std::size_t i = 0; i < names->texts.size(); ++i) {
    if (costs[i] <= 0.0) {
      free += (free.empty() ? "" : ", ") + names->texts[i];
      continue;
    }
    const bool counted = amounts[i] != 1.0 && (names->texts[i] == "tiers" || names->texts[i] == "trays" || names->texts[i] == "soak buckets");
    list += fmt::format("{}{}{} {}", list.empty() ? "" : ", ", counted ? plain(amounts[i], 0) + " " : "", names->texts[i], whole_money(costs[i]));
  }
  std::string out = fmt::format("To build it takes {} {}", whole_money(*capital), file.header.currency);
  if (!list.empty()) out += " (" + list + ")";
  out += fmt::format("; the yearly cost spreads that {}", annuity_words(*years, *interest));
  if (!free.empty()) out += "; without a price: " + free;
  return out + ". Not in it: emitters, tank, spare pump, battery and header tank, grain store, wiring, delivery, and your own work at building it.";
}

}  // namespace rackwright::report
