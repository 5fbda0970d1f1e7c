#pragma once
// Sheets and tasks made up for tests of what is told of them.

#include <chrono>
#include <string>
#include <utility>
#include <vector>

#include "sim/app/schedule_sheet.hpp"
#include "tests/farm.hpp"

namespace rackwright::test {

/// 14 July 2026, a small farm of goats, hens and ewes that sows mornings and evenings.
inline app::Sheet sheet_of(std::vector<study::Task> tasks) {
  app::Sheet sheet;
  sheet.scenario = small_farm();
  sheet.scenario.title = "Stone barn";
  sheet.first = std::chrono::sys_days(std::chrono::year(2026) / 7 / 14);
  sheet.days = 2;
  sheet.list.tasks = std::move(tasks);
  return sheet;
}

inline study::Task task(study::Task::Kind kind, int trays, double kilograms, int which = 0) {
  study::Task t;
  t.kind = kind;
  t.minute = 420;
  t.trays = trays;
  t.kilograms = kilograms;
  t.which = which;
  t.day = -8;
  return t;
}

inline bool contains(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace rackwright::test
