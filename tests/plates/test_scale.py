"""However a book states its scale, it comes to the same factor."""

from fractions import Fraction

import pytest

from catalogue.lengths.calculation.errors import NotUnderstood
from catalogue.lengths.calculation.lengths import parse_length
from catalogue.plates.calculation.scale import (
    RELATIVE_DOUBT,
    Scale,
    ScaleNotUnderstood,
    from_known,
    measured_relative_doubt,
    read_ratio,
    read_words,
)


@pytest.mark.parametrize(
    ("text", "factor"),
    # ISO 5455:1979 has 1:5, 1:10, 2:1; inch plates are at 1:8 and 1:4, which it has not.
    [("1:8", 8), ("1 : 4", 4), ("1:5", 5), ("1:10", 10), ("2:1", Fraction(1, 2)), ("1.5:12", 8), ("1∶8", 8)],
)
def test_a_ratio_puts_the_page_first(text, factor):
    assert read_ratio(text) == factor


@pytest.mark.parametrize(
    "text", ["", "8", "1:0", "0:8", "-1:8", "1/8", "1:8:2", "1:1e3", "one to eight", "1:" + "9" * 30]
)
def test_what_is_no_ratio_is_refused(text):
    with pytest.raises(ScaleNotUnderstood):
        read_ratio(text)


@pytest.mark.parametrize(
    "words",
    [
        "1 in = 8 in",
        "1/8 in = 1 in",
        "1 inch equals 8 inches",
        "1 in to 8 in",
        "1 cm stands for 8 cm",
        "1 pouce = 8 pouces",
    ],
)
def test_words_state_the_page_first(words):
    assert read_words(words) == 8


@pytest.mark.parametrize("words", ["1 in", "1 = 8", "1 in = 8 in = 64 in", "0 in = 8 in", "1 in = 0 in"])
def test_words_without_two_lengths_are_refused(words):
    with pytest.raises(NotUnderstood):
        read_words(words)


def test_a_grid_square_a_bar_and_a_known_edge_are_one_thing():
    assert from_known(parse_length("1/8 in"), parse_length("1 in")) == 8
    assert from_known(parse_length("12.5 cm"), parse_length("1 m")) == 8


def test_a_scale_is_the_same_both_ways_unless_the_paper_stretched():
    assert Scale.of(8) == Scale(along=8.0, across=8.0, relative_doubt=RELATIVE_DOUBT["book"])


def test_a_bar_of_six_inches_read_to_a_sixteenth_gives_its_own_doubt():
    # d/√6 = 0.0625/2.449490 = 0.025516 in; of 6 in: 0.425 %.
    assert measured_relative_doubt(6 * 25.4, 25.4 / 16) == pytest.approx(0.0042525, rel=1e-4)
