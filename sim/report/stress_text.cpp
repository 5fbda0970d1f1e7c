// Hard times on the terminal: what each does, and what helps.

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include <fmt/format.h>

#include "sim/report/parts.hpp"
#include "sim/report/stress_words.hpp"
#include "sim/report/words.hpp"

namespace rackwright::report {
namespace {

using results::ResultFile;

std::string line(std::string_view label, const std::string& value) { return "    " + left(label, 34) + value + "\n"; }

std::string struck(const ResultFile& file, std::size_t i) {
  const StressWords words(file);
  std::string out = fmt::format("\n{}: {}, from {}\n", words.name(i), words.what(i), words.date(i));
  if (const std::string why = words.why_not(i); !why.empty()) return out + wrapped("Not tried: " + why + ".", 4);
  out += line("gives way first", words.first(i));
  out += line("first day worse fed", words.first_short(i));
  out += line("more short days, in its time", words.hard("short_days", i));
  out += line("more mats spoiled, in its time", words.hard("spoiled", i));
  out += line("more spoiled mats fed, whole run", words.hard("spoiled_fed", i));
  out += line("more unripe mats fed, whole run", words.hard("unripe_fed", i));
  out += line("fodder served, in its time", words.hard("fill_rate", i));
  out += line("fed as usual again, days in", words.recovery(i));
  out += line("costs more, whole run", words.hard("cost", i));
  if (const std::string limit = words.limit(i); !limit.empty()) out += line("enough up to", limit);
  return out;
}

/// As wide as what they hold: the name and the limit to the left, figures to the right.
std::string columns(const std::vector<std::array<std::string, 5>>& rows) {
  std::array<std::size_t, 5> widths{};
  for (const auto& row : rows)
    for (std::size_t c = 0; c < row.size(); ++c) widths[c] = std::max(widths[c], row[c].size());
  std::string out;
  for (const auto& row : rows) {
    out += "    " + left(row[0], widths[0]);
    for (std::size_t c = 1; c < 4; ++c) out += "  " + right(row[c], widths[c]);
    out += (row[4].empty() ? "" : "  " + row[4]) + "\n";
  }
  return out;
}

std::string helps(const ResultFile& file, std::size_t i) {
  const StressWords words(file);
  const std::vector<std::size_t> trials = words.trials(i);
  if (trials.empty()) return "";
  const bool heat = !words.limit(i).empty();
  std::string refused;
  std::vector<std::array<std::string, 5>> rows{
      {"", "short days", "fodder, percentage points", "cost of the run, " + file.header.currency, heat ? "enough up to" : ""}};
  for (const std::size_t t : trials) {
    if (const std::string why = words.trial_why_not(t); !why.empty()) {
      refused += wrapped(fmt::format("{}: could not be tried: {}", words.trial(t), why), 4, 2);
      continue;
    }
    rows.push_back({words.trial(t), words.helped_bare("short_days", t), words.helped_bare("fill_rate", t),
                    words.helped_bare("cost", t), words.trial_limit(t)});
  }
  std::string out = "  What helps, against doing nothing (short days and fodder in its time, cost over the whole run)\n" + (rows.size() > 1 ? columns(rows) : "") + refused;
  return out + wrapped(words.advice(i), 4);
}

}  // namespace

std::string stress_text(const ResultFile& file) {
  const StressWords words(file);
  std::string out = file.header.title + "\n\n";
  out += wrapped(words.lead());
  if (const std::string grave = words.grave(); !grave.empty()) out += wrapped(grave);
  out += grave_text(file);
  for (std::size_t i = 0; i < words.count(); ++i) out += struck(file, i) + helps(file, i);
  if (const std::string method = words.method(); !method.empty()) out += "\n" + wrapped(method);
  if (file.number("stress/stopped").value_or(0.0) != 0.0) out += wrapped("The study was stopped early; hard times not shown were not tried.");
  return out + cautions_text(file);
}

}  // namespace rackwright::report
