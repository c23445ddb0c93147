import pytest

from fitting.comparing.actions import compare_garment
from fitting.outfits.models.garment import Ease
from tests.makers.rows import (
    NOON,
    make_bodice_plate,
    make_garment,
    make_measures,
    make_outfit,
    make_piece,
    make_route_choice,
    make_wearer,
    um,
)


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def bodice(people):
    wearer = make_wearer(people.workroom)
    make_measures(wearer, {"waist": "25 in", "bust": "33 in"}, state="undressed")
    outfit = make_outfit(people.workroom, wearer=wearer, maker=people.maker)
    make_garment(outfit, name="shift", thickness_um=1000, thickness_text="1 mm")
    return make_garment(outfit, plate=make_bodice_plate(people.workroom))


def test_before_anything_is_compared_the_measures_in_use_are_shown(maker, bodice):
    make_piece(bodice.plate, "sleeve", {"sleeve": "3 in"})
    page = maker.get(bodice.get_absolute_url())
    assert [(one.label, one.how, one.sum) for one in page.context["measures"]] == [
        ("bust or chest", "built up", "33 in + shift 1/4 in ≈ 33 1/4 in ± 3/8 in"),
        ("waist", "built up", "25 in + shift 1/4 in ≈ 25 1/4 in ± 3/8 in"),
    ]
    assert "Read on the plate but not measured, so left out: sleeve." in page.content.decode()


def test_a_comparison_is_shown_with_its_chart_and_every_route(maker, bodice, people):
    compare_garment(bodice, by=people.maker, at=NOON)
    page = maker.get(bodice.get_absolute_url())
    assert page.context["chart"].startswith("<svg")
    assert len(page.context["shown"].answer.routes) == 8
    assert "out of date" not in page.content.decode()


def test_a_reader_sees_neither_measures_nor_verdicts(client, bodice, people):
    compare_garment(bodice, by=people.maker, at=NOON)
    make_route_choice(bodice, why="Her waist is 25 in")
    client.force_login(people.reader)
    page = client.get(bodice.get_absolute_url())
    assert page.status_code == 200
    assert not {"shown", "measures", "choices", "standing"} & page.context.keys()
    assert "25 in" not in page.content.decode()


@pytest.mark.parametrize(("reduction", "cautions"), [("2 1/2 in", False), ("2 3/4 in", True)])
def test_stays_that_take_in_more_than_a_tenth_bring_a_caution(maker, people, reduction, cautions):
    """A waist of 26 in: a tenth is 2.6 in."""
    wearer = make_wearer(people.workroom)
    make_measures(wearer, {"waist": "26 in"}, state="undressed")
    outfit = make_outfit(people.workroom, wearer=wearer)
    stays = make_garment(
        outfit, name="stays", is_boned=True, reduction_um=um(reduction), reduction_text=reduction
    )
    page = maker.get(stays.get_absolute_url()).content.decode()
    assert f"The waist gives {reduction}" in page
    assert ("more than a tenth" in page) is cautions


def test_stays_cut_smaller_than_the_waist_are_seen_to_lace_it_in(maker, people):
    wearer = make_wearer(people.workroom, is_new_to_lacing=True)
    make_measures(wearer, {"waist": "40 in"}, state="undressed")
    stays = make_garment(make_outfit(people.workroom, wearer=wearer), name="stays", is_boned=True)
    Ease.objects.create(garment=stays, line="waist", ease_um=um("-3 in"), ease_text="-3 in")
    assert "somebody new to lacing" in maker.get(stays.get_absolute_url()).content.decode()


def test_a_garment_without_plate_or_wearer_says_where_to_go(maker, people):
    garment = make_garment(make_outfit(people.workroom))
    page = maker.get(garment.get_absolute_url()).content.decode()
    assert f'href="/garments/{garment.pk}/change/"' in page
    assert f'href="/outfits/{garment.outfit.pk}/change/"' in page


def test_garments_change_places_and_stop_at_the_ends(maker, bodice):
    outfit = bodice.outfit

    def order() -> list[str]:
        return list(outfit.garments.values_list("name", flat=True))

    maker.post(f"/garments/{bodice.pk}/move/", {"way": "outward"})
    assert order() == ["shift", "bodice"]
    maker.post(f"/garments/{bodice.pk}/move/", {"way": "inward"})
    assert order() == ["bodice", "shift"]
    assert list(outfit.garments.values_list("order", flat=True)) == [1, 2]


def test_a_new_garment_is_outermost_and_a_deleted_one_leaves_no_gap(maker, bodice):
    outfit = bodice.outfit
    typed = {"name": "gown", "stage": "studied", "purpose": "period look", "layers": "1", "gather_ratio": "1"}
    response = maker.post(f"/outfits/{outfit.pk}/garments/add/", typed)
    gown = outfit.garments.get(name="gown")
    assert response.url == f"/garments/{gown.pk}/change/"
    assert gown.order == 3
    assert "Delete “bodice”" in maker.get(f"/garments/{bodice.pk}/delete/").content.decode()
    maker.post(f"/garments/{bodice.pk}/delete/")
    assert list(outfit.garments.values_list("name", "order")) == [("shift", 1), ("gown", 2)]
