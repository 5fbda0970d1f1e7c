#include "sim/report/text.hpp"

#include <algorithm>
#include <iterator>
#include <vector>

#include <fmt/format.h>

#include "sim/report/command_words.hpp"
#include "sim/report/html_page.hpp"
#include "sim/report/parts.hpp"
#include "sim/report/words.hpp"

namespace rackwright::report {

using results::ResultFile;

bool in_us_units(const ResultFile& file) { return file.header.display_units == "us"; }

std::string share_with_interval(const study::Estimate& share) { return with_interval(share, as_share()); }

std::string target_words(const ResultFile& file) {
  const auto fill_rate = file.number("target/fill_rate");
  if (!fill_rate) return "";
  std::string together, apart;
  const auto limit = [&](const char* key, const std::string& words) {
    const auto own = file.number(fmt::format("target/{}_years", key));
    std::string& list = own ? apart : together;
    list += (together.empty() && apart.empty() ? "" : ", ") + words;
    if (own) list += fmt::format(" in at least {:.4g} % of years", 100.0 * *own);
  };
  limit("fill_rate", fmt::format("at least {:.4g} % of the fodder wanted served", 100.0 * *fill_rate));
  if (const auto most = file.number("target/short_days"))
    limit("short_days", fmt::format("at most {:.4g} short days a year", *most));
  if (const auto most = file.number("target/longest_short_run"))
    limit("longest_short_run", fmt::format("at most {:.4g} short days in a row", *most));
  if (const auto least = file.number("target/season_fill_rate"))
    limit("season_fill_rate", fmt::format("at least {:.4g} % served in the worst season", 100.0 * *least));
  if (const auto most = file.number("target/spoiled_fed"))
    limit("spoiled_fed", *most < 1e-9 ? std::string("no spoiled mat fed") :
                                        fmt::format("at most {:.4g} spoiled mats fed a year", *most));
  if (const auto most = file.number("target/unripe_fed"))
    limit("unripe_fed", *most < 1e-9 ? std::string("no mat fed unripe") : fmt::format("at most {:.4g} % of the mats fed unripe", 100.0 * *most));
  if (const auto most = file.number("target/yearly_cost"))
    limit("yearly_cost", fmt::format("at most {} {} a year", plain(*most, 0), file.header.currency));
  std::string words = together;
  if (const auto years = file.number("target/years"); years && !together.empty())
    words += fmt::format(", in at least {:.4g} % of years", 100.0 * *years);
  words += apart;
  if (const auto least = file.number("target/mean_fill_rate"))
    words += fmt::format("; on average at least {:.4g} % served", 100.0 * *least);
  if (const auto most = file.number("target/mean_yearly_cost"))
    words += fmt::format("; on average at most {} {} a year", plain(*most, 0), file.header.currency);
  if (file.header.horizon_days > 548)
    words += fmt::format("; each run of {} days is judged as a whole, its amounts for 365 days", file.header.horizon_days);
  return words;
}

std::vector<std::string> grave_cautions(const std::vector<std::string>& all) {
  std::vector<std::string> out;
  std::copy_if(all.begin(), all.end(), std::back_inserter(out), [](const std::string& caution) { return caution.starts_with(gravely); });
  return out;
}

std::vector<std::string> other_cautions(const std::vector<std::string>& all) {
  std::vector<std::string> out;
  std::copy_if(all.begin(), all.end(), std::back_inserter(out), [](const std::string& caution) { return !caution.starts_with(gravely); });
  return out;
}

std::string grave_text(const ResultFile& file) {
  const results::Array* cautions = file.find("scenario/caution");
  std::string out;
  for (const std::string& grave : grave_cautions(cautions == nullptr ? std::vector<std::string>{} : cautions->texts)) out += wrapped(grave);
  return out;
}

std::string cautions_text(const ResultFile& file, std::string_view heading) {
  const results::Array* cautions = file.find("scenario/caution");
  if (cautions == nullptr) return "";
  const std::vector<std::string> told = file.header.kind == "sweep" ? cautions->texts : other_cautions(cautions->texts);
  if (told.empty()) return "";
  std::string out = "\n" + std::string(heading) + "\n";
  // Those of a sweep are of the scenario as it is written.
  const auto design = file.header.kind == "sweep" ? std::vector<Setting>{} : design_settings(file);
  for (const std::string& caution : with_farm(told, file.header.command_line, design)) {
    std::string paragraph = wrapped(caution, 4);
    if (paragraph.size() > 2) paragraph[2] = '-';
    out += paragraph;
  }
  return out;
}

std::string terminal_text(const ResultFile& file) {
  if (file.header.kind == "sweep") return sweep_text(file);
  if (file.header.kind == "stress") return stress_text(file);
  return file.header.kind == "size" ? size_text(file) : simulate_text(file);
}

}  // namespace rackwright::report
