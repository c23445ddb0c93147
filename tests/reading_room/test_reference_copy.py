"""A copy begins with the facts of another garment, and shares no row with it."""

import pytest
from django.urls import reverse

from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.references.models.garment import ReferenceGarment
from catalogue.tracing.models import PlateScan, TracedPiece
from tests.makers.full_workroom import fill_workroom


@pytest.fixture
def original(people) -> ReferenceGarment:
    return fill_workroom(people.workroom).references.get(name="back-laced bodice")


def copied(client, people, original, **ticked) -> ReferenceGarment:
    client.force_login(people.maker)
    client.post(reverse("reference-copy", args=[original.pk]), {"name": "another bodice", **ticked})
    return people.workroom.references.get(name="another bodice")


def test_facts_and_tags_come_along(client, people, original):
    copy = copied(client, people, original)
    assert (copy.materials, copy.date_edtf, copy.date_latest) == ("linen", "1785~", original.date_latest)
    assert [tag.name for tag in copy.tags.all()] == ["Zug", "loan"]
    assert not copy.plates.exists()
    assert not copy.citations.exists()


def test_what_is_ticked_comes_along_with_rows_of_its_own(client, people, original):
    copy = copied(client, people, original, plates="on", citations="on", measures="on")
    plate = copy.plates.get()
    assert [piece.name for piece in plate.pieces.all()] == ["front", "back"]
    assert plate.seams.get().piece_a == plate.pieces.get(name="front")
    assert plate.pieces.get(name="front").by_line["bust"].reading_text == "1 1/8 in"
    assert plate.drawn_in_words.endswith("a proportional draft for half bust or chest 18 in")
    assert plate.pieces.get(name="back").by_line["bust"].is_plain
    assert copy.citations.get().pages == "7"
    assert copy.published_measures.get().value_text == "26 in"
    for model in (Plate, Piece, ReferenceGarment):
        assert model.objects.values("key").distinct().count() == model.objects.count()


def test_photographs_and_questions_stay_with_the_garment_they_are_of(client, people, original):
    copy = copied(client, people, original, plates="on")
    assert not copy.photos.exists()
    assert not copy.questions.exists()
    assert copy.plates.get().picture is None
    assert original.photos.count() == original.questions.count() == 1


def test_a_scan_and_its_tracing_stay_too_and_what_was_measured_comes(client, people, original):
    plate = copied(client, people, original, plates="on").plates.get()
    assert not PlateScan.objects.filter(plate=plate).exists()
    assert not TracedPiece.objects.filter(piece__plate=plate).exists()
    assert not plate.traced_levels.exists()
    assert plate.pieces.get(name="front").traced_readings.get().hand_text == "11/16 in"
    assert PlateScan.objects.get().plate.reference == original


def test_a_copy_is_found_by_its_words(client, people, original):
    assert "another bodice" in copied(client, people, original).index_card.name
