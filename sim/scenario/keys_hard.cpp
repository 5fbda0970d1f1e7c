// Keys of hard times, and their cross-checks.
#include <fmt/format.h>

#include "sim/scenario/checks.hpp"
#include "sim/scenario/key_at.hpp"
#include "sim/scenario/key_table.hpp"
#include "sim/scenario/names.hpp"
#include "sim/scenario/suggest.hpp"

namespace rackwright {
namespace keys {
namespace {

using S = Scenario;
using H = HardTime;
constexpr std::string_view yours = "yours";

std::int64_t day_number(std::chrono::year_month_day date) {
  return std::chrono::sys_days(date).time_since_epoch().count();
}

Key<H> start_key() {
  Key<H> key = declare<H>("start", Kind::date, "Date on which it begins.", yours);
  key.get = [](const H& hard, const S& s) -> Value {
    return day_number(s.run.start) + static_cast<std::int64_t>(hard.first_day);
  };
  key.set = [](H& hard, const Value& value, const S& s) -> std::optional<std::string> {
    hard.first_day = static_cast<double>(std::get<std::int64_t>(value) - day_number(s.run.start));
    return std::nullopt;
  };
  return std::move(key).instead({"day"});
}

}  // namespace

const Table<H>& hard_time_keys() {
  static const Table<H> table{
      text<H>("name", AT(name), "What you call it.", yours).must(),
      option<H>("kind", {hard_time_names.begin(), hard_time_names.end()}, AT(kind), "What goes wrong.", yours).must(),
      real<H>("day", {-4000.0, 4000.0}, AT(first_day), "Day on which it begins, counted from the start of the run.",
              yours).in("d").must(),
      start_key(),
      clock<H>("at", AT(at), "Clock time at which it begins.", yours),
      real<H>("length", {0.1, 24.0 * 3660.0}, AT(length),
              "How long it lasts; of a late delivery, how much later it comes. \"none\": as usual for its kind.",
              "assumed").show("d"),
      real<H>("change", {0.1, 30.0}, AT(change),
              "Heat wave, cold snap: how much warmer or colder it is outdoors. \"none\": as usual.", "assumed"),
      real<H>("share", {0.001, 5.0}, AT(share),
              "Poor lot: living grain that is dead; larger litter: more young; price jump: how much dearer. "
              "\"none\": as usual.", "assumed"),
      whole<H>("times", {1, 50}, AT(times), "Poor lot, late delivery: how many lots or orders in a row.", yours),
      text<H>("grain", AT(grain), "Poor lot, late delivery, price jump: of which grain; left out, of all.", yours),
      text<H>("group", AT(group), "Larger litter: in which group; left out, in all.", yours),
  };
  return table;
}

}  // namespace keys

namespace checks {
namespace {

bool about_grain(HardTimeKind kind) {
  return kind == HardTimeKind::poor_lot || kind == HardTimeKind::late_delivery || kind == HardTimeKind::price_jump;
}

void values(const HardTime& hard, const std::string& head, Problems& out) {
  const UsualHardTime has = usual(hard.kind);
  const auto unused = [&](bool given, bool used, const char* key) {
    if (given && !used)
      complain(out, head + key, "", fmt::format("means nothing for the kind {}", hard_time_name(hard.kind)));
  };
  unused(hard.length.has_value(), has.length.has_value(), "length");
  unused(hard.change.has_value(), has.change.has_value(), "change");
  unused(hard.share.has_value(), has.share.has_value(), "share");
  const bool counted = hard.kind == HardTimeKind::poor_lot || hard.kind == HardTimeKind::late_delivery;
  unused(hard.times != 1, counted, "times");
  unused(!hard.grain.empty(), about_grain(hard.kind), "grain");
  unused(!hard.group.empty(), hard.kind == HardTimeKind::larger_litter, "group");
  if (hard.kind == HardTimeKind::poor_lot && share_of(hard) > 1.0)
    complain(out, head + "share", fmt::format("{:.4g}", share_of(hard)), "no more than all of a lot can be dead");
}

template <class T>
void named(const std::vector<T>& items, const std::string& name, const std::string& key, const char* what,
           Problems& out) {
  if (name.empty()) return;
  std::vector<std::string> names;
  for (const T& item : items) {
    if (item.name == name) return;
    names.push_back(item.name);
  }
  complain(out, key, name, fmt::format("is not the name of a {}", what), nearest(name, names));
}

}  // namespace

void hard_times(const Scenario& scenario, Problems& out) {
  const auto& all = scenario.hard_times;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const std::string head = "hard_time." +
                             keys::item_label(all, i, [](const HardTime& h) { return std::string_view(h.name); }) + ".";
    for (std::size_t j = 0; j < i; ++j)
      if (all[j].name == all[i].name) complain(out, head + "name", all[i].name, "is the name of another hard time too");
    if (all[i].name.empty()) complain(out, head + "name", "", "must say something");
    values(all[i], head, out);
    named(scenario.grains, all[i].grain, head + "grain", "[[grain]]", out);
    named(scenario.groups, all[i].group, head + "group", "[[group]]", out);
  }
}

}  // namespace checks
}  // namespace rackwright
