// `rackwright new`: eight questions or as many options, and a first scenario.

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <iostream>
#include <stdexcept>
#include <string>

#include <fmt/core.h>

#include "models/base/expects.hpp"
#include "sim/app/commands.hpp"
#include "sim/app/exit.hpp"
#include "sim/app/say.hpp"
#include "sim/app/starter_answers.hpp"
#include "sim/scenario/raw_text.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/suggest.hpp"

namespace rackwright::app {

namespace {

constexpr std::size_t longest_answer = 300;

bool plain(const std::string& text) { return text.size() <= longest_answer && !has_control(text); }

std::optional<std::string> take(const Question& question, Starter& farm, const std::string& answer) {
  if (!plain(answer)) return "one short line, please, without control characters";
  return take_answer(question, farm, answer);
}

/// From the options; all that is wrong with them at once.
void take_options(const Options& options, Starter& farm) {
  std::string wrong;
  for (const Question& question : questions()) {
    const auto answer = options.texts.find(question.option);
    if (answer == options.texts.end()) continue;
    const std::size_t assumed = farm.assumed.size();
    if (const auto why = take(question, farm, answer->second))
      wrong += fmt::format("--{}: {}\n", option_name(question.option), *why);
    for (std::size_t i = assumed; i < farm.assumed.size(); ++i) farm.assumed[i].insert(0, fmt::format("--{}: ", option_name(question.option)));
  }
  if (wrong.empty()) return;
  wrong.pop_back();
  throw BadInput(wrong);
}

/// Asks at the terminal. An end of input before the last answer means: no scenario.
void ask(Starter& farm) {
  message("Eight questions; Enter takes what stands in brackets. Nothing is written before the last is answered.\n\n");
  for (const Question& question : questions()) {
    for (int attempt = 0;; ++attempt) {
      message("{}\n  [{}] ", question.asks, question.standing(farm));
      std::string answer;
      if (!std::getline(std::cin, answer)) throw BadInput("\nthe answers ended before the last question: nothing was written");
      const auto first = answer.find_first_not_of(" \t\r");
      if (first == std::string::npos) break;
      answer = answer.substr(first, answer.find_last_not_of(" \t\r") - first + 1);
      const auto why = take(question, farm, answer);
      for (const std::string& taken : farm.assumed) message("  {}\n", taken);
      farm.assumed.clear();
      if (!why) break;
      message("  {}\n", *why);
      if (attempt == 4) throw BadInput("five answers that could not be read: nothing was written");
    }
  }
}

Starter begin(const Options& options) {
  const auto kind = options.texts.find(Option::from);
  const std::string name = kind == options.texts.end() ? "goats" : kind->second;
  auto farm = starter_kind(name);
  if (!farm) {
    std::string all;
    for (const std::string& known : starter_kinds()) all += (all.empty() ? "" : ", ") + known;
    throw BadInput(fmt::format("--from {}: there are {}{}", name, all, did_you_mean(nearest(name, starter_kinds()))));
  }
  return *farm;
}

/// Beside the place, then renamed: a file that is there is whole. Without --force the last step refuses what exists.
void write_file(const std::string& path, const std::string& text, bool force) {
  const auto fail = [&](const char* what) {
    const int error = errno;
    const std::string words = fmt::format("{}: {}: {}", path, what, std::strerror(error));
    if (error == ENOSPC || error == EDQUOT || error == EIO || error == EFBIG) throw std::runtime_error(words);  // the machine's fault
    throw BadInput(words);
  };
  struct stat there {};
  if (stat(path.c_str(), &there) == 0) {
    if (S_ISDIR(there.st_mode)) throw BadInput(path + " is a folder; give the name of a file");
    if (!force) throw BadInput(path + " exists; give another name, or --force to replace it");
  }
  std::string partial = path + ".XXXXXX";
  const int file = mkstemp(partial.data());
  if (file < 0) fail("cannot be written");
  const mode_t mask = umask(0);
  umask(mask);
  bool good = fchmod(file, 0666 & ~mask) == 0;
  for (std::size_t done = 0; good && done < text.size();) {
    const ssize_t n = write(file, text.data() + done, text.size() - done);
    good = n > 0;
    if (good) done += static_cast<std::size_t>(n);
  }
  good = fsync(file) == 0 && good;
  good = close(file) == 0 && good;
  // link() never replaces; rename() does.
  if (good) good = force ? rename(partial.c_str(), path.c_str()) == 0 : link(partial.c_str(), path.c_str()) == 0;
  const int why = errno;
  if (!good || !force) unlink(partial.c_str());
  errno = why;
  if (!good) fail("cannot be written");
}

}  // namespace

int new_scenario(const Options& options) {
  if (options.words.size() != 1) throw BadInput("say where to write it: rackwright new FILE.toml (- for standard output)");
  const std::string& path = options.words.front();
  if (struct stat there {}; path != "-" && !options.force && stat(path.c_str(), &there) == 0)
    throw BadInput(path + " exists; give another name, or --force to replace it");
  Starter farm = begin(options);
  const bool told = !options.texts.empty();
  if (const auto units = options.texts.find(Option::units); units == options.texts.end() && told) farm.us = false;
  take_options(options, farm);
  if (!told && isatty(STDIN_FILENO) != 1)
    throw BadInput("there is nobody to ask here: answer by options (rackwright new --help), or begin from a ready farm: --from goats");
  if (!told) ask(farm);
  for (const std::string& taken : farm.assumed) talk(options.quiet, taken);
  const std::string text = starter_text(farm);
  const Reading reading = read_scenario(text);
  if (!reading.problems.empty()) throw BadInput("with these answers one rack cannot work: try fewer animals, or other answers. What is wrong with the scenario they make:\n" + problems_text("line", reading.problems));
  if (path == "-") {
    fmt::print("{}", text);
    return good;
  }
  write_file(path, text, options.force);
  const double minutes = starter_minutes(*reading.scenario);
  if (minutes > farm.minutes)
    talk(options.quiet, fmt::format("Mind: the line as first drawn takes about {:.3g} minutes a day, and you have {:.3g}. {}", minutes, farm.minutes,
                                    reading.scenario->line.trays_per_batch * reading.scenario->line.batches_per_day > 1
                                        ? "Fewer animals, a smaller ration or larger trays would fit."
                                        : "It is a single tray already: animals fed once a day (feedings = 1), shorter ways, or more minutes would fit."));
  constexpr double few_places = 33.0;  // of the hottest month's mean: the hottest inhabited places come to about 38 degC (from memory)
  if (farm.hottest > few_places)
    talk(options.quiet, fmt::format("Mind: {:.3g} {} is taken for the mean of day and night over the hottest month, with afternoons some {} above it. If you "
                                    "meant the hottest afternoons, give the month's mean.",
                                    farm.us ? 1.8 * farm.hottest + 32.0 : farm.hottest, farm.us ? "degF" : "degC", farm.us ? "10 to 20 degF" : "6 to 11 degC"));
  talk(options.quiet, fmt::format("Wrote {0}. Read it through, then:\n  rackwright check {0}\n  rackwright size {0} --out size.h5", path));
  return good;
}

}  // namespace rackwright::app
