"""Texts that are no length, or more than one: each is refused with a sentence that says why."""

import re

import pytest

from catalogue.lengths.calculation.errors import LengthNotUnderstood
from catalogue.lengths.calculation.lengths import parse_length

REFUSED = [
    ("", "Type a length"),
    (" \n\t ", "Type a length"),
    ("26–28 in", "range"),
    ("26-28 in", "range"),
    ("1-2 in", "range"),
    ("1/2-3/4 in", "range"),
    ("1 1/2 – 2 in", "range"),
    ("26 to 28 in", "range"),
    ("26 in to 28 in", "range"),
    ("26 or 28 in", "range"),
    ("26..28 in", "range"),
    ("5'-6'", "range"),
    ("-1 in", "sign"),
    ("−1 in", "sign"),
    ("+1 in", "sign"),
    ("1/0", "0 parts"),
    ("1 1/0 in", "0 parts"),
    ("0/0 in", "0 parts"),
    ("nan", "no number"),
    ("NaN in", "no number"),
    ("inf", "no number"),
    ("Infinity cm", "no number"),
    ("in", "no number"),
    ("½", "of what"),
    ("7", "of what"),
    ("3 furlongs", "furlongs"),
    ("3 kg", "kg"),
    ("3 e", "not a unit"),
    ("3 in²", "not a unit"),
    ("1e3 mm", "calculation"),
    ("1E-3 m", "calculation"),
    ("9**9**9 m", "calculation"),
    ("2*3 in", "calculation"),
    ("2^3 in", "calculation"),
    ("1 1/2 1/2 in", "without a unit"),
    ("1/2/3 in", "not understood"),
    ("1 3/2 in", "less than one"),
    ("1 2/2 in", "less than one"),
    ("1.234,5 cm", "without a unit"),
    ("1,234.5 cm", "1234 or 1.234"),
    ("1,234 mm", "1234 or 1.234"),
    ("14.5.5 cm", "without a unit"),
    ("1 234 mm", "without a unit"),
    ("5. in", "not understood"),
    ("2 in 3 ft", "larger unit first"),
    ("1 in 2 in", "larger unit first"),
    ("1 in 2 inches", "larger unit first"),
    ("5 ft 2", "without a unit"),
    ("5'2", "without a unit"),
    ("5 ft 2 cm", "not counted together"),
    ("1 Vienna Elle 2 Prussian Ellen", "not counted together"),
    ("in 5", "not understood"),
    ("٣ in", "no number"),
    ("１ in", "no number"),
    ("1,5,5 cm", "without a unit"),
    ("1__2 in", "not understood"),
    ("0x10 in", "not a unit"),
    ("{0} in", "not understood"),
    ("%s in", "no number"),
    ("1\x00 in", "not understood"),
    ("12345678901 in", "digits"),
    ("1/12345678901 in", "digits"),
    ("1 km", "km"),
    ("101 m", "over 100 m"),
    ("3938 in", "over 100 m"),
    ("999999999 yd", "over 100 m"),
    ("1" * 61, "too long"),
    ("1 in" + " " * 60, "too long"),
    ("5 lines", "lignes"),
    ("3 quarters", "quarter yards"),
    ("6 points", "French points"),
    ("2 ells", "Flemish"),
    ("2 Ellen", "Prussian"),
    ("1 aune", "Paris"),
    ("2 varas", "Castilian"),
]


@pytest.mark.parametrize(("text", "words"), REFUSED)
def test_what_is_no_length_or_more_than_one_is_refused_with_a_sentence_that_says_why(text, words):
    with pytest.raises(LengthNotUnderstood, match=re.escape(words)) as refused:
        parse_length(text)
    assert refused.value.sentence.endswith(".")


@pytest.mark.parametrize(
    "text", ["--1 in", "-1--2 in", "1 - 2 in", "1 -1/2 in", "-", "−", "+-1 in", "2 in -1 in"]
)
def test_a_sign_stands_once_and_first(text):
    with pytest.raises(LengthNotUnderstood):
        parse_length(text, signed=True)
