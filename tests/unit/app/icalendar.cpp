#include "sim/app/icalendar.hpp"

#include "tests/catch.hpp"

using namespace rackwright::app;

TEST_CASE("icalendar: text is escaped, other control characters are left out") {
  CHECK(calendar_escaped("a,b;c\\d\ne\tf\x01g\r\x7f") == "a\\,b\\;c\\\\d\\ne fg");
}

TEST_CASE("icalendar: no line is longer than 75 octets, and unfolding gives the line back") {
  for (const std::string& line : {std::string("SUMMARY:short"), std::string(75, 'x'), std::string(76, 'x'), std::string(1000, 'y'),
                                  [] {
                                    std::string text = "DESCRIPTION:";
                                    for (int i = 0; i < 60; ++i) text += "\xC3\xA4\xE2\x82\xAC\xF0\x9F\x8C\xB1";
                                    return text;
                                  }()}) {
    const std::string folded = calendar_folded(line);
    REQUIRE(folded.ends_with("\r\n"));
    std::string back;
    std::size_t at = 0;
    for (std::size_t end; (end = folded.find("\r\n", at)) != std::string::npos; at = end + 2) {
      const std::string piece = folded.substr(at, end - at);
      CHECK(piece.size() <= 75);
      if (at > 0) CHECK(piece.front() == ' ');
      const std::string text = at > 0 ? piece.substr(1) : piece;
      CHECK((text.empty() || (static_cast<unsigned char>(text.front()) & 0xC0U) != 0x80U));  // no letter is cut
      back += text;
    }
    CHECK(back == line);
  }
}

TEST_CASE("icalendar: a calendar has what RFC 5545 asks of one") {
  Calendar calendar{"Goats, hens", std::chrono::sys_days(std::chrono::year(2026) / 7 / 14), {}};
  calendar.events.push_back({"1@x", calendar.stamp, 7 * 60 + 5, 40, "harvest; sow", "a\nb"});
  CHECK(calendar_text(calendar) ==
        "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//rackwright//worklist//EN\r\nCALSCALE:GREGORIAN\r\nMETHOD:PUBLISH\r\n"
        "X-WR-CALNAME:Goats\\, hens\r\nBEGIN:VEVENT\r\nUID:1@x\r\nDTSTAMP:20260714T000000Z\r\nDTSTART:20260714T070500\r\n"
        "DURATION:PT40M\r\nSUMMARY:harvest\\; sow\r\nDESCRIPTION:a\\nb\r\nTRANSP:TRANSPARENT\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n");
}

TEST_CASE("icalendar: what is of a whole day has a date and no time") {
  Calendar calendar{"Goats", std::chrono::sys_days(std::chrono::year(2026) / 7 / 14), {}};
  CalendarEvent& event = calendar.events.emplace_back();
  event.uid = "1@x", event.day = calendar.stamp, event.minutes_long = 5, event.summary = "put the shade up", event.all_day = true;
  CHECK(calendar_text(calendar).find("DTSTAMP:20260714T000000Z\r\nDTSTART;VALUE=DATE:20260714\r\nSUMMARY:put the shade up\r\n") != std::string::npos);
}
