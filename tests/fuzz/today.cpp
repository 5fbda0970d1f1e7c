// State files of a rack, and forecasts as typed.
#include "sim/scenario/forecast.hpp"
#include "sim/scenario/today.hpp"
#include "tests/farm.hpp"
#include "tests/fuzz/target.hpp"

namespace rackwright::fuzz {

std::vector<std::string> seeds() {
  return {"at = 2026-07-14T06:00\n[[batch]]\nsown = 2026-07-06T18:30\ntrays = 3\ngrain = \"barley\"\ngermination = \"88 %\"\nsoak = \"12 h\"\n",
          "at = \"2026-07-14\"\n[[soaking]]\nsince = 2026-07-13T21:00:00\ntrays = 3\n[[store]]\ngrain = \"wheat\"\namount = \"80 kg\"\ncame = 2026-06-01\n",
          "at = 2026-02-28 23:59\n[[order]]\ngrain = \"wheat\"\namount = \"1 t\"\ndue = 2026-03-01\n", "38/22 40/24, 36/-1 degF"};
}

std::vector<std::string> words() {
  return {"at", "[[batch]]", "[[soaking]]", "[[store]]", "[[order]]", "sown", "trays", "grain", "since", "amount", "due", "came", " = ", "\n", "\"",
          "2026-07-14", "T18:30", ":00", "'", "#", "9999-12-31", "-1", "1e9", "0/0", "/", "nan"};
}

void attempt(const std::string& input) {
  static const Scenario farm = test::small_farm();
  const TodayReading reading = read_today(input, farm);
  demand(reading.today.has_value() == reading.problems.empty(), "a state is read, or something is wrong with it");
  for (const Problem& problem : reading.problems) {
    demand(!problem.why.empty(), "a complaint says why");
    for (const char c : problem.key) demand(static_cast<unsigned char>(c) >= 0x20, "no control character reaches the terminal");
  }
  if (input.find('/') != std::string::npos && input.find(".") == std::string::npos)
    (void)read_forecast(input, std::chrono::sys_days{}, farm);
  if (!reading.today) return;
  int trays = 0;
  for (const Today::Batch& batch : reading.today->batches) {
    demand(batch.trays > 0 && !batch.grain.empty() && batch.sown.day <= reading.today->at.day, "a batch stands there");
    trays += batch.trays;
  }
  demand(trays <= 52, "no more than there are places");
}

}  // namespace rackwright::fuzz
