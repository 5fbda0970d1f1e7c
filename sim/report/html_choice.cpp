// Which designs were tried, which one is best, and why the others are not.

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

#include "sim/report/html_parts.hpp"
#include "sim/report/html_text.hpp"
#include "sim/report/parts.hpp"
#include "sim/report/svg_charts.hpp"

namespace rackwright::report::html {
namespace {

constexpr std::size_t most_lines = 150, most_dots = 600;

std::size_t keys_of(const Sheet& s) {
  const results::Array* keys = s.file.find("design/choice");
  return keys == nullptr ? 0 : keys->texts.size();
}

bool nearest_is_open(const Sheet& s) { return s.file.at("design/verdict").texts.at(static_cast<std::size_t>(s.design)) == "undecided"; }

bool played(const Sheet& s, std::size_t c) { return s.file.at("design/replications").numbers[c] > 0.0; }

/// "5 tiers of 14..." would guess at meanings; a design is named by what it sets.
std::string design_words(const Sheet& s, std::size_t c) {
  std::string words;
  const std::size_t n = keys_of(s);
  for (std::size_t k = 0; k < n; ++k)
    words += fmt::format("{}{} = {}", k == 0 ? "" : ", ", s.file.at("design/choice").texts[k],
                         s.file.at("design/value").texts[c * n + k]);
  return words.empty() ? "the design as written" : words;
}

/// The design on the page, the runners-up in their order, then the cheapest.
std::vector<std::size_t> in_order(const Sheet& s) {
  const auto& place = s.file.at("design/runner_up").numbers;
  const auto& cost = s.file.at("design/cost_year").numbers;
  std::vector<std::size_t> order(s.file.candidates());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  const auto key = [&](std::size_t c) {
    const double runner = static_cast<int>(c) == s.design ? 0.0 : place[c] > 0.0 ? place[c] : 1e9;
    return std::tuple(runner, !played(s, c), cost[c]);
  };
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return key(a) < key(b); });
  return order;
}

/// What a design reached of all that is asked; the share alone where that is all, as the column's head says.
std::string met_cell(const Sheet& s, std::size_t c) {
  return asks_more(s.file) ? met_words(s.file, static_cast<int>(c), s.file.design("success", c)) : share_with_interval(s.file.design("success", c));
}

std::vector<std::string> line(const Sheet& s, std::size_t c) {
  const std::size_t n = keys_of(s);
  std::vector<std::string> cells{fmt::format("{}", c)};
  const bool any = played(s, c);
  cells.push_back(any ? with_interval(s.file.design("cost_year", c), {}) : "");
  cells.push_back(plain(s.file.at("design/replications").numbers[c], 0));
  cells.push_back(any ? met_cell(s, c) : "");
  cells.push_back(s.file.at("design/verdict").texts[c] + ": " + s.file.at("design/why").texts[c]);
  cells.push_back(any ? share_with_interval(s.file.design("fill_rate", c)) : "");
  cells.push_back(any ? with_interval(s.file.design("short_days", c), days_a_year()) : "");
  for (std::size_t k = 0; k < n; ++k) cells.push_back(s.file.at("design/value").texts[c * n + k]);
  return cells;
}

Table designs(const Sheet& s, std::string caption) {
  Table t{std::move(caption),
          {"design", "cost a year [" + s.file.header.currency + "]", fmt::format("{} played in the search", years_or_runs(s.file)),
           asks_more(s.file) ? "of what is asked" : counted_years(s.file), "verdict", "fodder served", "short days a year"},
          {},
          asks_more(s.file) ? "lrrllrr" : "lrrrlrr"};
  for (std::size_t k = 0; k < keys_of(s); ++k) t.heads.push_back(s.file.at("design/choice").texts[k]), t.align += 'r';
  return t;
}

std::string verdicts(const Sheet& s) {
  std::map<std::string, int> counts;
  for (const std::string& v : s.file.at("design/verdict").texts) ++counts[v];
  std::string out = fmt::format("{} {} tried", s.file.candidates(), s.file.candidates() == 1 ? "design was" : "designs were");
  const char* between = ": ";
  for (const auto& [verdict, words] :
       {std::pair{"screened", "ruled out by arithmetic"}, std::pair{"fails", "miss the target"},
        std::pair{"costlier", "cost more"}, std::pair{"meets", "meet it at a cost too close to tell apart"},
        std::pair{"undecided", "left undecided"}}) {
    if (counts[verdict] == 0) continue;
    out += fmt::format("{}{} {}", between, counts[verdict], words);
    between = ", ";
  }
  out += fmt::format(". {} replications were spent.", plain(s.file.number("design/spent").value_or(0.0), 0));
  if (s.file.number("design/stopped").value_or(0.0) != 0.0)
    out += " The search was stopped early.";
  else if (s.file.number("design/settled").value_or(1.0) == 0.0)
    out += " Some verdicts lack the confidence asked for: raise choose.most_replications to settle them.";
  return out;
}

/// Which years the costs of the tables are of, and why the design on the page has two.
std::string of_which_years(const Sheet& s) {
  std::string out = fmt::format("Costs of designs, here and in the tables below, are of the search: of each the mean over the {0} it was played there, whose number stands beside it.",
                                years_or_runs(s.file));
  if (!s.searched() && s.in_search() > 0.0 && s.in_search() < static_cast<double>(s.file.header.replications_completed))
    out += fmt::format(" So the design on this page has two costs: {} in {} {} of the search, and {} in the {} that were played of it to the end; the headline and the parts of its cost "
                       "are of the latter.",
                       with_interval(s.file.design("cost_year", static_cast<std::size_t>(s.design)), {1.0, 0.0, s.file.header.currency}), plain(s.in_search(), 0), years_or_runs(s.file),
                       s.words("cost_total", As::money), s.file.header.replications_completed);
  return out;
}

std::string picture(const Sheet& s, const std::vector<std::size_t>& order) {
  // Where each limit has a share of its own there is no one share of years: the fodder served stands for it.
  const bool counts = counts_years(s.file);
  svg::Scatter plot;
  for (const std::size_t c : order) {
    if (!played(s, c) || plot.dots.size() == most_dots) continue;
    const double cost = s.file.design("cost_year", c).mean, share = s.file.design(counts ? "success" : "fill_rate", c).mean;
    const std::string& verdict = s.file.at("design/verdict").texts[c];
    if (static_cast<int>(c) == s.design) plot.chosen = static_cast<int>(plot.dots.size());
    plot.dots.push_back({cost, share, verdict == "fails" ? "dot-alarm" : "dot-plain",
                         fmt::format("design {}: {}; {} {} a year, {}; {}", c, design_words(s, c), plain(cost, 0), s.file.header.currency,
                                     met_words(s.file, static_cast<int>(c), s.file.design("success", c)), verdict)});
  }
  if (plot.dots.empty()) return "";
  plot.asked = counts ? s.file.number("target/years").value_or(-1.0) : -1.0;
  plot.y_name = counts ? counted_years(s.file) : "fodder served";
  plot.x_name = "cost a year [" + s.file.header.currency + "]";
  plot.chosen_name = s.recommended() ? "recommended" : "nearest";
  plot.words = {
      "tradeoff", counts ? "What the designs cost and how often they meet the target" : "What the designs cost and how much of the fodder they serve",
      fmt::format("{} designs as dots, cost to the right, {} upwards; the ringed dot is the one on this page.",
                  plot.dots.size(), plot.y_name)};
  Table t = designs(s, "all designs, nearest to the choice first");
  for (const std::size_t c : order)
    if (t.lines.size() < most_lines) t.lines.push_back(line(s, c));
  std::string caption =
      "Each dot is a design that was played; red hollow dots are shown to miss the target. " +
      (counts ? fmt::format("The dashed line is the share of {} asked for. ", years_or_runs(s.file)) : std::string()) +
      "Up and to the left is better. The table has beside each cost the number of years it is the mean of: designs that do the same may differ in it "
      "where one was played in more years, or in dearer ones.";
  if (order.size() > most_lines)
    caption +=
        fmt::format(" The table holds {} of {} designs; rackwright report --json lists all.", most_lines, order.size());
  return figure(svg::scatter(plot), caption, t);
}

}  // namespace

std::string choice_part(const Sheet& s) {
  if (!s.sized() || s.file.candidates() == 0) return "";
  std::string out;
  if (s.design >= 0) {
    Table t{s.recommended() ? "the recommended design" : nearest_is_open(s) ? "the nearest to the target, shown neither to meet nor to miss it" : "the nearest miss", {"setting", "value"}, {}, ""};
    for (const auto& [key, value] : design_settings(s.file)) t.lines.push_back({key, value});
    if (!t.lines.empty()) out += table(t);
    if (!s.recommended())
      out += paragraph(why_words(s.file, static_cast<std::size_t>(s.design)));
  }
  if (const std::string binding = s.file.text("design/binding"); !binding.empty() && s.recommended())
    out += paragraph("What keeps a cheaper design from being chosen: " + binding + ".");
  const auto order = in_order(s);
  Table near = designs(s, "the runners-up, and what became of them");
  std::vector<std::size_t> told;
  if (s.design >= 0) told.push_back(static_cast<std::size_t>(s.design));
  for (const std::size_t c : order)
    if (s.file.at("design/runner_up").numbers[c] > 0.0) near.lines.push_back(line(s, c)), told.push_back(c);
  out += paragraph(of_which_years(s));
  if (!near.lines.empty()) {
    out += table(near);
    if (const std::string beware = unequal_years_words(s.file, told); !beware.empty()) out += paragraph(beware);
  }
  return out + paragraph(verdicts(s)) + picture(s, order) + frontier_part(s);
}

}  // namespace rackwright::report::html
