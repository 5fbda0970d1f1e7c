#include "sim/scenario/cautions_plans.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>

#include <fmt/chrono.h>
#include <fmt/format.h>

#include "models/herd/breeding.hpp"
#include "sim/scenario/raw_text.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright {
namespace {

/// Choices whose price does not follow them look cheaper than they are.
void unpriced(const Scenario& s, std::vector<std::string>& out) {
  constexpr std::string_view flat[] = {"rack.tray_length", "rack.tray_width", "room.shell", "room.air_changes", "room.heat_capacity", "room.solar_aperture",
                                       "room.floor_area", "water.pump_shutoff", "water.pump_full_flow", "water.pump_power", "water.tank", "water.emitters_per_tier",
                                       "water.riser_diameter", "water.branch_diameter", "water.header_tank", "water.spare_pump", "water.battery", "line.dip_strength", "line.tray_dip_strength", "keeper.second_keeper"};
  std::vector<std::string> free, alike;
  bool free_shade = false;
  for (const Choice& choice : s.choose.choices) {
    const bool shade = choice.key == "room.shade" && s.prices.shade_per_m2 <= 0.0;
    free_shade = free_shade || shade;
    const bool store = choice.key.starts_with("grain.") && choice.key.ends_with(".bin");
    if (store || shade || std::find(std::begin(flat), std::end(flat), choice.key) != std::end(flat)) free.push_back(choice.key);
    if (choice.key == "room.heater" || choice.key == "room.cooler") {
      const auto sizes = std::count_if(choice.values.begin(), choice.values.end(), [](const std::string& value) { return is_some(value, "W"); });
      if (sizes > 1) alike.push_back(choice.key);
    }
  }
  std::string text;
  if (!free.empty()) text = fmt::format("Of what [choose] varies, {} {} no price that follows: the cheapest design is cheapest but for that.", listed(free), free.size() == 1 ? "has" : "have");
  if (!alike.empty()) text += fmt::format("{}Any size of {} costs the same here.", text.empty() ? "" : " ", listed(alike));
  if (text.empty()) return;
  out.push_back(text + " A [[kit]] sets a thing and its price together" + (free_shade ? "; prices.shade gives shade one." : "."));
}

/// Does the keeper decide that key? Weather, luck, prices, and what an animal or a plant is, he does not.
bool decided(std::string_view key) {
  constexpr std::string_view tables[] = {"climate.", "weather.", "spell.", "hard_time.", "spoilage.", "species.", "own_line.", "ignorance.", "feed.", "prices."};
  constexpr std::string_view group_keys[] = {".ration", ".share", ".feedings", ".introduction", ".sale", ".weaning", ".first_births_day", ".first_births",
                                             ".births_every", ".birth_spread", ".arrives", ".arrives_day", ".leaves", ".leaves_day", ".stays_each_year"};
  constexpr std::string_view grain_keys[] = {".germination", ".germination_spread", ".vigour_spread", ".vigour_link", ".tray_spread", ".inoculum", ".price",
                                             ".price_multiple", ".moisture", ".delivery", ".delivery_spread", ".year_spread", ".short_from", ".short_until",
                                             ".short_chance", ".short_delay", ".short_price", ".short_grade"};
  constexpr std::string_view others[] = {"water.pump_between_failures", "water.pump_repair", "water.power_between_cuts", "water.power_cut",
                                         "water.emitter_between_clogs", "keeper.miss_chance", "keeper.notice_spoiled"};
  const auto ends = [&](std::string_view end) { return key.ends_with(end); };
  if (key.starts_with("group.")) return std::any_of(std::begin(group_keys), std::end(group_keys), ends);
  if (key.starts_with("grain.")) return std::none_of(std::begin(grain_keys), std::end(grain_keys), ends);
  if (std::find(std::begin(others), std::end(others), key) != std::end(others)) return false;
  return std::none_of(std::begin(tables), std::end(tables), [&](std::string_view table) { return key.starts_with(table); });
}

void not_his(const Scenario& s, std::vector<std::string>& out) {
  std::vector<std::string> found;
  for (const Choice& choice : s.choose.choices)
    if (!decided(choice.key)) found.push_back(choice.key);
  if (found.empty()) return;
  out.push_back(fmt::format("You do not decide {0}: of its values size would take the one under which the rack is cheapest. Take {1} out of [choose]; sweep --vary "
                            "shows what each value would do.",
                            listed(found), found.size() == 1 ? "it" : "them"));
}

}  // namespace

bool is_some(std::string_view written, std::string_view unit) {
  const auto read = read_quantity(written, unit);
  const double* value = std::get_if<double>(&read);
  return value != nullptr && *value > 0.0;
}

void choice_cautions(const Scenario& scenario, std::vector<std::string>& out) {
  not_his(scenario, out);
  unpriced(scenario, out);
}

void birth_cautions(const Scenario& scenario, std::vector<std::string>& out) {
  const auto date = [&](double day) { return std::chrono::sys_days(scenario.run.start) + std::chrono::days(static_cast<int>(std::floor(day))); };
  for (const Group& group : scenario.groups) {
    herd::Breeding went_before = group.breeding;
    if (group.count <= 0 || went_before.first_birth_day < 0.0 || went_before.before) continue;
    went_before.before = true;
    const double born = herd::first_season_felt(went_before, 0.0);
    if (born >= 0.0) continue;
    out.push_back(fmt::format("{}: young born from {:%Y-%m-%d} on would still be there when the run starts, the last until {:%Y-%m-%d}; they are not counted. "
                              "If there are such young, set births_before = true.",
                              group.name, date(born), date(born + went_before.spread_days + in_days(went_before.sale))));
  }
}

}  // namespace rackwright
