// A sweep on the page: the best points, what each key does, and what explains the spread.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "sim/report/html_parts.hpp"
#include "sim/report/html_text.hpp"
#include "sim/report/parts.hpp"
#include "sim/report/svg_charts.hpp"
#include "sim/report/words.hpp"

namespace rackwright::report::html {
namespace {

double whole(const Sheet& s, std::string_view path) { return s.file.number(path).value_or(0.0); }
double at(const Sheet& s, const char* path, std::size_t i) { return s.file.at(path).numbers.at(i); }
std::string percent(double share) { return plain(100.0 * share, 1) + " %"; }
std::string money(const Sheet& s, double amount) { return plain(amount, 0) + " " + s.file.header.currency; }

std::string leader_words(const Sheet& s, std::size_t i) {
  const auto& keys = s.file.at("sweep/key").texts;
  std::string words;
  for (std::size_t k = 0; k < keys.size(); ++k)
    words += fmt::format("{}{} = {}", k == 0 ? "" : ", ", keys[k], s.file.at("sweep/leader_value").texts.at(i * keys.size() + k));
  return words;
}

/// Effects of one key: their numbers in the file.
std::vector<std::size_t> effects_of(const Sheet& s, std::size_t key) {
  const auto& keys = s.file.at("sweep/effect_key").numbers;
  std::vector<std::size_t> all;
  for (std::size_t e = 0; e < keys.size(); ++e)
    if (static_cast<std::size_t>(keys[e]) == key && at(s, "sweep/effect_points", e) > 0.0) all.push_back(e);
  return all;
}

std::string effect_chart(const Sheet& s, std::size_t key) {
  const auto effects = effects_of(s, key);
  if (effects.empty()) return "";
  const std::string name = s.file.at("sweep/key").texts.at(key);
  const auto& met = s.file.at("sweep/effect_success").numbers;
  const bool counts = counts_years(s.file);
  const bool any_met = counts && std::any_of(effects.begin(), effects.end(), [&](std::size_t e) { return met.at(e) > 0.0; });
  const char* path = any_met ? "sweep/effect_success" : "sweep/effect_fill_rate";
  const std::string what = any_met ? counted_years(s.file) : "fodder served";
  std::vector<svg::Bar> bars;
  Table t{"what " + name + " does", {name, "fodder served", "cost a year"}, {}, "lrr"};
  if (counts) t.heads.push_back(counted_years(s.file)), t.align += 'r';
  t.heads.push_back("points"), t.align += 'r';
  for (const std::size_t e : effects) {
    const std::string label = s.file.at("sweep/effect_label").texts.at(e);
    bars.push_back({label, fmt::format("{}: {}, {} a year", what, percent(at(s, path, e)), money(s, at(s, "sweep/effect_cost_year", e))), at(s, path, e)});
    t.lines.push_back({label, percent(at(s, "sweep/effect_fill_rate", e)), money(s, at(s, "sweep/effect_cost_year", e))});
    if (counts) t.lines.back().push_back(percent(met.at(e)));
    t.lines.back().push_back(plain(at(s, "sweep/effect_points", e), 0));
  }
  const svg::Words words{fmt::format("effect-{}", key), fmt::format("{}: {}", name, what),
                         fmt::format("A bar for each of {} values or slices of {}; the longest stands for the most.", bars.size(), name)};
  return figure(svg::bars(words, bars), fmt::format("{}: mean of the points (designs) that have it, whatever their other keys.", name), t);
}

std::string index_chart(const Sheet& s, std::size_t outcome) {
  const auto& keys = s.file.at("sweep/key").texts;
  const std::size_t outcomes = s.file.at("sweep/outcome").texts.size();
  const bool cost = s.file.at("sweep/outcome").texts.at(outcome) == "cost_year";
  const std::string of = cost ? "the cost a year" : "the fodder served";
  const auto with_bounds = [&](const std::string& path, std::size_t i) {
    return fmt::format("{:.3f} ({:.3f} to {:.3f})", s.file.at(path).numbers.at(i), s.file.at(path + "_low").numbers.at(i),
                       s.file.at(path + "_high").numbers.at(i));
  };
  std::vector<svg::Bar> bars;
  Table t{"what the spread of " + of + " comes from", {"key", "by itself", "with the others"}, {}, "lrr"};
  for (std::size_t k = 0; k < keys.size(); ++k) {
    const std::size_t i = k * outcomes + outcome;
    bars.push_back({keys[k], fmt::format("{:.3f}", at(s, "sweep/total", i)), std::max(0.0, at(s, "sweep/total", i))});
    t.lines.push_back({keys[k], with_bounds("sweep/first_order", i), with_bounds("sweep/total", i)});
  }
  const svg::Words words{fmt::format("share-{}", outcome), "Share of the spread of " + of + " that each key has a hand in",
                         fmt::format("A bar for each of {} keys.", keys.size())};
  return figure(svg::bars(words, bars),
                "Sobol' indices: the share of the spread (variance) of " + of + " that a key has a hand in (bar), and that it explains by "
                "itself (table), with 95 % intervals.", t);
}

}  // namespace

std::string lead_of_sweep(const Sheet& s) {
  if (s.file.find("sweep/leader") == nullptr) return "No point of this sweep could be played.";
  const bool met = whole(s, "sweep/target_met") > 0.0;
  const std::string kept = counts_years(s.file) ? met_in(s.file, percent(at(s, "sweep/leader_success", 0))) + ", " : "";
  return fmt::format("{} {} points, {}: {}. There {}{} of the fodder is served, and a year costs {}.",
                     met ? "The cheapest that meets the target, of" : "None meets the target; what comes nearest, of",
                     plain(whole(s, "sweep/points"), 0), met ? "is" : "is this", leader_words(s, 0), kept, percent(at(s, "sweep/leader_fill_rate", 0)),
                     money(s, at(s, "sweep/leader_cost_year", 0)));
}

std::string sweep_part(const Sheet& s) {
  if (!s.swept()) return "";
  std::string out = paragraph(sweep_counts(s.file));
  if (const results::Array* leader = s.file.find("sweep/leader")) {
    const bool met = whole(s, "sweep/target_met") > 0.0;
    Table t{met ? "the cheapest points that meet the target" : "the points that come nearest to the target",
            {"place", "settings", "cost a year", "fodder served", "short days a year"}, {}, "llrrr"};
    constexpr std::ptrdiff_t behind_cost = 3;
    const bool counts = counts_years(s.file);
    if (counts) t.heads.insert(t.heads.begin() + behind_cost, counted_years(s.file)), t.align += 'r';
    for (std::size_t i = 0; i < leader->numbers.size(); ++i) {
      t.lines.push_back({fmt::format("{}", i + 1), leader_words(s, i), money(s, at(s, "sweep/leader_cost_year", i)),
                         percent(at(s, "sweep/leader_fill_rate", i)), plain(at(s, "sweep/leader_short_days", i), 1)});
      if (counts) t.lines.back().insert(t.lines.back().begin() + behind_cost, percent(at(s, "sweep/leader_success", i)));
    }
    out += table(t);
    for (std::size_t i = 0; i < leader->numbers.size(); ++i)
      if (const std::string also = leader_also(s.file, i); !also.empty()) out += paragraph(fmt::format("Place {}: {}", i + 1, also));
    if (met)
      out += paragraph("These are estimates for many points side by side: the best of many looks better than it is. Size a few of "
                       "them with rackwright size, which promises what it says.");
    out += paragraph("The rack, its parts, the work and the grain on this page are those of the first of these points.");
  }
  return out;
}

std::string sweep_keys_part(const Sheet& s) {
  if (!s.swept()) return "";
  std::string out;
  if (s.file.find("sweep/first_order") != nullptr) {
    for (std::size_t o = 0; o < s.file.at("sweep/outcome").texts.size(); ++o) out += index_chart(s, o);
    out += paragraph(indices_from(s.file));
  }
  for (std::size_t k = 0; k < s.file.at("sweep/key").texts.size(); ++k) out += effect_chart(s, k);
  if (whole(s, "sweep/count") < whole(s, "sweep/points")) out += paragraph(std::string(effects_apart));
  return out;
}

}  // namespace rackwright::report::html
