import pytest

from fitting.comparing.actions import compare_garment
from fitting.outfits.models.garment import Ease, GarmentReference
from tests.makers.rows import NOON, make_bodice_plate, make_garment, make_measures, make_outfit, make_wearer


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def bodice(people):
    """For Ottilie, with a plate, a reference, an ease and a set of measures of hers."""
    wearer = make_wearer(people.workroom)
    measures = make_measures(wearer, state="undressed")
    outfit = make_outfit(people.workroom, wearer=wearer, maker=people.maker)
    plate = make_bodice_plate(people.workroom)
    garment = make_garment(outfit, plate=plate, measures=measures, stage="cut", is_boned=True, notes="hers")
    GarmentReference.objects.create(garment=garment, reference=plate.reference, what_for="cut")
    Ease.objects.create(garment=garment, line="waist", ease_um=12_700, ease_text="1/2 in")
    return garment


@pytest.fixture
def another(people):
    """The outfit of a smaller person."""
    wearer = make_wearer(people.workroom, name="Wenna")
    make_measures(wearer, {"waist": "23 in", "bust": "30 in"}, state="undressed")
    outfit = make_outfit(people.workroom, name="Second dress", wearer=wearer, maker=people.maker)
    make_garment(outfit, name="shift")
    return outfit


def test_it_is_begun_with_what_is_the_same_and_nothing_of_the_first_wearer(maker, bodice, another):
    answer = maker.post(f"/garments/{bodice.pk}/again/", {"outfit": another.pk})
    again = another.garments.get(name="bodice")
    assert answer.url == again.get_absolute_url()
    assert (again.order, again.stage, again.plate, again.is_boned) == (2, "studied", bodice.plate, True)
    assert (again.measures, again.notes, again.again_of) == (None, "", bodice)
    assert [(used.reference, used.what_for) for used in again.references.all()] == [
        (bodice.plate.reference, "cut")
    ]
    assert [(ease.line, ease.ease_text) for ease in again.eases.all()] == [("waist", "1/2 in")]
    assert bodice.references.count() == bodice.eases.count() == 1


def test_each_wearer_is_compared_with_their_own_measures(maker, people, bodice, another):
    maker.post(f"/garments/{bodice.pk}/again/", {"outfit": another.pk})
    again = another.garments.get(name="bodice")
    waists = [
        compare_garment(one, by=people.maker, at=NOON).results["levels"]["waist"]["body_mm"]
        for one in (bodice, again)
    ]
    assert waists[0] == pytest.approx(25 * 25.4)
    assert waists[1] == pytest.approx(23 * 25.4)


def test_all_of_them_name_one_another(maker, people, bodice, another):
    third = make_outfit(people.workroom, name="Third dress")
    maker.post(f"/garments/{bodice.pk}/again/", {"outfit": another.pk})
    again = another.garments.get(name="bodice")
    maker.post(f"/garments/{again.pk}/again/", {"outfit": third.pk})
    assert "Second dress, Wenna" in maker.get(bodice.get_absolute_url()).text
    text = maker.get(third.garments.get().get_absolute_url()).text
    assert "Second dress, Wenna" in text
    assert "Visiting dress, Ottilie" in text


def test_no_outfit_has_it_twice_and_none_of_another_workroom_is_offered(maker, people, bodice, another):
    elsewhere = make_outfit(people.stranger.memberships.get().workroom, name="Elsewhere")
    for taken in (bodice.outfit, elsewhere):
        answer = maker.post(f"/garments/{bodice.pk}/again/", {"outfit": taken.pk})
        assert "outfit" in answer.context["form"].errors
    maker.post(f"/garments/{bodice.pk}/again/", {"outfit": another.pk})
    assert "There is no other outfit without it" in maker.get(f"/garments/{bodice.pk}/again/").text


def test_a_reader_does_not_see_for_whom_else_it_is_made(client, people, bodice, another):
    client.force_login(people.maker)
    client.post(f"/garments/{bodice.pk}/again/", {"outfit": another.pk})
    client.force_login(people.reader)
    assert "Wenna" not in client.get(bodice.get_absolute_url()).text
