#include "sim/app/against.hpp"

#include <algorithm>
#include <utility>
#include <variant>

#include "sim/app/exit.hpp"
#include "sim/app/interrupt.hpp"
#include "sim/app/progress.hpp"
#include "sim/app/say.hpp"
#include "sim/results/collect.hpp"

namespace rackwright::app {

std::vector<Change> read_changes(const Loaded& loaded, const Options& options) {
  std::vector<Change> changes;
  Problems problems;
  for (const std::string& typed : options.changes) {
    auto settings = study::read_change(loaded.scenario, typed);
    if (auto* problem = std::get_if<Problem>(&settings)) {
      problems.push_back(std::move(*problem));
      continue;
    }
    Change& change = changes.emplace_back();
    change.typed = typed;
    change.settings = std::get<study::Settings>(std::move(settings));
    auto scenario = study::changed(loaded.scenario, change.settings);
    if (auto* found = std::get_if<Problems>(&scenario)) {
      problems.insert(problems.end(), found->begin(), found->end());
      continue;
    }
    change.scenario = std::get<Scenario>(std::move(scenario));
    Scenario now = loaded.scenario;
    now.choose.choices.clear();  // as changed() does
    if (now == change.scenario)
      problems.push_back({0, "--against", typed, "changes nothing: the scenario says so already", ""});
    if (std::any_of(changes.begin(), changes.end() - 1, [&](const Change& other) { return other.scenario == change.scenario; }))
      problems.push_back({0, "--against", typed, "is there twice", ""});
  }
  if (!problems.empty()) throw BadInput(problems_text("--against", problems));
  return changes;
}

results::Arrays against_arrays(const Loaded& loaded, const Options& options, const std::vector<Change>& changes,
                              study::PieceMemory& pieces) {
  const study::PairRequest request{loaded.scenario.run.random_seed,
                                   static_cast<std::uint32_t>(loaded.scenario.run.replications), options.threads,
                                   &catch_interrupts()};
  Progress progress(options.quiet);
  std::vector<study::Comparison> all;
  for (const Change& change : changes) {
    study::Comparison found = study::compare(loaded.scenario, change.scenario, request, &pieces, "against " + change.typed);
    if (request.stop->load()) return {};
    found.change = change.typed;
    found.settings = change.settings;
    all.push_back(std::move(found));
    progress.show("changes", all.size(), changes.size());
  }
  return results::against_arrays(all);
}

}  // namespace rackwright::app
