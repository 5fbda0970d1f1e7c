// Hard times on the terminal: what each does, and what helps.

#include <algorithm>
#include <cmath>
#include <vector>

#include <fmt/format.h>

#include "sim/report/parts.hpp"
#include "sim/report/stress_words.hpp"
#include "sim/report/words.hpp"

namespace rackwright::report {
namespace {

using results::ResultFile;

std::string line(std::string_view label, const std::string& value) { return "    " + left(label, 30) + value + "\n"; }

std::string struck(const ResultFile& file, std::size_t i) {
  const StressWords words(file);
  std::string out = fmt::format("\n{}: {}, from {}\n", words.name(i), words.what(i), words.date(i));
  if (const std::string why = words.why_not(i); !why.empty()) return out + wrapped("Not tried: " + why + ".", 4);
  out += line("gives way first", words.first(i));
  out += line("first day worse fed", words.first_short(i));
  out += line("more short days", words.hard("short_days", i));
  out += line("more mats spoiled", words.hard("spoiled", i));
  out += line("more spoiled mats fed", words.hard("spoiled_fed", i));
  out += line("more unripe mats fed", words.hard("unripe_fed", i));
  out += line("fodder served", words.hard("fill_rate", i));
  out += line("days until fed as ever", words.recovery(i));
  out += line("costs more", words.hard("cost", i));
  if (const std::string limit = words.limit(i); !limit.empty()) out += line("enough up to", limit);
  return out;
}

std::string helps(const ResultFile& file, std::size_t i) {
  const StressWords words(file);
  const std::vector<std::size_t> trials = words.trials(i);
  if (trials.empty()) return "";
  const bool heat = !words.limit(i).empty();
  std::string out = "  What helps, against doing nothing\n    " + left("", 33) + right("short days", 21) +
                    right("cost", 25) + (heat ? "   enough up to" : "") + "\n";
  for (const std::size_t t : trials) {
    if (const std::string why = words.trial_why_not(t); !why.empty()) {
      out += wrapped(fmt::format("{}: could not be tried: {}", words.trial(t), why), 4, 2);
      continue;
    }
    out += "    " + left(words.trial(t), 33) + right(words.helped("short_days", t), 24) + right(words.helped("cost", t), 31) +
           (heat ? "   " + words.trial_limit(t) : "") + "\n";
  }
  return out + wrapped(words.advice(i), 4);
}

}  // namespace

std::string stress_text(const ResultFile& file) {
  const StressWords words(file);
  std::string out = file.header.title + "\n\n";
  out += wrapped(words.lead());
  for (std::size_t i = 0; i < words.count(); ++i) out += struck(file, i) + helps(file, i);
  out += "\n" + wrapped(words.method());
  if (file.number("stress/stopped").value_or(0.0) != 0.0) out += wrapped("The study was stopped early; hard times not shown were not tried.");
  return out + cautions_text(file);
}

}  // namespace rackwright::report
