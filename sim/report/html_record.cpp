// What to be careful about, what was taken for granted, and where the numbers come from.

#include <fmt/format.h>

#include "sim/report/command_words.hpp"
#include "sim/report/html_page.hpp"
#include "sim/report/html_parts.hpp"
#include "sim/report/html_text.hpp"
#include "sim/report/parts.hpp"

namespace rackwright::report::html {

std::vector<std::string> cautions_of(const Sheet& s) {
  const results::Array* of_file = s.file.find("scenario/caution");
  const std::vector<std::string> all = !s.facts.cautions.empty() ? s.facts.cautions : of_file != nullptr ? of_file->texts : std::vector<std::string>{};
  std::vector<std::string> stated;
  for (const std::string& caution : with_farm(all, s.file.header.command_line, design_settings(s.file)))
    if (!caution.empty()) stated.push_back(with_signs(caution));
  return stated;
}

std::string care_part(const Sheet& s) {
  const std::vector<std::string> all = cautions_of(s), stated = s.swept() ? all : other_cautions(all);
  const bool of_no_point = s.swept() && s.facts.cautions.empty() && !stated.empty();
  return (of_no_point ? paragraph(std::string(of_the_scenario) + ".") : "") + bullets(stated);
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

}  // namespace

std::string assumptions_part(const Sheet& s) {
  std::string out = paragraph(
      "What the simulator takes for granted. Each model's equations, sources and limits stand in docs/models of the program; "
      "a number marked there as without source is common practice, to be replaced by your own.");
  out +=
      bullets({"Mould and souring follow the room's warmth, the lot's dead grain, how thickly it is sown and how wet mats stay; "
               "their rates are set by the scenario's [spoilage] section and differ from barn to barn more than anything "
               "else here. Log your own losses and set them.",
               "Fodder wanted is the ration a head times the animals present; appetite varies from day to day by the group's "
               "demand_spread.",
               "The weather is drawn about the yearly rise and fall of [climate]; a run of years like none before is not in it.",
               "The room is one body of air, warmer towards the roof; draughts and sunny corners are not in it.",
               "Fresh weight is mostly water: feeding value goes by dry matter, of which sprouting loses a part.",
               "A keeper misses a round, overlooks a spoiled mat, and is otherwise as quick as [keeper] says.",
               "Prices stay as written; money is in the scenario's own currency."});
  out += weights_part(s);
  out += paragraph("Every number of the scenario, and where the usual value comes from that stands where you state none. \"yours\": only you can "
      "know it, and what stands there unless you state it is a guess. K: degrees Celsius of a difference.");
  for (const StoredScenario::Section& section : s.scenario.sections()) {
    if (section.items.empty() || section.name == "choose") continue;
    const std::string name = section.name.empty() ? "the scenario itself" : section.name;
    Table t{"settings of " + name, {"key", "value", "where its usual value comes from"}, {}, "lll"};
    for (const auto& [key, value] : section.items) t.lines.push_back({key, s.readable(value), source_of(s, section, key)});
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
  add("one replication (the line played once)", fmt::format("{} days from {}", h.horizon_days, h.start_date));
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
      "Intervals are those of the mean, at 95 %: how well so many replications tell it. They say nothing of how well the "
      "model knows your barn. The same scenario, random seed and version give the same numbers.");
  if (const std::string text = s.file.text("scenario/text"); !text.empty())
    out += folded("The scenario file as it was read", fmt::format("<pre tabindex=\"0\">{}</pre>\n", escaped(text)));
  return out;
}

}  // namespace rackwright::report::html
