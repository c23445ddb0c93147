"""What is deleted can come back for thirty days as it was, with all that went and all that pointed to it."""

import datetime
import io

import pytest
from django.core.management import call_command
from django.urls import reverse
from django.utils import timezone

from catalogue.finding.models import IndexCard
from catalogue.photographs.models import Photo
from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.references.models.garment import ReferenceGarment
from catalogue.sources.models import Source
from catalogue.workroom.actions.deletion import delete_for_a_while, sweep
from catalogue.workroom.archive.packing import write_archive
from catalogue.workroom.files import is_there
from catalogue.workroom.models import DeletedRow
from fitting.outfits.models.garment import GarmentReference
from tests.makers.full_workroom import fill_workroom
from tests.makers.packing import document
from tests.makers.rows import NOON, make_garment, make_outfit


@pytest.fixture
def ours(people):
    return fill_workroom(people.workroom)


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def said(workroom) -> dict:
    write_archive(workroom, file := io.BytesIO(), at=NOON, personal=True)
    return document(file)


WHAT = {
    "reference": ReferenceGarment,
    "plate": Plate,
    "piece": Piece,
    "photo": Photo,
    # Its address is that of its plate.
    "scan": Plate,
}


@pytest.mark.parametrize("word", WHAT)
def test_it_goes_and_comes_back_as_it_was(ours, maker, word):
    row, before = WHAT[word].objects.order_by("pk").first(), said(ours)
    answer = maker.post(reverse(f"{word}-delete", args=[row.pk]), follow=True)
    assert "Bring it back" in answer.content.decode()
    assert said(ours) != before
    maker.post(reverse("deleted-restore", args=[DeletedRow.objects.get().pk]))
    assert said(ours) == before
    assert not DeletedRow.objects.exists()


def test_a_source_comes_back_with_the_plates_and_photographs_that_named_it(ours, maker):
    source, before = Source.objects.get(), None
    source.citations.all().delete()
    before = said(ours)
    maker.post(reverse("source-delete", args=[source.pk]))
    assert Plate.objects.get().source is None
    maker.post(reverse("deleted-restore", args=[DeletedRow.objects.get().pk]))
    assert said(ours) == before


def test_an_outfit_draws_on_it_again(ours, people, maker):
    reference = ours.references.get(name="back-laced bodice")
    garment = make_garment(make_outfit(people.workroom), plate=reference.plates.get())
    GarmentReference.objects.create(garment=garment, reference=reference, what_for="the back")
    maker.post(reverse("reference-delete", args=[reference.pk]))
    garment.refresh_from_db()
    assert garment.plate is None
    maker.post(reverse("deleted-restore", args=[DeletedRow.objects.get().pk]))
    garment.refresh_from_db()
    assert garment.plate.reference == reference
    assert garment.references.get().what_for == "the back"


def test_it_is_found_by_its_words_again(ours, maker):
    reference = ours.references.get(name="back-laced bodice")
    maker.post(reverse("reference-delete", args=[reference.pk]))
    assert not IndexCard.objects.filter(reference=reference.pk).exists()
    maker.post(reverse("deleted-restore", args=[DeletedRow.objects.get().pk]))
    assert reference.full_size_measures.exists()
    assert "linen" in IndexCard.objects.get(reference=reference).materials


def test_a_tag_that_was_forgotten_meanwhile_is_made_again(ours, maker):
    reference = ours.references.get(name="back-laced bodice")
    maker.post(reverse("reference-delete", args=[reference.pk]))
    ours.tags.all().delete()
    maker.post(reverse("deleted-restore", args=[DeletedRow.objects.get().pk]))
    assert [tag.name for tag in reference.tags.all()] == ["Zug", "loan"]


def test_what_lost_its_own_ground_stays_away_and_the_rest_comes(ours, maker):
    reference = ours.references.get(name="back-laced bodice")
    maker.post(reverse("reference-delete", args=[reference.pk]))
    Source.objects.all().delete()
    maker.post(reverse("deleted-restore", args=[DeletedRow.objects.get().pk]))
    assert reference.plates.get().source is None
    assert not reference.citations.exists()


def test_a_citation_waits_for_a_source_that_lies_in_the_bin_too(ours, people, maker):
    before = said(ours)
    reference = ours.references.get(name="back-laced bodice")
    garment = delete_for_a_while(row=reference, by=people.maker)
    source = delete_for_a_while(row=Source.objects.get(), by=people.maker)
    maker.post(reverse("deleted-restore", args=[garment.pk]))
    assert not ours.references.get(name="back-laced bodice").citations.exists()
    for waiting in (source, garment):
        maker.post(reverse("deleted-restore", args=[waiting.pk]))
    assert said(ours) == before
    assert not DeletedRow.objects.exists()


def test_a_plate_waits_for_its_garment(ours, people, maker):
    plate = Plate.objects.get()
    maker.post(reverse("plate-delete", args=[plate.pk]))
    waiting = DeletedRow.objects.get()
    maker.post(reverse("reference-delete", args=[plate.reference_id]))
    answer = maker.post(reverse("deleted-restore", args=[waiting.pk]), follow=True)
    assert "bring that back first" in answer.content.decode()
    maker.post(reverse("deleted-restore", args=[DeletedRow.objects.exclude(pk=waiting.pk).get().pk]))
    maker.post(reverse("deleted-restore", args=[waiting.pk]))
    assert Plate.objects.get() == plate


def test_after_thirty_days_it_is_gone_for_good_with_its_files(
    ours, people, data_folder, django_capture_on_commit_callbacks
):
    photo = Photo.objects.get()
    deleted = delete_for_a_while(row=photo, by=people.maker)
    assert is_there(photo.best_file())
    later = timezone.now() + datetime.timedelta(days=31)
    with django_capture_on_commit_callbacks(execute=True):
        assert sweep(at=timezone.now()) == 0
        assert sweep(at=later) == 1
    assert not DeletedRow.objects.filter(pk=deleted.pk).exists()
    assert not list(data_folder.rglob(f"*{photo.stem}*"))


def test_a_keeper_can_delete_it_for_good_at_once(ours, people, client, django_capture_on_commit_callbacks):
    photo = Photo.objects.get()
    deleted = delete_for_a_while(row=photo, by=people.maker)
    client.force_login(people.keeper)
    with django_capture_on_commit_callbacks(execute=True):
        client.post(reverse("deleted-forget", args=[deleted.pk]))
    assert photo.best_file() is None


def test_the_list_of_what_was_deleted_asks_as_often_for_fifty_as_for_one(
    ours, people, maker, django_assert_max_num_queries
):
    for number in range(50):
        reference = ours.references.create(name=f"garment {number}")
        delete_for_a_while(row=reference, by=people.maker)
    with django_assert_max_num_queries(8):
        assert "garment 49" in maker.get(reverse("deleted-list")).content.decode()


def test_the_command_says_how_much_is_gone_for_good(ours, people, capsys):
    delete_for_a_while(row=ours.references.get(name="second bodice"), by=people.maker)
    call_command("sweep")
    assert DeletedRow.objects.exists()
    DeletedRow.objects.update(created_at=timezone.now() - datetime.timedelta(days=31))
    call_command("sweep")
    assert capsys.readouterr().out == "Gone for good: 1.\n"
    assert not DeletedRow.objects.exists()
