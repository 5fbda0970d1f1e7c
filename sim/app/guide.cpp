#include "sim/app/guide.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "sim/app/evaluate.hpp"
#include "sim/app/options.hpp"
#include "sim/app/starter.hpp"
#include "sim/results/build_info.hpp"

namespace rackwright::app {

namespace {

const OptionEntry& entry(Option option) {
  const auto table = option_table();
  return *std::find_if(table.begin(), table.end(), [&](const OptionEntry& e) { return e.option == option; });
}

std::string command_names() {
  std::string names;
  for (const Command& c : commands()) names += (names.empty() ? "" : " ") + std::string(c.name);
  return names;
}
std::string option_names(const Command& command) {
  std::string names;
  for (const Option option : command.options) names += (names.empty() ? "--" : " --") + std::string(entry(option).name);
  return names;
}
std::string model_names() {
  std::string names;
  for (const Evaluator& model : evaluators()) names += (names.empty() ? "" : " ") + std::string(model.name);
  return names;
}
std::string kind_names() { return fmt::format("{}", fmt::join(starter_kinds(), " ")); }
constexpr const char* pages = "scenario results models completion-bash completion-zsh manual";

/// Inside single quotes of a shell; in zsh also no [ ] : of its own meaning.
std::string quoted(std::string_view text, bool zsh) {
  std::string out;
  for (const char c : text) {
    if (c == '\'') out += "'\\''";
    else if (zsh && (c == '[' || c == ']' || c == ':' || c == '\\')) out += std::string("\\") + c;
    else out += c;
  }
  return out;
}

/// For the man macros: dashes that can be copied, backslashes, no line that looks like a macro.
std::string roff(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\\') out += "\\e";
    else if (c == '-') out += "\\-";
    else if (c == '\'') out += "\\(aq";
    else out += c;
  }
  return out.starts_with('.') ? "\\&" + out : out;
}

}  // namespace

std::string bash_completion() {
  std::string cases;
  for (const Command& c : commands()) cases += fmt::format("    {}) options='{}' ;;\n", c.name, option_names(c));
  return fmt::format(R"(# bash completion for rackwright, made by `rackwright describe completion-bash`
_rackwright() {{
  local current=${{COMP_WORDS[COMP_CWORD]}} before=${{COMP_WORDS[COMP_CWORD-1]}} command=${{COMP_WORDS[1]}} options=''
  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=($(compgen -W '{} --help --version' -- "$current"))
    return
  fi
  case $command in
{}  esac
  if [ "$before" = --from ]; then
    COMPREPLY=($(compgen -W '{}' -- "$current"))
  elif [[ $current == -* ]]; then
    COMPREPLY=($(compgen -W "$options" -- "$current"))
  elif [ "$command" = evaluate ] && [ "$COMP_CWORD" -eq 2 ]; then
    COMPREPLY=($(compgen -W '{}' -- "$current"))
  elif [ "$command" = describe ]; then
    COMPREPLY=($(compgen -W '{}' -- "$current"))
  else
    COMPREPLY=($(compgen -f -- "$current"))
  fi
}}
complete -o filenames -F _rackwright rackwright
)",
                     command_names(), cases, kind_names(), model_names(), pages);
}

std::string zsh_completion() {
  std::string list, cases;
  for (const Command& c : commands()) {
    list += fmt::format("    '{}:{}'\n", c.name, quoted(c.sentence, true));
    cases += fmt::format("    {})\n      _arguments", c.name);
    for (const Option option : c.options) {
      const OptionEntry& e = entry(option);
      const std::string action = e.value.empty()               ? ""
                                 : option == Option::from      ? fmt::format(":kind:({})", kind_names())
                                 : e.value == "FILE"           ? ":file:_files"
                                                               : fmt::format(":{}:", quoted(e.value, true));
      cases += fmt::format(" \\\n        '{}--{}[{}]{}'", option == Option::set ? "*" : "", e.name, quoted(e.sentence, true), action);
    }
    const std::string words = c.name == "evaluate"   ? fmt::format("1:model:({})", model_names())
                              : c.name == "describe" ? fmt::format("1:page:({})", pages)
                                                     : std::string("*:file:_files");
    cases += fmt::format(" \\\n        '{}' ;;\n", words);
  }
  return fmt::format(R"(#compdef rackwright
# zsh completion for rackwright, made by `rackwright describe completion-zsh`
_rackwright() {{
  local -a commands
  commands=(
{}  )
  if (( CURRENT == 2 )); then
    _describe command commands
    return
  fi
  local command=$words[2]
  shift words
  (( CURRENT-- ))
  case $command in
{}  esac
}}
_rackwright "$@"
)",
                     list, cases);
}

std::string manual_page() {
  std::string text = fmt::format(
      ".TH RACKWRIGHT 1 \"\" \"rackwright {}\" \"User Commands\"\n.SH NAME\nrackwright \\- size a rack for sprouting grain, and play "
      "years of luck on it\n.SH SYNOPSIS\n.B rackwright\n.I COMMAND\n[\\fIarguments\\fR] [\\fIoptions\\fR]\n.SH DESCRIPTION\n",
      results::program_version());
  text += roff("A livestock keeper who sprouts grain and feeds the green mats has to decide how many tiers and trays to build, how much grain "
               "to sow, how long to soak it and how many days to leave it, so that every feeding has a sound mat at the least cost. "
               "rackwright plays the line through in the computer, with years of weather, lots, breakdowns and slips, and says which "
               "rack to build and how sure that is. What is on the farm stands in a scenario, a TOML file; every quantity carries "
               "its unit.") +
          "\n.PP\nResults go to standard output, talk and progress to standard error.\n.SH COMMANDS\n";
  for (const Command& c : commands()) {
    text += fmt::format(".SS {} {}\n{}.\n", roff(c.name), roff(c.arguments), roff(c.sentence));
    for (const Option option : c.options) {
      const OptionEntry& e = entry(option);
      text += fmt::format(".TP\n\\fB\\-\\-{}\\fR{}\n{}\n", roff(e.name), e.value.empty() ? "" : fmt::format(" \\fI{}\\fR", roff(e.value)),
                          roff(e.sentence));
    }
    for (const Example& example : examples(c.name))
      text += fmt::format(".PP\n.EX\n{}\n.EE\n{}.\n", roff(example.line), roff(example.meaning));
  }
  text += ".SH EXIT STATUS\n.TP\n.B 0\ngood\n.TP\n.B 1\na fault, or a run stopped before its end\n.TP\n.B 2\nwrong input; nothing was "
          "written\n.TP\n.B 3\nno design meets the target\n.SH ENVIRONMENT\n.TP\n.B NO_COLOR\nNo colours are used with or without it; "
          "the progress bar is drawn on terminals only.\n.SH CAUTIONS\n";
  text += roff("Never feed a mat that is mouldy, slimy or sour. Ask a veterinarian or nutritionist before fodder replaces a good part of a "
               "ration. The program advises; it does not license.") + "\n";
  return text;
}

}  // namespace rackwright::app
