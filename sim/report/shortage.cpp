// Why feedings are short, by main cause.

#include <fmt/format.h>

#include "sim/report/parts.hpp"
#include "sim/report/words.hpp"

namespace rackwright::report {

std::vector<ShortageLine> shortage_lines(const results::ResultFile& file) {
  const results::Array* causes = file.find("shortage/cause");
  if (causes == nullptr) return {};
  const auto& feedings = file.at("shortage/feedings").numbers;
  const auto& missing = file.at("shortage/missing").numbers;
  const Shown mass = shown_in("kg", in_us_units(file));
  double all = 0.0;
  for (const double kilograms : missing) all += kilograms;
  std::vector<ShortageLine> lines;
  for (std::size_t i = 0; i < causes->texts.size(); ++i) {
    const double shown = missing.at(i) * mass.scale;
    lines.push_back({causes->texts[i], plain(feedings.at(i), feedings.at(i) < 10.0 ? 1 : 0),
                     plain(shown, shown < 10.0 ? 1 : 0) + " " + mass.unit, all > 0.0 ? missing.at(i) / all : 0.0});
  }
  return lines;
}

std::string shortage_text(const results::ResultFile& file) {
  constexpr double worth_telling = 0.01;
  const auto lines = shortage_lines(file);
  if (lines.empty()) return "";
  const double told = file.number("shortage/replications").value_or(0.0);
  std::string out = fmt::format("\nWhy feedings are short ({} run{} told feeding by feeding; `journal` tells each)\n", plain(told, 0), told == 1.0 ? "" : "s");
  for (const ShortageLine& line : lines)
    if (line.share >= worth_telling)
      out += wrapped(fmt::format("{:>3.0f} %  {}: {} feedings a year lack {}", 100.0 * line.share, line.cause, line.feedings, line.missing), 2, 9);
  return out + "\n";
}

}  // namespace rackwright::report
