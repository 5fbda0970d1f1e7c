#include "sim/study/line_today.hpp"

#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"
#include "models/design/rack.hpp"
#include "sim/replication/fortune.hpp"
#include "sim/replication/replicate.hpp"
#include "sim/replication/sown.hpp"
#include "sim/scenario/horizon.hpp"

namespace rackwright::study {
namespace {

int place_of(const Scenario& s, const std::string& name) {
  const auto at = std::find_if(s.grains.begin(), s.grains.end(), [&](const GrainSupply& grain) { return grain.name == name; });
  EXPECTS(at != s.grains.end());
  return static_cast<int>(at - s.grains.begin());
}

std::int64_t minute_of(const When& when, std::chrono::sys_days from, int otherwise = 0) {
  return minutes_per_day * (when.day - from).count() + when.minute.value_or(otherwise);
}

/// The first round, after the opening, that leaves grain put in at `since` most of its soak; of batches already given one, none twice.
void place_tub(const Scenario& s, Opening& opening, Opening::Wet& wet) {
  const double least = least_soak * 60.0 * s.line.soak.value();
  for (int round = 2 * -3;; ++round) {
    const int day = round >= 0 ? round / 2 : (round - 1) / 2, session = round - 2 * day;
    if (session >= s.line.batches_per_day) continue;
    const std::int64_t at = minutes_per_day * day + round_minute(s, session);
    if (at < opening.now || static_cast<double>(at - wet.since) < least) continue;
    const auto same = [&](const Opening::Wet& other) { return other.day == day && other.session == session; };
    if (std::any_of(opening.wet.begin(), opening.wet.end(), same)) continue;
    wet.day = day;
    wet.session = session;
    return;
  }
}

/// Batches of a line that has kept its days, at that minute of the day: those sown within its days on the rack.
struct Slot { int day = 0, session = 0; };
std::vector<Slot> usual_batches(const Scenario& s, int minute) {
  std::vector<Slot> slots;
  for (int day = -s.line.days_on_rack; day <= 0; ++day) {
    for (int session = 0; session < s.line.batches_per_day; ++session) {
      const int at = static_cast<int>(minutes_per_day) * day + round_minute(s, session);
      if (at < minute && at >= minute - static_cast<int>(minutes_per_day) * s.line.days_on_rack) slots.push_back({day, session});
    }
  }
  return slots;
}

/// usual_trays of two turns of the rack before that day, and of the days whose grain may be in soak on it.
constexpr int soaking_days = 4;
class UsualTrays {
 public:
  UsualTrays(const Scenario& s, std::chrono::sys_days day) : first_(-2 * s.line.days_on_rack), batches_(s.line.batches_per_day) {
    const Scenario from_now = s.line.sow == SowRule::all ? s : from_day(s, day, 2 * s.line.days_on_rack + soaking_days);
    Opening opening = s.line.sow == SowRule::all ? Opening{} : opening_of(from_now, empty_today(day), {}, std::chrono::sys_days(s.run.start));
    opening.sound = usual_sound(from_now, opening);
    trays_ = usual_trays(from_now, opening, first_, soaking_days);
  }
  [[nodiscard]] int at(int day, int session) const {
    return trays_[static_cast<std::size_t>(std::clamp((day - first_) * batches_ + session, 0, static_cast<int>(trays_.size()) - 1))];
  }

 private:
  int first_, batches_;
  std::vector<int> trays_{};
};

/// What a line that keeps its days has in soak at that minute, in the buckets that there are: one that finds none free waits.
struct Soak { int put = 0, session = 0, trays = 0; };  ///< minute of its being put to soak
std::vector<Soak> usual_soaks(const Scenario& s, const UsualTrays& trays, int minute) {
  std::vector<Soak> all;
  double free = s.keeper.soak_buckets * s.keeper.trays_per_bucket;
  for (int day = 0; day <= soaking_days; ++day) {
    for (int session = 0; session < s.line.batches_per_day; ++session) {
      const int due = static_cast<int>(minutes_per_day) * day + round_minute(s, session), put = due - static_cast<int>(60.0 * s.line.soak.value());
      const int count = trays.at(day, session);
      constexpr double rounding = 1e-9;
      if (put >= minute || due < minute || count == 0 || count > free + rounding) continue;
      free -= count;
      all.push_back({put, session, count});
    }
  }
  return all;
}

}  // namespace

Scenario from_day(const Scenario& scenario, std::chrono::sys_days day, int days_long) {
  Scenario s = scenario;
  const double gone = static_cast<double>((day - std::chrono::sys_days(scenario.run.start)).count());
  for (Group& group : s.groups) group.stay = herd::later_start(group.stay, gone);
  s.run.start = std::chrono::year_month_day(day);
  s.run.length = days(days_long);
  s.run.warm_up = WarmUp::usual;
  s.spells.clear();
  s.hard_times.clear();
  s.choose.choices.clear();
  return s;
}

Opening opening_of(const Scenario& s, const Today& today, const Forecast& forecast, std::chrono::sys_days begun) {
  const std::chrono::sys_days day = today.at.day;
  Opening opening;
  opening.now = today.at.minute.value_or(0);
  opening.days_gone = static_cast<int>((day - begun).count());
  for (const Today::Batch& batch : today.batches)
    opening.sown.push_back({static_cast<int>((batch.sown.day - day).count()), batch.session, batch.trays, place_of(s, batch.grain),
                            batch.germination, batch.soak.value_or(s.line.soak), batch.charge});
  for (const Today::Soaking& tub : today.soaking) {
    Opening::Wet wet{minute_of(tub.since, day), 0, 0, tub.trays, 0, tub.charge};
    place_tub(s, opening, wet);
    wet.grain = place_of(s, tub.grain.empty() ? grain_of_turn(s, wet.session) : tub.grain);
    opening.wet.push_back(wet);
  }
  if (!today.store.empty()) opening.kept.resize(s.grains.size());
  for (const Today::Lot& lot : today.store) {
    const int grain = place_of(s, lot.grain);
    auto& kept = opening.kept[static_cast<std::size_t>(grain)];
    if (!kept) kept.emplace();
    kept->push_back({grain, lot.amount.value(), lot.germination, minute_of(lot.came, day)});
  }
  for (auto& kept : opening.kept) {
    if (kept) std::stable_sort(kept->begin(), kept->end(), [](const auto& a, const auto& b) { return a.came < b.came; });
  }
  constexpr int unsaid_hour = 12 * 60;
  for (const Today::Order& order : today.orders)
    opening.ordered.push_back({place_of(s, order.grain), order.amount.value(), minute_of(order.due, day, unsaid_hour)});
  const int last = horizon_days(s);
  for (const ForecastDay& known : forecast) {
    const auto at = (known.day - day).count();
    if (at >= -lead_days && at <= last) opening.weather.push_back({static_cast<int>(at), known.maximum, known.minimum});
  }
  return opening;
}

double usual_sound(const Scenario& s, Opening opening) {
  if (s.line.sow == SowRule::all) return 1.0;
  constexpr std::uint32_t plays = 24;
  Scenario with_luck = s;
  with_luck.run.ignorance = false;
  opening.usual_luck = false;
  const Plan plan = make_plan(with_luck, opening);
  Replicator replicator(plan);
  double spoiled = 0.0, gone = 0.0;
  for (std::uint32_t r = 0; r < plays; ++r) {
    const Outcome& o = replicator.run(with_luck.run.random_seed, r);
    const int lost = o.spoiled_mould + o.spoiled_sour;
    spoiled += lost;
    gone += lost + o.frost_killed + o.trays_fed + o.composted_surplus + o.composted_overdue + o.composted_unripe;
  }
  return gone > 0.0 ? 1.0 - spoiled / gone : 1.0;
}

std::vector<int> usual_trays(const Scenario& s, Opening opening, int first, int last) {
  EXPECTS(first <= last);
  const int batches = s.line.batches_per_day;
  std::vector<int> trays(static_cast<std::size_t>((last - first + 1) * batches), s.line.trays_per_batch);
  if (s.line.sow == SowRule::all) return trays;
  opening.usual_luck = true;
  const Plan plan = make_plan(without_luck(s), opening);
  Fortune fortune;
  fortune.draw(plan, 1, 0);
  for (std::size_t i = 0; i < trays.size(); ++i) {
    const int day = first + static_cast<int>(i) / batches;
    trays[i] = trays_as_wanted(s.line, fortune.expected(day + s.line.days_on_rack), plan.standard_mat * std::max(least_sound, opening.sound), static_cast<int>(i) % batches);
  }
  return trays;
}

Today empty_today(std::chrono::sys_days day) {
  Today today;
  today.at.day = day;
  return today;
}

Today usual_today(const Scenario& s, std::chrono::sys_days day, int behind, int ahead) {
  Today today = empty_today(day);
  const UsualTrays trays(s, day);
  const auto sow = [&](const Slot& slot, int count) {
    if (count == 0) return;
    today.batches.push_back({{day + std::chrono::days(slot.day), round_minute(s, slot.session)}, slot.session, count, grain_of_turn(s, slot.session), {}, {}});
  };
  std::vector<Slot> slots = usual_batches(s, 0);
  const auto usual = static_cast<std::ptrdiff_t>(slots.size());
  for (int k = 0; k < ahead && !slots.empty(); ++k) {  // older ones, that were not needed
    Slot before = slots.front();
    if (--before.session < 0) before = {before.day - 1, s.line.batches_per_day - 1};
    slots.insert(slots.begin(), before);
  }
  slots.resize(slots.size() - std::min(slots.size(), static_cast<std::size_t>(std::max(0, behind))));
  int places = design::positions(s.rack);
  for (auto slot = slots.rbegin(); slot != slots.rend(); ++slot) {  // where places are few, the oldest are not there
    int count = trays.at(slot->day, slot->session);
    // One that is left over was sown, whatever would be sown now.
    if (count == 0 && slot - slots.rbegin() >= usual) count = s.line.trays_per_batch;
    if (places < count) break;
    places -= count;
    sow(*slot, count);
  }
  std::reverse(today.batches.begin(), today.batches.end());
  constexpr int a_day = static_cast<int>(minutes_per_day);
  for (const Soak& soak : usual_soaks(s, trays, 0)) {
    const int ago = (a_day - 1 - soak.put) / a_day;
    today.soaking.push_back({{day - std::chrono::days(ago), soak.put + ago * a_day}, soak.trays, grain_of_turn(s, soak.session)});
  }
  return today;
}

int usual_in_soak(const Scenario& s, const Today& today) {
  int wet = 0;
  for (const Soak& soak : usual_soaks(s, UsualTrays(s, today.at.day), today.at.minute.value_or(0))) wet += soak.trays;
  return wet;
}

double batches_ahead(const Scenario& s, const Today& today) {
  const int now = today.at.minute.value_or(0);
  double trays = 0.0, soaking = 0.0;
  for (const Today::Batch& batch : today.batches) trays += batch.trays;
  for (const Today::Soaking& tub : today.soaking) soaking += tub.trays;
  const UsualTrays trays_of(s, today.at.day);
  double wet = 0.0;  // that a line that keeps its days has in soak now
  for (const Soak& soak : usual_soaks(s, trays_of, now)) wet += soak.trays;
  double usual = 0.0;
  const std::vector<Slot> slots = usual_batches(s, now);
  for (const Slot& slot : slots) usual += trays_of.at(slot.day, slot.session);
  const double a_batch = usual > 0.0 ? usual / static_cast<double>(slots.size()) : s.line.trays_per_batch;
  return (trays + soaking - usual - wet) / a_batch;
}

}  // namespace rackwright::study
