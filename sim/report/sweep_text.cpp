// A sweep told in the terminal: the best points, what each key does, and what explains the spread.

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "sim/report/parts.hpp"
#include "sim/report/simulate_page.hpp"
#include "sim/report/words.hpp"

namespace rackwright::report {
namespace {

using results::ResultFile;

double whole(const ResultFile& file, std::string_view path) { return file.number(path).value_or(0.0); }

std::string share(double value) { return plain(100.0 * value, 1) + " %"; }

/// Points that stay without figures.
double unplayed(const ResultFile& file) { return whole(file, "sweep/points") - whole(file, "sweep/count"); }

bool targets_vary(const ResultFile& file) {
  const auto& keys = file.at("sweep/key").texts;
  return std::any_of(keys.begin(), keys.end(), [](const std::string& key) { return key.starts_with("target."); });
}

std::string leaders(const ResultFile& file) {
  const results::Array* leader = file.find("sweep/leader");
  if (leader == nullptr) return "\nNo point could be played.\n";
  const bool met = whole(file, "sweep/target_met") > 0.0;
  std::string out = met ? "\nThe cheapest points that meet the target\n"
                        : "\nNo point meets the target; those that come nearest\n";
  const std::size_t keys = file.at("sweep/key").texts.size();
  for (std::size_t i = 0; i < leader->numbers.size(); ++i) {
    std::string words;
    for (std::size_t k = 0; k < keys; ++k)
      words += fmt::format("{}{} = {}", k == 0 ? "" : ", ", file.at("sweep/key").texts[k],
                           file.at("sweep/leader_value").texts[i * keys + k]);
    out += wrapped(fmt::format("{}. {}", i + 1, words), 2, 3);
    const double cost = file.at("sweep/leader_cost_year").numbers[i];
    // Files of earlier versions hold no range of it.
    const results::Array *low = file.find("sweep/leader_cost_year_low"), *high = file.find("sweep/leader_cost_year_high");
    const double half = low != nullptr && high != nullptr ? 0.5 * (high->numbers[i] - low->numbers[i]) : std::numeric_limits<double>::infinity();
    const int digits = decimals_for(std::isfinite(half) ? half : 0.0, cost);
    const std::string spread = std::isfinite(half) ? fmt::format(" ({} to {})", plain(low->numbers[i], digits), plain(high->numbers[i], digits)) : "";
    const std::string kept = counts_years(file) ? met_in(file, share(file.at("sweep/leader_success").numbers[i])) + "; " : "";
    out += wrapped(fmt::format("{} {} a year{}; {}{} of the fodder served; {} short days a year",
                               plain(cost, digits), file.header.currency, spread, kept,
                               share(file.at("sweep/leader_fill_rate").numbers[i]),
                               plain(file.at("sweep/leader_short_days").numbers[i], 1)),
                   5);
    if (const std::string also = leader_also(file, i); !also.empty()) out += wrapped(also, 5);
  }
  out += wrapped("Figures in brackets are 95 % intervals.");
  if (met)
    out += wrapped("These are estimates for many points side by side: the best of many looks better than it is. Size a few "
                   "of them with rackwright size, which promises what it says.");
  return out;
}

std::string effects(const ResultFile& file) {
  const auto& labels = file.at("sweep/effect_label").texts;
  const auto& keys = file.at("sweep/effect_key").numbers;
  std::size_t longest = 5;
  for (const std::string& label : labels) longest = std::max(longest, width(label));
  std::string out = "\nWhat each key does: means of the points that have it, whatever their other keys\n";
  out += "    " + left("", longest) + right("served", 12) + right(file.header.currency + " a year", 14) +
         (counts_years(file) ? right(asks_more(file) ? "limits kept" : "target met", 13) : "") + right("points", 10) + "\n";
  double before = -1.0;
  for (std::size_t i = 0; i < labels.size(); ++i) {
    if (keys[i] != before) {
      before = keys[i];
      out += "  " + file.at("sweep/key").texts.at(static_cast<std::size_t>(keys[i])) + "\n";
    }
    const double points = file.at("sweep/effect_points").numbers[i];
    const auto cell = [&](const std::string& text, std::size_t columns) { return right(points > 0.0 ? text : "-", columns); };
    out += "    " + left(labels[i], longest) + cell(share(file.at("sweep/effect_fill_rate").numbers[i]), 12) +
           cell(plain(file.at("sweep/effect_cost_year").numbers[i], 0), 14) +
           (counts_years(file) ? cell(share(file.at("sweep/effect_success").numbers[i]), 13) : "") + right(plain(points, 0), 10) + "\n";
  }
  return out + (unplayed(file) > 0.0 ? wrapped(effects_apart) : "");
}

std::string indices(const ResultFile& file) {
  const results::Array* first = file.find("sweep/first_order");
  if (first == nullptr) return "";
  const auto& keys = file.at("sweep/key").texts;
  const std::size_t outcomes = file.at("sweep/outcome").texts.size();
  std::size_t longest = 0;
  for (const std::string& key : keys) longest = std::max(longest, width(key));
  std::string out;
  for (std::size_t o = 0; o < outcomes; ++o) {
    const bool cost = file.at("sweep/outcome").texts[o] == "cost_year";
    out += fmt::format("\nWhat the spread of {} comes from: shares of it (Sobol' indices), with 95 % intervals\n", cost ? "the cost a year" : "the fodder served");
    out += "    " + left("", longest) + right("by itself", 26) + right("with the others", 26) + "\n";
    for (std::size_t k = 0; k < keys.size(); ++k) {
      const auto cell = [&](const char* path) {
        const std::string name(path);
        const auto at = [&](const std::string& p) {
          const double share = file.at(p).numbers[k * outcomes + o];
          return std::abs(share) < 0.005 ? 0.0 : share;  // no "-0.00"
        };
        return right(fmt::format("{:.2f} ({:.2f} to {:.2f})", at(name), at(name + "_low"), at(name + "_high")), 26);
      };
      out += "    " + left(keys[k], longest) + cell("sweep/first_order") + cell("sweep/total") + "\n";
    }
  }
  return out + wrapped(indices_from(file));
}

}  // namespace

std::string indices_from(const ResultFile& file) {
  const double used = whole(file, "sweep/rows");
  const double rows = whole(file, "sweep/points") / static_cast<double>(file.at("sweep/key").texts.size() + 2);
  if (used < rows)
    return fmt::format("From {} rows of points of {}. A row with a point without figures (unsound or not played to the end) is left out, so that not "
                       "every value of a key's range is as likely as another: the spread is that of a point's mean over its replications "
                       "among the rows that are left.",
                       plain(used, 0), plain(rows, 0));
  return fmt::format("From {} rows of points. The spread is that of a point's mean over its replications, when every value of a key's "
                     "range is as likely as another.",
                     plain(used, 0));
}

std::string leader_also(const ResultFile& file, std::size_t i) {
  const results::Array *spoiled = file.find("sweep/leader_spoiled_fed"), *unripe = file.find("sweep/leader_unripe_fed");
  if (spoiled == nullptr || unripe == nullptr) return "";  // a file of an earlier version
  const double bad = spoiled->numbers.at(i), green = unripe->numbers.at(i);
  std::string out;
  if (bad > 0.0) out = fmt::format("Grave: {} spoiled mats a year are fed because nobody saw them.", plain(bad, bad < 10.0 ? 1 : 0));
  constexpr double worth_telling = 1.0;  // a year
  if (green > worth_telling) out += fmt::format("{}{} mats a year are fed unripe.", out.empty() ? "" : " ", plain(green, 0));
  return out;
}

std::string sweep_counts(const ResultFile& file) {
  std::string out = fmt::format("{} point{} ({}), each played by itself, {} replication{} of {} days each, random seed {}, all on the same luck.",
                                plain(whole(file, "sweep/points"), 0), whole(file, "sweep/points") == 1.0 ? "" : "s", file.text("sweep/method"),
                                file.header.replications_asked, file.header.replications_asked == 1 ? "" : "s", file.header.horizon_days, file.header.random_seed);
  if (const std::string short_runs = Page(file).short_runs(); !short_runs.empty()) out += " " + short_runs;
  const auto also = [&](const std::string& what, const char* words) {
    const double n = whole(file, "sweep/count_" + what);
    if (n <= 0.0) return;
    out += fmt::format(" {} {}, {}: {}.", plain(n, 0), words, n > 1.0 ? "one of them because" : "because",
                       file.text("sweep/example_" + what));
  };
  if (targets_vary(file)) out += " Each point is judged by its own target.";
  const double refused = whole(file, "sweep/count_hopeless") + whole(file, "sweep/count_invalid") + whole(file, "sweep/count_failed");
  also("hopeless", refused > unplayed(file) ? "ruled out by arithmetic alone and played all the same" : "ruled out by arithmetic alone");
  also("invalid", "no sound scenario");
  also("failed", "not played to the end");
  return out;
}

std::string sweep_text(const ResultFile& file) {
  std::string out = file.header.title + "\n\n" + wrapped(sweep_counts(file));
  if (const std::string target = target_words(file); !target.empty() && !targets_vary(file)) out += wrapped("Target: " + target + ".");
  return out + leaders(file) + indices(file) + effects(file) + cautions_text(file, of_the_scenario);
}

}  // namespace rackwright::report
