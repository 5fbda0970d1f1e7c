#pragma once
// What follows from a scenario before any study of it, as facts to be printed or put into JSON.

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "sim/replication/plan.hpp"
#include "sim/study/summary.hpp"

namespace rackwright::app {

/// One fact: for people `label: value remark`, for programs `key`.
struct Fact {
  std::string key, label;
  std::variant<double, std::string> value;
  std::string unit = "1";     ///< of a number, native
  std::string remark = {};    ///< e.g. what it is compared with
};

struct Section {
  std::string key, title;
  std::vector<Fact> facts;
};

/// Arithmetic on the plan.
Section line_facts(const Plan& plan);
Section grain_facts(const Plan& plan);
Section rack_facts(const Plan& plan);
/// What it takes to build, and what that is a year.
Section money_facts(const Plan& plan);
Section water_facts(const Plan& plan);
/// What the animals want, and what a few played replications gave.
Section feed_facts(const Plan& plan, const study::Summary& played);

/// Trays sown on a day on which all of them are.
double trays_a_day(const Plan& plan);
/// A number for people in the scenario's units.
std::string amount(const Plan& plan, double value, std::string_view unit);

}  // namespace rackwright::app
