#pragma once
// The charts of the page. Values are in the reader's units already; every chart says in words what it shows.

#include <array>
#include <string>
#include <vector>

namespace rackwright::report::svg {

/// What all charts have: a name unique in the page, and words in place of the picture.
struct Words {
  std::string id, title, description;
};

/// Quantiles 5, 25, 50, 75 and 95 % of one day.
using Quantiles = std::array<double, 5>;

struct FanSeries {
  std::string name, css_class;  ///< served, wanted or room
  std::vector<Quantiles> days;
};
struct MonthMark {
  std::size_t day = 0;
  std::string name;
};
/// Bands through time; all series have the same days.
struct Fan {
  Words words;
  std::string unit;
  std::vector<FanSeries> series;
  std::vector<MonthMark> months;
  std::vector<std::string> dates;  ///< of each day, for the tooltips
  bool from_zero = true;
};
std::string fan(const Fan& data);

struct Bar {
  std::string label, shown;
  double value = 0.0;
  std::string css_class = "bar-served";
};
/// Lying bars from zero, each under its own label.
std::string bars(const Words& words, const std::vector<Bar>& all);

/// A share with its interval on a scale from 0 to 100 %, and the share that was asked for (none: negative).
struct Chance {
  double mean = 0.0, low = 0.0, high = 0.0, asked = -1.0;
};
std::string chance(const Words& words, const Chance& share);

/// What one thing does when it is turned down and up, as a difference from where the answer stands.
struct TornadoRow {
  std::string label, less_tip, more_tip;
  double less = 0.0, more = 0.0;
};
struct Tornado {
  Words words;
  std::string x_name, less_name, more_name;
  std::vector<TornadoRow> rows;  ///< strongest first
};
std::string tornado(const Tornado& data);

struct Dot {
  double x = 0.0, y = 0.0;
  std::string css_class, tip;
};
/// Cost (x) against a share (y, y_low to y_high), by default of years that meet the target; the chosen point is ringed and named.
struct Scatter {
  Words words;
  std::string x_name;
  std::vector<Dot> dots;
  double asked = -1.0;
  double y_low = 0.0, y_high = 1.0;
  std::string y_name = "years that meet the target";
  bool joined = false;  ///< a line through the dots, in their order
  int chosen = -1;  ///< index into dots
  std::string chosen_name;
};
std::string scatter(const Scatter& data);

/// The rack seen from the front, in metres.
struct RackView {
  Words words;
  int tiers = 0, trays_per_tier = 0;
  double tray_width = 0.0, spacing = 0.0, lowest = 0.0;
  double mat_height = 0.0;  ///< of a mat ready to feed
  int days_on_rack = 0, trays_per_day = 0;
  bool ladder = true;  ///< every tray moves down a place as it ages, else it stays where it was put
  bool cascade = false;     ///< only the top tier is fed, the rest drips from tier to tier
  bool own_water = false;   ///< through the keeper's own network, whose way is not drawn
  bool returns = false;     ///< what drains off goes back to the tank
  std::string height_text, width_text, spacing_text, tank_text, pump_text;  ///< tank and pump: the amount alone
  std::string tier_weight;  ///< of a tier full of ripe, wet mats; may be empty
  std::vector<std::string> tier_texts;  ///< lowest first, for the tooltip of the pipe of a tier; may be empty
};
std::string rack(const RackView& view);

}  // namespace rackwright::report::svg
