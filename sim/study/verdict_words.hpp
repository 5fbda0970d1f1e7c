#pragma once
// The sentences of sizing: why a design is in or out, in the keeper's words.

#include <array>
#include <string>
#include <vector>

#include "sim/study/size.hpp"

namespace rackwright::study {

/// Of shares [1] of the short days by season, December to February first: "mostly in June to August" (60 % of them or more in one
/// season, or 80 % in two on end); "all year round" where every season has 15 to 35 %; else "most in June to August (38 %), least in
/// March to May (8 %)". Empty when nothing fell short.
std::string season_words(const std::array<double, 4>& shares);
/// "rack.tiers = 4, line.soak = 8 h".
std::string design_words(const std::vector<std::string>& keys, const std::vector<std::string>& values);
/// "58 % of years (14 of 24 played)", of what keeps the limits taken together; "runs" where those of `days` [d] are no years.
std::string share_words(const Candidate& candidate, double days);
/// "meets the target in 58 % of years (14 of 24 played)"; where more is asked than that, all that is asked, as it was had.
std::string had_words(const Candidate& candidate, const Target& target, double days);
/// What breaks in the years that fail and when: "fill rate too low; short mostly in June to August". The season is told
/// only when a run is a whole year or more.
std::string shortfall_words(const Candidate& candidate, double days);
/// The worst of a design's requirements.
double gap(const Candidate& candidate);
/// "keeps the limit on spoiled mats fed in only 93 % of years, 99 % are asked for".
std::string missed_words(const Kept& kept, double days);
/// "meets the target in only 58 % of years (14 of 24 simulated): fill rate too low".
std::string failure_words(const Candidate& candidate, double days);
/// "41 EUR a year".
std::string money_words(double amount, const std::string& currency);
/// "costs 41 EUR a year more than the chosen design".
std::string difference_words(double more, const std::string& currency);

}  // namespace rackwright::study
