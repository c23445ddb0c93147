import pytest

from fitting.actions.comparison import compare_garment
from tests.makers import NOON, make_bodice_plate, make_garment, make_measures, make_outfit, make_wearer


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
