#pragma once
// Drawing drafts: any number of statements, any value its key allows, ends included.

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <random>
#include <string_view>
#include <vector>

#include "models/herd/animals.hpp"
#include "models/grain/species.hpp"
#include "sim/scenario/key_table.hpp"
#include "sim/scenario/key_text.hpp"
#include "tests/drafts/draft.hpp"

namespace rackwright::test {

/// How drafts are drawn.
struct Drawing {
  double stated = 0.2;        ///< chance that a key is stated at all
  double ends = 0.3;          ///< chance that a stated value is the least or the greatest one; 1: always
  double longest_days = 90.0; ///< of a run: what bounds the time a test takes, nothing else
  int most_groups = 4;
};

class Drawer {
 public:
  Drawer(unsigned seed, Drawing how) : generator_(seed), how_(how) {}

  Draft draw() {
    draft_.clear();
    // A section with every key at an end is seldom one that can be: half of them state few.
    std::map<std::string, double> stated;
    for (const auto& key : keys::scenario_keys()) {
      if (key.name == "run.length") continue;
      const auto [section, first] = stated.try_emplace(std::string(key.name.substr(0, key.name.find('.'))), 0.0);
      if (first) section->second = how_.stated * (chance(0.5) ? 1.0 : 0.12);
      if (chance(section->second)) state(key, "", 0);
    }
    evening_of_the_day();
    parts_of_the_year();
    draft_.push_back({"", 0, "run.length", fmt::format("\"{} d\"", 1 + std::floor(how_.longest_days * share() * share())), true, -1});
    const int species = below(2), grains = 1 + below(3), groups = 1 + below(how_.most_groups);
    entries(keys::species_keys(), "species", species);
    entries(keys::grain_keys(), "grain", grains);
    entries(keys::group_keys(), "group", groups);
    entries(keys::spell_keys(), "spell", below(3));
    entries(keys::hard_time_keys(), "hard_time", below(4));
    if (chance(0.15)) network();
    return draft_;
  }

 private:
  double share() { return std::uniform_real_distribution<double>(0.0, 1.0)(generator_); }
  bool chance(double p) { return share() < p; }
  int below(int n) { return static_cast<int>(generator_() % static_cast<unsigned>(n)); }

  /// Minutes of the evening are part of the day's: as many as can be are refused unless the day has them, which it gets in half the drafts.
  void evening_of_the_day() {
    const auto stated = [&](const char* key) { return std::find_if(draft_.begin(), draft_.end(), [&](const Statement& s) { return s.key == key; }); };
    const auto evening = stated("keeper.evening_minutes");
    if (evening == draft_.end() || evening->level != 1 || chance(0.5)) return;
    const std::string most = evening->value;
    if (const auto day = stated("keeper.minutes_per_day"); day != draft_.end()) draft_.erase(day);
    draft_.push_back({"", 0, "keeper.minutes_per_day", most, false, 1});
  }

  /// What goes together is refused by halves: in half the drafts the rest is stated, too, in the others none of it.
  void parts_of_the_year() {
    const std::vector<std::vector<std::string_view>> together{{"room.shade_from", "room.shade_until"}, {"room.open_air_changes", "room.open_from", "room.open_until"}};
    for (const auto& keys : together) {
      const auto one_of = [&](const Statement& s) { return s.list.empty() && std::find(keys.begin(), keys.end(), s.key) != keys.end(); };
      const auto stated = static_cast<std::size_t>(std::count_if(draft_.begin(), draft_.end(), one_of));
      if (stated == 0 || stated == keys.size()) continue;
      const bool all = chance(0.5);
      std::erase_if(draft_, one_of);
      if (!all) continue;
      for (const auto& key : keys::scenario_keys())
        if (std::find(keys.begin(), keys.end(), key.name) != keys.end()) state(key, "", 0);
    }
  }

  template <class T>
  void entries(const keys::Table<T>& table, const std::string& list, int count) {
    for (int item = 0; item < count; ++item) {
      const bool by_date = chance(0.3);  // of the two ways to state when something begins, one
      for (const auto& key : table) {
        if (key.name == "start" && !by_date) continue;
        if (key.name == "day" && by_date) continue;
        if (key.name == "first_births" || key.name == "first_births_day") {
          if (by_date != (key.name == "first_births")) continue;
        }
        if (key.required || key.name == "start" || chance(how_.stated)) state(key, list, item);
      }
    }
  }

  template <class T>
  void state(const keys::Key<T>& key, const std::string& list, int item) {
    Statement s{list, item, key.name, "", key.required || key.name == "start", -1};
    if (key.kind == keys::Kind::text || key.kind == keys::Kind::names || key.kind == keys::Kind::reals) {
      s.value = words(key, list, item);
      if (s.value.empty()) return;
    } else {
      if (chance(how_.ends)) s.level = below(2);
      s.value = keys::toml_text(key, value(key, s.level));
    }
    draft_.push_back(std::move(s));
  }

  keys::Value value(const keys::KeyInfo& key, int level) {
    switch (key.kind) {
      case keys::Kind::flag: return level < 0 ? chance(0.5) : level == 1;
      case keys::Kind::option: {
        const auto last = static_cast<std::int64_t>(key.options.size()) - 1;
        return level == 0 ? std::int64_t{0} : level == 1 ? last : static_cast<std::int64_t>(below(static_cast<int>(last) + 1));
      }
      case keys::Kind::date: return std::int64_t{level == 0 ? -25567 : level == 1 ? 84000 : 20000 + below(2000)};
      case keys::Kind::clock: return level == 0 ? 0.0 : level == 1 ? 23.0 + 59.0 / 60.0 : below(24 * 60) / 60.0;
      case keys::Kind::whole: {
        if (level == 0) return static_cast<std::int64_t>(key.least);
        if (level == 1) return static_cast<std::int64_t>(key.most);
        return static_cast<std::int64_t>(std::llround(number(key)));
      }
      default: return level == 0 ? key.least : level == 1 ? key.most : number(key);
    }
  }

  /// Even over the range, or over its orders of magnitude where it has many.
  double number(const keys::KeyInfo& key) {
    const double u = share();
    if (key.least > 0.0 && key.most > 50.0 * key.least && chance(0.8)) return key.least * std::pow(key.most / key.least, u);
    if (key.least == 0.0 && key.most > 50.0 && chance(0.8)) return key.most * std::pow(10.0, -5.0 * u);
    return key.least + u * (key.most - key.least);
  }

  template <class T>
  std::string words(const keys::Key<T>& key, const std::string& list, int item) {
    if (key.name == "name") return fmt::format("\"{} {}\"", list, static_cast<char>('a' + item % 26) + std::to_string(item / 26) + "x");
    if (key.name == "class") {
      const auto all = herd::all_classes();
      return fmt::format("\"{}\"", all[generator_() % all.size()].name);
    }
    if (key.name == "species" || key.name == "like") {
      if (key.name == "species" && !items_of(draft_, "species").empty() && chance(0.5)) return "\"species a0x\"";
      const auto all = grain::all_species();
      return fmt::format("\"{}\"", all[generator_() % all.size()].name);
    }
    if (list == "hard_time" && (key.name == "grain" || key.name == "group")) return fmt::format("\"{} a0x\"", key.name);
    if (key.name == "line.grains") return chance(0.5) ? "[\"grain a0x\"]" : "[\"grain a0x\", \"grain a0x\", \"grain b0x\"]";
    if (key.name == "title") return "\"<b>drawn</b> & \\\"quoted\\\"\"";
    if (key.name == "currency") return "\"EUR\"";
    if (key.name == "climate.monthly_mean") return "[\"2 degC\", \"3 degC\", \"7 degC\", \"11 degC\", \"16 degC\", \"21 degC\", \"26 degC\", "
                                                   "\"25 degC\", \"19 degC\", \"13 degC\", \"7 degC\", \"-3 degC\"]";
    return {};  // names of files
  }

  /// Tank, foot, a chain or a fan of tiers, and a floor; pipes as drawn.
  void network() {
    constexpr int most_tiers = 40;
    const int tiers = chance(0.1) ? most_tiers : 1 + below(6);
    draft_.push_back({"", 0, "rack.tiers", std::to_string(tiers), true, tiers == 1 ? 0 : tiers == most_tiers ? 1 : -1});
    std::erase_if(draft_, [seen = false](const Statement& s) mutable {
      if (s.list.empty() && s.key == "rack.tiers") return !std::exchange(seen, true) && !s.needed;
      return false;
    });
    const auto node = [&](int item, const std::string& name, const std::string& kind, double height) {
      draft_.push_back({"water.node", item, "name", "\"" + name + "\"", true, -1});
      draft_.push_back({"water.node", item, "kind", "\"" + kind + "\"", true, -1});
      draft_.push_back({"water.node", item, "height", fmt::format("\"{} m\"", height), true, -1});
    };
    int pipes = 0;
    const auto pipe = [&](const std::string& from, const std::string& to, bool drop) {
      draft_.push_back({"water.pipe", pipes, "from", "\"" + from + "\"", true, -1});
      draft_.push_back({"water.pipe", pipes, "to", "\"" + to + "\"", true, -1});
      draft_.push_back({"water.pipe", pipes, "gravity_drop", drop ? "true" : "false", true, -1});
      for (const auto& key : keys::pipe_keys()) {
        if (key.kind == keys::Kind::real && chance(how_.stated)) state(key, "water.pipe", pipes);
      }
      ++pipes;
    };
    node(0, "tank", "source", 0.0);
    node(1, "foot", "junction", 0.1);
    node(2, "floor", "drain", 0.0);
    pipe("tank", "foot", false);
    const bool chain = chance(0.5);
    for (int tier = 0; tier < tiers; ++tier) {
      const std::string name = fmt::format("tier {}x", tier);
      node(3 + tier, name, "tier", 0.2 + 0.3 * tier);
      pipe(chain && tier > 0 ? fmt::format("tier {}x", tier - 1) : "foot", name, false);
      pipe(name, "floor", true);
    }
  }

  std::mt19937 generator_;
  Drawing how_;
  Draft draft_;
};

}  // namespace rackwright::test
