"""Reads a calendar with the icalendar library and the system's own zone rules, and prints what it says as JSON.

    calendar.py FILE ZONE

Nothing of the program is used: instants are turned into clock times by Python's zoneinfo.
"""

import json
import sys
import zoneinfo

import icalendar


def main(path, zone):
    zone = zoneinfo.ZoneInfo(zone)
    with open(path, "rb") as file:
        calendar = icalendar.Calendar.from_ical(file.read())
    events = []
    for event in calendar.walk("VEVENT"):
        start = event["DTSTART"].dt
        alarms = [part for part in event.subcomponents if part.name == "VALARM"]
        events.append({
            "uid": str(event["UID"]),
            "sequence": int(event["SEQUENCE"]),
            "utc": start.astimezone(zoneinfo.ZoneInfo("UTC")).strftime("%Y-%m-%dT%H:%M"),
            "local": start.astimezone(zone).strftime("%Y-%m-%dT%H:%M"),
            "minutes": (event["DTEND"].dt - start).total_seconds() / 60,
            "alarms": [(start + alarm["TRIGGER"].dt).astimezone(zone).strftime("%H:%M") for alarm in alarms],
            "actions": [str(alarm["ACTION"]) for alarm in alarms],
            "summary": str(event["SUMMARY"]),
            "about": str(event["DESCRIPTION"]),
        })
    print(json.dumps({"version": str(calendar["VERSION"]), "events": events}))


if __name__ == "__main__":
    main(*sys.argv[1:])
