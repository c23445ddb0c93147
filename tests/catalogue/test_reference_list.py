import datetime

import pytest

from catalogue.models import Photo
from tests.makers import make_plate, make_reference


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def names_at(client, query: str) -> set[str]:
    return {reference.name for reference in client.get(f"/references/?{query}").context["page"]}


def dated(workroom, name: str, earliest: int | None, latest: int | None, **given):
    return make_reference(
        workroom,
        name=name,
        date_edtf="stated",
        date_earliest=earliest and datetime.date(earliest, 1, 1),
        date_latest=latest and datetime.date(latest, 12, 31),
        **given,
    )


def test_an_empty_list_says_what_to_do_next(maker):
    page = maker.get("/references/").content.decode()
    assert "No reference garments yet" in page
    assert "/references/add/" in page


@pytest.mark.parametrize("view", ["", "?as=table"])
@pytest.mark.parametrize("count", [1, 50])
def test_the_list_asks_as_often_for_fifty_as_for_one(maker, people, django_assert_num_queries, view, count):
    for number in range(count):
        reference = make_reference(people.workroom, name=f"Coat {number:02}")
        make_plate(reference)
        Photo.objects.create(reference=reference, stem=f"p{number}", width=3, height=4)
    # Session, person, membership; how many, the rows, their photographs.
    with django_assert_num_queries(6):
        page = maker.get(f"/references/{view}").content.decode()
    assert page.count("Coat ") == count


def test_years_find_every_garment_whose_date_touches_them(maker, people):
    dated(people.workroom, "stays", 1780, 1790)
    dated(people.workroom, "coat", 1795, 1799)
    dated(people.workroom, "shift", None, 1785)
    make_reference(people.workroom, name="undated")
    assert names_at(maker, "year_from=1790") == {"stays", "coat"}
    assert names_at(maker, "year_to=1784") == {"stays", "shift"}
    assert names_at(maker, "year_from=1791&year_to=1794") == set()


def test_words_are_looked_for_in_every_column_and_all_must_be_there(maker, people):
    make_reference(people.workroom, name="jacket", materials="striped cotton", holder="Thornby")
    make_reference(people.workroom, name="coat", materials="striped wool")
    assert names_at(maker, "text=striped") == {"jacket", "coat"}
    assert names_at(maker, "text=thornby+striped") == {"jacket"}


def test_kind_and_place_narrow_the_list_and_nothing_found_is_said(maker, people):
    make_reference(people.workroom, name="breeches", dress="men's", place="Lower Oxbrook")
    make_reference(people.workroom, name="gown")
    assert names_at(maker, "dress=men%27s&place=oxbrook") == {"breeches"}
    assert "No reference garment answers" in maker.get("/references/?text=zzz").content.decode()


def test_a_long_list_comes_in_pages(maker, people):
    for number in range(51):
        make_reference(people.workroom, name=f"Coat {number:02}")
    assert "Page 1 of 2" in maker.get("/references/").content.decode()
    assert len(maker.get("/references/?page=2").context["page"]) == 1
