"""Where a person is named, and the same words without them."""

import pytest

from fitting.outfits.calculation.discretion import (
    is_named,
    patterns_of,
    sentences_naming,
    with_another_name,
    without_sentences,
)

ROSE = patterns_of(["Rose Lindqvist"])


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
    assert is_named("für ÉLOÏSE MÜNTER", patterns_of(["Éloïse Münter"]))


def test_of_a_long_text_the_whole_sentence_goes():
    said = "Rose is 38 1/2 in round the chest, 30 in at the waist!"
    text = f"Basted the lining. {said} Next: the sleeve.\nRose, again"
    assert sentences_naming(text, ROSE) == [
        said,
        "Rose, again",
    ]
    assert without_sentences(text, ROSE) == "Basted the lining. [erased] Next: the sleeve.\n[erased]"


def test_of_a_short_text_the_name_goes():
    assert with_another_name("Rose Lindqvist’s wedding gown", ROSE) == "[the wearer]’s wedding gown"
    assert with_another_name("Rose’s gown", ROSE, r"Ada \1") == r"Ada \1’s gown"
