#include "sim/results/schema.hpp"

#include <algorithm>
#include <array>
#include <sstream>

#include "sim/replication/columns.hpp"
#include "sim/study/sweep_run.hpp"

namespace rackwright::results {
namespace {

constexpr std::array group_table{
    Group{"scenario", "", "What was run: the scenario as read and as understood."},
    Group{"target", "", "What the keeper asks of a year; a limit that was not stated is absent."},
    Group{"summary", "",
          "What the replications say together: each result's mean with a 95 % interval. In a file of size: of the design it recommends, or else of the nearest miss, played once more on the luck of the search."},
    Group{"doubt", "",
          "Luck and ignorance: how much of the variance between replications comes from model parameters that nobody has measured, and what luck alone gives with every parameter at its central value. Absent of few replications."},
    Group{"shortage", "cause",
          "Why feedings of the design of /summary are short: some replications told feeding by feeding, each short feeding under its main cause. Absent when none was short."},
    Group{"daily", "", "Bands by day of the run over all replications of /replication."},
    Group{"replication", "replication", "One value a replication, over the whole run. In a file of size: as in /summary."},
    Group{"series", "replication", "Every day of the replications that were asked for."},
    Group{"design", "", "One value a design tried."},
    Group{"sweep", "point",
          "One value a point of a sweep; amounts are for 365 days. Where a point was not played, its numbers are NaN."},
    Group{"assumption", "",
          "What the design of /summary owes to numbers nobody measured: each assumed key halved and doubled (of shares the odds), the rest held, on the same luck; those that move the fodder served most come first."},
    Group{"against", "", "Changes tried against the scenario as it is, on the same fortunes (simulate --against)."},
    Group{"stress", "",
          "One value a hard time: differences to the undisturbed run on the same fortunes. Days, mats and fill are those from its first day until a fortnight after it can last show; cost and mats fed spoiled or unripe are of the whole run."},
    Group{"countermeasure", "",
          "One value a countermeasure tried in a hard time: differences to doing nothing in the same hard time, over the days of /stress."},
    Group{"failures", "", "Replications that broke off; they are in no other number."},
};

using enum Type;
using enum When;

constexpr Row row_table[] = {  // no std::array: clang deduces none of more than 256
    Row{"scenario/text", "", text, "", "scenario file as read, settings of the command line not in it", sometimes},
    Row{"scenario/resolved", "", text, "", "scenario with every key and its value; those that a grain's grade says, and nobody states, as remarks", sometimes},
    Row{"scenario/mark", "", text, "", "mark of the study: equal marks mean equal results, as --resume needs to know", sometimes},
    Row{"scenario/caution", "caution", text, "", "what to be careful about with this scenario", sometimes},
    Row{"scenario/absent_group", "absent_group", text, "", "groups of animals that are here on no day of the run: their fodder is in no figure", sometimes},
    Row{"scenario/hay_cost_per_kg_dry_matter", "", real, "currency kg-1", "price of hay, currency per kg of its dry matter", sometimes},
    Row{"scenario/part", "part", text, "", "what is to be built of the design of /summary", sometimes},
    Row{"scenario/part_amount", "part", real, "1", "how many of it; of insulation m3, of shade m2", sometimes},
    Row{"scenario/part_cost", "part", real, "currency", "money for all of it", sometimes},
    Row{"scenario/capital", "", real, "currency", "money to build it all", sometimes},
    Row{"scenario/capital_years", "", real, "year", "years it lasts", sometimes},
    Row{"scenario/capital_interest", "", real, "1", "yearly interest on it", sometimes},

    Row{"target/fill_rate", "", real, "1", "least share of the fodder wanted that is served", sometimes},
    Row{"target/short_days", "", real, "1", "most days a year with a short feeding", sometimes},
    Row{"target/unripe_fed", "", real, "1", "most mats fed unripe, of all fed", sometimes},
    Row{"target/spoiled_fed", "", real, "1", "most spoiled mats a year fed unnoticed", sometimes},
    Row{"target/yearly_cost", "", real, "currency", "most money a year, currency", sometimes},
    Row{"target/longest_short_run", "", real, "1", "most short days in a row", sometimes},
    Row{"target/season_fill_rate", "", real, "1", "least share served in the worst season", sometimes},
    Row{"target/mean_fill_rate", "", real, "1", "least share served, mean over years", sometimes},
    Row{"target/mean_yearly_cost", "", real, "currency", "most money a year, currency, mean over years", sometimes},
    Row{"target/fill_rate_years", "", real, "1", "share of years that must keep the limit on fill rate by itself", sometimes},
    Row{"target/short_days_years", "", real, "1", "share of years that must keep the limit on short days by itself", sometimes},
    Row{"target/longest_short_run_years", "", real, "1", "share of years that must keep the limit on short days in a row by itself", sometimes},
    Row{"target/season_fill_rate_years", "", real, "1", "share of years that must keep the limit on worst season by itself", sometimes},
    Row{"target/spoiled_fed_years", "", real, "1", "share of years that must keep the limit on spoiled mats fed by itself", sometimes},
    Row{"target/unripe_fed_years", "", real, "1", "share of years that must keep the limit on unripe mats fed by itself", sometimes},
    Row{"target/yearly_cost_years", "", real, "1", "share of years that must keep the limit on yearly cost by itself", sometimes},
    Row{"target/years", "", real, "1", "share of years that must meet every limit", sometimes},
    Row{"target/confidence", "", real, "1", "confidence a verdict needs", sometimes},

    Row{"summary/quantity", "quantity", text, "", "a column of /replication, a ratio of two (numerator/denominator), or success: years that keep the limits taken together", simulate},
    Row{"summary/stopped", "", whole, "1", "1 when it was stopped before the comparisons beside the replications were through", sometimes},
    Row{"summary/unit", "quantity", text, "", "unit of the quantity", simulate},
    Row{"summary/mean", "quantity", real, "1", "mean, in the quantity's unit; of a price per kilogram, all money by all mass", simulate},
    Row{"summary/low", "quantity", real, "1", "lower end of the 95 % interval of the mean", simulate},
    Row{"summary/high", "quantity", real, "1", "upper end of the 95 % interval of the mean", simulate},
    Row{"summary/sd", "quantity", real, "1", "standard deviation from replication to replication", simulate},
    Row{"summary/least", "quantity", real, "1", "least of all replications", simulate},
    Row{"summary/most", "quantity", real, "1", "most of all replications", simulate},
    Row{"summary/bad_year", "bad_year", real, "1", "share of years", sometimes},
    Row{"summary/bad_year_fill_rate", "bad_year", real, "1", "fill rate that this share of years stays below", sometimes},
    Row{"summary/bad_year_fill_rate_low", "bad_year", real, "1", "lower end of its 95 % interval, from ranks", sometimes},
    Row{"summary/bad_year_fill_rate_high", "bad_year", real, "1", "upper end of its 95 % interval, from ranks", sometimes},
    Row{"summary/requirement", "requirement", text, "", "what the target asks: the limits taken together, a limit with its own share of years, or a mean", sometimes},
    Row{"summary/asked", "requirement", real, "1", "least share of years, or least mean (a cost counts below zero)", sometimes},
    Row{"summary/reached", "requirement", real, "1", "share of years, or mean, that was reached", sometimes},
    Row{"summary/reached_low", "requirement", real, "1", "lower end of its 95 % interval", sometimes},
    Row{"summary/reached_high", "requirement", real, "1", "upper end of its 95 % interval", sometimes},
    Row{"summary/season", "season", text, "", "season", simulate},
    Row{"summary/short_season", "season", real, "1", "share of all short days that fall in the season", simulate},

    Row{"doubt/quantity", "quantity", text, "", "a column of /replication, or success", sometimes},
    Row{"doubt/unit", "quantity", text, "", "unit of the quantity", sometimes},
    Row{"doubt/share", "quantity", real, "1", "share of the variance between replications that is ignorance", sometimes},
    Row{"doubt/share_low", "quantity", real, "1", "lower end of its 95 % interval", sometimes},
    Row{"doubt/share_high", "quantity", real, "1", "upper end of its 95 % interval", sometimes},
    Row{"doubt/luck_mean", "quantity", real, "1", "mean with luck alone, in the quantity's unit", sometimes},
    Row{"doubt/luck_low", "quantity", real, "1", "lower end of its 95 % interval", sometimes},
    Row{"doubt/luck_high", "quantity", real, "1", "upper end of its 95 % interval", sometimes},
    Row{"doubt/luck_sd", "quantity", real, "1", "standard deviation from replication to replication with luck alone", sometimes},
    Row{"doubt/both_mean", "quantity", real, "1", "mean with luck and ignorance together, in the quantity's unit", sometimes},
    Row{"doubt/both_low", "quantity", real, "1", "lower end of its 95 % interval", sometimes},
    Row{"doubt/both_high", "quantity", real, "1", "upper end of its 95 % interval", sometimes},

    Row{"daily/day", "day", whole, "days since", "day of the run", sometimes},
    Row{"daily/quantile", "quantile", real, "1", "share of replications that stay below", sometimes},
    Row{"daily/{}", "day quantile", real, "", ", quantiles over replications", sometimes, Each::daily},
    Row{"daily/{}_mean", "day", real, "", ", mean over replications", sometimes, Each::daily},

    Row{"replication/replication", "replication", whole, "1", "number of the replication, as for rackwright journal", simulate},
    Row{"replication/{}", "replication", real, "", "", simulate, Each::outcome},

    Row{"series/replication", "replication", whole, "1", "number of the replication", sometimes},
    Row{"series/day", "day", whole, "days since", "day of the run", sometimes},
    Row{"series/{}", "replication day", single, "", "", sometimes, Each::daily},

    Row{"design/candidate", "candidate", whole, "1", "number of the design in the grid, from 0", size},
    Row{"design/choice", "choice", text, "", "scenario key that varies", sometimes},
    Row{"design/season", "season", text, "", "season", size},
    Row{"design/limit", "limit", text, "", "a limit of the target that some year broke", sometimes},
    Row{"design/value", "candidate choice", text, "", "what the design has for the key", sometimes},
    Row{"design/verdict", "candidate", text, "", "chosen, meets, fails, costlier, screened or undecided", size},
    Row{"design/why", "candidate", text, "", "why, in a sentence", size},
    Row{"design/runner_up", "candidate", whole, "1", "1 for the best of the others, 2 for the next; 0 for the rest", size},
    Row{"design/replications", "candidate", whole, "1", "replications spent on the design", size},
    Row{"design/success", "candidate", real, "1", "share of years that met the target", size},
    Row{"design/success_low", "candidate", real, "1", "lower end of its 95 % score interval", size},
    Row{"design/success_high", "candidate", real, "1", "upper end of its 95 % score interval", size},
    Row{"design/fill_rate", "candidate", real, "1", "share of the fodder wanted that is served, mean", size},
    Row{"design/fill_rate_low", "candidate", real, "1", "lower end of its 95 % interval", size},
    Row{"design/fill_rate_high", "candidate", real, "1", "upper end of its 95 % interval", size},
    Row{"design/cost_year", "candidate", real, "currency", "money a year, currency, mean over the years this design was played; others were played in other years", size},
    Row{"design/cost_year_low", "candidate", real, "currency", "lower end of its 95 % interval", size},
    Row{"design/cost_year_high", "candidate", real, "currency", "upper end of its 95 % interval", size},
    Row{"design/short_days", "candidate", real, "1", "days a year with a short feeding, mean", size},
    Row{"design/short_days_low", "candidate", real, "1", "lower end of its 95 % interval", size},
    Row{"design/short_days_high", "candidate", real, "1", "upper end of its 95 % interval", size},
    Row{"design/spoiled_trays", "candidate", real, "1", "mats lost to mould or souring a year, mean", size},
    Row{"design/spoiled_trays_low", "candidate", real, "1", "lower end of its 95 % interval", size},
    Row{"design/spoiled_trays_high", "candidate", real, "1", "upper end of its 95 % interval", size},
    Row{"design/overdue_trays", "candidate", real, "1", "mats past their best a year, mean", size},
    Row{"design/overdue_trays_low", "candidate", real, "1", "lower end of its 95 % interval", size},
    Row{"design/overdue_trays_high", "candidate", real, "1", "upper end of its 95 % interval", size},
    Row{"design/capital", "candidate", real, "currency", "money to build it; NaN of a design that is no sound scenario", size},
    Row{"design/labour", "candidate", real, "h", "work a year, mean", size},
    Row{"design/labour_low", "candidate", real, "h", "lower end of its 95 % interval", size},
    Row{"design/labour_high", "candidate", real, "h", "upper end of its 95 % interval", size},
    Row{"design/short_season", "candidate season", real, "1", "share of the design's short days that fall in the season", size},
    Row{"design/broken", "candidate limit", real, "1", "share of the years that missed the target in which the limit was broken", sometimes},
    Row{"design/chosen", "", whole, "1", "the recommended candidate; -1 when none meets the target", size},
    Row{"design/nearest", "", whole, "1", "the nearest miss when none meets the target, else -1", size},
    Row{"design/binding", "", text, "", "what keeps a cheaper design from being chosen", size},
    Row{"design/promise", "", text, "", "what is promised of the choice, in a sentence", size},
    Row{"design/frontier", "candidate", whole, "1",
        "1 for the cheapest design that nothing cheaper serves better than, 2 for the next; 0 for the rest", size},
    Row{"design/knee", "", whole, "1", "the candidate at which the frontier bends most, -1 where it does not", size},
    Row{"design/buys", "buys", text, "", "what a bit more money than for the chosen design buys", sometimes},
    Row{"design/help", "help", text, "", "what would make the nearest miss meet the target", sometimes},
    Row{"design/thrift", "", text, "", "what the chosen design would save by sowing as many trays as are wanted, in a sentence", sometimes},
    Row{"design/requirement", "requirement", text, "",
        "what is asked of a design: the limits together, a limit with its own share of years, a mean", size},
    Row{"design/asked", "requirement", real, "1", "least share of years, or least mean (a cost counts below zero)", size},
    Row{"design/reached", "candidate requirement", real, "1", "share of years, or mean, that the design reached", size},
    Row{"design/reached_low", "candidate requirement", real, "1", "lower end of its 95 % interval", size},
    Row{"design/reached_high", "candidate requirement", real, "1", "upper end of its 95 % interval", size},
    Row{"design/equal_allocation", "", whole, "1",
        "replications had every design been played as often as the closest contest asked for", size},
    Row{"design/runway", "", text, "", "how long the rack lasts the growing herd, in sentences", sometimes},
    Row{"design/runway_day", "runway_day", whole, "days since", "first day of each year looked ahead", sometimes},
    Row{"design/runway_share", "runway_day", real, "1", "share of runs in which that year reaches target.fill_rate", sometimes},
    Row{"design/runway_outgrown", "", whole, "days since",
        "first day of the first year that no longer does in target.years; -1: not within the years looked ahead", sometimes},
    Row{"design/look_ahead", "", whole, "d", "days looked ahead", sometimes},
    Row{"design/spent", "", whole, "1", "replications spent in all", size},
    Row{"design/settled", "", whole, "1", "1 when every verdict has the confidence asked for", size},
    Row{"design/stopped", "", whole, "1", "1 when the search was stopped early", size},

    Row{"sweep/point", "point", whole, "1", "number of the point, from 0", sweep},
    Row{"sweep/key", "key", text, "", "scenario key that varies", sweep},
    Row{"sweep/word", "word", text, "", "values that are words, key after key", sometimes},
    Row{"sweep/refused", "refused", whole, "1", "number of a point with something to say in why", sometimes},
    Row{"sweep/leader", "leader", whole, "1",
        "number of a point: the cheapest that meet the target, or, when none does, those that meet it most often", sometimes},
    Row{"sweep/effect", "effect", whole, "1", "number of a value, or of a slice of the range, of a key", sweep},
    Row{"sweep/outcome", "outcome", text, "", "column of this group whose spread is explained", sometimes},
    Row{"sweep/method", "", text, "", "grid, latin, even or sobol", sweep},
    Row{"sweep/points", "", whole, "1", "points of the sweep", sweep},
    Row{"sweep/target_met", "", whole, "1", "1 when a point meets the target, all that it asks", sweep},
    Row{"sweep/count", "", whole, "1", "points played", sweep},
    Row{"sweep/count_hopeless", "", whole, "1", "points that arithmetic alone rules out, played or not", sweep},
    Row{"sweep/count_invalid", "", whole, "1", "points that are no sound scenario", sweep},
    Row{"sweep/count_failed", "", whole, "1", "points of which a replication broke off", sweep},
    Row{"sweep/example_hopeless", "", text, "", "why, for one of them", sometimes},
    Row{"sweep/example_invalid", "", text, "", "why, for one of them", sometimes},
    Row{"sweep/example_failed", "", text, "", "why, for one of them", sometimes},
    Row{"sweep/unit", "key", text, "", "unit of the key's values; empty: words", sweep},
    Row{"sweep/low", "key", real, "1", "least value of the key, in its unit", sweep},
    Row{"sweep/high", "key", real, "1", "greatest value of the key, in its unit", sweep},
    Row{"sweep/word_key", "word", whole, "1", "the key it belongs to, from 0", sometimes},
    Row{"sweep/value", "point key", real, "1",
        "what the point has for the key, in the key's unit; for words the place among that key's words, from 0", sweep},
    Row{"sweep/status", "point", whole, "1",
        "0 played, 1 ruled out by arithmetic, 2 no sound scenario, 3 a replication broke off", sweep},
    Row{"sweep/success", "point", real, "1", "share of replications that keep the limits of the target taken together", sweep},
    Row{"sweep/gap", "point", real, "1", "what was reached of the target's worst kept requirement, less what is asked (of a mean, in parts of it): 0 or more meets the target", sweep},
    Row{"sweep/{}", "point", real, "", ", mean", sweep, Each::sweep},
    Row{"sweep/{}_se", "point", real, "", ", standard error of the mean", sweep, Each::sweep},
    Row{"sweep/{}_sd", "point", real, "", ", standard deviation from replication to replication", sweep, Each::sweep},
    Row{"sweep/{}_q05", "point", real, "", ", quantile 0.05 (the least value that so many of the replications do not exceed)", sweep, Each::sweep},
    Row{"sweep/{}_q50", "point", real, "", ", median (quantile 0.5, likewise)", sweep, Each::sweep},
    Row{"sweep/{}_q95", "point", real, "", ", quantile 0.95 (likewise)", sweep, Each::sweep},
    Row{"sweep/why", "refused", text, "", "why it was not played, or cannot meet the target", sometimes},
    Row{"sweep/leader_value", "leader key", text, "", "what the point has for the key", sometimes},
    Row{"sweep/leader_success", "leader", real, "1", "share of replications that keep the limits of the target taken together", sometimes},
    Row{"sweep/leader_fill_rate", "leader", real, "1", "share of the fodder wanted that is served, mean", sometimes},
    Row{"sweep/leader_cost_year", "leader", real, "currency", "money a year, currency, mean", sometimes},
    Row{"sweep/leader_cost_year_se", "leader", real, "currency", "standard error of that mean", sometimes},
    Row{"sweep/leader_cost_year_low", "leader", real, "currency", "lower end of the 95 % interval of that mean", sometimes},
    Row{"sweep/leader_cost_year_high", "leader", real, "currency", "upper end of the 95 % interval of that mean", sometimes},
    Row{"sweep/leader_short_days", "leader", real, "1", "days a year with a short feeding, mean", sometimes},
    Row{"sweep/leader_spoiled_fed", "leader", real, "1", "spoiled mats a year fed unnoticed, mean", sometimes},
    Row{"sweep/leader_unripe_fed", "leader", real, "1", "mats a year fed unripe, mean", sometimes},
    Row{"sweep/effect_key", "effect", whole, "1", "the key, from 0", sweep},
    Row{"sweep/effect_label", "effect", text, "", "the value or slice", sweep},
    Row{"sweep/effect_points", "effect", whole, "1", "points played that have it", sweep},
    Row{"sweep/effect_fill_rate", "effect", real, "1", "mean of those points' fill rates; NaN where there is none", sweep},
    Row{"sweep/effect_cost_year", "effect", real, "currency", "mean of their costs a year, currency; likewise", sweep},
    Row{"sweep/effect_success", "effect", real, "1", "mean of their shares of success; likewise", sweep},
    Row{"sweep/rows", "", whole, "1", "rows of points that the indices are estimated from", sometimes},
    Row{"sweep/outcome_mean", "outcome", real, "1", "mean over the points, in the column's unit", sometimes},
    Row{"sweep/outcome_sd", "outcome", real, "1", "standard deviation over the points", sometimes},
    Row{"sweep/first_order", "key outcome", real, "1", "share of the variance that this key explains by itself", sometimes},
    Row{"sweep/first_order_low", "key outcome", real, "1", "lower end of its 95 % interval", sometimes},
    Row{"sweep/first_order_high", "key outcome", real, "1", "upper end of its 95 % interval", sometimes},
    Row{"sweep/total", "key outcome", real, "1", "share of the variance that this key has a hand in", sometimes},
    Row{"sweep/total_low", "key outcome", real, "1", "lower end of its 95 % interval", sometimes},
    Row{"sweep/total_high", "key outcome", real, "1", "upper end of its 95 % interval", sometimes},
    Row{"assumption/key", "key", text, "", "scenario key; of a list, all its entries at once", sometimes},
    Row{"assumption/used", "key", text, "", "value the study used", sometimes},
    Row{"assumption/meaning", "key", text, "", "what the key means", sometimes},
    Row{"assumption/source", "key", text, "", "where its default comes from", sometimes},
    Row{"assumption/less", "key", text, "", "about half the value used", sometimes},
    Row{"assumption/more", "key", text, "", "about twice the value used", sometimes},
    Row{"assumption/less_fill_rate", "key", real, "1", "change of the share of fodder served, paired, mean", sometimes},
    Row{"assumption/less_fill_rate_low", "key", real, "1", "lower end of its 95 % interval", sometimes},
    Row{"assumption/less_fill_rate_high", "key", real, "1", "upper end of its 95 % interval", sometimes},
    Row{"assumption/less_short_days", "key", real, "1", "change of the short days a year, paired, mean", sometimes},
    Row{"assumption/less_short_days_low", "key", real, "1", "lower end of its 95 % interval", sometimes},
    Row{"assumption/less_short_days_high", "key", real, "1", "upper end of its 95 % interval", sometimes},
    Row{"assumption/less_cost_year", "key", real, "currency", "change of the money a year, currency, paired, mean", sometimes},
    Row{"assumption/less_cost_year_low", "key", real, "currency", "lower end of its 95 % interval", sometimes},
    Row{"assumption/less_cost_year_high", "key", real, "currency", "upper end of its 95 % interval", sometimes},
    Row{"assumption/more_fill_rate", "key", real, "1", "change of the share of fodder served, paired, mean", sometimes},
    Row{"assumption/more_fill_rate_low", "key", real, "1", "lower end of its 95 % interval", sometimes},
    Row{"assumption/more_fill_rate_high", "key", real, "1", "upper end of its 95 % interval", sometimes},
    Row{"assumption/more_short_days", "key", real, "1", "change of the short days a year, paired, mean", sometimes},
    Row{"assumption/more_short_days_low", "key", real, "1", "lower end of its 95 % interval", sometimes},
    Row{"assumption/more_short_days_high", "key", real, "1", "upper end of its 95 % interval", sometimes},
    Row{"assumption/more_cost_year", "key", real, "currency", "change of the money a year, currency, paired, mean", sometimes},
    Row{"assumption/more_cost_year_low", "key", real, "currency", "lower end of its 95 % interval", sometimes},
    Row{"assumption/more_cost_year_high", "key", real, "currency", "upper end of its 95 % interval", sometimes},
    Row{"shortage/cause", "cause", text, "", "chain of causes; what takes most comes first", sometimes},
    Row{"shortage/feedings", "cause", real, "1", "short feedings in 365 days, mean", sometimes},
    Row{"shortage/missing", "cause", real, "kg", "fresh fodder they lacked in 365 days, mean", sometimes},
    Row{"shortage/replications", "", whole, "1", "replications told feeding by feeding", sometimes},
    Row{"against/change", "change", text, "", "what was changed, as typed", sometimes},
    Row{"against/quantity", "quantity", text, "", "a column of /replication", sometimes},
    Row{"against/unit", "quantity", text, "", "unit of the quantity", sometimes},
    Row{"against/replications", "change", whole, "1", "replications played under both", sometimes},
    Row{"against/verdict", "change quantity", text, "", "better, worse, more, less or no difference shown", sometimes},
    Row{"against/before{}", "change quantity", real, "1", "as the scenario is, in the quantity's unit", sometimes,
        Each::interval},
    Row{"against/after{}", "change quantity", real, "1", "with the change, in the quantity's unit", sometimes,
        Each::interval},
    Row{"against/difference{}", "change quantity", real, "1", "after minus before, pair by pair, in the quantity's unit",
        sometimes, Each::interval},

    Row{"stress/hard_time", "hard_time", text, "", "what the hard time is called", stress},
    Row{"stress/sign", "sign", text, "", "something that may give way", stress},
    Row{"stress/kind", "hard_time", text, "", "kind, as hard_time.kind", stress},
    Row{"stress/what", "hard_time", text, "", "what happens, in words", stress},
    Row{"stress/day", "hard_time", real, "days since", "day of the run on which it begins", stress},
    Row{"stress/own", "hard_time", whole, "1", "1 when it stands in the scenario, 0 when built in", stress},
    Row{"stress/why_not", "hard_time", text, "", "why it was not tried; empty when it was", stress},
    Row{"stress/replications", "hard_time", whole, "1", "replications played with and without it", stress},
    Row{"stress/short_days{}", "hard_time", real, "1", "more days with a short feeding", stress, Each::interval},
    Row{"stress/spoiled{}", "hard_time", real, "1", "more mats turned sour or mouldy, or killed by frost", stress, Each::interval},
    Row{"stress/spoiled_fed{}", "hard_time", real, "1", "more spoiled mats fed unnoticed", stress, Each::interval},
    Row{"stress/unripe_fed{}", "hard_time", real, "1", "more mats fed unripe", stress, Each::interval},
    Row{"stress/fill_rate{}", "hard_time", real, "1", "more of the fodder wanted that is served", stress,
        Each::interval},
    Row{"stress/cost{}", "hard_time", real, "currency", "more money spent, currency", stress, Each::interval},
    Row{"stress/recovery{}", "hard_time", real, "d", "days from its start until fed as undisturbed, for good", stress,
        Each::interval},
    Row{"stress/not_over", "hard_time", real, "1", "share of replications in which that was not before the run's end",
        stress},
    Row{"stress/first", "hard_time sign", real, "1", "share of replications in which the sign came first", stress},
    Row{"stress/first_day{}", "hard_time", real, "d", "days from its start to the first sign, where there was one", stress,
        Each::interval},
    Row{"stress/any_short", "hard_time", real, "1", "share of replications with a day worse fed than undisturbed", stress},
    Row{"stress/first_short{}", "hard_time", real, "d", "days from its start to the first such day, where there was one",
        stress, Each::interval},
    Row{"stress/limit_kind", "hard_time", text, "",
        "found; never: not enough without any wave; beyond: enough at the hottest tried; empty for what is no heat", stress},
    Row{"stress/limit{}", "hard_time", real, "degC",
        "hottest hour outdoors of a heat wave up to which the design is enough, mean over replications", stress,
        Each::interval},
    Row{"stress/asked", "", real, "1", "fill rate a design must keep in a heat wave to be enough", stress},
    Row{"stress/stopped", "", whole, "1", "1 when the study was stopped early", stress},

    Row{"countermeasure/trial", "trial", whole, "1", "number of the trial, from 0; best by service first in each hard time",
        sometimes},
    Row{"countermeasure/hard_time", "trial", text, "", "the hard time it was tried in", sometimes},
    Row{"countermeasure/name", "trial", text, "", "what was done", sometimes},
    Row{"countermeasure/settings", "trial", text, "", "the same as KEY=VALUE", sometimes},
    Row{"countermeasure/priced", "trial", whole, "1", "1 when its own price is among the costs", sometimes},
    Row{"countermeasure/needs", "trial", text, "", "what must be had for it and is not there, in words", sometimes},
    Row{"countermeasure/why_not", "trial", text, "", "why it could not be tried; empty when it was", sometimes},
    Row{"countermeasure/replications", "trial", whole, "1", "replications played with and without it", sometimes},
    Row{"countermeasure/short_days{}", "trial", real, "1", "more days with a short feeding", sometimes, Each::interval},
    Row{"countermeasure/spoiled{}", "trial", real, "1", "more mats turned sour or mouldy, or killed by frost", sometimes, Each::interval},
    Row{"countermeasure/spoiled_fed{}", "trial", real, "1", "more spoiled mats fed unnoticed", sometimes, Each::interval},
    Row{"countermeasure/unripe_fed{}", "trial", real, "1", "more mats fed unripe", sometimes, Each::interval},
    Row{"countermeasure/fill_rate{}", "trial", real, "1", "more of the fodder wanted that is served", sometimes,
        Each::interval},
    Row{"countermeasure/cost{}", "trial", real, "currency", "more money spent, currency", sometimes, Each::interval},
    Row{"countermeasure/by_service", "trial", whole, "1", "place by short days avoided in its hard time, 0 if not tried",
        sometimes},
    Row{"countermeasure/by_cost", "trial", whole, "1", "place by cost in its hard time, 0 if not tried", sometimes},
    Row{"countermeasure/limit_kind", "trial", text, "", "as stress/limit_kind, with the countermeasure", sometimes},
    Row{"countermeasure/limit{}", "trial", real, "degC", "as stress/limit, with the countermeasure", sometimes,
        Each::interval},

    Row{"failures/replication", "replication", whole, "1", "number of the replication", sometimes},
    Row{"failures/what", "replication", text, "", "what went wrong", sometimes},
};

std::vector<std::string> words(std::string_view text_of_words) {
  std::istringstream in{std::string(text_of_words)};
  std::vector<std::string> found;
  for (std::string word; in >> word;) found.push_back(word);
  return found;
}

constexpr std::string_view currency = "currency";

Dataset make_dataset(const Row& r, std::string_view column, Type type, std::string_view unit,
                     std::string_view long_name, bool money = false) {
  std::string path(r.path);
  if (const auto hole = path.find("{}"); hole != std::string::npos) path.replace(hole, 2, column);
  const auto slash = path.find('/');
  Dataset made{path, path.substr(0, slash), path.substr(slash + 1), words(r.dimensions), type, std::string(unit),
               std::string(long_name) + std::string(r.long_name), r.when};
  const std::string first = made.dimensions.empty() ? "" : made.dimensions.front();
  made.streamed = first == "replication" || first == "point" || first == "refused";
  made.money = money || unit.starts_with(currency);
  if (unit.starts_with(currency)) made.unit = unit == currency ? "1" : unit.substr(currency.size() + 1);
  return made;
}

std::vector<Dataset> expand() {
  std::vector<Dataset> all;
  for (const Row& r : row_table) {
    if (r.each == Each::one) all.push_back(make_dataset(r, "", r.type, r.unit, ""));
    if (r.each == Each::interval) {
      all.push_back(make_dataset(r, "", r.type, r.unit, "mean: "));
      all.push_back(make_dataset(r, "_low", r.type, r.unit, "lower end of the 95 % interval: "));
      all.push_back(make_dataset(r, "_high", r.type, r.unit, "upper end of the 95 % interval: "));
    }
    if (r.each == Each::daily)
      for (const DailyColumn& c : daily_columns()) all.push_back(make_dataset(r, c.name, r.type, c.unit, c.long_name));
    if (r.each == Each::sweep)
      for (const study::SweepColumn& c : study::sweep_columns())
        all.push_back(make_dataset(r, c.name, r.type, c.unit, c.long_name, in_money(c.name)));
    if (r.each == Each::outcome)
      for (const Column& c : outcome_columns())
        all.push_back(make_dataset(r, c.name, c.type == ColumnType::whole ? whole : real, c.unit, c.long_name, c.money));
  }
  return all;
}

}  // namespace

std::span<const Group> groups() { return group_table; }

const std::vector<Dataset>& datasets() {
  static const std::vector<Dataset> all = expand();
  return all;
}

const Dataset* find_dataset(std::string_view path) {
  const auto& all = datasets();
  const auto found = std::find_if(all.begin(), all.end(), [&](const Dataset& d) { return d.path == path; });
  return found == all.end() ? nullptr : &*found;
}

}  // namespace rackwright::results
