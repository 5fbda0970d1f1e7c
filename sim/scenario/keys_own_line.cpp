// Keys of what differs from what is published, and of how unsure the uncertain parameters are.
#include <algorithm>
#include <charconv>

#include <fmt/format.h>

#include "sim/scenario/key_at.hpp"
#include "sim/scenario/key_table.hpp"

namespace rackwright::keys {
namespace {

using S = Scenario;
constexpr std::string_view fitted = "1 as published; yours from rackwright fit trays";

template <Law law>
Key<S> doubt(std::string_view name, std::string_view sentence) {
  constexpr std::size_t place = place_of(law);
  return real<S>(name, {0.0, law == Law::flatness ? 1.0 : 2.0}, [](auto& s) -> auto& { return s.ignorance.spread[place]; }, sentence,
                 ignorance_laws()[place].source);
}

std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words;
  for (std::size_t at = text.find_first_not_of(' '); at != std::string::npos;) {
    const auto end = std::min(text.find(' ', at), text.size());
    words.push_back(text.substr(at, end - at));
    at = text.find_first_not_of(' ', end);
  }
  return words;
}

std::optional<Tie> read_tie(const std::string& text) {
  const auto words = words_of(text);
  if (words.size() != 3) return std::nullopt;
  const auto first = find_law(words[0]), second = find_law(words[1]);
  double correlation = 0.0;
  const std::string& number = words[2];
  const auto [end, error] = std::from_chars(number.data(), number.data() + number.size(), correlation);
  const bool good = error == std::errc() && end == number.data() + number.size() && correlation > -1.0 && correlation < 1.0;
  if (!first || !second || *first == *second || !good) return std::nullopt;
  return Tie{*first, *second, correlation};
}

std::optional<std::string> set_ties(S& scenario, const Value& value, const S&) {
  Doubts changed = scenario.ignorance;
  changed.ties.clear();
  for (const std::string& text : std::get<std::vector<std::string>>(value)) {
    const auto tie = read_tie(text);
    if (!tie) return "must list pairs such as \"pace swelling -0.6\": two laws of docs/models/ignorance.md and a number between -1 and 1";
    for (const Tie& other : changed.ties) {
      const bool same = (other.first == tie->first && other.second == tie->second) || (other.first == tie->second && other.second == tie->first);
      if (same) return "ties the same two twice";
    }
    changed.ties.push_back(*tie);
  }
  if (!tied_scores(changed)) return "holds ties that contradict one another (they are no correlations of anything)";
  scenario.ignorance = changed;
  return std::nullopt;
}

Key<S> ties_key() {
  Key<S> key = declare<S>("ignorance.ties", Kind::names,
                          "Which of them go together, each as two laws and a correlation: \"loss swelling 0.6\".", "none known; yours from rackwright fit trays");
  key.get = [](const S& s, const S&) -> Value {
    std::vector<std::string> all;
    for (const Tie& tie : s.ignorance.ties)
      all.push_back(fmt::format("{} {} {}", ignorance_laws()[place_of(tie.first)].name, ignorance_laws()[place_of(tie.second)].name, tie.correlation));
    return all;
  };
  key.set = set_ties;
  return key;
}

}  // namespace

Table<S> own_line_keys() {
  return {
      real<S>("own_line.pace", {0.2, 5.0}, AT(own_line.pace), "How fast mats grow, against published ones.", fitted),
      real<S>("own_line.loss", {0.05, 4.0}, AT(own_line.loss), "How much dry matter they lose, and how much heat they give.", fitted),
      real<S>("own_line.swelling", {0.1, 5.0}, AT(own_line.swelling), "How much water they hold beyond soaked grain.", fitted),
      real<S>("own_line.height", {0.1, 5.0}, AT(own_line.height), "How high they stand.", fitted),
      real<S>("own_line.warmth", {0.05, 10.0}, AT(own_line.warmth), "How much warmer than the room their heat makes them.", fitted),
      real<S>("own_line.measured_time", {0.2, 5.0}, AT(own_line.measured_time), "Time to germinate of barley, whose counts are published.", fitted),
      real<S>("own_line.borrowed_time", {0.2, 5.0}, AT(own_line.borrowed_time), "Time to germinate of the other species.", fitted),
      real<S>("own_line.flatness", {-1.0, 1.0}, AT(own_line.flatness),
              "How far kernels of a lot germinate apart: 0 as published, 1 flatter, -1 steeper.", "0 as published; yours from rackwright fit trays"),
  };
}

Table<S> ignorance_keys() {
  return {
      doubt<Law::mould>("ignorance.mould", "How unsure spoilage.mould_rate is: standard deviation of its logarithm, as in all of these."),
      doubt<Law::sour>("ignorance.sour", "How unsure spoilage.sour_rate is."),
      doubt<Law::pace>("ignorance.pace", "How unsure own_line.pace is."),
      doubt<Law::loss>("ignorance.loss", "How unsure own_line.loss is."),
      doubt<Law::swelling>("ignorance.swelling", "How unsure own_line.swelling is."),
      doubt<Law::measured_time>("ignorance.measured_time", "How unsure own_line.measured_time is."),
      doubt<Law::borrowed_time>("ignorance.borrowed_time", "How unsure own_line.borrowed_time is."),
      doubt<Law::flatness>("ignorance.flatness", "How unsure own_line.flatness is: standard deviation of itself."),
      doubt<Law::ageing>("ignorance.ageing", "How unsure the ageing of grain in store is."),
      doubt<Law::warmth>("ignorance.warmth", "How unsure own_line.warmth is."),
      doubt<Law::carry>("ignorance.carry", "How unsure spoilage.shed and spoilage.shed_to_tray are, together."),
      doubt<Law::height>("ignorance.height", "How unsure own_line.height is."),
      doubt<Law::dead>("ignorance.dead", "How unsure spoilage.dead_grain_floor is."),
      doubt<Law::lag>("ignorance.lag", "How unsure spoilage.mould_lag is."),
      doubt<Law::dead_power>("ignorance.dead_power", "How unsure spoilage.dead_grain_power is."),
      ties_key(),
  };
}

}  // namespace rackwright::keys
