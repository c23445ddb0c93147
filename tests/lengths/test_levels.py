"""The vocabulary of girths and lengths: complete, without doubles, each told in a sentence."""

import pytest

from catalogue.lengths.calculation.levels import EVERYONE, LINES, girths, lengths

# ISO 8559:1989, as listed in Gupta and Zakaria, Anthropometry, Apparel Sizing and Design, table 4.1.
LISTED_TERMS = {
    "shoulder length", "back width", "upper-arm length", "arm length", "head girth", "neck girth",
    "neck-base girth", "bust girth", "upper-arm girth", "armscye girth", "elbow girth", "wrist girth",
    "hand girth", "waist girth", "hip girth", "thigh girth", "knee girth", "calf girth", "ankle girth",
    "scye depth", "body rise",
}  # fmt: skip


def test_the_terms_listed_for_the_standard_are_all_there():
    assert {line.iso_term for line in LINES.values()} >= LISTED_TERMS


def test_no_term_stands_for_two_lines():
    terms = [line.iso_term for line in LINES.values() if line.iso_term]
    assert len(terms) == len(set(terms))
    labels = [line.label for line in LINES.values()]
    assert len(labels) == len(set(labels))


def test_girths_and_lengths_are_all_the_lines_and_no_row_hides_another():
    assert [line.key for line in girths() + lengths()] == list(LINES)
    assert {line.kind for line in girths()} == {"girth"}
    assert {line.kind for line in lengths()} == {"length"}


@pytest.mark.parametrize("line", LINES.values(), ids=LINES)
def test_a_line_says_how_it_is_taken_and_for_whom(line):
    assert line.instruction.endswith(".")
    assert line.groups
    assert line.groups <= EVERYONE
    assert not (line.has_arcs and line.kind == "length")


def test_pairs_of_limbs_may_be_taken_apart_and_the_waist_may_not():
    assert all(LINES[key].has_sides for key in ("upper arm", "wrist", "thigh", "calf", "sleeve", "shoulder"))
    assert not any(LINES[key].has_sides for key in ("waist", "bust", "neck", "nape to waist"))


@pytest.mark.parametrize("group", sorted(EVERYONE))
def test_every_kind_of_dress_has_the_girths_of_a_body_garment_and_some_lower_edge(group):
    keys = {key for key, line in LINES.items() if group in line.groups}
    assert keys >= {"bust", "waist", "hip", "nape to waist", "sleeve"}
    assert keys & {"skirt front", "outside leg"}
