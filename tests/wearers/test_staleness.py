"""Measures grow old, and garments beneath them change."""

from datetime import date, timedelta

from fitting.wearers.calculation.staleness import stale_because

CHECKED = date(2026, 3, 1)


def judged(*, days: int = 10, **changed_on: date) -> str:
    return stale_because(
        checked_on=CHECKED,
        today=CHECKED + timedelta(days=days),
        stale_days=90,
        worn_changed_on=changed_on,
    )


def test_measures_are_good_for_ninety_days_and_no_longer():
    assert judged(days=90) == ""
    assert judged(days=91) == "91 days old"


def test_a_garment_beneath_that_was_changed_afterwards_makes_them_stale_at_once():
    assert judged(stays=CHECKED + timedelta(days=1), shift=CHECKED) == "stays changed since"
    assert judged(stays=CHECKED) == ""
