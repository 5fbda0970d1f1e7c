// `rackwright journal`: one replication told day by day, and why feedings were short.

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <stdexcept>
#include <nlohmann/json.hpp>

#include <fmt/core.h>

#include "sim/app/commands.hpp"
#include "sim/app/exit.hpp"
#include "sim/app/journal_story.hpp"
#include "sim/app/load.hpp"
#include "sim/app/say.hpp"
#include "models/growth/mat.hpp"
#include "sim/replication/replicate.hpp"
#include "sim/study/run.hpp"

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

// Tells as it goes; a short feeding with its causes.
class Teller : public Journal {
 public:
  Teller(const Plan& plan, bool json)
      : run_(plan.scenario.run), units_(plan.scenario.units), days_(plan.horizon_days), json_(json), story_(usual_of(plan), run_, units_) {}
  void note(std::int64_t minutes, const Happening& happening) override {
    short_ = story_.note(minutes, happening);
  }
  void tell(std::int64_t minutes, const std::string& sentence) override {
    const Moment at = moment(minutes);
    std::vector<Reason> reasons;
    if (short_) reasons = story_.explain();
    short_ = false;
    json_ ? line(at, sentence, reasons) : words(at, sentence, reasons);
  }
  /// The causes of all short feedings.
  void close() const {
    const auto lines = story_.summary();
    if (json_) {
      fmt::print("{}\n", nlohmann::ordered_json{{"causes", lines}}.dump());
      return;
    }
    fmt::print("\n{}\n", lines.empty() ? "No feeding was short." : "Why feedings were short, by their main cause");
    for (const std::string& each : lines) fmt::print("  {}\n", each);
  }

 private:
  // A heading a day, then the day's events under it.
  void words(const Moment& at, const std::string& sentence, const std::vector<Reason>& reasons) {
    if (at.day != day_) {
      day_ = at.day;
      const auto date = date_of(run_, at.day);
      const std::chrono::weekday weekday{std::chrono::sys_days(date)};
      fmt::print("\n{}, {} {}\n", at.day < days_ ? fmt::format("Day {}", at.day + 1) : "After the last day", weekdays[weekday.c_encoding()], iso(date));
    }
    fmt::print("  {:02d}:{:02d}  {}\n", at.minute / 60, at.minute % 60, sentence);
    for (const Reason& reason : reasons) fmt::print("           {} [{}]\n", reason.words, cause_words(reason.cause));
  }
  // One JSON object a line.
  void line(const Moment& at, const std::string& sentence, const std::vector<Reason>& reasons) const {
    nlohmann::ordered_json one = {
        {"day", at.day + 1},
        {"time", fmt::format("{}T{:02d}:{:02d}", iso(date_of(run_, at.day)), at.minute / 60, at.minute % 60)},
        {"event", sentence}};
    for (const Reason& reason : reasons)
      one["because"].push_back({{"cause", cause_words(reason.cause)}, {"kilograms", reason.kilograms}, {"words", reason.words}});
    fmt::print("{}\n", one.dump());
  }

  const Run& run_;
  Units units_;
  int days_;  ///< of the run
  bool json_, short_ = false;
  Story story_;
  std::int64_t day_ = -1'000'000;
};

// The replication asked for: a number, or the worst or the middle one by fill rate, found by playing them all.
std::uint32_t which(const Plan& plan, const Options& options) {
  const Run& run = plan.scenario.run;
  const auto all = static_cast<std::uint32_t>(run.replications);
  const std::string& asked = *options.replication;
  if (const auto number = read_whole(asked, 0, all - 1)) return static_cast<std::uint32_t>(*number);
  if (asked != "worst" && asked != "median")
    throw BadInput(fmt::format("--replication {}: write worst, median, or a number from 0 to {} (run.replications is {})",
                               asked, all - 1, all));
  study::RunRequest request;
  request.random_seed = run.random_seed;
  request.replications = all;
  request.threads = options.threads;
  std::vector<std::pair<double, std::uint32_t>> order;
  study::run_replications(plan, request, nullptr, [&](const study::Block& block) {
    for (const Outcome& outcome : block.outcomes) order.emplace_back(outcome.fill_rate, outcome.replication);
  });
  if (order.empty()) throw std::runtime_error("no replication could be played");
  std::sort(order.begin(), order.end());
  return asked == "worst" ? order.front().second : order[(order.size() - 1) / 2].second;
}

}  // namespace

int journal(const Options& options) {
  const Loaded loaded = load(options);
  if (!options.replication) throw BadInput("say which replication: --replication worst, median, or a number from 0");
  const Plan plan = make_plan(loaded.scenario);
  const std::uint32_t replication = which(plan, options);
  const Run& run = plan.scenario.run;
  Teller teller(plan, options.json);
  const Outcome outcome = Replicator(plan).run(run.random_seed, replication, &teller);
  teller.close();
  std::fflush(stdout);  // what follows goes to the other stream
  const auto counted = [](int n, std::string_view one) { return fmt::format("{} {}{}", n, one, n == 1 ? "" : "s"); };
  talk(options.quiet, fmt::format("\nreplication {} of random seed {} (the line played once): {:.1f} % of the fodder wanted was served, {}, {} spoiled{}",
                                  replication, run.random_seed, 100.0 * outcome.fill_rate, counted(outcome.short_days, "short day"),
                                  counted(outcome.spoiled_mould + outcome.spoiled_sour, "mat"),
                                  outcome.frost_killed > 0 ? fmt::format(", {} killed by frost", outcome.frost_killed) : ""));
  return good;
}

}  // namespace rackwright::app
