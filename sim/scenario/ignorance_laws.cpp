#include "sim/scenario/ignorance_laws.hpp"

#include <algorithm>

namespace rackwright {
namespace {

constexpr std::array<IgnoranceLaw, law_count> laws{{
    {"mould", "rate of mould", 0.7, "assumed: within a factor of 2 twice in three times; no dose-response is published"},
    {"sour", "rate of souring", 0.7, "assumed: within a factor of 2 twice in three times; none is published"},
    {"pace", "pace of growth", 0.12, "assumed: cultivars, light and watering"},
    {"loss", "dry matter lost, and its heat", 0.3, "spread of published seven-day mats, 20 +- 6 %"},
    {"swelling", "water held beyond soaked grain", 0.2, "spread of published seven-day mats, dry matter 14 +- 3 %"},
    {"measured_time", "time to germinate, barley", 0.1, "assumed: lots of one species beyond their stated vigour"},
    {"borrowed_time", "time to germinate, other species", 0.3, "borrowed parameters, good to a third"},
    {"flatness", "spread of germination in time", 0.5, "assumed: from 1.4 times as steep to 0.7 times"},
    {"ageing", "ageing of grain in store", 0.35, "two published sets of constants for wheat differ by a factor of 2"},
    {"warmth", "how much warmer heat makes a mat", 0.35, "assumed: film coefficients in still and moving air"},
    {"carry", "spores that mouldy mats shed", 0.7, "assumed: within a factor of 2 twice in three times"},
    {"height", "height of a full mat", 0.2, "assumed: cultivars and light"},
    {"dead", "what mould finds where no grain is dead", 0.7, "assumed: 40 % dead grain then raises mould 8 to 16 times twice in three times"},
    {"lag", "growth time until mould is under way", 0.4, "assumed: 1.7 to 3.7 days twice in three times"},
    {"dead_power", "how steeply dead grain raises mould", 0.25, "assumed: an exponent of 1.6 to 2.6 twice in three times, 1.3 to 3 nine in ten"},
}};

}  // namespace

std::span<const IgnoranceLaw> ignorance_laws() { return laws; }

std::optional<Law> find_law(std::string_view name) {
  const auto at = std::find_if(laws.begin(), laws.end(), [&](const IgnoranceLaw& law) { return law.name == name; });
  return at == laws.end() ? std::optional<Law>() : static_cast<Law>(at - laws.begin());
}

std::array<double, law_count> Doubts::usual_spread() {
  std::array<double, law_count> all{};
  for (std::size_t i = 0; i < law_count; ++i) all[i] = laws[i].spread;
  return all;
}

std::optional<Matrix> tied_scores(const Doubts& doubts) {
  Matrix correlation = Matrix::identity(law_count);
  for (const Tie& tie : doubts.ties) {
    const std::size_t a = place_of(tie.first), b = place_of(tie.second);
    correlation(a, b) = correlation(b, a) = tie.correlation;
  }
  return cholesky(correlation);
}

growth::Parameters on_line(growth::Parameters species, const OwnLine& line) {
  constexpr double most_lost = 0.95;
  species.pace *= line.pace;
  if (line.loss != 1.0) species.loss_plateau = std::min(most_lost, species.loss_plateau * line.loss);
  species.swelling *= line.swelling;
  species.height_end *= line.height;
  return species;
}

}  // namespace rackwright
