#include "sim/study/fit_log.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <utility>

#include "models/design/rack.hpp"
#include "models/grain/species.hpp"
#include "sim/scenario/suggest.hpp"

namespace rackwright::study {
namespace {

const GrainSupply* grain_of(const Scenario& scenario, const std::string& species) {
  const auto at = std::find_if(scenario.grains.begin(), scenario.grains.end(), [&](const GrainSupply& g) { return g.species == species; });
  return at == scenario.grains.end() ? nullptr : &*at;
}

std::string usual_species(const Scenario& scenario) { return scenario.grains.empty() ? "barley" : scenario.grains.front().species; }

template <class Judged>
bool lost(const Judged& tray) { return tray.spoiled && *tray.spoiled != LoggedSpoil::sound; }

/// How long mats were left to stand at that time of the log, by those that were not lost.
class DaysLeftToStand {
 public:
  explicit DaysLeftToStand(const TrayLog& log) {
    for (const LoggedTray& tray : log.trays)
      if (tray.days && tray.ended() && !lost(tray)) sound_.emplace_back(tray.sown, *tray.days);
  }

  /// A lost tray is told with the days until it was thrown out. Over those alone a rate of spoiling would seem greater than it is: what is
  /// known is that it did not last as long as the others. Fewer days than (nearly) any sound tray of its time had, are not a harvest's.
  double of(const LoggedTray& tray, double days) {
    if (!lost(tray)) return days;
    const auto at = told_.try_emplace(tray.sown);
    if (at.second) at.first->second = usual(tray.sown);
    const Usual& usual = at.first->second;
    return days < usual.few ? usual.median : days;
  }

 private:
  struct Usual { double few = 0.0, median = 0.0; };

  [[nodiscard]] Usual usual(std::chrono::sys_days sown) const {
    constexpr auto near = std::chrono::days(14);
    constexpr std::ptrdiff_t enough = 5, one_in = 20;
    auto from = std::partition_point(sound_.begin(), sound_.end(), [&](const auto& tray) { return tray.first < sown - near; });
    auto to = std::partition_point(from, sound_.end(), [&](const auto& tray) { return tray.first <= sown + near; });
    if (to - from < enough) from = sound_.begin(), to = sound_.end();
    if (from == to) return {};
    std::vector<double> days;
    std::transform(from, to, std::back_inserter(days), [](const auto& tray) { return tray.second; });
    std::sort(days.begin(), days.end());
    return {days[days.size() / one_in], days[days.size() / 2]};
  }

  std::vector<std::pair<std::chrono::sys_days, double>> sound_;  ///< by the day they were sown, as the log has them
  std::map<std::chrono::sys_days, Usual> told_;
};

class Sorter {
 public:
  Sorter(const TrayLog& log, const Scenario& scenario, bool stated, const LoggedRoom& room, const TrayModel& model, FitLog& out)
      : scenario_(scenario), stated_(stated), room_(room), model_(model), out_(out), left_to_stand_(log) {}

  void take(const LoggedTray& tray) {
    if (!tray.ended() && !tray.grain) return;  // a reading of the room alone
    const auto leave = [&](const char* why) { out_.unused[why].push_back(tray.line); };
    assumed_.clear();
    if (!tray.ended()) return leave("nothing came of them yet");
    if (!tray.fresh && !tray.height_cm && !tray.spoiled) return leave("neither weight, height nor spoiling is stated");
    const auto days = days_of(tray);
    if (!days) return leave("their days on the rack are not stated");
    TrayCase what = case_of(tray, left_to_stand_.of(tray, *days));
    // Where the log's room ends before that, its own days are all that can be played.
    if (!known(what)) what.days = *days;
    note_trial(tray, what.lot);
    if (!known(what)) return leave("no row within four days of some of their days on the rack states the room's temperature");
    Seen seen = seen_of(tray);
    if (!seen.log_fresh && !seen.log_height && !seen.spoiled) return leave("a weight without its grain tells nothing");
    seen.tray_case = place(what);
    seen.ended = tray.sown + std::chrono::days(static_cast<int>(std::ceil(*days)));
    count(seen);
    for (const char* what_assumed : assumed_) ++out_.assumed[what_assumed];
    note_unsown(out_.species[static_cast<std::size_t>(what.species)]);
    out_.seen.push_back(seen);
  }

 private:
  [[nodiscard]] bool known(const TrayCase& what) const {
    return room_.known(what.first_day, what.first_day + static_cast<int>(std::ceil(what.days)));
  }

  std::optional<double> days_of(const LoggedTray& tray) {
    if (tray.days) return *tray.days > 0.0 ? tray.days : std::nullopt;
    if (!stated_) return std::nullopt;
    assumed_.emplace_back("days on the rack");
    return static_cast<double>(scenario_.line.days_on_rack);
  }

  TrayCase case_of(const LoggedTray& tray, double days) {
    TrayCase what;
    const std::string name = tray.species.empty() ? usual_species(scenario_) : tray.species;
    if (tray.species.empty()) assumed_.emplace_back("species");
    what.species = static_cast<int>(std::find(out_.species.begin(), out_.species.end(), name) - out_.species.begin());
    const GrainSupply* grain = grain_of(scenario_, name);
    what.grain_dry_matter = 1.0 - (grain ? grain->moisture : model_.species(what.species).models.physical.store_moisture);
    what.lot = lot_of(tray.lot, what.species, grain ? grain->grade : grain::Grade{});
    what.first_day = room_.day_of(tray.sown);
    what.days = days;
    what.density = density_of(tray);
    if (!tray.soak) assumed_.emplace_back("soak");
    model_.soak(what, room_, tray.soak.value_or(scenario_.line.soak));
    return what;
  }

  /// A trial is a lot's: the same figure beside each of its trays is one.
  void note_trial(const LoggedTray& tray, int lot) {
    if (!tray.germination) return;
    auto& tried = out_.lots[static_cast<std::size_t>(lot)].tried;
    if (std::find(tried.begin(), tried.end(), *tray.germination) == tried.end()) tried.push_back(*tray.germination);
  }

  int lot_of(const std::string& name, int species, const grain::Grade& grade) {
    const auto at = std::find_if(out_.lots.begin(), out_.lots.end(), [&](const LoggedLot& l) { return l.name == name && l.species == species; });
    if (at != out_.lots.end()) return static_cast<int>(at - out_.lots.begin());
    out_.lots.push_back({name, species, grade, {}});
    return static_cast<int>(out_.lots.size()) - 1;
  }

  double density_of(const LoggedTray& tray) {
    if (tray.grain && tray.area) return tray.grain->value() / tray.area->value();
    const double area = design::tray_area(scenario_.rack).value();
    const bool by_grain = tray.grain && stated_ && area > 0.0;
    assumed_.emplace_back(by_grain ? "the size of a tray (its grain by that is the sowing density)" : "sowing density");
    return by_grain ? tray.grain->value() / area : scenario_.line.sowing_density.value();
  }

  static Seen seen_of(const LoggedTray& tray) {
    Seen seen;
    seen.line = tray.line;
    seen.spoiled = tray.spoiled;
    seen.grain_kg = tray.grain ? tray.grain->value() : 0.0;
    if (lost(tray)) return seen;  // a lost mat's weight is not a mat's
    if (tray.fresh && tray.grain && tray.fresh->value() > 0.0) seen.log_fresh = std::log(*tray.fresh / *tray.grain);
    if (tray.height_cm) seen.log_height = log_of_height(*tray.height_cm);
    return seen;
  }

  void note_unsown(const std::string& species) {
    if (!stated_ || scenario_.grains.empty() || grain_of(scenario_, species)) return;
    if (std::find(out_.unsown.begin(), out_.unsown.end(), species) == out_.unsown.end()) out_.unsown.push_back(species);
  }

  int place(TrayCase what) {
    // Trays of one batch stand together in the log: the last few cases are enough to look at.
    constexpr std::size_t looked_at = 40;
    const std::size_t from = out_.cases.size() > looked_at ? out_.cases.size() - looked_at : 0;
    for (std::size_t i = from; i < out_.cases.size(); ++i)
      if (out_.cases[i] == what) return static_cast<int>(i);
    out_.cases.push_back(what);
    return static_cast<int>(out_.cases.size()) - 1;
  }

  void count(const Seen& seen) {
    out_.weights += seen.log_fresh.has_value();
    out_.heights += seen.log_height.has_value();
    out_.judged += seen.spoiled.has_value();
    out_.spoiled += lost(seen);
  }

  const Scenario& scenario_;
  bool stated_;
  const LoggedRoom& room_;
  const TrayModel& model_;
  FitLog& out_;
  DaysLeftToStand left_to_stand_;
  std::vector<const char*> assumed_{};  ///< of the tray at hand
};

}  // namespace

double log_of_height(double height_cm) { return std::log1p(height_cm); }

LotTrial LoggedLot::trial() const {
  LotTrial all;
  for (const double share : tried) all = {all.seeds + trial_seeds, all.came + share * trial_seeds};
  return all;
}

void note_readings(FitLog& log) {
  std::vector<double> weights, heights;
  const auto kilograms = [](const Seen& seen) { return std::exp(*seen.log_fresh) * seen.grain_kg; };
  for (const Seen& seen : log.seen) {
    if (seen.log_fresh) weights.push_back(kilograms(seen));
    if (seen.log_height) heights.push_back(std::expm1(*seen.log_height));
  }
  log.weight_column = column_of_weights(weights);
  log.height_column = column_of_heights(heights);
  for (Seen& seen : log.seen) {
    if (seen.log_fresh) seen.fresh_span = span_of(kilograms(seen), log.weight_column.step, 0.0);
    if (!seen.log_height) continue;
    const double height = std::expm1(*seen.log_height);
    seen.height_span = span_of(height, log.height_column.step, 1.0);
    seen.ruler = ruler_cm / (1.0 + height);
  }
}

Problems unknown_species(const TrayLog& log, const Scenario& scenario) {
  Problems problems;
  std::vector<std::string> known;
  for (const OwnSpecies& own : scenario.species) known.push_back(own.name);
  for (const grain::Species& one : grain::all_species()) known.emplace_back(one.name);
  for (const LoggedTray& tray : log.trays) {
    if (tray.species.empty() || species_models(scenario, tray.species)) continue;
    problems.push_back({tray.line, "species", tray.species, "is not a species the program knows", nearest(tray.species, known)});
  }
  return problems;
}

std::vector<std::string> species_of(const TrayLog& log, const Scenario& scenario) {
  std::vector<std::string> all;
  for (const LoggedTray& tray : log.trays) {
    const std::string name = tray.species.empty() ? usual_species(scenario) : tray.species;
    if (std::find(all.begin(), all.end(), name) == all.end()) all.push_back(name);
  }
  return all;
}

FitLog fit_log(const TrayLog& log, const Scenario& scenario, bool stated, const LoggedRoom& room, const TrayModel& model) {
  FitLog out;
  for (int i = 0; i < model.species_count(); ++i) out.species.push_back(model.species(i).name);
  Sorter sorter(log, scenario, stated, room, model, out);
  for (const LoggedTray& tray : log.trays) sorter.take(tray);
  note_readings(out);
  return out;
}

}  // namespace rackwright::study
