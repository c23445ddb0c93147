"""Where a person is named, and the same words without them."""

import pytest

from fitting.outfits.calculation.discretion import (
    is_named,
    names_of,
    sentences_naming,
    without_names,
    without_sentences,
)

ROSE = names_of(["Rose Lindqvist"], parts_as_written=True)


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("Rose came at four.", True),
        ("rose lindqvist", True),
        ("For Lindqvist’s bodice", True),
        ("A rose silk, and rosettes", False),
        ("Roseanne is somebody else", False),
        ("ROSE", False),
        ("Zoë", False),
    ],
)
def test_a_name_is_found_as_a_whole_word_and_its_parts_by_their_capital(text, named):
    assert is_named(text, ROSE) is named


def test_letters_beyond_ascii_are_found_whatever_their_capitals():
    assert is_named("für ÉLOÏSE MÜNTER", names_of(["Éloïse Münter"], parts_as_written=True))


def test_where_nobody_may_be_told_its_parts_go_whatever_their_capitals():
    anybody = names_of(["Rose Lindqvist"], parts_as_written=False)
    assert without_names("ROSE in rose silk, rosettes", anybody) == (
        "[the wearer] in [the wearer] silk, rosettes"
    )


@pytest.mark.parametrize("text", ["Frau Weiß", "FRAU WEISS", "weiß"])
def test_a_letter_that_is_two_in_capitals_hides_nobody(text):
    assert "[the wearer]" in without_names(text, names_of(["Ilse Weiß"], parts_as_written=False))


def test_of_a_long_text_the_whole_sentence_goes():
    said = "Rose is 38 1/2 in round the chest, 30 in at the waist!"
    text = f"Basted the lining. {said} Next: the sleeve.\nRose, again"
    assert sentences_naming(text, ROSE) == [
        said,
        "Rose, again",
    ]
    assert without_sentences(text, ROSE) == "Basted the lining. [erased] Next: the sleeve.\n[erased]"


def test_of_a_short_text_the_name_goes():
    assert without_names("Rose Lindqvist’s wedding gown", ROSE) == "[the wearer]’s wedding gown"
    assert without_names("Rose’s gown", ROSE, instead=r"Ada \1") == r"Ada \1’s gown"
