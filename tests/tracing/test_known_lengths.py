"""A map from many known lengths: least squares, misfits and doubt by hand; Student's factors by scipy."""

from itertools import combinations

import pytest
from scipy import stats

from catalogue.tracing.calculation.calibration import CalibrationRefused
from catalogue.tracing.calculation.known_lengths import (
    ENGRAVED_MM,
    STUDENT,
    KnownLength,
    by_lengths,
    misfits,
)


def across(px: float, mm: float, at: float = 0) -> KnownLength:
    return KnownLength(start=complex(10, at), end=complex(10 + px, at), mm=mm)


def along(px: float, mm: float, at: float = 0) -> KnownLength:
    return KnownLength(start=complex(at, 10), end=complex(at, 10 + px), mm=mm)


def aslant(dx: float, dy: float, mm: float) -> KnownLength:
    return KnownLength(start=5 + 5j, end=complex(5 + dx, 5 - dy), mm=mm)


def factors(known) -> tuple[float, float]:
    matrix = by_lengths(known).matrix
    return matrix[0, 0], matrix[1, 1]


def test_of_two_lengths_the_one_factor_misses_both_least():
    # (100 × 50 + 200 × 101) ÷ (100² + 200²) = 25,200 ÷ 50,000 = 0.504: 50.4 for 50, 100.8 for 101.
    known = [across(100, 50), along(200, 101)]
    assert factors(known) == (pytest.approx(0.504), pytest.approx(0.504))
    assert [one.apart_mm for one in misfits(known)] == [pytest.approx(0.4), pytest.approx(-0.2)]


def test_two_lengths_say_nothing_of_their_doubt():
    # A tenth of an inch against both: 2.54 ÷ √(50² + 101²), however well they fit each other.
    for other_mm in (100, 101):
        known = [across(100, 50), along(200, other_mm)]
        doubt = ENGRAVED_MM / (50**2 + other_mm**2) ** 0.5
        assert by_lengths(known).relative_doubt == pytest.approx(doubt)
    assert not any(one.is_wrong for one in misfits([across(100, 50), along(100, 60)]))


def test_two_lengths_each_way_tell_along_from_across_and_one_aslant_agrees():
    # 1/2 mm a pixel across and 0.52 along: 300 by 400 px are √(150² + 208²) = 256.445 mm.
    known = [across(400, 200), across(600, 300), along(500, 260), along(300, 156), aslant(300, 400, 256.445)]
    assert factors(known) == (pytest.approx(0.5, rel=1e-5), pytest.approx(0.52, rel=1e-5))
    assert max(abs(one.apart_mm) for one in misfits(known)) < 0.001


def test_one_length_each_way_more_does_not_make_two_factors():
    a, b = factors([across(400, 200), along(500, 260), along(300, 156)])
    assert a == b


def test_the_doubt_comes_from_the_misfits():
    # 1,000 px each, of 499, 500 and 501 mm: 1/2 mm a pixel, misfits 1, 0, −1. With two degrees of freedom
    # s = √(2/2) = 1 mm, Student's factor 1.32, so u of the factor is 1.32 ÷ √(3 × 500²) = 0.152 %.
    known = [across(1000, 499), across(1000, 500, 20), along(1000, 501)]
    assert by_lengths(known).relative_doubt == pytest.approx(1.32 / (3 * 500**2) ** 0.5, rel=1e-3)


def test_no_doubt_is_less_than_that_of_the_presses():
    known = [across(1000, 500), across(1000, 500, 20), along(1000, 500)]
    assert by_lengths(known).relative_doubt == pytest.approx(2**0.5 / (3 * 1000**2) ** 0.5)


def test_the_factors_for_few_degrees_of_freedom_are_students():
    for left, factor in enumerate(STUDENT, start=1):
        assert factor == pytest.approx(stats.t.ppf((1 + 0.6827) / 2, left), abs=0.006)


NEARLY = [
    across(400, 200.4),
    across(600, 299.5),
    along(500, 250.3),
    along(300, 149.6),
    aslant(300, 400, 250.2),
]


def test_the_one_that_was_drawn_wrong_is_marked_and_no_other():
    assert not any(one.is_wrong for one in misfits(NEARLY))
    for number, one in enumerate(NEARLY):
        wrong = [*NEARLY]
        wrong[number] = KnownLength(start=one.start, end=one.end, mm=one.mm * 1.04)
        assert [found.is_wrong for found in misfits(wrong)] == [at == number for at in range(5)]


@pytest.mark.parametrize("known", [[], [across(100, 50)], [across(100, 50), across(5, 2)]])
def test_too_few_lengths_or_too_short_ones_are_refused(known):
    with pytest.raises(CalibrationRefused):
        by_lengths(known)


# Figure 4 of C. Hecklinger, Handbook on Dress and Cloak Cutting, New York 1884: pixels of the scan in e-book
# 74716, 700 of them wide; inches as its text has them (pages 7 to 12), that holds two drafts for one figure.
ENGRAVED = {
    "O to E": (669 + 41j, 669 + 353j, 9.0),
    "Z to D": (644 + 353j, 28 + 353j, 18.0),
    "E to S": (669 + 353j, 429 + 353j, 7.0),
    "S to H": (429 + 353j, 274 + 353j, 4.5),
    "N to P": (30 + 41j, 138 + 41j, 3.0),
    "3/4 to F": (669 + 70j, 669 + 608j, 15.0),
}
ENGRAVED_LENGTHS = [
    KnownLength(start=start, end=end, mm=inches * 25.4) for start, end, inches in ENGRAVED.values()
]


def test_of_an_engraving_with_two_texts_the_length_of_the_other_text_is_marked():
    found = dict(zip(ENGRAVED, misfits(ENGRAVED_LENGTHS), strict=True))
    assert [name for name, one in found.items() if one.is_wrong] == ["3/4 to F"]
    others = [one for name, one in zip(ENGRAVED, ENGRAVED_LENGTHS, strict=True) if name != "3/4 to F"]
    # 34.4 px to the inch: the back is drawn 538 ÷ 34.4 = 15.6 in long, where the text says 15.
    drawn = by_lengths(others)
    start, end, _ = ENGRAVED["3/4 to F"]
    assert abs(drawn.to_mm([end])[0] - drawn.to_mm([start])[0]) / 25.4 == pytest.approx(15.6, abs=0.1)
    assert drawn.relative_doubt < 0.005
    assert not any(one.is_wrong for one in misfits(others))


def test_pairs_off_one_engraving_differ_by_no_more_than_they_say():
    """What the length of the back comes to by each two of the others, and the doubt that it is told with."""
    start, end, _ = ENGRAVED["3/4 to F"]
    for one, other in combinations(ENGRAVED_LENGTHS[:5], 2):
        found = by_lengths([one, other])
        back = abs(found.to_mm([end])[0] - found.to_mm([start])[0]) / 25.4
        assert abs(back - 15.6) <= 2 * found.relative_doubt * back
