// What to be careful about, what was taken for granted, and where the numbers come from.

#include <charconv>

#include <fmt/format.h>

#include "sim/report/html_parts.hpp"
#include "sim/report/html_text.hpp"
#include "sim/scenario/unit_text.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright::report::html {

std::string care_part(const Sheet& s) {
  const results::Array* of_file = s.file.find("scenario/caution");
  std::vector<std::string> stated;
  for (const std::string& caution : !s.facts.cautions.empty() ? s.facts.cautions
                                    : of_file != nullptr      ? of_file->texts
                                                              : std::vector<std::string>{})
    if (!caution.empty()) stated.push_back(with_signs(caution));
  return bullets(stated);
}

namespace {

/// "grain.barley" and "price" make "grain.price": sources stand by the key of a list, whatever its entries are called.
std::string source_of(const Sheet& s, const StoredScenario::Section& section, const std::string& key) {
  const std::string own = section.name.empty() ? key : section.name + "." + key;
  if (const auto found = s.facts.sources.find(own); found != s.facts.sources.end()) return found->second;
  for (auto dot = section.name.find('.'); dot != std::string::npos; dot = section.name.find('.', dot + 1))
    if (const auto found = s.facts.sources.find(section.name.substr(0, dot) + "." + key); found != s.facts.sources.end())
      return found->second;
  return "";
}

/// A value of the stored scenario, which is written to the last digit in native units, as a reader takes it in.
std::string readable(const Sheet& s, const std::string& value) {
  double number = 0.0;
  const char* end = value.data() + value.size();
  const auto [stop, error] = std::from_chars(value.data(), end, number);
  if (error != std::errc{}) return value;
  const std::string_view unit(stop, static_cast<std::size_t>(end - stop));
  if (unit.empty()) return fmt::format("{:.8g}", number);
  if (unit.front() != ' ') return value;  // a date, a clock time, a name
  if (unit_words(unit.substr(1))) return with_signs(write_quantity(number, unit.substr(1), s.us, 5));
  return fmt::format("{:.6g}{}", number, unit);
}

}  // namespace

std::string assumptions_part(const Sheet& s) {
  std::string out = paragraph(
      "What the simulator takes for granted. Each model's equations, sources and limits stand in docs/models of the program; "
      "a number marked there as without source is common practice, to be replaced by your own.");
  out +=
      bullets({"Mould and souring follow the room's warmth, the lot's dead grain, the density and how wet mats stay; "
               "their rates are set by the scenario's [spoilage] section and differ from barn to barn more than anything "
               "else here. Log your own losses and set them.",
               "Demand is the ration by head times the animals present; appetite varies from day to day by the group's "
               "demand_spread.",
               "The weather is drawn about the yearly wave of [climate]; a run of years like none before is not in it.",
               "The room is one body of air with a gradient by height; draughts and sunny corners are not.",
               "Fresh weight is mostly water: feeding value goes by dry matter, of which sprouting loses a part.",
               "A keeper misses a round, overlooks a spoiled mat, and is otherwise as quick as [keeper] says.",
               "Prices stay as written; money is in the scenario's own currency."});
  out += weights_part(s);
  out += paragraph("Every number of the scenario, and where its usual value comes from. \"yours\": only you can know it.");
  for (const StoredScenario::Section& section : s.scenario.sections()) {
    if (section.items.empty() || section.name == "choose") continue;
    const std::string name = section.name.empty() ? "the scenario itself" : section.name;
    Table t{"settings of " + name, {"key", "value", "where its usual value comes from"}, {}, "lll"};
    for (const auto& [key, value] : section.items) t.lines.push_back({key, readable(s, value), source_of(s, section, key)});
    out += folded("Settings: " + name, table(t));
  }
  return out;
}

std::string record_part(const Sheet& s) {
  const auto& h = s.file.header;
  Table t{"how this result came about", {"what", "value"}, {}, "ll"};
  const auto add = [&](const char* label, const std::string& value) {
    if (!value.empty()) t.lines.push_back({label, value});
  };
  add("command", h.command_line);
  add("begun (UTC)", h.created_utc);
  add("random seed", fmt::format("{}", h.random_seed));
  add("one replication", fmt::format("{} days from {}", h.horizon_days, h.start_date));
  if (s.sized()) {
    add("replications spent", plain(s.file.number("design/spent").value_or(0.0), 0));
    add("most replications a design may get", fmt::format("{}", h.replications_asked));
  } else if (s.swept()) {
    add("replications of each point", fmt::format("{}", h.replications_asked));
  } else if (s.stressed()) {
    add("replications of each hard time and countermeasure", fmt::format("{}", h.replications_asked));
  } else {
    add("replications asked for", fmt::format("{}", h.replications_asked));
    add("replications completed", fmt::format("{}", h.replications_completed));
    add("replications that broke off", fmt::format("{}", h.replications_failed));
  }
  add("program", "rackwright " + h.program_version);
  add("commit", h.commit);
  add("compiler", h.compiler);
  add("options of the compiler", h.flags);
  add("libraries", h.dependencies);
  std::string out = table(t);
  if (!s.sized() && !s.stressed() && !s.swept() && h.replications_completed + h.replications_failed < h.replications_asked)
    out += paragraph("The study was stopped before its end; the numbers are of the replications completed.");
  out += paragraph(
      "Intervals are those of the mean, at 95 %: how well the simulation knows it. They say nothing of how well the "
      "model knows your barn. The same scenario, seed and version give the same numbers.");
  if (const std::string text = s.file.text("scenario/text"); !text.empty())
    out += folded("The scenario file as it was read", fmt::format("<pre tabindex=\"0\">{}</pre>\n", escaped(text)));
  return out;
}

}  // namespace rackwright::report::html
