#include "sim/scenario/units.hpp"

#include <udunits2.h>

#include <cctype>
#include <charconv>
#include <cmath>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <stdexcept>
#include <system_error>
#include <tuple>

#include <fmt/format.h>

#include "sim/scenario/unit_text.hpp"

namespace rackwright {
namespace {

struct FreeSystem {
  void operator()(ut_system* p) const { ut_free_system(p); }
};
struct FreeUnit {
  void operator()(ut_unit* p) const { ut_free(p); }
};
struct FreeConverter {
  void operator()(cv_converter* p) const { cv_free(p); }
};
using System = std::unique_ptr<ut_system, FreeSystem>;
using Unit = std::unique_ptr<ut_unit, FreeUnit>;
using Converter = std::unique_ptr<cv_converter, FreeConverter>;

enum class Clash { unknown_unit, dimension };
using Found = std::variant<const cv_converter*, Clash>;

bool is_difference(std::string_view unit) { return unit == "K"; }

/// All of UDUNITS behind one lock: the library keeps global state.
class Library {
 public:
  Library() {
    ut_set_error_message_handler(ut_ignore);
    system_.reset(ut_read_xml(nullptr));
    if (!system_) throw std::runtime_error("the UDUNITS data base is not installed (Debian package libudunits2-data) or cannot be opened");
    second_ = parse("s");
  }

  std::variant<double, Clash> convert(double value, const std::string& from, const std::string& to) {
    const std::lock_guard lock(mutex_);
    const Found found = converter(from, to);
    if (const Clash* clash = std::get_if<Clash>(&found)) return *clash;
    return cv_convert_double(std::get<const cv_converter*>(found), value);
  }

 private:
  Unit parse(const std::string& text) { return Unit(ut_parse(system_.get(), text.c_str(), UT_UTF8)); }

  Found converter(const std::string& from, const std::string& to) {
    const auto key = std::pair(from, to);
    if (const auto known = cache_.find(key); known != cache_.end()) return known->second.get();
    Unit a = parse(unit_for_udunits(from));
    Unit b = parse(unit_for_udunits(to));
    if (!a || !b) return Clash::unknown_unit;
    if (is_difference(from) || is_difference(to)) {
      // A product has no origin: degF s to K s scales by 5/9 and shifts nothing.
      a.reset(ut_multiply(a.get(), second_.get()));
      b.reset(ut_multiply(b.get(), second_.get()));
    }
    if (ut_are_convertible(a.get(), b.get()) == 0) return Clash::dimension;
    Converter made(ut_get_converter(a.get(), b.get()));
    if (!made || !straight(*made)) return Clash::dimension;
    if (cache_.size() > 500) cache_.clear();  // texts come from users: keep memory bounded
    return cache_.emplace(key, std::move(made)).first->second.get();
  }

  /// UDUNITS also converts reciprocals (h to 1/s) and logarithms; neither is meant here.
  static bool straight(const cv_converter& c) {
    const double zero = cv_convert_double(&c, 0.0);
    const double one = cv_convert_double(&c, 1.0);
    const double two = cv_convert_double(&c, 2.0);
    return std::isfinite(zero) && std::abs((two - one) - (one - zero)) <= 1e-9 * (std::abs(two) + std::abs(zero));
  }

  std::mutex mutex_;
  System system_;
  Unit second_;
  std::map<std::pair<std::string, std::string>, Converter> cache_;
};

Library& library() {
  static Library instance;
  return instance;
}

/// A text as a message repeats it: not without end.
std::string_view shown(std::string_view text) { return text.substr(0, 60); }

UnitFault fault(std::string_view whole, std::string_view native, std::string_view says) {
  const std::string text = shown(whole) == whole ? std::string(whole) : std::string(shown(whole)) + "...";
  const auto words = unit_words(native);
  if (!words) return UnitFault{fmt::format("\"{}\" {} {}", text, says, native)};
  return UnitFault{fmt::format("\"{}\" {} {}; write it like {}", text, says, words->kind, words->example)};
}

/// "1/2" and "1 1/2" before a unit, as on a kitchen scale: the value and where it ends; nothing if it is none of these.
std::optional<std::pair<double, std::size_t>> fraction(std::string_view text) {
  unsigned whole = 0, above = 0, below = 0;
  const char* const end = text.data() + text.size();
  auto read = std::from_chars(text.data(), end, above);
  if (read.ec == std::errc{} && read.ptr != end && *read.ptr == ' ') {
    whole = above;
    read = std::from_chars(read.ptr + 1, end, above);
  }
  if (read.ec != std::errc{} || read.ptr == end || *read.ptr != '/') return std::nullopt;
  read = std::from_chars(read.ptr + 1, end, below);
  const bool ends = read.ptr == end || *read.ptr == ' ' || std::isalpha(static_cast<unsigned char>(*read.ptr)) != 0;
  if (read.ec != std::errc{} || below == 0 || below > 64 || (whole > 0 && above >= below) || !ends) return std::nullopt;
  return std::pair(whole + static_cast<double>(above) / below, static_cast<std::size_t>(read.ptr - text.data()));
}

/// Where the number ends; text has no leading space.
std::variant<std::pair<double, std::size_t>, UnitFault> leading_number(std::string_view text, std::string_view native) {
  std::string_view rest = text;
  if (rest.starts_with('+')) rest.remove_prefix(1);
  double value = 0.0;
  const auto [end, error] = std::from_chars(rest.data(), rest.data() + rest.size(), value);
  if (error == std::errc::result_out_of_range)
    return UnitFault{fmt::format("\"{}\" is beyond what a number can hold", shown(text))};
  if (error != std::errc{} && (text.front() == '$' || text.starts_with("\xE2\x82\xAC") || text.starts_with("\xC2\xA3")))
    return fault(text, native, "has a sign of money: amounts are plain numbers in the scenario's currency; wanted is");
  if (error != std::errc{} && (text.front() == '"' || text.front() == '\''))
    return fault(text, native, "stands in quotes of its own: leave them out; wanted is");
  if (error != std::errc{}) return fault(text, native, "does not start with a number; wanted is");
  if (!std::isfinite(value)) return UnitFault{fmt::format("\"{}\" is not a finite number", shown(text))};
  return std::pair(value + 0.0, static_cast<std::size_t>(end - text.data()));  // + 0.0: no minus zero
}

/// Unit texts UDUNITS would take but no keeper means: a second number, shifted origins, logarithms, dates.
bool odd_unit(std::string_view unit) {
  if (unit.empty()) return false;
  const char first = unit.front();
  if ((first >= '0' && first <= '9') || first == '.' || first == '+' || first == '-' || first == ',') return true;
  // UDUNITS knows a bag as 94 lb (of cement); a keeper's holds what the scenario says.
  if (unit == "/bag" || unit == "/ bag" || unit == "bag" || unit == "bags" || unit == "per bag") return true;
  if (unit.find('@') != std::string_view::npos || unit.size() > 60) return true;
  for (const std::string_view word : {" since ", " after ", " from ", " ref ", "re ", "\n", "\t"}) {
    if (unit.find(word) != std::string_view::npos) return true;
  }
  return false;
}

/// "14 h 30 min", "40 degrees 30'", "50 % 50 %": UDUNITS would multiply them. A number may follow another unit only where it is divided by,
/// as in 9 / 25 kg.
bool two_quantities(std::string_view unit) {
  for (std::size_t i = 1; i < unit.size(); ++i) {
    if (std::isdigit(static_cast<unsigned char>(unit[i])) == 0) continue;
    const bool exponent = unit[i - 1] != ' ' && unit[i - 1] != '%' && unit[i - 1] != '.' && (unit[i - 1] & 0x80) == 0;
    const std::size_t before = unit.find_last_not_of(' ', i - 1);
    const bool divided = before == std::string_view::npos || unit[before] == '/' || unit[before] == '(' ||
                         unit.substr(0, before + 1).ends_with("per");
    if (!exponent && !divided) return true;
    while (i + 1 < unit.size() && (std::isdigit(static_cast<unsigned char>(unit[i + 1])) != 0 || unit[i + 1] == '.')) ++i;
    if (divided && before != 0 && before != std::string_view::npos && i + 1 == unit.size()) return true;  // by a number of nothing, and no fraction
  }
  return false;
}

/// Signs that look like a blank, a minus and a degree, written as those.
std::string with_usual_signs(std::string_view text) {
  std::string out(text);
  for (const auto& [sign, usual] : {std::pair{"\xC2\xA0", " "}, std::pair{"\xE2\x80\xAF", " "}, std::pair{"\xE2\x80\x89", " "},
                                    std::pair{"\xE2\x88\x92", "-"}, std::pair{"\xC2\xBA", "\xC2\xB0"}}) {
    const std::string from = sign;
    for (std::size_t at = out.find(from); at != std::string::npos; at = out.find(from, at)) out.replace(at, from.size(), usual);
  }
  return out;
}

/// To 15 significant digits, so that 35 cm is 0.35 m and not its neighbour.
double tidy(double value) {
  const std::string digits = fmt::format("{:.15g}", value);
  double out = value;
  std::from_chars(digits.data(), digits.data() + digits.size(), out);
  return out;
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
  return text;
}

}  // namespace

std::variant<double, UnitFault> read_quantity(std::string_view text, std::string_view native_unit) {
  const std::string usual = with_usual_signs(text);
  const std::string_view whole = trimmed(usual);
  if (whole.empty()) return fault(text, native_unit, "is empty; wanted is");
  const auto number = leading_number(whole, native_unit);
  if (const auto* bad = std::get_if<UnitFault>(&number)) return *bad;
  auto [value, used] = std::get<0>(number);
  bool share = false;
  if (!native_unit.starts_with("1/")) {
    if (const auto parts = fraction(whole)) {
      std::tie(value, used) = *parts;
      share = true;
    }
  }
  std::string_view unit = trimmed(whole.substr(used));
  // Nobody writes 1/50 for a fiftieth of a hundredth.
  if (share && unit.empty() && native_unit == "%") return tidy(100.0 * value);
  if (unit.size() > 2 && unit.starts_with("1/") && std::isalpha(static_cast<unsigned char>(unit[2])) != 0) unit.remove_prefix(1);
  // Where a point is wanted, K is a point on the absolute scale.
  if (unit == "K" && native_unit != "K") unit = "kelvin";
  if (unit.empty() || unit_for_udunits(unit) == unit_for_udunits(native_unit)) return value;
  if (unit == "1" && native_unit == "%") return tidy(100.0 * value);
  if (unit.front() == ',') return fault(whole, native_unit, "has a comma: decimals take a point, as in 2.5; wanted is");
  if (odd_unit(unit)) return fault(whole, native_unit, "has a unit that cannot be read; wanted is");
  if (two_quantities(unit)) return fault(whole, native_unit, "is more than one quantity: write one number and one unit, as 14.5 h for 14 h 30 min; wanted is");
  const auto converted = library().convert(value, std::string(unit), std::string(native_unit));
  if (const Clash* clash = std::get_if<Clash>(&converted)) {
    return fault(whole, native_unit, *clash == Clash::dimension            ? "is not"
                                     : native_unit.starts_with("1/") ? "has an unknown unit (money is a plain number, without its name or sign); wanted is"
                                                                     : "has an unknown unit; wanted is");
  }
  const double native = std::get<double>(converted);
  if (!std::isfinite(native)) return UnitFault{fmt::format("\"{}\" is beyond what a number can hold", shown(whole))};
  return tidy(native);
}

double convert(double value, std::string_view from, std::string_view to) {
  if (from == to) return value;
  const auto converted = library().convert(value, std::string(from), std::string(to));
  if (const double* number = std::get_if<double>(&converted)) return *number;
  throw std::logic_error(fmt::format("cannot convert {} to {}", from, to));
}

namespace {

/// So many digits; a number of thousands without an exponent, which nobody on a farm writes.
std::string in_digits(double value, int digits) {
  std::string text = fmt::format("{:.{}g}", value, digits);
  if (text.find('e') == std::string::npos || !(std::abs(value) >= 1.0) || std::abs(value) >= 1e12) return text;
  const double step = std::pow(10.0, std::floor(std::log10(std::abs(value))) + 1.0 - digits);
  return fmt::format("{:.0f}", std::round(value / step) * step);
}

}  // namespace

std::string write_quantity(double value, std::string_view native_unit, bool us, int significant_digits) {
  const auto words = unit_words(native_unit);
  if (us && native_unit == "m" && value != 0.0 && std::abs(value) < 0.9144)  // a yard
    return in_digits(convert(value, "m", "in"), significant_digits) + " in";
  if (us && words && words->us != native_unit) {
    return in_digits(convert(value, native_unit, words->us), significant_digits) + " " + std::string(words->us);
  }
  if (native_unit == "1") return in_digits(value, significant_digits);
  const std::string_view shown = native_unit.starts_with("1/") ? native_unit.substr(1) : native_unit;
  return in_digits(value, significant_digits) + " " + std::string(shown);
}

}  // namespace rackwright
