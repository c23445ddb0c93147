"""The calendar read by another library than writes it (vobject), and line by line as RFC 5545 asks."""

from datetime import UTC, date, datetime

import vobject

from fitting.planning.exchange import CalendarEvent, calendar_file

CHANGED = datetime(2026, 11, 20, 12, tzinfo=UTC)
DAY = CalendarEvent(
    key="task-3", at=date(2027, 2, 4), name="Stays: cut; fit, éyelets", text="a\nb", changed_at=CHANGED
)
SESSION = CalendarEvent(
    key="fitting-1",
    at=datetime(2027, 2, 5, 17, 30, tzinfo=UTC),
    name="Fitting: stays",
    text="",
    changed_at=CHANGED,
)


def read(*events):
    return vobject.readOne(calendar_file(events, name="Attic & table").decode())


def test_a_day_comes_out_as_it_went_in():
    calendar = read(DAY)
    event = calendar.vevent
    assert (event.summary.value, event.description.value) == ("Stays: cut; fit, éyelets", "a\nb")
    assert (event.dtstart.value, event.dtend.value) == (date(2027, 2, 4), date(2027, 2, 5))
    assert event.uid.value == "task-3@plate-and-toile"
    assert event.dtstamp.value == CHANGED
    assert calendar.contents["x-wr-calname"][0].value == "Attic & table"


def test_a_session_has_its_time_and_its_person_is_busy():
    event = read(SESSION).vevent
    assert event.dtstart.value == SESSION.at
    assert event.transp.value == "OPAQUE"
    assert "description" not in event.contents


def test_every_event_is_there_once():
    assert len(read(DAY, SESSION).vevent_list) == 2


def test_lines_end_and_fold_as_the_standard_says():
    # RFC 5545, 3.1: lines of at most 75 octets, each ended by CRLF.
    long = CalendarEvent(key="k", at=DAY.at, name="é" * 200, text="", changed_at=CHANGED)
    text = calendar_file([long], name="n")
    assert text.endswith(b"END:VCALENDAR\r\n")
    assert all(len(line) <= 75 for line in text.split(b"\r\n"))
    assert b"\n" not in text.replace(b"\r\n", b"")
    assert read(long).vevent.summary.value == "é" * 200
