#include "sim/results/collect.hpp"

#include <fmt/format.h>

#include <array>
#include <chrono>
#include <cmath>
#include <ctime>
#include <optional>
#include <utility>

#include "models/base/quantity.hpp"
#include "sim/replication/columns.hpp"
#include "sim/results/build_info.hpp"
#include "sim/scenario/build.hpp"
#include "sim/scenario/horizon.hpp"
#include "sim/scenario/presence.hpp"

namespace rackwright::results {
namespace {

constexpr std::array ratio_table{
    RatioOfTotals{"served", "wanted", "1"},
    RatioOfTotals{"fodder_fresh", "grain_used", "1"},
    RatioOfTotals{"fodder_dry_matter", "fodder_fresh", "1"},
    RatioOfTotals{"water_used", "fodder_fresh", "L kg-1"},
};

constexpr std::array band_quantiles{0.05, 0.25, 0.5, 0.75, 0.95};

std::vector<double> count_up(std::size_t n) {
  std::vector<double> values(n);
  for (std::size_t i = 0; i < n; ++i) values[i] = static_cast<double>(i);
  return values;
}

/// A table of estimates by row.
class SummaryRows {
 public:
  void add(std::string quantity, std::string_view unit, const study::Estimate& e) {
    names_.push_back(std::move(quantity));
    units_.emplace_back(unit);
    const double low = unit == "degC" ? e.low : low_of(e);  // temperatures may lie below nothing
    const std::array values{e.mean, low, e.high, e.sd, e.least, e.most};
    for (std::size_t i = 0; i < values.size(); ++i) numbers_[i].push_back(values[i]);
  }
  [[nodiscard]] Arrays arrays() const {
    constexpr std::array<const char*, 6> paths{"summary/mean", "summary/low",   "summary/high",
                                               "summary/sd",   "summary/least", "summary/most"};
    Arrays all;
    all["summary/quantity"] = row(names_);
    all["summary/unit"] = row(units_);
    for (std::size_t i = 0; i < paths.size(); ++i) all[paths[i]] = row(numbers_[i]);
    return all;
  }

 private:
  std::vector<std::string> names_, units_;
  std::array<std::vector<double>, 6> numbers_;
};

}  // namespace

std::span<const RatioOfTotals> ratios() { return ratio_table; }

std::vector<std::string> season_names() {
  return {"December to February", "March to May", "June to August", "September to November"};
}

std::string utc_now() {
  const std::time_t now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  std::tm parts{};
  gmtime_r(&now, &parts);
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z", parts.tm_year + 1900, parts.tm_mon + 1, parts.tm_mday,
                     parts.tm_hour, parts.tm_min, parts.tm_sec);
}

double low_of(const study::Estimate& e) { return std::isfinite(e.low) && e.least >= 0.0 ? std::max(0.0, e.low) : e.low; }

Header describe_run(const Scenario& scenario, std::string kind, std::string command_line, std::string created_utc) {
  Header h;
  h.kind = std::move(kind);
  h.title = scenario.title;
  h.currency = scenario.currency;
  h.display_units = scenario.units == Units::us ? "us" : "metric";
  const auto& start = scenario.run.start;
  h.start_date = fmt::format("{:04}-{:02}-{:02}", static_cast<int>(start.year()), static_cast<unsigned>(start.month()),
                             static_cast<unsigned>(start.day()));
  h.horizon_days = static_cast<std::uint64_t>(horizon_days(scenario));
  h.random_seed = scenario.run.random_seed;
  h.replications_asked =
      static_cast<std::uint64_t>(h.kind == "size" ? scenario.choose.most_replications : scenario.run.replications);
  h.command_line = std::move(command_line);
  h.created_utc = std::move(created_utc);
  add_build_info(h);
  return h;
}

Arrays scenario_arrays(const Scenario& scenario, const std::string& text_read, const std::string& resolved,
                       const std::vector<std::string>& cautions) {
  Arrays all;
  if (!text_read.empty()) all["scenario/text"] = text(text_read);
  if (!resolved.empty()) all["scenario/resolved"] = text(resolved);
  if (!cautions.empty()) all["scenario/caution"] = row(cautions);
  if (const std::vector<std::string> absent = absent_groups(scenario); !absent.empty()) all["scenario/absent_group"] = row(absent);
  if (const double share = scenario.feed.hay.dry_matter; share > 0.0)
    all["scenario/hay_cost_per_kg_dry_matter"] = number(cost::bought_per_kilogram_dry(scenario.prices.hay_per_kg, share));
  const Target& t = scenario.target;
  all["target/fill_rate"] = number(t.fill_rate);
  if (t.unripe_fed < 1.0) all["target/unripe_fed"] = number(t.unripe_fed);
  all["target/years"] = number(t.years);
  all["target/confidence"] = number(t.confidence);
  const std::pair<const char*, const std::optional<double>&> stated[] = {
      {"short_days", t.short_days},           {"longest_short_run", t.longest_short_run},
      {"season_fill_rate", t.season_fill_rate}, {"spoiled_fed", t.spoiled_fed},
      {"yearly_cost", t.yearly_cost},         {"mean_fill_rate", t.mean_fill_rate},
      {"mean_yearly_cost", t.mean_yearly_cost}, {"fill_rate_years", t.fill_rate_years},
      {"short_days_years", t.short_days_years}, {"longest_short_run_years", t.longest_short_run_years},
      {"season_fill_rate_years", t.season_fill_rate_years}, {"spoiled_fed_years", t.spoiled_fed_years},
      {"unripe_fed_years", t.unripe_fed_years},
      {"yearly_cost_years", t.yearly_cost_years}};
  for (const auto& [name, value] : stated) {
    if (value) all[std::string("target/") + name] = number(*value);
  }
  return all;
}

Arrays band_arrays(const study::Bands& bands) {
  Arrays all;
  if (bands.replications() == 0) return all;
  const auto days = static_cast<std::size_t>(bands.days());
  all["daily/day"] = row(count_up(days));
  all["daily/quantile"] = row(std::vector<double>(band_quantiles.begin(), band_quantiles.end()));
  for (std::size_t c = 0; c < daily_columns().size(); ++c) {
    Array mean = row(std::vector<double>{}), band;
    for (std::size_t d = 0; d < days; ++d) {
      mean.numbers.push_back(bands.mean(static_cast<int>(d), c));
      for (const double p : band_quantiles) band.numbers.push_back(bands.quantile(static_cast<int>(d), c, p));
    }
    mean.shape = {days};
    band.shape = {days, band_quantiles.size()};
    const std::string path = "daily/" + std::string(daily_columns()[c].name);
    all[path] = std::move(band);
    all[path + "_mean"] = std::move(mean);
  }
  return all;
}

Arrays build_arrays(const Scenario& scenario) {
  std::vector<std::string> names;
  std::vector<double> amounts, costs;
  for (const cost::Part& part : cost::bill(build_of(scenario), scenario.prices)) {
    names.emplace_back(part.name);
    amounts.push_back(part.amount);
    costs.push_back((part.amount * part.each).value());
  }
  Arrays all;
  all["scenario/part"] = row(std::move(names));
  all["scenario/part_amount"] = row(std::move(amounts));
  all["scenario/part_cost"] = row(std::move(costs));
  all["scenario/capital"] = number(capital_of(scenario).value());
  all["scenario/capital_years"] = number(scenario.prices.life_years);
  all["scenario/capital_interest"] = number(scenario.prices.interest);
  return all;
}

Arrays bad_year_arrays(const study::BadYears& years) {
  const std::vector<double> shares{0.05, 0.1};
  std::vector<double> mean, low, high;
  for (const double share : shares) {
    const study::Estimate e = years.quantile(share);
    mean.push_back(e.mean), low.push_back(e.low), high.push_back(e.high);
  }
  Arrays all;
  all["summary/bad_year"] = row(shares);
  all["summary/bad_year_fill_rate"] = row(std::move(mean));
  all["summary/bad_year_fill_rate_low"] = row(std::move(low));
  all["summary/bad_year_fill_rate_high"] = row(std::move(high));
  return all;
}

namespace {

void add_kept(Arrays& all, const std::vector<study::Kept>& requirements) {
  if (requirements.empty()) return;
  std::vector<std::string> names;
  std::vector<double> asked, reached, low, high;
  for (const study::Kept& kept : requirements) {
    names.push_back(kept.name);
    asked.push_back(kept.least);
    reached.push_back(kept.value.mean), low.push_back(kept.value.low), high.push_back(kept.value.high);
  }
  all["summary/requirement"] = row(std::move(names));
  all["summary/asked"] = row(std::move(asked));
  all["summary/reached"] = row(std::move(reached));
  all["summary/reached_low"] = row(std::move(low));
  all["summary/reached_high"] = row(std::move(high));
}

}  // namespace

Arrays summary_arrays(const study::Summary& summary) {
  SummaryRows rows;
  for (const Column& c : outcome_columns()) rows.add(std::string(c.name), c.unit, summary.estimate(c.name));
  for (const RatioOfTotals& r : ratios())
    rows.add(fmt::format("{}/{}", r.numerator, r.denominator), r.unit, summary.ratio(r.numerator, r.denominator));
  rows.add("success", "1", summary.success());
  Arrays all = rows.arrays();
  add_kept(all, summary.kept());
  const auto shares = summary.short_day_seasons();
  all["summary/season"] = row(season_names());
  all["summary/short_season"] = row(std::vector<double>(shares.begin(), shares.end()));
  return all;
}

Arrays doubt_arrays(const std::vector<study::Doubt>& doubts) {
  if (doubts.empty()) return {};
  std::vector<std::string> names, units;
  std::array<std::vector<double>, 10> numbers;
  for (const study::Doubt& doubt : doubts) {
    names.emplace_back(doubt.quantity);
    units.emplace_back(doubt.unit);
    const std::array values{doubt.share,    doubt.share_low, doubt.share_high, doubt.luck.mean,
                            doubt.luck.low, doubt.luck.high, doubt.luck.sd,     doubt.both.mean,
                            doubt.both.low, doubt.both.high};
    for (std::size_t i = 0; i < values.size(); ++i) numbers[i].push_back(values[i]);
  }
  constexpr std::array<const char*, 10> paths{"doubt/share",    "doubt/share_low", "doubt/share_high", "doubt/luck_mean",
                                             "doubt/luck_low", "doubt/luck_high", "doubt/luck_sd",   "doubt/both_mean",
                                             "doubt/both_low", "doubt/both_high"};
  Arrays all;
  all["doubt/quantity"] = row(names);
  all["doubt/unit"] = row(units);
  for (std::size_t i = 0; i < paths.size(); ++i) all[paths[i]] = row(numbers[i]);
  return all;
}

}  // namespace rackwright::results
