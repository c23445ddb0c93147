"""Archives that were damaged or written by anybody: taken whole, or refused with reasons."""

import io
import json
from copy import deepcopy
from math import isfinite
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from catalogue.lengths.calculation.errors import Faults
from catalogue.plates.models.piece import Piece
from catalogue.tracing.calculation.calibration import PixelMap
from catalogue.tracing.calculation.tracing import LevelLine, TracedShape, level_widths
from catalogue.tracing.loading.outlines import map_of, shape_of
from catalogue.tracing.models import Calibration, TracedPiece
from catalogue.workroom.archive.reading import read_catalogue
from catalogue.workroom.kinds import KINDS
from catalogue.workroom.reader.columns import columns_of
from catalogue.workroom.reader.entries import Notes
from catalogue.workroom.reader.long_json import LongTable
from tests.examples import examples
from tests.makers.packing import broken, document, rows_of, take, taken_out, with_document


@settings(max_examples=examples(60), suppress_health_check=[HealthCheck.function_scoped_fixture])
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


NUMBERS = st.floats(allow_nan=False) | st.sampled_from([0, -1, 1e-12, 1e7, 10**30, 12.5])


def places(said: Any, way: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """The way to every value of a document."""
    pairs = said.items() if isinstance(said, dict) else enumerate(said) if isinstance(said, list) else ()
    return [place for key, value in pairs for place in [(*way, key), *places(value, (*way, key))]]


def read(said: dict[str, Any]) -> dict[str, Any]:
    """The catalogue with every default filled in."""
    # JSON has no word for what is beyond any number, and yet it can be written.
    text = json.dumps(said).replace("Infinity", "1e999")
    table, notes = LongTable(io.BytesIO(text.encode())), Notes()
    batches = list(read_catalogue(table, notes))
    notes.refuse()
    return {batch.name: [row for _, row in batch.rows] for batch in batches}


def well_traced(said: dict[str, Any]) -> dict[str, Any]:
    return next(plate for reference in said["references"] for plate in reference["plates"])


@pytest.fixture
def written(workroom) -> dict[str, Any]:
    return document(taken_out(workroom))


@settings(max_examples=examples(120), suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_whatever_was_traced_is_refused_with_reasons_or_can_be_measured(written, data):
    said = deepcopy(written)
    plate = well_traced(said)
    of_tracing = {"scan", "traced_levels", "traced", "traced_readings"}
    ways = [way for way in places(plate) if of_tracing & set(way)]
    for way in data.draw(st.lists(st.sampled_from(ways), min_size=1, max_size=3)):
        try:
            broken(list(way), data.draw(ANYTHING | NUMBERS))(plate)
        except (KeyError, IndexError, TypeError):
            continue  # an earlier change took this place away
    try:
        plate, faults = well_traced(read(said)), []
    except Faults as faulty:
        plate, faults = None, faulty.faults
    assert all(fault.where and fault.sentence for fault in faults)
    if plate is not None:
        measure_all(plate)


def measure_all(plate: dict[str, Any]) -> None:
    calibrations = plate["scan"]["calibrations"] if plate["scan"] else []
    for flat in (map_of(Calibration(**columns_of(KINDS[Calibration], one))) for one in calibrations):
        levels = [laid(one, flat) for one in plate["traced_levels"]]
        for piece in plate["pieces"]:
            if piece["traced"]:
                row = TracedPiece(
                    piece=Piece(name="front"), **columns_of(KINDS[TracedPiece], piece["traced"])
                )
                measure(shape_of(row, flat), levels)


def laid(level: dict[str, Any], flat: PixelMap) -> LevelLine:
    start, end = flat.to_mm([complex(*point) for point in level["points"]])
    return LevelLine(line=level["line"], start=start, end=end)


def measure(shape: TracedShape, levels: list[LevelLine]) -> None:
    """All that a page asks of an outline; whether it is faulty or not, nothing may fail."""
    if len(shape.outline.nodes) > 2:
        shape.faults()
        assert isfinite(shape.outline.perimeter + shape.outline.area + sum(shape.edges_mm().values()))
        level_widths(shape, levels)


@settings(max_examples=examples(150), suppress_health_check=[HealthCheck.function_scoped_fixture])
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
