"""Toiles and miniatures: seams that they settle, and how near they come to the forecast."""

import pytest

from catalogue.lengths.showing import Writing
from catalogue.plates.models.piece import Seam
from fitting.fittings.loading.trials import error_sentences, errors_of, forecasts
from fitting.fittings.models.trial import Trial
from tests.makers.cases import kept_answer
from tests.makers.fittings import make_trial
from tests.makers.rows import (
    make_bodice_plate,
    make_comparison,
    make_garment,
    make_outfit,
    make_route_choice,
    make_wearer,
    um,
)

IN = 25.4


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def garment(people):
    outfit = make_outfit(people.workroom, wearer=make_wearer(people.workroom), maker=people.maker)
    return make_garment(outfit, plate=make_bodice_plate(people.workroom), stage="toile")


def compared(garment, **fit):
    """A comparison whose waist would measure 26 in as drawn, 25 in as wanted."""
    results = kept_answer(waist={"garment_mm": 26 * IN, "wanted_mm": 25 * IN})
    return make_comparison(garment, results=results, inputs={"case": {"fit": fit}, "measures": {}})


def seam(garment, evidence: str) -> Seam:
    front, back = garment.plate.pieces.all()
    return Seam.objects.create(
        plate=garment.plate, piece_a=front, edge_a=evidence, piece_b=back, edge_b="side", evidence=evidence
    )


def test_seams_that_it_settled_count_as_tried_but_a_record_stays_a_record(maker, garment):
    seams = [seam(garment, evidence) for evidence in ("unknown", "inferred", "recorded")]
    sent = {
        "kind": "miniature",
        "made_on": "2026-11-08",
        "learnt": "It closes.",
        "seams": [one.pk for one in seams],
    }
    maker.post(f"/garments/{garment.pk}/trials/add/", sent)
    assert [one.evidence for one in garment.plate.seams.all()] == ["tried", "tried", "recorded"]
    assert Trial.objects.get().seams.count() == 3


@pytest.mark.parametrize(
    ("route", "fit", "expected_in"),
    [
        ("enlarge and alter", {}, 25),
        ("enlarge as drawn", {}, 26),
        ("enlarge and alter", {"waist": "loose"}, 26),
    ],
)
def test_the_forecast_is_what_is_wanted_or_what_is_drawn(garment, people, route, fit, expected_in):
    choice = make_route_choice(garment, route=route)
    (forecast,) = forecasts(compared(garment, **fit), choice, errors_of(people.maker))
    assert forecast.mm == pytest.approx(expected_in * IN)
    assert forecast.sewn_mm is None


def test_the_mean_error_of_three_lines_corrects_the_next_forecast(garment, people):
    measures = {
        "waist": ("26 in", "26 1/4 in"),
        "bust": ("33 in", "33 1/2 in"),
        "hip": ("40 in", "40 3/4 in"),
    }
    make_trial(garment, measures)
    (forecast,) = forecasts(compared(garment), None, errors_of(people.maker))
    assert forecast.mm == pytest.approx(25 * IN)
    assert forecast.sewn_mm == pytest.approx(25.5 * IN)


def test_another_makers_toiles_and_miniatures_say_nothing(garment, people):
    measures = {"waist": ("26 in", "27 in")}
    make_trial(garment, measures, kind="miniature")
    assert errors_of(people.maker).sewn == {}
    make_trial(garment, measures)
    assert errors_of(people.maker).sewn["girth"].count == 1
    assert errors_of(people.keeper).sewn == {}


def test_measures_are_typed_beside_their_forecast(maker, garment):
    compared(garment)
    page = maker.get(f"/garments/{garment.pk}/trials/add/")
    assert 'aria-label="waist, flat after sewing"' in page.content.decode()
    sent = {"kind": "toile", "made_on": "2026-11-08"}
    boxes = {"measure-forecast_waist": "25", "measure-sewn_waist": "25 1/4", "measure-fitted_waist": ""}
    answer = maker.post(f"/garments/{garment.pk}/trials/add/", sent | boxes, follow=True)
    row = Trial.objects.get().measures.get()
    assert (row.forecast_um, row.sewn_um, row.fitted_um) == (um("25 in"), um("25 1/4 in"), None)
    assert "+1/4 in" in answer.content.decode()


def test_a_measure_without_a_forecast_is_asked_about(maker, garment):
    compared(garment)
    sent = {"kind": "toile", "made_on": "2026-11-08", "measure-sewn_waist": "25 1/4"}
    page = maker.post(f"/garments/{garment.pk}/trials/add/", sent).content.decode()
    assert "Say what was forecast here." in page
    assert not Trial.objects.exists()


def test_the_errors_are_told_in_words(garment, people):
    make_trial(garment, dict.fromkeys(("waist", "bust", "hip"), ("30 in", "29 1/2 in")))
    assert error_sentences(errors_of(people.maker), Writing(system="in")) == [
        "Sewn, your toiles measured 1/2 in less than forecast on average (3 girths, ± 0 in)."
    ]
