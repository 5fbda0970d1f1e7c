// `rackwright lot`: what a germination trial says of a lot, beside the one in use.

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include "sim/app/commands.hpp"
#include "sim/app/exit.hpp"
#include "sim/app/load.hpp"
#include "sim/app/lot_policies.hpp"
#include "sim/app/lot_study.hpp"
#include "sim/app/say.hpp"
#include "sim/report/words.hpp"
#include "sim/scenario/suggest.hpp"
#include "sim/scenario/unit_text.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright::app {

namespace {

using Json = nlohmann::ordered_json;
constexpr int most_kernels = 100'000;
constexpr std::size_t most_trays = 1'000;

/// "46/50" or several with commas or blanks between.
std::vector<grain::TrialTray> read_trays(std::string_view option, const std::string& text) {
  std::vector<grain::TrialTray> trays;
  std::size_t at = 0;
  while ((at = text.find_first_not_of(", ", at)) != std::string::npos) {
    const std::size_t end = std::min(text.find_first_of(", ", at), text.size());
    const std::string item = text.substr(at, end - at);
    const std::size_t slash = item.find('/');
    const auto complain = [&](const std::string& why) {
      throw BadInput(fmt::format("--{} {}: {}; write how many sprouted of how many sown, one for each tray: 46/50 44/50", option,
                                 item, why));
    };
    if (slash == std::string::npos) complain("is not COUNT/SOWN");
    const auto germinated = read_whole(std::string_view(item).substr(0, slash), 0, most_kernels);
    const auto sown = read_whole(std::string_view(item).substr(slash + 1), 1, most_kernels);
    if (!germinated || !sown) complain(fmt::format("needs whole numbers, 1 to {} sown", most_kernels));
    if (*germinated > *sown) complain("more sprouted than were sown");
    if (trays.size() == most_trays) complain(fmt::format("more than {} trays", most_trays));
    trays.push_back({static_cast<int>(*germinated), static_cast<int>(*sown)});
    at = end;
  }
  return trays;
}

double read_number(const Options& options, Option option, std::string_view unit, double least, double most) {
  const std::string& text = options.texts.at(option);
  const auto read = read_quantity(text, unit);
  const auto complain = [&](const std::string& why) {
    throw BadInput(fmt::format("--{} {}: {}", option_name(option), text, why));
  };
  if (const auto* fault = std::get_if<UnitFault>(&read)) complain(fault->why);
  const double value = std::get<double>(read);
  if (value >= least && value <= most) return value;
  if (unit == "1") complain(fmt::format("must be between {:g} % and {:g} %", 100.0 * least, 100.0 * most));
  if (unit.starts_with("1/")) complain(fmt::format("must be between {:f} and {:g} a {}", least, most, unit.substr(2)));
  complain(fmt::format("must be between {:g} and {:g} {}", least, most, unit));
  return value;
}

/// Its place in the scenario.
std::size_t wanted_grain(const Scenario& scenario, const Options& options) {
  const auto named = options.texts.find(Option::of);
  if (named == options.texts.end()) return 0;
  std::vector<std::string> names;
  for (std::size_t i = 0; i < scenario.grains.size(); ++i) {
    if (scenario.grains[i].name == named->second) return i;
    names.push_back(scenario.grains[i].name);
  }
  throw BadInput(fmt::format("--of {}: the scenario has no such grain; it has {}{}", named->second, fmt::join(names, ", "), did_you_mean(nearest(named->second, names))));
}

LotQuestion read_question(const Options& options, const GrainSupply& supply, bool us) {
  LotQuestion question;
  const auto trial = options.texts.find(Option::trial);
  if (trial == options.texts.end())
    throw BadInput("say what the trial gave: --trial COUNT/SOWN, such as --trial 46/50 44/50 (one for each tray)");
  question.candidate = read_trays("trial", trial->second);
  if (question.candidate.empty()) throw BadInput("--trial: no counts");
  if (const auto current = options.texts.find(Option::current); current != options.texts.end())
    question.current = read_trays("current", current->second);
  question.candidate_price = supply.price();
  if (const auto price = options.texts.find(Option::price); price != options.texts.end() && !us && bare_ton(price->second))
    throw BadInput(fmt::format("--{} {}: {}", option_name(Option::price), price->second, which_ton));
  if (options.texts.contains(Option::price)) question.candidate_price = read_number(options, Option::price, "1/kg", 1e-6, 1e4);
  if (options.texts.contains(Option::sure)) question.sure = read_number(options, Option::sure, "1", 0.5, 0.999);
  const bool height = options.texts.contains(Option::height), after = options.texts.contains(Option::after);
  if (height != after) throw BadInput("--height and --after go together: --height \"10 cm\" --after \"6 d\"");
  if (height) {
    question.height_cm = read_number(options, Option::height, "cm", 0.5, 40.0);
    question.height_days = read_number(options, Option::after, "d", 0.5, 30.0);
  }
  if (options.texts.contains(Option::at)) question.height_temperature = read_number(options, Option::at, "degC", 2.0, 36.0);
  if (!(supply.price() > 0.0))
    throw BadInput(fmt::format("grain.{}.price is 0: without a price nothing can be said of money", supply.name));
  return question;
}

std::string_view advice_name(Advice advice) {
  switch (advice) {
    case Advice::change: return "switch";
    case Advice::stay: return "stay";
    case Advice::repeat: return "repeat the trial";
    case Advice::larger: return "try again larger";
    case Advice::alike: return "alike";
  }
  return "";
}

/// How far the trial's trays differ, beside what chance makes of trays of one lot. Agreement::allowed is passed by chance in one trial of 40.
std::string spread_words(const LotAnswer& a, const LotQuestion& q) {
  const grain::Agreement& found = a.agreement;
  if (found.from_table) return fmt::format("by {:.3g} %, and chance explains up to {:.3g} % (seed-testing table, 7 CFR 201.55)", found.found, found.allowed);
  return fmt::format("a spread of {:.3g}, where chance alone makes about {} for {} trays, and above {:.3g} in one trial of 40 only",
                     found.found, q.candidate.size() - 1, q.candidate.size(), found.allowed);
}

/// A chance that is not known to be none or all is not told so.
std::string chance(double share) {
  constexpr double hardly = 1e-9;
  return report::whole_percent(std::clamp(share, hardly, 1.0 - hardly));
}

std::string advice_words(const LotAnswer& a, const LotQuestion& q) {
  const double pays = a.money.pays;
  const double exactly = 100.0 * (a.money.candidate / a.money.current - 1.0);
  const double more = std::round(10.0 * exactly) / 10.0 + 0.0, whole = std::round(exactly) + 0.0;  // never minus nothing
  const std::string untested = q.current.empty() ? " Testing the lot in use too (--current) would tell more." : "";
  switch (a.advice) {
    case Advice::change:
      if (a.poorer)
        return fmt::format("Play it first: for the money the new lot is expected to give {:.0f} % more fodder, with a chance of {}, but it germinates notably worse. Grain that does not sprout "
                           "feeds mould, and fewer sprouts fill fewer bellies; in a warm room, or where the ration is barely met, that outweighs the price.{}",
                           whole, chance(pays), untested);
      if (a.money.pays < q.sure)
        return fmt::format("For the money, switch, on the balance: the new lot is expected to give {:.0f} % more fodder for it, and gives more "
                           "with a chance of {}; a further trial would hardly change that.{}",
                           whole, chance(pays), untested);
      return fmt::format("For the money, switch: the new lot gives more fodder for it with a chance of {}, {:.0f} % more on average.", chance(pays), whole);
    case Advice::stay:
      if (a.money.pays > 1.0 - q.sure)
        return fmt::format("Stay, on the balance: the new lot is expected to give {:.0f} % less for the money, and gives more with a "
                           "chance of {} only; a further trial would hardly change that.{}",
                           -whole + 0.0, chance(pays), untested);
      return fmt::format("Stay: the lot in use gives more for the money with a chance of {}, {:.0f} % more on average.",
                         chance(1.0 - pays), 100.0 * (a.money.current / std::max(1e-9, a.money.candidate) - 1.0));
    case Advice::repeat:
      return fmt::format("Repeat the trial: its trays differ more than chance explains ({}). One of them was sown, watered or counted otherwise.",
                         spread_words(a, q));
    case Advice::larger:
      return fmt::format("Try again larger: a switch pays with a chance of {}, {:+.0f} % on average; {} more kernels are worth "
                         "the trouble before you decide.{}",
                         chance(pays), whole, *a.worth_trying, untested);
    case Advice::alike:
      return fmt::format("Alike: a switch pays with a chance of {}, {:+.1f} % on average. Stay, or take the handier one.{}",
                         chance(pays), more, untested);
  }
  return "";
}

constexpr std::string_view not_weighed =
    "This weighs fodder for the money, of mats that stay sound in a room of 20 degC, and nothing else. Not weighed: the warmth of your room, in which more mats spoil (mould lives on "
    "grain that does not sprout), spoiled mats fed unnoticed, and days on which a meal is short. To see those for both lots on the same luck:";
constexpr std::string_view not_weighed_us =
    "This weighs fodder for the money, of mats that stay sound in a room of 68 degF, and nothing else. Not weighed: the warmth of your room, in which more mats spoil (mould lives on "
    "grain that does not sprout), spoiled mats fed unnoticed, and days on which a meal is short. To see those for both lots on the same luck:";

constexpr std::string_view look_first =
    "Before any trial: only untreated grain, for seed dressed against pests or mould is poisonous as feed, whatever it germinates (see its label). Refuse a lot that is musty, mouldy, "
    "warm, dusty with mould, or holds ergot or strange seed.";

/// A file that is not there yet, so that the command of a second lot runs as well.
std::string fresh_name() {
  std::error_code unseen;
  for (int number = 1;; ++number) {
    std::string name = number == 1 ? std::string("lots.h5") : fmt::format("lots{}.h5", number);
    if (!std::filesystem::exists(name, unseen)) return name;
  }
}

/// The lot tried in the place of the one in use, all else alike.
std::string weigh_command(const Loaded& loaded, const GrainSupply& supply, const LotAnswer& answer, bool tested, const Options& options) {
  std::string change = fmt::format("grain.{}.germination={:.3g} %", supply.name, 100.0 * answer.candidate.mean());
  // What is asked for a lot is its price, whatever a grade of the scenario makes of that of its grain.
  if (const auto price = options.texts.find(Option::price); price != options.texts.end()) {
    change += fmt::format(", grain.{}.price={}", supply.name, price->second);
    if (supply.price_multiple != 1.0) change += fmt::format(", grain.{}.price_multiple=1", supply.name);
  }
  std::string command = fmt::format("rackwright simulate {}", loaded.path.find(' ') == std::string::npos ? loaded.path : '"' + loaded.path + '"');
  for (const std::string& setting : options.settings) command += fmt::format(" --set \"{}\"", setting);
  if (tested) command += fmt::format(" --set \"grain.{}.germination={:.3g} %\"", supply.name, 100.0 * answer.current.mean());
  return command + fmt::format(" --against \"{}\" --out {}", change, fresh_name());
}

std::string law_words(const grain::FractionLaw& law) {
  return fmt::format("{:.1f} % ({:.1f} to {:.1f})", 100.0 * law.mean(), 100.0 * law.quantile(0.025), 100.0 * law.quantile(0.975));
}

void row(std::string_view label, const std::string& value, std::string_view remark = "") {
  fmt::print("  {:<38} {}{}{}\n", label, value, remark.empty() ? "" : "   ", remark);
}

void print_text(const Scenario& s, const GrainSupply& supply, const LotQuestion& q, const LotAnswer& a, const std::string& command) {
  const bool us = s.units == Units::us;
  fmt::print("{}", report::wrapped(advice_words(a, q), 0, 2));
  fmt::print("{}    {}\n", report::wrapped(us ? not_weighed_us : not_weighed, 0, 2), command);
  fmt::print("\nGermination, with a 95 % range\n");
  row("the lot tried", law_words(a.candidate), fmt::format("trays of one lot are taken to differ a little (tray_spread {:g})", supply.grade.tray_rho));
  row("the lot in use", law_words(a.current), q.current.empty() ? "by the scenario; --current COUNT/SOWN tests it" : "");
  if (a.agreement.judged && a.agreement.from_table) {
    row("the trial's trays differ by", fmt::format("{:.3g} %", a.agreement.found), fmt::format("chance explains up to {:.3g} % (seed-testing table, 7 CFR 201.55)", a.agreement.allowed));
  } else if (a.agreement.judged) {
    row("spread of the trial's trays (*)", fmt::format("{:.3g}", a.agreement.found),
        fmt::format("by chance about {}; above {:.3g} in one trial of 40 only", q.candidate.size() - 1, a.agreement.allowed));
  }
  if (a.vigour)
    row("speed of sprouting, usual is 1", fmt::format("{:.2f} ({:.2f} to {:.2f})", a.vigour->mean, a.vigour->low, a.vigour->high),
        a.days_as_ripe ? fmt::format("{} d on the rack become about {:.1f}", s.line.days_on_rack, *a.days_as_ripe) : "");
  if (a.agreement.judged && !a.agreement.from_table)
    fmt::print("{}", report::wrapped("(*) Each tray's distance from the share they have in common, squared, over what chance makes of it; these added up (statisticians say chi-square).", 2, 2));
  fmt::print("\nMoney\n");
  const auto fodder = [&](double per_money) { return fmt::format("{} for 1 {}", write_quantity(per_money, "kg", us, 3), s.currency); };
  row("green fodder, the lot tried", fodder(a.money.candidate));
  row("green fodder, the lot in use", fodder(a.money.current));
  row("a switch pays with a chance of", chance(a.money.pays));
  const auto price = [&](double per_kg) {
    std::string text = write_quantity(per_kg, "1/kg", us, 3);
    text.insert(text.find('/'), s.currency);
    return text;
  };
  row("it breaks even at a price of", price(a.break_even_price), "asked: " + price(q.candidate_price));
  const std::string now = write_quantity(s.line.sowing_density.value(), "kg/m2", us, 3);
  if (a.same_sprouts <= a.thickest) row("sow, for as many sprouts as now", write_quantity(a.same_sprouts, "kg/m2", us, 3), "now " + now);
  else row("sow, for as many sprouts as now", "not to be had", fmt::format("beyond {} sprouts find no room; now {}", write_quantity(a.thickest, "kg/m2", us, 3), now));
  fmt::print("\nA further trial\n");
  for (const grain::TrialValue& trial : a.trials) {
    const double gain = 100.0 * trial.gain / std::max(a.money.candidate, a.money.current);
    row(fmt::format("{} kernels more: wrong choice in", trial.kernels), fmt::format("{:.1f} %", 100.0 * trial.wrong),
        gain < 0.01 ? "worth nothing" : fmt::format("worth {:.2f} % of the grain money", gain));
    if (trial.wrong <= 1.0 - q.sure || (a.worth_trying && trial.kernels >= 2 * *a.worth_trying)) break;
  }
  fmt::print("\nThe lot in use, after a switch\n");
  if (a.keep_back > 0.0)
    row("keep back", write_quantity(a.keep_back, "kg", us, 3),
        fmt::format("for {:.0f} d: until the first new mats are ripe, or others delivered", a.keep_days));
  if (a.ageing_days)
    row("is worth no more than the new lot after", fmt::format("{:.0f} d", *a.ageing_days), supply.store_temperature ? "in store, at its own temperature" : "in store, at the year's mean temperature");
  fmt::print("\n{}", report::wrapped(look_first, 0, 2));
}

Json law_json(const grain::FractionLaw& law) {
  return {{"mean", law.mean()}, {"low", law.quantile(0.025)}, {"high", law.quantile(0.975)}, {"sd", law.deviation()}, {"unit", "1"}};
}

void print_json(const Scenario& s, const LotQuestion& q, const LotAnswer& a, const std::string& command) {
  Json all = {{"advice", advice_name(a.advice)}, {"sentence", advice_words(a, q)}, {"germinates_notably_worse", a.poorer}, {"caution", look_first}, {"not_weighed", not_weighed}, {"command", command}};
  all["candidate"] = law_json(a.candidate);
  all["current"] = law_json(a.current);
  all["replicates"] = a.agreement.judged ? Json{{"agree", a.agreement.agree()},
                                                {"found", a.agreement.found},
                                                {"allowed", a.agreement.allowed},
                                                {"judged_by", a.agreement.from_table ? "table" : "chi-square"}}
                                         : Json();
  all["vigour"] = a.vigour ? Json{{"mean", a.vigour->mean}, {"low", a.vigour->low}, {"high", a.vigour->high}, {"unit", "1"}} : Json();
  all["days_as_ripe"] = a.days_as_ripe ? Json{{"value", *a.days_as_ripe}, {"unit", "d"}} : Json();
  const std::string per_money = "kg/" + s.currency, price = s.currency + "/kg";
  all["switch_pays"] = {{"value", a.money.pays}, {"unit", "1"}};
  all["green_fodder_candidate"] = {{"value", a.money.candidate}, {"unit", per_money}};
  all["green_fodder_current"] = {{"value", a.money.current}, {"unit", per_money}};
  all["break_even_price"] = {{"value", a.break_even_price}, {"unit", price}};
  all["same_sprouts_density"] = {{"value", a.same_sprouts}, {"unit", "kg/m2"}};
  all["further_trial"] = Json::array();
  for (const grain::TrialValue& trial : a.trials)
    all["further_trial"].push_back({{"kernels", trial.kernels}, {"wrong_choice", trial.wrong}, {"gain", trial.gain}});
  all["kernels_worth_trying"] = a.worth_trying ? Json(*a.worth_trying) : Json();
  all["kernels_that_decide"] = a.decides ? Json(*a.decides) : Json();
  all["keep_back"] = {{"value", a.keep_back}, {"unit", "kg"}};
  all["keep_for"] = {{"value", a.keep_days}, {"unit", "d"}};
  all["current_ages_to_equal_in"] = a.ageing_days ? Json{{"value", *a.ageing_days}, {"unit", "d"}} : Json();
  fmt::print("{}\n", all.dump(2));
}

}  // namespace

int lot(const Options& options) {
  for (const std::string& word : options.words)
    if (looks_like_counts(word)) throw BadInput(fmt::format("{}: counts of which lot? Write --trial or --current before them", word));
  const Loaded loaded = load(options);
  const std::size_t grain = wanted_grain(loaded.scenario, options);
  if (options.policies) {
    for (const Option other : {Option::trial, Option::current, Option::price, Option::sure, Option::height, Option::after, Option::at})
      if (options.texts.contains(other)) throw BadInput(fmt::format("--policies asks of every lot to come, --{} of one: ask one at a time", option_name(other)));
    return lot_policies(loaded, grain, options);
  }
  const GrainSupply& supply = loaded.scenario.grains[grain];
  const LotQuestion question = read_question(options, supply, loaded.scenario.units == Units::us);
  const LotAnswer answer = study_lot(loaded.scenario, grain, question);
  const std::string command = weigh_command(loaded, supply, answer, !question.current.empty(), options);
  options.json ? print_json(loaded.scenario, question, answer, command) : print_text(loaded.scenario, supply, question, answer, command);
  return good;
}

}  // namespace rackwright::app
