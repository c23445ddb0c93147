from decimal import Decimal

import pytest

from fitting.outfits.calculation.money import cloth_text, expected_price, still_to_buy

YARD_MM = 914.4  # exactly, by the international yard agreement of 1959


@pytest.mark.parametrize(
    ("mm", "system", "text"),
    [
        (YARD_MM, "in", "1 yd"),
        (YARD_MM * 4.5, "in", "4 1/2 yd"),
        (YARD_MM * 4.5 + 0.1, "in", "4 5/8 yd"),
        (YARD_MM * 0.99, "in", "36 in"),
        (228.6, "in", "9 in"),
        (228.7, "in", "10 in"),
        (1000, "cm", "1.00 m"),
        (1001, "cm", "1.05 m"),
        (2150, "cm", "2.15 m"),
        (123, "cm", "13 cm"),
    ],
)
def test_a_length_is_rounded_up_to_what_a_shop_cuts(mm, system, text):
    assert cloth_text(mm, system) == text


@pytest.mark.parametrize(
    ("needed", "on_hand", "bought", "rest"),
    [(5, 2, 1, 2), (5, None, None, 5), (5, 9, None, 0), (None, 3, 1, 0)],
)
def test_what_is_there_is_not_bought_again(needed, on_hand, bought, rest):
    assert still_to_buy(needed, on_hand, bought) == rest


@pytest.mark.parametrize(
    ("price", "price_for", "mm", "count", "expected"),
    [
        # 2.1 yd is cut as 2 1/8 yd: 2.125 · 24 = 51.
        ("24.00", "yd", YARD_MM * 2.1, 0, "51.00"),
        # 30 in is 30/36 of a yard: 12 · 30/36 = 10.
        ("12.00", "yd", 762, 0, "10.00"),
        # 1.52 m is cut as 1.55 m: 18.50 · 1.55 = 28.675, half a hundredth up.
        ("18.50", "m", 1520, 0, "28.68"),
        ("18.50", "m", 3000, 0, "55.50"),
        ("0.35", "piece", 0, 12, "4.20"),
        ("30.25", "", 4000, 0, "30.25"),
        ("18.50", "m", 0, 0, "0.00"),
    ],
)
def test_a_price_is_for_a_length_for_a_piece_or_for_all(price, price_for, mm, count, expected):
    found = expected_price(Decimal(price), price_for=price_for, to_buy_mm=mm, to_buy_count=count)
    assert found == Decimal(expected)


def test_without_a_price_nothing_is_expected():
    assert expected_price(None, price_for="m", to_buy_mm=1000, to_buy_count=0) is None
