import pytest

from fitting.outfits.calculation.money import cloth_text, still_to_buy

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
