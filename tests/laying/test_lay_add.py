"""The lay of a garment's pieces: what is asked, how it is made outside the request, what is shown."""

import pytest
from shapely import Polygon

from catalogue.plates.models.plate import Plate
from catalogue.workroom.work.engine import do_in_turn
from fitting.laying.loading.orders import lay_request
from fitting.laying.models import Lay
from tests.makers.kept_work import make_lay
from tests.makers.rows import (
    make_garment,
    make_measures,
    make_outfit,
    make_piece,
    make_plate,
    make_reference,
    make_scan,
    make_traced,
    make_wearer,
    um,
)

CLOTH = {
    "width_1": "45 in", "width_2": "12 in", "selvedge": "1/4 in", "direction": "two-way", "folded": "open",
    "unit": "1/8 yd", "allowance": "1/2 in", "seconds": "1", "cut front": "2", "cut back": "1",
}  # fmt: skip
BOXES = {
    "width of front": "10 in", "length of front": "20 in",
    "width of back": "16 in", "length of back": "24 in",
}  # fmt: skip


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


def test_pieces_without_an_outline_are_boxes_and_say_so(maker, garment):
    assert "Pieces laid as boxes" in maker.get(f"/garments/{garment.pk}/lays/add/").content.decode()


def test_a_proportional_draft_is_laid_as_drawn_out_for_the_wearer(maker, people, garment, plate):
    sized = {"drawn_for_line": "bust", "drawn_for_um": um("18 in"), "drawn_for_text": "18 in"}
    Plate.objects.filter(pk=plate.pk).update(kind="draft", **sized)
    page = maker.get(f"/garments/{garment.pk}/lays/add/").content.decode()
    assert "as drawn for half bust or chest 18 in" in page
    garment.outfit.wearer = make_wearer(people.workroom)
    garment.outfit.save()
    make_measures(garment.outfit.wearer, {"bust": "45 in"}, state="undressed")
    answer = maker.get(f"/garments/{garment.pk}/lays/add/")
    assert "drawn out for the wearer" in answer.content.decode()
    wide = [piece.width_mm for piece in answer.context["laid"].pieces]
    assert wide == pytest.approx([254 * 1.25, 406.4 * 1.25])


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


def test_each_width_is_ordered_and_made_outside_the_request(
    maker, garment, started, django_capture_on_commit_callbacks
):
    with django_capture_on_commit_callbacks(execute=True):
        answer = ask(maker, garment, shrinks_length="5")
    lay = garment.lays.get()
    assert answer["Location"] == lay.get_absolute_url()
    assert started == [lay.work.pk]
    request = lay_request(lay.inputs)
    assert request.widths == ("45 in", "12 in")
    first, second = request.orders
    assert (first.cloth.width_mm, second.cloth.width_mm) == pytest.approx((45 * 25.4, 12 * 25.4))
    assert (first.cloth.shrinkage_length, first.cloth.shrinkage_width) == (0.05, 0.0)
    assert [piece.mirrored_pair for piece in first.pieces] == [True, False]
    page = maker.get(lay.get_absolute_url())
    assert page["Refresh"] == "1"
    assert "Stop, and keep the best so far" in page.content.decode()


def test_stopped_at_once_it_keeps_a_lay_of_every_width_with_what_must_be_joined(maker, garment):
    lay = made(maker, garment)
    wide, narrow = lay.results
    # Two fronts of 11 × 21 in and a back of 17 × 25 in beside one another on 44 1/2 in.
    assert wide["answer"]["length_mm"] == pytest.approx(um("25 in") / 1000)
    assert wide["to_buy"] == "3/4 yd"
    assert [one["piece"] for one in narrow["answer"]["piecing"]] == ["back"]
    page = maker.get(lay.get_absolute_url()).content.decode()
    for words in ("3/4 yd", "is wider than the cloth", "Laid as boxes", 'class="lay"'):
        assert words in page


def test_begun_again_after_it_was_killed_it_holds_each_width_once(garment):
    lay = make_lay(garment, {"state": "waiting", "tries": 2}, results=[{"left": "by it"}])
    do_in_turn([lay.work.pk])
    lay.refresh_from_db()
    assert (lay.work.state, lay.results) == ("done", [])


def test_what_cannot_be_laid_is_said_in_its_row(garment):
    lay = make_lay(garment, {"state": "waiting"}, inputs={})
    do_in_turn([lay.work.pk])
    assert lay.work.state == "failed"
    assert "missing" in lay.work.fault


def test_without_a_plate_it_says_what_to_do_next(maker, people):
    bare = make_garment(make_outfit(people.workroom))
    assert "no plate yet" in maker.get(f"/garments/{bare.pk}/lays/add/").content.decode()


def made(maker, garment, **typed) -> Lay:
    """Asked for on the page, stopped at the first lay found."""
    answer = ask(maker, garment, **typed)
    assert answer.status_code == 302, answer.context["form"].errors
    lay = garment.lays.first()
    maker.post(f"/work/{lay.work.pk}/stop/")
    do_in_turn([lay.work.pk])
    lay.refresh_from_db()
    assert (lay.work.state, lay.work.fault) == ("done", "")
    return lay


def test_on_folded_cloth_a_pair_is_cut_once_and_a_half_lies_at_the_fold(maker, garment):
    lay = made(maker, garment, folded="folded", width_2="")
    (wide,) = lay.results
    placements = {one["piece"]: one for one in wide["answer"]["placements"]}
    assert set(placements) == {"front", "back"}
    assert placements["back"]["x_mm"] == pytest.approx(0)
    # Beside a half of 8 1/2 in a front of 11 in, on 22 1/4 in; as long as on open cloth, with fewer to lay.
    assert wide["answer"]["length_mm"] == pytest.approx(um("25 in") / 1000)
    page = maker.get(lay.get_absolute_url()).content.decode()
    for words in ("cut through both layers", "With their fold at the fold of the cloth: back.", "lay-fold"):
        assert words in page


def test_what_is_cut_an_odd_number_of_times_through_both_layers_leaves_one_more(maker, garment):
    lay = made(maker, garment, folded="folded", width_2="", **{"cut front": "3"})
    assert sum(one["piece"] == "front" for one in lay.results[0]["answer"]["placements"]) == 2
    assert "One more of each comes of it" in maker.get(lay.get_absolute_url()).content.decode()


def test_a_piece_wider_than_folded_cloth_is_named_with_the_cloth(maker, garment):
    answer = ask(maker, garment, folded="folded", width_2="", **{"width of front": "30 in"})
    (fault,) = answer.context["form"].non_field_errors()
    assert fault.startswith("front, on cloth 45 in wide: This is wider than the cloth lies when folded")
    assert not Lay.objects.exists()


@pytest.fixture
def traced(plate):
    make_scan(plate)
    for piece in plate.pieces.all():
        make_traced(piece)
    return plate


def test_an_edge_may_have_an_allowance_of_its_own(maker, garment, traced):
    # Its named edge begins at one corner and goes round the rest; a second name ends it.
    row = traced.pieces.first().traced
    row.nodes[2]["edge"] = "hem"
    row.nodes[3]["edge"] = "side seam"
    row.save()
    lay = made(maker, garment, width_2="", **{"cut back": "0", "edge hem": "2 in"})
    cut = Polygon(lay_request(lay.inputs).pieces[0].cut_outline)
    left, low, right, high = cut.bounds
    # 100 by 200 mm as traced, 1/2 in at three edges and 2 in at the hem, the lower one on the page.
    assert (right - left, high - low) == pytest.approx((125.4, 200 + 12.7 + 50.8), abs=0.01)
    assert low == pytest.approx(-50.8, abs=0.01)
    page = maker.get(lay.get_absolute_url()).content.decode()
    assert "Other allowances: hem 2 in." in page


def test_a_cloth_without_pieces_of_its_own_is_cut_by_the_outer_ones(maker, garment):
    page = maker.get(f"/garments/{garment.pk}/lays/add/?cloth=lining").content.decode()
    assert "draws no pieces of lining, so those of outer are offered" in page
    maker.post(f"/garments/{garment.pk}/lays/add/?cloth=lining", {**CLOTH, **BOXES, "cut back": "0"})
    lay = garment.lays.get()
    assert (lay.cloth, [piece.name for piece in lay_request(lay.inputs).pieces]) == ("lining", ["front"])


def test_what_was_typed_last_fills_the_form_by_the_name_of_each_piece(maker, garment, plate):
    ask(maker, garment, **{"cut front": "6"})
    make_piece(plate, "collar", {"neck": "1 in"}, order=0)
    plate.pieces.exclude(name="collar").update(order=1)
    form = maker.get(f"/garments/{garment.pk}/lays/add/").context["form"]
    assert [form[f"cut {name}"].value() for name in ("front", "back")] == ["6", "1"]
    assert form["cut collar"].value() == 2
