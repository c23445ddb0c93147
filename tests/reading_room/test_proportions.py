import pytest

from catalogue.plates.calculation.findings import findings
from catalogue.plates.calculation.readings import DrawnPiece, FastenedWidth, PageReading, PlateReadings
from catalogue.plates.calculation.scale import Scale
from catalogue.reading_room.calculation.side_by_side import (
    PROPORTIONS,
    Quantity,
    are_apart,
    measures_of,
    proportions_of,
    role_of,
)

BY_LABEL = {one.label: one for one in PROPORTIONS}


def found(*, allowance_mm: float | None = 0.0, factor: float = 8, **lines_mm: float):
    readings = {
        line: PageReading(length_mm=mm) for line, mm in lines_mm.items() if line in ("bust", "waist", "hip")
    }
    plate = PlateReadings(
        scale=Scale.of(factor),
        pieces=(DrawnPiece(name="front", cut=2, readings=readings),),
        lengths={"nape to waist": (PageReading(length_mm=lines_mm["back"]),)} if "back" in lines_mm else {},
        allowance_mm=allowance_mm,
        rule_division_mm=1.5875,
        drawing_doubt_mm=1.5875,
        overlap=FastenedWidth(everywhere_mm=0.0),
        lacing_gap=FastenedWidth(everywhere_mm=0.0),
    )
    return findings(plate).by_line


def test_a_proportion_is_a_difference_or_a_ratio_of_full_sizes():
    lines = found(bust=50, waist=40, back=48)
    (difference,) = proportions_of(BY_LABEL["bust − waist"], lines)
    (ratio,) = proportions_of(BY_LABEL["back length ÷ waist"], lines)
    assert difference.value == pytest.approx(2 * 8 * 10)
    assert ratio.value == pytest.approx(48 / (2 * 40))
    assert proportions_of(BY_LABEL["hip − waist"], lines) == ()


def test_the_error_of_the_scale_leaves_a_ratio_but_not_a_difference():
    """δ of the scale multiplies both girths: (1+δ)b ÷ (1+δ)w = b ÷ w, while (1+δ)(b − w) keeps it."""
    near, far = (
        proportions_of(BY_LABEL["back length ÷ waist"], found(bust=50, waist=40, back=48, factor=factor))[0]
        for factor in (8, 8000)  # so large that reading and drawing no longer count beside the scale
    )
    assert near.value == pytest.approx(far.value)
    waist = found(waist=40, back=48)["waist"].full_size
    back = found(waist=40, back=48)["nape to waist"].full_size
    apart = near.value * ((waist.u_mm / waist.mm) ** 2 + (back.u_mm / back.mm) ** 2) ** 0.5
    # Without the shared 0.5 % of each: √(apart² − 2 · 0.005² · ratio²).
    assert near.u == pytest.approx((apart**2 - 2 * (0.005 * near.value) ** 2) ** 0.5, rel=1e-6)


def test_an_allowance_not_known_gives_each_figure_twice():
    lines = found(allowance_mm=None, bust=50, waist=40)
    plain, with_half_an_inch = measures_of(lines["waist"])
    # Two pieces with two edges of 12.7 mm each.
    assert plain.value - with_half_an_inch.value == pytest.approx(4 * 12.7)
    assert len(proportions_of(BY_LABEL["bust − waist"], lines)) == 2


@pytest.mark.parametrize(
    ("garments", "apart"),
    [
        ([[(100, 1)], [(103, 1)]], True),  # 3 > 2·√2
        ([[(100, 1)], [(102.8, 1)]], False),
        ([[(100, 1)], [(102, 1)], [(104, 1)]], True),
        ([[(100, 1)], []], False),
        ([[(100, 1), (90, 1)], [(95, 1)]], False),  # between the two ends of the first
        ([[(100, 1), (98, 1)], [(90, 1)]], True),
    ],
)
def test_garments_are_apart_where_doubt_does_not_explain_it(garments, apart):
    figures = [[Quantity(value=value, u=u) for value, u in one] for one in garments]
    assert are_apart(figures) is apart


@pytest.mark.parametrize(
    ("name", "role"),
    [
        ("front", "front"), ("Forepart", "front"), ("side back", "side"), ("back", "back"),
        ("under-arm", "body"), ("upper sleeve", "sleeve"),
        ("front gore", "skirt"), ("shoulder strap", "set on"),
    ],
)  # fmt: skip
def test_a_pieces_name_tells_its_role(name, role):
    assert role_of(name) == role
