#include "sim/scenario/today_log.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include <fmt/format.h>

#include "models/design/rack.hpp"
#include "sim/scenario/raw_text.hpp"
#include "sim/scenario/suggest.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright {
namespace {

constexpr long day_long = 1440;  // [min]
constexpr std::size_t most_problems = 50;
constexpr double thinnest = 0.5, thickest = 20.0;  // [kg/m2], as line.sowing_density
constexpr double surest = 0.999;  // of germination, as in a state file

std::string words(const When& when) {
  const std::chrono::year_month_day day(when.day);
  std::string text = fmt::format("{:04d}-{:02d}-{:02d}", static_cast<int>(day.year()), static_cast<unsigned>(day.month()), static_cast<unsigned>(day.day()));
  if (when.minute) text += fmt::format(" {:02d}:{:02d}", *when.minute / 60, *when.minute % 60);
  return text;
}

class Derivation {
 public:
  Derivation(const TrayLog& log, const Scenario& scenario, const When& at) : scenario_(scenario), at_(at), now_(minutes_of(at)) {
    for (const LoggedTray& tray : log.trays)
      if (!tray.lot.empty() && tray.germination) tried_[{tray.species, tray.lot}] = std::min(surest, *tray.germination);
    for (const LoggedTray& tray : log.trays) take(tray);
  }

  LoggedToday told() {
    LoggedToday result;
    std::stable_sort(problems_.begin(), problems_.end(), [](const Problem& a, const Problem& b) { return a.line < b.line; });
    if (problems_.size() > most_problems) {
      const std::size_t more = problems_.size() - most_problems;
      problems_.resize(most_problems);
      problems_.push_back({0, "", "", fmt::format("and {} more like these", more), ""});
    }
    result.problems = std::move(problems_);
    if (!result.problems.empty()) return result;
    Today& today = result.today.emplace();
    today.at = at_;
    for (const auto& [what, trays] : batches_) {
      const auto& [day, session, grain, germination, soak] = what;
      today.batches.push_back({{day, std::nullopt}, session, trays.count, grain, germination, soak ? std::optional(Hours(*soak)) : std::nullopt, charge_of(trays)});
    }
    for (const auto& [what, trays] : tubs_) {
      const long day = what.first / day_long;
      today.soaking.push_back({{std::chrono::sys_days(std::chrono::days(day)), static_cast<int>(what.first - day_long * day)}, trays.count, what.second, charge_of(trays)});
    }
    result.remarks.push_back("Read from the tray log" + weighed() + ". Grain in store and orders, which a log does not tell, are taken from the scenario." + lots(today));
    remark(result, early_, fmt::format("of a later sowing, not in soak by {}: left out.", words({at_.day, at_.minute.value_or(0)})), true);
    remark(result, undated_, "over (weighed, measured or judged) but not said after how many days: taken to be off the rack.", true);
    remark(result, old_, fmt::format("sown more than {} days before and never over: taken to be gone.", oldest_mat_days), true);
    remark(result, bare_, "with a date and nothing of a tray: left out.", false);
    return result;
  }

 private:
  /// Trays of one batch, and the dry grain of those that were weighed.
  struct Trays { int count = 0, weighed = 0; double grain = 0.0; };
  using Lot = std::pair<std::string, std::string>;  // species as written, and its name

  void complain(int line, std::string_view key, std::string value, std::string why, std::string suggestion = "") {
    problems_.push_back({line, std::string(key), std::move(value), std::move(why), std::move(suggestion)});
  }

  /// By its name in the scenario or by its species; empty: none.
  [[nodiscard]] std::string grain_named(const std::string& species) const {
    const auto& all = scenario_.grains;
    auto at = std::find_if(all.begin(), all.end(), [&](const GrainSupply& grain) { return grain.name == species; });
    if (at == all.end()) at = std::find_if(all.begin(), all.end(), [&](const GrainSupply& grain) { return grain.species == species; });
    return at == all.end() ? std::string() : at->name;
  }

  /// The round by its time; else that whose turn its grain is; else the day's first rows are the morning's.
  int session_of(const LoggedTray& tray, const std::string& grain) {
    if (scenario_.line.batches_per_day < 2) return 0;
    if (tray.minute) return nearest_session(scenario_, tray.minute);
    const bool morning = grain == grain_of_turn(scenario_, 0), evening = grain == grain_of_turn(scenario_, 1);
    if (morning != evening) return morning ? 0 : 1;
    return ++untimed_[tray.sown] > scenario_.line.trays_per_batch ? 1 : 0;
  }

  void take(const LoggedTray& tray) {
    const bool of_tray = !tray.lot.empty() || !tray.species.empty() || tray.germination || tray.grain || tray.soak || tray.area || tray.ended();
    if (!of_tray) {
      if (!tray.room_max) bare_.push_back(tray.line);
      return;
    }
    std::string grain = grain_named(tray.species);
    const int session = session_of(tray, grain);
    if (tray.species.empty()) grain = grain_of_turn(scenario_, session);
    const long sown = minutes_of({tray.sown, round_minute(scenario_, session)});
    if (sown >= now_ || (tray.minute && minutes_of({tray.sown, tray.minute}) > now_)) wet(tray, grain, sown);
    else if (stands(tray, sown)) place(tray, grain, session);
    else if (!grain.empty() && !tray.lot.empty()) last_[grain] = {tray.species, tray.lot};
  }

  bool stands(const LoggedTray& tray, long sown) {
    if (tray.spoiled && *tray.spoiled != LoggedSpoil::sound) return false;
    if (tray.days && static_cast<double>(sown) + static_cast<double>(day_long) * *tray.days <= static_cast<double>(now_)) return false;
    if (!tray.days && tray.ended()) {
      if (sown + day_long * scenario_.line.days_on_rack > now_) undated_.push_back(tray.line);
      return false;
    }
    if (now_ - sown <= day_long * oldest_mat_days) return true;
    old_.push_back(tray.line);
    return false;
  }

  bool known(const LoggedTray& tray, const std::string& grain) {
    if (!grain.empty()) {
      if (!tray.lot.empty()) last_[grain] = {tray.species, tray.lot};
      return true;
    }
    std::string all;
    std::vector<std::string> names;
    for (const GrainSupply& supply : scenario_.grains) {
      all += (all.empty() ? "" : ", ") + supply.name;
      for (const std::string& name : {supply.name, supply.species}) names.push_back(name);
    }
    complain(tray.line, "species", tray.species, fmt::format("is no grain of the scenario: it has {}", one_line(all)), nearest(tray.species, names));
    return false;
  }

  void place(const LoggedTray& tray, const std::string& grain, int session) {
    const int places = design::positions(scenario_.rack);
    if (++standing_ == places + 1)
      complain(tray.line, "date sown", words({tray.sown, {}}),
               fmt::format("finds no place: the rack has {}, and the rows before it fill them. Rows of trays that are gone need their days, fresh weight or spoiled", places));
    if (!known(tray, grain)) return;
    std::optional<double> germination = tray.germination;
    if (const auto tried = tried_.find({tray.species, tray.lot}); !germination && !tray.lot.empty() && tried != tried_.end()) germination = tried->second;
    if (germination) germination = std::min(surest, *germination);
    weigh(tray, batches_[{tray.sown, session, grain, germination, tray.soak ? std::optional(tray.soak->value()) : std::nullopt}]);
  }

  void weigh(const LoggedTray& tray, Trays& batch) {
    ++batch.count;
    if (!tray.grain) {
      ++unweighed_;
      return;
    }
    const double area = design::tray_area(scenario_.rack).value(), density = tray.grain->value() / area;
    if (density < thinnest || density > thickest)
      complain(tray.line, "dry grain", quantity(tray.grain->value(), "kg"),
               fmt::format("is {} on a tray of the scenario's rack, of {}; the models hold from {} to {}", quantity(density, "kg/m2"), quantity(area, "m2"),
                           quantity(thinnest, "kg/m2"), quantity(thickest, "kg/m2")));
    ++batch.weighed;
    batch.grain += tray.grain->value();
    lightest_ = weighed_ == 0 ? tray.grain->value() : std::min(lightest_, tray.grain->value());
    heaviest_ = std::max(heaviest_, tray.grain->value());
    ++weighed_;
  }

  [[nodiscard]] std::string quantity(double native, std::string_view unit) const { return write_quantity(native, unit, scenario_.units == Units::us, 3); }
  [[nodiscard]] double usual_grain() const { return scenario_.line.sowing_density.value() * design::tray_area(scenario_.rack).value(); }

  /// Mean of the trays that were weighed over what the scenario sows on one, in hundredths, as finely as a keeper weighs.
  [[nodiscard]] double charge_of(const Trays& batch) const {
    return batch.weighed == 0 ? 1.0 : std::max(1.0, std::round(100.0 * batch.grain / batch.weighed / usual_grain())) / 100.0;
  }

  /// How heavy the trays were sown, and by whose word.
  [[nodiscard]] std::string weighed() const {
    if (weighed_ + unweighed_ == 0) return "";
    const std::string usual = quantity(usual_grain(), "kg");
    if (weighed_ == 0) return fmt::format(", in which no tray that stands or soaks has its dry grain: {} each, as the scenario sows", usual);
    const std::string least = quantity(lightest_, "kg"), most = quantity(heaviest_, "kg");
    std::string text = fmt::format(", dry grain of the trays that stand or soak with it: {} a tray (the scenario sows {})", least == most ? least : least + " to " + most, usual);
    if (unweighed_ > 0)
      text += fmt::format("; {} tray{} without {} as heavy as the others of the batch, or as the scenario sows", unweighed_, unweighed_ == 1 ? "" : "s", unweighed_ == 1 ? "is taken to be" : "are taken to be");
    return text;
  }

  void wet(const LoggedTray& tray, const std::string& grain, long sown) {
    if (tray.minute) sown = minutes_of({tray.sown, *tray.minute});
    const long since = sown - std::lround(60.0 * tray.soak.value_or(scenario_.line.soak).value());
    if (since > now_) return early_.push_back(tray.line);
    if (now_ - since > day_long * longest_wet_days)
      return complain(tray.line, "soak", fmt::format("{:g} h", tray.soak.value_or(scenario_.line.soak).value()),
                      fmt::format("began more than {} days before {}: that grain is dead", longest_wet_days, words(at_)));
    if (++soaking_ == design::positions(scenario_.rack) + 1) complain(tray.line, "date sown", words({tray.sown, {}}), "more trays are in soak than the rack has places");
    if (known(tray, grain)) weigh(tray, tubs_[{since, grain}]);
  }

  /// What is in store, by the last lot of each grain; its germination, where it was tried, goes into the state.
  std::string lots(Today& today) const {
    std::string text;
    for (const GrainSupply& supply : scenario_.grains) {
      const auto last = last_.find(supply.name);
      if (last == last_.end()) continue;
      const auto tried = tried_.find(last->second);
      text += fmt::format("{} \"{}\" of {}, {}", text.empty() ? " The lot in store is taken to be the last one named:" : ";", last->second.second, supply.name,
                          tried == tried_.end() ? "germinating as the scenario says" : fmt::format("germinating {:.3g} %", 100.0 * tried->second));
      if (tried != tried_.end()) today.store.push_back({supply.name, supply.on_hand, tried->second, today.at});
    }
    return text.empty() ? text : text + ".";
  }

  static void remark(LoggedToday& result, std::vector<int>& lines, const std::string& what, bool verb) {
    if (lines.empty()) return;
    std::sort(lines.begin(), lines.end());
    result.remarks.push_back(fmt::format("{}{} {}", lines_words(lines), !verb ? "" : lines.size() == 1 ? " is" : " are", what));
  }

  const Scenario& scenario_;
  const When at_;
  const long now_;
  std::map<Lot, double> tried_;                              ///< germination, the latest stated
  std::map<std::string, Lot> last_;                          ///< by grain: the lot named last
  std::map<std::chrono::sys_days, int> untimed_;             ///< trays of a day whose round nothing tells
  std::map<std::tuple<std::chrono::sys_days, int, std::string, std::optional<double>, std::optional<double>>, Trays> batches_;
  std::map<std::pair<long, std::string>, Trays> tubs_;         ///< by when they were put in and their grain
  std::vector<int> early_, undated_, old_, bare_;            ///< lines
  int standing_ = 0, soaking_ = 0, weighed_ = 0, unweighed_ = 0;
  double lightest_ = 0.0, heaviest_ = 0.0;                   ///< dry grain of a tray that stands or soaks [kg]
  Problems problems_;
};

}  // namespace

LoggedToday today_from_log(const TrayLog& log, const Scenario& scenario, const When& at) { return Derivation(log, scenario, at).told(); }

LoggedToday today_from_log_file(const std::string& path, const Scenario& scenario, const When& at) {
  // Grains that the scenario does not know are told with what else is wrong.
  const auto grains = [&](const TrayLog& log) {
    Problems all = today_from_log(log, scenario, at).problems;
    std::erase_if(all, [](const Problem& problem) { return problem.key != "species"; });
    return all;
  };
  TrayLogReading reading = read_tray_log_file(path, scenario.units, grains);
  if (!reading.log) return {{}, {}, std::move(reading.problems)};
  return today_from_log(*reading.log, scenario, at);
}

std::string lines_words(const std::vector<int>& lines) {
  constexpr std::size_t most = 8;
  std::vector<std::string> runs;
  std::size_t told = 0;
  for (std::size_t at = 0; at < lines.size() && runs.size() < most;) {
    std::size_t end = at + 1;
    while (end < lines.size() && lines[end] == lines[end - 1] + 1) ++end;
    if (end - at > 2) runs.push_back(fmt::format("{} to {}", lines[at], lines[end - 1]));
    else for (std::size_t k = at; k < end; ++k) runs.push_back(std::to_string(lines[k]));
    told = at = end;
  }
  if (told < lines.size()) runs.push_back(fmt::format("{} more", lines.size() - told));
  return (lines.size() == 1 ? "Line " : "Lines ") + listed(runs);
}

}  // namespace rackwright
