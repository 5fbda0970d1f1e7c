#pragma once
// A small study with made-up numbers, for tests of files: what matters here is that they come back, not what they say.

#include <stdlib.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "sim/replication/columns.hpp"
#include "sim/results/collect.hpp"
#include "sim/results/schema.hpp"
#include "sim/results/writer.hpp"

namespace rackwright::results::sample {

/// A folder of its own that goes when the test does.
class Folder {
 public:
  Folder() {
    std::string name = (std::filesystem::temp_directory_path() / "rackwright-XXXXXX").string();
    path_ = mkdtemp(name.data());
  }
  ~Folder() { std::filesystem::remove_all(path_); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  [[nodiscard]] std::string file(const std::string& name) const { return (path_ / name).string(); }
  [[nodiscard]] std::size_t files() const {
    return static_cast<std::size_t>(std::distance(std::filesystem::directory_iterator(path_), {}));
  }

 private:
  std::filesystem::path path_;
};

inline std::string bytes(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

/// Two days' worth of digits that differ from one replication to the next.
inline Outcome outcome(std::uint32_t replication) {
  const double x = replication;
  Outcome o;
  o.replication = replication;
  o.days = 365.0;
  o.wanted = 9000.0 + std::sin(x);
  o.served = 8900.0 + std::cos(x);
  o.fill_rate = o.served / o.wanted;
  o.short_days = static_cast<int>(replication % 23);
  o.short_days_by_season[2] = o.short_days;
  o.longest_short_run = static_cast<int>(replication % 5);
  o.spoiled_mould = static_cast<int>(replication % 3);
  o.fodder_fresh = o.served;
  o.fodder_dry_matter = 0.14 * o.served;
  o.grain_used = 1500.0 + x / 7.0;
  o.water_used = 18000.0 + x;
  o.cost_total = 1234.5 + x / 3.0;
  o.room_min = -3.25;
  return o;
}

inline study::Series series(std::uint32_t replication, std::size_t days) {
  study::Series s{replication, std::vector<DailyRow>(days)};
  for (std::size_t d = 0; d < days; ++d) {
    s.rows[d].room_mean = static_cast<float>(16.0 + std::sin(static_cast<double>(d) / 58.0));
    s.rows[d].served = static_cast<float>(d + replication);
  }
  return s;
}

inline study::Block block(std::uint32_t first, std::uint32_t count) {
  study::Block b;
  b.first = first;
  for (std::uint32_t i = first; i < first + count; ++i) b.outcomes.push_back(outcome(i));
  return b;
}

inline Header header(const std::string& kind, std::uint64_t replications) {
  Header h;
  h.kind = kind;
  h.title = "Ziegen am Südhang";
  h.currency = "EUR";
  h.start_date = "2026-03-01";
  h.horizon_days = 365;
  h.random_seed = 0xFFFFFFFFFFFFFFF1ULL;  // does not fit a signed number
  h.replications_asked = replications;
  h.command_line = "rackwright " + kind + " farm.toml --out RUNS.h5";
  h.created_utc = "2026-03-01T06:00:00Z";
  h.program_version = "0.0";
  h.commit = "";
  h.compiler = "any";
  h.flags = "-O2";
  h.dependencies = "none";
  return h;
}

/// /summary and /daily with a value of its own in each place, for the shape alone.
inline Arrays arrays() {
  Arrays all;
  std::vector<std::string> names, units;
  for (const Column& c : outcome_columns()) names.emplace_back(c.name), units.emplace_back(c.unit);
  names.emplace_back("success"), units.emplace_back("1");
  const std::size_t n = names.size();
  all["summary/quantity"] = row(names);
  all["summary/unit"] = row(units);
  double next = 0.5;
  for (const char* path :
       {"summary/mean", "summary/low", "summary/high", "summary/sd", "summary/least", "summary/most"}) {
    std::vector<double> values(n);
    for (double& v : values) v = next += 0.25;
    all[path] = row(std::move(values));
  }
  all["summary/season"] = row(season_names());
  all["summary/short_season"] = row(std::vector<double>{0.1, 0.2, 0.6, 0.1});
  const std::size_t days = 365;
  std::vector<double> day(days);
  for (std::size_t d = 0; d < days; ++d) day[d] = static_cast<double>(d);
  all["daily/day"] = row(day);
  all["daily/quantile"] = row(std::vector<double>{0.05, 0.25, 0.5, 0.75, 0.95});
  for (const DailyColumn& c : daily_columns()) {
    Array band{{days, 5}, std::vector<double>(days * 5), {}}, mean{{days}, std::vector<double>(days), {}};
    for (double& v : band.numbers) v = next += 0.125;
    for (double& v : mean.numbers) v = next += 0.125;
    all["daily/" + std::string(c.name)] = band;
    all["daily/" + std::string(c.name) + "_mean"] = mean;
  }
  all["scenario/text"] = text("title = \"Ziegen am Südhang\"\n# a comment\n");
  all["scenario/caution"] = row(std::vector<std::string>{"One caution.", "", "Another, with \"quotes\"."});
  all["target/fill_rate"] = number(0.97);
  all["target/years"] = number(0.9);
  return all;
}

/// Writes a study of `replications` in blocks of 32 with whole days of replications 3 and 40.
inline void write_simulate(const std::string& path, std::uint32_t replications, Header h, bool force = false) {
  Writer writer(path, force, std::move(h), 32);
  for (std::uint32_t first = 0; first < replications; first += 32) {
    study::Block b = block(first, std::min(32U, replications - first));
    if (first == 0) b.series.push_back(series(3, 365));
    if (first == 32) {
      b.series.push_back(series(40, 365));
      b.failures.push_back({41, "a balance that did not close"});
    }
    writer.append(b);
  }
  writer.finish(arrays());
}

inline void write_simulate(const std::string& path, std::uint32_t replications = 100) {
  write_simulate(path, replications, header("simulate", replications));
}

}  // namespace rackwright::results::sample
