// What a tray log says, in words.
#include <algorithm>
#include <cmath>
#include <filesystem>

#include <fmt/format.h>

#include "sim/app/fit_trays.hpp"
#include "sim/scenario/raw_text.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright::app {
namespace {

constexpr double limits_95 = 1.959964;
constexpr double far_off = 4.0;              // scales by which a weight misses what is expected
constexpr std::size_t most_shown = 10;

std::string counted(int n, std::string_view one, std::string_view more) { return fmt::format("{} {}", n, n == 1 ? one : more); }

/// "line 7", "lines 7, 9 and 12", "lines 7, 9, 12, ... 30".
std::string lines_words(const std::vector<int>& lines) {
  if (lines.size() == 1) return fmt::format("line {}", lines.front());
  if (lines.size() <= most_shown) return fmt::format("lines {} and {}", fmt::join(lines.begin(), lines.end() - 1, ", "), lines.back());
  return fmt::format("lines {}, ... {}", fmt::join(lines.begin(), lines.begin() + most_shown, ", "), lines.back());
}

std::string percent(double share) {
  const double p = 100.0 * share;
  return p < 0.095 ? fmt::format("{:.2f} %", p) : p < 9.95 ? fmt::format("{:.1f} %", p) : fmt::format("{:.0f} %", p);
}

template <class Say>
std::string band(const study::Usual::Band& b, Say say) { return fmt::format("{} ({} to {})", say(b.middle), say(b.low), say(b.high)); }

std::string joined(const std::vector<std::string>& names) { return fmt::format("{}", fmt::join(names, ", ")); }

/// How finely weights and heights were read, and where a column tells less than it seems to.
std::string readings(const TrayAnswer& a) {
  const bool us = a.scenario.units == Units::us;
  const study::ReadColumn &weights = a.used.weight_column, &heights = a.used.height_column;
  std::string text;
  if (weights.step > 0.0) text += fmt::format("  weights taken as read to {}, as all of them are whole multiples of it\n", write_quantity(weights.step, "kg", us, 2));
  if (heights.readings > 0) {
    if (heights.step > 0.0) text += fmt::format("  heights taken as read to {}, as all of them are whole multiples of it; a ruler on a mat", write_quantity(heights.step, "cm", us, 2));
    else text += "  a ruler on a mat";
    text += fmt::format(" is not sure to better than {} (assumed)\n", write_quantity(study::ruler_cm, "cm", us, 1));
  }
  const auto rote = [&](const study::ReadColumn& c, std::string_view what, std::string_view unit) {
    if (!c.by_rote()) return;
    text += fmt::format("  caution: {} of {} {} are {}. Trays differ more than that: together they count as one reading. Read each mat, as finely as you can\n", c.most_alike, c.readings,
                        what, write_quantity(c.common, unit, us, 3));
  };
  rote(weights, "weights", "kg");
  rote(heights, "heights", "cm");
  return text;
}

/// What the keeper's own grain is, where the log is of another.
std::string unsown(const TrayAnswer& a) {
  if (a.used.unsown.empty()) return {};
  std::vector<std::string> own;
  for (const GrainSupply& grain : a.scenario.grains)
    if (std::find(own.begin(), own.end(), grain.species) == own.end()) own.push_back(grain.species);
  return fmt::format("{} is not sown in this scenario ({} is); what was found on it is written for every species", joined(a.used.unsown), joined(own));
}

std::string head(const TrayAnswer& a) {
  const study::FitLog& used = a.used;
  const auto count = static_cast<int>(used.seen.size());
  std::string text = fmt::format("{}: {} of {} trays are used, {}; {} weighed, {} with a height, {} looked over for mould and souring, {} of them spoiled\n", a.path, count, trays_logged(a.used),
                                 counted(static_cast<int>(used.lots.size()), "lot", "lots"), used.weights, used.heights, used.judged, used.spoiled);
  for (const auto& [why, lines] : used.unused)
    text += fmt::format("  not used: {} ({}), since {}\n", counted(static_cast<int>(lines.size()), "tray", "trays"), lines_words(lines), why);
  for (const auto& [what, n] : used.assumed) text += fmt::format("  {} taken from the scenario, or as usual, for {}\n", what, counted(n, "tray", "trays"));
  if (!a.log.set_aside.empty()) text += fmt::format("  columns set aside: {}\n", joined(a.log.set_aside));
  if (!a.used.unsown.empty()) text += fmt::format("  caution: {}\n", unsown(a));
  return text + readings(a);
}

std::string usual(const TrayAnswer& a) {
  const bool us = a.scenario.units == Units::us;
  const auto ratio = [](double x) { return fmt::format("{:.2f}", x); };
  const auto height = [&](double cm) { return fmt::format("{:.1f}", us ? convert(cm, "cm", "in") : cm); };
  const auto row = [](std::string_view name, const std::string& before, const std::string& after) {
    return fmt::format("  {:<34} {:<26} {}\n", name, before, after);
  };
  return fmt::format("\nA usual tray: {}, {:.0f} days at {}, {}, of a lot not known yet (middle; nine in ten lie between)\n", a.usual.species, a.usual.days,
                     write_quantity(a.usual.celsius, "degC", us, 3), write_quantity(a.scenario.line.sowing_density.value(), "kg/m2", us, 3)) +
         row("", "before the log", "after it") +
         row("fresh weight, times the grain", band(a.usual_before.fresh_ratio, ratio), band(a.usual_after.fresh_ratio, ratio)) +
         row(us ? "height [in]" : "height [cm]", band(a.usual_before.height_cm, height), band(a.usual_after.height_cm, height)) +
         row("chance that it spoils", band(a.usual_before.spoiled, percent), band(a.usual_after.spoiled, percent));
}

std::string_view words_of(double share) {
  return share >= 0.75 ? "much" : share >= 0.25 ? "some" : share >= 0.1 ? "a little" : "nothing";
}

std::string laws(const TrayAnswer& a) {
  std::string text = "\nYour line against what is published: factors, 1 as published (spread of germination: 0 as published, -1 to 1), with 95 % ranges\n";
  text += fmt::format("  {:<42} {:<26} {:<26} {}\n", "", "before the log", "after it", "the log tells");
  const auto shown = [](const LawBand& b) { return fmt::format("{:.2f} ({:.2f} to {:.2f})", b.centre, b.low, b.high); };
  for (std::size_t i = 0; i < law_count; ++i) {
    const Law law = static_cast<Law>(i);
    text += fmt::format("  {:<42} {:<26} {:<26} {}\n", ignorance_laws()[i].what, shown(law_band(a.scenario, a.before, law)),
                        shown(law_band(a.scenario, a.after, law)), words_of(told(a, law)));
  }
  const Tie* strongest = nullptr;
  for (const Tie& tie : a.fitted.ignorance.ties)
    if (std::abs(tie.correlation) > 0.5 && (!strongest || std::abs(tie.correlation) > std::abs(strongest->correlation))) strongest = &tie;
  if (strongest)
    text += fmt::format("  Of {} and {} it tells more together than of either: they go {} (correlation {:.2f}; 0 is none, 1 all).\n", ignorance_laws()[place_of(strongest->first)].name,
                        ignorance_laws()[place_of(strongest->second)].name, strongest->correlation > 0.0 ? "up and down together" : "against each other",
                        strongest->correlation);
  std::string silent;
  for (std::size_t i = 0; i < law_count; ++i)
    if (told(a, static_cast<Law>(i)) < 0.1) silent += fmt::format("{}{}", silent.empty() ? "" : "; ", ignorance_laws()[i].what);
  if (!silent.empty()) text += fmt::format("  The log cannot tell: {}. There the keys written below change next to nothing.\n", silent);
  return text;
}

/// What the figures of lots that nobody tried stand on.
std::string untried(const TrayAnswer& a) {
  std::vector<std::string> rests, keys;
  std::size_t count = 0;
  const auto once = [](std::vector<std::string>& all, std::string one) {
    if (std::find(all.begin(), all.end(), one) == all.end()) all.push_back(std::move(one));
  };
  for (const study::LoggedLot& lot : a.used.lots) {
    if (lot.trial().seeds > 0.0) continue;
    ++count;
    const std::string& species = a.used.species[static_cast<std::size_t>(lot.species)];
    const auto& grains = a.scenario.grains;
    const auto grain = std::find_if(grains.begin(), grains.end(), [&](const GrainSupply& g) { return g.species == species; });
    const std::string value = percent(lot.grade.germination_mean);
    if (grain == grains.end()) { once(rests, fmt::format("the usual {} of {}", value, species)); continue; }
    once(keys, fmt::format("grain.{}.germination", grain->name));
    once(rests, fmt::format("{} = {}", keys.back(), value));
  }
  if (count == 0) return {};
  const bool all = count == a.used.lots.size();
  return fmt::format("  {}: mats hardly tell a lot's germination from the line's own faults, so that these figures rest on {}.\n"
                     "  Where a lot is poorer than that, mould and swelling above take the blame. Count a trial of 100 seeds: write it into the column `germination`{}.\n",
                     all ? "No trial is stated" : "Of lots without a trial", fmt::join(rests, ", "),
                     keys.empty() ? "" : fmt::format(", or set {} before fitting", fmt::join(keys, ", ")));
}

std::string lots(const TrayAnswer& a) {
  const study::FitLog& used = a.used;
  constexpr double apart = 0.03;  // a tried lot and the scenario's word of its grain
  std::string other;
  std::string text = used.weights > 0 ? "\nLots, as the weights show them, with 95 % ranges\n" : "\nLots, of which no tray was weighed, with 95 % ranges\n";
  for (std::size_t i = 0; i < used.lots.size() && i < most_shown; ++i) {
    const std::size_t place = law_count + i;
    const double centre = a.after.mean[place], sd = a.after.sd(place);
    const auto at = [&](double score) { return percent(study::lot_at(used.lots[i], score, 0.0).germinable); };
    const study::LotTrial trial = used.lots[i].trial();
    text += fmt::format("  {:<34} germinates {} ({} to {}){}\n", used.lots[i].name.empty() ? "(no lot stated)" : used.lots[i].name, at(centre),
                        at(centre - limits_95 * sd), at(centre + limits_95 * sd),
                        trial.seeds > 0.0 ? fmt::format("; as the log states it: {:.3g} of {:.0f} seeds, the number of seeds assumed", trial.came, trial.seeds) : "");
    if (trial.seeds > 0.0 && std::abs(trial.came / trial.seeds - used.lots[i].grade.germination_mean) > apart && other.empty())
      other = fmt::format("  Grain still to be bought is played at the scenario's {}: if it is like what was tried, set its germination there too.\n", percent(used.lots[i].grade.germination_mean));
  }
  if (used.lots.size() > most_shown) text += fmt::format("  and {} more\n", used.lots.size() - most_shown);
  return text + other + untried(a);
}

std::string scatter(const TrayAnswer& a) {
  const study::Drawn here = a.fit.at(a.after.mean);
  std::string text;
  const auto by = [](double scale, const study::ReadColumn& column) { return percent(scale) + (column.by_rote() ? " (as assumed: equal readings do not tell it)" : ""); };
  if (a.used.weights > 0) text += fmt::format("\nLike trays differ in weight by about {}", by(here.weight_scatter, a.used.weight_column));
  if (a.used.heights > 0) text += fmt::format("{} in height by about {}", text.empty() ? "\nLike trays differ" : ",", by(here.height_scatter, a.used.height_column));
  text += text.empty() ? "" : " from one another\n";
  const std::vector<double> misses = a.fit.weight_misses(a.after.mean);
  std::size_t shown = 0;
  for (std::size_t i = 0; i < misses.size(); ++i) {
    if (!(std::abs(misses[i]) > far_off) || ++shown > most_shown) continue;
    text += fmt::format("  line {}: this mat weighs {:.0f} % {} than trays like it would; is it written as it was?\n", a.used.seen[i].line,
                        100.0 * std::abs(std::expm1(misses[i] * here.weight_scatter)), misses[i] > 0.0 ? "more" : "less");
  }
  if (shown > most_shown) text += fmt::format("  and {} more such lines\n", shown - most_shown);
  if (!a.after.settled) text += "  The search for the most probable values did not settle: take all of this with care.\n";
  return text;
}

}  // namespace

LawBand law_band(const Scenario& scenario, const study::Posterior& posterior, Law law) {
  const std::size_t i = place_of(law);
  const double spread = scenario.ignorance.spread[i], mean = spread * posterior.mean[i], wide = limits_95 * spread * posterior.sd(i);
  const OwnLine& own = scenario.own_line;
  if (law == Law::flatness) {
    const auto cut = [&](double x) { return std::clamp(own.flatness + x, -1.0, 1.0); };
    return {cut(mean), cut(mean - wide), cut(mean + wide)};
  }
  double base = 1.0;
  switch (law) {
    case Law::pace: base = own.pace; break;
    case Law::loss: base = own.loss; break;
    case Law::swelling: base = own.swelling; break;
    case Law::height: base = own.height; break;
    case Law::warmth: base = own.warmth; break;
    case Law::measured_time: base = own.measured_time; break;
    case Law::borrowed_time: base = own.borrowed_time; break;
    case Law::mould: base = scenario.spoilage.mould_rate / Scenario{}.spoilage.mould_rate; break;
    case Law::sour: base = scenario.spoilage.sour_rate / Scenario{}.spoilage.sour_rate; break;
    default: break;
  }
  return {base * std::exp(mean), base * std::exp(mean - wide), base * std::exp(mean + wide)};
}

int trays_logged(const study::FitLog& used) {
  int count = static_cast<int>(used.seen.size());
  for (const auto& [why, lines] : used.unused) count += static_cast<int>(lines.size());
  return count;
}

double told(const TrayAnswer& a, Law law) {
  const double before = a.before.sd(place_of(law)), after = a.after.sd(place_of(law));
  return before > 0.0 && a.scenario.ignorance.spread[place_of(law)] > 0.0 ? 1.0 - (after / before) * (after / before) : 0.0;
}

std::string tray_text(const TrayAnswer& a) { return head(a) + usual(a) + laws(a) + lots(a) + scatter(a); }

std::string tray_block(const TrayAnswer& a) {
  std::string text = fmt::format("# Fitted to {}: {} trays; hash (a fingerprint of the file) {}. What is not stated here stays as it was. A log counts once: do not fit it\n"
                                 "# again on a scenario that has its values already.\n",
                                 one_line(std::filesystem::path(a.path).filename().string()), a.used.seen.size(), a.log.hash);
  if (!a.used.unsown.empty()) text += fmt::format("# {}.\n", one_line(unsown(a), 400));
  const auto line = [&](std::string_view section, std::string_view key) {
    const std::string name = fmt::format("{}.{}", section, key);
    const std::string now = get_key(a.fitted, name).value(), was = get_key(a.scenario, name).value();
    if (now == was) return;
    const bool bare = now.find(' ') == std::string::npos;
    text += fmt::format("{} = {}  # was {}\n", key, bare ? now : "\"" + now + "\"", was);
  };
  text += "[spoilage]\n";
  for (const char* key : {"mould_rate", "sour_rate"}) line("spoilage", key);
  text += "[own_line]\n";
  for (const char* key : {"pace", "loss", "swelling", "height", "warmth", "measured_time", "borrowed_time", "flatness"}) line("own_line", key);
  text += "[ignorance]\n";
  for (const IgnoranceLaw& law : ignorance_laws()) line("ignorance", law.name);
  text += "ties = [";
  for (const Tie& tie : a.fitted.ignorance.ties)
    text += fmt::format("{}\"{} {} {}\"", &tie == &a.fitted.ignorance.ties.front() ? "" : ", ", ignorance_laws()[place_of(tie.first)].name,
                        ignorance_laws()[place_of(tie.second)].name, tie.correlation);
  return text + "]\n";
}

}  // namespace rackwright::app
