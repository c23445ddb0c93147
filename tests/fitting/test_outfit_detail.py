import pytest

from fitting.actions.comparison import compare_garment
from fitting.models import Ease, GarmentReference
from tests.makers import (
    NOON,
    make_bodice_plate,
    make_garment,
    make_measures,
    make_outfit,
    make_reference,
    make_route_choice,
    make_stand,
    make_wearer,
)


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def make_dressed(people, count: int):
    """An outfit of so many garments, each with all that a garment can have."""
    wearer = make_wearer(people.workroom)
    make_measures(wearer, state="undressed")
    make_measures(wearer, state="over shift")
    outfit = make_outfit(people.workroom, wearer=wearer, maker=people.maker)
    for number in range(count):
        plate = make_bodice_plate(people.workroom)
        garment = make_garment(
            outfit,
            name=f"garment {number}",
            plate=plate,
            stand=make_stand(people.workroom),
            thickness_um=300,
            thickness_text="0.3 mm",
        )
        GarmentReference.objects.create(garment=garment, reference=plate.reference)
        Ease.objects.create(garment=garment, line="waist", ease_um=0)
        make_route_choice(garment)
        for _ in range(2):
            compare_garment(garment, by=people.maker, at=NOON)
    return outfit


@pytest.mark.parametrize("count", [1, 12])
def test_the_page_takes_the_same_queries_for_any_number_of_garments(
    maker, people, django_assert_num_queries, count
):
    outfit = make_dressed(people, count)
    with django_assert_num_queries(28):
        page = maker.get(outfit.get_absolute_url())
    assert [row.is_out_of_date for row in page.context["rows"]] == [False] * count


def test_garments_are_drawn_from_the_skin_outward_by_how_far_they_are(maker, people):
    outfit = make_outfit(people.workroom)
    make_garment(outfit, name="shift", stage="finished")
    make_garment(outfit, name="stays", stage="toile")
    make_garment(outfit, name="gown")
    page = maker.get(outfit.get_absolute_url()).content.decode()
    assert "1. shift, made; 2. stays, being made; 3. gown, studied." in page


def test_a_reader_sees_references_and_stages_and_no_verdict(client, people):
    outfit = make_dressed(people, 1)
    client.force_login(people.reader)
    page = client.get(outfit.get_absolute_url())
    text = page.content.decode()
    assert "back-laced bodice" in text
    assert "verdict" not in text
    assert "rows" not in page.context


def test_each_garment_says_what_keeps_it_from_being_compared(maker, people):
    outfit = make_outfit(people.workroom, wearer=make_wearer(people.workroom))
    make_garment(outfit, plate=make_bodice_plate(people.workroom))
    assert "has not been measured yet" in maker.get(outfit.get_absolute_url()).content.decode()


def test_an_empty_outfit_says_where_to_begin(maker, people):
    page = maker.get(make_outfit(people.workroom).get_absolute_url()).content.decode()
    assert "next to the skin" in page


def test_a_stranger_finds_no_such_outfit(client, people):
    client.force_login(people.stranger)
    assert client.get(make_outfit(people.workroom).get_absolute_url()).status_code == 404


def test_deleting_says_what_goes_and_keeps_what_stays(maker, people):
    outfit = make_dressed(people, 2)
    page = maker.get(f"/outfits/{outfit.pk}/delete/").content.decode()
    assert "2 garments" in page
    assert "4 comparisons" in page
    maker.post(f"/outfits/{outfit.pk}/delete/")
    assert not people.workroom.outfits.exists()
    assert people.workroom.wearers.exists()
    assert people.workroom.references.count() == 2


def test_an_outfit_takes_wearers_and_makers_of_its_own_workroom_only(maker, people):
    elsewhere = make_wearer(people.stranger.memberships.get().workroom, name="Somebody else")
    typed = {"name": "Ball", "wearer": elsewhere.pk, "maker": people.stranger.pk}
    form = maker.post("/outfits/add/", typed).context["form"]
    assert set(form.errors) == {"wearer", "maker"}
    typed |= {"wearer": make_wearer(people.workroom).pk, "maker": people.maker.pk}
    response = maker.post("/outfits/add/", typed)
    assert response.url == people.workroom.outfits.get().get_absolute_url()


def test_a_reference_garment_names_the_garments_that_draw_on_it(maker, people):
    reference = make_reference(people.workroom)
    garment = make_garment(make_outfit(people.workroom), name="blue gown")
    GarmentReference.objects.create(garment=garment, reference=reference)
    assert "blue gown, Visiting dress" in maker.get(reference.get_absolute_url()).content.decode()
