"""Whatever is deleted goes into the bin whole, and comes back whole: rows, numbers, order, files."""

from datetime import timedelta

import pytest
from django.apps import apps
from django.core.management import call_command
from django.urls import reverse
from django.utils import timezone

from catalogue.plates.models.plate import Plate
from catalogue.workroom.actions.deletion import delete_for_a_while
from catalogue.workroom.files import is_there, names_in, put
from catalogue.workroom.kinds import KINDS
from catalogue.workroom.models import DeletedRow
from catalogue.workroom.work.models import Work
from fitting.comparing.actions import compare_garment
from fitting.fittings.models.alteration import Alteration
from fitting.fittings.models.session import Fitting, Observation, ObservationPhoto
from fitting.fittings.models.trial import Trial
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.log import LogEntry, LogPhoto
from fitting.outfits.models.material import Material
from fitting.outfits.models.outfit import Outfit
from fitting.outfits.models.pattern import PatternInHand
from fitting.planning.models import Task
from fitting.wearers.models import Measures, Stand
from tests.makers.fittings import (
    make_alteration,
    make_fitting,
    make_observation,
    make_observation_photo,
    make_trial,
)
from tests.makers.full_workroom import fill_workroom
from tests.makers.rows import (
    NOON,
    make_bodice_plate,
    make_dossier,
    make_entry,
    make_garment,
    make_log_photo,
    make_material,
    make_measures,
    make_outfit,
    make_stand,
    make_wearer,
)


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def outfit(people, data_folder) -> Outfit:
    """Three garments, the middle one fitted, compared, measured over and logged."""
    wearer = make_wearer(people.workroom)
    outfit = make_outfit(people.workroom, wearer=wearer)
    shift, stays, gown = (
        make_garment(outfit, name=name, order=order)
        for order, name in enumerate(("shift", "stays", "gown"), start=1)
    )
    measures = make_measures(wearer, {"waist": "25 in", "bust": "33 in"})
    measures.worn.add(shift)
    stays.plate, stays.measures = make_bodice_plate(people.workroom), measures
    stays.save()
    Garment.objects.filter(pk=gown.pk).update(measures=measures)
    compare_garment(stays, by=people.maker, at=NOON)
    dossier = make_dossier(outfit, file_name="outfit.pdf")
    dossier.garments.add(stays)
    put(dossier.file, b"%PDF-")
    fitting = make_fitting(outfit, measures=measures)
    observation = make_observation(fitting, garment=stays)
    make_observation_photo(observation)
    make_alteration(stays, observation=observation)
    make_trial(stays, {"waist": ("26 in", "26 1/4 in")})
    make_material(outfit, garment=stays)
    task = Task.objects.create(outfit=outfit, garment=stays, name="eyelets")
    Task.objects.create(outfit=outfit, garment=gown, name="hem").waits_for.add(task)
    put(make_log_photo(make_entry(outfit, garment=stays, task=task)).file(960), b"picture")
    PatternInHand.objects.create(workroom=people.workroom, name="Corset 9").changes.create(what="longer")
    stand = make_stand(people.workroom)
    Garment.objects.filter(pk=gown.pk).update(stand=stand)
    return outfit


def all_rows() -> dict[str, list]:
    """Every row of every kind as it stands in its table, but for when it was written last."""
    at = {"changed_at"}
    return {
        model._meta.label: [
            {name: value for name, value in row.items() if name not in at}
            for row in model._base_manager.order_by("pk").values()
        ]
        for model in apps.get_models()
        if model in KINDS or model is Work or model._meta.auto_created
    }


DELETED = {
    "outfit": Outfit,
    "garment": Garment,
    "fitting": Fitting,
    "observation": Observation,
    "observation-photo": ObservationPhoto,
    "alteration": Alteration,
    "trial": Trial,
    "log": LogEntry,
    "log-photo": LogPhoto,
    "material": Material,
    "task": Task,
    "dossier": apps.get_model("fitting", "Dossier"),
    "pattern": PatternInHand,
    "measures": Measures,
    "stand": Stand,
}


@pytest.mark.parametrize("word", DELETED)
def test_it_comes_back_with_all_that_went_under_the_same_numbers(maker, outfit, word):
    rows = DELETED[word].objects.order_by("pk")
    row = rows.get(name="stays") if DELETED[word] is Garment else rows.first()
    before, files = all_rows(), names_in("")
    address = reverse(f"{word}-delete", args=[row.pk])
    assert "Recently deleted" in maker.get(address).content.decode()
    answer = maker.post(address, follow=True)
    assert "Bring it back" in answer.content.decode()
    assert all_rows() != before
    assert names_in("") == files
    answer = maker.post(reverse("deleted-restore", args=[DeletedRow.objects.get().pk]), follow=True)
    assert "is back" in answer.content.decode()
    assert all_rows() == before
    assert not DeletedRow.objects.exists()


def test_a_garment_comes_back_to_its_place_in_the_dressing_order(maker, outfit):
    stays = outfit.garments.get(name="stays")
    maker.post(reverse("garment-delete", args=[stays.pk]))
    assert list(outfit.garments.values_list("order", "name")) == [(1, "shift"), (2, "gown")]
    make_garment(outfit, name="apron", order=3)
    maker.post(reverse("deleted-restore", args=[DeletedRow.objects.get().pk]))
    placed = list(outfit.garments.values_list("order", "name"))
    assert placed == [(1, "shift"), (2, "stays"), (3, "gown"), (4, "apron")]


def test_a_scan_takes_along_what_was_traced_on_it_and_says_so(maker, people):
    fill_workroom(people.workroom)
    page = maker.get(reverse("scan-delete", args=[Plate.objects.get().pk])).content.decode()
    for what in ("2 calibrations", "1 traced outline", "1 traced level", "its file"):
        assert f"<li>{what}</li>" in page


def test_what_was_done_in_cloth_stays_and_is_of_its_fitting_again(maker, outfit):
    done = Alteration.objects.get()
    done.parts.update(done_on=NOON.date())
    fitting, before = outfit.fittings.get(), all_rows()
    page = maker.get(reverse("fitting-delete", args=[fitting.pk])).content.decode()
    assert "1 observation" in page
    assert "1 alteration" not in page
    maker.post(reverse("fitting-delete", args=[fitting.pk]))
    done.refresh_from_db()
    assert done.observation is None
    maker.post(reverse("deleted-restore", args=[DeletedRow.objects.get().pk]))
    assert all_rows() == before


def test_what_stood_in_what_is_deleted_too_says_what_to_bring_back_first(maker, outfit):
    fitting = outfit.fittings.get()
    maker.post(reverse("fitting-delete", args=[fitting.pk]))
    waiting = DeletedRow.objects.get()
    maker.post(reverse("outfit-delete", args=[outfit.pk]))
    answer = maker.post(reverse("deleted-restore", args=[waiting.pk]), follow=True)
    assert f"It belonged to “{outfit}”, which is deleted as well: bring that back first." in (
        answer.content.decode()
    )
    whole = DeletedRow.objects.exclude(pk=waiting.pk).get()
    maker.post(reverse("deleted-restore", args=[whole.pk]))
    maker.post(reverse("deleted-restore", args=[waiting.pk]))
    assert outfit.fittings.get().observations.get().photos.count() == 1


def test_what_stood_in_what_is_gone_for_good_says_so(maker, outfit):
    maker.post(reverse("fitting-delete", args=[outfit.fittings.get().pk]))
    outfit.delete()
    answer = maker.post(reverse("deleted-restore", args=[DeletedRow.objects.get().pk]), follow=True)
    assert "gone for good, so it cannot come back" in answer.content.decode()
    assert DeletedRow.objects.count() == 1


def test_a_part_whose_ground_lies_in_the_bin_waits_there_for_it(maker, outfit, people):
    """The fitting is thrown away, then the garment that was fitted: each takes what stood in it."""
    before = all_rows()
    fitting = delete_for_a_while(row=outfit.fittings.get(), by=people.maker)
    garment = delete_for_a_while(row=outfit.garments.get(name="stays"), by=people.maker)
    maker.post(reverse("deleted-restore", args=[fitting.pk]))
    assert outfit.fittings.get().observations.count() == 0
    maker.post(reverse("deleted-restore", args=[garment.pk]))
    rest = DeletedRow.objects.get()
    assert rest.name.endswith(": the rest")
    maker.post(reverse("deleted-restore", args=[rest.pk]))
    assert not DeletedRow.objects.exists()
    assert all_rows() == before


@pytest.mark.parametrize("deleted", ["the plate first", "the garment first"])
@pytest.mark.parametrize("back", ["the plate first", "the garment first"])
def test_a_garment_and_its_plate_find_each_other_again_in_any_order(maker, outfit, people, deleted, back):
    before, stays = all_rows(), outfit.garments.get(name="stays")
    rows = [stays, stays.plate] if deleted == "the garment first" else [stays.plate, stays]
    of = {
        type(row): delete_for_a_while(row=type(row).objects.get(pk=row.pk), by=people.maker) for row in rows
    }
    for model in (Garment, Plate) if back == "the garment first" else (Plate, Garment):
        maker.post(reverse("deleted-restore", args=[of[model].pk]))
    assert all_rows() == before
    assert not DeletedRow.objects.exists()


def test_a_place_that_was_taken_meanwhile_is_named_and_nothing_is_lost(maker, outfit):
    observation = Observation.objects.get()
    maker.post(reverse("observation-delete", args=[observation.pk]))
    # A phone sends again what it kept.
    make_observation(outfit.fittings.get(), client_key=observation.client_key)
    answer = maker.post(reverse("deleted-restore", args=[DeletedRow.objects.get().pk]), follow=True)
    assert "What was made meanwhile has its place" in answer.content.decode()
    assert DeletedRow.objects.count() == 1


def test_after_thirty_days_the_sweep_takes_rows_and_files(
    maker, outfit, people, data_folder, django_capture_on_commit_callbacks
):
    delete_for_a_while(row=outfit, by=people.maker)
    with django_capture_on_commit_callbacks(execute=True):
        call_command("sweep")
    assert is_there("dossiers/outfit.pdf")
    DeletedRow.objects.update(created_at=timezone.now() - timedelta(days=31))
    with django_capture_on_commit_callbacks(execute=True):
        call_command("sweep")
    assert not DeletedRow.objects.exists()
    assert not [name for name in names_in("") if not name.startswith("photos/")]
