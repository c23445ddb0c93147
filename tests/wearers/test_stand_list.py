import pytest

from tests.makers.rows import make_garment, make_outfit, make_stand


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def test_a_stand_is_kept_with_the_measures_that_were_typed(maker, people):
    maker.post(
        "/stands/add/", {"name": "Linen stand", "measure_waist": "24", "measure_nape_to_waist": "15 1/2"}
    )
    stand = people.workroom.stands.get()
    assert {one.line: one.value_text for one in stand.measures.all()} == {
        "waist": "24 in",
        "nape to waist": "15 1/2 in",
    }
    boxes = {box.html_name: box.value() for box in maker.get(stand.get_absolute_url()).context["form"]}
    assert boxes["measure_waist"] == "24 in"
    maker.post(stand.get_absolute_url(), {"name": "Linen stand", "measure_waist": "24 1/2"})
    assert [one.value_text for one in stand.measures.all()] == ["24 1/2 in"]


def test_a_faulty_measure_stands_beside_its_box_and_loses_nothing(maker, people):
    page = maker.post(
        "/stands/add/", {"name": "Linen stand", "measure_waist": "about 24", "measure_hip": "36"}
    )
    assert list(page.context["form"].errors) == ["measure_waist"]
    assert page.context["form"]["measure_hip"].value() == "36"
    assert not people.workroom.stands.exists()


def test_deleting_a_stand_names_the_garments_that_lose_it(maker, people):
    stand = make_stand(people.workroom)
    garment = make_garment(make_outfit(people.workroom), name="grey gown", stand=stand)
    assert "Grey gown" in maker.get(f"/stands/{stand.pk}/delete/").content.decode()
    maker.post(f"/stands/{stand.pk}/delete/")
    garment.refresh_from_db()
    assert garment.stand is None


@pytest.mark.parametrize("path", ["/stands/", "/patterns/"])
def test_an_empty_list_says_what_it_is_for(maker, path):
    assert "yet." in maker.get(path).content.decode()


@pytest.mark.parametrize("count", [1, 50])
def test_the_list_takes_the_same_queries_at_any_length(maker, people, django_assert_num_queries, count):
    for number in range(count):
        stand = make_stand(people.workroom, name=f"Stand {number}")
        stand.measures.create(line="waist", value_um=600_000)
    with django_assert_num_queries(6):
        maker.get("/stands/")
