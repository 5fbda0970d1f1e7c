// What to do about heating or cooling that is a large part of the cost, from the room as it is.

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "sim/report/command_words.hpp"
#include "sim/report/html_page.hpp"
#include "sim/report/html_scenario.hpp"
#include "sim/report/parts.hpp"
#include "sim/report/simulate_page.hpp"

namespace rackwright::report {
namespace {

/// Ways of the room's warmth [W/K], as docs/models/room.md reckons them: resistances of wall and insulation add, air carries 0.33 Wh/m3/K.
struct Ways {
  double shell_bare = 1.8, shell_area = 1.0, insulation = 0.0, conductivity = 0.037, air_changes = 0.0, volume = 0.0;
  [[nodiscard]] double wall(double thickness) const {
    return shell_bare / (1.0 + shell_bare * thickness / conductivity) * shell_area;
  }
  [[nodiscard]] double air() const { return 0.33 * air_changes * volume; }
};

Ways ways_of(const results::ResultFile& file) {
  const StoredScenario scenario(file.text("scenario/resolved"), design_settings(file));
  Ways w;
  const auto take = [&](double& into, const char* key, const char* unit) { into = scenario.number(key, unit).value_or(into); };
  take(w.shell_bare, "room.shell", "W/m2/K");
  take(w.shell_area, "room.shell_area", "m2");
  take(w.insulation, "room.insulation", "m");
  take(w.conductivity, "room.insulation_conductivity", "W/m/K");
  take(w.air_changes, "room.air_changes", "1");
  double floor = 0.0, height = 0.0;
  take(floor, "room.floor_area", "m2");
  take(height, "room.height", "m");
  w.volume = floor * height;
  return w;
}

/// A board more, in whole centimetres or inches; not beyond what is ever put on.
double thicker(double now, bool us) {
  constexpr double most = 0.3;
  const double unit = us ? 0.0254 : 0.01, board = us ? 2.0 : 5.0;
  const double next = unit * (std::round(now / unit) + board);
  return next <= most ? next : now;
}

std::string thickness(double metres, bool us) { return us ? fmt::format("{:.3g} in", metres / 0.0254) : fmt::format("{:.3g} cm", 100.0 * metres); }

/// What is worth comparing; empty where nothing sensible is left.
template <class Command>
std::string remedy(const Ways& w, bool heating, bool us, const Command& command) {
  constexpr double worth = 0.05;     // of all that goes out: less is lost in the price of the boards
  constexpr double least_air = 1.0;  // changes an hour below which a room of wet mats is not aired
  const double wall = w.wall(w.insulation), all = wall + w.air(), next = thicker(w.insulation, us);
  const bool boards = all > 0.0 && wall - w.wall(next) > worth * all, drier = w.air_changes > least_air;
  if (heating && drier && w.air() > wall) {
    const double fewer = std::max(least_air, 0.5 * w.air_changes);
    return fmt::format("{:.0f} % of the warmth goes out with the air, which is renewed {:.3g} times an hour, so more insulation helps little. Fewer air changes keep "
                       "more of it in, at the price of damper air, in which mats mould sooner: compare with {}.",
                       100.0 * w.air() / all, w.air_changes, command(fmt::format("room.air_changes={:.3g}", fewer)));
  }
  if (!boards) return "";
  const std::string compare = "compare with " + command("room.insulation=" + thickness(next, us));
  if (w.insulation <= 0.0) return "insulate, and " + compare + ".";
  if (!heating) return fmt::format("with {} of insulation as it is, thicker may pay: {}.", thickness(w.insulation, us), compare);
  return fmt::format("{:.0f} % of the warmth goes through the walls, with {} of insulation; thicker may pay: {}.", 100.0 * wall / all, thickness(w.insulation, us), compare);
}

}  // namespace

std::string heating_words(const results::ResultFile& file, double heating, double cooling) {
  const Page page(file);
  if (!page.has("cost_total")) return "";
  const double total = page.year("cost_total").mean, both = heating + cooling;
  if (!(total > 0.0) || !(both > total / 3.0)) return "";
  const auto command = [&](const std::string& change) { return compare_command(file.header.command_line, change, design_settings(file)); };
  const std::string what = remedy(ways_of(file), heating >= cooling, in_us_units(file), command);
  if (what.empty()) return "";
  return fmt::format("{} {:.0f} % of the year's cost, more than a third: {}",
                     !(cooling > 0.0) ? "Heating is" : !(heating > 0.0) ? "Cooling is" : "Heating and cooling are", 100.0 * both / total, what);
}

}  // namespace rackwright::report
