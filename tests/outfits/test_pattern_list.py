import pytest

from tests.makers.rows import make_pattern


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def test_a_pattern_is_added_changed_and_deleted(maker, people):
    maker.post("/patterns/add/", {"name": "Sleeve block", "size": "12", "parts": "sleeve, cuff"})
    pattern = people.workroom.patterns_in_hand.get()
    assert pattern.parts_named() == {"sleeve", "cuff"}
    maker.post(f"/patterns/{pattern.pk}/change/", {"name": "Sleeve block", "size": "14", "parts": "sleeve"})
    assert "14" in maker.get("/patterns/").content.decode()
    maker.post(f"/patterns/{pattern.pk}/delete/")
    assert not people.workroom.patterns_in_hand.exists()


@pytest.mark.parametrize("count", [1, 50])
def test_the_list_takes_the_same_queries_at_any_length(maker, people, django_assert_num_queries, count):
    for number in range(count):
        make_pattern(people.workroom, name=f"Pattern {number}")
    with django_assert_num_queries(6):
        maker.get("/patterns/")
