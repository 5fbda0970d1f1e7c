// `rackwright journal`: one replication told day by day.

#include <chrono>
#include <cstdio>
#include <nlohmann/json.hpp>

#include <fmt/core.h>

#include "sim/app/commands.hpp"
#include "sim/app/exit.hpp"
#include "sim/app/load.hpp"
#include "sim/app/say.hpp"
#include "sim/replication/replicate.hpp"

namespace rackwright::app {

namespace {

constexpr const char* weekdays[] = {"Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"};

struct Moment {
  std::int64_t day, minute;  ///< day 0 is the first; minute of that day
};

Moment moment(std::int64_t minutes) {
  std::int64_t day = minutes / minutes_per_day;
  if (minutes < day * minutes_per_day) --day;  // the run-in lies before day 0
  return {day, minutes - day * minutes_per_day};
}

std::chrono::year_month_day date_of(const Run& run, std::int64_t day) {
  return std::chrono::sys_days(run.start) + std::chrono::days(day);
}

std::string iso(std::chrono::year_month_day d) {
  return fmt::format("{:04d}-{:02d}-{:02d}", static_cast<int>(d.year()), static_cast<unsigned>(d.month()),
                     static_cast<unsigned>(d.day()));
}

// A heading a day, then the day's events under it.
class Teller : public Journal {
 public:
  explicit Teller(const Run& run) : run_(run) {}
  void tell(std::int64_t minutes, const std::string& sentence) override {
    const Moment at = moment(minutes);
    if (at.day != day_) {
      day_ = at.day;
      const auto date = date_of(run_, at.day);
      const std::chrono::weekday weekday{std::chrono::sys_days(date)};
      fmt::print("\nDay {}, {} {}\n", at.day + 1, weekdays[weekday.c_encoding()], iso(date));
    }
    fmt::print("  {:02d}:{:02d}  {}\n", at.minute / 60, at.minute % 60, sentence);
  }

 private:
  const Run& run_;
  std::int64_t day_ = -1'000'000;
};

// One JSON object a line.
class JsonTeller : public Journal {
 public:
  explicit JsonTeller(const Run& run) : run_(run) {}
  void tell(std::int64_t minutes, const std::string& sentence) override {
    const Moment at = moment(minutes);
    const nlohmann::ordered_json line = {
        {"day", at.day + 1},
        {"time", fmt::format("{}T{:02d}:{:02d}", iso(date_of(run_, at.day)), at.minute / 60, at.minute % 60)},
        {"event", sentence}};
    fmt::print("{}\n", line.dump());
  }

 private:
  const Run& run_;
};

}  // namespace

int journal(const Options& options) {
  const Loaded loaded = load(options);
  if (!options.replication) throw BadInput("say which replication: --replication N, counted from 0");
  const Plan plan = make_plan(loaded.scenario);
  const Run& run = plan.scenario.run;
  Teller words(run);
  JsonTeller lines(run);
  Journal* teller = options.json ? static_cast<Journal*>(&lines) : &words;
  const Outcome outcome = Replicator(plan).run(run.random_seed, *options.replication, teller);
  talk(options.quiet, fmt::format("\nreplication {} of random seed {}: {:.1f} % of the fodder wanted was served, {} "
                                  "short days, {} mats spoiled",
                                  *options.replication, run.random_seed, 100.0 * outcome.fill_rate, outcome.short_days,
                                  outcome.spoiled_mould + outcome.spoiled_sour));
  return good;
}

}  // namespace rackwright::app
