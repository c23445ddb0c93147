import pytest

from fitting.comparing.actions import compare_garment
from fitting.comparing.calculation.routes import Route
from fitting.comparing.loading.maker import maker_values
from tests.makers.rows import (
    NOON,
    make_bodice_plate,
    make_entry,
    make_garment,
    make_measures,
    make_outfit,
    make_route_choice,
    make_task,
    make_wearer,
)


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def bodice(people):
    wearer = make_wearer(people.workroom)
    make_measures(wearer, state="undressed")
    outfit = make_outfit(people.workroom, wearer=wearer, maker=people.maker)
    return make_garment(outfit, plate=make_bodice_plate(people.workroom))


def test_what_is_recommended_is_offered_and_one_tap_is_enough(maker, bodice, people):
    comparison = compare_garment(bodice, by=people.maker, at=NOON)
    path = f"/garments/{bodice.pk}/route/"
    assert maker.get(path).context["form"]["route"].value() == comparison.results["recommended"]
    maker.post(path, {"route": "drape on a stand", "reason": "the date is near"})
    choice = bodice.route_choices.get()
    assert (choice.route, choice.reason, choice.why) == ("drape on a stand", "the date is near", "")
    assert (choice.comparison, choice.chosen_by) == (comparison, people.maker)
    bodice.refresh_from_db()
    assert bodice.stage == "route chosen"


def test_a_new_choice_stands_before_the_old_and_a_later_stage_stays(maker, bodice):
    bodice.stage = "toile"
    bodice.save()
    for route in ("draft from measures", "adapt a sized pattern"):
        maker.post(f"/garments/{bodice.pk}/route/", {"route": route})
    assert [choice.route for choice in bodice.route_choices.all()] == [
        "adapt a sized pattern",
        "draft from measures",
    ]
    bodice.refresh_from_db()
    assert bodice.stage == "toile"
    page = maker.get(bodice.get_absolute_url()).content.decode()
    assert (
        page.index("Adapt a sized pattern") < page.index("Chosen before") < page.index("Draft from measures")
    )


def test_a_route_can_be_chosen_from_its_row_of_the_table(maker, bodice):
    page = maker.get(f"/garments/{bodice.pk}/route/?route=combine+patterns")
    assert page.context["form"]["route"].value() == "combine patterns"


def test_how_it_turned_out_is_kept_with_the_choice(maker, bodice):
    maker.post(f"/garments/{bodice.pk}/route/", {"route": "enlarge and alter"})
    choice = bodice.route_choices.get()
    path = f"/routes/{choice.pk}/outcome/"
    assert "outcome" in maker.post(path, {"outcome": "", "hours": ""}).context["form"].errors
    maker.post(path, {"outcome": "The waist came out well.", "hours": "7.5"})
    choice.refresh_from_db()
    assert (choice.outcome, choice.hours) == ("The waist came out well.", 7.5)
    assert choice.outcome_at is not None
    assert "The waist came out well. (7.5 hours)" in maker.get(bodice.get_absolute_url()).content.decode()


def test_the_hours_logged_on_the_pattern_are_offered_as_what_it_took(maker, bodice):
    task = make_task(bodice.outfit, garment=bodice, leads_to="patterned")
    for hours in (2.5, 4):
        make_entry(bodice.outfit, garment=bodice, task=task, hours=hours)
    make_entry(bodice.outfit, garment=bodice, hours=9)
    choice = make_route_choice(bodice)
    assert maker.get(f"/routes/{choice.pk}/outcome/").context["form"]["hours"].value() == 6.5
    choice.hours = 5
    choice.save()
    assert maker.get(f"/routes/{choice.pk}/outcome/").context["form"]["hours"].value() == 5


def test_three_outcomes_of_a_route_take_the_place_of_the_guess(people, bodice):
    for at, hours in enumerate((11, 4, 5)):
        assert maker_values(people.maker).hours[Route.ALTER] == 6, at
        make_route_choice(bodice, hours=hours, chosen_by=people.maker)
    make_route_choice(bodice, hours=40, chosen_by=people.keeper)
    assert maker_values(people.maker).hours[Route.ALTER] == 5


def test_each_route_says_how_it_stood_and_one_ruled_out_may_be_chosen_all_the_same(maker, bodice, people):
    path = f"/garments/{bodice.pk}/route/"
    assert ">study only</option>" in maker.get(path).content.decode()
    compare_garment(bodice, by=people.maker, at=NOON)
    assert ">study only: ruled out</option>" in maker.get(path).content.decode()
    maker.post(path, {"route": "study only"})
    assert bodice.route_choices.get().route == "study only"
