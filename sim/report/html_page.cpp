#include "sim/report/html_page.hpp"

#include <fmt/format.h>

#include "sim/report/html_parts.hpp"
#include "sim/report/html_text.hpp"

namespace rackwright::report {
namespace {

using html::Sheet;

struct Part {
  const char* anchor;
  const char* heading;
  std::string (*make)(const Sheet&);
};

// In the order in which a keeper asks.
constexpr Part parts[] = {{"rack-drawing", "The rack", html::rack_part},
                          {"target", "The chance of meeting the target", html::chance_part},
                          {"sweep", "The points that were played", html::sweep_part},
                          {"keys", "What each key does", html::sweep_keys_part},
                          {"hard-times", "Hard times", html::hard_times_part},
                          {"against", "Changes compared", html::against_part},
                          {"choice", "The designs that were tried", html::choice_part},
                          {"year", "Through the year", html::year_part},
                          {"short", "When and why it is short", html::short_part},
                          {"stress", "Heat, cold and breakdowns", html::stress_part},
                          {"money", "What it costs", html::money_part},
                          {"build", "What to build", html::build_part},
                          {"work", "The work", html::work_part},
                          {"grain", "Grain to order", html::grain_part},
                          {"care", "To be careful about", html::care_part},
                          {"assumptions", "What was taken for granted", html::assumptions_part},
                          {"record", "Where the numbers come from", html::record_part}};

}  // namespace

std::string html_page(const results::ResultFile& file, const DesignFacts& facts) {
  const Sheet sheet(file, facts);
  std::string body, contents;
  for (const Part& part : parts) {
    const std::string section = html::section(part.anchor, part.heading, part.make(sheet));
    if (section.empty()) continue;
    body += section;
    contents += fmt::format("<li><a href=\"#{}\">{}</a></li>\n", part.anchor, part.heading);
  }
  const std::string title = html::escaped(file.header.title.empty() ? "untitled scenario" : file.header.title);
  return fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; img-src "
      "data:; "
      "base-uri 'none'; form-action 'none'\"/>\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n"
      "<link rel=\"icon\" href=\"data:,\"/>\n<title>{0}: rack report</title>\n<style>\n{1}</style>\n</head>\n<body>\n"
      "<header>\n<h1>{0}</h1>\n{2}{3}<nav aria-label=\"on this "
      "page\">\n<ul>\n{4}</ul>\n</nav>\n</header>\n<main>\n{5}</main>\n"
      "<footer>Made by rackwright {6} from one result file; this page needs no network.</footer>\n</body>\n</html>\n",
      title, html::style_sheet(), html::lead(sheet), html::key_figures(sheet), contents, body,
      html::escaped(file.header.program_version));
}

}  // namespace rackwright::report
