#include "sim/app/options.hpp"

#include <algorithm>
#include <array>
#include <boost/program_options.hpp>
#include <charconv>
#include <cmath>

#include <fmt/core.h>

#include "sim/app/exit.hpp"
#include "sim/scenario/suggest.hpp"

namespace rackwright::app {

namespace po = boost::program_options;

namespace {

constexpr std::array table{
    OptionEntry{Option::replications, "replications", "N", "how many replications to play: the line played once each, with other luck (run.replications)"},
    OptionEntry{Option::years, "years", "N", "how long each replication is, in years of 365 days; 1 unless given (run.length)"},
    OptionEntry{Option::random_seed, "random-seed", "N", "the number all luck is drawn from; the same one gives the same luck (run.random_seed)"},
    OptionEntry{Option::threads, "threads", "N", "how many replications to play at once; as many as there are cores unless given"},
    OptionEntry{Option::replication, "replication", "WHICH", "which replication (the line played once): worst, median (the middle one), or a number from 0"},
    OptionEntry{Option::precision, "precision", "P",
     "play until share served and yearly cost are known to +-P (95 % intervals), such as 0.5 %"},
    OptionEntry{Option::out, "out", "FILE", "where to write the result"},
    OptionEntry{Option::force, "force", "", "replace an existing FILE"},
    OptionEntry{Option::resume, "resume", "", "go on with what an earlier run of the same command finished"},
    OptionEntry{Option::shard, "shard", "K/N", "play only the K-th of N parts, other machines the others; the last to finish writes FILE"},
    OptionEntry{Option::merge, "merge", "", "write FILE from the parts that --shard runs have finished; plays nothing"},
    OptionEntry{Option::hard_time, "hard-time", "NAME",
     "a hard time to try, of the scenario or built in; may be given several times"},
    OptionEntry{Option::against, "against", "KEY=VALUE",
     "compare with this key changed, or these keys joined by commas; may be given several times"},
    OptionEntry{Option::set, "set", "KEY=VALUE", "change one key of the scenario, or those of a file with @FILE.toml; may be given several times"},
    OptionEntry{Option::vary, "vary", "KEY=VALUES",
     "a key to vary, over A,B,C or LOW:HIGH or LOW:HIGH:COUNT; may be given several times"},
    OptionEntry{Option::method, "method", "NAME", "which points (sets of values) to play: grid (every combination; unless given), latin or even (spread evenly), or sobol (which key matters most: Sobol' indices)"},
    OptionEntry{Option::points, "points", "N", "how many points: designs of latin or even, rows of them of sobol"},
    OptionEntry{Option::play_all, "play-all", "", "play also the points that arithmetic alone shows to be hopeless"},
    OptionEntry{Option::quiet, "quiet", "", "no messages and no progress"},
    OptionEntry{Option::json, "json", "", "answer in JSON, for other programs"},
    OptionEntry{Option::text, "text", "", "print the page in the terminal"},
    OptionEntry{Option::csv, "csv", "FOLDER", "write the tables as comma-separated files into FOLDER, for a spreadsheet"},
    OptionEntry{Option::help, "help", "", "show this help"},
    OptionEntry{Option::from, "from", "KIND", "a ready farm to begin from: goats, hens, sheep, cows, rabbits or mixed"},
    OptionEntry{Option::first_day, "from", "DATE", "the first day; else that of the state file, or today. With --log it may have a time: 2026-07-14T06:00"},
    OptionEntry{Option::state, "state", "FILE", "what stands on the rack, in soak and in store: a small file of yours"},
    OptionEntry{Option::log, "log", "FILE", "your log of trays, as `fit trays` reads it: what is sown and not yet over stands on the rack"},
    OptionEntry{Option::days, "days", "N", "how many days of work to show; 7 unless given"},
    OptionEntry{Option::forecast, "forecast", "WORDS", "highest and lowest outdoors on the days to come, in your units: \"38/22 40/24\"; or a weather file"},
    OptionEntry{Option::behind, "behind", "K", "the rack as usual, but the last K batches were not sown"},
    OptionEntry{Option::ahead, "ahead", "K", "the rack as usual, with K batches that were not needed"},
    OptionEntry{Option::units, "units", "WORDS", "metric or us, and your currency: \"us, USD\""},
    OptionEntry{Option::animals, "animals", "WORDS", "how many of which: \"12 goats at 1.5 kg, 40 hens\""},
    OptionEntry{Option::eats, "eats", "WORDS", "what they eat now and its price: \"hay at 0.25 /kg\""},
    OptionEntry{Option::grain, "grain", "WORDS", "what you would sprout and its price: \"barley at 9 / 25 kg\""},
    OptionEntry{Option::place, "place", "WORD", "where the rack stands: stone barn, barn, shed, greenhouse, house, cellar, container"},
    OptionEntry{Option::weather, "weather", "WORDS", "mean temperatures of the coldest and the hottest month: \"8 and 26 degC\""},
    OptionEntry{Option::hours, "hours", "TIME", "time for the chores a day: \"2 h\""},
    OptionEntry{Option::trays, "trays", "SIZE", "trays you have: \"60 cm x 30 cm\""},
    OptionEntry{Option::trial, "trial", "COUNT/SOWN", "what a trial of the new lot gave, one for each tray: 46/50 44/50"},
    OptionEntry{Option::current, "current", "COUNT/SOWN", "the same of the lot in use; else what the scenario says of it"},
    OptionEntry{Option::price, "price", "PRICE", "price of the new lot: \"7 / 25 kg\"; that of the scenario unless given"},
    OptionEntry{Option::policies, "policies", "", "what trying new lots, and keeping grain back meanwhile, is worth a year"},
    OptionEntry{Option::sure, "sure", "SHARE", "how sure a switch must be; 95 % unless given"},
    OptionEntry{Option::of, "of", "NAME", "which grain of the scenario; the first unless given"},
    OptionEntry{Option::height, "height", "LENGTH", "how high the new lot's mats stood in the trial, with --after: \"10 cm\""},
    OptionEntry{Option::after, "after", "TIME", "after how long they stood so high: \"6 d\""},
    OptionEntry{Option::at, "at", "TEMPERATURE", "temperature of the room meanwhile; 20 degC unless given"},
    OptionEntry{Option::scenario, "scenario", "FARM.toml", "the farm that was measured: it fills the empty cells of a log, and its keys are the ones worked out anew"},
    OptionEntry{Option::predict, "predict", "", "foretell each week of the log from those before it, and tell how well that went"},
};

const OptionEntry& entry(Option option) {
  return *std::find_if(table.begin(), table.end(), [&](const OptionEntry& e) { return e.option == option; });
}

po::options_description description(std::span<const Option> taken) {
  po::options_description all;
  for (const Option option : taken) {
    const OptionEntry& e = entry(option);
    if (e.value.empty()) {
      all.add_options()(e.name.data(), po::bool_switch(), e.sentence.data());
    } else if (option == Option::set || option == Option::vary || option == Option::hard_time || option == Option::against) {
      all.add_options()(e.name.data(), po::value<std::vector<std::string>>()->value_name(e.value.data()),
                        e.sentence.data());
    } else {
      all.add_options()(e.name.data(), po::value<std::string>()->value_name(e.value.data()), e.sentence.data());
    }
  }
  return all;
}

// The complaint about an option nobody declared for this command.
std::string unknown(std::string_view command, std::span<const Option> taken, const std::string& token) {
  const std::string name = token.substr(token.find_first_not_of('-'));
  const std::string bare = name.substr(0, name.find('='));
  std::vector<std::string> names;
  for (const Option option : taken) names.emplace_back(entry(option).name);
  const bool elsewhere = std::any_of(table.begin(), table.end(), [&](const OptionEntry& e) { return e.name == bare; });
  if (elsewhere) return fmt::format("`rackwright {}` does not take --{}", command, bare);
  const std::string near = nearest(bare, names);
  return fmt::format("unknown option --{}{}", bare, near.empty() ? "" : " (did you mean --" + near + "?)");
}

// Values of a parse, with the complaints about them.
class Reader {
 public:
  Reader(const po::variables_map& given, std::vector<std::string>& problems) : given_(given), problems_(problems) {}

  [[nodiscard]] bool flag(const char* name) const { return given_.count(name) != 0 && given_[name].as<bool>(); }
  [[nodiscard]] std::optional<std::string> text(const char* name) const {
    if (given_.count(name) == 0) return std::nullopt;
    return given_[name].as<std::string>();
  }
  std::optional<std::uint64_t> whole(const char* name, std::uint64_t least, std::uint64_t most) {
    const auto written = text(name);
    if (!written) return std::nullopt;
    const auto value = read_whole(*written, least, most);
    if (!value)
      problems_.push_back(fmt::format("--{} {}: not a whole number from {} to {}", name, *written, least, most));
    return value;
  }
  /// "0.5 %" or 0.005: a share above 0 and up to a half.
  std::optional<double> share(const char* name) {
    auto written = text(name);
    if (!written) return std::nullopt;
    std::string number = *written;
    const bool percent = number.ends_with('%');
    if (percent) number.pop_back();
    while (number.ends_with(' ')) number.pop_back();
    double value = 0.0;
    const char* end = number.data() + number.size();
    const auto [stop, error] = std::from_chars(number.data(), end, value);
    if (percent) value /= 100.0;
    if (error == std::errc{} && stop == end && value > 0.0 && value <= 0.5) return value;
    problems_.push_back(fmt::format("--{} {}: not a share above 0 and up to 50 %, such as 0.5 %", name, *written));
    return std::nullopt;
  }
  std::optional<double> positive(const char* name, double most) {
    const auto written = text(name);
    if (!written) return std::nullopt;
    double value = 0.0;
    const char* end = written->data() + written->size();
    const auto [stop, error] = std::from_chars(written->data(), end, value);
    if (error == std::errc{} && stop == end && value > 0.0 && value <= most) return value;
    problems_.push_back(fmt::format("--{} {}: not a number above 0 and up to {}", name, *written, most));
    return std::nullopt;
  }

 private:
  const po::variables_map& given_;
  std::vector<std::string>& problems_;
};

results::Shard read_shard(const std::string& text, std::vector<std::string>& problems) {
  const auto slash = text.find('/');
  const auto number = read_whole(text.substr(0, slash), 1, 1'000'000);
  const auto of = slash == std::string::npos ? std::nullopt : read_whole(text.substr(slash + 1), 1, 1'000'000);
  if (number && of && *number <= *of) return {static_cast<std::uint32_t>(*number), static_cast<std::uint32_t>(*of)};
  problems.push_back(fmt::format("--shard {}: write K/N with whole numbers, K from 1 to N, such as --shard 3/16", text));
  return {};
}

// Of two values for one key the later would win in silence; a file of settings may be overruled by what is typed.
void set_once(const std::vector<std::string>& settings, std::vector<std::string>& problems) {
  std::vector<std::string> keys;
  for (const std::string& setting : settings) {
    if (setting.starts_with('@')) continue;
    const std::string key = setting.substr(0, setting.find('='));
    if (std::count(keys.begin(), keys.end(), key) == 1) problems.push_back(fmt::format("--set {}: {} is set twice; write it once", setting, key));
    keys.push_back(key);
  }
}

Options collect(const po::variables_map& given, std::vector<std::string>& problems) {
  using enum Option;
  Reader reader(given, problems);
  Options options;
  if (given.count("word") != 0) options.words = given["word"].as<std::vector<std::string>>();
  if (given.count("set") != 0) options.settings = given["set"].as<std::vector<std::string>>();
  if (given.count("hard-time") != 0) options.hard_times = given["hard-time"].as<std::vector<std::string>>();
  if (given.count("against") != 0) options.changes = given["against"].as<std::vector<std::string>>();
  for (const std::string& setting : options.settings) {
    if (setting.size() > 1 && setting.front() == '@') continue;  // a file of them
    if (setting.find('=') == std::string::npos || setting.front() == '=')
      problems.push_back(fmt::format("--set {}: write KEY=VALUE, such as --set line.days_on_rack=8, or @FILE", setting));
  }
  set_once(options.settings, problems);
  // These three are keys of the scenario under shorter names: the key table judges them.
  if (const auto n = reader.text("replications")) options.settings.push_back("run.replications=" + *n);
  if (const auto n = reader.positive("years", 10.0)) {
    const double days = std::round(365.0 * *n);
    if (days < 1.0) problems.push_back(fmt::format("--years {}: shorter than the shortest run, one day (--years 0.003)", given["years"].as<std::string>()));
    options.settings.push_back(fmt::format("run.length={:.0f} d", std::max(1.0, days)));
  }
  if (const auto n = reader.text("random-seed")) options.settings.push_back("run.random_seed=" + *n);
  if (const auto n = reader.whole("threads", 1, 1024)) options.threads = static_cast<int>(*n);
  options.replication = reader.text("replication");
  options.precision = reader.share("precision");
  if (const auto text = reader.text("shard")) options.shard = read_shard(*text, problems);
  if (options.precision && !options.shard.whole())
    problems.push_back("--precision with --shard: shares must know the number of replications beforehand; give --replications");
  if (given.count("vary") != 0) options.vary = given["vary"].as<std::vector<std::string>>();
  options.method = reader.text("method");
  options.points = reader.whole("points", 1, 1'000'000'000);
  for (const Option option : {from, units, animals, eats, grain, place, weather, hours, trays, state, Option::log, first_day, days, forecast, behind, ahead, trial,
                              current, price, sure, of, height, after, at, scenario}) {
    if (auto text = reader.text(entry(option).name.data())) options.texts[option] = std::move(*text);
  }
  options.out = reader.text("out");
  options.csv = reader.text("csv");
  options.force = reader.flag("force");
  options.resume = reader.flag("resume");
  options.merge = reader.flag("merge");
  options.play_all = reader.flag("play-all");
  options.predict = reader.flag("predict");
  options.policies = reader.flag("policies");
  options.quiet = reader.flag("quiet");
  options.json = reader.flag("json");
  options.text = reader.flag("text");
  options.help = reader.flag("help");
  return options;
}

// The counts after --trial and --current, which the shell cuts apart, are one value.
std::vector<std::string> counts_joined(const std::vector<std::string>& arguments) {
  std::vector<std::string> joined;
  bool counting = false;
  for (const std::string& argument : arguments) {
    if (counting && looks_like_counts(argument)) {
      if (joined.back().find('/') == std::string::npos) joined.push_back(argument);
      else joined.back() += " " + argument;
      continue;
    }
    counting = false;
    for (const Option option : {Option::trial, Option::current}) {
      const std::string name = "--" + std::string(entry(option).name);
      counting = counting || argument == name || argument.starts_with(name + "=");
    }
    joined.push_back(argument);
  }
  return joined;
}

}  // namespace

std::string_view option_name(Option option) { return entry(option).name; }

std::span<const OptionEntry> option_table() { return table; }

std::optional<std::uint64_t> read_whole(std::string_view text, std::uint64_t least, std::uint64_t most) {
  std::uint64_t value = 0;
  const char* end = text.data() + text.size();
  const auto [stop, error] = std::from_chars(text.data(), end, value);
  if (error != std::errc{} || stop != end || value < least || value > most) return std::nullopt;
  return value;
}

bool looks_like_counts(std::string_view word) {
  return word.find_first_not_of("0123456789/, ") == std::string_view::npos && word.find('/') != std::string_view::npos;
}

Options read_options(std::string_view command, std::span<const Option> taken,
                     const std::vector<std::string>& arguments) {
  po::options_description all = description(taken);
  all.add_options()("word", po::value<std::vector<std::string>>());
  po::positional_options_description positional;
  positional.add("word", -1);
  std::vector<std::string> problems;
  Options options;
  // Boost 1.74 takes three dashes for a name it then cuts beyond its end.
  std::vector<std::string> readable;
  for (const std::string& argument : counts_joined(arguments)) {
    if (argument.starts_with("---")) problems.push_back(fmt::format("{} is no option: options begin with two dashes", argument));
    else readable.push_back(argument);
  }
  try {
    // Long options only and whole names only: a value such as -5 is a value, and a shortened name is a mistake.
    namespace style = po::command_line_style;
    const auto parsed = po::command_line_parser(readable)
                            .options(all)
                            .positional(positional)
                            .style(style::allow_long | style::long_allow_adjacent | style::long_allow_next)
                            .allow_unregistered()
                            .run();
    for (const auto& option : parsed.options) {
      if (option.unregistered) problems.push_back(unknown(command, taken, option.original_tokens.at(0)));
    }
    po::variables_map given;
    po::store(parsed, given);
    options = collect(given, problems);
  } catch (const po::error& e) { problems.push_back(e.what()); }
  if (!problems.empty()) {
    std::string text;
    for (const std::string& problem : problems) text += problem + "\n";
    throw BadInput(text + fmt::format("see rackwright {} --help", command));
  }
  return options;
}

std::string options_help(std::span<const Option> taken) {
  std::string text;
  for (const Option option : taken) {
    const OptionEntry& e = entry(option);
    const std::string left = fmt::format("--{}{}{}", e.name, e.value.empty() ? "" : " ", e.value);
    text += fmt::format("  {:<20} {}\n", left, e.sentence);
  }
  return text;
}

}  // namespace rackwright::app
