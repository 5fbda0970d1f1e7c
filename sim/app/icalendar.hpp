#pragma once
// An iCalendar (RFC 5545) as text: lines end with CR LF, none is longer than 75 octets, text is escaped.

#include <chrono>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace rackwright::app {

/// One appointment at the farm's own clock ("floating": no time zone is written, so a calendar shows the hour as it stands).
struct CalendarEvent {
  std::string uid{};                       ///< the same for the same work, so that a calendar read anew replaces it
  std::chrono::sys_days day{};
  int minute = 0;                          ///< of the day
  int minutes_long = 0;                    ///< 0: a moment
  std::string summary{}, description{};    ///< any text; lines of the description end with \n
  bool all_day = false;                    ///< of the day as a whole: its minutes do not count
};

struct Calendar {
  std::string name{};
  std::chrono::sys_days stamp{};           ///< what DTSTAMP says: the day that the work was worked out for, at 00:00 UTC
  std::vector<CalendarEvent> events{};
};

std::string calendar_text(const Calendar& calendar);

/// A text value with its commas, semicolons, backslashes and line ends escaped (3.3.11); other control characters are left out.
std::string calendar_escaped(std::string_view text);
/// One content line folded (3.1), never inside a letter of UTF-8, with its CR LF.
std::string calendar_folded(std::string_view line);

}  // namespace rackwright::app
