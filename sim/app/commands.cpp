#include "sim/app/commands.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <cstdio>
#include <exception>

#include <fmt/core.h>

#include "sim/app/exit.hpp"
#include "sim/app/guide.hpp"
#include "sim/app/say.hpp"
#include "sim/results/build_info.hpp"
#include "sim/results/fault.hpp"
#include "sim/scenario/raw_text.hpp"
#include "sim/scenario/suggest.hpp"
#include "sim/study/crew.hpp"

namespace rackwright::app {

namespace {

std::string overview() {
  std::string text = "rackwright: sizes a rack for sprouting grain, and plays years of luck on it\n\n";
  for (const Command& c : commands())
    text += fmt::format("  rackwright {:<8} {:<44} {}\n", c.name, c.arguments, c.sentence);
  return text +
         "\nA SCENARIO is a file that says what stands on your farm; rackwright new writes a first one.\n"
         "rackwright COMMAND --help tells the options of a command. Results go to standard output, messages to standard error.\n"
         "Exit status: 0 good, 1 a fault or a run stopped before its end, 2 wrong input, 3 no design meets the target.\n";
}

std::string command_help(const Command& c) {
  std::string text = fmt::format("rackwright {} {}\n  {}\n\n{}", c.name, c.arguments, c.sentence, options_help(c.options));
  for (const Example& example : examples(c.name))
    text += fmt::format("{}  {}\n      {}\n", &example == examples(c.name).data() ? "\nFor example\n" : "", example.line, example.meaning);
  return text;
}

const Command& find_command(const std::string& name) {
  const auto& all = commands();
  const auto at = std::find_if(all.begin(), all.end(), [&](const Command& c) { return c.name == name; });
  if (at != all.end()) return *at;
  std::vector<std::string> names;
  names.reserve(all.size());
  for (const Command& c : all) names.emplace_back(c.name);
  throw BadInput(fmt::format("there is no command \"{}\"{}; rackwright --help lists them all", name,
                             did_you_mean(nearest(name, names))));
}

// As it would have to be typed again.
std::string shell_word(const std::string& word) {
  const bool plain = !word.empty() && word.find_first_not_of(
                                          "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_./=,:+%@") ==
                                          std::string::npos;
  if (plain) return word;
  std::string quoted = "'";
  for (const char c : word) quoted += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return quoted + "'";
}

// Under mpirun every rank would do the whole of it, and fight over the output. Rank 0 tells; the others know that it does.
bool alone_in_vain(std::string_view command) {
  const study::Crew crew;
  if (crew.size() > 1 && crew.rank() == 0)
    throw BadInput(fmt::format("ranks share the work of sweep alone: run {} without mpirun; it uses all cores of its machine, and simulate takes --shard", command));
  return crew.size() > 1;
}

int dispatch(const std::vector<std::string>& arguments) {
  if (arguments.empty()) throw BadInput(overview());
  const std::string& first = arguments.front();
  if (first == "help" && arguments.size() > 1) {
    fmt::print("{}", command_help(find_command(arguments[1])));
    return good;
  }
  if (first == "--help" || first == "-h" || first == "help") {
    fmt::print("{}", overview());
    return good;
  }
  if (first == "--version") {
    results::Header header;
    results::add_build_info(header);
    fmt::print("rackwright {} (commit {})\n", header.program_version, header.commit);
    return good;
  }
  const Command& command = find_command(first);
  std::vector<std::string> rest(arguments.begin() + 1, arguments.end());
  std::replace(rest.begin(), rest.end(), std::string("-h"), std::string("--help"));
  Options options = read_options(command.name, command.options, rest);
  options.command_line = "rackwright";
  for (const std::string& argument : arguments) options.command_line += " " + shell_word(argument);
  if (options.help) {
    fmt::print("{}", command_help(command));
    return good;
  }
  if (std::string_view(command.name) != "sweep" && alone_in_vain(command.name)) return bad_input;
  return command.run(options);
}

}  // namespace

const std::vector<Command>& commands() {
  using enum Option;
  static const std::vector<Command> all{
      {"new",
       "FILE.toml",
       "ask eight questions, or take options, and write a first scenario",
       {from, units, animals, eats, grain, place, weather, hours, trays, force, quiet, help},
       new_scenario},
      {"check", "SCENARIO", "read a scenario and show what follows from it", {set, years, json, quiet, help}, check},
      {"simulate",
       "SCENARIO --out RUNS.h5",
       "play the rack as written through many years, each with other luck",
       {out, force, resume, shard, replications, precision, years, random_seed, threads, against, set, json, quiet, help},
       simulate},
      {"size",
       "SCENARIO --out SIZE.h5",
       "find the cheapest design in [choose] that meets [target]",
       {out, force, resume, years, random_seed, threads, set, json, quiet, help},
       size},
      {"sweep",
       "SCENARIO --vary KEY=VALUES --out SWEEP.h5",
       "play many designs: some keys (lines of the scenario) set to many values, all on the same luck",
       {vary, method, points, out, force, resume, shard, merge, play_all, replications, years, random_seed, threads, set,
        json, quiet, help},
       sweep},
      {"stress",
       "SCENARIO --out STRESS.h5",
       "put the design through hard times: what gives way first, what helps",
       {out, force, resume, hard_time, replications, years, random_seed, threads, set, json, quiet, help},
       stress},
      {"journal",
       "SCENARIO --replication WHICH",
       "tell one played year day by day, and why feedings were short",
       {replication, replications, years, random_seed, threads, set, json, quiet, help},
       journal},
      {"schedule",
       "SCENARIO [--state|--log FILE]",
       "the worklist of the days to come, from what stands on the rack today",
       {state, Option::log, first_day, Option::days, forecast, behind, Option::ahead, out, force, set, json, quiet, help},
       schedule},
      {"report",
       "RESULT.h5 --out REPORT.html",
       "make a page of what a result file says; --text for the terminal, --csv FOLDER for a spreadsheet",
       {out, force, text, csv, json, quiet, help},
       report},
      {"lot",
       "SCENARIO --trial COUNT/SOWN...",
       "what a germination trial says of a lot: switch, stay, or try again larger; or what trials are worth a year",
       {trial, current, price, sure, of, height, after, at, policies, replications, random_seed, threads, set, json, quiet, help},
       lot},
      {"evaluate",
       "[MODEL key=value...]",
       "ask one model (growth, mould, pump ...) by itself; without MODEL, list them all",
       {json, help},
       evaluate},
      {"fit",
       "weather|trays FILE.csv",
       "work out what measured weather, or a log of your trays, says, as keys of a scenario",
       {scenario, out, force, predict, units, set, json, quiet, help},
       fit},
      {"describe",
       "PAGE",
       "write a page from the program's own tables: scenario, results, models, completion-bash, completion-zsh, manual",
       {help},
       describe},
  };
  return all;
}

namespace {

// Where standard input, output or error was closed, the next file opened would take its number, and what is said would be written into
// that file. Writing to the place kept here fails, as it would have.
void keep_standard_places() {
  for (const int place : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO})
    if (fcntl(place, F_GETFD) == -1) static_cast<void>(open("/dev/null", O_RDONLY));  // takes the lowest number that is free
}

}  // namespace

int run(const std::vector<std::string>& arguments) {
  keep_standard_places();
  // A file grown beyond its limit is then an error that can be told, and cleaned up after.
  std::signal(SIGXFSZ, SIG_IGN);
  int code = fault;
  try {
    code = dispatch(arguments);
  } catch (const BadInput& bad) {
    message("{}\n", harmless(bad.text()));
    return bad_input;
  } catch (const results::WriteFault& e) {
    message("{}\n", harmless(e.what()));
    return e.user_input() ? bad_input : fault;
  } catch (const results::ReadFault& e) {
    message("{}\n", harmless(e.what()));
    return bad_input;
  } catch (const std::exception& e) {
    message("rackwright stopped: {}\n", harmless(e.what()));
    return fault;
  } catch (...) {
    message("rackwright stopped, for a reason it cannot name\n");
    return fault;
  }
  if (std::fflush(stdout) != 0 || std::ferror(stdout) != 0) {
    message("rackwright stopped: standard output could not be written\n");
    return fault;
  }
  return code;
}

}  // namespace rackwright::app
