#include "models/herd/stay.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "models/base/expects.hpp"

namespace rackwright::herd {
namespace {

constexpr double year = 365.0;
constexpr double never = -std::numeric_limits<double>::infinity();

/// The last time by `day` that what first falls on `first` fell.
double last(double first, double day, bool each_year) {
  if (first < 0.0 || day < first) return never;
  return each_year ? first + year * std::floor((day - first) / year) : first;
}

bool leaves_first(const Stay& stay) { return stay.arrives < 0.0 || (stay.leaves >= 0.0 && stay.leaves < stay.arrives); }

}  // namespace

Presence presence(const Stay& stay, double day) {
  EXPECTS(day >= 0.0 && (stay.arrives < 0.0 || stay.arrives != stay.leaves));
  const double came = last(stay.arrives, day, stay.each_year), went = last(stay.leaves, day, stay.each_year);
  if (came == never && went == never) return {leaves_first(stay), stay.came};
  return {came > went, came > went ? came : since_ever};
}

Stay later_start(Stay stay, double days) {
  const bool sound = stay.arrives < 0.0 || stay.arrives != stay.leaves;  // else it is refused elsewhere
  const Presence then = days > 0.0 && sound ? presence(stay, days) : Presence{true, stay.came};
  if (then.here) stay.came = std::max(since_ever, then.since - days);
  const auto move = [&](double& day) {
    if (day < 0.0) return false;
    day -= days;
    if (days < 0.0 && stay.each_year) day = std::fmod(day, year);  // those of the years before fall into an earlier run, too
    if (day >= 0.0) return false;
    if (stay.each_year) day = year - std::fmod(-day, year);
    if (day >= year) day -= year;
    return day < 0.0;
  };
  const bool leaves_last = stay.leaves > stay.arrives;
  const bool came = move(stay.arrives), went = move(stay.leaves);
  if (came) stay.arrives = -1.0;
  // Gone for good, unless it is still to come back.
  if (went) stay.leaves = stay.arrives >= 0.0 || (came && !leaves_last) ? -1.0 : 0.0;
  return stay;
}

}  // namespace rackwright::herd
