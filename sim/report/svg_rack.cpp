// The rack from the front: places, mats by age, and the way of the water.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"
#include "sim/report/svg_canvas.hpp"
#include "sim/report/svg_charts.hpp"

namespace rackwright::report::svg {
namespace {

constexpr double width = 640, rack_left = 112, most_width = 374, most_height = 420, top_edge = 24;

/// Where things stand on the paper; one scale both ways.
struct Paper {
  double scale, floor, right, top;
  explicit Paper(const RackView& v) {
    const double wide = v.trays_per_tier * v.tray_width, high = v.lowest + v.tiers * v.spacing;
    scale = std::min(most_width / wide, most_height / high);
    right = rack_left + wide * scale;
    floor = std::max(top_edge + high * scale, 136.0);  // the tank beside a low rack needs its room
    top = floor - high * scale;
  }
  /// The floor of a tier's trays; tier 0 is the lowest.
  [[nodiscard]] double tier(const RackView& v, int number) const {
    return floor - (v.lowest + number * v.spacing) * scale;
  }
};

/// Days since sowing of the tray at a place, counted from the youngest; 0 when the place is free.
int age(const RackView& v, int place) {
  if (v.trays_per_day <= 0) return 0;
  const int days = place / v.trays_per_day + 1;
  return days <= v.days_on_rack ? days : 0;
}

/// Beyond this many places a word on each would make the page heavy, and none could be pointed at.
bool crowded(const RackView& v) { return v.tiers * v.trays_per_tier > 300; }

double shade(const RackView& v, int days) { return 0.16 + 0.84 * days / std::max(1, v.days_on_rack); }

/// The age of a mat: above it where that leaves the pipe clear, else on it where it is tall and dark enough.
void number(Canvas& c, const RackView& v, int days, Point foot, double tall, double room) {
  const std::string age = fmt::format("{}", days);
  if (tall + 14.0 <= room)
    c.text({foot.x, foot.y - tall - 3}, "middle", age, "age");
  else if (tall >= 12.0 && shade(v, days) > 0.85)
    c.text({foot.x, foot.y - tall / 2 + 4}, "middle", age, "age on-mat");
}

void trays(Canvas& c, const RackView& v, const Paper& paper) {
  const double tray = v.tray_width * paper.scale, gap = std::min(2.0, tray * 0.08);
  // Never into the tier above, whatever the file says.
  const double ripe = std::min(v.mat_height, 0.8 * v.spacing) * paper.scale;
  const double thick = std::min(4.0, 0.12 * v.spacing * paper.scale), least = std::min(2.0, thick);
  for (int tier = 0; tier < v.tiers; ++tier) {
    if (crowded(v)) c.rect(rack_left, paper.tier(v, tier), paper.right - rack_left, thick, "tray");
    for (int k = 0; k < v.trays_per_tier; ++k) {
      const int place = (v.tiers - 1 - tier) * v.trays_per_tier + k, days = age(v, place);
      const double x = rack_left + k * tray, y = paper.tier(v, tier);
      const std::string tip =
          crowded(v) ? ""
          : days > 0 ? fmt::format("tier {}, place {}: day {} of {} on the rack", tier + 1, k + 1, days, v.days_on_rack)
                     : fmt::format("tier {}, place {}: free", tier + 1, k + 1);
      if (days > 0) {
        const double tall = std::max(least, ripe * days / v.days_on_rack);
        c.rect(x + gap, y - tall, tray - 2 * gap, tall, "mat", tip, shade(v, days));
      }
      if (!crowded(v)) c.rect(x + gap, y, tray - 2 * gap, thick, "tray", tip);
      if (days > 0 && tray >= 16.0) number(c, v, days, {x + tray / 2, y}, std::max(least, ripe * days / v.days_on_rack),
                                           0.94 * v.spacing * paper.scale);
    }
  }
}

/// Tiers so close on the paper that lines of full weight would hide what stands between them.
bool fine(const RackView& v, const Paper& paper) { return v.spacing * paper.scale < 16.0; }

void frame(Canvas& c, const RackView& v, const Paper& paper) {
  for (int tier = 0; tier < v.tiers; ++tier) {
    const double y = paper.tier(v, tier) + std::min(4.0, 0.12 * v.spacing * paper.scale);
    c.line({rack_left, y}, {paper.right, y}, fine(v, paper) ? "frame thin" : "frame");
  }
  c.line({rack_left, paper.top}, {rack_left, paper.floor}, "frame");
  c.line({paper.right, paper.top}, {paper.right, paper.floor}, "frame");
  c.line({8, paper.floor}, {width - 8, paper.floor}, "ground");
}

void water(Canvas& c, const RackView& v, const Paper& paper) {
  const double riser = rack_left - 14;
  c.rect(10, paper.floor - 58, 62, 58, "tank", "tank, " + v.tank_text);
  c.rect(13, paper.floor - 44, 56, 41, "water", "tank, " + v.tank_text);
  c.path({{52, paper.floor - 10}, {riser, paper.floor - 10}}, "pipe");
  c.circle({84, paper.floor - 10}, 9, "pump", "pump, " + v.pump_text);
  c.text({10, paper.floor - 92}, "start", "tank");
  c.text({10, paper.floor - 67}, "start", v.tank_text);
  c.text({10, paper.floor + 24}, "start", "pump " + v.pump_text);
  double highest = paper.floor;
  for (int tier = 0; tier < v.tiers; ++tier) {
    const double y = paper.tier(v, tier) - 0.94 * v.spacing * paper.scale;
    highest = std::min(highest, y);
    if (v.cascade && !v.own_water && tier + 1 < v.tiers) continue;
    if (!v.own_water) c.path({{riser, y}, {paper.right - 4, y}}, fine(v, paper) ? "pipe thin" : "pipe");
    const auto t = static_cast<std::size_t>(tier);
    if (t < v.tier_texts.size()) c.rect(riser, y - 5, paper.right - riser, 10, "touch", v.tier_texts[t]);
  }
  if (!v.own_water) c.path({{riser, paper.floor - 10}, {riser, highest}}, "pipe");
}

/// What drips through leaves every tier at its far end.
void drain(Canvas& c, const RackView& v, const Paper& paper) {
  const double x = paper.right + 6;
  const int from = v.cascade ? 0 : v.tiers - 1;  // the highest tier that drains by the pipe
  for (int tier = 0; tier <= from; ++tier)
    c.path({{paper.right - 2, paper.tier(v, tier) + 3}, {x, paper.tier(v, tier) + 3}}, "drain");
  for (int tier = from + 1; tier < v.tiers; ++tier)
    for (const double share : {0.1, 0.37, 0.63, 0.9}) {
      const double at = rack_left + share * (paper.right - rack_left), y = paper.tier(v, tier) + 5;
      c.path({{at, y}, {at, y + 0.3 * v.spacing * paper.scale}}, "drain");
    }
  if (v.returns)
    c.path({{x, paper.tier(v, from) + 3}, {x, paper.floor + 8}, {41, paper.floor + 8}, {41, paper.floor - 2}}, "drain");
  else
    c.path({{x, paper.tier(v, from) + 3}, {x, paper.floor + 14}}, "drain");
  if (v.returns)
    c.text({width - 8, paper.floor + 27}, "end", "back to the tank");
  else
    c.text({x + 8, paper.floor + 24}, "start", "drain");
}

void measures(Canvas& c, const RackView& v, const Paper& paper) {
  const double x = paper.right + (v.tier_weight.empty() ? 22 : 104), y = paper.floor + 40;
  if (!v.tier_weight.empty())
    for (int tier = 0; tier < v.tiers; tier += fine(v, paper) ? v.tiers : 1)
      c.text({paper.right + 14, paper.tier(v, tier) - 2}, "start", v.tier_weight);
  c.line({x, paper.top}, {x, paper.floor}, "measure");
  c.line({x - 5, paper.top}, {x + 5, paper.top}, "measure");
  c.line({x - 5, paper.floor}, {x + 5, paper.floor}, "measure");
  c.upright({x + 25, (paper.top + paper.floor) / 2}, "middle", v.height_text, "strong");
  c.line({rack_left, y}, {paper.right, y}, "measure");
  c.line({rack_left, y - 5}, {rack_left, y + 5}, "measure");
  c.line({paper.right, y - 5}, {paper.right, y + 5}, "measure");
  c.text({(rack_left + paper.right) / 2, y + 26}, "middle", v.width_text, "strong");
}

void legend(Canvas& c, const RackView& v, double y) {
  const double box = std::min(30.0, 380.0 / std::max(1, v.days_on_rack));
  const double from = rack_left, end = from + box * v.days_on_rack;
  for (int days = 1; days <= v.days_on_rack; ++days)
    c.rect(from + (days - 1) * box, y, box, 16, "mat", fmt::format("day {} on the rack", days), shade(v, days));
  c.text({from - 8, y + 14}, "end", "sown");
  c.text({end + 8, y + 14}, "start", fmt::format("day {}, ready", v.days_on_rack));
}

}  // namespace

std::string rack(const RackView& v) {
  EXPECTS(v.tiers > 0 && v.trays_per_tier > 0 && v.tray_width > 0.0 && v.spacing > 0.0 && v.lowest >= 0.0);
  const Paper paper(v);
  Canvas c(v.words.id, width, paper.floor + 122, v.words.title, v.words.description);
  frame(c, v, paper);
  trays(c, v, paper);
  water(c, v, paper);
  if (!v.own_water) drain(c, v, paper);
  measures(c, v, paper);
  legend(c, v, paper.floor + 96);
  return c.finish();
}

}  // namespace rackwright::report::svg
