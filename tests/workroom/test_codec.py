"""Values that are kept as JSON come back as they were, or with every fault by its path."""

import json
from collections.abc import Mapping
from dataclasses import dataclass

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.lengths.calculation.errors import Faults
from catalogue.workroom.reader.codec import from_json, kept_as, to_json, unsaid
from fitting.pattern.calculation.sums.sheet_answer import (
    AnswerLine,
    Grid,
    SheetAnswer,
    Sketch,
    SketchWord,
    Stroke,
)

FIGURES = st.floats(-1e6, 1e6)
SUMS = st.lists(st.text() | FIGURES, max_size=3).map(tuple)
POINTS = st.tuples(FIGURES, FIGURES)
STROKES = st.builds(
    Stroke, points=st.lists(POINTS, max_size=3).map(tuple), look=st.text(), is_closed=st.booleans()
)
WORKED = st.builds(
    SheetAnswer,
    figures=st.dictionaries(st.text(), FIGURES, max_size=3),
    lines=st.lists(st.builds(AnswerLine, label=st.text(), parts=SUMS), max_size=2).map(tuple),
    grids=st.lists(
        st.builds(
            Grid,
            caption=st.text(),
            heads=st.lists(st.text(), max_size=2).map(tuple),
            rows=st.lists(st.lists(SUMS, max_size=2).map(tuple), max_size=2).map(tuple),
        ),
        max_size=2,
    ).map(tuple),
    flags=st.lists(SUMS, max_size=2).map(tuple),
    drawings=st.lists(
        st.builds(
            Sketch,
            title=st.text(),
            says=st.text(),
            strokes=st.lists(STROKES, max_size=2).map(tuple),
            words=st.lists(st.builds(SketchWord, at=POINTS, parts=SUMS), max_size=2).map(tuple),
        ),
        max_size=2,
    ).map(tuple),
)


@given(WORKED)
def test_a_sheet_of_pattern_work_comes_back_as_it_was(worked):
    assert from_json(SheetAnswer, json.loads(json.dumps(to_json(worked)))) == worked


def test_all_that_is_wrong_is_told_by_its_path():
    kept = to_json(
        SheetAnswer(
            figures={"waist": 640.0},
            lines=(AnswerLine(label="finished", parts=("2 × ", 320.0)),),
            drawings=(Sketch(title="front", says="A front.", strokes=()),),
        )
    )
    kept["figures"]["waist"] = "wide"
    kept["lines"][0] = {"label": 7, "colour": "red"}
    kept["drawings"][0]["strokes"] = [{"points": [[1, 2, 3]], "look": "new"}]
    with pytest.raises(Faults) as raised:
        from_json(SheetAnswer, kept)
    assert str(raised.value).splitlines() == [
        'figures.waist: This must be a number; "wide" is not.',
        "lines[0].colour: This key is not known here.",
        "lines[0].label: This must be text in quotes; 7 is not.",
        "lines[0].parts: This is missing.",
        "drawings[0].strokes[0].points[0]: This must have 2 values.",
    ]


@dataclass(frozen=True)
class Fold:
    depth_mm: float = kept_as("depth")
    of: Mapping[str, float] = kept_as("levels", default_factory=dict)


def test_a_field_is_kept_by_the_spelling_that_rows_have():
    assert to_json(Fold(depth_mm=12.0)) == {"depth": 12.0, "levels": {}}
    assert from_json(Fold, {"depth": 12}) == Fold(depth_mm=12.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Scalars:
    read: Mapping[str, float | str | bool]
    may_be_none: float | None
    more: str | None = unsaid()


@pytest.mark.parametrize(
    "kept",
    [
        {"read": {"a": True, "b": 1.5, "c": "x"}, "may_be_none": None},
        {"read": {}, "may_be_none": 2.0, "more": "said"},
    ],
)
def test_what_may_be_one_of_several_is_read_as_what_it_is_and_what_says_nothing_is_not_kept(kept):
    assert to_json(from_json(Scalars, kept)) == kept
    with pytest.raises(Faults, match=r"read\.a: This must be a number; null is not\."):
        from_json(Scalars, kept | {"read": {"a": None}})
