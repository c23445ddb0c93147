"""What a garment's rows come to as a case, and when a comparison made from them is out of date."""

import datetime

import pytest

from catalogue.plates.models.piece import Seam
from catalogue.plates.models.plate import Fastening
from fitting.comparing.actions import compare_garment
from fitting.comparing.calculation.case import Patterns
from fitting.comparing.calculation.routes import Route, SkillLevel
from fitting.comparing.loading.case import case_of, outfit_rows
from fitting.comparing.loading.readiness import CannotCompare, MissingMeasure
from fitting.comparing.models import RouteChoice
from fitting.comparing.showing.standing import garment_as_it_stands
from fitting.outfits.models.garment import Ease
from fitting.wearers.models import Maker, Skill, StandMeasure
from tests.makers.rows import (
    NOON,
    make_bodice_plate,
    make_garment,
    make_measures,
    make_outfit,
    make_pattern,
    make_piece,
    make_plate,
    make_reference,
    make_route_choice,
    make_stand,
    make_wearer,
    um,
)

INCH = 25.4


@pytest.fixture
def bodice(people):
    """A plate of 22 in at the waist and 34 in at the bust, against 25 in and 33 in."""
    wearer = make_wearer(people.workroom)
    make_measures(wearer, state="undressed")
    outfit = make_outfit(people.workroom, wearer=wearer, maker=people.maker)
    return make_garment(outfit, plate=make_bodice_plate(people.workroom))


def case_now(garment, at=NOON):
    rows = outfit_rows(garment.outfit, by=None, at=at)
    garment = rows.garment(garment.pk)
    return case_of(garment, rows, rows.used(garment))


def is_out_of_date(garment) -> bool:
    garment.outfit.refresh_from_db()
    return garment_as_it_stands(garment, by=garment.outfit.maker, at=NOON).is_out_of_date


def test_limits_skills_and_hours_are_those_of_the_outfits_maker(bodice, people):
    maker = Maker.objects.create(user=people.maker, fits_um=um("1 in"), fits_text="1 in", hours_a_day=3)
    Skill.objects.create(maker=maker, name="drape", level="working")
    case = case_now(bodice)
    assert case.limits.fits_mm == INCH
    assert case.skills == {"drape": SkillLevel.WORKING}
    assert case.hours_a_day == 3


def test_three_logged_garments_take_the_place_of_our_guess(bodice, people):
    for hours in (4, 9):
        make_route_choice(bodice, chosen_by=people.maker, hours=hours)
    make_route_choice(bodice, chosen_by=people.keeper, hours=50)
    assert case_now(bodice).hours[Route.ALTER] == 6
    make_route_choice(bodice, chosen_by=people.maker, hours=5)
    assert case_now(bodice).hours[Route.ALTER] == 5


def test_a_lacing_gap_of_the_garment_takes_the_place_of_the_plates(bodice):
    Fastening.objects.create(plate=bodice.plate, line="", gap_um=um("1 in"), gap_text="1 in")
    Ease.objects.create(garment=bodice, line="waist", gap_um=um("3 in"), gap_text="3 in")
    gap = case_now(bodice).plate.lacing_gap
    assert (gap.at("waist"), gap.at("bust")) == pytest.approx((3 * INCH, INCH))


def test_seams_are_counted_by_how_they_are_known(bodice):
    front, back = bodice.plate.pieces.all()
    for evidence in ("recorded", "unknown", "unknown"):
        Seam.objects.create(plate=bodice.plate, piece_a=front, piece_b=back, evidence=evidence)
    assert case_now(bodice).seams.unknown_share == pytest.approx(2 / 3)


def test_a_pattern_in_hand_counts_when_it_has_every_part_needed(bodice, people):
    assert case_now(bodice).patterns_in_hand is Patterns.NONE
    make_pattern(people.workroom, parts="Sleeve, collar")
    assert case_now(bodice).patterns_in_hand is Patterns.WITHOUT_PARTS
    bodice.needs_parts = "sleeve"
    bodice.save()
    assert case_now(bodice).patterns_in_hand is Patterns.WITH_PARTS
    bodice.needs_parts = "sleeve, bodice"
    bodice.save()
    assert case_now(bodice).patterns_in_hand is Patterns.WITHOUT_PARTS


def test_a_draft_of_the_same_kind_of_garment_counts(bodice, people):
    bodice.plate.reference.kind = "bodice"
    bodice.plate.reference.save()
    for kind, counts in (("coat", False), ("bodice", True)):
        make_plate(make_reference(people.workroom, kind=kind), kind="draft", drawn_for_line="bust")
        assert case_now(bodice).has_draft is counts


def test_a_skill_that_was_never_stated_was_not_asked(bodice, people):
    assert case_now(bodice).skill("alter") is SkillLevel.NOT_ASKED
    Maker.objects.create(user=people.maker).skills.create(name="alter", level="none")
    assert case_now(bodice).skill("alter") is SkillLevel.NONE
    assert case_now(bodice).skill("grade") is SkillLevel.NOT_ASKED


def test_a_stand_comes_with_its_measures(bodice, people):
    bodice.stand = make_stand(people.workroom)
    StandMeasure.objects.create(stand=bodice.stand, line="waist", value_um=um("24 in"), value_text="24 in")
    bodice.save()
    assert case_now(bodice).stand_mm == pytest.approx({"waist": 24 * INCH})


@pytest.mark.parametrize(("days", "left"), [(10, 10), (0, 0), (-1, None)])
def test_days_are_counted_to_the_occasion_until_it_is_past(bodice, days, left):
    bodice.outfit.occasion_on = NOON.date() + datetime.timedelta(days=days)
    bodice.outfit.save()
    assert case_now(bodice).days_left == left


CHANGES = {
    "a reading": lambda g: g.plate.pieces.first().readings.update(reading_um=20_000, reading_text="20 mm"),
    "a measure": lambda g: g.outfit.wearer.measures.get().takes.update(value_um=660_000, value_text="66 cm"),
    "ease": lambda g: Ease.objects.create(garment=g, line="waist", ease_um=1000, ease_text="1 mm"),
    "the allowance": lambda g: type(g.plate).objects.filter(pk=g.plate.pk).update(allowance="not known"),
    "a limit": lambda g: Maker.objects.create(user=g.outfit.maker, add_um=um("2 in"), add_text="2 in"),
}  # fmt: skip


@pytest.mark.parametrize("what", CHANGES)
def test_a_comparison_is_out_of_date_once_an_input_changes(bodice, people, what):
    comparison = compare_garment(bodice, by=people.maker, at=NOON)
    kept = (comparison.inputs, comparison.results)
    assert not is_out_of_date(bodice)
    CHANGES[what](bodice)
    assert is_out_of_date(bodice)
    compare_garment(bodice, by=people.maker, at=NOON)
    assert not is_out_of_date(bodice)
    comparison.refresh_from_db()
    assert (comparison.inputs, comparison.results) == kept


def test_days_that_pass_leave_a_comparison_as_it_is(bodice, people):
    bodice.outfit.occasion_on = NOON.date() + datetime.timedelta(days=200)
    bodice.outfit.save()
    compare_garment(bodice, by=people.maker, at=NOON)
    later = NOON + datetime.timedelta(days=120)
    standing = garment_as_it_stands(bodice, by=people.maker, at=later)
    assert standing.used.stale == "138 days old"
    assert not standing.is_out_of_date


def test_another_reader_does_not_age_a_comparison_where_no_maker_is_named(bodice, people):
    bodice.outfit.maker = None
    bodice.outfit.save()
    Maker.objects.create(user=people.maker, add_um=um("2 in"), add_text="2 in")
    compare_garment(bodice, by=people.maker, at=NOON)
    assert not garment_as_it_stands(bodice, by=people.keeper, at=NOON).is_out_of_date


def missing_of(garment, people) -> str:
    with pytest.raises(CannotCompare) as fault:
        compare_garment(garment, by=people.maker, at=NOON)
    return str(fault.value)


def test_all_that_is_missing_is_told_at_once(people):
    garment = make_garment(make_outfit(people.workroom))
    assert missing_of(garment, people) == "It names no plate to compare with. The outfit names no wearer."


def test_what_was_read_and_not_measured_is_named(people):
    plate = make_plate(make_reference(people.workroom))
    make_piece(plate, "sleeve", {"upper arm": "1 1/2 in"})
    wearer = make_wearer(people.workroom)
    make_measures(wearer, {"waist": "25 in"}, state="undressed")
    garment = make_garment(make_outfit(people.workroom, wearer=wearer), plate=plate)
    with pytest.raises(MissingMeasure) as fault:
        compare_garment(garment, by=people.maker, at=NOON)
    assert fault.value.needed == ("upper arm",)
    assert fault.value.missing[0].address == f"/measures/{wearer.measures.get().pk}/change/"


def test_figures_that_contradict_one_another_are_told_and_nothing_is_kept(bodice, people):
    Ease.objects.create(garment=bodice, line="waist", ease_um=um("-30 in"), ease_text="-30 in")
    assert missing_of(bodice, people) == "Waist: Takes away more than the body measures there."
    assert not bodice.comparisons.exists()


def test_a_plate_without_a_scale_sends_to_the_plate(bodice, people):
    bodice.plate.scale_kind = "bar"
    bodice.plate.save()
    assert "scale" in missing_of(bodice, people)


def test_the_choice_of_a_route_does_not_age_a_comparison(bodice, people):
    compare_garment(bodice, by=people.maker, at=NOON)
    RouteChoice.objects.create(garment=bodice, route="enlarge and alter", chosen_at=NOON)
    assert not is_out_of_date(bodice)
