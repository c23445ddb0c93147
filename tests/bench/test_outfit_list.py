import datetime

import pytest

from tests.makers.rows import make_garment, make_outfit, make_wearer


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def test_an_empty_list_says_how_to_begin(maker):
    page = maker.get("/outfits/").content.decode()
    assert "No outfits yet" in page
    assert 'href="/quick/"' in page


def test_a_reader_sees_garments_and_their_stages_and_no_wearer(client, people):
    outfit = make_outfit(people.workroom, wearer=make_wearer(people.workroom, name="Ottilie"))
    make_garment(outfit, name="linen stays", stage="sewn")
    client.force_login(people.reader)
    page = client.get("/outfits/").content.decode()
    assert "linen stays" in page
    assert "Ottilie" not in page


@pytest.mark.parametrize("count", [1, 50])
def test_the_list_takes_the_same_queries_at_any_length(maker, people, django_assert_num_queries, count):
    for number in range(count):
        outfit = make_outfit(
            people.workroom,
            name=f"Outfit {number}",
            wearer=make_wearer(people.workroom),
            occasion_on=datetime.date(2030, 1, 1),
        )
        make_garment(outfit)
        make_garment(outfit)
    with django_assert_num_queries(6):
        maker.get("/outfits/")
