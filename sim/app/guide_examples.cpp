#include <map>
#include <vector>

#include "sim/app/guide.hpp"

namespace rackwright::app {

std::span<const Example> examples(std::string_view command) {
  static const std::map<std::string_view, std::vector<Example>> all{
      {"new",
       {{"rackwright new farm.toml", "asks eight questions at the terminal"},
        {"rackwright new farm.toml --from hens", "a ready farm, to change by hand"},
        {"rackwright new farm.toml --animals \"12 goats at 1.5 kg, 40 hens\" --place shed", "without questions"}}},
      {"check",
       {{"rackwright check farm.toml", "places, grain, water, weights, work and cautions"},
        {"rackwright check farm.toml --set rack.tiers=5", "the same with five tiers"}}},
      {"simulate",
       {{"rackwright simulate farm.toml --out runs.h5", "many years of luck on the rack as written"},
        {"rackwright simulate farm.toml --out short.h5 --set line.soak=\"6 h\" --replications 1000", "another soak, told more closely"}}},
      {"size",
       {{"rackwright size farm.toml --out size.h5", "the cheapest rack of [choose] that meets [target]"},
        {"rackwright size farm.toml --out size.h5 --force --set target.fill_rate=\"98 %\"", "a harder target, in place of the old file"}}},
      {"sweep",
       {{"rackwright sweep farm.toml --vary rack.tiers=4,5 --vary line.days_on_rack=7,8,9 --out sweep.h5", "every combination"}}},
      {"journal", {{"rackwright journal farm.toml --replication 17", "what happened in that year"}}},
      {"schedule",
       {{"rackwright schedule farm.toml --state rack.toml --forecast \"38/22 40/24 36/21\"", "a week's work, and what the heat asks for"},
        {"rackwright schedule farm.toml --state rack.toml --days 14 --out work.ics", "the same for a calendar"},
        {"rackwright schedule farm.toml --log trays.csv --days 14", "a fortnight, from what your log of trays says stands on the rack"},
        {"rackwright schedule farm.toml --behind 2", "how a usual rack makes up for two batches that were not sown"}}},
      {"lot",
       {{"rackwright lot farm.toml --trial 46/50 44/50 --price \"8 / 25 kg\"", "a new lot against what the scenario says"},
        {"rackwright lot farm.toml --trial 95/100 --current 88/100", "two lots, both tried"},
        {"rackwright lot farm.toml --policies", "what trying every new lot is worth a year"}}},
      {"fit",
       {{"rackwright fit trays log.csv --scenario farm.toml --out mine.toml", "what a log of your trays says, as keys of a scenario"},
        {"rackwright fit weather station.csv", "a climate from measured weather"}}},
      {"report",
       {{"rackwright report size.h5 --out size.html", "a page to look at and print"},
        {"rackwright report runs.h5 --text", "the same in the terminal"}}},
      {"evaluate",
       {{"rackwright evaluate", "every model with its keys"},
        {"rackwright evaluate mat temperature=\"75 degF\" days=7", "one tray at one temperature"}}},
      {"describe",
       {{"rackwright describe scenario", "every key of a scenario"},
        {"rackwright describe completion-bash > /etc/bash_completion.d/rackwright", "completion in every shell"}}},
  };
  const auto at = all.find(command);
  return at == all.end() ? std::span<const Example>() : std::span<const Example>(at->second);
}

}  // namespace rackwright::app
