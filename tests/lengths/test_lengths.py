"""Typed lengths: what is read, what is shown, and that nothing changes on the way there and back."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.lengths.calculation.errors import LengthNotUnderstood
from catalogue.lengths.calculation.lengths import (
    canonical_text,
    format_length,
    format_number,
    parse_length,
    to_um,
)
from catalogue.lengths.calculation.units import mm_per, unit_names

INCH = Fraction("25.4")  # NIST Handbook 44, Appendix C: exact

WRITTEN_AND_INCHES = [
    ("1 1/2 in", Fraction(3, 2)),
    ("1½″", Fraction(3, 2)),
    ("1 ½ in", Fraction(3, 2)),
    ('1-1/2"', Fraction(3, 2)),
    ("1-½ in.", Fraction(3, 2)),
    ("1‑1/2 inches", Fraction(3, 2)),
    ("1⁄2 in", Fraction(1, 2)),
    ("⅞ in", Fraction(7, 8)),
    ("19/16 in", Fraction(19, 16)),
    ("1.5 INCHES", Fraction(3, 2)),
    (".5in", Fraction(1, 2)),
    ("0,125 in", Fraction(1, 8)),
    ("1\u00a01/2\u2009in", Fraction(3, 2)),
    ("\ufeff1\u200b 1/2 in", Fraction(3, 2)),
    ("5 ft 2 in", 62),
    ("5'2\"", 62),
    ("5’ 2 1/2”", Fraction(125, 2)),
    ("5′2′′", 62),
    ("5 ft, 2 in", 62),
    ("5 ft,2 in", 62),
    ("1 yd 2 ft 3 in", 63),
    ("1 1/2 yd 3 in", 57),
    ("2 nails", Fraction(9, 2)),
    ("2 quarters of a yard 1 nail", Fraction(81, 4)),
    ("2 Ells English", 90),
    ("0 in", 0),
]


@pytest.mark.parametrize(("text", "inches"), WRITTEN_AND_INCHES)
def test_inches_are_read_as_makers_write_them(text, inches):
    assert parse_length(text) == inches * INCH


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("14.5 cm", 145),
        ("14,5 cm", 145),
        ("145mm", 145),
        ("1 m 20 cm", 1200),
        ("1 mètre", 1000),
        ("3 pouces 4 lignes", 40 * Fraction("324.839385") / 144),
        ("1 aune de Paris 2 pouces", Fraction("324.839385") * (Fraction(6322, 1728) + Fraction(2, 12))),
    ],
)
def test_metric_and_french_lengths_are_read_exactly(text, mm):
    assert parse_length(text) == mm


def test_a_bare_number_takes_the_unit_the_field_states():
    assert parse_length("1 1/2", unit="in") == Fraction("38.1")
    assert parse_length("14,5", unit="cm") == 145
    assert parse_length("14.5 cm", unit="in") == 145


def test_off_a_rule_in_sixteenths_a_bare_whole_number_is_sixteenths_of_an_inch():
    assert parse_length("19", unit="in", sixteenths=True) == Fraction(19, 16) * INCH
    assert parse_length("19", unit="cm", sixteenths=True) == Fraction(19, 16) * INCH
    assert parse_length("1 3/16", unit="in", sixteenths=True) == Fraction(19, 16) * INCH
    assert parse_length("1.5", unit="in", sixteenths=True) == Fraction(3, 2) * INCH
    assert parse_length("3 cm", unit="in", sixteenths=True) == 30


@pytest.mark.parametrize("minus", ["-", "−", "–", "- "])
def test_ease_may_be_negative(minus):
    assert parse_length(f"{minus}1 1/2 in", signed=True) == Fraction("-38.1")
    assert parse_length("+1/2 in", signed=True) == Fraction("12.7")


@given(
    st.text(max_size=70)
    | st.text(alphabet="0123456789 /⁄.,-–−+½¾e'\"″infctmydnailspouce", max_size=30)
    | st.lists(
        st.sampled_from(["1", "1/2", "½", "2.5", "2,5", "in", "ft", "-", "to", '"', "nails", " "])
    ).map("".join),
    st.sampled_from([None, "in", "cm"]),
    st.booleans(),
    st.booleans(),
)
def test_any_text_is_a_length_or_refused_and_written_out_it_reads_the_same(text, unit, sixteenths, signed):
    try:
        mm = parse_length(text, unit=unit, sixteenths=sixteenths, signed=signed)
    except LengthNotUnderstood:
        return
    assert isinstance(mm, Fraction)
    assert abs(mm) <= 100_000
    assert signed or mm >= 0
    assert parse_length(canonical_text(text, unit, sixteenths, signed=signed), signed=signed) == mm


numbers = st.one_of(
    st.integers(0, 999).map(lambda n: (str(n), Fraction(n))),
    st.tuples(st.integers(0, 99), st.integers(1, 31)).map(
        lambda p: (f"{p[0]} {p[1]}/32", p[0] + Fraction(p[1], 32))
    ),
    st.tuples(st.integers(0, 99), st.integers(0, 999), st.sampled_from(".,")).map(
        lambda p: (f"{p[0]}{p[2]}{p[1]:04}", Fraction(p[0] * 10_000 + p[1], 10_000))
    ),
)
small_units = st.sampled_from([name for name in unit_names() if mm_per(name) < 100])


@given(numbers, small_units, st.sampled_from(["", " ", "\u00a0"]))
def test_a_number_and_a_unit_are_their_product(number, unit, space):
    text, value = number
    assert parse_length(f"{text}{space}{unit}") == value * mm_per(unit)


@given(st.integers(-3200, 3200), st.sampled_from([8, 16, 32]))
def test_an_inch_fraction_shown_and_typed_again_is_the_same_length(steps, denominator):
    mm = Fraction(steps, denominator) * INCH
    assert parse_length(format_length(mm, denominator=denominator), signed=True) == mm


@given(st.integers(-5000, 5000))
def test_a_tenth_of_a_centimetre_shown_and_typed_again_is_the_same_length(mm):
    assert parse_length(format_length(mm, system="cm"), signed=True) == mm


@given(st.fractions(-10_000, 10_000), st.sampled_from([8, 16, 32]))
def test_what_is_shown_is_within_half_a_step(mm, denominator):
    shown = parse_length(format_length(mm, denominator=denominator), signed=True)
    assert abs(shown - mm) <= INCH / denominator / 2


@pytest.mark.parametrize(
    ("mm", "denominator", "shown"),
    [
        (Fraction("30.1625"), 16, "1 3/16 in"),
        (-12.7, 16, "−1/2 in"),
        (Fraction("-38.1"), 16, "−1 1/2 in"),
        (0, 16, "0 in"),
        (-0.2, 16, "0 in"),
        (25.4, 8, "1 in"),
        (25.39, 8, "1 in"),
        (Fraction("31.75") - Fraction(1, 100), 32, "1 1/4 in"),
        (INCH / 16, 8, "1/8 in"),
        (-INCH / 16, 8, "−1/8 in"),
    ],
)
def test_inches_are_shown_as_mixed_fractions(mm, denominator, shown):
    assert format_length(mm, denominator=denominator) == shown


def test_centimetres_are_shown_with_one_decimal():
    assert format_length(Fraction("368.4"), system="cm") == "36.8 cm"
    assert format_number(-2, system="cm") == "−0.2"
    assert format_number(-0.2, system="cm") == "0.0"


def test_the_text_kept_names_its_unit_and_is_otherwise_as_typed():
    assert canonical_text("19", "in", True) == "19/16 in"
    assert canonical_text("1 1/2", "in", True) == "1 1/2 in"
    assert canonical_text(" 1½ ", "in") == "1½ in"
    assert canonical_text("14,5", "cm") == "14,5 cm"
    assert canonical_text("5'2\"", "cm") == "5'2\""
    assert canonical_text("−3", "in", True, signed=True) == "−3/16 in"


def test_lengths_are_stored_to_the_nearest_micrometre():
    assert to_um(parse_length("1/16 in")) == 1588  # 1587.5: halves to the even number
    assert to_um(parse_length("14.5 cm")) == 145_000
