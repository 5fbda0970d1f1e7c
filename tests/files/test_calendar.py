#!/usr/bin/python3
"""The worklist's calendar, read by a parser of others, says what its table says. Usage: test_calendar.py RACKWRIGHT SCENARIO"""
import csv
import datetime
import subprocess
import sys
import tempfile
from pathlib import Path

from icalendar import Calendar


def main(program: str, scenario: str) -> None:
    with tempfile.TemporaryDirectory() as folder:
        rack = Path(folder, "rack.toml")
        rack.write_text('at = 2026-07-14T06:00\n[[batch]]\nsown = 2026-07-06\ntrays = 4\n[[batch]]\nsown = 2026-07-07T18:30\ntrays = 3\n')
        files = {}
        for ending in ("ics", "csv"):
            out = Path(folder, "work." + ending)
            subprocess.run([program, "schedule", scenario, "--state", rack, "--days", "10", "--forecast", "40/24 41/25 42/25 41/24 40/24",
                            "--set", "group.milkers.name=goats; früh \\ 2026 " + 60 * "ü", "--out", out],
                           check=True, stdout=subprocess.PIPE)
            files[ending] = out.read_bytes()
    raw = files["ics"]
    assert b"\r\n" in raw and b"\n" not in raw.replace(b"\r\n", b""), "every line ends with CR LF"
    assert max(len(line) for line in raw.split(b"\r\n")) <= 75, "no line is longer than 75 octets"
    calendar = Calendar.from_ical(raw)
    assert calendar.errors == [] and calendar["version"] == "2.0" and calendar["prodid"]
    events = calendar.walk("VEVENT")
    assert len(events) > 20
    assert len({str(e["uid"]) for e in events}) == len(events), "no identifier twice"
    said = {}
    for event in events:
        assert event.errors == []
        start = event["dtstart"].dt
        assert isinstance(start, datetime.datetime) and start.tzinfo is None, "floating local time"
        assert event["dtstamp"].dt.tzinfo is not None, "a stamp in UTC"
        assert event["duration"].dt > datetime.timedelta(0)
        if "weather" not in str(event["uid"]):
            said[start] = str(event["description"]).split("\n")
    rows = {}
    for row in csv.DictReader(files["csv"].decode().splitlines()):
        when = datetime.datetime.strptime(row["date"] + row["time"], "%Y-%m-%d%H:%M")
        rows.setdefault(when, []).append(row["in words"])
    assert said == rows, "calendar and table say the same"
    assert Calendar.from_ical(calendar.to_ical()) == calendar
    print(f"{len(events)} appointments, {sum(map(len, rows.values()))} tasks")


main(*sys.argv[1:])
