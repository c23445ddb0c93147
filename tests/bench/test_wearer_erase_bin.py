"""Erasing a person goes past the bin, and empties what the bin holds of them: rows, files, words."""

import io
import json
from datetime import timedelta
from zipfile import ZipFile

import pytest
from django.db import connection
from django.urls import reverse

from catalogue.workroom.actions.deletion import bring_back, delete_for_a_while
from catalogue.workroom.files import is_there, put
from catalogue.workroom.index.filing import file_references
from catalogue.workroom.models import DeletedRow
from fitting.bench import actions
from fitting.dossier.models import Dossier
from fitting.fittings.models.session import Fitting
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.log import LogPhoto
from fitting.outfits.models.outfit import Outfit
from fitting.wearers.models import Measures, Wearer
from tests.makers.cases import kept_answer
from tests.makers.fittings import (
    make_alteration,
    make_fitting,
    make_observation,
    make_observation_photo,
    make_trial,
)
from tests.makers.kept_work import make_lay, make_work_note
from tests.makers.rows import (
    NOON,
    make_comparison,
    make_dossier,
    make_entry,
    make_garment,
    make_log_photo,
    make_measures,
    make_outfit,
    make_reference,
    make_wearer,
)

# By hand: 27 13/32 in × 25.4 = 696.11875 mm, which a row keeps as 696 119 µm.
NAME, WAIST, WAIST_UM, BODY_MM = "Quirina Vossen", "27 13/32 in", "696119", 696.11875

TRACES = (NAME.casefold(), WAIST, WAIST_UM, str(BODY_MM))


@pytest.fixture
def keeper(client, people):
    client.force_login(people.keeper)
    return client


@pytest.fixture
def outfit(people, data_folder) -> Outfit:
    """Of the person, with something of every kind that is theirs; each of its files holds their name."""
    wearer = make_wearer(people.workroom, name=NAME)
    make_measures(wearer, {"waist": WAIST}, notes=f"of {NAME}")
    garment = make_garment(make_outfit(people.workroom, name="Ball gown", wearer=wearer))
    make_comparison(garment, results=kept_answer(waist={"body_mm": BODY_MM}))
    dossier = make_dossier(garment.outfit, file_name="gown.pdf", snapshot={"waist": BODY_MM})
    put(dossier.file, f"%PDF {NAME}".encode())
    make_lay(garment, {"step": NAME})
    make_work_note(garment, inputs={"waist": WAIST})
    observation = make_observation(make_fitting(garment.outfit), note=f"{WAIST}, says {NAME}")
    make_observation_photo(observation, content=NAME.encode())
    make_alteration(garment, observation=observation, note=f"to {WAIST}")
    make_trial(garment, {"waist": (WAIST, WAIST)})
    file_references([make_reference(people.workroom, materials=f"linen of {NAME}").pk])
    photo = make_log_photo(make_entry(garment.outfit), shows_wearer=True, wearer=wearer, caption=NAME)
    put(photo.file(960), NAME.encode())
    return garment.outfit


def everything_in_the_tables() -> str:
    """Every row of every table of the database, whether a model knows it or not."""
    with connection.cursor() as cursor:
        found = []
        for table in connection.introspection.table_names(cursor):
            cursor.execute(f"SELECT * FROM {connection.ops.quote_name(table)}")  # noqa: S608, its own names
            found += cursor.fetchall()
    # An index card holds its words folded.
    return json.dumps(found, default=str, ensure_ascii=False).casefold()


@pytest.fixture
def erase(keeper, monkeypatch, django_capture_on_commit_callbacks):
    """Have the wearer erased, with all that follows once it is sure; a test holds the journal open."""
    monkeypatch.setattr(actions, "_empty_the_journal", lambda: None)

    def erase(wearer: Wearer) -> None:
        with django_capture_on_commit_callbacks(execute=True):
            assert keeper.post(reverse("wearer-erase", args=[wearer.pk]), {"name": NAME}).status_code == 302

    return erase


THROWN_AWAY = {
    "nothing": lambda outfit: [],
    "the outfit": lambda outfit: [outfit],
    "the garment": lambda outfit: [outfit.garments.get()],
    "the fitting": lambda outfit: [outfit.fittings.get()],
    "what was seen": lambda outfit: [outfit.fittings.get().observations.get()],
    "the entry and the dossier": lambda outfit: [outfit.log.get(), outfit.dossiers.get()],
    "the measures": lambda outfit: [outfit.wearer.measures.get()],
    "the fitting, then the outfit": lambda outfit: [outfit.fittings.get(), outfit],
}


@pytest.mark.parametrize("what", THROWN_AWAY)
def test_nothing_is_left_wherever_it_lay(erase, people, outfit, data_folder, what):
    for row in THROWN_AWAY[what](outfit):
        delete_for_a_while(row=row, by=people.maker)
    before = everything_in_the_tables()
    for trace in TRACES:
        assert trace in before
    erase(outfit.wearer)
    after = everything_in_the_tables()
    for trace in TRACES:
        assert trace not in after
    assert not any(NAME.encode() in file.read_bytes() for file in data_folder.rglob("*") if file.is_file())


def test_an_outfit_thrown_away_comes_back_for_nobody_with_its_garments(erase, people, outfit):
    deleted = delete_for_a_while(row=outfit, by=people.maker)
    erase(outfit.wearer)
    deleted.refresh_from_db()
    assert bring_back(deleted=deleted) == Outfit.objects.get()
    assert Outfit.objects.get().wearer is None
    assert Garment.objects.get().trials.get().measures.count() == 0
    assert Outfit.objects.get().log.count() == 1
    for gone in (Fitting, Dossier, LogPhoto, Measures):
        assert not gone.objects.exists(), gone


def test_another_persons_stay_in_the_bin(erase, people, outfit):
    other = make_wearer(people.workroom, name="Other")
    garment = make_garment(make_outfit(people.workroom, name="Coat", wearer=other))
    photo = make_observation_photo(make_observation(make_fitting(garment.outfit)))
    theirs = delete_for_a_while(row=garment.outfit, by=people.maker)
    erase(outfit.wearer)
    theirs.refresh_from_db()
    bring_back(deleted=theirs)
    assert is_there(photo.file(960))
    assert Fitting.objects.get().observations.get().photos.get() == photo


def test_a_row_that_names_nobody_is_that_of_whom_its_outfit_is_for_in_the_bin_too(erase, people, outfit):
    Fitting.objects.update(wearer=None)
    LogPhoto.objects.update(wearer=None)
    delete_for_a_while(row=outfit.fittings.get(), by=people.maker)
    delete_for_a_while(row=outfit, by=people.maker)
    erase(outfit.wearer)
    assert NAME.casefold() not in everything_in_the_tables()
    assert [one.name for one in DeletedRow.objects.all()] == ["Ball gown"]


def test_a_dossier_is_of_whoever_the_bin_holds_a_fitting_of(erase, people, outfit):
    other = make_wearer(people.workroom, name="Other")
    coat = make_garment(make_outfit(people.workroom, name="Coat", wearer=other)).outfit
    fitting = make_fitting(coat, wearer=outfit.wearer)
    make_dossier(coat)
    delete_for_a_while(row=fitting, by=people.maker)
    erase(outfit.wearer)
    assert not Dossier.objects.exists()


def test_the_page_says_what_the_bin_gives_up(keeper, people, outfit):
    delete_for_a_while(row=outfit.fittings.get(), by=people.maker)
    other = make_outfit(people.workroom, name="Cloak", wearer=outfit.wearer)
    delete_for_a_while(row=other, by=people.maker)
    page = keeper.get(reverse("wearer-erase", args=[outfit.wearer_id])).content.decode()
    assert "What was deleted of late" in page
    assert "Fitting of Ball gown" in page
    assert "Cloak: what is theirs of it" in page
    assert "It goes as a whole" not in page


def test_the_record_holds_what_the_bin_holds(keeper, people, outfit):
    wearer, photo = outfit.wearer, outfit.fittings.get().observations.get().photos.get()
    delete_for_a_while(row=outfit.fittings.get(), by=people.maker)
    record = json.loads(keeper.get(reverse("wearer-export", args=[wearer.pk])).content)
    assert record["fittings"] == []
    assert f"{WAIST}, says {NAME}" in [one.get("note") for one in record["recently_deleted"]]
    sent = b"".join(keeper.get(reverse("wearer-photographs", args=[wearer.pk])))
    assert photo.file_name(2000) in ZipFile(io.BytesIO(sent)).namelist()


def test_a_reader_sees_nothing_of_the_bin(client, people, outfit):
    deleted = delete_for_a_while(row=outfit.fittings.get(), by=people.maker)
    client.force_login(people.reader)
    assert client.get(reverse("deleted-list")).status_code == 403
    assert client.post(reverse("deleted-restore", args=[deleted.pk])).status_code == 403
    assert client.get(reverse("deleted-forget", args=[deleted.pk])).status_code == 403
    DeletedRow.objects.update(created_at=NOON - timedelta(days=1))
    assert "Fitting of" not in client.get(reverse("home")).content.decode()
