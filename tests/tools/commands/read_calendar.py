#!/usr/bin/python3
"""Tells as JSON what icalendar, which knows nothing of dullcast, reads of a calendar. Usage: FILE"""

import datetime
import json
import sys

import icalendar

with open(sys.argv[1], "rb") as file:
    calendar = icalendar.Calendar.from_ical(file.read())
entries = []
for entry in calendar.walk("VEVENT"):
    begin = entry.decoded("DTSTART")
    entries.append({
        "uid": str(entry["UID"]),
        "begin": begin.isoformat(),
        "all_day": not isinstance(begin, datetime.datetime) and "DTEND" not in entry,
        "stamp": entry.decoded("DTSTAMP").isoformat(),
        "transparent": str(entry["TRANSP"]),
        "summary": str(entry["SUMMARY"]),
        "description": str(entry["DESCRIPTION"]),
    })
    if entry.errors:
        sys.exit(f"errors: {entry.errors}")
print(json.dumps({"version": str(calendar["VERSION"]), "prodid": str(calendar["PRODID"]), "entries": entries}))
