// What a target asks, held against what was reached: the limits taken together, and what it asks beside them.

#include <algorithm>
#include <array>
#include <string_view>

#include <fmt/format.h>

#include "sim/report/parts.hpp"
#include "sim/report/text.hpp"
#include "sim/report/words.hpp"

namespace rackwright::report {
namespace {

using results::ResultFile;
using study::Estimate;

constexpr std::array<std::string_view, 7> limits{"fill_rate", "short_days", "longest_short_run", "season_fill_rate", "spoiled_fed", "unripe_fed", "yearly_cost"};

bool apart(const ResultFile& file, std::string_view limit) { return file.number(fmt::format("target/{}_years", limit)).has_value(); }

struct Asked { std::string name; double least = 0.0; Estimate got{}; };

/// Requirement by requirement of a simulation, or of a design of a sizing; empty in files of earlier versions.
std::vector<Asked> asked_of(const ResultFile& file, int design) {
  const std::string group = design < 0 ? "summary/" : "design/";
  std::vector<Asked> all;
  for (const char* name : {"requirement", "asked", "reached", "reached_low", "reached_high"})
    if (file.find(group + name) == nullptr) return all;
  const results::Array* names = file.find(group + "requirement");
  const std::size_t n = names->texts.size(), first = design < 0 ? 0 : n * static_cast<std::size_t>(design);
  for (std::size_t r = 0; r < n; ++r) {
    const auto at = [&](const char* path) { return file.at(group + path).numbers.at(first + r); };
    all.push_back({names->texts[r], file.at(group + "asked").numbers.at(r), {at("reached"), at("reached_low"), at("reached_high"), 0.0, 0.0, 0.0}});
  }
  return all;
}

std::string one(const ResultFile& file, const Asked& asked, std::string_view years) {
  if (asked.name == "mean fill rate")
    return fmt::format("{} of the fodder is served on average, {:.4g} % are asked for", share_with_interval(asked.got), 100.0 * asked.least);
  if (asked.name == "mean yearly cost")
    return fmt::format("a year costs {} on average, at most {} are allowed",
                       with_interval({-asked.got.mean, -asked.got.high, -asked.got.low, 0.0, 0.0, 0.0}, {1.0, 0.0, file.header.currency}), plain(-asked.least, 0));
  return fmt::format("the limit on {} is kept in {} of {}, {:.4g} % are asked for", asked.name, share_with_interval(asked.got), years, 100.0 * asked.least);
}

}  // namespace

bool asks_more(const ResultFile& file) {
  return file.number("target/mean_fill_rate") || file.number("target/mean_yearly_cost") ||
         std::any_of(limits.begin(), limits.end(), [&](std::string_view limit) { return apart(file, limit); });
}

std::string counted_years(const ResultFile& file) {
  return fmt::format("{} that {}", years_or_runs(file), asks_more(file) ? "keep the limits taken together" : "meet the target");
}

bool asks_together(const ResultFile& file) {
  return std::any_of(limits.begin(), limits.end(), [&](std::string_view limit) { return file.number(fmt::format("target/{}", limit)) && !apart(file, limit); });
}

bool counts_years(const ResultFile& file) { return asks_together(file) || !asks_more(file); }

std::string met_in(const ResultFile& file, std::string_view share) {
  return fmt::format("{} in {} of {}", asks_more(file) ? "the limits taken together are kept" : "the target is met", share, years_or_runs(file));
}

std::string met_words(const ResultFile& file, int design, const Estimate& success) {
  std::string more = kept_words(file, design, years_or_runs(file));
  if (!counts_years(file)) return more;
  const std::string share = met_in(file, share_with_interval(success));
  return more.empty() ? share : share + "; " + more;
}

Met met_target(const ResultFile& file) {
  auto all = asked_of(file, -1);
  if (all.empty()) all.push_back({"", file.number("target/years").value_or(1.0), file.estimate("success").value_or(Estimate{0.0, 0.0, 1.0, 0.0, 0.0, 0.0})});
  if (std::all_of(all.begin(), all.end(), [](const Asked& a) { return a.got.low >= a.least; })) return Met::yes;
  if (std::any_of(all.begin(), all.end(), [](const Asked& a) { return a.got.high < a.least; })) return Met::no;
  return Met::open;
}

std::string kept_words(const ResultFile& file, int design, std::string_view years) {
  const auto all = asked_of(file, design);
  std::string words;
  for (std::size_t r = 1; r < all.size(); ++r) words += (r == 1 ? "" : "; ") + one(file, all[r], years);
  return words;
}

}  // namespace rackwright::report
