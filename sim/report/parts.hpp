#pragma once
// Pieces of the terminal page that both kinds of file share.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/results/result_file.hpp"

namespace rackwright::report {

/// The pages by kind of file.
std::string simulate_text(const results::ResultFile& file);
std::string size_text(const results::ResultFile& file);
std::string sweep_text(const results::ResultFile& file);
/// How many points of a sweep were played, and how many not and why: in one paragraph.
std::string sweep_counts(const results::ResultFile& file);
/// What a good point of a sweep still feeds that is no sound ripe mat; empty for none.
std::string leader_also(const results::ResultFile& file, std::size_t leader);
/// Of the means over points, where some points have no figures.
inline constexpr std::string_view effects_apart =
    "Points without figures (ruled out, unsound) are in none of these means. Where one key's value rules out values of another, its mean is that of other designs: compare "
    "the values of a key over points that both were played with.";
/// Of cautions: those of a sweep are worked out for what its keys are set to in the file.
inline constexpr std::string_view of_the_scenario = "To be careful about in the scenario as it is written (rackwright check with --set tells what is to be said of a point)";
/// From how many rows Sobol' indices are, and which values of the keys they speak of.
std::string indices_from(const results::ResultFile& file);
std::string stress_text(const results::ResultFile& file);
/// What simulate --against found; empty when nothing was compared.
std::string against_text(const results::ResultFile& file);
/// One quantity of a comparison in words.
struct AgainstLine { std::string label, before, after, difference, verdict; };
std::vector<AgainstLine> against_lines(const results::ResultFile& file, std::size_t change);

/// How far rare things can be told by so few pairs of runs as that change was played; empty where they are many.
std::string rare_words(const results::ResultFile& file, std::size_t change);

/// "at least 97 % of the fodder wanted served, at most 10 short days a year, in at least 90 % of years"; empty when the file has no
/// target.
std::string target_words(const results::ResultFile& file);
/// Does the target ask for more than its limits taken together: a limit with its own share of years, or a mean?
bool asks_more(const results::ResultFile& file);
/// What the share of years counts, for a heading: "years that meet the target", or that keep the limits taken together where more is asked.
std::string counted_years(const results::ResultFile& file);
/// Is any limit taken together with others, or alone without a share of its own?
bool asks_together(const results::ResultFile& file);
/// Is there anything in the share of years that keep the limits taken together? There is not where each limit has a share of its own.
bool counts_years(const results::ResultFile& file);
/// "the target is met in 93 % of years", or the limits taken together where more is asked than these.
std::string met_in(const results::ResultFile& file, std::string_view share);
/// How a simulation (`design` -1), or a design of a sizing, does by all that is asked: "the target is met in 93 % (90 to 95) of years". `success`:
/// its share of years that keep the limits taken together.
std::string met_words(const results::ResultFile& file, int design, const study::Estimate& success);
/// Does a simulated design meet all that its target asks? By the 95 % intervals; of files of earlier versions by the limits taken together.
enum class Met { yes, no, open };
Met met_target(const results::ResultFile& file);
/// What the target asks beside the limits taken together and what a simulation (`design` -1), or a design of a sizing, has of it; empty when
/// nothing is asked.
std::string kept_words(const results::ResultFile& file, int design, std::string_view years);
/// Why a design misses the target, as a sentence: "It meets the target in only ...", or what arithmetic says of one never played.
std::string why_words(const results::ResultFile& file, std::size_t candidate);
/// The design a sizing shows: the one it recommends, else the nearest miss.
std::optional<std::size_t> design_shown(const results::ResultFile& file);
/// Are that design's figures those of its replications in the file? Else they are the search's, where the file has none of it or fewer than the search played.
bool told_by_replications(const results::ResultFile& file);
/// What the search itself found that design to cost, where its figures are of more replications than the search played; else empty.
std::string searched_words(const results::ResultFile& file);
/// Is a replication a year?
bool whole_years(const results::ResultFile& file);
/// "years", or "runs" where a replication is no year.
const char* years_or_runs(const results::ResultFile& file);
/// That the designs' own costs are means of different years, and which figure decides; empty where all were played equally often.
std::string unequal_years_words(const results::ResultFile& file, const std::vector<std::size_t>& designs);
/// What to compare where heating and cooling (money a year) are more than a third of the cost: thicker insulation than there is, or fewer air
/// changes; empty where that is not so or nothing sensible is left.
std::string heating_words(const results::ResultFile& file, double heating, double cooling);
/// What a kilogram costs beside grain fed dry and hay, whether sprouting is dearer, and what helps where heating or cooling is more
/// than a third of the cost; empty when the file does not say.
std::string worth_words(const results::ResultFile& file);
/// The parts of a year's cost that are not nothing, one a line, each with its share; empty when the file does not say.
std::string cost_parts_text(const results::ResultFile& file);
/// Cautions that begin so are told at the head of a page (of a sweep, whose points differ, below with the others).
inline constexpr std::string_view gravely = "Grave: ";
std::vector<std::string> grave_cautions(const std::vector<std::string>& all);
std::vector<std::string> other_cautions(const std::vector<std::string>& all);
/// The first of them from a file, each a paragraph.
std::string grave_text(const results::ResultFile& file);

/// A heading and the cautions that no head tells, each a paragraph; empty when there are none.
std::string cautions_text(const results::ResultFile& file, std::string_view heading = "To be careful about");
/// What of the spread is ignorance and what luck alone gives, and the same in lines for the terminal; empty when the file does not say.
std::string doubt_words(const results::ResultFile& file);
std::string doubt_text(const results::ResultFile& file);
/// One main cause of short feedings: how many a year, what they lacked, and its share of all that lacked.
struct ShortageLine { std::string cause, feedings, missing; double share = 0.0; };
/// Largest first; empty when the file does not say.
std::vector<ShortageLine> shortage_lines(const results::ResultFile& file);
/// A heading and a line a cause; empty when the file does not say.
std::string shortage_text(const results::ResultFile& file);
/// "98 %": a share with as many digits as its interval deserves, and the interval.
std::string share_with_interval(const study::Estimate& share);
bool in_us_units(const results::ResultFile& file);

}  // namespace rackwright::report
