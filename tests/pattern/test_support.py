"""Skirt lengths over hoops and bustles: taped heights kept, the top cut for a straight hem, trains."""

import pytest

from catalogue.lengths.calculation.errors import Faults
from fitting.pattern.calculation.sums.support import Train, skirt_lengths

# Invented: a bustle of the 1880s, taped from waist to floor from centre front to centre back.
BUSTLE = [(0, 1040), (0.25, 1045), (0.5, 1060), (0.75, 1120), (1, 1160)]


def test_the_hem_clears_the_floor_at_every_taped_place():
    lengths = skirt_lengths(BUSTLE, clearance_mm=30)
    assert [lengths.at(place) for place, _ in BUSTLE] == pytest.approx([1010, 1015, 1030, 1090, 1130])


def test_a_straight_hem_is_made_up_for_at_the_top():
    # By hand: breadths of 1160 all round; the front is 120 shorter, so 120 goes at its top.
    lengths = skirt_lengths(BUSTLE)
    assert lengths.longest_mm == pytest.approx(1160)
    assert [lengths.cut_away_at_top(place) for place in (0, 0.5, 1)] == pytest.approx([120, 100, 0])


def test_the_longest_place_need_not_be_the_back():
    hoop = [(0, 1080), (0.25, 1090), (0.5, 1110), (0.75, 1100), (1, 1085)]
    assert skirt_lengths(hoop).longest_mm == pytest.approx(1110)


def test_a_train_begins_at_nothing_and_is_whole_at_the_back():
    lengths = skirt_lengths(BUSTLE, clearance_mm=30, train=Train(length_mm=500))
    assert lengths.at(0.5) == pytest.approx(1030)
    assert lengths.at(1) == pytest.approx(1160 + 500)
    behind = [lengths.at(0.5 + 0.05 * step) for step in range(11)]
    assert behind == sorted(behind)


def test_a_train_is_made_at_the_hem_and_takes_nothing_from_the_top():
    plain, trained = (
        skirt_lengths(BUSTLE, clearance_mm=30, train=Train(length_mm=length)) for length in (0, 500)
    )
    for place in (0, 0.5, 0.8, 1):
        assert trained.cut_away_at_top(place) == plain.cut_away_at_top(place)
        assert trained.at(place) == pytest.approx(plain.at(place) + trained.at_hem(place))
    assert trained.longest_mm == pytest.approx(1130 + 530)


@pytest.mark.parametrize(
    ("heights", "options", "where"),
    [
        (BUSTLE[:4], {}, "heights"),
        ([*BUSTLE, (0.5, 1060)], {}, "heights"),
        ([(0.1, 1000), *BUSTLE[1:]], {}, "heights"),
        (BUSTLE, {"clearance_mm": 1040}, "clearance"),
        (BUSTLE, {"train": Train(length_mm=500, from_place=1)}, "train"),
        (BUSTLE, {"train": Train(length_mm=-1)}, "train"),
    ],
)
def test_too_few_heights_or_a_hem_above_the_waist_are_named(heights, options, where):
    with pytest.raises(Faults) as refused:
        skirt_lengths(heights, **options)
    assert [fault.where for fault in refused.value.faults] == [where]
