import pytest

from fitting.outfits.models.garment import GarmentReference
from tests.makers.rows import (
    make_bodice_plate,
    make_comparison,
    make_dossier,
    make_entry,
    make_garment,
    make_log_photo,
    make_material,
    make_outfit,
    make_reference,
    make_route_choice,
    make_task,
    make_wearer,
)


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def test_twelve_garments_and_three_hundred_entries_take_fourteen_queries(
    maker, people, django_assert_max_num_queries
):
    outfit = make_outfit(people.workroom, wearer=make_wearer(people.workroom), maker=people.maker)
    for number in range(12):
        plate = make_bodice_plate(people.workroom)
        garment = make_garment(outfit, name=f"garment {number}", plate=plate)
        GarmentReference.objects.create(garment=garment, reference=plate.reference)
        make_route_choice(garment)
        make_task(outfit, garment=garment)
        make_material(outfit, garment=garment, cost=2)
        for _ in range(25):
            make_log_photo(make_entry(outfit, garment=garment, hours=0.5, cost=1, stage="studied"))
    make_dossier(outfit)
    with django_assert_max_num_queries(14):
        page = maker.get(outfit.get_absolute_url())
    assert page.context["outfit"].logged_hours == 150
    assert page.context["spending"].spent == 324


def test_garments_are_drawn_from_the_skin_outward_by_how_far_they_are(maker, people):
    outfit = make_outfit(people.workroom)
    make_garment(outfit, name="shift", stage="finished")
    make_garment(outfit, name="stays", stage="toile")
    make_garment(outfit, name="gown")
    page = maker.get(outfit.get_absolute_url()).content.decode()
    assert "1. shift, made; 2. stays, being made; 3. gown, studied." in page


def test_a_garment_names_its_route_its_reference_and_what_it_waits_for(maker, people):
    outfit = make_outfit(people.workroom)
    make_garment(outfit, name="stays", is_boned=True)
    gown = make_garment(outfit, name="gown")
    GarmentReference.objects.create(garment=gown, reference=make_reference(people.workroom))
    make_route_choice(gown)
    page = maker.get(outfit.get_absolute_url()).text
    assert "<td>stays</td>" in page
    assert "<td>enlarge and alter</td>" in page
    assert "back-laced bodice" in page


def test_a_reader_sees_the_outfit_and_not_for_whom_it_is(client, people):
    outfit = make_outfit(people.workroom, wearer=make_wearer(people.workroom))
    make_garment(outfit, name="stays")
    client.force_login(people.reader)
    page = client.get(outfit.get_absolute_url()).text
    assert "stays" in page
    assert outfit.wearer.name not in page
    assert "log/add" not in page


def test_an_empty_outfit_says_where_to_begin(maker, people):
    page = maker.get(make_outfit(people.workroom).get_absolute_url()).content.decode()
    assert "next to the skin" in page


def test_a_stranger_finds_no_such_outfit(client, people):
    client.force_login(people.stranger)
    assert client.get(make_outfit(people.workroom).get_absolute_url()).status_code == 404


def test_deleting_says_what_goes_and_keeps_what_stays(maker, people):
    outfit = make_outfit(people.workroom, wearer=make_wearer(people.workroom))
    for _ in range(2):
        make_comparison(make_garment(outfit, plate=make_bodice_plate(people.workroom)))
    make_entry(outfit)
    page = maker.get(f"/outfits/{outfit.pk}/delete/").content.decode()
    assert "2 garments" in page
    assert "2 comparisons" in page
    assert "1 log entry" in page
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
