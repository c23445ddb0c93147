"""Tucks against the worked example of a trade school and an old rule, and each unknown from the others."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.lengths.calculation.errors import Faults
from fitting.pattern.calculation.sums.tucks import TuckGivens, tucks


def test_tucks_are_counted_up_and_their_spacing_corrected():
    # NIMI (India), CITS Dress Making Trade Practical, exercise 48, p. 194: 28 cm, 2 cm free at each edge, 1.5
    # between tucks of 2 mm: 24 / 1.7 = 14.1, so 15 spaces and 16 tucks; 16 × 4 mm = 6.4 cm; the strip is
    # 34.4 cm, the spacing 1.6 cm.
    row = tucks(TuckGivens(finished=280, spacing=17, depth=2), edge_mm=20)
    assert row.number == 16
    assert row.flat_mm == pytest.approx(344)
    assert row.spacing_mm == pytest.approx(16)
    assert row.corrected == ("spacing",)


def test_tucks_that_come_out_even_are_not_corrected():
    # L. I. Baldt, Clothing for Women, 1916: a tuck takes up twice its depth. By hand: 10 spaces of 20 over
    # 200, 11 tucks of 5.
    row = tucks(TuckGivens(finished=200, spacing=20, depth=5))
    assert (row.number, row.spacing_mm, row.flat_mm, row.corrected) == (11, 20, 310, ())


def test_cloth_that_is_left_is_tucked_away_in_whole_tucks():
    # By hand: 310 into 205 leaves 105; at 10 a tuck 10.5 tucks: 11, each 105 / 22 deep.
    row = tucks(TuckGivens(finished=205, flat=310, depth=5))
    assert (row.number, row.depth_mm, row.corrected) == (11, pytest.approx(105 / 22), ("depth",))


@given(st.integers(2, 60), st.floats(3, 100), st.floats(1, 30), st.floats(0, 40))
def test_any_three_that_are_enough_give_the_same_row(number, spacing, depth, edge):
    finished = spacing * (number - 1) + 2 * edge
    flat = finished + 2 * depth * number
    everything = {"finished": finished, "flat": flat, "number": number, "spacing": spacing, "depth": depth}
    enough = [
        ("finished", "spacing", "depth"), ("finished", "spacing", "flat"), ("finished", "flat", "depth"),
        ("flat", "spacing", "depth"), ("number", "finished", "depth"), ("number", "spacing", "depth"),
        ("number", "finished", "flat"), ("number", "spacing", "flat"), ("number", "flat", "depth"),
    ]  # fmt: skip
    for names in [*enough, tuple(everything)]:
        row = tucks(TuckGivens(**{name: everything[name] for name in names}), edge_mm=edge)
        found = (row.number, row.finished_mm, row.flat_mm, row.spacing_mm, row.depth_mm)
        assert found == pytest.approx((number, finished, flat, spacing, depth), rel=1e-6)


@pytest.mark.parametrize(
    ("known", "edge", "where"),
    [
        (TuckGivens(), 0, "finished"),
        (TuckGivens(finished=200, depth=5), 0, "finished"),
        (TuckGivens(number=5, depth=5), 0, "finished"),
        (TuckGivens(finished=200, spacing=20), 0, "depth"),
        (TuckGivens(finished=200, spacing=0, depth=5), 0, "spacing"),
        (TuckGivens(finished=280, spacing=17, depth=2), 140, "edge"),
        (TuckGivens(number=1, spacing=20, depth=5), 0, "number"),
        (TuckGivens(finished=200, flat=150, number=5), 0, "flat"),
        (TuckGivens(flat=150, number=20, depth=5), 0, "depth"),
        (TuckGivens(finished=200, number=5, spacing=20, depth=5), 0, "spacing"),
    ],
)
def test_what_cannot_be_is_said(known, edge, where):
    with pytest.raises(Faults) as refused:
        tucks(known, edge_mm=edge)
    assert [fault.where for fault in refused.value.faults] == [where]
