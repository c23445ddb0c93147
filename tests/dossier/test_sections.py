"""In which order the parts of a dossier are printed, and how that order is changed."""

import pytest

from fitting.dossier.calculation import SECTIONS, USUAL, known, moved, with_the_others


def test_an_order_is_kept_without_what_is_gone_or_named_twice():
    chosen = ["cautions", "outfit", "gone since", "routes", "outfit"]
    assert known(chosen) == ("cautions", "outfit", "routes")


def test_what_was_not_chosen_stands_where_it_usually_does():
    assert with_the_others(()) == with_the_others(USUAL) == tuple(SECTIONS)
    order = with_the_others(["sources", "outfit"])
    assert order[:3] == ("sources", "cautions", "dates")
    assert order[3:5] == ("outfit", "garments")
    assert sorted(order) == sorted(SECTIONS)


@pytest.mark.parametrize(
    ("typed", "order"),
    [
        ({}, "abcd"),
        ({"d": 1}, "dabc"),
        ({"a": 4}, "bcda"),
        ({"b": 3}, "acbd"),
        ({"a": 2, "b": 1}, "bacd"),
        ({"c": 1, "d": 2}, "cdab"),
        ({"a": 99, "c": None}, "bcda"),
    ],
)
def test_what_was_given_a_place_gets_it_and_the_others_fill_what_is_left(typed, order):
    assert "".join(moved("abcd", typed)) == order
