// How well a log was foretold, in words, and all of the answer in JSON.
#include <cmath>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "sim/app/fit_trays.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright::app {
namespace {

using Json = nlohmann::ordered_json;
constexpr int few = 20;                       // weights below which nothing is said of trust

double skill(double score, double naive) { return naive > 0.0 ? 1.0 - score / naive : 0.0; }

std::string compared(double gain) {
  const double percent = 100.0 * gain;
  if (std::abs(percent) < 0.5) return "no better";
  return fmt::format("{:.0f} % {}", std::abs(percent), percent > 0.0 ? "better" : "worse");
}

std::string_view sureness(const study::ForecastCheck& c) {
  if (c.within_90 < 0.8 || c.within_50 < 0.35) return "somewhat too sure of itself: widen its intervals in your mind";
  return c.within_90 > 0.98 && c.within_50 > 0.65 ? "less sure than it might be" : "about as sure as it should be";
}

std::string verdict(const study::ForecastCheck& c) {
  if (c.weights < few) return fmt::format("Too few weights to say whether to trust it: {}, and {} or more are wanted.", c.weights, few);
  const double gain = skill(c.crps, c.naive_crps);
  const std::string sure(sureness(c));
  if (gain > 0.05) return fmt::format("Trust its weights: it foretells them better than the mean of the earlier ones does, and it is {}.", sure);
  if (gain > -0.05) return fmt::format("Its weights are worth no more than the mean of the earlier ones on this log; it is {}.", sure);
  return "Do not trust its weights yet: the mean of the earlier ones foretells better. Is the room's temperature read where the rack stands?";
}

std::string spoil_verdict(const study::ForecastCheck& c) {
  if (c.judged == 0) return {};
  if (c.spoiled < 5) return fmt::format("Of spoiling, {} mats tell too little to judge its forecast by.", c.spoiled);
  const double gain = skill(c.log_score, c.naive_log_score);
  return gain > 0.02    ? "It tells risky weeks from safe ones better than the mean of the earlier trays does."
         : gain > -0.02 ? "Of spoiling it knows as much as the mean of the earlier trays."
                        : "Its chances of spoiling are worse than the mean of the earlier trays: do not go by them yet.";
}

Json band(const study::Usual::Band& b) { return {{"middle", b.middle}, {"low", b.low}, {"high", b.high}}; }

Json json_of(const study::ForecastCheck& c) {
  return {{"weeks", c.weeks.size()},
          {"weights", c.weights},
          {"judged", c.judged},
          {"spoiled", c.spoiled},
          {"expected_spoiled", c.expected_spoiled},
          {"crps_kg", c.crps},
          {"naive_crps_kg", c.naive_crps},
          {"within_50", c.within_50},
          {"within_90", c.within_90},
          {"fifths", c.fifths},
          {"brier", c.brier},
          {"naive_brier", c.naive_brier},
          {"log_score", c.log_score},
          {"naive_log_score", c.naive_log_score}};
}

}  // namespace

std::string forecast_text(const study::ForecastCheck& c, Units units) {
  const auto kg = [&](double mass) { return write_quantity(mass, "kg", units == Units::us, 3); };
  std::string text = fmt::format("One week ahead: {} weeks, each foretold from the trays that had ended before it\n", c.weeks.size());
  if (c.weights > 0) {
    text += fmt::format("  weights: {}, {} each on average\n", c.weights, kg(c.mean_weight));
    text += fmt::format("  off by {} (CRPS: how far off, and how unsure); mean and spread of the earlier trays are off by {}: {}\n", kg(c.crps), kg(c.naive_crps),
                        compared(skill(c.crps, c.naive_crps)));
    text += fmt::format("  {:.0f} % lay in the middle half of their forecast, {:.0f} % in its 90 % interval\n", 100.0 * c.within_50, 100.0 * c.within_90);
    text += fmt::format("  trays in each fifth of their forecast, lowest first (a fifth of {} in each would be perfect): {}\n", c.weights, fmt::join(c.fifths, ", "));
  }
  if (c.judged > 0) {
    text += fmt::format("  spoiled: {} of {}, {:.1f} foretold\n", c.spoiled, c.judged, c.expected_spoiled);
    text += fmt::format("  Brier score (mean square of how far off each chance was) {:.3f}, of the earlier share {:.3f}; surprise (log score) {:.3f}, of "
                        "the earlier share {:.3f}; smaller is better\n", c.brier, c.naive_brier,
                        c.log_score, c.naive_log_score);
  }
  if (c.weights > 0) text += verdict(c) + "\n";
  const std::string spoil = spoil_verdict(c);
  return text + (spoil.empty() ? "" : spoil + "\n");
}

std::string tray_json(const TrayAnswer& a, const std::optional<study::ForecastCheck>& check) {
  Json laws = Json::object(), lots = Json::array();
  for (std::size_t i = 0; i < law_count; ++i) {
    const Law law = static_cast<Law>(i);
    const LawBand before = law_band(a.scenario, a.before, law), after = law_band(a.scenario, a.after, law);
    laws[std::string(ignorance_laws()[i].name)] = {{"before", {{"centre", before.centre}, {"low", before.low}, {"high", before.high}}},
                                                   {"after", {{"centre", after.centre}, {"low", after.low}, {"high", after.high}}},
                                                   {"told", told(a, law)}};
  }
  for (std::size_t i = 0; i < a.used.lots.size(); ++i) {
    const auto at = [&](double away) {
      return study::lot_at(a.used.lots[i], a.after.mean[law_count + i] + away * a.after.sd(law_count + i), 0.0).germinable;
    };
    const study::LotTrial trial = a.used.lots[i].trial();
    lots.push_back({{"name", a.used.lots[i].name}, {"germinable", {{"centre", at(0.0)}, {"low", at(-1.96)}, {"high", at(1.96)}}},
                    {"tried_seeds", trial.seeds}, {"tried_came", trial.came}});
  }
  const study::Drawn here = a.fit.at(a.after.mean);
  Json all{{"trays", trays_logged(a.used)}, {"used", a.used.seen.size()}, {"weights", a.used.weights}, {"heights", a.used.heights},
           {"judged", a.used.judged}, {"spoiled", a.used.spoiled}, {"settled", a.after.settled}};
  for (const auto& [why, lines] : a.used.unused) {
    all["unused"][why] = lines.size();
    all["unused_lines"][why] = lines;
  }
  all["usual_tray"] = {{"species", a.usual.species}, {"days", a.usual.days}, {"celsius", a.usual.celsius},
                       {"before", {{"fresh_ratio", band(a.usual_before.fresh_ratio)}, {"height_cm", band(a.usual_before.height_cm)}, {"spoiled", band(a.usual_before.spoiled)}}},
                       {"after", {{"fresh_ratio", band(a.usual_after.fresh_ratio)}, {"height_cm", band(a.usual_after.height_cm)}, {"spoiled", band(a.usual_after.spoiled)}}}};
  all["laws"] = laws;
  all["lots"] = lots;
  all["weight_scatter"] = here.weight_scatter;
  all["height_scatter"] = here.height_scatter;
  all["weights_read_to_kg"] = a.used.weight_column.step;
  all["heights_read_to_cm"] = a.used.height_column.step;
  all["weights_by_rote"] = a.used.weight_column.by_rote();
  all["heights_by_rote"] = a.used.height_column.by_rote();
  all["species_not_sown"] = a.used.unsown;
  all["block"] = tray_block(a);
  if (check) all["forecast"] = json_of(*check);
  return all.dump(2);
}

}  // namespace rackwright::app
