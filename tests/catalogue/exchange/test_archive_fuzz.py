"""Archives that were damaged or written by anybody: taken whole, or refused with reasons."""

import io
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from catalogue.measuring.errors import Faults
from tests.catalogue.exchange.packing import broken, document, rows_of, take, taken_out, with_document


@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(at=st.integers(min_value=0), octet=st.integers(min_value=0, max_value=255), cut=st.booleans())
def test_a_damaged_archive_is_refused_or_says_the_same(workroom, empty, at, octet, cut):
    file = taken_out(workroom)
    octets = bytearray(file.getvalue())
    at %= len(octets)
    octets[at] = octet
    try:
        take(empty, io.BytesIO(bytes(octets[:at] if cut else octets)), only_try=True)
    except Faults as faulty:
        faults = faulty.faults
    else:
        faults = None
    assert faults is None or all(fault.sentence for fault in faults)
    assert not any(rows_of(empty).values())


ANYTHING = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(max_size=12) | st.sampled_from(["1:8", "0 in", "1/2 in", "grid", "waist", "1785~"]),
    lambda inside: st.lists(inside, max_size=3) | st.dictionaries(st.text(max_size=6), inside, max_size=3),
    max_leaves=6,
)  # fmt: skip


def places(said: Any, way: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """The way to every value of a document."""
    pairs = said.items() if isinstance(said, dict) else enumerate(said) if isinstance(said, list) else ()
    return [place for key, value in pairs for place in [(*way, key), *places(value, (*way, key))]]


@settings(max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_whatever_stands_in_a_file_it_is_taken_whole_or_refused_with_reasons(workroom, empty, data):
    file = taken_out(workroom)
    said = document(file)
    for place in data.draw(st.lists(st.sampled_from(places(said)), min_size=1, max_size=3)):
        value = data.draw(ANYTHING)
        try:
            broken(list(place), value)(said)
        except (KeyError, IndexError, TypeError):
            continue  # an earlier change took this place away
    before = rows_of(empty)
    try:
        take(empty, with_document(file, said), only_try=True)
    except Faults as faulty:
        faults = faulty.faults
    else:
        faults = None
    assert faults is None or all(fault.where and fault.sentence for fault in faults)
    assert rows_of(empty) == before
