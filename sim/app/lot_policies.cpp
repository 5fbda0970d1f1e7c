#include "sim/app/lot_policies.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <nlohmann/json.hpp>
#include <string>

#include <fmt/core.h>

#include "models/grain/acceptance.hpp"
#include "sim/app/exit.hpp"
#include "sim/app/interrupt.hpp"
#include "sim/app/say.hpp"
#include "sim/replication/sown.hpp"
#include "sim/report/words.hpp"
#include "sim/scenario/cautions.hpp"
#include "sim/scenario/units.hpp"
#include "sim/study/lot_policies.hpp"

namespace rackwright::app {
namespace {

using Json = nlohmann::ordered_json;
using study::Estimate;
using study::LotMeasure;
using study::LotPolicies;

constexpr std::array<std::string_view, study::lot_ways> way_keys{"no_trial", "trial", "trial_and_keep_back"};

const Estimate& of(const std::array<Estimate, study::lot_measures>& all, LotMeasure measure) { return all[static_cast<std::size_t>(measure)]; }

int decimals(const Estimate& e) { return report::decimals_for(0.5 * (e.high - e.low), e.mean); }

/// "saves 23 EUR a year (12 to 34)", "costs ...", or that nothing is shown.
std::string change(const Estimate& more, std::string_view name, std::string_view what, std::string_view saves, std::string_view costs) {
  const int digits = decimals(more);
  const double sign = more.high < 0.0 ? -1.0 : 1.0;
  const double low = std::min(sign * more.low, sign * more.high), high = std::max(sign * more.low, sign * more.high);
  if (more.low == 0.0 && more.high == 0.0) return fmt::format("changes nothing in {}", name);
  if (!(more.low > 0.0 || more.high < 0.0))
    return fmt::format("shows no difference in {} ({} to {} {})", name, report::plain(more.low, digits), report::plain(more.high, digits), what);
  std::string much = fmt::format("{} {} {}", more.high < 0.0 ? saves : costs, report::plain(sign * more.mean, digits), what);
  if (high - low < 1e-9 * high) return much;  // the same in every run
  return much + fmt::format(" ({} to {})", report::plain(low, digits), report::plain(high, digits));
}

std::string worth(const std::string& way, const std::array<Estimate, study::lot_measures>& more, const std::string& currency) {
  return fmt::format("{} {}, {}, and {}.", way, change(of(more, LotMeasure::money), "money", currency + " a year", "saves", "costs"),
                     change(of(more, LotMeasure::short_days), "short days", "short days a year", "spares", "brings"),
                     change(of(more, LotMeasure::spoiled), "spoiled trays", "spoiled trays a year", "spares", "brings"));
}

std::string verdict(const LotPolicies& p) {
  const auto better = [](const Estimate& e) { return e.high < 0.0; };
  const auto worse = [](const Estimate& e) { return e.low > 0.0; };
  const auto& trial = p.more[0];
  const Estimate& money = of(trial, LotMeasure::money);
  const Estimate& days = of(trial, LotMeasure::short_days);
  std::string said;
  if (better(money) && !worse(days)) said = "Try new lots before you sow them: it pays.";
  else if (worse(money) && !better(days)) said = "Do not try new lots: it costs more than it brings.";
  else if (better(days)) said = "A trial spares short days; whether it is worth its money is yours to weigh.";
  else if (worse(days)) said = "A trial brings short days: lots are refused faster than others come.";
  else said = "It makes no difference that so many years of luck show.";
  const auto& kept = p.more[2];
  const bool pays = better(of(kept, LotMeasure::money)) || better(of(kept, LotMeasure::short_days));
  const bool hurts = worse(of(kept, LotMeasure::money)) || worse(of(kept, LotMeasure::short_days));
  if (pays && !hurts) said += " Keep some of the old lot back meanwhile.";
  else if (hurts && !pays) said += " Keeping grain back beside it is not worth it.";
  return said;
}

struct Told {
  const Scenario& scenario;
  const GrainSupply& supply;
  const LotPolicies& found;
  grain::Sieve sieve;
};

std::array<std::string, study::lot_ways> way_words(const Told& t) {
  const bool us = t.scenario.units == Units::us;
  return {"no trial", "a trial",
          fmt::format("a trial, {} kept back", write_quantity(t.found.ways.kept.keep_back.value(), "kg", us, 3))};
}

std::string lots_words(const grain::Sieve& sieve) {
  constexpr double few = 0.005;
  if (sieve.kept > 1.0 - few) return fmt::format("By its germination as stated nearly every lot passes; they germinate {:.1f} % on average.", 100.0 * sieve.mean);
  if (sieve.kept < few) return fmt::format("By its germination as stated hardly any lot passes; they germinate {:.1f} % on average.", 100.0 * sieve.refused);
  return fmt::format("By its germination as stated {:.0f} of 100 lots pass; they germinate {:.1f} % on average, those refused {:.1f} %.", 100.0 * sieve.kept,
                     100.0 * sieve.mean, 100.0 * sieve.refused);
}

void print_text(const Told& t) {
  const bool us = t.scenario.units == Units::us;
  const LotPolicies& p = t.found;
  const LotPolicy& trial = p.ways.trial;
  const auto words = way_words(t);
  const std::string& currency = t.scenario.currency;
  fmt::print("{}", report::wrapped(verdict(p), 0, 2));
  if (const std::string laid = laid_words(t.scenario); !laid.empty()) fmt::print("{}", report::wrapped(laid, 0, 2));
  fmt::print("\n{}", report::wrapped(fmt::format("A trial of {}: {} kernels of each new lot, {:.3g} d, {:.3g} min of your time; kept where {:.3g} % or more "
                                                 "sprout, else given back for {:.3g} % of its price and ordered anew.",
                                                 t.supply.name, trial.trial, in_days(trial.trial_time), trial.trial_minutes, 100.0 * trial.accept, 100.0 * trial.refused_worth), 0, 2));
  fmt::print("{}", report::wrapped(lots_words(t.sieve), 0, 2));
  std::string standard;
  if (p.ways.usual_trial) standard += "Your scenario states no trial of this grain: the number of kernels is the standard one. ";
  if (p.ways.usual_kept) standard += "It states no keep_back: what is kept back lasts for two trials and a late delivery. ";
  if (p.ways.bin > t.supply.store.bin) standard += fmt::format("Keeping back takes a bin of {}. ", write_quantity(p.ways.bin.value(), "kg", us, 3));
  if (!standard.empty()) fmt::print("{}", report::wrapped(standard.substr(0, standard.size() - 1), 0, 2));
  fmt::print("\nA year, over {} runs\n  {:<30}{:>14}{:>14}{:>16}{:>15}{:>15}\n", p.replications, "", currency, "short days", "spoiled trays",
             "lots refused", "sown untried");
  for (std::size_t way = 0; way < study::lot_ways; ++way) {
    const auto cell = [&](LotMeasure m) { return report::plain(of(p.each[way], m).mean, decimals(of(p.each[way], m))); };
    fmt::print("  {}{:>14}{:>14}{:>16}{:>15}{:>15}\n", report::left(words[way], 30), cell(LotMeasure::money), cell(LotMeasure::short_days),
               cell(LotMeasure::spoiled), cell(LotMeasure::refused), write_quantity(of(p.each[way], LotMeasure::untried).mean, "kg", us, 3));
  }
  fmt::print("\nOn the same luck, with 95 % ranges\n");
  fmt::print("{}", report::wrapped(worth("A trial", p.more[0], currency), 2, 2));
  fmt::print("{}", report::wrapped(worth("A trial with grain kept back", p.more[1], currency), 2, 2));
  fmt::print("{}", report::wrapped(worth("Keeping back, beside a trial,", p.more[2], currency), 2, 2));
}

Json all_of(const std::array<Estimate, study::lot_measures>& all, const std::string& currency) {
  Json json;
  for (std::size_t m = 0; m < study::lot_measures; ++m) {
    const auto text = study::text_of(static_cast<LotMeasure>(m));
    json[text.name] = {{"mean", all[m].mean}, {"low", all[m].low}, {"high", all[m].high},
                       {"unit", text.unit == "currency" ? currency : std::string(text.unit)}};
  }
  return json;
}

void print_json(const Told& t) {
  const LotPolicies& p = t.found;
  const LotPolicy& trial = p.ways.trial;
  const std::string& currency = t.scenario.currency;
  Json all = {{"sentence", verdict(p)}, {"grain", t.supply.name}, {"replications", p.replications}, {"per", "365 d"}};
  all["rule"] = {{"trial", trial.trial}, {"accept", trial.accept}, {"trial_time", {{"value", in_days(trial.trial_time)}, {"unit", "d"}}},
                 {"keep_back", {{"value", p.ways.kept.keep_back.value()}, {"unit", "kg"}}}};
  if (const std::string laid = laid_words(t.scenario); !laid.empty()) all["laid_upon_every_run"] = laid;
  all["lots"] = {{"pass", t.sieve.kept}, {"germination_kept", t.sieve.mean}, {"germination_refused", t.sieve.refused}};
  for (std::size_t way = 0; way < study::lot_ways; ++way) all["ways"][way_keys[way]] = all_of(p.each[way], currency);
  all["differences"] = {{"trial_less_no_trial", all_of(p.more[0], currency)},
                        {"trial_and_keep_back_less_no_trial", all_of(p.more[1], currency)},
                        {"keep_back_less_trial", all_of(p.more[2], currency)}};
  fmt::print("{}\n", all.dump(2));
}

}  // namespace

int lot_policies(const Loaded& loaded, std::size_t grain, const Options& options) {
  if (loaded.scenario.run.replications < 2) throw BadInput("--policies needs two runs or more to tell luck from worth: --replications 100");
  if (!is_sown(make_plan(loaded.scenario), grain))
    throw BadInput(fmt::format("no batch is sown of {}, so no way of buying it makes a difference: name it in line.grains", loaded.scenario.grains[grain].name));
  const study::PairRequest request{loaded.scenario.run.random_seed, static_cast<std::uint32_t>(loaded.scenario.run.replications),
                                   options.threads, &catch_interrupts()};
  const LotPolicies found = study::lot_policies(loaded.scenario, grain, request);
  if (request.stop->load()) {
    message("stopped: nothing is said of part of the runs\n");
    return fault;
  }
  const GrainSupply& supply = loaded.scenario.grains[grain];
  const Told told{loaded.scenario, supply, found, grain::sieve(supply.grade, {found.ways.trial.trial, found.ways.trial.accept})};
  options.json ? print_json(told) : print_text(told);
  return good;
}

}  // namespace rackwright::app
