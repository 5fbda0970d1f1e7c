#include "sim/scenario/cautions_lots.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "models/grain/acceptance.hpp"
#include "sim/scenario/names.hpp"
#include "sim/scenario/raw_text.hpp"
#include "sim/scenario/sowing_order.hpp"
#include "sim/scenario/store_policy.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright {
namespace {

/// What sizing may choose for that key of a grain; nothing when it is no choice.
const Choice* choice_of(const Scenario& s, std::size_t grain, std::string_view key) {
  constexpr std::string_view head = "grain.";
  const auto name_of = [](const GrainSupply& g) { return std::string_view(g.name); };
  for (const Choice& choice : s.choose.choices) {
    const std::string_view name = choice.key;
    const auto dot = name.rfind('.');
    if (!name.starts_with(head) || dot == std::string_view::npos || dot < head.size() || name.substr(dot + 1) != key) continue;
    const auto label = name.substr(head.size(), dot - head.size());
    if (keys::item_index(s.grains, label, name_of) == static_cast<int>(grain))
      return &choice;
  }
  return nullptr;
}

bool may_be(const Choice* choice, std::string_view value) {
  return choice != nullptr && std::find(choice->values.begin(), choice->values.end(), value) != choice->values.end();
}

void without_trial(const Scenario& s, std::size_t index, const std::string& head, std::vector<std::string>& out) {
  const LotPolicy &policy = s.grains[index].policy, usual;
  if (policy.trial > 0 || choice_of(s, index, "trial") != nullptr) return;
  std::vector<std::string> idle;
  const auto look = [&](bool set, const char* key) {
    if (set || choice_of(s, index, key) != nullptr) idle.emplace_back(key);
  };
  look(policy.accept != usual.accept, "accept");
  look(policy.trial_time != usual.trial_time, "trial_time");
  look(policy.trial_minutes != usual.trial_minutes, "trial_minutes");
  look(policy.refused_worth != usual.refused_worth, "refused_worth");
  look(policy.keep_back != usual.keep_back, "keep_back");
  if (!idle.empty()) out.push_back(fmt::format("{}: {} without effect: trial is 0, so no lot is tried.", head, listed(idle) + (idle.size() > 1 ? " are" : " is")));
}

void shortage(const Scenario& s, std::size_t index, const std::string& head, std::vector<std::string>& out) {
  const ShortSeason& season = s.grains[index].shortage;
  const auto any = [&](bool set, const char* key) { return set || choice_of(s, index, key) != nullptr; };
  const bool chance = any(season.chance > 0.0, "short_chance");
  const bool harm = any(season.delay.value() > 0.0, "short_delay") || any(season.dearer > 0.0, "short_price") ||
                    any(season.instead != grain::GradeName::own, "short_grade");
  if (!chance && (season.from > 0 || harm))
    out.push_back(fmt::format("{}: it is never short, because short_chance is 0.", head));
  if (chance && !harm)
    out.push_back(fmt::format("{}: when it is short nothing changes: state short_delay, short_price or short_grade.", head));
}

void grade(const Scenario& s, std::size_t index, const std::string& head, std::vector<std::string>& out) {
  const GrainSupply& supply = s.grains[index];
  const Choice* chosen = choice_of(s, index, "grade");
  if (supply.bought == grain::GradeName::own && chosen == nullptr) return;
  std::vector<std::string> stated;
  const auto look = [&](bool set, const char* key) {
    if (set) stated.emplace_back(key);
  };
  look(supply.stated.germination_mean.has_value(), "germination");
  look(supply.stated.germination_rho.has_value(), "germination_spread");
  look(supply.stated.vigour_sd.has_value(), "vigour_spread");
  look(supply.stated.inoculum.has_value(), "inoculum");
  look(supply.stated.price_multiple.has_value(), "price_multiple");
  if (!stated.empty())
    out.push_back(fmt::format("{}: {} stated, and {} the same whatever the grade; leave {} out to let the grade say.", head,
                              listed(stated) + (stated.size() > 1 ? " are" : " is"), stated.size() > 1 ? "stay" : "stays",
                              stated.size() > 1 ? "them" : "it"));
  if (supply.bought != grain::GradeName::own && chosen == nullptr && !supply.stated.price_multiple && supply.price_multiple != 1.0 && supply.price_per_kg > 0.0)
    out.push_back(fmt::format("{}: grade = \"{}\" makes it cost {:.3g} a kg, {:.3g} times the price stated, which is taken for that of bulk grain. If you stated what "
                              "you pay, set price_multiple = 1.",
                              head, grain::grade_names[static_cast<std::size_t>(supply.bought)], supply.price(), supply.price_multiple));
  const std::string_view seed = grain::grade_names[static_cast<std::size_t>(grain::GradeName::seed)];
  if (supply.bought == grain::GradeName::seed || may_be(chosen, seed))
    out.push_back(fmt::format("{}: grain sold as seed is often dressed, and dressed seed is poisonous as feed: buy it untreated, in writing.", head));
}

/// Why no batch is of it, and what would sow one.
std::string unsown_words(const Scenario& s, const std::string& name) {
  const auto& named = s.line.grains;
  const auto at = std::find(named.begin(), named.end(), name);
  const std::string rule = fmt::format("the line sows {} batch{} a day, each of one grain, in the order of line.grains", s.line.batches_per_day, s.line.batches_per_day == 1 ? "" : "es");
  if (at == named.end())
    return fmt::format("name it in line.grains, a batch of the day after the other; that takes as many batches a day (line.batches_per_day) as grains are named: {}", rule);
  const auto place = at - named.begin() + 1;
  return fmt::format("{}, and {} stands at place {} there: {}", rule, name, place,
                     place > 2 ? "name it among the first two, with line.batches_per_day = 2" : "it takes line.batches_per_day = 2 to sow it, or another order");
}

/// Listed, but no batch is of it.
bool unsown(const Scenario& s, std::size_t index) {
  const std::string& name = s.grains[index].name;
  if (std::any_of(s.choose.choices.begin(), s.choose.choices.end(), [](const Choice& c) { return c.key == "line.grains" || c.key == "line.batches_per_day"; })) return false;
  const auto batches = static_cast<std::size_t>(s.line.batches_per_day);
  if (s.line.grains.empty()) return index >= batches;
  const auto end = s.line.grains.begin() + static_cast<std::ptrdiff_t>(std::min(batches, s.line.grains.size()));
  return std::find(s.line.grains.begin(), end, name) == end;
}

void hard_to_pass(const GrainSupply& supply, const std::string& head, std::vector<std::string>& out) {
  constexpr double few = 0.25;
  if (supply.policy.trial <= 0) return;
  const grain::Sieve sieve = grain::sieve(supply.grade, {supply.policy.trial, supply.policy.accept});
  if (sieve.kept >= few) return;
  out.push_back(fmt::format("{}: {} of 100 lots would pass a trial of {} kernels with accept = {:.3g} %; the line would wait for grain, or sow lots "
                            "still under trial.",
                            head, sieve.kept < 0.005 ? "fewer than 1" : fmt::format("about {:.0f}", 100.0 * sieve.kept), supply.policy.trial,
                            100.0 * supply.policy.accept));
}

/// Grain that the planned use does not reach before it is too old to be sown.
void outlasts(const Scenario& s, std::size_t index, const std::string& head, std::vector<std::string>& out) {
  const grain::StorePolicy store = policy_in_use(s.grains[index]);
  const double kept_back = (store.order_up_to - s.grains[index].store.order_up_to).value();
  const double daily = most_sown_a_day(s, index);
  if (!(daily > 0.0)) return;
  const bool us = s.units == Units::us;
  const auto mass = [us](double kg) { return write_quantity(kg, "kg", us, 3); };
  const double keeps = in_days(store.use_by), bag = store.bag.value() / daily;
  // When an order comes, what was there has shrunk by the days it was under way.
  const double lasts = store.order_up_to.value() / daily - in_days(store.delivery);
  if (lasts <= keeps && bag <= keeps) return;
  const std::string kept = write_quantity(keeps, "1", us, 3);
  const char* at_most = s.line.sow == SowRule::all ? "" : " at most";
  if (bag > keeps)
    out.push_back(fmt::format("{}: a bag of {} lasts {:.0f} days at {} a day{}, longer than the {} days of use_by: the rest is thrown out. Buy smaller bags, or sow more of it.",
                              head, mass(store.bag.value()), bag, mass(daily), at_most, kept));
  else
    out.push_back(fmt::format("{}: an order fills the store up to {}, which lasts {:.0f} days at {} a day{}, longer than the {} days of use_by: what is too old by then is "
                              "thrown out. With order_up_to = {} or less it would be used in time.",
                              head, mass(store.order_up_to.value()), lasts, mass(daily), at_most, kept, mass(std::max(0.0, (keeps + in_days(store.delivery)) * daily - kept_back))));
}

}  // namespace

void lot_cautions(const Scenario& scenario, std::vector<std::string>& out) {
  same_line_cautions(scenario, out);
  for (std::size_t i = 0; i < scenario.grains.size(); ++i) {
    const std::string head = keys::grain_head(scenario, i);
    if (unsown(scenario, i))
      out.push_back(fmt::format("{}: no batch is sown of it, so nothing asked of it makes a difference: {}.", head, unsown_words(scenario, scenario.grains[i].name)));
    grade(scenario, i, head, out);
    without_trial(scenario, i, head, out);
    shortage(scenario, i, head, out);
    hard_to_pass(scenario.grains[i], head, out);
    outlasts(scenario, i, head, out);
  }
}

}  // namespace rackwright
