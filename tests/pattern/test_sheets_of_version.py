"""The working pattern printed: its newest version, with the allowances that were set for its pieces."""

import dataclasses
import io

import pytest
from pypdf import PdfReader
from shapely import Point as Place

from fitting.comparing.models import Comparison
from fitting.pattern.calculation.working.pattern import Pattern
from tests.makers.traced_bodice import make_traced_bodice
from tests.makers.working_pattern import BACK, FRONT, PATTERN, make_version

BOXES = {"size": "full size", "paper": "A4", "overlap": "15 mm", "allowance": "1/2 in"}


@pytest.fixture
def garment(people):
    return make_traced_bodice(people.workroom)


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def ask(client, garment, *, file: bool = False, **typed):
    address = f"/garments/{garment.pk}/sheets/{'file/' if file else ''}"
    return client.get(address, {**BOXES, "pieces": ["front", "back"], **typed})


def words(answer) -> str:
    return "".join(page.extract_text() for page in PdfReader(io.BytesIO(answer.content)).pages)


@pytest.mark.django_db
def test_the_newest_version_is_printed_unless_the_maker_says(maker, garment):
    make_version(garment)
    make_version(garment, Pattern(pieces=(dataclasses.replace(FRONT, name="left front"), BACK)))
    form = maker.get(f"/garments/{garment.pk}/sheets/").context["form"]
    assert form.of.how == "working pattern"
    assert [name for _, name in form.fields["pieces"].choices] == ["left front", "back"]
    said = words(ask(maker, garment, file=True, pieces=["left front"]))
    assert "version 2 of" in said
    assert "cut 2, 1 of them mirrored, outer" in said
    assert "waist" in said
    assert "centre front" in said


@pytest.mark.django_db
def test_as_drawn_is_still_there(maker, garment):
    make_version(garment)
    patterns = maker.get(f"/garments/{garment.pk}/sheets/").context["patterns"]
    assert [one.how for one in patterns] == ["working pattern", "graded", "as drawn"]
    keys = [str(piece.key) for piece in garment.plate.pieces.all()]
    sheet = ask(maker, garment, shape="as drawn", pieces=keys).context["sheet"]
    assert {piece.shape.name for piece in sheet.pieces} >= {"front", "upper sleeve"}


@pytest.mark.django_db
def test_a_piece_keeps_the_allowance_that_was_set_and_another_has_the_usual(maker, garment):
    """From the curve, 315 at half height, 25 mm; at the hem 10. The back's fold has none, its top 12.7."""
    make_version(garment)
    front, back = ask(maker, garment).context["sheet"].pieces
    side = front.shape.outline.edges()[1].sides[0].at(0.5)
    assert front.cut.exterior.distance(Place(side.real, side.imag)) == pytest.approx(25, abs=0.05)
    foot = front.shape.outline.nodes[3].at + 50
    assert front.cut.exterior.distance(Place(foot.real, foot.imag)) == pytest.approx(10, abs=0.05)
    fold = back.shape.outline.nodes[1].at + 300j
    assert back.cut.exterior.distance(Place(fold.real, fold.imag)) == pytest.approx(0, abs=0.05)
    top = back.shape.outline.nodes[0].at + 100
    assert back.cut.exterior.distance(Place(top.real, top.imag)) == pytest.approx(12.7, abs=0.05)


@pytest.mark.django_db
def test_the_notches_that_meet_bear_one_number(maker, garment):
    make_version(garment)
    front, back = ask(maker, garment).context["sheet"].pieces
    assert (front.piece.numbers, back.piece.numbers) == ((1,), (1, 2))


@pytest.mark.django_db
def test_without_a_scale_typed_a_miniature_is_as_large_as_the_paper_takes(maker, garment):
    """Side by side they are 315 + 265 wide and 600 high. Upright A4 prints 190 × 277 mm, 6 of them the gap:
    580 ÷ 184 is 3.15; turned, 600 ÷ 190 is 3.16. The next half above either is 3 1/2."""
    make_version(garment)
    shown = ask(maker, garment, size="miniature", one_to="", small_allowance="")
    one_to = 1 / shown.context["sheet"].scale
    assert one_to == pytest.approx(3.5)
    assert f"1 to {one_to:g}: the largest that fits this paper" in shown.content.decode()
    refused = ask(maker, garment, size="miniature", one_to=str(one_to - 0.5), small_allowance="")
    assert f"1 to {one_to:g} is the largest that does" in refused.content.decode()


@pytest.mark.django_db
def test_graded_is_not_preselected_where_the_comparison_rules_grading_out(maker, people, garment):
    def first():
        return maker.get(f"/garments/{garment.pk}/sheets/").context["form"].of.how

    assert first() == "graded"
    maker.post(f"/garments/{garment.pk}/compare/")
    newest = Comparison.objects.get()
    for route in newest.results["routes"]:
        if route["route"] == "enlarge and grade":
            route["standing"] = "ruled out"
    newest.save()
    assert first() == "as drawn"


@pytest.mark.django_db
def test_a_garment_without_a_plate_prints_its_working_pattern(maker, garment):
    garment.plate = None
    garment.save()
    make_version(garment, PATTERN)
    assert "version 1 of" in words(ask(maker, garment, file=True))
