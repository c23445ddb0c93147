"""The lay of a garment's pieces: what is asked, how it is made outside the request, what is shown."""

from datetime import timedelta

import pytest
from django.utils import timezone
from shapely import Polygon

from catalogue.measuring.outline import Node, Outline
from catalogue.measuring.tracing import TracedShape
from fitting.actions.lay import make_lay as make
from fitting.bridge.pattern_work.pieces import pieces_to_lay
from fitting.calculation.sheets import Allowances
from fitting.models import Lay
from tests.kept_work import make_lay
from tests.makers import (
    make_garment,
    make_outfit,
    make_piece,
    make_plate,
    make_reference,
    make_scan,
    make_traced,
    um,
)

CLOTH = {
    "width_1": "45 in", "width_2": "12 in", "selvedge": "1/4 in", "direction": "two-way", "unit": "1/8 yd",
    "allowance": "1/2 in", "seconds": "1", "cut front": "2", "cut back": "1",
}  # fmt: skip
BOXES = {
    "width of front": "10 in", "length of front": "20 in", "width of back": "16 in", "length of back": "24 in",
}  # fmt: skip
NONE = Allowances(usual_mm=0, by_edge={})


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def plate(people):
    plate = make_plate(make_reference(people.workroom))
    make_piece(plate, "front", {"waist": "1 1/4 in", "nape to waist": "2 1/2 in"})
    make_piece(plate, "back", {"waist": "1 in"}, cut=1, on_fold=True)
    return plate


@pytest.fixture
def garment(people, plate):
    return make_garment(make_outfit(people.workroom), plate=plate)


def ask(client, garment, **typed):
    return client.post(f"/garments/{garment.pk}/lays/add/", {**CLOTH, **BOXES, **typed})


def test_pieces_without_an_outline_are_boxes_from_their_readings_and_say_so(maker, garment, plate):
    front, back = pieces_to_lay(plate, "outer")
    assert (front.width_mm, front.length_mm, front.is_pair) == (pytest.approx(254), pytest.approx(508), True)
    # Unfolded: twice as wide as drawn. Nothing says how long it is.
    assert (back.width_mm, back.length_mm, back.is_pair) == (pytest.approx(406.4), None, False)
    assert "Pieces laid as boxes" in maker.get(f"/garments/{garment.pk}/lays/add/").content.decode()


def test_a_traced_piece_is_laid_by_its_outline_grain_upright_and_unfolded(plate):
    make_scan(plate)
    front, back = plate.pieces.all()
    make_traced(front)
    traced = make_traced(back)
    # The fold is its left side; its grain runs across the page.
    traced.marks = [
        {"kind": "fold", "points": [[100, 100], [100, 500]]},
        {"kind": "grain", "points": [[120, 300], [280, 300]]},
    ]
    traced.save()
    whole, unfolded = (Polygon(piece.lines(NONE).outline) for piece in pieces_to_lay(plate, "outer"))
    assert whole.bounds == pytest.approx((0, 0, 100, 200), abs=0.01)
    assert unfolded.bounds == pytest.approx((0, 0, 200, 200), abs=0.01)
    assert unfolded.area == pytest.approx(2 * whole.area, rel=1e-3)


def test_a_graded_piece_is_laid_in_place_of_the_drawn_one(plate):
    front = plate.pieces.first()
    corners = [Node(at=at) for at in (0, 120, 120 + 210j, 210j)]
    shape = TracedShape(name="front", outline=Outline(nodes=tuple(corners)))
    graded = pieces_to_lay(plate, "outer", graded={front.name: shape})[0]
    assert Polygon(graded.lines(NONE).outline).bounds == (0, 0, 120, 210)


def test_what_cannot_be_graded_is_laid_as_drawn_and_says_so(maker, garment):
    page = maker.get(f"/garments/{garment.pk}/lays/add/?cut=graded").content.decode()
    assert "cannot be graded yet" in page
    assert "Pieces laid as boxes" in page


def test_a_side_that_nobody_read_is_asked_for_beside_its_box(maker, garment):
    answer = ask(maker, garment, **{"length of back": ""})
    assert set(answer.context["form"].errors) == {"length of back"}
    assert 'value="10 in"' in answer.content.decode()
    assert not Lay.objects.exists()


def test_a_fault_of_the_cloth_stands_beside_its_box(maker, garment):
    answer = ask(maker, garment, selvedge="30 in")
    assert "no cloth between" in answer.context["form"].errors["selvedge"][0]


def test_each_width_is_ordered_as_the_command_reads_it_and_made_outside_the_request(
    maker, garment, monkeypatch, django_capture_on_commit_callbacks
):
    started = []
    monkeypatch.setattr("fitting.actions.lay.start_command", lambda *words: started.append(words))
    with django_capture_on_commit_callbacks(execute=True):
        answer = ask(maker, garment, shrinks_length="5")
    lay = garment.lays.get()
    assert answer["Location"] == lay.get_absolute_url()
    assert started == [("lay_make", str(lay.pk))]
    first, second = lay.inputs["orders"]
    assert (first["cloth"]["width"], second["cloth"]["width"]) == ("45 in", "12 in")
    assert first["cloth"]["shrinkage"] == {"length": 0.05, "width": 0.0}
    assert [piece["mirrored_pair"] for piece in first["pieces"]] == [True, False]
    page = maker.get(lay.get_absolute_url())
    assert page["Refresh"] == "1"
    assert "Stop, and keep the best so far" in page.content.decode()


def asked(maker, garment, monkeypatch) -> Lay:
    monkeypatch.setattr("fitting.actions.lay.start_command", lambda *words: None)
    ask(maker, garment)
    return garment.lays.get()


def test_stopped_at_once_it_keeps_a_lay_of_every_width_with_what_must_be_joined(maker, garment, monkeypatch):
    lay = asked(maker, garment, monkeypatch)
    maker.post(f"/lays/{lay.pk}/stop/")
    make(lay.pk)
    lay.refresh_from_db()
    assert (lay.state, lay.fault) == (Lay.State.DONE, "")
    wide, narrow = lay.results
    # Two fronts of 11 × 21 in and a back of 17 × 25 in beside one another on 44 1/2 in.
    assert wide["answer"]["length_mm"] == pytest.approx(um("25 in") / 1000)
    assert wide["to_buy"] == "3/4 yd"
    assert [one["piece"] for one in narrow["answer"]["piecing"]] == ["back"]
    page = maker.get(lay.get_absolute_url()).content.decode()
    for words in ("3/4 yd", "is wider than the cloth", "Laid as boxes", 'class="lay"'):
        assert words in page


def test_a_lay_is_made_once_and_one_whose_process_was_killed_says_so(maker, garment):
    running = make_lay(garment, state=Lay.State.RUNNING, heartbeat=timezone.now() - timedelta(minutes=2))
    make(running.pk)
    assert "was stopped" in maker.get(running.get_absolute_url()).content.decode()
    running.refresh_from_db()
    assert running.state == Lay.State.FAILED


def test_whatever_goes_wrong_is_said_in_its_row(garment):
    lay = make_lay(
        garment, state=Lay.State.WAITING, inputs={"form": {}, "orders": [{}], "boxes": [], "graded": []}
    )
    make(lay.pk)
    lay.refresh_from_db()
    assert lay.state == Lay.State.FAILED
    assert "missing" in lay.fault


def test_without_a_plate_it_says_what_to_do_next(maker, people):
    bare = make_garment(make_outfit(people.workroom))
    assert "no plate yet" in maker.get(f"/garments/{bare.pk}/lays/add/").content.decode()
