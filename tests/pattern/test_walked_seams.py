"""The sheets of seams where pieces are traced: they fill themselves with what was traced."""

import pytest
from django.utils import timezone

from fitting.pattern.loading.facts import known_of
from fixtures.demo.draw.garments import day_bodice
from tests.makers.traced_bodice import SEAMS, make_traced_bodice

INCH = 25.4
HEAD = SEAMS.index(("upper sleeve", "whole head", "front", "whole armhole")) + 1


@pytest.fixture
def garment(people):
    return make_traced_bodice(people.workroom)


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def page(client, garment, kind="seams", typed=None):
    address = f"/garments/{garment.pk}/work/{kind}/"
    answer = client.post(address, typed) if typed else client.get(address)
    assert answer.context["sheet"].errors == {}
    return answer


def rows(answer, at):
    """A table by its first cells; figures in inches, to a thousandth."""
    grid = answer.context["worked"].grids[at]
    return {
        name[0]: [round(cell[0] / INCH, 3) if isinstance(cell[0], float) else cell[0] for cell in cells]
        for name, *cells in grid.rows
    }


@pytest.mark.django_db
def test_the_page_is_filled_before_anything_is_typed(maker, garment):
    answer = page(maker, garment)
    assert len(rows(answer, 0)) == len(SEAMS)
    assert "Seams straightened" in answer.content.decode()
    # Graded, since it can be: each row is what the grade page gives for the same edges.
    graded = maker.get(f"/garments/{garment.pk}/grade/").context["graded"].grading.joins
    walked = [row[:2] for row in rows(answer, 0).values()]
    assert walked == [pytest.approx([mm / INCH for mm in one.graded_mm], abs=1e-3) for one in graded]


@pytest.mark.django_db
def test_edges_as_drawn_are_as_long_as_they_were_drawn(maker, garment):
    found = rows(page(maker, garment, typed={"pieces": "as drawn"}), 0)
    for (one, edge, other, other_edge), row in zip(SEAMS, found.values(), strict=True):
        drawn = [day_bodice.PLATE.edge_length(one, edge), day_bodice.PLATE.edge_length(other, other_edge)]
        assert row[:2] == pytest.approx(drawn, abs=0.005)


@pytest.mark.django_db
def test_the_sleeve_is_compared_from_its_pitch_points(maker, garment):
    """On the drawing: 5.55 in down the front, 1.67 in up the side back; the head's top at 5.92 in."""
    drawing = day_bodice.PLATE
    back_mm = drawing.edge_length("back", "armhole") + drawing.edge_length("side back", "armhole") - 1.67
    upper = drawing.edge_length("upper sleeve", "upper head")
    parts = rows(page(maker, garment, typed={"pieces": "as drawn"}), 1)
    assert parts[f"{HEAD} · upper head, front"][:2] == pytest.approx([5.92, 5.55], abs=0.005)
    assert parts[f"{HEAD} · upper head, back"][:2] == pytest.approx([upper - 5.92, back_mm], abs=0.005)
    assert parts[f"{HEAD} · upper head, under"][0] == pytest.approx(
        drawing.edge_length("under sleeve", "under head"), abs=0.005
    )


@pytest.mark.django_db
def test_an_ease_that_is_allowed_is_no_longer_flagged(maker, garment):
    drawn = {"pieces": "as drawn"}
    flagged = [flag[0] for flag in page(maker, garment, typed=drawn).context["worked"].flags]
    assert any("upper head, front" in said for said in flagged)
    eased = page(maker, garment, typed={**drawn, f"allowed-{HEAD}": "3/4 in"})
    assert not any("upper head" in flag[0] for flag in eased.context["worked"].flags)


@pytest.mark.django_db
def test_where_a_seam_agrees_in_all_and_not_in_its_parts_a_notch_is_to_be_moved(maker, garment):
    front = garment.plate.pieces.get(name="front").traced
    place = next(node for node in front.nodes if node["edge"] == "armhole")
    next(mark for mark in front.marks if mark["kind"] == "notch")["points"] = [[place["x"], place["y"] + 40]]
    front.save()
    answer = page(maker, garment, typed={"pieces": "as drawn", f"allowed-{HEAD}": "13/16 in"})
    assert list(rows(answer, 0).values())[HEAD - 1][-1] == "eased as said"
    said = ["".join(map(str, flag)) for flag in answer.context["worked"].flags if "upper head, " in flag[0]]
    assert len(said) > 1
    assert all("move a notch" in sentence for sentence in said)


@pytest.mark.django_db
def test_notches_are_placed_along_both_edges(maker, garment):
    placed = rows(page(maker, garment, typed={"pieces": "as drawn"}), 2)
    back_seam = SEAMS.index(("side back", "back seam", "back", "back seam")) + 1
    assert placed[f"{back_seam} · notch 1, from the armhole"] == pytest.approx([5.5, 5.5], abs=0.005)
    closer = rows(page(maker, garment, typed={"pieces": "as drawn", "every": "3 in"}), 2)
    assert len(closer) > 2 * len(placed)


@pytest.mark.django_db
def test_the_sleeve_sheet_is_filled_from_the_pitch_points(maker, garment):
    boxes = page(maker, garment, "sleeve").context["sheet"].initial
    assert boxes["head_under_mm"].um > 100_000
    whole = sum(boxes[f"head_{part}_mm"].um for part in ("front", "back", "under"))
    sleeve = known_of(garment, by=garment.outfit.maker, at=timezone.now()).walkable.sleeve()
    assert whole == pytest.approx(1000 * sleeve.seam.longer_mm, abs=2)


@pytest.mark.django_db
def test_where_no_pitch_point_is_traced_the_page_says_what_to_mark(maker, garment):
    for row in [piece.traced for piece in garment.plate.pieces.all()]:
        row.marks = [mark for mark in row.marks if mark["kind"] != "notch"]
        row.save()
    said = [flag[0] for flag in page(maker, garment).context["worked"].flags]
    assert any("Mark the pitch points as notches" in sentence for sentence in said)
