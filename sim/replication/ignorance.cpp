#include "sim/replication/ignorance.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "sim/random/laws.hpp"

namespace rackwright {
namespace {

// The place in the table is the law's identity: append, never reorder.
constexpr std::array laws{
    IgnoranceLaw{"mould", "rate of mould", 0.7, "assumed: within a factor of 2 twice in three times; no dose-response is published",
                 &Ignorance::mould},
    IgnoranceLaw{"sour", "rate of souring", 0.7, "assumed: within a factor of 2 twice in three times; none is published", &Ignorance::sour},
    IgnoranceLaw{"clock", "pace of growth", 0.12, "assumed: cultivars, light and watering", &Ignorance::clock},
    IgnoranceLaw{"loss", "dry matter lost, and its heat", 0.3, "spread of published seven-day mats, 20 +- 6 %", &Ignorance::loss},
    IgnoranceLaw{"swell", "water held beyond soaked grain", 0.2, "spread of published seven-day mats, dry matter 14 +- 3 %", &Ignorance::swell},
    IgnoranceLaw{"measured_time", "time to germinate, barley", 0.1, "assumed: lots of one species beyond their stated vigour", &Ignorance::measured_time},
    IgnoranceLaw{"borrowed_time", "time to germinate, other species", 0.3, "borrowed parameters, good to a third", &Ignorance::borrowed_time},
    IgnoranceLaw{"flatness", "spread of germination in time", 0.5, "assumed: from 1.4 times as steep to 0.7 times", &Ignorance::flatness},
    IgnoranceLaw{"ageing", "ageing of grain in store", 0.35, "two published sets of constants for wheat differ by a factor of 2", &Ignorance::ageing},
    IgnoranceLaw{"warmth", "how much warmer heat makes a mat", 0.35, "assumed: film coefficients in still and moving air", &Ignorance::warmth},
    IgnoranceLaw{"carry", "spores that mouldy mats shed", 0.7, "assumed: within a factor of 2 twice in three times", &Ignorance::carry},
    IgnoranceLaw{"dead", "what mould finds where no grain is dead", 0.7, "assumed: 40 % dead grain then raises mould 8 to 16 times twice in three times", &Ignorance::dead},
    IgnoranceLaw{"lag", "growth time until mould is under way", 0.4, "assumed: 1.7 to 3.7 days twice in three times", &Ignorance::lag},
};

}  // namespace

std::span<const IgnoranceLaw> ignorance_laws() { return laws; }

Ignorance draw_ignorance(random::Key key) {
  Ignorance drawn;
  for (std::uint32_t i = 0; i < laws.size(); ++i) {
    random::Stream luck{key, random::Purpose::parameter, i, 0};
    const double score = laws[i].spread * random::normal(luck);
    drawn.*laws[i].field = laws[i].field == &Ignorance::flatness ? std::clamp(score, -1.0, 1.0) : std::exp(score);
  }
  return drawn;
}

}  // namespace rackwright
