#include "sim/report/text.hpp"

#include <fmt/format.h>

#include "sim/report/parts.hpp"
#include "sim/report/words.hpp"

namespace rackwright::report {

using results::ResultFile;

bool in_us_units(const ResultFile& file) { return file.header.display_units == "us"; }

std::string share_with_interval(const study::Estimate& share) { return with_interval(share, {100.0, 0.0, "%"}); }

std::string target_words(const ResultFile& file) {
  const auto fill_rate = file.number("target/fill_rate");
  if (!fill_rate) return "";
  std::string words = fmt::format("fill rate at least {:.4g} %", 100.0 * *fill_rate);
  if (const auto most = file.number("target/short_days"))
    words += fmt::format(", at most {:.4g} short days a year", *most);
  if (const auto most = file.number("target/spoiled_fed"))
    words += fmt::format(", at most {:.4g} spoiled mats fed a year", *most);
  if (const auto most = file.number("target/yearly_cost"))
    words += fmt::format(", at most {} {} a year", plain(*most, 0), file.header.currency);
  if (const auto years = file.number("target/years"))
    words += fmt::format(", in at least {:.4g} % of years", 100.0 * *years);
  return words;
}

std::string cautions_text(const ResultFile& file) {
  const results::Array* cautions = file.find("scenario/caution");
  if (cautions == nullptr || cautions->texts.empty()) return "";
  std::string out = "\nTo be careful about\n";
  for (const std::string& caution : cautions->texts) {
    std::string paragraph = wrapped(caution, 4);
    if (paragraph.size() > 2) paragraph[2] = '-';
    out += paragraph;
  }
  return out;
}

std::string terminal_text(const ResultFile& file) {
  return file.header.kind == "size" ? size_text(file) : simulate_text(file);
}

}  // namespace rackwright::report
