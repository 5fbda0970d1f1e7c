// What the models say of each grain and each class of animal, and of a soak, a mat, a hazard and a lot at a few typical places.
#include <string>

#include "models/feed/value.hpp"
#include "models/germination/fit.hpp"
#include "models/germination/germination.hpp"
#include "models/grain/acceptance.hpp"
#include "models/grain/scatter.hpp"
#include "models/grain/species.hpp"
#include "models/grain/trial.hpp"
#include "models/grain/viability.hpp"
#include "models/growth/mat.hpp"
#include "models/herd/animals.hpp"
#include "models/herd/breeding.hpp"
#include "models/herd/growth_fit.hpp"
#include "models/soak/uptake.hpp"
#include "models/spoilage/hazard.hpp"
#include "tests/regression/models/statement.hpp"

using namespace rackwright;
using test::Statements;

namespace {

void say_mat(Statements& s, const std::string& what, const growth::Mat& m) {
  s.say(what, {m.fresh_ratio, m.dry_matter, m.dry_matter_loss, m.height_cm, m.taken_up_litres, m.water_litres, m.heat_watts});
}

}  // namespace

TEST_CASE("what is said of each grain") {
  Statements s;
  for (const grain::Species& one : grain::all_species()) {
    const std::string name(one.name);
    s.say(name, {one.bulk_density.value(), one.thousand_kernel_grams, one.store_moisture, one.crude_protein});
    if (const auto soak = soak::preset(name)) {
      std::vector<double> moisture{soak->full_moisture};
      for (const double hours : {0.5, 6.0, 24.0, 500.0}) moisture.push_back(soak::moisture_after(*soak, Celsius(18.0), 0.12, Hours(hours)));
      moisture.push_back(soak::moisture_after(*soak, Celsius(30.0), 0.12, Hours(6.0)));
      s.say("  wet after 0, 6, 24, 500 h at 18 degC, 6 h at 30", moisture);
    }
    if (const auto g = germination::preset(name)) {
      std::vector<double> rates;
      for (const double t : {5.0, 12.0, 20.0, 28.0, 34.0}) rates.push_back(germination::rate(*g, Celsius(t)));
      for (const double t : {20.0, 31.0, 36.0}) rates.push_back(germination::fraction(*g, Celsius(t)));
      rates.push_back(germination::share_germinated(*g, 1.2));
      s.say("  germinates at 5, 12, 20, 28, 34 degC; of it at 20, 31, 36; share", rates);
    }
    if (const auto mat = growth::preset(name)) {
      std::vector<double> rates;
      for (const double t : {4.0, 12.0, 25.0, 33.0}) rates.push_back(growth::growth_rate(*mat, Celsius(t)));
      rates.push_back(growth::value_kept(*mat, 11.0));
      s.say("  grows at 4, 12, 25, 33 degC; worth on day 11", rates);
      say_mat(s, "  on day 3", growth::mat(*mat, 3.0, 0.9, KilogramsPerSquareMetre(5.0), 0.89));
      say_mat(s, "  on day 8", growth::mat(*mat, 8.0, 0.9, KilogramsPerSquareMetre(5.0), 0.89));
    }
    if (const auto v = grain::viability_constants(name)) s.say("  a standard deviation of deaths", {grain::sigma_days(*v, 12.0, Celsius(25.0)), grain::sigma_days(*v, 9.0, Celsius(5.0))});
  }
  s.compare(R"(
barley: 619 42 0.11 0.12
  wet after 0, 6, 24, 500 h at 18 degC, 6 h at 30: 0.42 0.18408 0.28378 0.38879 0.44537 0.3391
  germinates at 5, 12, 20, 28, 34 degC; of it at 20, 31, 36; share: 0.11996 0.24571 0.42606 0.62001 0.4985 0.98637 0.73135 0 0.7815
  grows at 4, 12, 25, 33 degC; worth on day 11: 0.098262 0.53779 1.1684 0.96442 0.88692
  on day 3: 2.8767 0.2963 0.042291 1.3646 1.894 3.154 4.6145
  on day 8: 4.8782 0.13966 0.23449 18.252 3.9742 7.3342 3.6334
  a standard deviation of deaths: 181.04 7412.9
wheat: 774 39 0.11 0.126
  wet after 0, 6, 24, 500 h at 18 degC, 6 h at 30: 0.42 0.19837 0.29094 0.38998 0.47617 0.34646
  germinates at 5, 12, 20, 28, 34 degC; of it at 20, 31, 36; share: 0.12988 0.27192 0.47063 0.68081 0.56016 0.99416 0.86466 0.43528 0.7815
  grows at 4, 12, 25, 33 degC; worth on day 11: 0.098262 0.53779 1.1684 0.96442 0.88692
  on day 3: 2.8359 0.30056 0.042291 1.3646 1.8532 3.1132 4.6145
  on day 8: 4.6332 0.14705 0.23449 18.252 3.7292 7.0892 3.6334
  a standard deviation of deaths: 188.46 8124.3
oat: 413 34 0.11 0.115
  wet after 0, 6, 24, 500 h at 18 degC, 6 h at 30: 0.42 0.1852 0.28677 0.39313 0.44537 0.34287
  germinates at 5, 12, 20, 28, 34 degC; of it at 20, 31, 36; share: 0.095106 0.20344 0.35759 0.52153 0.29366 0.99103 0.79225 0.13312 0.7815
  grows at 4, 12, 25, 33 degC; worth on day 11: 0.098262 0.53779 1.1684 0.96442 0.88692
  on day 3: 2.8327 0.30347 0.034106 1.3646 1.8467 3.1067 3.7214
  on day 8: 4.7671 0.15139 0.1891 18.252 3.8445 7.2045 2.9302
  a standard deviation of deaths: 181.04 7412.9
rye: 722 29 0.11 0.098
  wet after 0, 6, 24, 500 h at 18 degC, 6 h at 30: 0.42 0.2021 0.30096 0.40465 0.47617 0.35934
  germinates at 5, 12, 20, 28, 34 degC; of it at 20, 31, 36; share: 0.1576 0.3165 0.53206 0.75785 0.42218 0.99103 0.79225 0.13312 0.7815
  grows at 4, 12, 25, 33 degC; worth on day 11: 0.13591 0.5961 1.117 0.87184 0.88692
  on day 3: 2.7147 0.31622 0.03547 1.3646 1.7292 2.9892 3.8702
  on day 8: 4.123 0.17341 0.19667 18.252 3.2036 6.5636 3.0474
  a standard deviation of deaths: 188.46 8124.3
triticale: 645 42 0.11 0.12
  wet after 0, 6, 24, 500 h at 18 degC, 6 h at 30: 0.42 0.19837 0.29094 0.38998 0.47617 0.34646
  germinates at 5, 12, 20, 28, 34 degC; of it at 20, 31, 36; share: 0.13651 0.27986 0.47723 0.68493 0.42116 0.99223 0.81991 0.24852 0.7815
  grows at 4, 12, 25, 33 degC; worth on day 11: 0.098262 0.53779 1.1684 0.96442 0.88692
  on day 3: 2.5354 0.33619 0.042291 1.3646 1.5527 2.8127 4.6145
  on day 8: 3.2721 0.20822 0.23449 18.252 2.3681 5.7281 3.6334
  a standard deviation of deaths: 188.46 8124.3
maize: 721 300 0.12 0.09
  wet after 0, 6, 24, 500 h at 18 degC, 6 h at 30: 0.35 0.18347 0.24896 0.32506 0.38272 0.29079
  germinates at 5, 12, 20, 28, 34 degC; of it at 20, 31, 36; share: 0.004207 0.11027 0.34851 0.59091 0.77273 0.99953 0.98168 0.90303 0.7815
  grows at 4, 12, 25, 33 degC; worth on day 11: 0 0.15607 1.5569 1.6757 0.88692
  on day 3: 2.6817 0.32101 0.032742 1.5232 1.6951 2.9551 3.5725
  on day 8: 4.0164 0.18136 0.18154 20.374 3.0907 6.4507 2.813
  a standard deviation of deaths: 317.18 20271
)");
}

TEST_CASE("what is said of each class of animal") {
  Statements s;
  for (const herd::Class& one : herd::all_classes()) {
    s.say(std::string(one.name), {one.weight.value(), one.intake_share, one.fodder_limit, one.gestation.value() / 24.0, one.litter,
                                  one.usual_milk.value(), herd::intake(one, one.weight).value(), herd::intake(one, 1.2 * one.weight).value()});
    s.say("  its young", {one.growth.mature.value(), one.growth.rate_per_day, herd::weight_at(one.growth, days(20)).value(),
                          herd::gain_at(one.growth, days(90)).value(), herd::age_of_greatest_gain(one.growth).value() / 24.0});
  }
  s.say("a cow's intake", {herd::dairy_intake(Kilograms(620.0), Kilograms(25.0), 3.8, 3.0).value(), herd::dairy_intake(Kilograms(620.0), Kilograms(25.0), 3.8, 30.0).value(),
                           herd::beef_cow_intake(Kilograms(560.0), 1.3).value(), herd::goat_milk_intake(Kilograms(58.0), Kilograms(2.5)).value(), herd::growing_pig_feed(Kilograms(55.0)).value()});
  const herd::Breeding breeding;
  s.say("births", {herd::weaned_per_female(breeding, 1.7), herd::first_mating_day({.first_birth_day = 200.0}, days(150)),
                   herd::young_share({}, Kilograms(30.0), days(75), days(60)), herd::peak_young_rations(breeding, 1.7, herd::young_share({}, Kilograms(30.0), breeding.sale, breeding.weaning))});
  const herd::GrowthFit fitted = herd::fit_growth({{days(1), Kilograms(3.6)}, {days(40), Kilograms(11.0)}, {days(100), Kilograms(21.5)}}, {}, 0.3);
  s.say("a curve through three weighings", {fitted.curve.mature.value(), fitted.curve.rate_per_day, fitted.curve.start.value(), fitted.residual});
  s.compare(R"(
goat-milking: 60 0.0375 0.33 150 1.75 3 2.2516 2.4475
  its young: 60 0.0064 4.9242 0.12417 163.18
goat-dry: 60 0.0215 0.33 150 1.75 0 1.29 1.479
  its young: 60 0.0064 4.9242 0.12417 163.18
goat-meat: 55 0.022 0.33 150 1.8 0 1.21 1.3873
  its young: 60 0.0064 4.9242 0.12417 163.18
buck: 80 0.02 0.33 150 0 0 1.6 1.8345
  its young: 60 0.0064 4.9242 0.12417 163.18
goat-kid: 18 0.038 0.25 150 0 0 0.684 0.78423
  its young: 60 0.0064 4.9242 0.12417 163.18
ewe: 65 0.019 0.21 147 1.6 0 1.235 1.416
  its young: 65 0.0121 7.5676 0.28841 83.281
ewe-milking: 65 0.036 0.21 147 1.6 2 2.3343 2.5423
  its young: 65 0.0121 7.5676 0.28841 83.281
ram: 90 0.018 0.21 147 0 0 1.62 1.8574
  its young: 65 0.0121 7.5676 0.28841 83.281
lamb: 30 0.042 0.21 147 0 0 1.26 1.4446
  its young: 65 0.0121 7.5676 0.28841 83.281
dairy-cow: 650 0.035 0.33 283 1.02 28 22.634 24.441
  its young: 650 0.00355 50.674 0.62765 283.86
dairy-cow-dry: 650 0.019 0.33 283 1.02 0 12.35 14.16
  its young: 650 0.00355 50.674 0.62765 283.86
beef-cow: 550 0.0205 0.33 283 1.02 0 11.193 12.833
  its young: 550 0.0045 47.827 0.74216 218.43
beef-growing: 300 0.025 0.33 283 0 0 7.5 8.599
  its young: 550 0.0045 47.827 0.74216 218.43
sow: 200 0.0104 0.15 114.5 12 0 2.08 2.3848
  its young: 230 0.0126 4.6021 0.92937 128.25
sow-milking: 200 0.026 0.15 114.5 12 0 5.2 5.962
  its young: 230 0.0126 4.6021 0.92937 128.25
growing-pig: 60 0.0325 0.15 114.5 0 0 1.9479 2.1453
  its young: 230 0.0126 4.6021 0.92937 128.25
horse: 500 0.02 0.2 340 1 0 10 11.465
  its young: 500 0.006 64.871 1.0521 139.01
rabbit: 4 0.035 0.25 31 8 0 0.14 0.16051
  its young: 4 0.03 0.3991 0.02554 47.834
rabbit-growing: 2 0.06 0.25 31 0 0 0.12 0.13758
  its young: 4 0.03 0.3991 0.02554 47.834
laying-hen: 1.8 0.055 0.23 0 0 0 0.099 0.11351
  its young: 2.2 0.0239 0.18338 0.015381 58.081
growing-chicken: 1.2 0.07 0.23 0 0 0 0.084 0.096309
  its young: 5.6 0.0267 0.318 0.042507 59.467
duck: 2.8 0.055 0.23 0 0 0 0.154 0.17657
  its young: 3.2 0.058 0.89519 0.0039896 24.173
goose: 6 0.035 0.25 0 0 0 0.21 0.24077
  its young: 6.5 0.041 1.0338 0.025031 34.853
turkey: 8 0.04 0.23 0 0 0 0.32 0.36689
  its young: 12 0.0217 0.38754 0.092301 76.838
a cow's intake: 15.2 21.016 11.579 2.0656 2.0349
births: 1.4076 50 0.44983 0
a curve through three weighings: 30.926 0.0184 3.4734 0.012501
)");
}

TEST_CASE("what is said of a soak, a hazard and a feed") {
  Statements s;
  const auto barley = *soak::preset("barley");
  for (const double hours : {2.0, 10.0, 20.0, 30.0, 60.0}) {
    const soak::Effect e = soak::effect(barley, Celsius(22.0), 0.12, Hours(hours));
    s.say("soaked " + std::to_string(static_cast<int>(hours)) + " h", {e.moisture, e.head_start, e.delay, e.stress, e.survival});
  }
  s.say("a bucket", {soak::bucket_temperature(Celsius(10.0), Celsius(25.0), Hours(1.0)).value(), soak::bucket_temperature(Celsius(10.0), Celsius(25.0), Hours(10.0)).value()});
  const soak::DipEffect dip = soak::dip_effect({1.0, Hours(0.2)}), strong = soak::dip_effect({5.0, Hours(1.0)});
  s.say("a dip", {dip.inoculum_left, dip.germination_kept, dip.surface_left, strong.inoculum_left, strong.germination_kept});
  const spoilage::Parameters hazard;
  for (const double t : {10.0, 20.0, 30.0, 34.0, 38.0, 43.0})
    s.say("hazards at " + std::to_string(static_cast<int>(t)) + " degC", {spoilage::growth_factor(hazard.mould, Celsius(t)), spoilage::growth_factor(hazard.sour, Celsius(t))});
  const spoilage::Tray bad{2.0, 0.2, KilogramsPerSquareMetre(7.0), 0.9, 0.3, 0.5};
  s.say("a usual and a bad tray", {spoilage::mould_multiplier(hazard, {}), spoilage::sour_multiplier(hazard, {}), spoilage::mould_multiplier(hazard, bad), spoilage::sour_multiplier(hazard, bad),
                                   spoilage::spoiled_probability(0.3)});
  s.say("spores", {hazard.shed, hazard.shed_to_tray, hazard.rinsed_per_day});
  for (const germination::Dish& dish : germination::barley_counts()) {
    double looks = 0.0, seen = 0.0;
    for (std::size_t i = 0; i < dish.day.size(); ++i) looks += dish.day[i], seen += dish.germinated[i];
    s.say("counts at " + std::to_string(static_cast<int>(dish.temperature.value())) + " degC", {dish.sown, looks, seen});
  }
  s.say("likelihood of the counts", {germination::log_likelihood(*germination::preset("barley"), germination::barley_counts_germinable, germination::barley_counts()),
                                     germination::scatter(*germination::preset("barley"), germination::barley_counts_germinable, germination::barley_counts()).chi_square});
  const spoilage::Onset onset = spoilage::onset(hazard);
  s.say("onset", {onset.lag4, onset.scale, spoilage::onset_factor(onset, 1.0), spoilage::onset_factor(onset, 6.0)});
  const feed::Nutrients grain = feed::dry_grain(Kilograms(2.0), 0.89, {}), mat = feed::mat(Kilograms(2.0), 0.89, 0.2, 0.1, {});
  s.say("grain and its mat", {grain.dry_matter, grain.crude_protein, grain.energy_mj, mat.dry_matter, mat.crude_protein, mat.energy_mj,
                              feed::hay_of_equal_energy(mat.energy_mj, {}).value()});
  s.compare(R"(
soaked 2 h: 0.23955 2.0834 6.5127 0 1
soaked 10 h: 0.33823 7.2783 1.3373 0 1
soaked 20 h: 0.39687 9.9711 11.692 0.4827 0.9301
soaked 30 h: 0.43528 10.967 17.602 0.73341 0.83863
soaked 60 h: 0.44537 11.523 23.124 0.96351 0.72149
a bucket: 11.183 17.7
a dip: 0.10009 0.9984 0.0001 0.1 0.36788
hazards at 10 degC: 0.025875 0
hazards at 20 degC: 0.40821 6.4386e-12
hazards at 30 degC: 0.92046 0.00048476
hazards at 34 degC: 1 0.024189
hazards at 38 degC: 0.88246 0.33774
hazards at 43 degC: 0.23188 0.91012
a usual and a bad tray: 0.0044 1.5 0.06075 26.208 0.25918
spores: 0.15 5 0.5
counts at 1 degC: 150 72.82 340
counts at 7 degC: 150 66 655
counts at 10 degC: 150 75 903
counts at 15 degC: 150 27 607
counts at 25 degC: 150 28 739
counts at 35 degC: 150 27 91
counts at 40 degC: 150 10 0
likelihood of the counts: -1357.6 490.94
onset: 39.062 1.6428 0.041007 1.5948
grain and its mat: 1.78 0.2136 23.14 1.424 0.20933 17.772 2.3759
)");
}

TEST_CASE("what is said of lots and their trials") {
  Statements s;
  const grain::Grade grade;
  for (const int kernels : {50, 100, 400}) {
    const grain::TrialRule rule{kernels, 0.85};
    const grain::Sieve kept = grain::sieve(grade, rule);
    s.say("a rule of " + std::to_string(kernels) + " kernels", {static_cast<double>(grain::least_sprouted(rule)), grain::pooled_scatter(kernels, 0.03), grain::chance_kept(0.86, rule, 0.02), kept.kept, kept.mean, kept.refused});
  }
  s.say("lots of a grade", {grain::lot_quantile(grade, 0.1), grain::lot_quantile(grade, 0.5), grain::lot_quantile(grade, 0.99)});
  const grain::BetaPrior prior = grain::prior_of(0.85, 0.05);
  const grain::FractionLaw one(prior, {{88, 100}, {93, 100}}, 0.01), other(prior, {{76, 100}}, 0.01);
  s.say("a prior", {prior.germinated, prior.failed, grain::log_chance({88, 100}, 0.9, 0.01)});
  s.say("what is known after", {one.mean(), one.deviation(), one.quantile(0.05), one.quantile(0.95), other.mean(), other.quantile(0.5)});
  const grain::Agreement agree = grain::agreement({{88, 100}, {93, 100}, {70, 100}, {90, 100}}, 0.0), few = grain::agreement({{40, 50}, {30, 60}}, 0.02),
                         poor = grain::agreement({{10, 50}, {20, 60}}, 0.02);
  s.say("dishes of a trial", {agree.found, agree.allowed, few.found, few.allowed, poor.found, poor.allowed});
  grain::Worth worth(grain::FractionLaw::cells);
  for (int cell = 0; cell < grain::FractionLaw::cells; ++cell) worth[static_cast<std::size_t>(cell)] = grain::FractionLaw::at(cell) * grain::FractionLaw::at(cell);
  const grain::Comparison now = grain::compare(other, 0.8, one, 1.1, worth);
  const grain::TrialValue value = grain::value_of_trial(other, 0.8, now, worth, 200, 0.01);
  s.say("one lot or the other", {now.pays, now.candidate, now.current, value.wrong, value.gain});
  const grain::Vigour vigour = grain::vigour_of([](double at) { return 2.0 / at; }, 2.3, 0.15, 0.1);
  s.say("slow to sprout", {vigour.mean, vigour.low, vigour.high});
  const grain::ScatterFit scatter = grain::fit_scatter({{88, 100}, {93, 100}, {70, 100}, {90, 100}, {40, 50}});
  s.say("scatter of trays", {scatter.mean, scatter.rho, scatter.mean_error, scatter.rho_error, scatter.log_likelihood});
  const grain::ScatterFit even = grain::fit_scatter({{90, 100}, {90, 100}, {91, 100}});
  s.say("trays that do not scatter", {even.mean, even.rho, even.mean_error, even.at_zero ? 1.0 : 0.0, even.log_likelihood});
  s.say("ageing", {grain::viability_after(0.95, 1.0), grain::half_life(0.95, 200.0).value(), grain::probit(0.9), grain::normal_cdf(0.7)});
  s.compare(R"(
a rule of 50 kernels: 43 0.03 0.59715 0.89281 0.92313 0.89391
a rule of 100 kernels: 85 0.03 0.63368 0.92881 0.92257 0.88653
a rule of 400 kernels: 340 0.0074436 0.66173 0.97067 0.9218 0.86051
lots of a grade: 0.88378 0.92282 0.9702
a prior: 16.15 2.85 -2.6023
what is known after: 0.89549 0.027347 0.84766 0.93727 0.78482 0.78704
dishes of a trial: 23 14 5.1337 5.0239 1.1831 5.0239
one lot or the other: 0.65789 0.77306 0.72969 0.22385 0.013508
slow to sprout: 0.90778 0.77118 1.0686
scatter of trays: 0.8431 0.038436 0.036347 0.029361 -16.524
trays that do not scatter: 0.90333 0 0.017061 1 -6.0703
ageing: 0.74049 7895.3 1.2816 0.75804
)");
}
