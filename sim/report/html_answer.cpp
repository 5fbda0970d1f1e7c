// The answer, the figures beside it, the drawing of the rack and the chance.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include "sim/report/html_parts.hpp"
#include "sim/report/html_text.hpp"
#include "sim/report/parts.hpp"
#include "sim/report/simulate_page.hpp"
#include "sim/report/stress_words.hpp"
#include "sim/report/svg_charts.hpp"

namespace rackwright::report::html {
namespace {

std::string of_years(const Sheet& s) { return years_or_runs(s.file); }

std::optional<study::Estimate> success(const Sheet& s) {
  if (!s.searched()) return s.file.estimate("success");
  return s.file.design("success", static_cast<std::size_t>(s.design));
}

std::string rack_words(const Sheet& s) {
  const auto tiers = s.scenario.text("rack.tiers"), trays = s.scenario.text("rack.trays_per_tier");
  if (!tiers || !trays) return "the design on this page";
  return fmt::format("{} tier{} of {} tray{}", *tiers, *tiers == "1" ? "" : "s", *trays, *trays == "1" ? "" : "s");
}

std::string sowing_words(const Sheet& s) {
  const auto batches = s.scenario.text("line.batches_per_day"), trays = s.scenario.text("line.trays_per_batch"),
             days = s.scenario.text("line.days_on_rack");
  if (!batches || !trays || !days) return "";
  return fmt::format(", sown {} with {}{} trays at {} after {} of soaking and fed after {} days",
                     *batches == "1" ? "once a day" : *batches == "2" ? "twice a day" : *batches + " times a day",
                     s.as_wanted() ? "at most " : "", *trays, s.amount("line.sowing_density", "kg/m2"), s.amount("line.soak", "h"), *days);
}

/// "50 mm of insulation", "no heater", "line.wash = 0.9".
std::string in_plain_words(const Sheet& s, const Setting& setting) {
  const auto& [key, value] = setting;
  if (key == "room.insulation") return s.scenario.number(key, "m").value_or(1.0) > 0.0 ? s.length(key) + " of insulation" : "no insulation";
  for (const char* machine : {"heater", "cooler"})
    if (key == fmt::format("room.{}", machine))
      return s.scenario.number(key, "W").value_or(1.0) > 0.0 ? fmt::format("a {} of {}", machine, s.amount(key, "W")) : fmt::format("no {}", machine);
  if (key == "room.shade") return value + " shade";
  if (key == "line.sow") return value == "as-wanted" ? "as many trays sown as are wanted" : "every tray sown";
  return key + " = " + value;
}

/// What was chosen besides: ", with 50 mm of insulation and kit.cooler = small".
std::string also_words(const Sheet& s) {
  constexpr std::string_view said[] = {"rack.tiers", "rack.trays_per_tier", "line.batches_per_day", "line.trays_per_batch", "line.days_on_rack",
                                       "line.sowing_density", "line.soak"};
  std::vector<std::string> also;
  for (const Setting& setting : design_settings(s.file))
    if (std::find(std::begin(said), std::end(said), setting.first) == std::end(said)) also.push_back(in_plain_words(s, setting));
  std::string words;
  for (std::size_t i = 0; i < also.size(); ++i) words += (i == 0 ? ", with " : i + 1 < also.size() ? ", " : " and ") + also[i];
  return words;
}

/// A mean without its interval, with digits enough for a sentence: 8.3, 37, 1650.
std::string roundly(double value) { return plain(value, std::abs(value) < 10.0 ? 1 : 0); }
std::string percent(double share) { return plain(100.0 * share, 1) + " %"; }

std::string lead_of_size(const Sheet& s) {
  if (s.design < 0) return "None of the designs that were tried is shown to meet the target.";
  const auto c = static_cast<std::size_t>(s.design);
  if (!(s.in_search() > 0.0))
    return fmt::format("None of the designs that were tried is shown to meet the target. The nearest is {}{}{}. {}", rack_words(s), sowing_words(s),
                       also_words(s), why_words(s.file, c));
  const auto cost = s.searched() ? std::optional(s.file.design("cost_year", c)) : s.estimate("cost_total", As::money);
  const auto played = s.searched() ? s.in_search() : static_cast<double>(s.file.header.replications_completed);
  const std::string does = asks_more(s.file)
                               ? fmt::format("in the {} {} it was played {}{}", plain(played, 0), of_years(s), met_words(s.file, s.searched() ? s.design : -1, *success(s)),
                                             cost ? fmt::format("; it costs {} {} a year", roundly(cost->mean), s.file.header.currency) : std::string())
                               : fmt::format("it meets the target in {} of the {} {} it was played{}", percent(success(s)->mean), plain(played, 0), of_years(s),
                                       cost ? fmt::format(" and costs {} {} a year", roundly(cost->mean), s.file.header.currency) : std::string());
  if (s.recommended()) return fmt::format("Build {}{}{}: {}.", rack_words(s), sowing_words(s), also_words(s), does);
  return fmt::format("None of the designs that were tried is shown to meet the target. The nearest is {}{}{}: {}.",
                     rack_words(s), sowing_words(s), also_words(s), does);
}

std::string lead_of_simulate(const Sheet& s) {
  const auto& h = s.file.header;
  const auto served = s.file.estimate("served/wanted"), short_days = s.estimate("short_days", As::year),
             cost = s.estimate("cost_total", As::money);
  if (h.replications_completed == 0 || !served || !short_days || !cost)
    return "No replication was completed: there is nothing to tell.";
  std::string verdict = "This rack";
  if (s.file.number("target/years") && s.file.estimate("success")) {
    const Met met = met_target(s.file);
    verdict = met == Met::yes  ? "This rack meets the target: it"
              : met == Met::no ? "This rack misses the target: it"
                               : "Too close to tell whether this rack meets the target: it";
  }
  return fmt::format("{} serves {} of the fodder the animals want, has {} days a year with a short meal, and costs "
                     "{} {} a year.",
                     verdict, percent(served->mean), roundly(short_days->mean), roundly(cost->mean), h.currency);
}

std::string figure_of(std::string_view label, std::string_view value) {
  return fmt::format("<div><dt>{}</dt><dd>{}</dd></div>\n", escaped(label), escaped(value));
}

/// From the replications of the design; what the sizing's own estimates say comes before.
std::string figures_played(const Sheet& s) {
  std::string out;
  if (!s.searched() && !target_words(s.file).empty() && counts_years(s.file))
    out += figure_of(counted_years(s.file), share_with_interval(*s.file.estimate("success")));
  if (!s.searched()) {
    out += figure_of("fodder served", s.words("served/wanted", As::share));
    out += figure_of("short days a year", s.words("short_days", As::year));
    out += figure_of("spoiled mats a year", s.words("spoiled_trays", As::year));
    out += figure_of("work a year", s.words("labour", As::year));
    out += figure_of("cost a year", s.words("cost_total", As::money));
  }
  out += figure_of("longest run of short days", s.words("longest_short_run", As::value));
  out += figure_of("grain a year", s.words("grain_used", As::year));
  out += figure_of("fresh fodder costs", s.words("cost_per_kg_fresh", As::price));
  return out;
}

std::string figures_sized(const Sheet& s) {
  const auto c = static_cast<std::size_t>(s.design);
  return (counts_years(s.file) ? figure_of(counted_years(s.file), share_with_interval(s.file.design("success", c))) : std::string()) +
         figure_of("fodder served", share_with_interval(s.file.design("fill_rate", c))) +
         figure_of("short days a year", with_interval(s.file.design("short_days", c), days_a_year())) +
         figure_of("spoiled mats a year", with_interval(s.file.design("spoiled_trays", c), {})) +
         figure_of("work a year", with_interval(s.file.design("labour", c), shown_in("h", s.us))) +
         figure_of("cost a year", with_interval(s.file.design("cost_year", c), {1.0, 0.0, s.file.header.currency}));
}

}  // namespace

std::string lead(const Sheet& s) {
  if (s.swept()) return paragraph(lead_of_sweep(s), "lead");
  const std::string grave = s.stressed() ? StressWords(s.file).grave() : Page(s.file).grave();
  const std::string words = s.stressed() ? StressWords(s.file).lead() : s.sized() ? lead_of_size(s) : lead_of_simulate(s);
  const std::string unripe = s.stressed() ? "" : Page(s.file).unripe();
  std::string out = paragraph(words, "lead") + (s.stressed() ? "" : paragraph(doubt_words(s.file))) + paragraph(grave, "grave");
  for (const std::string& caution : grave_cautions(cautions_of(s))) out += paragraph(caution, "grave");
  out += paragraph(unripe);
  if (s.stressed()) return out;
  const Page page(s.file);
  for (const std::string& more : {page.often_too_little_time() ? page.too_little_time() : std::string(), page.stale_grain(), page.short_runs(), page.absent()})
    if (!more.empty()) out += paragraph(more);
  return out;
}

std::string key_figures(const Sheet& s) {
  if (s.swept()) return "";
  if (s.sized() ? s.design < 0 : s.file.header.replications_completed == 0) return "";
  return "<dl class=\"figures\">\n" + (s.searched() ? figures_sized(s) : std::string()) +
         (s.played() ? figures_played(s) : std::string()) + "</dl>\n" +
         paragraph(s.file.header.replications_completed == 1 && !s.searched()
                       ? "Of one replication: what it had. No interval can be told of it."
                       : "In brackets: the 95 % interval of the mean, which is how well so many played years tell the number; single "
                         "years stray further.",
                   "aside");
}

/// The way of the water, as far as the scenario's keys say it.
std::string water_words(const svg::RackView& v) {
  if (v.own_water) return fmt::format("Water goes from the tank through the pump and your own network{}.", v.returns ? ", and back to the tank" : "");
  return fmt::format("Water rises from the tank through the pump, {} and {}.", v.cascade ? "runs along the top tier, drips from tier to tier" : "runs along every tier",
                     v.returns ? "drains back to the tank" : "drains away");
}

std::string rack_part(const Sheet& s) {
  const auto whole = [&](const char* key) {
    const double value = s.scenario.number(key, "1").value_or(0.0);
    return value >= 1.0 && value <= 1000.0 ? static_cast<int>(std::lround(value)) : 0;
  };
  svg::RackView v;
  v.tiers = whole("rack.tiers"), v.trays_per_tier = whole("rack.trays_per_tier");
  v.tray_width = s.scenario.number("rack.tray_width", "m").value_or(0.0);
  v.spacing = s.scenario.number("rack.tier_spacing", "m").value_or(0.0);
  v.lowest = s.scenario.number("rack.lowest_tier", "m").value_or(-1.0);
  if (v.tiers == 0 || v.trays_per_tier == 0 || v.tray_width <= 0.0 || v.spacing <= 0.0 || v.lowest < 0.0) return "";
  v.days_on_rack = whole("line.days_on_rack");
  v.trays_per_day = whole("line.batches_per_day") * whole("line.trays_per_batch");
  v.ladder = s.scenario.text("keeper.handling").value_or("ladder") == "ladder";
  const auto height = s.file.estimate("mat_height");
  v.mat_height = height ? height->mean / 100.0 : 0.5 * v.spacing;
  const double high = v.lowest + v.tiers * v.spacing, wide = v.trays_per_tier * v.tray_width;
  v.height_text = s.amount(high, "m"), v.width_text = s.amount(wide, "m"),
  v.spacing_text = s.length("rack.tier_spacing");
  v.tank_text = s.amount("water.tank", "L");
  v.pump_text = s.amount("water.pump_power", "W");
  v.cascade = s.scenario.text("water.feed").value_or("") == "cascade";
  v.own_water = s.own_network();
  v.returns = s.scenario.text("water.recirculating").value_or("") == "true";
  v.tier_weight = s.fact("rack", "load_per_tier");
  v.tier_texts = s.facts.tiers;
  const int places = v.tiers * v.trays_per_tier, needed = v.trays_per_day * v.days_on_rack;
  v.words = {
      "rack", fmt::format("The rack from the front: {}", rack_words(s)),
      fmt::format(
          "{} places in {} tiers, {} wide and {} high, tiers {} apart. {}{} trays are sown a day and stay {} "
          "days, which takes {} places. {} {}",
          places, v.tiers, v.width_text, v.height_text, v.spacing_text, s.as_wanted() ? "At most " : "", v.trays_per_day, v.days_on_rack, needed,
          v.ladder ? "The youngest trays stand on top and move down as they age." : "Trays stay where they were put.",
          water_words(v))};
  Table t{"the rack in numbers", {"what", "value"}, {}, "lr"};
  t.lines = {{"tiers", fmt::format("{}", v.tiers)},
             {"trays a tier", fmt::format("{}", v.trays_per_tier)},
             {"places", fmt::format("{}", places)},
             {"places in use on a full day", fmt::format("{}", needed)},
             {"height", v.height_text},
             {"width", v.width_text},
             {"depth", s.length("rack.tray_length")},
             {"lowest tier above the floor", s.length("rack.lowest_tier")},
             {"from tier to tier", v.spacing_text},
             {"a tray", s.length("rack.tray_length") + " by " + s.length("rack.tray_width")}};
  for (const auto& [key, label] : {std::pair{"load_per_tray", "a ripe, wet tray weighs"},
                                   std::pair{"load_per_tier", "a tier full of them"},
                                   std::pair{"load_total", "the rack full of them, without its frame"}})
    if (const std::string weight = s.fact("rack", key); !weight.empty()) t.lines.push_back({label, weight});
  const std::string mats =
      height ? "Mats are drawn at the mean height of those fed; younger ones lower in step with their days."
             : "This file holds no mat heights: ready mats are drawn at half the tier spacing.";
  const char* pipes = v.own_water ? "tank and pump only stand for the water, whose way through your own network is not drawn" : "tank, pump and pipes show the way of the water only";
  return figure(
      svg::rack(v),
      fmt::format("Seen from the front. Tiers, trays and width are to scale; {}. The shade of a mat, and the number where there is room, is its day on the rack; places "
                  "without a mat are spare. {}{}",
                  pipes, mats, v.tier_weight.empty() ? "" : " Weights are those of a tier full of ripe, wet mats."),
      t);
}

std::string chance_part(const Sheet& s) {
  const auto met = success(s);
  const std::string target = target_words(s.file);
  if (!met || target.empty()) return "";
  const double asked = s.file.number("target/years").value_or(-1.0);
  const int design = s.searched() ? s.design : -1;
  const auto n = s.searched() ? s.file.at("design/replications").numbers[static_cast<std::size_t>(s.design)]
                           : static_cast<double>(s.file.header.replications_completed);
  const std::string share = share_with_interval(*met);
  const svg::Words words{"chance", fmt::format("Share of {}: {}", counted_years(s.file), share),
                         fmt::format("A dot at {:.1f} % with its 95 % interval from {:.1f} to {:.1f} %.",
                                     100 * met->mean, 100 * met->low, 100 * met->high)};
  Table t{"chance of meeting the target", {"what", "value"}, {}, "lr"};
  t.lines = {{of_years(s) + " played", plain(n, 0)},
             {asks_more(s.file) ? "share that keeps the limits taken together" : "share that meets the target", plain(100 * met->mean, 1) + " %"},
             {"95 % interval, from", plain(100 * met->low, 1) + " %"},
             {"95 % interval, to", plain(100 * met->high, 1) + " %"}};
  if (asked >= 0.0) t.lines.push_back({"share asked for", plain(100 * asked, 1) + " %"});
  std::string said = paragraph(fmt::format("The target: {}. Of {} {} played: {}.", target, plain(n, 0), of_years(s), met_words(s.file, design, *met)));
  if (!counts_years(s.file)) return said;
  return said +
         figure(
             svg::chance(words, {met->mean, met->low, met->high, asked}),
             "The dot is the share found; the bar is how far the truth may lie from it (95 %). More replications make "
             "the bar shorter, a better design moves it to the right.",
             t);
}

}  // namespace rackwright::report::html
