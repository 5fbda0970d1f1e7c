#include "sim/scenario/sowing_order.hpp"

#include <algorithm>
#include <charconv>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "models/design/rack.hpp"
#include "sim/scenario/key_text.hpp"

namespace rackwright {
namespace {

const Choice* choice_of(const Scenario& s, std::string_view key) {
  const auto found = std::find_if(s.choose.choices.begin(), s.choose.choices.end(), [&](const Choice& c) { return c.key == key; });
  return found == s.choose.choices.end() ? nullptr : &*found;
}

/// Batches a day that the line may have.
std::vector<int> batches_of(const Scenario& s) {
  const Choice* choice = choice_of(s, "line.batches_per_day");
  if (choice == nullptr) return {s.line.batches_per_day};
  std::vector<int> all;
  for (const std::string& value : choice->values) {
    int batches = 0;
    if (std::from_chars(value.data(), value.data() + value.size(), batches).ec == std::errc{} && batches > 0) all.push_back(batches);
  }
  return all;
}

}  // namespace

std::vector<std::string> sowing_order(const Scenario& scenario, const std::vector<std::string>& grains, int batches) {
  std::vector<std::string> named = grains;
  if (named.empty())
    for (const GrainSupply& grain : scenario.grains) named.push_back(grain.name);
  std::vector<std::string> order;
  for (int batch = 0; batch < batches && !named.empty(); ++batch) order.push_back(named[static_cast<std::size_t>(batch) % named.size()]);
  return order;
}

std::vector<std::string> sowing_order(const Scenario& scenario) { return sowing_order(scenario, scenario.line.grains, scenario.line.batches_per_day); }

int batches_of(const Scenario& scenario, std::size_t grain) {
  const auto order = sowing_order(scenario);
  return static_cast<int>(std::count(order.begin(), order.end(), scenario.grains[grain].name));
}

double most_sown_a_day(const Scenario& scenario, std::size_t grain) {
  const double per_tray = scenario.line.sowing_density.value() * design::tray_area(scenario.rack).value();
  return per_tray * scenario.line.trays_per_batch * batches_of(scenario, grain);
}

void same_line_cautions(const Scenario& scenario, std::vector<std::string>& out) {
  const Choice* grains = choice_of(scenario, "line.grains");
  if (grains == nullptr) return;
  const std::vector<int> batches = batches_of(scenario);
  if (batches.empty()) return;
  const auto same = [&](const std::string& a, const std::string& b) {
    return std::all_of(batches.begin(), batches.end(), [&](int n) {
      return sowing_order(scenario, keys::list_parts(a), n) == sowing_order(scenario, keys::list_parts(b), n);
    });
  };
  for (std::size_t i = 0; i < grains->values.size(); ++i)
    for (std::size_t j = 0; j < i; ++j) {
      if (!same(grains->values[i], grains->values[j])) continue;
      const int most = *std::max_element(batches.begin(), batches.end());
      out.push_back(fmt::format("line.grains = [{}] is the same line as [{}], tried twice: with {} batch{} a day, each of one grain, only {} {} sown. A line of several "
                                "grains needs as many batches a day (line.batches_per_day).",
                                fmt::join(keys::list_parts(grains->values[i]), ", "), fmt::join(keys::list_parts(grains->values[j]), ", "), most, most == 1 ? "" : "es",
                                fmt::join(sowing_order(scenario, keys::list_parts(grains->values[i]), most), " and "), most == 1 ? "is" : "are"));
      break;
    }
}

}  // namespace rackwright
