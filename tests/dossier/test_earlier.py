"""What is told of the time since a dossier was printed: by its kept figures, not by dates of change."""

from datetime import timedelta

import pytest

from catalogue.lengths.showing import Writing
from fitting.comparing.actions import compare_garment
from fitting.dossier.loading.changes import changes_between
from fitting.dossier.loading.history import from_each_to_the_next, since_the_last
from fitting.dossier.loading.snapshot import snapshot_now
from fitting.dossier.models import Dossier
from fitting.outfits.models.log import LogEntry
from fitting.outfits.models.outfit import Outfit
from tests.makers.fittings import make_alteration, make_fitting, make_trial
from tests.makers.rows import (
    NOON,
    make_bodice_plate,
    make_dossier,
    make_entry,
    make_garment,
    make_material,
    make_measures,
    make_outfit,
    make_route_choice,
    make_task,
    make_wearer,
    um,
)

INCHES, CENTIMETRES = Writing(system="in"), Writing(system="cm")


@pytest.fixture
def outfit(people):
    """A bodice compared once with what was taken over stays."""
    outfit = make_outfit(people.workroom, wearer=make_wearer(people.workroom), maker=people.maker)
    stays = make_garment(outfit, name="stays", stage="sewn", is_boned=True)
    bodice = make_garment(outfit, plate=make_bodice_plate(people.workroom))
    make_measures(outfit.wearer, {"waist": "25 in", "bust": "33 in"}).worn.add(stays)
    compare_garment(bodice, by=people.maker, at=NOON)
    return outfit


def taken(outfit):
    return snapshot_now(Outfit.objects.for_detail_page().get(pk=outfit.pk), by=None, at=NOON)


def told(then, outfit, writing=INCHES) -> list[str]:
    return [change.sentence for change in changes_between(then, taken(outfit), writing)]


def test_where_nothing_was_done_nothing_is_told(outfit):
    assert told(taken(outfit), outfit) == []


def test_measures_taken_again_are_told_with_what_they_were(outfit):
    then = taken(outfit)
    day = (NOON - timedelta(days=1)).date()
    make_measures(outfit.wearer, {"waist": "24 1/2 in", "bust": "33 in", "hip": "38 in"}, taken_on=day)
    sentence = "waist 24 1/2 in (was 25 in); first taken: hip or seat; 1 as before."
    assert told(then, outfit) == [f"Measured over stays or corset on 19 November 2026: {sentence}"]
    assert "waist 62.2 cm (was 63.5 cm)" in told(then, outfit, CENTIMETRES)[0]


def test_a_new_comparison_is_told_by_the_verdicts_it_changed(outfit, people):
    bodice, then = outfit.garments.get(name="bodice"), taken(outfit)
    before = bodice.comparisons.get().results["levels"]["waist"]["verdict"]
    take = outfit.wearer.measures.get().takes.get(line="waist")
    take.value_um, take.value_text = um("60 in"), "60 in"
    take.save()
    compare_garment(bodice, by=people.maker, at=NOON + timedelta(hours=1))
    assert f"bodice: compared again, waist {before} → too small." in told(then, outfit)
    compare_garment(bodice, by=people.maker, at=NOON + timedelta(hours=2))
    again = taken(outfit)
    compare_garment(bodice, by=people.maker, at=NOON + timedelta(hours=3))
    assert told(again, outfit) == ["bodice: compared again, every verdict as before."]


def test_stages_routes_and_garments_come_and_go(outfit):
    bodice, then = outfit.garments.get(name="bodice"), taken(outfit)
    make_route_choice(bodice, route="enlarge and alter")
    bodice.stage = "patterned"
    bodice.save()
    make_garment(outfit, name="sleeves")
    assert told(then, outfit) == [
        "bodice: studied → patterned.",
        "bodice: route chosen, enlarge and alter.",
        "sleeves: new in the outfit.",
    ]
    then = taken(outfit)
    make_route_choice(bodice, route="enlarge and grade", chosen_at=NOON + timedelta(days=1))
    outfit.garments.get(name="sleeves").delete()
    assert told(then, outfit) == [
        "bodice: route enlarge and alter → enlarge and grade.",
        "sleeves: no longer in the outfit.",
    ]


def test_an_alteration_is_followed_from_being_added_until_it_is_confirmed_or_dropped(outfit):
    bodice, then = outfit.garments.get(name="bodice"), taken(outfit)
    alteration = make_alteration(bodice)
    assert told(then, outfit) == ["bodice: alteration of the side seam, let out: added."]
    then = taken(outfit)
    alteration.parts.filter(part="paper").update(done_on=NOON.date())
    assert told(then, outfit) == ["bodice: alteration of the side seam, let out: done on paper."]
    then = taken(outfit)
    alteration.confirmed_in = make_fitting(outfit, closed_at=NOON)
    alteration.save()
    assert told(then, outfit) == [
        "bodice: alteration of the side seam, let out: confirmed.",
        "Fitting of 20 November 2026: held and closed.",
    ]
    then = taken(outfit)
    alteration.delete()
    assert told(then, outfit) == ["bodice: alteration of the side seam, let out: dropped."]


def test_work_toiles_hours_and_money_are_summed_up(outfit):
    then = taken(outfit)
    make_trial(outfit.garments.get(name="bodice"))
    make_task(outfit, name="sew", done_on=NOON.date())
    make_entry(outfit, hours=2.5, cost="3.40")
    make_material(outfit, cost="10")
    assert told(then, outfit) == [
        "Tried: toile of bodice, 20 November 2026.",
        "Done: sew.",
        "2.5 h of work logged and 13.40 spent.",
    ]


def kept(outfit, *, days_ago: int, **given) -> Dossier:
    at = NOON - timedelta(days=days_ago)
    return make_dossier(outfit, **{"asked_at": at, "snapshot": taken(outfit), **given})


def test_the_next_dossier_tells_of_the_time_since_the_last_that_says_anything_else(outfit):
    first = kept(outfit, days_ago=9)
    make_entry(outfit, hours=2)
    kept(outfit, days_ago=1)
    kept(outfit, days_ago=0, work={"state": "failed"}, snapshot={})
    one = since_the_last(outfit, taken(outfit), before=NOON, writing=INCHES)
    assert one.dossier == first
    assert [change.sentence for change in one.changes] == ["2 h of work logged."]
    LogEntry.objects.all().delete()
    assert since_the_last(outfit, first.snapshot, before=first.asked_at, writing=INCHES) is None


def test_figures_of_two_people_are_never_held_against_each_other(outfit, people):
    of_first = kept(outfit, days_ago=9)
    outfit.wearer = make_wearer(people.workroom, name="Somebody else")
    outfit.save()
    assert since_the_last(outfit, taken(outfit), before=NOON, writing=INCHES) is None
    of_second = kept(outfit, days_ago=5)
    told = list(from_each_to_the_next([of_second, of_first], taken(outfit), outfit.wearer_id, INCHES))
    assert [one.is_known for one in told] == [True, False]


def test_each_is_held_against_the_next_that_was_printed(outfit):
    first = kept(outfit, days_ago=9)
    make_entry(outfit, hours=2)
    second = kept(outfit, days_ago=5)
    newest, oldest = from_each_to_the_next([second, first], taken(outfit), outfit.wearer_id, INCHES)
    assert (newest.until, newest.changes) == (None, ())
    assert oldest.until == second.asked_at
    assert [change.sentence for change in oldest.changes] == ["2 h of work logged."]
