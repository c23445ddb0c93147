"""What anybody may read of a maker's words: sentences before and after, read off by hand."""

import pytest

from fitting.outfits.calculation.discretion import without_measures, words_for_anybody

# No measure of anybody: places along a hem, an hour, a row.
NO_MEASURES = (
    "Pins at 10 12 14 16 18 20 22 24 26 28 30 from the hem",
    "3 in the evening",
    "12 in a row",
    "one hip is higher",
    "twelve of them, and one to keep",
)


@pytest.mark.parametrize("text", NO_MEASURES)
def test_numbers_of_other_things_stay(text):
    assert without_measures(text) == text


@pytest.mark.parametrize(
    ("text", "left"),
    [
        ("laced to 63,5 cm", "laced to [a measure]"),
        ("waist in by 1 1/2 in", "waist in by [a measure]"),
        ("−1/2 in more", "[a measure] more"),
        ("half an inch, ten to twelve inches", "[a measure], [a measure]"),
        ("twenty-six inches", "[a measure]"),
        ("26½″ round, 36-1/2 in above", "[a measure] round, [a measure] above"),
        ("10 and 12 in", "[a measure]"),
        ("26 round the waist", "[a measure] round the waist"),
        ("waist is now 26", "waist is now [a measure]"),
        ("hip: 40 to 42", "hip: [a measure]"),
        ("10 12 14 in from the hem", "[a measure] from the hem"),
    ],
)
def test_a_number_with_a_unit_or_beside_a_level_goes(text, left):
    assert without_measures(text) == left


@pytest.mark.parametrize(
    ("text", "left"),
    [
        ("Ann Lee's gown; LEE at Leeds", "[the wearer]'s gown; [the wearer] at Leeds"),
        ("for Lee, Ann", "for [the wearer], [the wearer]"),
        ("Kate O'Brien and O'Brien", "[the wearer] and [the wearer]"),
        ("a Lee-side seam, Annette", "a [the wearer]-side seam, Annette"),
    ],
)
def test_names_go_as_whole_words(text, left):
    assert words_for_anybody(text, ["Ann Lee", "Kate O'Brien"]) == left
