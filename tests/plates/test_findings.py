import pytest

from catalogue.plates.calculation.findings import findings
from catalogue.plates.calculation.readings import DrawnPiece, PageReading, PlateReadings
from catalogue.plates.calculation.scale import Scale

INCH = 25.4


def plate(**given) -> PlateReadings:
    front = DrawnPiece(name="front", readings={"waist": PageReading(length_mm=0.75 * INCH)})
    back = DrawnPiece(
        name="back",
        cut=1,
        on_fold=True,
        readings={"waist": PageReading(length_mm=INCH, take_up_mm=0.25 * INCH)},
    )
    return PlateReadings(scale=Scale.of(8), pieces=(front, back), **given)


def test_the_running_half_is_what_a_rule_shows_on_the_page():
    # Common practice, no source: a half waist of 1 1/2 in at 1:8 is a waist of 24 in.
    [waist] = findings(plate()).girths
    assert waist.halves_on_page_mm == pytest.approx((0.75 * INCH, 1.5 * INCH))
    assert waist.full_size.mm == pytest.approx(24 * INCH)
    assert waist.if_included is None


def test_an_allowance_not_known_gives_both_results():
    [waist] = findings(plate(allowance_mm=None)).girths
    # Two edges of the front and one of the back, each twice round, 1/2 in each.
    assert waist.full_size.mm == pytest.approx(24 * INCH)
    assert waist.if_included.mm == pytest.approx(21 * INCH)


def test_lines_come_from_the_top_of_the_body_down():
    odd = DrawnPiece(
        name="front", readings={line: PageReading(length_mm=10) for line in ("hip", "bust", "waist")}
    )
    lengths = {line: (PageReading(length_mm=10),) for line in ("sleeve", "shoulder")}
    found = findings(PlateReadings(scale=Scale.of(8), pieces=(odd,), lengths=lengths))
    assert list(found.by_line) == ["bust", "waist", "hip", "shoulder", "sleeve"]
