"""Outlines are kept as pixels, reckoned by the server, and stand as readings only when asked."""

import json

import pytest
from django.urls import reverse

from catalogue.finding.models import FullSizeMeasure
from catalogue.plates.calculation.girth import Reckoning
from catalogue.plates.loading import plate_values
from catalogue.plates.models.piece import Reading
from catalogue.tracing.actions.scan import calibrate
from catalogue.tracing.calculation.calibration import by_bar
from catalogue.tracing.loading.outlines import map_of, shape_of
from catalogue.tracing.models import TracedPiece, TracedReading
from catalogue.workroom.work.models import Work
from tests.makers.rows import NOON, make_bodice_plate, make_scan


@pytest.fixture
def plate(people):
    plate = make_bodice_plate(people.workroom)
    make_scan(plate)
    return plate


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def node(x, y, edge="", **given):
    return {"x": x, "y": y, "corner": True, "curved": False, "edge": edge, **given}


# 8 in by 10 in at full size, so 1 in across on the page of 1:8.
RECTANGLE = [node(100, 100, "neck"), node(303.2, 100, "side seam"), node(303.2, 354, "waist"), node(100, 354)]


def keep(maker, plate, nodes=RECTANGLE, marks=(), levels=(), as_of=None):
    piece = plate.pieces.get(name="front")
    drawing = {"pieces": [{"piece": piece.pk, "nodes": nodes, "marks": list(marks)}], "levels": list(levels)}
    body = json.dumps({"as_of": as_of, **drawing})
    return maker.post(reverse("trace-keep", args=[plate.pk]), body, content_type="application/json")


WAIST = {"line": "waist", "points": [[50, 300], [400, 300]]}


def test_what_is_kept_comes_back_with_what_it_comes_to(maker, plate):
    said = keep(maker, plate, levels=[WAIST]).json()
    assert said["pieces"][0]["figures"] == [
        ["all round", "36 in"],
        ["area", "80.0 in²"],
        ["neck", "8 in"],
        ["side seam", "10 in"],
        ["waist", "18 in"],
        ["at the waist", "8 in"],
    ]
    assert plate.pieces.get(name="front").traced.nodes[1]["x"] == pytest.approx(606.4)  # a pixel is half a mm


def test_recalibrating_carries_the_points_from_their_pixels(maker, people, plate):
    keep(maker, plate)
    twice = by_bar(0j, 100 + 0j, real_mm=100, size=(1200, 900), is_photograph=False)
    before = TracedPiece.objects.get().nodes
    for _ in range(2):
        new = calibrate(scan=plate.scan, way="bar", found=twice, given={}, by=people.maker, at=NOON)
        new.works.update(state=Work.State.DONE)
    traced = TracedPiece.objects.get()
    assert traced.nodes == before
    assert shape_of(traced, map_of(new)).outline.perimeter == pytest.approx(36 * 25.4 * 2)


def test_another_screen_is_not_written_over(maker, plate):
    first = keep(maker, plate).json()["as_of"]
    keep(maker, plate)
    late = keep(maker, plate, nodes=[], as_of=first)
    assert late.status_code == 409
    assert "another screen" in late.json()["sentence"]
    assert len(TracedPiece.objects.get().nodes) == 4


@pytest.mark.parametrize(
    "nodes",
    [
        [node("far", 1)],
        [node(float("inf"), 0)],
        [{"x": 1}],
        "points",
        [node(0, 0)] * 700,
    ],
)
def test_geometry_that_our_page_does_not_send_is_refused(maker, plate, nodes):
    assert keep(maker, plate, nodes=nodes).status_code == 400
    assert not TracedPiece.objects.exists()


def test_a_crossing_outline_is_named_and_gives_no_reading(maker, plate):
    crossed = [RECTANGLE[0], RECTANGLE[2], RECTANGLE[1], RECTANGLE[3]]
    said = keep(maker, plate, nodes=crossed, levels=[WAIST]).json()
    assert "point 1 to 2 meets the side from point 3 to 4" in said["pieces"][0]["faults"][0]
    assert not TracedReading.objects.exists()


def test_a_traced_reading_stands_only_when_asked_and_the_one_by_hand_comes_back(maker, plate):
    keep(maker, plate, levels=[WAIST])
    reading = Reading.objects.get(piece__name="front", line="waist")
    assert (reading.reading_text, reading.doubt_um) == ("3/4 in", None)
    traced = TracedReading.objects.get()
    assert traced.reading_um == 25400
    page = reverse("traced-readings", args=[plate.pk])
    maker.post(page, {"use": traced.pk})
    reading.refresh_from_db()
    assert reading.reading_um == 25400
    assert reading.doubt_um == pytest.approx(1000 * 0.5 * 2**0.5 / 8, abs=1)  # √2 of a pixel, on the page
    assert "3/4 in" in maker.get(page).content.decode()
    maker.post(page, {})
    reading.refresh_from_db()
    assert (reading.reading_text, reading.doubt_um) == ("3/4 in", None)


def test_the_garment_is_found_by_the_girth_that_stands(maker, plate):
    def waist_um() -> int:
        return FullSizeMeasure.objects.get(plate=plate, line="waist").least_um

    keep(maker, plate, levels=[WAIST])
    page = reverse("traced-readings", args=[plate.pk])
    maker.post(page, {"use": TracedReading.objects.get().pk})
    # 8 × 2 × (1 + 5/8) in, and with the 3/4 in that were read by hand 22 in.
    assert waist_um() == 26 * 25400
    maker.post(page, {})
    assert waist_um() == 22 * 25400


def test_a_reading_that_is_used_follows_the_outline(maker, plate):
    keep(maker, plate, levels=[WAIST])
    maker.post(reverse("traced-readings", args=[plate.pk]), {"use": TracedReading.objects.get().pk})
    wider = [RECTANGLE[0], node(506.4, 100), node(506.4, 354), RECTANGLE[3]]
    keep(maker, plate, nodes=wider, levels=[WAIST | {"points": [[50, 300], [600, 300]]}])
    assert Reading.objects.get(piece__name="front", line="waist").reading_um == 50800


def test_edges_named_as_a_seam_are_compared_at_once(maker, plate):
    front, back = plate.pieces.all()
    plate.seams.create(piece_a=front, edge_a="side seam", piece_b=back, edge_b="side seam")
    shorter = [RECTANGLE[0], RECTANGLE[1], node(303.2, 341.3, "waist"), node(100, 341.3)]
    drawing = [
        {"piece": front.pk, "nodes": RECTANGLE, "marks": []},
        {"piece": back.pk, "nodes": shorter, "marks": []},
    ]
    body = json.dumps({"as_of": None, "pieces": drawing, "levels": []})
    said = maker.post(reverse("trace-keep", args=[plate.pk]), body, content_type="application/json").json()
    assert said["seams"] == ["front side seam 10 in, back side seam 9 1/2 in: the first is 1/2 in longer."]


def test_without_a_script_points_are_typed_into_a_table(maker, plate):
    piece = plate.pieces.get(name="front")
    page = reverse("outline-change", args=[piece.pk])
    places = [(0, 0), (8, 0), (8, 10), (0, 10)]
    given = {f"{axis}-{n}": place[i] for n, place in enumerate(places) for i, axis in enumerate("xy")}
    maker.post(page, given | {"count": 4, "corner-0": "on", "edge-0": "neck"})
    traced = TracedPiece.objects.get()
    shape = shape_of(traced, map_of(plate.scan.calibrations.first()))
    assert shape.outline.perimeter == pytest.approx(36 * 25.4)
    answer = maker.post(page, given | {"count": 4, "x-2": "eight"})
    assert "plain numbers" in answer.content.decode()
    assert 'value="eight"' in answer.content.decode()


@pytest.mark.parametrize("button", [{}, {"onto-line": "1"}])
def test_a_place_typed_far_off_the_scan_is_refused_and_stays_in_its_box(maker, plate, button):
    page = reverse("outline-change", args=[plate.pieces.get(name="front").pk])
    given = {f"{axis}-{n}": "0" for n in range(3) for axis in "xy"} | {"x-1": "39000", "y-2": "4"}
    answer = maker.post(page, given | {"count": 3} | button).content.decode()
    assert "far off the scan" in answer
    assert 'value="39000"' in answer
    assert not TracedPiece.objects.exists()


def test_without_a_script_marks_and_levels_are_typed_too(maker, plate):
    keep(maker, plate)
    piece = plate.pieces.get(name="front")
    page = reverse("outline-change", args=[piece.pk])
    outline = {"count": 0, "marks": 3}
    pleat = {"kind-0": "pleat", "alike-0": "3"} | places(0, [(5, 4), (5, 12), (5.5, 4), (5.5, 12)])
    waist = {"kind-1": "level", "of-1": "waist"} | places(1, [(2, 8), (14, 8)])
    length = {"kind-2": "length", "of-2": "nape to waist"} | places(2, [(6, 4), (6, 7), (7, 7)])
    shown = maker.get(page).context["points"].rows
    for number, row in enumerate(shown):
        outline |= {f"x-{number}": row.x, f"y-{number}": row.y, "count": len(shown)}
    assert maker.post(page, outline | pleat | waist | length).status_code == 302
    reading = TracedReading.objects.get(line="waist")
    # Three pleats of 1/2 in at full size, on the page of 1:8.
    assert reading.take_up_um == pytest.approx(3 * 12700 / 8, abs=1)
    assert TracedReading.objects.get(line="nape to waist").reading_um == pytest.approx(4 * 25400 / 8, abs=1)
    again = maker.get(page).context["marks"].rows
    assert [(row.kind, row.line, row.count) for row in again[:3]] == [
        ("pleat", "", "3"),
        ("length", "nape to waist", "1"),
        ("level", "waist", "1"),
    ]


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"kind-0": "dart"}, "A dart has 3 places, or 4 where it has two points"),
        ({"kind-0": ""}, "Choose what this is."),
        ({"kind-0": "level", "of-0": "nape to waist"}, "Choose which level this is."),
        ({"kind-0": "grain", "alike-0": "4"}, "anything else there is only once"),
        ({"kind-0": "grain", "mark-y-0-1": "six"}, "Type both numbers"),
        ({"kind-0": "level", "of-0": "waist", "mark-x-0-1": "1"}, "A level has 2 places."),
    ],
)
def test_a_fault_in_a_typed_mark_is_named_and_loses_nothing(maker, plate, typed, sentence):
    keep(maker, plate, levels=[WAIST])
    page = reverse("outline-change", args=[plate.pieces.get(name="front").pk])
    two = [(1.5, 2), (3, "4.25")] if "mark-x-0-1" not in typed else [(1.5, 2)] * 3
    answer = maker.post(page, {"count": 0, "marks": 1} | places(0, two) | typed)
    assert sentence in answer.content.decode()
    assert 'value="1.5"' in answer.content.decode()
    assert plate.traced_levels.count() == 1


def places(row, pairs):
    return {
        f"mark-{axis}-{row}-{at}": pair[i] for at, pair in enumerate(pairs) for i, axis in enumerate("xy")
    }


def test_a_plate_that_is_all_traced_has_the_doubt_of_its_calibration(maker, plate):
    keep(maker, plate, levels=[WAIST])
    maker.post(reverse("traced-readings", args=[plate.pk]), {"use": TracedReading.objects.get().pk})
    assert plate_values(plate).scale.relative_doubt == 0.005  # others were read with a rule, in the book
    Reading.objects.filter(doubt_um=None).delete()
    values = plate_values(plate)
    assert values.scale.relative_doubt == 0.004
    # √((0.004 × 2 × 8 in)² + (2 × 8 × 0.0884 mm)² + (2 × 1/16 in)²), worked by hand: u of the girth.
    girth = Reckoning.of(values).girth("waist")
    assert girth.mm == pytest.approx(16 * 25.4)
    assert girth.u_mm == pytest.approx(((0.004 * 406.4) ** 2 + (16 * 0.088) ** 2 + 3.175**2) ** 0.5, rel=1e-3)
