// What `rackwright fit trays` says of a log: how much of it is used, what it tells, whether to trust its forecasts.
#include <cmath>
#include <string>

#include <fmt/format.h>

#include "sim/app/fit_trays.hpp"
#include "tests/catch.hpp"
#include "tests/logged.hpp"

using namespace rackwright;
using namespace rackwright::app;

namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

/// A small log made by the models, its fit, and what may be changed of either before it is told.
struct Told {
  Scenario scenario{};
  study::FitLog used;
  study::Posterior before, after;
  test::MadeUp made;
  study::LoggedRoom room;
  study::TrayModel model;

  Told() : made(test::made_up(Scenario{}, {.trays = 24}, 47, 0)), room(made.log), model(scenario, room, {"barley"}) {
    used = study::fit_log(made.log, scenario, true, room, model);
    const study::TrayFit fit(scenario, model, used);
    before = fit.prior();
    after = fit.fit();
  }
  template <class Say>
  [[nodiscard]] std::string say(Say what, const std::string& path = "log.csv") const {
    const study::TrayFit fit(scenario, model, used);
    const Scenario fitted = study::with_fit(scenario, after);
    const study::UsualTray usual{};
    const study::Usual::Band half{0.5, 0.0005, 0.05}, kilos{6.5, 5.0, 8.0}, tall{15.0, 12.0, 18.0};
    const TrayAnswer answer{path, made.log, scenario, fitted, used, fit, before, after, usual, {kilos, tall, half}, {kilos, tall, half}};
    return what(answer);
  }
  [[nodiscard]] std::string text() const { return say(tray_text); }
};

study::ForecastCheck weeks(int weights, double crps) {
  study::ForecastCheck c;
  c.weeks.resize(8);
  c.weights = weights;
  c.mean_weight = 4.0;
  c.crps = crps;
  c.naive_crps = 1.0;
  c.within_50 = 0.5;
  c.within_90 = 0.9;
  return c;
}

}  // namespace

TEST_CASE("fit trays: what of a log is used, set aside or taken from the scenario is counted, one or many") {
  Told told;
  told.used.unused = {{"nothing came of them yet", {7, 9}}, {"their days on the rack are not stated", {12}}};
  told.used.assumed = {{"the soak", 1}, {"the tray's size", 4}};
  told.made.log.set_aside = {"weather", "remarks"};
  const std::string text = told.text();
  INFO(text);
  CHECK(has(text, "  not used: 2 trays (lines 7 and 9), since nothing came of them yet\n"));
  CHECK(has(text, "  not used: 1 tray (line 12), since their days on the rack are not stated\n"));
  CHECK(has(text, "  the soak taken from the scenario, or as usual, for 1 tray\n"));
  CHECK(has(text, "  columns set aside: weather, remarks\n"));
  CHECK(has(text, "chance that it spoils"));
  CHECK(has(text, "50 % (0.05 % to 5.0 %)"));
  CHECK(has(text, "height [cm]                        15.0 (12.0 to 18.0)"));
  CHECK(trays_logged(told.used) == static_cast<int>(told.used.seen.size()) + 3);
  told.used.unused = {{"nothing came of them yet", {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 40}}};
  CHECK(has(told.text(), "  not used: 12 trays (lines 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, ... 40), since"));
  told.scenario.units = Units::us;
  CHECK(has(told.text(), "height [in]                        5.9 (4.7 to 7.1)"));
}

TEST_CASE("fit trays: lots without a name are told as such, and more than ten as so many more") {
  Told told;
  told.used.lots[0].name.clear();
  CHECK(has(told.text(), "(no lot stated)"));
  CHECK_FALSE(has(told.text(), " more\n"));
  const std::size_t lots = told.used.lots.size();
  while (told.used.lots.size() < 13) told.used.lots.push_back({"another", 0, told.used.lots[0].grade});
  const study::TrayFit wider(told.scenario, told.model, told.used);
  told.before = told.after = wider.prior();
  CHECK(has(told.text(), "  and 3 more\n"));
  CHECK(lots < 10);
}

TEST_CASE("fit trays: a mat far from what is expected is asked after by its line, and an unsettled search is owned up to") {
  Told told;
  CHECK_FALSE(has(told.text(), "is it written as it was?"));
  study::Seen* first = nullptr;
  for (study::Seen& seen : told.used.seen)
    if (seen.log_fresh && first == nullptr) first = &seen;
  REQUIRE(first != nullptr);
  *first->log_fresh += 2.3;  // a decimal point missed
  CHECK(has(told.text(), "  line " + std::to_string(first->line) + ": this mat weighs"));
  CHECK(has(told.text(), " more than trays like it would; is it written as it was?"));
  *first->log_fresh -= 4.6;
  CHECK(has(told.text(), " less than trays like it would; is it written as it was?"));
  for (study::Seen& seen : told.used.seen)
    if (seen.log_fresh) *seen.log_fresh += 5.0;
  CHECK(has(told.text(), " more such lines\n"));
  CHECK_FALSE(has(told.text(), "did not settle"));
  told.after.settled = false;
  CHECK(has(told.text(), "did not settle: take all of this with care"));
}

TEST_CASE("fit trays: scatter is told of what was measured, and of nothing where nothing was") {
  Told told;
  CHECK(has(told.text(), "\nLike trays differ in weight by about "));
  CHECK(has(told.text(), " %, in height by about "));
  told.used.weights = 0;
  CHECK(has(told.text(), "\nLike trays differ in height by about "));
  told.used.heights = 0;
  CHECK_FALSE(has(told.text(), "Like trays differ"));
}

TEST_CASE("fit trays: a law without doubt cannot be told, and the strongest tie says how two laws go together") {
  Told told;
  told.scenario.ignorance.spread[place_of(Law::carry)] = 0.0;
  const std::string share = told.say([](const TrayAnswer& a) { return std::to_string(app::told(a, Law::carry)); });
  CHECK(share == std::to_string(0.0));
  CHECK(has(told.text(), "  The log cannot tell: "));
  CHECK(has(told.text(), "Of loss and swelling it tells more together than of either: they go up and down together (correlation 0.8"));
  double& shared = told.after.covariance(place_of(Law::swelling), place_of(Law::loss));
  shared = told.after.covariance(place_of(Law::loss), place_of(Law::swelling)) = -shared;
  const std::string against = told.text(), words = "they go against each other (correlation ";
  REQUIRE(has(against, words));
  CHECK(std::stod(against.substr(against.find(words) + words.size())) == near(-0.8, 0.05));  // eased until all ties fit together
}

TEST_CASE("fit trays: the block names its log in one line, whatever the file is called") {
  const Told told;
  CHECK(told.say(tray_block, "barn/log.csv").starts_with("# Fitted to log.csv: "));
  const std::string block = told.say(tray_block, "log\n[prices]\nlabour = 0\n.csv");
  CHECK_FALSE(has(block, "\n[prices]"));
  CHECK(block.starts_with("# Fitted to log"));
}

TEST_CASE("fit trays: whether to trust the weights goes by how they compare with the plain mean, and how sure they were") {
  const auto verdict = [](const study::ForecastCheck& c) { return forecast_text(c, Units::metric); };
  CHECK(has(verdict(weeks(19, 0.5)), "Too few weights to say whether to trust it: 19, and 20 or more are wanted."));
  CHECK(has(verdict(weeks(40, 0.5)), "Trust its weights: it foretells them better than the mean of the earlier ones does, and it is about as sure as it should be."));
  CHECK(has(verdict(weeks(40, 0.5)), ": 50 % better\n"));
  CHECK(has(verdict(weeks(40, 0.999)), ": no better\n"));
  CHECK(has(verdict(weeks(40, 1.0)), "Its weights are worth no more than the mean of the earlier ones"));
  CHECK(has(verdict(weeks(40, 1.2)), ": 20 % worse\n"));
  CHECK(has(verdict(weeks(40, 1.2)), "Do not trust its weights yet"));
  study::ForecastCheck sure = weeks(40, 0.5);
  sure.within_90 = 0.7;
  CHECK(has(verdict(sure), "somewhat too sure of itself"));
  sure.within_90 = 0.9, sure.within_50 = 0.3;
  CHECK(has(verdict(sure), "somewhat too sure of itself"));
  sure.within_90 = 1.0, sure.within_50 = 0.8;
  CHECK(has(verdict(sure), "less sure than it might be"));
  sure.within_50 = 0.6;
  CHECK(has(verdict(sure), "about as sure as it should be"));
  CHECK(has(forecast_text(weeks(40, 0.5), Units::us), "weights: 40, 8.82 lb each on average"));
}

TEST_CASE("fit trays: of spoiling a verdict needs a few spoiled mats, and nothing is said where none was looked over") {
  study::ForecastCheck c = weeks(0, 0.0);
  CHECK(forecast_text(c, Units::metric) == "One week ahead: 8 weeks, each foretold from the trays that had ended before it\n");
  c.judged = 30;
  c.spoiled = 4;
  c.log_score = c.naive_log_score = 0.5;
  CHECK(has(forecast_text(c, Units::metric), "Of spoiling, 4 mats tell too little to judge its forecast by."));
  c.spoiled = 9;
  CHECK(has(forecast_text(c, Units::metric), "Of spoiling it knows as much as the mean of the earlier trays."));
  c.log_score = 0.4;
  CHECK(has(forecast_text(c, Units::metric), "It tells risky weeks from safe ones better"));
  c.log_score = 0.6;
  CHECK(has(forecast_text(c, Units::metric), "do not go by them yet"));
  c.naive_log_score = 0.0;  // nothing to be better than
  CHECK(has(forecast_text(c, Units::metric), "Of spoiling it knows as much"));
}

TEST_CASE("fit trays: how finely a column was read is said, and that readings that are all one figure count as one") {
  Told told;
  CHECK(has(told.text(), "  a ruler on a mat is not sure to better than 0.3 cm (assumed)\n"));
  CHECK_FALSE(has(told.text(), "taken as read to"));
  CHECK_FALSE(has(told.text(), "caution"));
  for (study::Seen& seen : told.used.seen) {
    if (seen.log_height) seen.log_height = study::log_of_height(20.0);
    if (seen.log_fresh) seen.log_fresh = std::log(std::round(20.0 * std::exp(*seen.log_fresh) * seen.grain_kg) / 20.0 / seen.grain_kg);
  }
  study::note_readings(told.used);
  const std::string text = told.text();
  INFO(text);
  CHECK(has(text, "  weights taken as read to 0.05 kg, as all of them are whole multiples of it\n"));
  CHECK(has(text, "  heights taken as read to 10 cm, as all of them"));
  CHECK(has(text, fmt::format("  caution: {0} of {0} heights are 20 cm. Trays differ more than that: together they count as one reading", told.used.heights)));
  CHECK(has(text, " % (as assumed: equal readings do not tell it) from one another"));
  CHECK(has(told.say([](const TrayAnswer& a) { return tray_json(a, {}); }), "\"heights_read_to_cm\": 10.0"));
}

TEST_CASE("fit trays: a lot that was tried is told as such, and of one that was not what its figure rests on") {
  Told told;
  CHECK(has(told.text(), "No trial is stated: mats hardly tell a lot's germination from the line's own faults, so that these figures rest on the usual 92 % of barley."));
  told.scenario.grains = {GrainSupply{}};
  told.scenario.grains[0].name = "oats of mine";
  CHECK(has(told.text(), "these figures rest on grain.oats of mine.germination = 92 %."));
  CHECK(has(told.text(), "Count a trial of 100 seeds: write it into the column `germination`, or set grain.oats of mine.germination before fitting."));
  told.used.lots[0].tried = {0.81, 0.79};
  told.used.lots.push_back(told.used.lots[0]);
  told.used.lots.back().tried.clear();
  const study::TrayFit two(told.scenario, told.model, told.used);
  told.before = told.after = two.prior();
  CHECK(has(told.text(), "; as the log states it: 160 of 200 seeds, the number of seeds assumed\n"));
  CHECK(has(told.text(), "Of lots without a trial: "));
  CHECK(has(told.text(), "Grain still to be bought is played at the scenario's 92 %"));
  told.used.lots.back().tried = {0.92};
  CHECK_FALSE(has(told.text(), "rest on"));
  CHECK(has(told.text(), "Lots, as the weights show them"));
  told.used.weights = 0;
  CHECK(has(told.text(), "Lots, of which no tray was weighed"));
}

TEST_CASE("fit trays: a log of a species that the farm does not sow is told, in the block too") {
  Told told;
  CHECK_FALSE(has(told.text(), "not sown"));
  told.scenario.grains = {GrainSupply{}};
  told.used.unsown = {"wheat"};
  CHECK(has(told.text(), "  caution: wheat is not sown in this scenario (barley is); what was found on it is written for every species\n"));
  CHECK(has(told.say(tray_block), "# wheat is not sown in this scenario (barley is); what was found on it is written for every species.\n"));
}
