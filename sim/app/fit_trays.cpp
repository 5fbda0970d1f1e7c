// rackwright fit trays: reading what is asked, and writing the block.
#include "sim/app/fit_trays.hpp"

#include <cstdio>
#include <filesystem>
#include <fstream>

#include <fmt/format.h>

#include "sim/app/exit.hpp"
#include "sim/app/say.hpp"
#include "sim/scenario/read.hpp"

namespace rackwright::app {
namespace {

constexpr std::size_t fewest = 5, most_lots = 300;

struct Given {
  Scenario scenario;
  bool stated = false;                      ///< is it the keeper's own?
};

Given scenario_of(const Options& options) {
  const auto named = options.texts.find(Option::scenario);
  const std::string farm = options.words.size() > 2 ? options.words[2] : named == options.texts.end() ? std::string() : named->second;
  if (farm.empty()) {
    if (!options.settings.empty()) throw BadInput("--set changes a scenario: say which with --scenario FARM.toml");
    return {};
  }
  Reading reading = read_scenario_file(farm, options.settings);
  if (!reading.problems.empty()) throw BadInput(problems_text(farm, reading.problems));
  return {std::move(*reading.scenario), true};
}

std::optional<Units> units_of(const Options& options, const Given& given) {
  const auto named = options.texts.find(Option::units);
  if (named == options.texts.end()) return given.stated ? std::optional(given.scenario.units) : std::nullopt;
  if (named->second == "us") return Units::us;
  if (named->second == "metric") return Units::metric;
  throw BadInput(fmt::format("--units {}: write metric or us", named->second));
}

std::string reasons(const std::map<std::string, std::vector<int>>& unused) {
  std::string text;
  for (const auto& [why, lines] : unused) text += fmt::format("{}{} of them: {}", text.empty() ? "" : "; ", lines.size(), why);
  return text;
}

}  // namespace

void write_block(const Options& options, const std::string& text) {
  const std::string& path = *options.out;
  std::error_code error;
  if (!options.force && std::filesystem::exists(path, error)) throw BadInput(fmt::format("{} exists; --force replaces it", path));
  std::ofstream file(path, std::ios::binary);
  file << text;
  file.close();
  if (!file) throw BadInput(fmt::format("{} cannot be written", path));
}

int fit_trays(const Options& options) {
  if (options.words.size() < 2 || options.words.size() > 3) throw BadInput("say which log: rackwright fit trays LOG.csv, and --scenario FARM.toml if you have one");
  const std::string& path = options.words[1];
  Given given = scenario_of(options);
  const auto units = units_of(options, given);
  if (units) given.scenario.units = *units;
  const TrayLogReading reading = read_tray_log_file(path, units, [&](const TrayLog& read) { return study::unknown_species(read, given.scenario); });
  if (!reading.log) throw BadInput(problems_text(path, reading.problems));
  const TrayLog& log = *reading.log;
  if (const Problems unknown = study::unknown_species(log, given.scenario); !unknown.empty()) throw BadInput(problems_text(path, unknown));
  const study::LoggedRoom room(log);
  if (!room.any()) throw BadInput(path + ": no row states the room's maximum and minimum; without them growth cannot be told from warmth");

  const study::TrayModel model(given.scenario, room, study::species_of(log, given.scenario));
  const study::FitLog used = study::fit_log(log, given.scenario, given.stated, room, model);
  if (used.seen.size() < fewest)
    throw BadInput(fmt::format("{}: {} trays can be used, and {} or more are wanted ({})", path, used.seen.size(), fewest, reasons(used.unused)));
  if (used.lots.size() > most_lots)
    throw BadInput(fmt::format("{}: holds {} lots, and {} are taken at most; a lot is one purchase of grain", path, used.lots.size(), most_lots));
  talk(options.quiet, fmt::format("fitting {} trays of {} lot{} ...", used.seen.size(), used.lots.size(), used.lots.size() == 1 ? "" : "s"));
  const study::TrayFit fit(given.scenario, model, used);
  const study::Posterior before = fit.prior(), after = fit.fit();
  const Scenario fitted = study::with_fit(given.scenario, after);
  const study::UsualTray usual{.celsius = room.mean(), .days = 7.0, .species = used.species.front()};
  const TrayAnswer answer{path, log, given.scenario, fitted, used, fit, before, after, usual,
                          study::usual_tray(given.scenario, usual, fit, before), study::usual_tray(given.scenario, usual, fit, after)};
  std::optional<study::ForecastCheck> check;
  if (options.predict) {
    talk(options.quiet, "foretelling each week from those before it ...");
    check = study::forecast_check(log, given.scenario, given.stated);
    if (!check) throw BadInput(fmt::format("{}: a forecast needs {} trays that ended before, and one after", path, study::first_forecast_after));
  }
  const std::string block = tray_block(answer);
  if (options.out) write_block(options, block);
  if (options.json) {
    fmt::print("{}\n", tray_json(answer, check));
    return good;
  }
  fmt::print("{}", tray_text(answer));
  if (check) fmt::print("\n{}", forecast_text(*check, given.scenario.units));
  if (options.out) fmt::print("\nWritten to {}. To use it: rackwright simulate FARM.toml --out RUNS.h5 --set @{}\n", *options.out, *options.out);
  else fmt::print("\n{}", block);
  return good;
}

}  // namespace rackwright::app
