"""The values of a dossier: what a maker is told, before it is set in type."""

from datetime import timedelta

import pytest

from catalogue.plates.models.piece import Seam
from fitting.comparing.actions import compare_garment
from fitting.dossier.calculation import SECTIONS, USUAL
from fitting.dossier.loading.values import DossierValues, dossier_values
from fitting.dossier.showing.document import html_of
from tests.makers.rows import (
    NOON,
    make_bodice_plate,
    make_garment,
    make_measures,
    make_outfit,
    make_reference,
    make_route_choice,
    make_wearer,
    um,
)


@pytest.fixture
def outfit(people):
    """A shift, and over it a bodice compared with what was taken over stays."""
    wearer = make_wearer(people.workroom)
    outfit = make_outfit(people.workroom, wearer=wearer, maker=people.maker)
    make_garment(outfit, name="shift", stage="finished")
    stays = make_garment(outfit, name="stays", stage="sewn", is_boned=True)
    make_garment(outfit, plate=make_bodice_plate(people.workroom))
    make_measures(
        wearer,
        {"waist": "25 in", "bust": "33 in", "upper arm": "11 in"},
        gap_waist_um=um("2 in"),
        gap_waist_text="2 in",
        heel_um=um("1 in"),
        heel_text="1 in",
        laced_by="Perrin",
    ).worn.add(*outfit.garments.all()[:2])
    assert stays.order == 2
    return outfit


def bodice_of(outfit):
    return outfit.garments.get(name="bodice")


def values_of(outfit, at=NOON, **given) -> DossierValues:
    return dossier_values(
        outfit, **{"sections": USUAL, "paper": "A4", "system": "in", "by": None, "at": at, **given}
    )


def sentences(values: DossierValues) -> list[str]:
    return [
        f"{check.sentence} {check.more}".strip() for group in values.pages.checks for check in group.checks
    ]


def test_a_sheet_carries_the_numbers_of_the_stored_comparison(outfit, people):
    stored = compare_garment(bodice_of(outfit), by=people.maker, at=NOON).results
    sheet = values_of(outfit, system="cm").sheets[-1]
    for level in ("waist", "bust"):
        for figure in ("garment_mm", "body_mm", "wanted_mm", "difference_mm", "u_mm", "chances", "verdict"):
            assert getattr(sheet.comparison.answer.levels[level], figure) == stored["levels"][level][figure]


def test_what_must_be_worn_says_how_it_was_laced_and_on_what_heels(outfit, people):
    compare_garment(bodice_of(outfit), by=people.maker, at=NOON)
    (one,) = values_of(outfit).pages.underneath
    assert (one.fitting, one.worn) == ("bodice", "shift, stays")
    assert one.lacing == "laced to a gap of 2 in at the waist, by Perrin"
    assert one.heel.um == 25_400


def test_the_measures_to_retake_are_those_taken_and_those_a_plate_asks_for(outfit):
    piece = bodice_of(outfit).plate.pieces.first()
    piece.readings.create(line="hip", reading_um=um("2 in"), reading_text="2 in")
    rows = {row.label: row for row in values_of(outfit).pages.measures.rows}
    assert list(rows) == ["bust or chest", "waist", "hip or seat", "upper arm"]
    assert rows["hip or seat"].is_asked_for
    assert not rows["waist"].is_asked_for
    assert rows["upper arm"].has_sides


def test_it_says_what_is_missing_until_a_garment_is_cut(outfit):
    assert sentences(values_of(outfit)) == ["Not compared yet, though nothing is missing."]
    bodice = bodice_of(outfit)
    bodice.plate = None
    bodice.save()
    assert sentences(values_of(outfit)) == ["It names no plate to compare with."]
    bodice.stage = "cut"
    bodice.save()
    assert sentences(values_of(outfit)) == []


def test_it_asks_about_stale_measures_and_about_changed_inputs(outfit, people):
    bodice = bodice_of(outfit)
    compare_garment(bodice, by=people.maker, at=NOON)
    assert not [one for one in sentences(values_of(outfit)) if "not hold" in one or "changed since" in one]
    reading = bodice.plate.pieces.first().readings.first()
    reading.reading_um, reading.reading_text = um("1 in"), "1 in"
    reading.save()
    late = values_of(outfit, at=NOON + timedelta(days=200))
    assert "Something that it was made from has changed since. Compare it again." in sentences(late)
    assert any(one.startswith("Its measures may not hold: 218 days old.") for one in sentences(late))
    assert late.sheets[-1].flags == ("out of date", "stale")


def test_it_names_doubts_and_open_questions(outfit, people):
    bodice = bodice_of(outfit)
    front, back = bodice.plate.pieces.all()
    Seam.objects.create(plate=bodice.plate, piece_a=front, edge_a="side", piece_b=back, edge_b="side")
    bodice.plate.allowance = "not known"
    bodice.plate.save()
    compare_garment(bodice, by=people.maker, at=NOON)
    asked = sentences(values_of(outfit))
    assert asked[0].startswith("Settle whether the plate includes seam allowance")
    assert "Does the plate include seam allowance? Nobody knows yet." in asked
    assert "How front side to back side is sewn is not known: try it in miniature." in asked
    unsettled = [one for one in asked if "too close to call" in one or "within altering" in one]
    assert all("largest part of the doubt" in one for one in unsettled)
    assert unsettled


def test_cautions_stand_only_where_they_apply(outfit, people):
    def applying() -> dict[str, tuple[str, ...]]:
        return {caution.key: garments for caution, garments in values_of(outfit).cautions}

    assert applying() == {"lacing": ("stays",), "pins": (), "personal": ()}
    shift = outfit.garments.get(name="shift")
    shift.references.create(
        reference=make_reference(people.workroom, name="gown", kind="gown", holder="A museum")
    )
    assert applying()["surviving"] == applying()["fire"] == ("shift",)
    (short,) = values_of(outfit).sheets[1].cautions
    assert "ask a doctor" in short


@pytest.mark.parametrize("count", [1, 9])
def test_it_asks_as_often_for_many_garments_as_for_one(outfit, people, django_assert_num_queries, count):
    for name in "abcdefghi"[:count]:
        extra = make_garment(outfit, name=name, plate=make_bodice_plate(people.workroom))
        extra.references.create(reference=extra.plate.reference)
        make_route_choice(extra, chosen_by=people.maker)
        compare_garment(extra, by=people.maker, at=NOON)
    with django_assert_num_queries(64):
        html_of(values_of(outfit, sections=tuple(SECTIONS)))
