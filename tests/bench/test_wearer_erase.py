"""A person erased is gone: from every row, from the bytes of the database, from the printed files."""

import json

import pytest
from django.apps import apps
from django.db import connection
from django.db.models import CASCADE
from django.http import HttpResponse

from catalogue.workroom.files import is_there, put
from fitting.bench import actions
from fitting.comparing.models import Comparison
from fitting.dossier.models import Dossier
from fitting.fittings.models.alteration import Alteration
from fitting.fittings.models.session import Fitting, ObservationPhoto
from fitting.fittings.models.trial import Trial, TrialMeasure
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.log import LogPhoto
from fitting.outfits.models.outfit import Outfit
from fitting.outfits.models.share import Share
from fitting.wearers.models import Wearer
from tests.makers.cases import kept_answer
from tests.makers.fittings import (
    make_alteration,
    make_fitting,
    make_observation,
    make_observation_photo,
    make_shared,
    make_trial,
)
from tests.makers.rows import (
    make_comparison,
    make_dossier,
    make_entry,
    make_garment,
    make_log_photo,
    make_measures,
    make_outfit,
    make_route_choice,
    make_wearer,
)

NAME, WAIST, BODY_MM = "Quirina Vossen", "27 13/32 in", 696.1234


def make_everything(people, data_folder) -> tuple[Wearer, Dossier]:
    wearer = make_wearer(people.workroom, name=NAME)
    make_measures(wearer, {"waist": WAIST}, notes=f"taken of {NAME}")
    garment = make_garment(make_outfit(people.workroom, wearer=wearer))
    comparison = make_comparison(
        garment,
        inputs={"measures": {"girths": {"waist": WAIST}}},
        results=kept_answer(waist={"body_mm": BODY_MM}),
    )
    make_route_choice(garment, comparison=comparison)
    kept = {"measures": {"over stays": {"mm": {"waist": BODY_MM}}}}
    dossier = make_dossier(garment.outfit, file_name="fitting.pdf", snapshot=kept)
    put(dossier.file, f"%PDF {NAME} {WAIST}".encode())
    make_fitted(garment)
    return wearer, dossier


def make_fitted(garment: Garment) -> None:
    """A fitting, a toile and a log with a picture of the person; the files hold the name, to be found by."""
    fitting = make_fitting(garment.outfit, notes=f"{NAME} was tired")
    observation = make_observation(fitting, note=f"{WAIST} over the toile, {NAME} says")
    make_observation_photo(observation, content=NAME.encode())
    make_alteration(garment, observation=observation, note=f"to {WAIST}")
    make_trial(garment, {"waist": (WAIST, WAIST)})
    photo = make_log_photo(
        make_entry(garment.outfit, text="Fitted."), shows_wearer=True, caption=f"{NAME} turning"
    )
    LogPhoto.objects.update(wearer=garment.outfit.wearer)
    put(photo.file(960), NAME.encode())
    make_shared(garment.outfit, entries=[photo.entry], photos=[photo])


def everything_kept() -> str:
    rows = (row for model in apps.get_models() for row in model._default_manager.values())
    return json.dumps(list(rows), default=str, ensure_ascii=False)


def bytes_kept() -> bytes:
    """SQLite's own file, free pages and all. PostgreSQL's are out of reach: there, its rows."""
    return connection.connection.serialize() if connection.vendor == "sqlite" else everything_kept().encode()


@pytest.fixture
def keeper(client, people):
    client.force_login(people.keeper)
    return client


@pytest.fixture
def erase(keeper, monkeypatch, django_capture_on_commit_callbacks):
    """Have the wearer erased, with all that follows once it is sure; a test holds the journal open."""
    monkeypatch.setattr(actions, "_empty_the_journal", lambda: None)

    def erase(wearer: Wearer) -> HttpResponse:
        with django_capture_on_commit_callbacks(execute=True):
            return keeper.post(f"/wearers/{wearer.pk}/erase/", {"name": NAME})

    return erase


def test_nothing_is_left_of_the_name_or_the_figures(erase, people, data_folder):
    wearer, dossier = make_everything(people, data_folder)
    for trace in (NAME, WAIST, str(BODY_MM)):
        assert trace in everything_kept()
    answer = erase(wearer)
    assert answer["Location"] == "/wearers/"
    kept = everything_kept()
    for trace in (NAME, WAIST, str(BODY_MM)):
        assert trace not in kept
    assert not is_there(dossier.file)
    assert not any(NAME.encode() in file.read_bytes() for file in data_folder.rglob("*") if file.is_file())


@pytest.mark.django_db(transaction=True)
def test_nothing_is_left_in_the_bytes_of_the_database(keeper, people, data_folder):
    wearer, _ = make_everything(people, data_folder)
    assert NAME.encode() in bytes_kept()
    keeper.post(f"/wearers/{wearer.pk}/erase/", {"name": NAME})
    held = bytes_kept()
    for trace in (NAME, WAIST, str(BODY_MM)):
        assert trace.encode() not in held


def test_the_outfit_keeps_its_garments_and_loses_the_person(erase, people, data_folder):
    wearer, _ = make_everything(people, data_folder)
    erase(wearer)
    outfit = Outfit.objects.get()
    assert outfit.wearer is None
    assert outfit.garments.count() == 1
    assert Garment.objects.get().route_choices.get().comparison is None
    assert not Comparison.objects.exists()


def test_a_dossier_printed_before_the_outfit_was_given_to_another_goes_too(erase, people, data_folder):
    wearer, dossier = make_everything(people, data_folder)
    other = make_wearer(people.workroom, name="Other")
    Outfit.objects.update(wearer=other)
    Dossier.objects.update(wearer=other)
    erase(wearer)
    assert not Dossier.objects.exists()
    assert not is_there(dossier.file)


@pytest.mark.parametrize("seen", ["at a fitting", "in the log"])
def test_a_dossier_with_what_was_seen_of_them_goes_whoever_it_was_printed_for(
    erase, people, data_folder, seen
):
    wearer, other = make_wearer(people.workroom, name=NAME), make_wearer(people.workroom, name="Other")
    outfit = make_theirs(other)
    if seen == "at a fitting":
        make_fitting(outfit, wearer=wearer)
    else:
        make_log_photo(make_entry(outfit), shows_wearer=True, wearer=wearer)
    make_dossier(outfit)
    theirs = make_dossier(make_theirs(other))
    erase(wearer)
    assert list(Dossier.objects.all()) == [theirs]


def test_what_was_seen_and_pinned_goes_and_the_garment_and_its_trial_stay(erase, people, data_folder):
    wearer, _ = make_everything(people, data_folder)
    erase(wearer)
    for gone in (Fitting, ObservationPhoto, Alteration, TrialMeasure, LogPhoto, Share):
        assert not gone.objects.exists(), gone
    assert Trial.objects.count() == Garment.objects.count() == 1


def test_what_was_seen_on_them_goes_though_the_outfit_is_for_another_now(erase, people, data_folder):
    wearer, _ = make_everything(people, data_folder)
    Outfit.objects.update(wearer=make_wearer(people.workroom, name="Other"))
    erase(wearer)
    for gone in (Fitting, ObservationPhoto, Alteration, TrialMeasure, LogPhoto):
        assert not gone.objects.exists(), gone


def test_what_was_seen_before_the_outfit_named_anybody_is_the_present_wearers(erase, people, data_folder):
    wearer, _ = make_everything(people, data_folder)
    for model in (Fitting, Alteration, TrialMeasure, LogPhoto):
        model.objects.update(wearer=None)
    erase(wearer)
    for gone in (Fitting, Alteration, TrialMeasure, LogPhoto):
        assert not gone.objects.exists(), gone
    assert not any(NAME.encode() in file.read_bytes() for file in data_folder.rglob("*") if file.is_file())


def test_another_persons_figures_stay(erase, people, data_folder):
    wearer, _ = make_everything(people, data_folder)
    other = make_wearer(people.workroom, name="Other")
    make_measures(other)
    make_dossier(make_outfit(people.workroom, wearer=other))
    theirs = make_observation_photo(make_observation(make_fitting(make_theirs(other))))
    erase(wearer)
    assert list(Wearer.objects.all()) == [other]
    assert other.measures.count() == other.dossiers.count() == 1
    assert is_there(theirs.file(960))
    assert list(Fitting.objects.all()) == list(other.fittings.all())


def make_theirs(wearer: Wearer) -> Outfit:
    """An outfit of theirs with something to fit."""
    return make_garment(make_outfit(wearer.workroom, wearer=wearer)).outfit


def test_the_page_lists_what_goes_and_where_the_name_stands_besides(keeper, people, data_folder):
    wearer, _ = make_everything(people, data_folder)
    ball_gown = make_outfit(people.workroom, name=f"Ball gown of {NAME}")
    make_entry(ball_gown, text=f"Hemmed it. {NAME} will call.")
    make_trial(make_garment(ball_gown, name="train"), learnt=f"{NAME} steps on it.")
    page = keeper.get(f"/wearers/{wearer.pk}/erase/").content.decode()
    for told in (
        "over stays or corset, 2 November 2026",
        "Comparison of bodice",
        "1 dossier",
        "Ball gown of",
        "train",
    ):
        assert told in page
    assert Wearer.objects.filter(pk=wearer.pk).exists()


@pytest.mark.parametrize("typed", ["", "Quirina", "another"])
def test_the_wrong_name_erases_nobody(keeper, people, data_folder, typed):
    wearer, _ = make_everything(people, data_folder)
    answer = keeper.post(f"/wearers/{wearer.pk}/erase/", {"name": typed})
    assert "name" in answer.context["form"].errors
    assert Wearer.objects.filter(pk=wearer.pk).exists()


def test_a_maker_does_not_erase(client, people, data_folder):
    wearer, _ = make_everything(people, data_folder)
    client.force_login(people.maker)
    assert client.post(f"/wearers/{wearer.pk}/erase/", {"name": NAME}).status_code == 403
    assert Wearer.objects.filter(pk=wearer.pk).exists()


def test_whatever_names_a_person_goes_with_them_but_for_the_outfit():
    keeping = {
        model
        for model in apps.get_app_config("fitting").get_models()
        for field in model._meta.concrete_fields
        if field.related_model is Wearer and field.remote_field.on_delete is not CASCADE
    }
    assert keeping == {Outfit}
