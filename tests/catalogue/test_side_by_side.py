import pytest

from catalogue.models import Tag
from tests.makers import make_bodice_plate, make_piece, make_plate, make_reference


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def page_of(client, *references):
    return client.get("/references/side-by-side/", {"garment": [reference.pk for reference in references]})


def test_one_garment_alone_is_asked_for_company(maker, people):
    reference = make_reference(people.workroom)
    page = page_of(maker, reference).content.decode()
    assert f"/references/?garment={reference.pk}" in page
    assert "Tick two to 4" in maker.get("/references/side-by-side/").content.decode()


def test_facts_measures_proportions_and_pieces_stand_side_by_side(maker, people):
    first = make_bodice_plate(people.workroom).reference
    second = make_reference(people.workroom, name="jacket", fastening="pinned")
    make_piece(make_plate(second), "side back", {"waist": "1 in", "bust": "1 3/4 in"}, cut=2)
    answer = page_of(maker, first, second)
    page = answer.content.decode()
    # 8 × 2 × (3/4 + 5/8) in and 8 × 2 × 1 in.
    for words in ("22 in", "16 in", "pinned", "Bust − waist", "side back", "± "):
        assert words in page
    waist = next(row for row in answer.context["girths"] if row.label == "Waist")
    assert waist.is_apart
    assert [row.label for row in answer.context["roles"]] == ["Front", "Side", "Back"]


def test_they_stand_in_the_order_asked_for_and_a_fifth_is_left_out(maker, people):
    five = [make_reference(people.workroom, name=f"coat {number}") for number in range(5)]
    answer = page_of(maker, *reversed(five))
    assert [side.reference.name for side in answer.context["sides"]] == [
        "coat 4",
        "coat 3",
        "coat 2",
        "coat 1",
    ]
    assert "Up to 4 garments" in answer.content.decode()


def test_the_plate_with_most_readings_speaks_for_a_garment(maker, people):
    reference = make_bodice_plate(people.workroom).reference
    fuller = make_plate(reference, title="The fuller one")
    make_piece(fuller, "front", {"waist": "1 in", "bust": "1 in", "hip": "1 in"})
    sides = page_of(maker, reference, make_reference(people.workroom)).context["sides"]
    assert sides[0].plate == fuller
    assert sides[1].plate is None


def test_no_garment_of_another_workroom_is_laid_there(maker, people):
    theirs = make_reference(people.stranger.memberships.get().workroom, name="not yours")
    answer = page_of(maker, make_reference(people.workroom), theirs)
    assert len(answer.context["sides"]) == 1
    assert "not yours" not in answer.content.decode()


@pytest.mark.parametrize("key", ["x", "-1", "9" * 30, "1.5", "²", "", "0"])
def test_what_is_no_garment_is_passed_over(maker, people, key):
    assert maker.get("/references/side-by-side/", {"garment": [key, key]}).status_code == 200


@pytest.mark.parametrize("count", [2, 4])
def test_four_are_asked_for_as_often_as_two(maker, people, django_assert_num_queries, count):
    tag = Tag.objects.create(workroom=people.workroom, name="loan")
    references = [make_bodice_plate(people.workroom).reference for _ in range(count)]
    for reference in references:
        reference.tags.add(tag)
    with django_assert_num_queries(11):
        page_of(maker, *references)
