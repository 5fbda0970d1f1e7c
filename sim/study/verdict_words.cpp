#include "sim/study/verdict_words.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <string_view>

#include <fmt/format.h>

#include "models/base/expects.hpp"
#include "sim/study/limits.hpp"

namespace rackwright::study {
namespace {

struct SeasonName { std::string_view from, to; };
constexpr std::array<SeasonName, 4> seasons{{{"December", "February"}, {"March", "May"}, {"June", "August"},
                                             {"September", "November"}}};

const Limit* find_limit(std::string_view name) {
  for (const Limit& limit : limits()) {
    if (limit.name == name) return &limit;
  }
  return nullptr;
}

const char* counted(double days) { return days == 365.0 || days == 366.0 ? "years" : "runs"; }

/// `in`: "in", or "in only".
std::string limit_words(const Kept& kept, std::string_view in, double days) {
  return fmt::format("keeps the limit on {} {} {:.4g} % of {}, {:.4g} % are asked for", kept.name, in, 100.0 * kept.value.mean, counted(days), 100.0 * kept.least);
}

/// A requirement apart from the limits taken together that the design does not reach; nullptr when it reaches all.
const Kept* missed_apart(const Candidate& candidate) {
  const Kept* worst = nullptr;
  for (std::size_t r = 1; r < candidate.kept.size(); ++r) {
    const Kept& kept = candidate.kept[r];
    if (kept.value.mean < kept.least && (worst == nullptr || gap(kept) < gap(*worst))) worst = &kept;
  }
  return worst;
}

}  // namespace

std::string_view verdict_name(Verdict verdict) {
  switch (verdict) {
    case Verdict::chosen: return "chosen";
    case Verdict::meets: return "meets";
    case Verdict::fails: return "fails";
    case Verdict::costlier: return "costlier";
    case Verdict::screened: return "screened";
    case Verdict::undecided: return "undecided";
  }
  EXPECTS(false);
  return {};
}

std::string season_words(const std::array<double, 4>& shares) {
  const auto [least_at, most_at] = std::minmax_element(shares.begin(), shares.end());
  const auto most = static_cast<std::size_t>(most_at - shares.begin()), least = static_cast<std::size_t>(least_at - shares.begin());
  if (shares[most] <= 0.0) return {};
  if (shares[most] >= 0.6) return fmt::format("mostly in {} to {}", seasons[most].from, seasons[most].to);
  for (std::size_t first = 0; first < 4; ++first) {  // two seasons on end
    const std::size_t second = (first + 1) % 4;
    if (shares[first] + shares[second] < 0.8) continue;
    return fmt::format("mostly in {} to {}", seasons[first].from, seasons[second].to);
  }
  // Each season's part is a quarter; a tenth of all short days more or less than that is told.
  constexpr double part = 0.25, marked = 0.1;
  if (shares[most] <= part + marked && shares[least] >= part - marked) return "all year round";
  return fmt::format("most in {} to {} ({:.0f} %), least in {} to {} ({:.0f} %)", seasons[most].from, seasons[most].to, 100.0 * shares[most],
                     seasons[least].from, seasons[least].to, 100.0 * shares[least]);
}

std::string design_words(const std::vector<std::string>& keys, const std::vector<std::string>& values) {
  EXPECTS(keys.size() == values.size());
  std::string words;
  for (std::size_t i = 0; i < keys.size(); ++i) {
    words += fmt::format("{}{} = {}", i > 0 ? ", " : "", keys[i], values[i]);
  }
  return words;
}

std::string share_words(const Candidate& candidate, double days) {
  const double years = candidate.replications;
  const auto met = std::llround(candidate.success.mean * years);
  return fmt::format("{:.3g} % of {} ({} of {} played)", 100.0 * candidate.success.mean, counted(days), met,
                     candidate.replications);
}

std::string had_words(const Candidate& candidate, const Target& target, double days) {
  if (candidate.kept.size() < 2) return "meets the target in " + share_words(candidate, days);
  std::string words = asks_together(target) ? "keeps the limits taken together in " + share_words(candidate, days) : "";
  for (std::size_t r = 1; r < candidate.kept.size(); ++r) {
    const Kept& kept = candidate.kept[r];
    words += words.empty() ? "" : "; ";
    if (kept.mean) words += fmt::format("{} {:.4g}, {:.4g} {}", kept.name, std::abs(kept.value.mean), std::abs(kept.least), kept.least < 0.0 ? "allowed" : "asked for");
    else words += limit_words(kept, "in", days);
  }
  return words;
}

std::string shortfall_words(const Candidate& candidate, double days) {
  std::string words;
  double most = 0.0;
  for (const auto& [limit, share] : candidate.broken) most = std::max(most, share);
  bool service = false;  // a design that only costs too much has no season of it
  for (const auto& [name, share] : candidate.broken) {
    if (share < 0.5 && share < most) continue;  // the limits that break most of the failed years
    const Limit* limit = find_limit(name);
    words += fmt::format("{}{}", words.empty() ? "" : ", ", limit != nullptr ? limit->broken : name);
    service = service || limit == nullptr || limit->service;
  }
  const std::string season = season_words(candidate.short_seasons);
  if (service && days >= 365.0 && !season.empty() && !words.empty()) words += fmt::format("; short {}", season);
  return words;
}

double gap(const Candidate& candidate) { return gap(std::span<const Kept>(candidate.kept)); }

std::string missed_words(const Kept& kept, double days) {
  if (kept.mean && kept.least < 0.0) {
    return fmt::format("{} {:.4g}, above the {:.4g} allowed", kept.name, -kept.value.mean, -kept.least);
  }
  if (kept.mean) return fmt::format("{} {:.4g}, below the {:.4g} asked for", kept.name, kept.value.mean, kept.least);
  return limit_words(kept, "in only", days);
}

std::string failure_words(const Candidate& candidate, double days) {
  const bool together = candidate.kept.empty() || candidate.kept.front().value.mean < candidate.kept.front().least;
  const Kept* apart = missed_apart(candidate);
  if (apart != nullptr && !together) return missed_words(*apart, days);
  const char* meets = candidate.kept.size() > 1 ? "keeps the limits taken together" : "meets the target";
  const std::string met = candidate.success.mean > 0.0
                              ? fmt::format("{} in only {}", meets, share_words(candidate, days))
                              : fmt::format("{} in none of {} {} played", meets, candidate.replications, counted(days));
  const std::string shortfall = shortfall_words(candidate, days);
  std::string words = shortfall.empty() ? met : met + ": " + shortfall;
  return apart == nullptr ? words : words + "; " + missed_words(*apart, days);
}

std::string money_words(double amount, const std::string& currency) {
  return std::abs(amount) >= 10.0 ? fmt::format("{:.0f} {} a year", amount, currency)
                                  : fmt::format("{:.2f} {} a year", amount, currency);
}

std::string difference_words(double more, const std::string& currency) {
  return fmt::format("on the same years costs {} {} than the chosen design", money_words(std::abs(more), currency),
                     more < 0.0 ? "less" : "more");
}

}  // namespace rackwright::study
