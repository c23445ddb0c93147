import pytest

from tests.makers.rows import make_bodice_plate, make_garment, make_measures, make_outfit, make_wearer


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def test_one_button_makes_a_comparison_and_shows_it(maker, people):
    wearer = make_wearer(people.workroom)
    make_measures(wearer, state="undressed")
    garment = make_garment(
        make_outfit(people.workroom, wearer=wearer), plate=make_bodice_plate(people.workroom)
    )
    response = maker.post(f"/garments/{garment.pk}/compare/", follow=True)
    comparison = garment.comparisons.get()
    assert response.redirect_chain == [(comparison.get_absolute_url(), 302)]
    assert (comparison.made_by, comparison.wearer, comparison.rule_version) == (people.maker, wearer, "2")


def test_what_is_missing_is_said_with_the_way_to_it(maker, people):
    garment = make_garment(make_outfit(people.workroom))
    page = maker.post(f"/garments/{garment.pk}/compare/", follow=True).content.decode()
    assert "cannot be compared yet" in page
    assert f'href="/garments/{garment.pk}/change/"' in page
    assert f'href="/outfits/{garment.outfit.pk}/change/"' in page
    assert not garment.comparisons.exists()
