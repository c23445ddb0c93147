import pytest

from tests.makers.rows import make_piece, make_plate, make_reference


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def plate(people):
    plate = make_plate(make_reference(people.workroom))
    for name in ("front", "side", "back"):
        make_piece(plate, name)
    return plate


def test_ticked_seams_are_added_as_known_as_the_maker_says(maker, plate):
    form = maker.get(f"/plates/{plate.pk}/seams/propose/").context["form"]
    keys = [key for key, _ in form.fields["seams"].choices]
    assert len(keys) == 4
    maker.post(f"/plates/{plate.pk}/seams/propose/", {"seams": keys[:2], "evidence": "inferred"})
    assert [str(seam) for seam in plate.seams.all()] == [
        "front back edge to side front edge",
        "side back edge to back front edge",
    ]
    assert {seam.evidence for seam in plate.seams.all()} == {"inferred"}


def test_the_order_alone_proves_nothing(maker, plate):
    form = maker.get(f"/plates/{plate.pk}/seams/propose/").context["form"]
    assert form["evidence"].value() == "unknown"


def test_what_is_entered_is_not_proposed_again(maker, plate):
    form = maker.get(f"/plates/{plate.pk}/seams/propose/").context["form"]
    keys = [key for key, _ in form.fields["seams"].choices]
    maker.post(f"/plates/{plate.pk}/seams/propose/", {"seams": keys, "evidence": "unknown"})
    assert "nothing to propose" in maker.get(f"/plates/{plate.pk}/seams/propose/").content.decode()
    assert "Propose" not in maker.get(f"/plates/{plate.pk}/seams/").content.decode()


def test_pieces_joined_under_other_names_are_done_with(maker, plate):
    front, side, back = plate.pieces.all()
    for one, other in ((front, side), (side, back), (front, back), (back, back)):
        plate.seams.create(piece_a=one, edge_a="my own word", piece_b=other, edge_b="another")
    assert "nothing to propose" in maker.get(f"/plates/{plate.pk}/seams/propose/").content.decode()
