import pytest

from catalogue.plates.models.piece import Seam
from tests.makers.rows import make_bodice_plate, make_piece, make_plate, make_reference


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def plate(people):
    return make_bodice_plate(people.workroom)


def rows(*typed: dict, initial: int = 0) -> dict:
    posted = {"seams-TOTAL_FORMS": str(len(typed)), "seams-INITIAL_FORMS": str(initial)}
    for number, row in enumerate(typed):
        posted |= {f"seams-{number}-{name}": value for name, value in row.items()}
    return posted


def test_seams_are_typed_in_one_table(maker, plate):
    front, back = plate.pieces.all()
    seam = {
        "piece_a": front.pk,
        "edge_a": "side",
        "piece_b": back.pk,
        "edge_b": "side",
        "evidence": "recorded",
    }
    untouched = {"evidence": "unknown"}
    maker.post(f"/plates/{plate.pk}/seams/", rows(seam | {"length_a_um": "1 1/2"}, untouched))
    kept = plate.seams.get()
    assert (kept.evidence, kept.length_a_text) == ("recorded", "1 1/2 in")


def test_a_fault_keeps_what_was_typed(maker, plate):
    front, back = plate.pieces.all()
    seam = {
        "piece_a": front.pk,
        "piece_b": back.pk,
        "evidence": "tried",
        "how": "backstitch",
        "length_a_um": "2 x",
    }
    page = maker.post(f"/plates/{plate.pk}/seams/", rows(seam)).content.decode()
    assert "1 box to put right" in page
    assert "backstitch" in page
    assert 'value="2 x"' in page
    assert not plate.seams.exists()


def test_a_piece_of_another_plate_cannot_be_sewn_on(maker, people, plate):
    front, _ = plate.pieces.all()
    foreign = make_piece(make_plate(make_reference(people.workroom)), "foreign")
    maker.post(
        f"/plates/{plate.pk}/seams/",
        rows({"piece_a": front.pk, "piece_b": foreign.pk, "evidence": "unknown"}),
    )
    assert not Seam.objects.exists()


def test_a_reader_sees_how_each_seam_is_known(client, people, plate):
    front, back = plate.pieces.all()
    Seam.objects.create(plate=plate, piece_a=front, edge_a="side", piece_b=back, evidence="tried")
    client.force_login(people.reader)
    page = client.get(f"/plates/{plate.pk}/seams/").content.decode()
    assert "tried in miniature" in page
    assert "<select" not in page


@pytest.mark.parametrize("count", [1, 12])
def test_the_page_asks_as_often_for_many_seams_as_for_one(maker, plate, django_assert_num_queries, count):
    front, back = plate.pieces.all()
    for number in range(count):
        Seam.objects.create(plate=plate, piece_a=front, edge_a=str(number), piece_b=back)
    with django_assert_num_queries(13):
        maker.get(f"/plates/{plate.pk}/seams/")
