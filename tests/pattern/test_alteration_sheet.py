"""The sheet of the alteration plan: filled from the comparison, drawn on what is traced."""

import pytest
from django.utils import timezone

from catalogue.plates.models.piece import Reading
from catalogue.tracing.models import TracedLevel
from fitting.comparing.actions import compare_garment
from fitting.wearers.models import Take
from tests.makers.kept_work import make_seamed_bodice
from tests.makers.rows import make_scan, make_traced, um

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
