"""Days as iCalendar (RFC 5545), for a calendar program to subscribe to."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta

import icalendar

PRODUCT = "-//Plate & Toile//days of a workroom//EN"
# How often a program is asked to look again.
REFRESH = timedelta(hours=6)


@dataclass(frozen=True, slots=True, kw_only=True)
class CalendarDay:
    """A whole day with a name. `key` stays the same when the day moves; `changed_at`: when it last did."""

    key: str
    day: date
    name: str
    text: str
    changed_at: datetime


def calendar_file(days: Iterable[CalendarDay], *, name: str) -> bytes:
    """Return the calendar; a day is free, so that it does not show its person as busy."""
    calendar = icalendar.Calendar()
    calendar.add("prodid", PRODUCT)
    calendar.add("version", "2.0")
    calendar.add("method", "PUBLISH")
    calendar.add("name", name)
    calendar.add("x-wr-calname", name)
    calendar.add("refresh-interval", REFRESH, parameters={"value": "DURATION"})
    for day in days:
        event = icalendar.Event()
        event.add("uid", f"{day.key}@plate-and-toile")
        event.add("dtstamp", day.changed_at)
        event.add("dtstart", day.day)
        event.add("dtend", day.day + timedelta(days=1))
        event.add("summary", day.name)
        event.add("transp", "TRANSPARENT")
        if day.text:
            event.add("description", day.text)
        calendar.add_component(event)
    return calendar.to_ical()
