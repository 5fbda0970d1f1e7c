// Hard times on the page: what each does to the line, what helps, and how hot it may get; and changes compared.

#include <fmt/format.h>

#include "sim/report/html_parts.hpp"
#include "sim/report/html_text.hpp"
#include "sim/report/parts.hpp"
#include "sim/report/stress_words.hpp"
#include "sim/report/svg_charts.hpp"

namespace rackwright::report::html {
namespace {

std::string overview(const StressWords& words) {
  Table t{"what each hard time does, against the undisturbed run on the same luck",
          {"hard time", "what happens", "gives way first", "more short days, in its time", "more mats spoiled, in its time",
           "more spoiled mats fed, whole run", "more unripe mats fed, whole run", "fodder served, in its time",
           "fed as usual again, days in", "costs more, whole run"},
          {},
          "lllrrrrrrr"};
  std::vector<std::string> left_out;
  for (std::size_t i = 0; i < words.count(); ++i) {
    if (const std::string why = words.why_not(i); !why.empty()) {
      left_out.push_back(fmt::format("{} was not tried: {}", words.name(i), why));
      continue;
    }
    t.lines.push_back({words.name(i), with_signs(fmt::format("{}, from {}", words.what(i), words.date(i))), words.first(i),
                       words.hard("short_days", i), words.hard("spoiled", i), words.hard("spoiled_fed", i),
                       words.hard("unripe_fed", i),
                       words.hard("fill_rate", i), words.recovery(i), words.hard("cost", i)});
  }
  return (t.lines.empty() ? "" : table(t)) + bullets(left_out);
}

std::string remedies(const StressWords& words, std::size_t i) {
  const bool heat = !words.limit(i).empty();
  Table t{fmt::format("what helps in {}, against doing nothing", words.name(i)),
          {"countermeasure", "settings", "short days, in its time", "mats spoiled, in its time", "fodder served, in its time", "cost, whole run"},
          {},
          "llrrrrr"};
  if (heat) t.heads.push_back("enough up to, outdoors");
  std::vector<std::string> left_out;
  for (const std::size_t n : words.trials(i)) {
    if (const std::string why = words.trial_why_not(n); !why.empty()) {
      left_out.push_back(fmt::format("{} could not be tried: {}", words.trial(n), why));
      continue;
    }
    t.lines.push_back({words.trial(n), words.settings(n), words.helped("short_days", n), words.helped("spoiled", n),
                       words.helped("fill_rate", n), words.helped("cost", n)});
    if (heat) t.lines.back().push_back(with_signs(words.trial_limit(n)));
  }
  if (t.lines.empty() && left_out.empty()) return "";
  std::string out = t.lines.empty() ? "" : table(t);
  if (heat) out += paragraph("As it is, the design is enough up to " + with_signs(words.limit(i)) + ".");
  return out + bullets(left_out) + paragraph(words.advice(i));
}

}  // namespace

std::string hard_times_part(const Sheet& s) {
  if (!s.stressed()) return "";
  const StressWords words(s.file);
  std::string out = overview(words);
  for (std::size_t i = 0; i < words.count(); ++i) out += remedies(words, i);
  if (const std::string method = words.method(); !method.empty()) out += paragraph(method);
  if (s.file.number("stress/stopped").value_or(0.0) != 0.0)
    out += paragraph("The study was stopped early; hard times not shown were not tried.");
  return out;
}

std::string against_part(const Sheet& s) {
  const auto* changes = s.file.find("against/change");
  if (changes == nullptr) return "";
  std::string out;
  for (std::size_t c = 0; c < changes->texts.size(); ++c) {
    Table t{changes->texts[c], {"what", "as it is", "changed", "difference", "verdict"}, {}, "lrrrl"};
    for (const AgainstLine& line : against_lines(s.file, c))
      t.lines.push_back({line.label, line.before, line.after, line.difference, line.verdict});
    out += table(t);
    if (const std::string rare = rare_words(s.file, c); !rare.empty()) out += paragraph(rare);
  }
  return out + paragraph("Each change was played on the same luck as the scenario as it is; differences are the mean of "
                         "the pairs, with its 95 % interval. No difference shown: the interval holds zero.");
}

}  // namespace rackwright::report::html
