#include "sim/app/journal_story.hpp"

#include <algorithm>
#include <chrono>
#include <utility>

#include <fmt/core.h>

#include "models/growth/mat.hpp"
#include "sim/replication/journal_words.hpp"

namespace rackwright::app {
namespace {

constexpr double clearly = 0.05;      // a difference below this share is luck of scatter, not a cause
constexpr std::size_t most_told = 3;
constexpr int kept_days = 40;         // a batch is forgotten then

std::string trays_words(int trays) { return fmt::format("{} {}", trays, trays == 1 ? "tray" : "trays"); }

}  // namespace

std::string cause_words(Cause cause) {
  switch (cause) {
    case Cause::missed_round: return "missed round -> nothing fed";
    case Cause::no_grain: return "no grain in store -> trays not sown -> short";
    case Cause::no_bucket: return "too few buckets -> trays not soaked -> short";
    case Cause::no_hands: return "no time left -> work undone -> short";
    case Cause::no_place: return "rack full -> trays not sown -> short";
    case Cause::mouldy: return "mats mouldy -> thrown out -> short";
    case Cause::sour: return "mats sour -> thrown out -> short";
    case Cause::frost: return "frost -> mats killed, or not sown -> short";
    case Cause::thin_poor_lot: return "poor lot -> thin mats -> short";
    case Cause::thin_dry: return "no water -> sprouts dried -> thin mats -> short";
    case Cause::thin: return "thin mats -> short";
    case Cause::slow: return "slow growth -> mats not ready in time -> short";
    case Cause::slow_dry: return "too little water -> slow growth -> mats not ready in time -> short";
    case Cause::composted: return "mats not needed in time -> composted -> short later";
    case Cause::demand: return "more wanted than usual -> short";
    case Cause::rack: return "rack too small for what is wanted -> short";
    case Cause::nobody: return "nobody there -> trays not soaked or sown -> short";
    case Cause::start: return "empty rack at the start -> no mats yet -> short";
  }
  return {};
}

std::string Story::date(int day) const {
  constexpr const char* months[] = {"January", "February", "March",     "April",   "May",      "June",
                                    "July",    "August",   "September", "October", "November", "December"};
  const std::chrono::year_month_day when{std::chrono::sys_days(run_.start) + std::chrono::days(day)};
  return fmt::format("{} {}", static_cast<unsigned>(when.day()), months[static_cast<unsigned>(when.month()) - 1]);
}

Usual usual_of(const Plan& plan) {
  const Scenario& s = plan.scenario;
  const auto grain = static_cast<std::size_t>(plan.batch_grain.front());
  const growth::Parameters& species = plan.species[static_cast<std::size_t>(plan.grains[grain].species)].growth;
  const double germination = s.grains[grain].grade.germination_mean;
  Usual usual{plan.standard_mat, germination, 0.0, s.line.days_on_rack, s.line.grace_days, s.line.days_on_rack / species.ripe, 0.0};
  for (std::size_t g = 0; g < plan.groups.size(); ++g) {
    const Group& group = s.groups[g];
    const bool twice = group.feedings > 1;
    const double meal = group.count * plan.groups[g].ration / (twice ? 2.0 : 1.0);
    usual.feeding_kg += meal;
    if (twice) usual.evening_kg += meal;
  }
  return usual;
}

bool Story::note(std::int64_t minutes, const Happening& h) {
  using Kind = Happening::Kind;
  now_ = minutes;
  const auto batch = [&]() -> BatchStory& { return batches_[{h.day, h.session}]; };
  switch (h.kind) {
    case Kind::sown:
      batch().sown += h.trays, batch().lot = h.amount, batch().vigour = h.other;
      first_sown_ = std::min(first_sown_.value_or(h.day), h.day);
      break;
    case Kind::no_grain: batch().no_grain += h.trays; break;
    case Kind::no_bucket: (nobody_came_ ? batch().bucket_taken : batch().no_bucket) += h.trays; break;
    case Kind::nobody_soaked: batch().unattended += h.trays; break;
    case Kind::foul: batch().foul += h.trays; break;
    case Kind::no_time: batch().no_time += h.trays; break;
    case Kind::rushed: rushed_ = true; break;
    case Kind::ice: ice_ = true; break;
    case Kind::no_place: batch().no_place += h.trays; break;
    case Kind::moulded: batch().mouldy += h.trays; break;
    case Kind::soured: batch().sour += h.trays; break;
    case Kind::frosted: batch().frosted += h.trays; break;
    case Kind::frozen_out: batch().frozen_out += h.trays; break;
    case Kind::composted: batch().composted += h.trays; break;
    case Kind::unready: batch().unready = h.trays, batch().ready = h.amount, batch().room = h.other, batch().watered = h.water; break;
    case Kind::cut:
      batch().cut += h.trays, batch().cut_kg += h.amount, batch().sprouted += h.other * h.trays, batch().unready = 0;
      break;
    case Kind::dried:
      batch().dried = h.trays, batch().dry_hours = std::max(batch().dry_hours, h.amount), batch().killed = std::max(batch().killed, h.other);
      break;
    case Kind::missed_round: missed_ = true; break;
    case Kind::fed:
      nobody_came_ = missed_;
      fed_ = h, missed_now_ = std::exchange(missed_, false), rushed_now_ = std::exchange(rushed_, false), ice_now_ = std::exchange(ice_, false);
      break;
    case Kind::pump: trouble_ = "the pump stood", trouble_hours_ = h.amount, trouble_from_ = minutes; break;
    case Kind::power: trouble_ = "the power was out", trouble_hours_ = h.amount, trouble_from_ = minutes; break;
    case Kind::clog: trouble_ = "emitters were clogged", trouble_hours_ = 0.0; break;
    case Kind::soaked: case Kind::ordered: case Kind::delivered: case Kind::trial_laid: case Kind::trial_counted: case Kind::moved: case Kind::washed: case Kind::given:
    case Kind::ripe: case Kind::risk: case Kind::grain_too_old: break;  // no cause of a shortage told
  }
  const int today = static_cast<int>(minutes / minutes_per_day);
  while (!batches_.empty() && batches_.begin()->first.first < today - kept_days) batches_.erase(batches_.begin());
  return h.kind == Kind::fed && h.trays != 0 && minutes >= 0;
}

std::string Story::trouble() const {
  if (trouble_.empty() || trouble_hours_ <= 0.0) return trouble_;
  const double so_far = static_cast<double>(now_ - trouble_from_) / 60.0;
  if (so_far < trouble_hours_) return fmt::format("{} for {:.0f} h so far", trouble_, so_far);
  return fmt::format("{} for {:.0f} h", trouble_, trouble_hours_);
}

// How far mats that are due have grown, and what held them back.
std::string Story::unready(const BatchStory& b) const {
  constexpr double hardly = 0.005, held_back = 0.1, best = 20.0;  // [degC]: what growth is counted at
  std::string words = b.ready < hardly ? "had not begun to grow" : fmt::format("had {:.0f} % of the growth to be fed", 100.0 * b.ready);
  // Lots and drought apart, the rest is the warmth of their days.
  if (b.dried == 0 && b.ready < usual_.grown * b.vigour * b.watered - held_back)
    words += fmt::format("; too {} for them ({} in the room now)", b.room < best ? "cold" : "hot", temperature_words(units_, b.room));
  if (b.watered < 1.0 - clearly) words += fmt::format("; watered with {:.0f} % of what mats drink", 100.0 * b.watered);
  if (b.vigour < 1.0 - clearly) words += "; the lot is slow";
  if (b.dried > 0) words += fmt::format("; dry for {:.0f} h{}", b.dry_hours, trouble().empty() ? "" : ", " + trouble());
  return words;
}

// Is it for want of water, more than for anything else, that mats which are due have not grown?
bool Story::slow_for_water(const BatchStory& b) const {
  constexpr double long_dry = 12.0;  // [h], as for thin mats
  const double watered = b.ready / std::max(b.watered, 1e-9);  // what they would have grown with all they drink
  return (b.dried > 0 && b.dry_hours > long_dry) || std::min(1.0, watered) - b.ready > std::max(0.0, 1.0 - watered);
}

// What one batch lost against a usual one [kg], and to what.
void Story::reasons_of(const std::pair<int, int>& identity, const BatchStory& b, std::vector<Reason>& out) const {
  const std::string when = "sown " + date(identity.first);
  const auto lost = [&](Cause cause, int trays, const std::string& words) {
    if (trays > 0) out.push_back({cause, trays * usual_.tray_kg, words});
  };
  lost(Cause::no_grain, b.no_grain, fmt::format("{} not sown on {} for want of grain", trays_words(b.no_grain), date(identity.first)));
  lost(Cause::nobody, b.unattended, fmt::format("{} not soaked on {}: nobody was there", trays_words(b.unattended), date(identity.first)));
  lost(Cause::nobody, b.bucket_taken, fmt::format("{} not soaked on {}: the buckets were full of grain that nobody had sown", trays_words(b.bucket_taken), date(identity.first)));
  lost(Cause::nobody, b.foul, fmt::format("{} not sown on {}: nobody was there, and the grain went foul", trays_words(b.foul), date(identity.first)));
  lost(Cause::no_bucket, b.no_bucket, fmt::format("{} not soaked on {} for want of buckets", trays_words(b.no_bucket), date(identity.first)));
  lost(Cause::no_hands, b.no_time, fmt::format("{} not sown on {} for want of time", trays_words(b.no_time), date(identity.first)));
  lost(Cause::no_place, b.no_place, fmt::format("{} found no place on {}", trays_words(b.no_place), date(identity.first)));
  lost(Cause::mouldy, b.mouldy, fmt::format("{} {} went mouldy", trays_words(b.mouldy), when));
  lost(Cause::sour, b.sour, fmt::format("{} {} went sour", trays_words(b.sour), when));
  lost(Cause::frost, b.frosted, fmt::format("{} {} {} killed by frost", trays_words(b.frosted), when, b.frosted == 1 ? "was" : "were"));
  lost(Cause::frost, b.frozen_out, fmt::format("{} not sown on {}: the room was freezing", trays_words(b.frozen_out), date(identity.first)));
  lost(Cause::composted, b.composted, fmt::format("{} {} had been composted", trays_words(b.composted), when));
  if (b.unready > 0) {
    lost(slow_for_water(b) ? Cause::slow_dry : Cause::slow, b.unready, fmt::format("{} {} {}", trays_words(b.unready), when, unready(b)));
  }
  if (b.cut == 0) return;
  const double missing = b.cut * usual_.tray_kg - b.cut_kg;
  if (missing < clearly * b.cut * usual_.tray_kg) return;
  const double sprouted = b.sprouted / b.cut;
  const std::string thin = fmt::format("mats {} weighed {} each, {} is usual", when, mass_words(units_, b.cut_kg / b.cut),
                                       mass_words(units_, usual_.tray_kg));
  if (b.dried > 0 && (b.killed > clearly || b.dry_hours > 12.0)) {
    out.push_back({Cause::thin_dry, missing, fmt::format("{}: dry for {:.0f} h{}", thin, b.dry_hours,
                                                         trouble().empty() ? "" : ", " + trouble())});
  } else if (b.lot < (1.0 - clearly) * usual_.sprouted) {
    out.push_back({Cause::thin_poor_lot, missing, fmt::format("{}: {:.0f} % of this lot germinates", thin, 100.0 * b.lot)});
  } else {
    out.push_back({Cause::thin, missing, fmt::format("{}: {:.0f} % had sprouted", thin, 100.0 * sprouted)});
  }
}

namespace {

// Reasons of one cause as one, told by the first of them.
std::vector<Reason> one_a_cause(const std::vector<Reason>& all) {
  std::vector<Reason> joined;
  std::array<int, cause_count> more{};
  for (const Reason& reason : all) {
    const auto same = std::find_if(joined.begin(), joined.end(), [&](const Reason& j) { return j.cause == reason.cause; });
    if (same == joined.end()) {
      joined.push_back(reason);
    } else {
      same->kilograms += reason.kilograms;
      ++more[static_cast<std::size_t>(reason.cause)];
    }
  }
  for (Reason& reason : joined) {
    const int batches = more[static_cast<std::size_t>(reason.cause)];
    if (batches > 0) reason.words += fmt::format(" (and {} more {})", batches, batches == 1 ? "batch" : "batches");
  }
  return joined;
}

}  // namespace

// Where nothing that went wrong explains a shortage: no mat can have been ready yet, or the rack gives too little.
Reason Story::the_rest(double missing, int last_due, bool of_more) const {
  if (!first_sown_ || last_due < *first_sown_) {
    const std::string first = first_sown_ ? fmt::format("the first mats were sown on {} and are due on {}", date(*first_sown_), date(*first_sown_ + usual_.days_on_rack))
                                          : std::string("nothing has been sown yet");
    return {Cause::start, missing, "the rack was empty at the start: " + first};
  }
  return {Cause::rack, missing, of_more ? "nothing else went wrong: the rack gives less than is wanted" : "nothing went wrong: the rack gives less than is wanted"};
}

void Story::add_reasons(const std::pair<int, int>& identity, BatchStory& batch, std::vector<Reason>& all, std::vector<BatchStory*>& whose) {
  std::vector<Reason> own;
  reasons_of(identity, batch, own);
  const auto gone = [](const Reason& reason) { return reason.cause != Cause::slow && reason.cause != Cause::slow_dry; };  // a slow mat is still to come, and lacking until then
  double lost = 0.0;
  for (const Reason& reason : own) lost += gone(reason) ? reason.kilograms : 0.0;
  const double left = lost > 0.0 ? std::max(0.0, 1.0 - batch.told / lost) : 0.0;
  for (Reason& reason : own) {
    if (gone(reason)) reason.kilograms *= left;
    if (reason.kilograms <= 1e-9) continue;
    whose.push_back(gone(reason) ? &batch : nullptr);
    all.push_back(std::move(reason));
  }
}

// What is missing is laid to its causes as far as they reach; what they leave to the rack, or, where that is little, to the largest.
void Story::count(const std::vector<Reason>& all, const std::vector<BatchStory*>& whose, double missing, int last_due) {
  double known = 0.0;
  std::array<double, cause_count> of_cause{};
  for (std::size_t i = 0; i < whose.size(); ++i) known += all[i].kilograms;
  const double share = known > missing ? missing / known : 1.0;
  for (std::size_t i = 0; i < whose.size(); ++i) {
    const double kilograms = share * all[i].kilograms;
    of_cause[static_cast<std::size_t>(all[i].cause)] += kilograms;
    if (whose[i] != nullptr) whose[i]->told += kilograms;
  }
  const double rest = missing - share * known;
  constexpr double little = 0.1;
  auto largest = static_cast<std::size_t>(std::max_element(of_cause.begin(), of_cause.end()) - of_cause.begin());
  if (rest > little * missing) of_cause[static_cast<std::size_t>(the_rest(rest, last_due, known > 0.0).cause)] += rest;
  else of_cause[largest] += std::max(0.0, rest);
  largest = static_cast<std::size_t>(std::max_element(of_cause.begin(), of_cause.end()) - of_cause.begin());
  ++counts_[largest].feedings;
  for (std::size_t i = 0; i < cause_count; ++i) counts_[i].kilograms += of_cause[i];
}

std::vector<Reason> Story::explain() {
  std::vector<Reason> all;
  std::vector<BatchStory*> whose;
  const double missing = fed_.amount - fed_.other;
  if (missed_now_) {
    all.push_back({Cause::missed_round, missing, "the round was missed"});
    whose.push_back(nullptr);
    count(all, whose, missing, fed_.day);
  } else {
    // The batches due now and in the days of grace before: what they lack is lacking here.
    const int last = fed_.day - usual_.days_on_rack;
    for (auto it = batches_.lower_bound({last - usual_.grace_days, 0}); it != batches_.end() && it->first.first <= last; ++it)
      add_reasons(it->first, it->second, all, whose);
    if (rushed_now_) all.push_back({Cause::no_hands, missing, "the keeper's time was up before enough was cut"});
    if (ice_now_) all.push_back({Cause::frost, missing, "the mats on the rack were frozen: none was cut"});
    const double usual = fed_.session == 0 ? usual_.feeding_kg : usual_.evening_kg;
    const double more = fed_.amount - usual;
    if (more > clearly * usual)
      all.push_back({Cause::demand, more, fmt::format("{} more was wanted than at a usual feeding", mass_words(units_, more))});
    whose.resize(all.size(), nullptr);
    count(all, whose, missing, last);
    // What went wrong may be far less than what is missing.
    double told = 0.0;
    for (const Reason& reason : all) told += reason.kilograms;
    constexpr double too_little = 0.5;
    if (told < too_little * missing) all.push_back(the_rest(missing - told, last, told > 0.0));
  }
  const auto more = [](const Reason& a, const Reason& b) { return a.kilograms > b.kilograms; };
  std::stable_sort(all.begin(), all.end(), more);
  all = one_a_cause(all);
  std::stable_sort(all.begin(), all.end(), more);
  if (all.size() > most_told) all.resize(most_told);
  return all;
}

std::vector<std::string> Story::summary() const {
  std::vector<std::size_t> order;
  for (std::size_t c = 0; c < cause_count; ++c) {
    if (counts_[c].feedings > 0 || counts_[c].kilograms > 0.0) order.push_back(c);
  }
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return counts_[a].kilograms > counts_[b].kilograms; });
  std::vector<std::string> lines;
  lines.reserve(order.size());
  for (const std::size_t c : order) {
    lines.push_back(fmt::format("{}: {} {}, {} missing", cause_words(static_cast<Cause>(c)), counts_[c].feedings,
                                counts_[c].feedings == 1 ? "feeding" : "feedings", mass_words(units_, counts_[c].kilograms, counts_[c].kilograms < 100.0 ? 1 : 0)));
  }
  return lines;
}

}  // namespace rackwright::app
