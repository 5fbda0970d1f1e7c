#pragma once
// `rackwright evaluate`: each model by itself, called exactly as the simulator calls it.

#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace rackwright::app {

/// One key=value a model takes.
struct Argument {
  std::string_view name;
  std::string_view unit;      ///< UDUNITS text of the native unit ("1" for a plain number); empty: the value is a word, not a number
  std::string_view standard;  ///< value when not given, as text in that unit; empty: must be given (unless `optional`)
  double least = 0.0, most = 0.0;  ///< allowed range in `unit` (ignored for words)
  std::string_view sentence;  ///< what it is
  bool optional = false;      ///< may be absent with no standard (e.g. one of two alternatives)
  bool list = false;          ///< numbers with commas or blanks between, e.g. twelve monthly values
  std::string_view or_unit{};  ///< another unit a value may be given in, e.g. "kg/d" for milk; it then counts in that
  bool clock = false;         ///< hours that may be written as a time of day, 6:30
  bool whole = false;         ///< a count: fractions are refused
};

/// One line of the answer.
struct Result {
  std::string name;
  double value;
  std::string unit;
};

/// Values as given, converted to each argument's unit.
class Arguments {
 public:
  std::map<std::string, double, std::less<>> numbers;
  std::map<std::string, std::vector<double>, std::less<>> lists;
  std::map<std::string, std::string, std::less<>> words;
  std::map<std::string, std::string_view, std::less<>> other_units;  ///< keys given in their `or_unit`

  /// The `or_unit` if the value was given in it; empty otherwise.
  [[nodiscard]] std::string_view unit(std::string_view name) const;
  [[nodiscard]] bool has(std::string_view name) const;
  /// The number; the caller has made sure it is there.
  [[nodiscard]] double number(std::string_view name) const;
  [[nodiscard]] const std::string& word(std::string_view name) const;
  /// A word that is "yes" or "no"; throws BadArguments on any other.
  [[nodiscard]] bool yes(std::string_view name) const;
  [[nodiscard]] const std::vector<double>& list(std::string_view name) const;
};

/// Thrown by a model's run when values clash in a way no single range shows; the text is shown to the user (exit 2).
struct BadArguments {
  std::string why;
};

/// One model of the list.
struct Evaluator {
  std::string_view name;
  std::string_view sentence;
  std::string_view source;
  std::vector<Argument> arguments;
  std::function<std::vector<Result>(const Arguments&)> run;
};

/// The models of each topic; `evaluators()` joins them, topic by topic.
std::vector<Evaluator> biology_evaluators();   // viability soak germination mould-growth mat test-tolerance germination-trial grade lot-rule grain-mass
std::vector<Evaluator> climate_evaluators();   // saturation-pressure moist-air daily-temperature yearly-wave leaning-score day-extremes sun
std::vector<Evaluator> water_evaluators();     // pipe-loss emitter orifice drain
std::vector<Evaluator> herd_evaluators();      // growth-curve dairy-intake intake lifting-limit
std::vector<Evaluator> room_evaluators();      // room insulated-wall watering dry-spell frost
std::vector<Evaluator> farm_evaluators();      // hazard rack places order feed-value annuity
std::vector<Evaluator> queue_evaluators();     // queue
const std::vector<Evaluator>& evaluators();

}  // namespace rackwright::app
