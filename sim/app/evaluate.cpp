#include "sim/app/evaluate.hpp"

#include "models/base/expects.hpp"

namespace rackwright::app {

namespace {

template <class Map>
const typename Map::mapped_type& found(const Map& map, std::string_view name) {
  const auto at = map.find(name);
  EXPECTS(at != map.end());
  return at->second;
}

}  // namespace

bool Arguments::has(std::string_view name) const {
  return numbers.contains(name) || lists.contains(name) || words.contains(name);
}
std::string_view Arguments::unit(std::string_view name) const {
  const auto at = other_units.find(name);
  return at == other_units.end() ? std::string_view() : at->second;
}
double Arguments::number(std::string_view name) const { return found(numbers, name); }
const std::string& Arguments::word(std::string_view name) const { return found(words, name); }
bool Arguments::yes(std::string_view name) const {
  const std::string& said = word(name);
  if (said != "yes" && said != "no") throw BadArguments{std::string(name) + " is yes or no, not \"" + said + "\""};
  return said == "yes";
}
const std::vector<double>& Arguments::list(std::string_view name) const { return found(lists, name); }

const std::vector<Evaluator>& evaluators() {
  static const std::vector<Evaluator> all = [] {
    std::vector<Evaluator> list;
    for (auto topic : {climate_evaluators, biology_evaluators, water_evaluators, herd_evaluators, room_evaluators, farm_evaluators, queue_evaluators}) {
      for (Evaluator& evaluator : topic()) list.push_back(std::move(evaluator));
    }
    return list;
  }();
  return all;
}

}  // namespace rackwright::app
