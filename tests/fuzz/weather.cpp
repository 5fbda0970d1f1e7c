// Weather files, and records as the program writes them.
#include <cmath>

#include "models/climate/record.hpp"
#include "sim/scenario/weather_csv.hpp"
#include "tests/fuzz/target.hpp"

namespace rackwright::fuzz {

std::vector<std::string> seeds() {
  return {"date,tmax [degC],tmin [degC]\n2001-01-01,9.5,1\n2001-01-02,,\n2001-01-04,8,NA\n",
          "# log\nTime;temp (degF);RH [%]\n2020-02-29T00:00;50;60\n2020-02-29 03:00:00;\"51\";61\n2020-02-29T06:00Z;52;\n2020-02-29T09:00;60;40\n",
          "day\tmaximum [K]\tminimum [K]\tdew point [degC]\n1999-12-31\t280\t270\t-5\n2000-01-01\t281\t271\t-6\n"};
}

std::vector<std::string> words() {
  return {"date", "time", "tmax", "tmin", "temperature", "dew point", "humidity", "[degC]", "(degF)", "[%]", "[K]", "[", "\"", ",", ";", "\t",
          "\n", "\r\n", "2001-02-29", "2200-12-31", "T23:59", "1e999", "nan", "-", "99999", "\xEF\xBB\xBF"};
}

void attempt(const std::string& input) {
  const WeatherReading reading = read_weather(input);
  demand(reading.record.has_value() == reading.problems.empty(), "a file is read, or something is wrong with it");
  demand(reading.problems.size() <= 21, "complaints are few");
  for (const Problem& problem : reading.problems) {
    demand(!problem.why.empty(), "a complaint says why");
    for (const std::string& text : {problem.key, problem.value, problem.why})
      for (const char c : text) demand(static_cast<unsigned char>(c) >= 0x20, "no control character reaches the terminal");
  }
  (void)climate::decode(input);
  if (!reading.record) return;
  const climate::Record& record = *reading.record;
  demand(record.years() >= 1 && record.years() <= climate::longest_record && record.size() % 365 == 0, "a record is of whole years");
  const auto again = climate::decode(climate::encode(record));
  demand(again && climate::encode(*again) == climate::encode(record), "a record survives being written out");
}

}  // namespace rackwright::fuzz
