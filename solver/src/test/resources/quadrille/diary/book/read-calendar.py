"""Prints the events of a calendar as a parser written apart reads them.

Usage: read-calendar.py vobject|icalendar FILE ZONE...
A line an event: uid, summary, location, description, status, and start and end by the clock of each
zone; with tabs between, and everything that is no plain letter written as Python does.
"""
import datetime
import sys
import zoneinfo


def vobject_events(text):
    import vobject
    for calendar in vobject.readComponents(text):
        for event in calendar.vevent_list:
            yield {
                "uid": event.uid.value,
                "summary": event.summary.value,
                "location": event.location.value,
                "description": event.description.value,
                "status": event.status.value,
                "start": event.dtstart.value,
                "end": event.dtend.value,
            }


def icalendar_events(text):
    import icalendar
    for event in icalendar.Calendar.from_ical(text).walk("VEVENT"):
        yield {
            "uid": str(event["UID"]),
            "summary": str(event["SUMMARY"]),
            "location": str(event["LOCATION"]),
            "description": str(event["DESCRIPTION"]),
            "status": str(event["STATUS"]),
            "start": event["DTSTART"].dt,
            "end": event["DTEND"].dt,
        }


def main():
    parser, file, zones = sys.argv[1], sys.argv[2], sys.argv[3:]
    with open(file, encoding="utf-8", newline="") as stream:
        text = stream.read()
    read = {"vobject": vobject_events, "icalendar": icalendar_events}[parser]
    for event in read(text):
        fields = [ascii(event[key])[1:-1] for key in
                  ("uid", "summary", "location", "description", "status")]
        for zone in zones:
            for moment in (event["start"], event["end"]):
                local = moment.astimezone(zoneinfo.ZoneInfo(zone))
                fields.append(local.isoformat(timespec="seconds"))
        print("\t".join(fields))


main()
