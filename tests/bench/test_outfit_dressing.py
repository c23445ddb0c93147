import pytest

from fitting.comparing.actions import compare_garment
from fitting.outfits.models.garment import Ease, Garment, GarmentReference
from tests.makers.rows import (
    NOON,
    make_bodice_plate,
    make_garment,
    make_measures,
    make_outfit,
    make_route_choice,
    make_stand,
    make_wearer,
)


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def address(outfit) -> str:
    return f"/outfits/{outfit.pk}/dressing/"


def words(answer) -> str:
    return " ".join(answer.text.split())


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
    with django_assert_num_queries(23):
        page = maker.get(address(outfit))
    assert [row.standing.is_out_of_date for row in page.context["rows"]] == [False] * count


def test_a_garment_says_what_it_waits_for_and_what_it_holds_up(maker, people):
    outfit = make_outfit(people.workroom)
    make_garment(outfit, name="stays", stage="toile", is_boned=True)
    make_garment(outfit, name="gown")
    page = words(maker.get(address(outfit)))
    assert "before it is patterned: stays to be sewn (its pattern is measured over them)" in page
    assert "<dt>Holds up</dt> <dd>gown</dd>" in page
    assert "<dt>To be worn at its fitting</dt> <dd>stays</dd>" in page


def test_nothing_waits_for_what_is_sewn(maker, people):
    outfit = make_outfit(people.workroom)
    make_garment(outfit, name="stays", stage="sewn", is_boned=True)
    make_garment(outfit, name="gown")
    assert "to be sewn" not in words(maker.get(address(outfit)))


def test_stale_measures_can_be_found_still_good_from_here(maker, people):
    wearer = make_wearer(people.workroom)
    measures = make_measures(wearer, state="undressed", taken_on="2020-01-01")
    make_garment(make_outfit(people.workroom, wearer=wearer), plate=make_bodice_plate(people.workroom))
    outfit = people.workroom.outfits.get()
    page = maker.get(address(outfit)).text
    assert "stale" in page
    assert f'action="/measures/{measures.pk}/confirm/"' in page
    maker.post(f"/measures/{measures.pk}/confirm/")
    assert "stale" not in maker.get(address(outfit)).text


@pytest.mark.parametrize(
    ("beneath", "way"),
    [
        (
            {"kind": "waistcoat", "thickness_um": 1000, "thickness_text": "1 mm"},
            "Measure over what is worn beneath",
        ),
        ({"is_boned": True, "reduction_um": 50_800, "reduction_text": "2 in"}, "Measure once they are made"),
    ],
)
def test_what_is_built_up_or_expected_says_how_to_do_better(maker, people, beneath, way):
    wearer = make_wearer(people.workroom)
    make_measures(wearer, state="undressed", taken_on=NOON.date())
    outfit = make_outfit(people.workroom, wearer=wearer)
    make_garment(outfit, name="beneath", **beneath)
    make_garment(outfit, name="gown", plate=make_bodice_plate(people.workroom))
    assert way in maker.get(address(outfit)).text


def test_each_garment_says_what_keeps_it_from_being_compared(maker, people):
    outfit = make_outfit(people.workroom, wearer=make_wearer(people.workroom))
    make_garment(outfit, plate=make_bodice_plate(people.workroom))
    assert "has not been measured yet" in maker.get(address(outfit)).text


def test_a_reader_sees_the_order_and_nothing_reckoned_from_a_body(client, people):
    outfit = make_dressed(people, 2)
    client.force_login(people.reader)
    page = client.get(address(outfit))
    assert "garment 1" in page.text
    assert "verdict" not in page.text
    assert [row.standing for row in page.context["rows"]] == [None, None]


def test_a_garment_moved_here_waits_for_others(maker, people):
    outfit = make_outfit(people.workroom)
    stays = make_garment(outfit, name="stays", is_boned=True)
    make_garment(outfit, name="gown")
    maker.post(f"/garments/{stays.pk}/move/", {"way": "outward"})
    assert list(Garment.objects.values_list("name", flat=True)) == ["gown", "stays"]
    assert "gown to be sewn" in words(maker.get(address(outfit)))
