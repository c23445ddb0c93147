from decimal import Decimal

import pytest

from fitting.outfits.models.material import Material
from tests.makers.rows import make_entry, make_garment, make_material, make_outfit, um


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def outfit(people):
    return make_outfit(people.workroom, currency="£", budget=100)


def of(text: str, name: str) -> dict[str, object]:
    return {f"{name}_um": um(text), f"{name}_text": text}


def test_cloth_is_typed_in_any_unit_and_the_rest_is_reckoned(maker, outfit):
    answer = maker.post(
        f"/outfits/{outfit.pk}/materials/add/",
        {"kind": "cloth", "name": "linen", "width_um": "90 cm", "needed_um": "4 1/2 yd", "bought_um": "2 m"},
    )
    assert answer.url == f"/outfits/{outfit.pk}/materials/"
    linen = Material.objects.get()
    assert (linen.width_text, linen.needed_text, linen.bought_text) == ("90 cm", "4 1/2 yd", "2 m")
    # 4 1/2 yd are 4114.8 mm; less 2000 mm: 2114.8 mm or 2.313 yd, and 2 3/8 yd in a shop.
    assert "2 3/8 yd" in maker.get(answer.url).text


def test_a_reader_in_centimetres_buys_metres(client, people, outfit):
    make_material(outfit, **of("4 1/2 yd", "needed"))
    people.reader.system = "cm"
    people.reader.save()
    client.force_login(people.reader)
    assert "4.15 m" in client.get(f"/outfits/{outfit.pk}/materials/").text


def test_by_the_length_or_by_the_piece_but_not_both(maker, outfit):
    form = maker.post(
        f"/outfits/{outfit.pk}/materials/add/",
        {"kind": "notions", "name": "buttons", "needed_um": "2 yd", "needed_count": "11"},
    ).context["form"]
    assert "needed_count" in form.errors
    assert form["needed_um"].value() == "2 yd"


def test_the_shopping_list_goes_shop_by_shop_and_leaves_out_what_is_there(maker, outfit):
    make_material(outfit, name="wool", supplier="Mill", price=30, **of("2 yd", "needed"))
    make_material(outfit, name="tape", kind="notions", supplier="market", **of("9 in", "needed"))
    make_material(outfit, name="buttons", kind="notions", needed_count=11, on_hand_count=4)
    make_material(outfit, name="duck", **of("1 yd", "needed"), **of("2 yd", "on_hand"))
    answer = maker.get(f"/outfits/{outfit.pk}/shopping/")
    assert [(shop, [str(row.material) for row in found]) for shop, found in answer.context["shops"]] == [
        ("market", ["tape"]),
        ("Mill", ["wool"]),
        ("", ["buttons"]),
    ]
    for words in ("<strong>2 yd</strong> wool", "<strong>9 in</strong> tape", "<strong>7</strong> buttons"):
        assert words in answer.text
    assert "duck" not in answer.text


def test_money_is_held_against_the_budget(maker, outfit):
    make_material(outfit, cost=Decimal("40.10"))
    make_material(outfit, price=Decimal("30.25"))
    make_entry(outfit, cost=Decimal("9.90"))
    spending = maker.get(f"/outfits/{outfit.pk}/materials/").context["spending"]
    assert (spending.spent, spending.left) == (Decimal("50.00"), Decimal("19.75"))
    assert not spending.is_over
    make_entry(outfit, cost=Decimal("19.76"))
    page = maker.get(f"/outfits/{outfit.pk}/materials/").text
    assert "£ −0.01" not in page
    assert "−£ 0.01" in page
    assert "over the budget" in page


def test_a_price_for_a_yard_is_taken_times_what_is_still_to_buy(maker, outfit):
    # 4 yd needed, 1 1/2 on hand: 2 1/2 yd at £ 12 a yard.
    make_material(outfit, price=12, price_for="yd", **of("4 yd", "needed"), **of("1 1/2 yd", "on_hand"))
    answer = maker.get(f"/outfits/{outfit.pk}/materials/")
    assert answer.context["spending"].expected == 30
    assert "£ 30.00 <small" in answer.text
    assert "£ 12.00 a yard" in answer.text
    assert "expected £ 30.00" in maker.get(f"/outfits/{outfit.pk}/shopping/").text


def test_a_price_for_a_metre_of_buttons_is_asked_about(maker, outfit):
    sent = {"kind": "notions", "name": "buttons", "needed_count": "12", "price": "3", "price_for": "m"}
    form = maker.post(f"/outfits/{outfit.pk}/materials/add/", sent).context["form"]
    assert "counted by the piece" in str(form.errors["price_for"])
    maker.post(f"/outfits/{outfit.pk}/materials/add/", {**sent, "price_for": "piece"})
    assert Material.objects.get().price_for == "piece"


def test_an_outfit_without_money_of_its_own_takes_the_workrooms(maker, people):
    people.workroom.currency = "€"
    people.workroom.save()
    outfit = make_outfit(people.workroom)
    make_material(outfit, cost=5)
    assert "€ 5.00" in maker.get(f"/outfits/{outfit.pk}/materials/").text
    assert "Paid, €" in maker.get(f"/outfits/{outfit.pk}/materials/add/").text


def test_amounts_in_two_tables_do_not_multiply(maker, outfit):
    for _ in range(3):
        make_material(outfit, cost=2)
        make_entry(outfit, cost=1)
    assert maker.get(outfit.get_absolute_url()).context["spending"].spent == 9


def test_a_material_is_changed_and_taken_off(maker, outfit):
    material = make_material(outfit, garment=make_garment(outfit))
    maker.post(f"/materials/{material.pk}/change/", {"kind": "lining", "name": "blue silk", "cost": "12.50"})
    material.refresh_from_db()
    assert (material.name, material.cost, material.garment) == ("blue silk", Decimal("12.50"), None)
    maker.post(f"/materials/{material.pk}/delete/")
    assert not Material.objects.exists()


@pytest.mark.parametrize("count", [1, 50])
def test_the_page_takes_the_same_queries_for_any_number(maker, outfit, django_assert_num_queries, count):
    for number in range(count):
        make_material(outfit, garment=make_garment(outfit, name=f"garment {number}"))
    with django_assert_num_queries(5):
        maker.get(f"/outfits/{outfit.pk}/materials/")


def test_a_budget_is_set_with_the_outfit(maker, outfit):
    maker.post(
        f"/outfits/{outfit.pk}/change/",
        {"name": "Ball", "budget": "250", "currency": "kr", "hours_a_week": "6"},
    )
    outfit.refresh_from_db()
    assert (outfit.budget, outfit.currency, outfit.hours_a_week) == (250, "kr", 6)


def test_an_empty_list_says_what_it_does(maker, outfit):
    assert "the shopping list makes itself" in maker.get(f"/outfits/{outfit.pk}/materials/").text
