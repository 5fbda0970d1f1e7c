// Tray logs.
#include <cmath>

#include "sim/scenario/today_log.hpp"
#include "tests/farm.hpp"
#include "tests/fuzz/target.hpp"

namespace rackwright::fuzz {

std::vector<std::string> seeds() {
  return {"date sown,lot,species,dry grain [kg],soak [h],tray area [m2],room max [degC],room min [degC],days,fresh weight [kg],height [cm],spoiled,notes\n"
          "2026-03-01,A,barley,0.9,10,0.18,19,14,7,4.4,14,no,\n2026-03-02,,,1 lb,,,,,,,,mould,\"a \"\"b\"\", c\"\n",
          "sown;grain (lb);max (degF);min (degF);fresh (lb);height (inch);moon\r\n2020-02-29;2,5;68;50;11;5;full\r\n",
          "Date\tSpoiled\tNotes\r2000-01-01\tyes\t\"two\rlines\"\r"};
}

std::vector<std::string> words() {
  return {"date sown", "lot", "species", "germination [%]", "dry grain [kg]", "soak [h]", "tray area", "room max [degF]", "room min [degF]", "days", "fresh weight",
          "height [", "spoiled", "notes", "[lb]", "(kg)", "\"", "\"\"", ",", ";", "\t", "\n", "\r", "\r\n", "#", "2001-02-29", "2199-12-31", " kg",
          " lb", "yes", "no", "mould", "NA", "-", "1e999", "nan", "\xEF\xBB\xBF", "\x1b[2J", "0,5"};
}

/// The rack of the day after one of its sowings.
void attempt_today(const TrayLog& log) {
  static const Scenario farm = test::small_farm();
  const When at{log.trays[log.trays.size() / 2].sown + std::chrono::days(1), 390};
  const LoggedToday told = today_from_log(log, farm, at);
  demand(told.today.has_value() == told.problems.empty(), "a rack stands there, or something is wrong with the log");
  for (const Problem& problem : told.problems) demand(problem.line > 0 || !problem.why.empty(), "a complaint has its line");
  if (!told.today) return;
  int trays = 0;
  for (const Today::Batch& batch : told.today->batches) {
    demand(batch.trays > 0 && !batch.grain.empty() && batch.sown.day <= at.day, "a batch stands there");
    demand(!batch.germination || (*batch.germination > 0.0 && *batch.germination < 1.0), "its germination is a share");
    demand(batch.charge >= 0.01 && batch.charge < 100.0, "its trays are as heavy as the models hold");
    trays += batch.trays;
  }
  for (const Today::Soaking& tub : told.today->soaking) demand(minutes_of(tub.since) <= minutes_of(at) && tub.since.minute.has_value(), "what is in soak was put there before");
  demand(trays <= 52, "no more than there are places");
}

void attempt(const std::string& input) {
  static const Scenario farm = test::small_farm();
  // Asked of logs that are wrong elsewhere as well, whatever is left of them.
  const auto also = [](const TrayLog& log) { return today_from_log(log, farm, {std::chrono::sys_days(std::chrono::year(2026) / 5 / 20), 390}).problems; };
  for (const std::optional<Units> units : {std::optional<Units>(), std::optional(Units::us)}) {
    const TrayLogReading reading = read_tray_log(input, units, also);
    demand(reading.log.has_value() == reading.problems.empty(), "a log is read, or something is wrong with it");
    demand(reading.problems.size() <= 51, "complaints are few");
    for (const Problem& problem : reading.problems) {
      demand(!problem.why.empty(), "a complaint says why");
      for (const std::string& text : {problem.key, problem.value, problem.why})
        for (const char c : text) demand(static_cast<unsigned char>(c) >= 0x20, "no control character reaches the terminal");
    }
    if (!reading.log) continue;
    demand(!reading.log->trays.empty() && reading.log->trays.size() <= 20000, "a log has trays, not too many");
    const LoggedTray* before = nullptr;
    for (const LoggedTray& tray : reading.log->trays) {
      demand(!before || before->sown <= tray.sown, "trays stand in the order of their dates");
      demand(!tray.grain || (tray.grain->value() > 0.0 && tray.grain->value() <= 200.0), "grain is a mass");
      demand(!tray.fresh || (std::isfinite(tray.fresh->value()) && tray.fresh->value() >= 0.0), "so is a mat's");
      demand(!tray.room_max || !tray.room_min || *tray.room_min <= *tray.room_max, "the minimum is not above the maximum");
      for (const std::string& text : {tray.lot, tray.species, tray.notes})
        for (const char c : text) demand(static_cast<unsigned char>(c) >= 0x20, "texts have no control characters");
      before = &tray;
    }
    attempt_today(*reading.log);
  }
}

}  // namespace rackwright::fuzz
