"""Days as iCalendar (RFC 5545), for a calendar program to subscribe to."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

import icalendar

PRODUCT = "-//Plate & Toile//days of a workroom//EN"
# How often a program is asked to look again.
REFRESH = timedelta(hours=6)
# How long a fitting is taken to last; our guess.
SESSION = timedelta(hours=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class CalendarEvent:
    """A whole day, or a session at a time of day. `key` stays when it moves; `changed_at`: when it did."""

    key: str
    at: date | datetime
    name: str
    text: str
    changed_at: datetime

    @property
    def is_whole_day(self) -> bool:
        return not isinstance(self.at, datetime)

    @property
    def day(self) -> date:
        return self.at.date() if isinstance(self.at, datetime) else self.at


def calendar_file(events: Iterable[CalendarEvent], *, name: str) -> bytes:
    """Return the calendar. A whole day is free, so that it does not show its person as busy."""
    calendar = icalendar.Calendar()
    calendar.add("prodid", PRODUCT)
    calendar.add("version", "2.0")
    calendar.add("method", "PUBLISH")
    calendar.add("name", name)
    calendar.add("x-wr-calname", name)
    calendar.add("refresh-interval", REFRESH, parameters={"value": "DURATION"})
    for event in events:
        calendar.add_component(_component(event))
    return calendar.to_ical()


def _component(event: CalendarEvent) -> icalendar.Event:
    component = icalendar.Event()
    component.add("uid", f"{event.key}@plate-and-toile")
    component.add("dtstamp", event.changed_at)
    # An hour is written in UTC: every program knows that clock, and none has to guess our summer time.
    at = event.at.astimezone(UTC) if isinstance(event.at, datetime) else event.at
    component.add("dtstart", at)
    component.add("dtend", at + (timedelta(days=1) if event.is_whole_day else SESSION))
    component.add("summary", event.name)
    component.add("transp", "TRANSPARENT" if event.is_whole_day else "OPAQUE")
    if event.text:
        component.add("description", event.text)
    return component
