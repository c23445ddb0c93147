import pytest

from catalogue.photographs.models import Photo
from catalogue.plates.models.piece import Seam
from catalogue.references.models.garment import PublishedMeasure, ReferenceGarment
from catalogue.sources.models import Citation
from catalogue.workroom import uses
from tests.makers.rows import make_bodice_plate, make_piece, make_plate, make_reference, make_source, um


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def used(monkeypatch):
    """Somebody draws on every garment: who that is, is none of the catalogue's business."""
    use = uses.Use(label="bodice, Fair day", url="/garments/7/")
    monkeypatch.setattr(uses, "_asked", [lambda reference, user: [use]])


def test_the_page_gathers_what_is_known_of_a_garment(maker, people, used):
    plate = make_bodice_plate(people.workroom)
    reference = plate.reference
    Citation.objects.create(reference=reference, source=make_source(people.workroom), pages="p. 9")
    PublishedMeasure.objects.create(
        reference=reference, line="waist", value_um=um("22 in"), value_text="22 in", pages="fig. 3",
        source=make_source(people.workroom, title="Record of the bodice"),
    )  # fmt: skip
    front, back = plate.pieces.all()
    Seam.objects.create(plate=plate, piece_a=front, piece_b=back)
    page = maker.get(f"/references/{reference.pk}/").content.decode()
    for words in (
        "34 in",
        "22 in",
        "p. 9",
        "Record of the bodice</a>, fig. 3",
        "How 1 of them is sewn",
        "/garments/7/",
    ):
        assert words in page


def test_a_garment_with_nothing_yet_says_what_to_add(maker, people):
    page = maker.get(f"/references/{make_reference(people.workroom).pk}/").content.decode()
    for words in ("No plate yet", "None cited yet", "None yet", "No garment of an outfit draws on it"):
        assert words in page


@pytest.mark.parametrize("count", [1, 6])
def test_the_page_asks_as_often_for_many_plates_as_for_one(maker, people, django_assert_num_queries, count):
    reference = make_reference(people.workroom)
    for _ in range(count):
        plate = make_plate(reference, source=make_source(people.workroom))
        front, back = (make_piece(plate, name, {"waist": "3/4 in"}) for name in ("front", "back"))
        Seam.objects.create(plate=plate, piece_a=front, piece_b=back)
        reference.questions.create(text="Boned?", asked_on="2026-11-20")
        reference.relations.create(other=make_reference(people.workroom))
    with django_assert_num_queries(14):
        maker.get(f"/references/{reference.pk}/")


def test_deleting_says_what_goes_and_who_used_it_and_keeps_the_files_for_its_return(
    maker, people, used, data_folder, django_capture_on_commit_callbacks
):
    plate = make_bodice_plate(people.workroom)
    Photo.objects.create(reference=plate.reference, stem="kept", width=3, height=4)
    folder = data_folder / "files" / "photos"
    (folder / "originals").mkdir(parents=True)
    for name in ("kept-320.jpg", "originals/kept"):
        (folder / name).write_bytes(b"picture")
    page = maker.get(f"/references/{plate.reference_id}/delete/").content.decode()
    for words in ("1 plate", "2 pieces", "4 readings", "1 photo", "Fair day"):
        assert words in page
    with django_capture_on_commit_callbacks(execute=True):
        maker.post(f"/references/{plate.reference_id}/delete/")
    assert not ReferenceGarment.objects.exists()
    assert {file.name for file in folder.rglob("*") if file.is_file()} == {"kept-320.jpg", "kept"}
