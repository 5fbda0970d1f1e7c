#pragma once
// The options of all commands, declared once; each command names those it takes.

#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "sim/results/parts.hpp"

namespace rackwright::app {

enum class Option {
  replications, years, random_seed, threads, replication, precision, out, force, resume, shard, merge, set, vary, method, points,
  play_all, quiet, json, text, csv, help, from, units, animals, eats, grain, place, weather, hours, trays,
  hard_time, against, state, log, first_day, days, forecast, behind, ahead, trial, current, price, sure, of, height, after, at,
  scenario, predict, policies
};

/// One row of the table: how it is written and what it does.
struct OptionEntry {
  Option option;
  std::string_view name;   ///< without the dashes
  std::string_view value;  ///< placeholder; empty for a switch
  std::string_view sentence;
};
std::span<const OptionEntry> option_table();

/// What was typed after the name of a command, read and checked.
struct Options {
  std::string command_line{};           ///< as typed, for the record
  std::vector<std::string> words{};     ///< everything that is not an option
  std::vector<std::string> settings{};  ///< --set KEY=VALUE in order, then --replications, --years, --random-seed
  std::map<Option, std::string> texts{};  ///< options that are read by their command: --animals, --trial ...
  std::vector<std::string> hard_times{}, changes{};  ///< --hard-time and --against, in order
  std::optional<std::string> replication{};  ///< a number, worst or median
  std::optional<double> precision{};         ///< half width asked of the intervals [1]
  int threads = 0;  ///< 0: all cores
  std::optional<std::string> out{}, csv{};
  std::vector<std::string> vary{};      ///< KEY=VALUES in order
  std::optional<std::string> method{};
  std::optional<std::uint64_t> points{};
  bool merge = false, play_all = false, predict = false, policies = false;
  results::Shard shard{};  ///< --shard K/N
  bool force = false, resume = false, quiet = false, json = false, text = false, help = false;
};

/// Reads the arguments of a command. Throws BadInput with all problems in one text.
Options read_options(std::string_view command, std::span<const Option> taken,
                     const std::vector<std::string>& arguments);

/// Whether a word is the counts of a trial: "46/50", or several with commas or blanks between.
bool looks_like_counts(std::string_view word);

/// How an option is written, without the dashes.
std::string_view option_name(Option option);

/// The table of the options a command takes, for --help.
std::string options_help(std::span<const Option> taken);

/// A whole number in [least, most] from the whole of `text`, or nothing.
std::optional<std::uint64_t> read_whole(std::string_view text, std::uint64_t least, std::uint64_t most);

}  // namespace rackwright::app
