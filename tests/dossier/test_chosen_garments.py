"""A dossier of some garments: what one carries to a fitting of a gown is the sheet of the gown."""

import pytest

from catalogue.workroom.work.engine import do_in_turn, try_again
from fitting.comparing.actions import compare_garment
from fitting.dossier import actions
from fitting.dossier.calculation import SECTIONS
from fitting.dossier.loading.values import DossierValues, dossier_values
from fitting.dossier.models import Dossier
from fitting.dossier.showing.document import PdfNotPossible, html_of, print_dossier
from tests.makers.fittings import make_alteration, make_fitting, make_observation, make_trial
from tests.makers.rows import (
    NOON,
    make_bodice_plate,
    make_entry,
    make_garment,
    make_material,
    make_measures,
    make_outfit,
    make_wearer,
)


@pytest.fixture
def outfit(people, client):
    client.force_login(people.maker)
    wearer = make_wearer(people.workroom)
    outfit = make_outfit(people.workroom, wearer=wearer, maker=people.maker)
    make_garment(outfit, name="stays", order=1, stage="finished", is_boned=True)
    make_garment(outfit, name="gown", order=2, stage="toile", plate=make_bodice_plate(people.workroom))
    make_measures(wearer, {"waist": "25 in", "bust": "33 in"}).worn.add(outfit.garments.get(name="stays"))
    return outfit


@pytest.fixture
def gown(outfit):
    return outfit.garments.get(name="gown")


@pytest.fixture
def fitting(outfit, gown):
    fitting = make_fitting(outfit, present="Perrin, who laces", wear="own shoes", checks="how she sits")
    fitting.garments.set([gown])
    return fitting


def values_of(outfit, *sections, garments=()) -> DossierValues:
    keys = [garment.pk for garment in garments]
    given = {"paper": "A4", "system": "in", "by": None, "at": NOON, "garments": keys}
    return dossier_values(outfit, sections=sections, **given)


def test_for_a_fitting_the_sheets_of_its_garments_are_offered_and_nothing_else(client, outfit, gown, fitting):
    page = client.get(f"/outfits/{outfit.pk}/dossiers/add/?fitting={fitting.pk}")
    offered = page.context["form"].initial
    assert (offered["sections"], offered["garments"]) == (["garments"], [gown.pk])
    assert (
        f"/outfits/{outfit.pk}/dossiers/add/?fitting={fitting.pk}"
        in client.get(fitting.get_absolute_url()).text
    )


def test_the_garments_ticked_are_kept_and_all_of_them_are_said_by_naming_none(client, outfit, gown):
    chosen = {"sections": ["garments"], "paper": "A4", "system": "in"}
    client.post(f"/outfits/{outfit.pk}/dossiers/add/", {**chosen, "garments": [gown.pk]})
    some = Dossier.objects.get()
    assert list(some.garments.all()) == [gown]
    assert "Of gown only." in client.get(some.get_absolute_url()).text
    everything = [garment.pk for garment in outfit.garments.all()]
    client.post(f"/outfits/{outfit.pk}/dossiers/add/", {**chosen, "garments": everything})
    assert not Dossier.objects.first().garments.exists()


def test_without_a_garment_it_is_asked_for_one(client, outfit):
    chosen = {"sections": ["garments"], "paper": "A4", "system": "in"}
    form = client.post(f"/outfits/{outfit.pk}/dossiers/add/", chosen).context["form"]
    assert form.errors["garments"] == ["Tick at least one garment."]


def test_it_is_made_of_those_garments_from_the_first_try_to_the_last(people, outfit, gown, monkeypatch):
    given = {"sections": ["garments"], "paper": "A4", "system": "in", "by": people.maker, "at": NOON}
    dossier = actions.ask_for_dossier(outfit, garments=[gown], **given)
    printed = []

    def printing(values, *, told):
        printed.append([sheet.garment for sheet in values.sheets])
        raise PdfNotPossible("Pango is missing.")

    monkeypatch.setattr(actions, "print_dossier", printing)
    do_in_turn([dossier.work.pk])
    try_again(dossier.work, at=NOON)
    do_in_turn([dossier.work.pk])
    assert printed == [[gown], [gown]]


def test_it_tells_of_those_garments_and_of_the_order_of_dressing_as_a_whole(outfit, gown):
    stays = outfit.garments.get(name="stays")
    for garment in (stays, gown):
        make_entry(outfit, garment=garment, text=f"sewed the {garment}")
        make_material(outfit, garment=garment, name=f"cloth for the {garment}")
        make_trial(garment)
        seen = make_observation(make_fitting(outfit), garment=garment)
        make_alteration(garment, observation=seen)
    values = values_of(outfit, *SECTIONS, garments=[gown])
    assert [sheet.garment for sheet in values.sheets] == [gown]
    assert [one.garment for one in values.pages.dressed] == [stays, gown]
    assert [made.trial.garment for made in values.making.trials.trials] == [gown]
    assert [row.material.garment for row in values.making.materials.rows] == [gown]
    assert {entry.entry.garment for month in values.making.log.months for entry in month.entries} == {gown}
    seen = [one.observation.garment for held in values.making.fittings.fittings for one in held.seen]
    assert seen == [gown]
    assert [one.alteration.garment for one in values.making.fittings.outcomes] == [gown]


def test_a_fitting_of_one_gown_prints_one_sheet_that_says_where_and_what_to_wear(
    people, outfit, gown, fitting
):
    compare_garment(gown, by=people.maker, at=NOON)
    make_alteration(gown)
    values = values_of(outfit, "garments", garments=[gown])
    html = " ".join(html_of(values).split())
    assert "<b>Fitting</b> Friday 20 November 2026, 12:00, the loft; Perrin, who laces" in html
    assert "<b>Wear</b> stays; own shoes" in html
    assert "how she sits" in html
    assert "Order of dressing" not in html
    assert print_dossier(values).pages == 1
