"""Pleats against the worked examples of a trade school, and each unknown from the others.

NIMI: National Instructional Media Institute (India), CITS Dress Making Trade Practical, exercise 48.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.lengths.calculation.errors import Faults
from fitting.pattern.calculation.sums.pleats import Pleat, PleatGivens, pleats

ORDINARY = [Pleat.KNIFE, Pleat.BOX, Pleat.INVERTED, Pleat.DOUBLE_BOX]


def test_a_knife_pleat_as_deep_as_wide_takes_three_times_the_length():
    # NIMI p. 189: 50 cm finished in pleats of 2.5 cm: 20 pleats, a strip of 150 cm.
    row = pleats(Pleat.KNIFE, PleatGivens(finished=500, width=25, depth=25))
    assert (row.number, row.flat_mm, row.ratio) == (20, 1500, 3)
    assert row.corrected == ()


def test_the_width_is_corrected_so_that_pleats_are_whole():
    # NIMI p. 188: 92 cm, depth 4, width 5: 18.4 pleats, so 18 of 5.11 cm; the strip 2 × 4 × 18 + 92 = 236 cm.
    row = pleats(Pleat.KNIFE, PleatGivens(finished=920, width=50, depth=40))
    assert row.number == 18
    assert row.width_mm == pytest.approx(51.1, abs=0.05)
    assert row.flat_mm == pytest.approx(2360)
    assert row.corrected == ("width",)


@pytest.mark.parametrize(
    ("kind", "finished", "depth", "flat"),
    [
        (Pleat.BOX, 600, 120, 1080),  # NIMI p. 189: 60 cm, depth 12: 12 × 2 × 2 = 48; 108 cm
        (Pleat.INVERTED, 660, 65, 920),  # the same rule: 66 + 26
        (Pleat.DOUBLE_BOX, 660, 65, 1180),  # twice its folds: 66 + 52
    ],
)
def test_one_box_pleat_takes_two_folds_of_twice_its_depth(kind, finished, depth, flat):
    assert pleats(kind, PleatGivens(finished=finished, depth=depth, number=1)).flat_mm == flat


def test_a_full_box_pleat_whose_backs_touch_is_three_to_one():
    # General handbooks, from memory: backs touch where the depth is half the width.
    row = pleats(Pleat.BOX, PleatGivens(finished=600, width=60, depth=30))
    assert (row.ratio, row.overlap_mm) == (3, 0)
    assert pleats(Pleat.BOX, PleatGivens(finished=600, width=60, depth=35)).overlap_mm == 5
    assert pleats(Pleat.KNIFE, PleatGivens(finished=600, width=60, depth=65)).overlap_mm == 5


def test_a_kilt_of_the_old_book_can_be_pleated():
    # Text-Book on Domestic Art: 5 yd of cloth for a kilted skirt, 4 yd round the hem, here in 1-in pleats.
    row = pleats(Pleat.KNIFE, PleatGivens(finished=4 * 914.4, flat=5 * 914.4, width=25.4))
    assert row.number == 144
    assert row.depth_mm == pytest.approx(25.4 / 8)


def test_cartridge_pleats_stand_on_edge():
    # By hand: 1800 of cloth in stitches of 10 are 90 pleats 10 deep; at 4 each they fill 360 of band.
    row = pleats(Pleat.CARTRIDGE, PleatGivens(flat=1800, depth=10, width=4))
    assert (row.number, row.finished_mm, row.ratio) == (90, 360, 5)
    assert pleats(Pleat.CARTRIDGE, PleatGivens(finished=360, flat=1800, width=4)).depth_mm == 10


@given(
    st.sampled_from(ORDINARY),
    st.integers(1, 60),
    st.floats(5, 100),
    st.floats(1, 100),
)
def test_any_three_that_are_enough_give_the_same_row(kind, number, width, depth):
    finished = number * width
    flat = finished + 2 * kind.folds * depth * number
    everything = {"finished": finished, "flat": flat, "number": number, "width": width, "depth": depth}
    enough = [
        ("finished", "width", "depth"), ("finished", "number", "depth"), ("finished", "flat", "width"),
        ("finished", "flat", "number"), ("finished", "flat", "depth"), ("flat", "width", "depth"),
        ("flat", "number", "width"), ("flat", "number", "depth"), ("number", "width", "depth"),
    ]  # fmt: skip
    for names in [*enough, tuple(everything)]:
        row = pleats(kind, PleatGivens(**{name: everything[name] for name in names}))
        found = (row.number, row.finished_mm, row.flat_mm, row.width_mm, row.depth_mm)
        assert found == pytest.approx((number, finished, flat, width, depth))


@pytest.mark.parametrize(
    ("known", "where"),
    [
        (PleatGivens(), "finished"),
        (PleatGivens(finished=600, width=50), "depth"),
        (PleatGivens(finished=600, width=50, number=12), "depth"),
        (PleatGivens(number=12, depth=20), "width"),
        (PleatGivens(finished=600, width=0, depth=20), "width"),
        (PleatGivens(finished=600, flat=500, number=10), "flat"),
        (PleatGivens(flat=500, number=10, depth=30), "depth"),
        (PleatGivens(finished=600, number=10, width=50, depth=20), "width"),
        (PleatGivens(finished=600, flat=1800, width=60, depth=40), "depth"),
    ],
)
def test_what_cannot_be_is_said(known, where):
    with pytest.raises(Faults) as refused:
        pleats(Pleat.KNIFE, known)
    assert [fault.where for fault in refused.value.faults] == [where]


def test_the_band_does_not_follow_from_the_depth_of_cartridge_pleats():
    with pytest.raises(Faults):
        pleats(Pleat.CARTRIDGE, PleatGivens(flat=1800, number=90, depth=10))
