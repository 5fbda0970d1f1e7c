#include "sim/app/icalendar.hpp"

#include <fmt/core.h>

namespace rackwright::app {

std::string calendar_escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\\' || c == ';' || c == ',') out += '\\', out += c;
    else if (c == '\n') out += "\\n";
    else if (static_cast<unsigned char>(c) >= 0x20 && c != 0x7f) out += c;
    else if (c == '\t') out += ' ';
  }
  return out;
}

std::string calendar_folded(std::string_view line) {
  constexpr std::size_t most = 75;
  std::string out;
  std::size_t room = most;
  while (line.size() > room) {
    std::size_t cut = room;
    while (cut > 0 && (static_cast<unsigned char>(line[cut]) & 0xC0U) == 0x80U) --cut;  // not within a letter
    if (cut == 0) cut = room;                                                           // not UTF-8 at all
    out += line.substr(0, cut);
    out += "\r\n ";
    line.remove_prefix(cut);
    room = most - 1;  // the blank counts
  }
  out += line;
  return out + "\r\n";
}

namespace {

std::string basic_date(std::chrono::sys_days day) {
  const std::chrono::year_month_day d(day);
  return fmt::format("{:04d}{:02d}{:02d}", static_cast<int>(d.year()), static_cast<unsigned>(d.month()), static_cast<unsigned>(d.day()));
}

}  // namespace

std::string calendar_text(const Calendar& calendar) {
  std::string out;
  const auto line = [&](const std::string& text) { out += calendar_folded(text); };
  line("BEGIN:VCALENDAR");
  line("VERSION:2.0");
  line("PRODID:-//rackwright//worklist//EN");
  line("CALSCALE:GREGORIAN");
  line("METHOD:PUBLISH");
  line("X-WR-CALNAME:" + calendar_escaped(calendar.name));
  const std::string stamp = basic_date(calendar.stamp) + "T000000Z";
  for (const CalendarEvent& event : calendar.events) {
    line("BEGIN:VEVENT");
    line("UID:" + calendar_escaped(event.uid));
    line("DTSTAMP:" + stamp);
    if (event.all_day) line("DTSTART;VALUE=DATE:" + basic_date(event.day));
    else line(fmt::format("DTSTART:{}T{:02d}{:02d}00", basic_date(event.day), event.minute / 60, event.minute % 60));
    if (!event.all_day && event.minutes_long > 0) line(fmt::format("DURATION:PT{}M", event.minutes_long));
    line("SUMMARY:" + calendar_escaped(event.summary));
    if (!event.description.empty()) line("DESCRIPTION:" + calendar_escaped(event.description));
    line("TRANSP:TRANSPARENT");
    line("END:VEVENT");
  }
  line("END:VCALENDAR");
  return out;
}

}  // namespace rackwright::app
