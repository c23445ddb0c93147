import pytest

from catalogue.plates.models.piece import Piece, Seam
from catalogue.references.models.garment import PublishedMeasure
from tests.makers.rows import make_bodice_plate, make_draft_plate, make_piece, make_plate, make_reference, um


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def test_each_girth_is_shown_with_its_sum_and_its_doubt(maker, people):
    page = maker.get(make_bodice_plate(people.workroom).get_absolute_url()).content.decode()
    assert "front 2 × 8 × 1 1/8 in + back 2 × 8 × 1 in = 34 in" in page
    assert "± 5/8 in" in page


def test_a_reader_sees_the_readings_without_boxes(client, people):
    plate = make_bodice_plate(people.workroom)
    client.force_login(people.reader)
    page = client.get(plate.get_absolute_url()).content.decode()
    assert "3/4 in" in page
    assert "34 in" in page
    assert 'name="reading-' not in page


@pytest.mark.parametrize("who", ["maker", "reader"])
def test_a_proportional_draft_says_for_whom_it_is_and_which_figures_are_plain(client, people, who):
    client.force_login(getattr(people, who))
    page = client.get(make_draft_plate(people.workroom).get_absolute_url()).content.decode()
    assert "a proportional draft for half bust or chest 18 in" in page
    assert "as drawn, for half bust or chest 18 in" in page
    # 2 × (9 + 9) in, and 2 × (7 + 5 + 2) in.
    assert "= 36 in" in page
    assert "= 28 in" in page
    assert page.count("plain<span" if who == "maker" else ">plain</small>") == (6 if who == "maker" else 1)


def test_a_draft_is_reckoned_for_whoever_else_is_asked_for(maker, people):
    address = make_draft_plate(people.workroom).get_absolute_url()
    page = maker.get(address, {"measure": "20"}).content.decode()
    # 36 × 20 ÷ 18, and 24 × 20 ÷ 18 with 4 in plain; as drawn they are 36 and 28.
    for text in ("For 20 in", "<strong>40 in</strong>", "<strong>30 11/16 in</strong>", "= 28 in"):
        assert text in page
    for wrong in ("half", "0 in", ""):
        answer = maker.get(address, {"measure": wrong})
        assert "measure" in answer.context["measure_form"].errors
        assert "= 36 in" in answer.content.decode()


def test_a_diagram_is_reckoned_for_nobody_else(maker, people):
    answer = maker.get(make_bodice_plate(people.workroom).get_absolute_url(), {"measure": "20 in"})
    assert "measure_form" not in answer.context


def test_while_the_allowance_is_not_known_both_results_are_shown(maker, people):
    plate = make_bodice_plate(people.workroom)
    plate.allowance = "not known"
    plate.save()
    page = maker.get(plate.get_absolute_url()).content.decode()
    # Front 2 and back 2 edges of 1/2 in, each twice round: 34 − 3 in; the fold carries none.
    assert "34 in" in page
    assert "31 in" in page
    assert "Settle the allowance" in page


def test_lining_and_outer_are_girths_of_their_own(maker, people):
    plate = make_bodice_plate(people.workroom)
    make_piece(plate, "lining", {"waist": "1 1/4 in"}, cloth=Piece.ClothRole.LINING)
    found = maker.get(plate.get_absolute_url()).context["findings"]
    assert found["outer"].by_line["waist"].full_size.mm / 25.4 == pytest.approx(22)
    assert found["lining"].by_line["waist"].full_size.mm / 25.4 == pytest.approx(20)


def test_a_misreading_shows_where_sewn_edges_do_not_match(maker, people):
    plate = make_bodice_plate(people.workroom)
    front, back = plate.pieces.all()
    seam = Seam(plate=plate, piece_a=front, edge_a="side", piece_b=back, edge_b="side")
    seam.length_a_um, seam.length_a_text = um("1 1/2 in"), "1 1/2 in"
    seam.length_b_um, seam.length_b_text = um("1 1/4 in"), "1 1/4 in"
    seam.save()
    page = maker.get(plate.get_absolute_url()).content.decode()
    assert "front, side is 2 in longer than back, side" in page
    seam.is_eased = True
    seam.save()
    assert "longer than" not in maker.get(plate.get_absolute_url()).content.decode()


def test_a_published_girth_agrees_or_does_not(maker, people):
    plate = make_bodice_plate(people.workroom)
    stated = PublishedMeasure.objects.create(
        reference=plate.reference, line="waist", value_um=um("22 1/2 in"), value_text="22 1/2 in"
    )
    assert "agrees with the one published" in maker.get(plate.get_absolute_url()).content.decode()
    stated.value_um, stated.value_text = um("26 in"), "26 in"
    stated.save()
    assert "4 in shorter than the one published" in maker.get(plate.get_absolute_url()).content.decode()


def test_a_new_plate_begins_with_the_usual_pieces_of_its_garment(maker, people):
    plate = make_plate(make_reference(people.workroom, name="Sleeved waistcoat", kind=""))
    assert '<option value="waistcoat" selected>' in maker.get(plate.get_absolute_url()).content.decode()
    answer = maker.post(f"/plates/{plate.pk}/pieces/start/", {"kind": "breeches"})
    assert list(plate.pieces.values_list("name", flat=True)) == ["front", "back", "waistband", "knee band"]
    columns = maker.get(answer["Location"].split("#")[0]).context["columns"]
    assert "knee" in [line.key for line in columns]
    maker.post(f"/plates/{plate.pk}/pieces/start/", {"kind": "no such thing"})
    assert plate.pieces.count() == 4


def test_pieces_are_added_changed_and_taken_off(maker, people):
    plate = make_plate(make_reference(people.workroom))
    piece = {"name": "gusset", "cut": "4", "cloth": "outer", "grain": "bias", "order": "1"}
    answer = maker.post(f"/plates/{plate.pk}/pieces/add/", piece | {"another": "1"})
    assert answer["Location"] == f"/plates/{plate.pk}/pieces/add/"
    gusset = plate.pieces.get()
    maker.post(f"/pieces/{gusset.pk}/change/", piece | {"name": "godet"})
    assert plate.pieces.get().name == "godet"
    assert (
        "at least once" in maker.post(f"/pieces/{gusset.pk}/change/", piece | {"cut": "0"}).content.decode()
    )
    maker.post(f"/pieces/{gusset.pk}/delete/")
    assert not plate.pieces.exists()
