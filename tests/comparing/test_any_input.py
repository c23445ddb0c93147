"""Whatever stands in a file, it is answered or its faults are told: nothing else comes out."""

import copy
import json
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.lengths.calculation.errors import Faults
from fitting.comparing.calculation.assessment import assess
from fitting.comparing.exchange.answer import assessment_to_json
from fitting.comparing.exchange.case_file import CaseFile, read_case
from fitting.comparing.exchange.plain_text import assessment_text
from tests.examples import examples
from tests.makers.cases import WORKED

WHOLE = json.loads((WORKED / "bodice_over_stays.json").read_text(encoding="utf-8")) | {
    "stand": {"girths": {"waist": "24 in"}},
    "patterns_in_hand": True,
    "days_left": 5,
    "hours_a_day": 2,
}

words = st.sampled_from(
    ["0 in", "1/64 in", "25 in", "99 m", "-1 in", "12", "none", "not known", "gathered", "loose", "not there",
     "1:8", "1:99999999999999999999", "study", "waist", "hip", "working", ""]
)  # fmt: skip
values = st.recursive(
    st.none() | st.booleans() | st.integers(-3, 10**30) | st.floats() | words | st.text(max_size=8),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.sampled_from(["waist", "bust", "hip", "x"]), inner, max_size=3)
    ),
    max_leaves=4,
)


def places(value: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """The path of every value in a tree, but for the root."""
    inside = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    found = [path] if path else []
    for key, one in inside:
        found += places(one, (*path, key))
    return found


def with_value(path: tuple[Any, ...], value: Any) -> Any:
    case: Any = copy.deepcopy(WHOLE)
    at = case
    for step in path[:-1]:
        at = at[step]
    at[path[-1]] = value
    return case


def read(case: Any) -> CaseFile | Faults:
    try:
        return read_case(json.dumps(case))
    except Faults as faults:
        return faults


@settings(max_examples=examples(200))
@given(st.sampled_from(places(WHOLE)), values)
def test_any_value_at_any_place_is_answered_or_faulted(path, value):
    found = read(with_value(path, value))
    if isinstance(found, Faults):
        assert found.faults
        assert all("\n" not in str(fault) and fault.where and fault.sentence for fault in found.faults)
        return
    assessment = assess(found.case)
    json.dumps(assessment_to_json(assessment, defaults_used=found.defaults_used), allow_nan=False)
    assert "Routes to the pattern" in assessment_text(assessment, found.defaults_used)


@given(st.sampled_from(places(WHOLE)))
def test_whatever_is_left_out_is_answered_or_faulted(path):
    case = with_value(path, None)
    at = case
    for step in path[:-1]:
        at = at[step]
    del at[path[-1]]
    required = {("scale",), ("scale", "ratio"), ("pieces",), ("measures",), ("measures", "girths")}
    is_faulted = isinstance(read(case), Faults)
    assert is_faulted or path not in required
    assert not is_faulted or path in required or path[0] in ("lengths", "pieces", "stand")
