#pragma once
// Years of several designs at once: (design, block of years) tasks over all cores, delivered in order.

#include <cstdint>
#include <functional>
#include <string>
#include <variant>
#include <vector>

#include "sim/replication/outcome.hpp"
#include "sim/scenario/problem.hpp"
#include "sim/scenario/scenario.hpp"
#include "sim/study/elimination.hpp"
#include "sim/study/size.hpp"

namespace rackwright::study {

/// The scenario with every choice set to one of its values, checked; or what is wrong with that.
std::variant<Scenario, Problems> design_of(const Scenario& scenario, const std::vector<std::string>& values);

/// Years of one design in order, or why it could not be simulated.
struct DesignYears {
  std::size_t design = 0;
  std::uint32_t asked = 0;  ///< years this delivery answers for
  std::vector<Outcome> outcomes{};
  std::string fault{};
};

/// Runs the work asked for and hands results to `sink` in the order of `work` from the calling thread. `values` are the
/// settings of each design. Returns false when it was stopped.
bool run_designs(const Scenario& scenario, const std::vector<std::vector<std::string>>& values,
                 const std::vector<Elimination::Work>& work, const SizeRequest& request,
                 const std::function<void(const DesignYears&)>& sink);

}  // namespace rackwright::study
