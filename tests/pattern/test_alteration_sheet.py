"""The sheet of the alteration plan: filled from the comparison, drawn on what is traced."""

import pytest
from django.utils import timezone

from catalogue.plates.models.piece import Reading, Seam
from catalogue.tracing.models import TracedLevel
from fitting.comparing.actions import compare_garment
from fitting.pattern.calculation.alteration import AlterableSeam, LevelChange
from fitting.pattern.showing.alteration import alteration_sheet
from fitting.pattern.showing.altered_pieces import PlannedLevel
from fitting.wearers.models import Take
from tests.makers.kept_work import make_seamed_bodice
from tests.makers.rows import make_piece, make_scan, make_traced, um

INCH = 25.4


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def bodice(people):
    return make_seamed_bodice(people.workroom)


def test_the_alteration_is_filled_from_the_comparison_and_comes_to_the_difference(maker, people, bodice):
    compare_garment(bodice, by=people.maker, at=timezone.now())
    level = bodice.comparisons.get().results["levels"]["waist"]
    sheet = maker.get(f"/garments/{bodice.pk}/work/alteration/").context["sheet"]
    assert sheet.initial["change waist"].um == round(-1000 * level["difference_mm"])
    assert sheet.initial["pieces 1"] == "front, back"
    typed = {
        "most_each": "1/2 in", "usual": "1/2 in", "change-waist": "1 in", "height-waist": "8 in",
        "doubt-waist": "1/4 in", "change-bust": "3 in", "height-bust": "1 in",
        "seam-1": "side seam", "pieces-1": "front, back", "times-1": "2",
    }  # fmt: skip
    answer = maker.post(f"/garments/{bodice.pk}/work/alteration/", typed)
    worked = answer.context["worked"]
    assert worked.figures["waist, side seam, each"] == pytest.approx(INCH / 4)
    # usual + (missing + twice the doubt) ÷ edges
    assert worked.figures["waist, allowance to cut"] == pytest.approx((0.5 + (1 + 0.5) / 4) * INCH)
    assert len(worked.flags) == 1
    assert "4 × 1/4 in (side seam) = 1 in" in answer.content.decode()
    assert answer.content.decode().count('class="work-new"') == 2


def test_a_large_change_of_length_is_filled_and_made_half_at_the_hem(maker, people, bodice):
    back = bodice.plate.pieces.last()
    Reading.objects.create(
        piece=back, line="nape to waist", reading_um=um("1 1/4 in"), reading_text="1 1/4 in"
    )
    Take.objects.create(
        measures=bodice.measures, line="nape to waist", value_um=um("15 in"), value_text="15 in"
    )
    compare_garment(bodice, by=people.maker, at=timezone.now())
    address = f"/garments/{bodice.pk}/work/alteration/"
    sheet = maker.get(address).context["sheet"]
    assert sheet.initial["change nape to waist"].um == um("5 in")
    typed = {
        "most_each": "1/2 in", "usual": "1/2 in", "change-waist": "1 in", "height-waist": "8 in",
        "change-nape-to-waist": "5 in", "seam-1": "side seam", "pieces-1": "front, back", "times-1": "2",
    }  # fmt: skip
    lengths = maker.post(address, typed).context["worked"].grids[1]
    assert lengths.rows == ((("nape to waist",), (5 * INCH,), (2.5 * INCH,), (2.5 * INCH,), (0.0,)),)


def test_a_traced_piece_is_drawn_as_traced_with_its_new_edge_and_gives_the_heights(maker, bodice):
    make_scan(bodice.plate)
    front = bodice.plate.pieces.first()
    traced = make_traced(front)
    traced.nodes[2]["edge"] = "hem"
    traced.save()
    # Half a millimetre a pixel: the waist crosses 50 mm below the top of the side seam.
    TracedLevel.objects.create(plate=bodice.plate, line="waist", points=[[50, 200], [350, 200]])
    sheet = maker.get(f"/garments/{bodice.pk}/work/alteration/").context["sheet"]
    assert sheet.initial["height waist"].um == 50_000
    typed = {
        "most_each": "1 in", "usual": "1/2 in", "change-waist": "2 in", "height-waist": "5 cm",
        "seam-1": "side seam", "pieces-1": "front", "times-1": "2",
    }  # fmt: skip
    drawing = maker.post(f"/garments/{bodice.pk}/work/alteration/", typed).context["worked"].drawings[0]
    new = next(stroke for stroke in drawing.strokes if stroke.look == "new")
    # Its right side stood at 150 mm, and each of two edges gets an inch.
    assert [x for x, _ in new.points] == pytest.approx([150 + INCH] * len(new.points))


def press_reckon(maker, garment):
    """The sheet as it opens, sent back with nothing typed."""
    address = f"/garments/{garment.pk}/work/alteration/"
    form = maker.get(address).context["sheet"]
    values = {box.html_name: box.value() for box in form}
    typed = {
        name: value if isinstance(value, str | int) else f"{value.um / 1000} mm"
        for name, value in values.items()
        if value not in (None, "")
    }
    answer = maker.post(address, {name: str(value).replace("-", "−") for name, value in typed.items()})
    assert answer.context["sheet"].errors == {}
    return form, answer.context["worked"]


def compare(bodice, people, **girths):
    for line, value in girths.items():
        bodice.measures.takes.filter(line=line).update(value_um=um(value), value_text=value)
    compare_garment(bodice, by=people.maker, at=timezone.now())


def test_what_likeliest_fits_is_shown_and_not_filled(maker, people, bodice):
    # The plate measures 34 in at the bust, an inch short, and 22 at the waist, an eighth off.
    compare(bodice, people, bust="35 in", waist="22 1/8 in")
    form, worked = press_reckon(maker, bodice)
    assert "change waist" not in form.initial
    assert form.initial["change bust"].um == um("1 in")
    labels = [row.label for table in form.tables() for row in table.rows]
    assert any(label.startswith("waist: likeliest fits") for label in labels)
    assert worked.figures["bust, side seam, each"] == pytest.approx(INCH / 4)
    # At the waist, which stays, the seam has run out to nothing.
    along = next(grid for grid in worked.grids if grid.caption.startswith("The new edge"))
    assert along.rows[0][1] == pytest.approx((INCH / 4,))
    assert along.rows[-1] == ((pytest.approx(203.2, abs=0.1), ", waist"), (0.0,))


def test_a_loose_level_that_has_enough_is_not_taken_in(maker, people, bodice):
    bodice.eases.update_or_create(line="waist", defaults={"ease_um": 0, "ease_text": "0 in", "fit": "loose"})
    compare(bodice, people, bust="35 in", waist="15 in")
    form, _ = press_reckon(maker, bodice)
    assert "change waist" not in form.initial


def test_where_everything_fits_there_is_nothing_to_alter(maker, people, bodice):
    compare(bodice, people, bust="34 in", waist="22 in")
    _, worked = press_reckon(maker, bodice)
    assert worked.flags[0][0].startswith("Nothing is to be added or taken off")


def test_a_level_between_that_is_left_is_told_of_where_the_seam_carries_it_along():
    # An inch at the bust and at the hip, over four edges: a fair seam adds an inch at the waist between, too.
    def change(level: str, height_mm: float, inches: float) -> LevelChange:
        return LevelChange(level=level, height_mm=height_mm, change_mm=inches * INCH, seams=["side"])

    side = AlterableSeam(name="side", pieces=("front", "back"), most_each_mm=INCH)
    planned = [PlannedLevel(change=change(level, mm, 1), u_mm=0) for level, mm in (("bust", 0), ("hip", 300))]
    worked = alteration_sheet(planned, [side], usual_mm=0, widths_mm={}, left=[change("waist", 200, 0)])
    ((said, carried_mm, _),) = worked.flags
    assert said.startswith("The waist is left as it is")
    assert carried_mm == pytest.approx(INCH)


def test_a_sleeves_change_goes_onto_its_own_seam(maker, people, bodice):
    sleeve = make_piece(bodice.plate, "sleeve", {"elbow": "1 1/4 in"})
    Seam.objects.create(
        plate=bodice.plate, piece_a=sleeve, edge_a="hind arm seam", piece_b=sleeve, edge_b="fore arm"
    )
    Take.objects.create(measures=bodice.measures, line="elbow", value_um=um("12 in"), value_text="12 in")
    compare(bodice, people, bust="34 in", waist="22 in")
    # Once round an arm the sleeve measures 10 in: 2 in more go on each arm, 1 in on each of two edges.
    form, worked = press_reckon(maker, bodice)
    assert form.initial["change elbow"].um == um("2 in")
    assert worked.figures["elbow, hind arm seam, each"] == pytest.approx(INCH)
    assert not any("elbow, side seam" in name for name in worked.figures)
