// What it costs, by part and by kilogram.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "sim/report/html_parts.hpp"
#include "sim/report/html_text.hpp"
#include "sim/report/svg_charts.hpp"

namespace rackwright::report::html {
namespace {

constexpr std::array parts{std::pair{"rack and equipment", "cost_capital"},
                           std::pair{"grain", "cost_grain"},
                           std::pair{"water", "cost_water"},
                           std::pair{"electricity", "cost_power"},
                           std::pair{"the keeper's work", "cost_labour"},
                           std::pair{"reserve feed", "cost_reserve"},
                           std::pair{"disposal of spoiled mats", "cost_disposal"}};

std::string by_part(const Sheet& s) {
  const auto total = s.estimate("cost_total", As::money);
  if (!total || total->mean <= 0.0) return "";
  std::vector<svg::Bar> all;
  Table t{"cost a year, by part", {"part", "mean", "95 % interval", "share"}, {}, ""};
  for (const auto& [label, quantity] : parts) {
    const auto e = s.estimate(quantity, As::money);
    if (!e) continue;
    const Cells c = s.cells(quantity, As::money);
    const std::string share = whole_percent(e->mean / total->mean);
    t.lines.push_back({label, c.mean, c.interval, share});
    if (e->mean > 0.0) all.push_back({label, c.mean, e->mean, "bar-wanted"});
  }
  std::stable_sort(all.begin(), all.end(), [](const svg::Bar& a, const svg::Bar& b) { return a.value > b.value; });
  const Cells sum = s.cells("cost_total", As::money);
  t.lines.push_back({"in all", sum.mean, sum.interval, "100 %"});
  if (all.empty()) return "";
  return figure(
      svg::bars({"cost", "Cost a year, by part",
                 fmt::format("Bars of what a year costs, dearest first; {} in all.", s.words("cost_total", As::money))},
                all),
      fmt::format("Cost a year: {} in all. Parts that cost nothing are in the table only.",
                  s.words("cost_total", As::money)),
      t);
}

std::string by_kilogram(const Sheet& s) {
  const auto fodder = s.file.estimate("cost_per_kg_dry_matter"), grain = s.file.estimate("dry_grain_per_kg_dry_matter");
  if (!fodder || !grain || !(fodder->mean > 0.0) || !(grain->mean > 0.0)) return "";
  const Shown unit = s.shown("cost_per_kg_dry_matter", As::price);
  const auto show = [&](double price) {
    const double shown = unit.scale * price;
    return plain(shown, decimals_for(0.0, shown)) + " " + unit.unit;
  };
  std::vector<svg::Bar> all{{"fodder from this rack", show(fodder->mean), fodder->mean, "bar-served"},
                            {"the same grain, fed dry", show(grain->mean), grain->mean, "bar-wanted"}};
  std::string words = fmt::format("{:.1f} times the same grain fed dry", fodder->mean / grain->mean);
  if (const auto hay = s.file.number("scenario/hay_cost_per_kg_dry_matter"); hay && *hay > 0.0) {
    all.push_back({"hay", show(*hay), *hay, "bar-plain"});
    words += fmt::format(" and {:.1f} times hay", fodder->mean / *hay);
  }
  Table t{"cost of dry matter", {"feed", "price of its dry matter"}, {}, ""};
  for (const svg::Bar& bar : all) t.lines.push_back({bar.label, bar.shown});
  t.lines[0][1] = s.words("cost_per_kg_dry_matter", As::price);
  const std::string fresh = fmt::format("Fresh fodder costs {}. ", s.words("cost_per_kg_fresh", As::price));
  std::string kept;
  if (s.file.estimate("grain_dry_matter") && s.file.estimate("cost_equal_hay"))
    kept = fmt::format(" Of the {} of dry matter in a year's grain {} reach the animals; hay with the energy of that fodder would cost {}.",
                       s.words("grain_dry_matter", As::year), s.words("fodder_dry_matter", As::year),
                       s.words("cost_equal_hay", As::money));
  return figure(
      svg::bars({"drymatter", "Cost of dry matter against grain and hay",
                 fmt::format("Bars of the price of dry matter: this fodder costs {}.", words)},
                all),
      fresh + fmt::format("By dry matter this fodder costs {}. Sprouting adds water and loses some dry matter; soaked grain that never "
                          "sprouted counts as dry matter too, so poor mats look cheap by it. Reserve feed is in none of these prices.",
                          words) + kept,
      t);
}

}  // namespace

std::string money_part(const Sheet& s) {
  if (s.played()) return by_part(s) + by_kilogram(s);
  if (!s.searched()) return "";
  return paragraph(
      fmt::format("This design costs {} a year. This file keeps the total only; play the design with rackwright simulate "
                  "to see it by part and by kilogram.",
                  with_interval(s.file.design("cost_year", static_cast<std::size_t>(s.design)),
                                {1.0, 0.0, s.file.header.currency})));
}

}  // namespace rackwright::report::html
