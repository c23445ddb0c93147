"""Measures grow old, and garments beneath them change."""

from datetime import date, datetime, timedelta

from fitting.wearers.calculation.staleness import Event, stale_because

CHECKED = date(2026, 3, 1)


def judged(*, days: int = 10, **changed_on: date) -> str:
    return stale_because(
        checked=Event(on=CHECKED),
        today=CHECKED + timedelta(days=days),
        stale_days=90,
        worn_made={name: Event(on=on) for name, on in changed_on.items()},
    )


def test_measures_are_good_for_ninety_days_and_no_longer():
    assert judged(days=90) == ""
    assert judged(days=91) == "91 days old"


def test_a_garment_beneath_that_was_changed_afterwards_makes_them_stale_at_once():
    assert judged(stays=CHECKED + timedelta(days=1), shift=CHECKED) == "stays changed since"
    assert judged(stays=CHECKED) == ""


def test_on_one_day_what_was_said_later_counts():
    morning, evening = datetime(2026, 3, 1, 9), datetime(2026, 3, 1, 18)
    checked, made = Event(on=CHECKED, said_at=morning), Event(on=CHECKED, said_at=evening)
    assert made.is_after(checked)
    assert not checked.is_after(made)
    assert not Event(on=CHECKED).is_after(checked)
