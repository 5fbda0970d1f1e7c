#pragma once
// Numbers, quantities and sentences as people read them.

#include <limits>
#include <string>
#include <string_view>

#include "sim/study/summary.hpp"

namespace rackwright::report {

/// A number without exponent, rounded to `decimals`, to tens where they are -1; no minus before a zero.
std::string plain(double value, int decimals);
/// Decimals that show an interval of this half width to one digit (two where the first is 1 or 2), or a bare value to
/// three; at most 4, and never more than three digits of a value below a thousand, four of one above. Below 0 for a value of
/// ten thousand and more: rounded to tens, hundreds and so on.
int decimals_for(double half_width, double value);

/// "37 %"; all and none only where it is all or none: else "more than 99 %", "less than 1 %".
std::string whole_percent(double share);

/// How the reader's units relate to those of the file.
struct Shown {
  double scale = 1.0, offset = 0.0;   ///< shown = scale * stored + offset
  std::string unit;                   ///< "" for counts
  double top = std::numeric_limits<double>::infinity();  ///< the most that can be, as stored: an interval ends there
};
/// A share of all there is, in per cent.
Shown as_share();
/// Days a year, which has 365.
Shown days_a_year();
/// The most that a quantity of a run of so many days can be: 1 of a share, the run's days of days counted in it; infinite where there is no top.
double most_possible(std::string_view quantity, double days);
/// For a unit of the file, in metric or US units.
Shown shown_in(std::string_view unit, bool us);

/// An estimate in the reader's unit: "98.12 %", "97.60 to 98.50", "91.0 to 99.9"; empty where there is no spread.
struct Cells { std::string mean, interval, range; };
Cells cells(const study::Estimate& estimate, const Shown& shown);
/// "98.12 % (97.60 to 98.50)".
std::string with_interval(const study::Estimate& estimate, const Shown& shown);

/// Breaks a paragraph into lines of at most 96 characters, each after `indent` spaces, all but the first after `hang`
/// more; ends with a newline. A per cent sign stays with its number.
std::string wrapped(std::string_view paragraph, int indent = 0, int hang = 0);
/// Characters, not bytes, of UTF-8 text.
std::size_t width(std::string_view text);
/// Padded with spaces to that many characters, on the right or, for numbers, on the left.
std::string left(std::string_view text, std::size_t columns);
std::string right(std::string_view text, std::size_t columns);

}  // namespace rackwright::report
