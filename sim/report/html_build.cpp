// What to build, the work it makes, and the grain to order.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <tuple>

#include "sim/report/build_words.hpp"
#include "sim/report/html_parts.hpp"
#include "sim/report/html_text.hpp"
#include "sim/report/parts.hpp"

namespace rackwright::report::html {
namespace {

/// Adds a line when the scenario has the key.
void add(Table& t, const std::string& label, const std::string& value, const std::string& remark = "") {
  if (!value.empty()) t.lines.push_back({label, value, remark});
}

/// A count times a count, as text; empty when one is missing.
std::string product(const Sheet& s, const char* a, const char* b) {
  const auto x = s.scenario.number(a, "1"), y = s.scenario.number(b, "1");
  return x && y ? plain(*x * *y, 0) : "";
}

std::string plain_key(const Sheet& s, const char* key) { return s.scenario.text(key).value_or(""); }

/// "from 1 May until 1 October, every year": two keys' dates; empty where they are not stated.
std::string yearly_days(const Sheet& s, const char* first, const char* last) {
  constexpr std::array months{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"};
  const auto day = [&](const char* key) {
    const std::string date = plain_key(s, key);  // 2026-05-01, or none
    std::size_t month = 0, day_of_month = 0;
    if (date.size() != 10) return std::string();
    std::from_chars(date.data() + 5, date.data() + 7, month);
    std::from_chars(date.data() + 8, date.data() + 10, day_of_month);
    return month >= 1 && month <= months.size() ? fmt::format("{} {}", day_of_month, months[month - 1]) : std::string();
  };
  const std::string from = day(first), until = day(last);
  return from.empty() || until.empty() ? "" : fmt::format("from {} until {}, every year", from, until);
}

/// Lengths from the drawing, for the usual network; one of the keeper's own says its own lengths.
void hoses(const Sheet& s, Table& t) {
  const auto number = [&](const char* key, const char* unit) { return s.scenario.number(key, unit).value_or(0.0); };
  const double tiers = number("rack.tiers", "1"), spacing = number("rack.tier_spacing", "m"),
               lowest = number("rack.lowest_tier", "m"),
               wide = number("rack.trays_per_tier", "1") * number("rack.tray_width", "m");
  if (s.own_network()) {
    add(t, "pipes", "as drawn", "your own network: [[water.node]] and [[water.pipe]] of the scenario");
    return;
  }
  if (tiers < 1.0 || spacing <= 0.0 || wide <= 0.0) return;
  const bool cascade = plain_key(s, "water.feed") == "cascade";
  add(t, "hose to the rack and up it", s.amount(number("water.run_length", "m") + lowest + tiers * spacing, "m"),
      s.length("water.riser_diameter") + " inside; " + s.length("water.run_length") + " from the pump, then to the top");
  add(t, "pipe along the tiers", s.amount((cascade ? 1.0 : tiers) * wide, "m"),
      s.length("water.branch_diameter") + " inside; " + s.amount(wide, "m") +
          (cascade ? " along the top tier" : " along each, above its mats"));
  add(t, "drain pipe", s.amount(lowest + (tiers - 1.0) * spacing, "m"),
      (cascade ? "from tier to tier and on to the floor; " : "down from every tier; ") +
          std::string("then on to your drain") +
          (plain_key(s, "water.recirculating") == "true" ? " or back to the tank" : ""));
}

std::string parts(const Sheet& s) {
  Table t{"what to get", {"part", "how much", "remark"}, {}, "lrl"};
  const std::string length = s.length("rack.tray_length"), width = s.length("rack.tray_width");
  const auto on_rack = s.scenario.number("rack.tiers", "1"), per_tier = s.scenario.number("rack.trays_per_tier", "1");
  const auto a_batch = s.scenario.number("line.trays_per_batch", "1");
  if (on_rack && per_tier && a_batch && !length.empty())
    add(t, "trays", plain(*on_rack * *per_tier + *a_batch, 0),
        length + " by " + width + ", drained: " + plain(*on_rack * *per_tier, 0) + " on the rack and a batch of " + plain(*a_batch, 0) + " in the wash");
  add(t, "tiers", plain_key(s, "rack.tiers"),
      "the lowest " + s.length("rack.lowest_tier") + " above the floor, then every " + s.length("rack.tier_spacing"));
  add(t, "trays a tier", plain_key(s, "rack.trays_per_tier"), "side by side, their length across the tier");
  add(t, "soaking buckets", plain_key(s, "keeper.soak_buckets"),
      "each for " + plain_key(s, "keeper.trays_per_bucket") + " trays of grain");
  add(t, "pump", s.amount("water.pump_full_flow", "L/h"),
      "where it need not lift; it lifts to " + s.amount("water.pump_shutoff", "m") + " at most, " + s.amount("water.pump_power", "W"));
  add(t, "emitters", product(s, "rack.tiers", "water.emitters_per_tier"),
      plain_key(s, "water.emitters_per_tier") + " a tier, " + s.amount("water.emitter_flow", "L/h") +
          " each under " + s.amount("water.emitter_head", "m") + " of water");
  hoses(s, t);
  add(t, "tank", s.amount("water.tank", "L"),
      plain_key(s, "water.recirculating") == "true" ? "water goes round and is renewed" : "water runs through once");
  if (s.scenario.number("room.heater", "W").value_or(0.0) > 0.0)
    add(t, "heater", s.amount("room.heater", "W"), "set to " + s.amount("room.heater_set", "degC"));
  if (s.scenario.number("room.cooler", "W").value_or(0.0) > 0.0)
    add(t, "cooler", s.amount("room.cooler", "W"), "set to " + s.amount("room.cooler_set", "degC"));
  if (const double thickness = s.scenario.number("room.insulation", "m").value_or(0.0); thickness > 0.0) {
    const double area = s.scenario.number("room.shell_area", "m2").value_or(0.0);
    add(t, "insulation", s.amount(area, "m2"), s.length("room.insulation") + " thick, on the outside of walls and roof: " + s.amount(thickness * area, "m3"));
  }
  if (s.scenario.number("prices.shade", "1/m2").value_or(0.0) > 0.0 && s.scenario.number("room.shade", "1").value_or(0.0) > 0.0) {
    const std::string hangs = yearly_days(s, "room.shade_from", "room.shade_until");
    add(t, "shade", plain(100.0 * s.scenario.number("room.shade", "1").value_or(0.0), 0) + " %",
        "of the sun through " + s.amount("room.solar_aperture", "m2") + " of window or roof" + (hangs.empty() ? "" : "; up " + hangs));
  }
  if (const std::string open = yearly_days(s, "room.open_from", "room.open_until"); !open.empty())
    add(t, "doors, windows or vents", "open " + open, "to renew the air " + plain_key(s, "room.open_air_changes") + " times an hour; otherwise " + plain_key(s, "room.air_changes"));
  return t.lines.empty() ? "" : table(t);
}

/// "0.36 /kg" as the scenario has it, with the currency where one reads it: 0.36 EUR/kg.
std::string price(const Sheet& s, const std::string& key) { return s.readable(s.scenario.text(key).value_or("")); }

std::string acts(const Sheet& s) {
  Table t{"minutes a task takes", {"task", "minutes", "for each"}, {}, "lrl"};
  for (const auto& [key, label, each] : {std::tuple{"keeper.soak_per_batch", "put to soak", "batch"},
                                         std::tuple{"keeper.drain_per_batch", "drain", "batch"},
                                         std::tuple{"keeper.sow_per_tray", "spread on a tray", "tray"},
                                         std::tuple{"keeper.move_per_tray", "move down", "tray, where trays move down as they age"},
                                         std::tuple{"keeper.harvest_per_tray", "harvest", "tray"},
                                         std::tuple{"keeper.feed_per_group", "feed", "group of animals"},
                                         std::tuple{"keeper.wash_per_tray", "wash", "tray"}})
    if (const auto minutes = s.scenario.number(key, "min")) t.lines.push_back({label, plain(*minutes, 2), each});
  return t.lines.empty() ? "" : folded("Minutes a task takes, as the scenario has them", table(t));
}

/// Groups that are fed here part of the time only, with their days; empty where there is none.
std::string guests(const Sheet& s) {
  const Calendar calendar(s.file.header.start_date);
  std::string all;
  for (const std::string& name : s.scenario.names("group")) {
    const std::string at = "group." + name + ".";
    const double arrives = s.scenario.number(at + "arrives_day", "1").value_or(-1.0), leaves = s.scenario.number(at + "leaves_day", "1").value_or(-1.0);
    if (arrives < 0.0 && leaves < 0.0) continue;
    const std::string from = arrives < 0.0 ? "" : "from " + calendar.date(static_cast<int>(arrives)), until = leaves < 1.0 ? "" : "until " + calendar.date(static_cast<int>(leaves) - 1);
    const bool at_first = leaves >= 0.0 && (arrives < 0.0 || leaves < arrives);
    const std::string &first = at_first ? until : from, &then = at_first ? from : until;
    const char* between = first.empty() || then.empty() ? "" : at_first ? " and again " : " ";
    all += fmt::format("{}{} {}{}{}{}", all.empty() ? "" : "; ", name, first, between, then,
                       s.scenario.text(at + "stays_each_year") == "true" ? ", each year" : "");
  }
  return all;
}

std::string rounds(const Sheet& s) {
  const auto batches = s.scenario.number("line.batches_per_day", "1"),
             trays = s.scenario.number("line.trays_per_batch", "1");
  if (!batches || !trays) return "";
  const std::string morning = plain_key(s, "keeper.morning"), evening = plain_key(s, "keeper.evening");
  const double sown = *batches * *trays;
  const std::string most = s.as_wanted() ? "at most " : "";
  std::vector<std::string> lines =
      {fmt::format("Every day: {} batch{} of {}{} trays soaked and sown, {} ripe trays harvested, fed and washed{}. Rounds "
                   "at {} and {}.",
                   plain(*batches, 0), *batches == 1.0 ? "" : "es", most, plain(*trays, 0), most + plain(sown, 0),
                   most.empty() ? "" : ", as many as are to be wanted", morning, evening),
       "Every day: look over every tray; throw out any mat that is mouldy, slimy or sour, whole. No minutes are counted for the looking.",
       fmt::format("Every week: {} trays sown and {} washed; buckets and tank cleaned, emitters looked at, grain in "
                   "store counted. No minutes are counted for this cleaning, looking and counting: it comes on top of the work above.",
                   most + plain(7.0 * sown, 0), most + plain(7.0 * sown, 0))};
  if (const std::string away = guests(s); !away.empty()) lines.push_back("Fed here part of the time: " + away + ".");
  return bullets(lines);
}

}  // namespace

std::string build_part(const Sheet& s) {
  const std::string money = build_words(s.file);
  return parts(s) + (money.empty() ? "" : paragraph(money)) + facts_table(s, "rack") + facts_table(s, "water");
}

std::string work_part(const Sheet& s) {
  std::string out;
  if (const auto e = s.searched()
                         ? std::optional(s.file.design("labour", static_cast<std::size_t>(s.design)))
                         : s.estimate("labour", As::year))
    out += paragraph(fmt::format(
        "About {} minutes a day and {} hours a week, {} a year, as played with slips, spoiled mats "
        "and missed rounds.",
        plain(60.0 * e->mean / 365.0, 0), plain(7.0 * e->mean / 365.0, 1), with_interval(*e, shown_in("h", s.us))));
  return out + rounds(s) + facts_table(s, "line") + facts_table(s, "work") + acts(s);
}

/// What became of grain that was bought and not sown.
std::string lost(const Sheet& s) {
  std::string out;
  for (const auto& [quantity, what] : {std::pair{"grain_aged_out", "thrown out because it is too old"}, std::pair{"grain_refused", "given back after a trial"},
                                       std::pair{"grain_tried", "laid out in trials"}})
    if (const auto e = s.file.estimate(quantity); e && e->mean > 0.0) out += fmt::format(", {} {}", s.words(quantity, As::year), what);
  return out;
}

/// What the store gave to the line, or was left with, where bought and used do not tally: ", and 130 kg taken from what was in store".
std::string from_store(const Sheet& s) {
  const auto bought = s.estimate("grain_bought", As::year), used = s.estimate("grain_used", As::year);
  const auto start = s.estimate("grain_start", As::year), end = s.estimate("grain_end", As::year);
  if (!bought || !used) return "";
  double taken = used->mean - bought->mean;  // of a file that does not tell of the store
  for (const char* lost : {"grain_aged_out", "grain_refused", "grain_tried"})
    if (const auto e = s.estimate(lost, As::year)) taken += e->mean;
  if (start && end) taken = start->mean - end->mean;
  const Shown shown = s.shown("grain_used", As::year);
  const auto digits = [&](const study::Estimate& e) { return decimals_for(shown.scale * (e.high - e.low) / 2.0, shown.scale * e.mean); };
  const int decimals = std::min(digits(*bought), digits(*used));  // a gap that the two as shown do not have is none
  const std::string amount = plain(shown.scale * std::abs(taken), decimals);
  if (amount == plain(0.0, decimals)) return "";
  const bool a_year = whole_years(s.file);
  if (taken > 0.0) return fmt::format(", and {} {}{} are taken from what was in store", amount, shown.unit, a_year ? "" : " a year");
  return a_year ? fmt::format(", and {} {} more lie in store at the end", amount, shown.unit)
                : fmt::format(", and {} {} a year are added to what lies in store", amount, shown.unit);
}

std::string grain_part(const Sheet& s) {
  Table t{"how grain is bought",
          {"grain", "order when there is less than", "order up to", "least order", "bag", "delivery takes", "price"},
          {},
          ""};
  for (const std::string& name : s.scenario.names("grain")) {
    const std::string at = "grain." + name + ".";
    t.lines.push_back({name, s.amount(at + "reorder", "kg"), s.amount(at + "order_up_to", "kg"),
                       s.amount(at + "least_order", "kg"), s.amount(at + "bag", "kg"), s.amount(at + "delivery", "d"),
                       price(s, at + "price")});
  }
  std::string out;
  if (s.played())
    out += paragraph(fmt::format("{} of grain are bought a year, {} are put to soak{}{}.", s.words("grain_bought", As::year), s.words("grain_used", As::year), lost(s), from_store(s)));
  return out + (t.lines.empty() ? "" : table(t)) + facts_table(s, "grain");
}

}  // namespace rackwright::report::html
