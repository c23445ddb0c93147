"""One sum of pattern work from its JSON: a file holds one of several tables, each of its own kind.

    {"format": "plate-and-toile fullness", "version": 1, "pleats": {"kind": "knife", "finished": "92 cm", …}}

A kind reads its table and leaves the sum to be done; it is done once nothing is wrong with the file, and what
it finds wrong is told by the keys of the table. Answers hold millimetres, in keys that end so.
"""

import json
from collections.abc import Callable, Iterator, Mapping
from typing import Any

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.calculation.lengths import System, format_length
from catalogue.workroom.reader.entries import Entry, Notes
from catalogue.workroom.reader.file_head import check_format
from catalogue.workroom.reader.strict_json import load

VERSION = 1
Answer = dict[str, Any]
Kind = Callable[[Entry], Callable[[], Answer]]


def reckon_file(text: str, *, format: str, kinds: Mapping[str, Kind]) -> Answer:
    """The answer to JSON text, with the defaults used. Raises Faults with everything that is wrong."""
    notes = Notes()
    top = Entry(load(text), notes).table(("format", "version", *kinds))
    check_format(top, format, VERSION)
    given = [kind for kind in kinds if kind in top]
    if len(given) != 1 and not notes.faults:
        notes.fault("file", f"Give exactly one of: {', '.join(kinds)}.")
    sums = [(top[kind], kinds[kind](top[kind])) for kind in given]
    if notes.faults:
        raise Faults(notes.faults)
    entry, reckon = sums[0]
    try:
        answer = reckon() | {"defaults_used": notes.defaults}
        json.dumps(answer, allow_nan=False)
    except Faults as faults:
        raise Faults(
            Fault(f"{entry.path}.{fault.where}", fault.sentence) for fault in faults.faults
        ) from faults
    except (ValueError, ArithmeticError) as error:
        raise Faults([Fault(entry.path, "These figures are beyond any cloth.")]) from error
    return answer


def length_if_given(entry: Entry) -> float | None:
    return entry.length(more_than_nothing=True) if entry.is_given else None


def number_if_given(entry: Entry) -> float | None:
    return entry.number() if entry.is_given else None


def answer_text(answer: Mapping[str, Any], *, system: System) -> str:
    """An answer as lines: each figure by its name, lengths in a reader's unit; then the defaults used."""
    figures = {key: value for key, value in answer.items() if key != "defaults_used"}
    defaults = (f"{path}: {used}" for path, used in answer["defaults_used"].items())
    return "\n".join([*_lines(figures, system, ""), "", "Left out, so taken as", *defaults])


def _lines(answer: Mapping[str, Any], system: System, indent: str) -> Iterator[str]:
    for key, value in answer.items():
        name = key.removesuffix("_mm").replace("_", " ")
        is_mm = key.endswith("_mm")
        if isinstance(value, Mapping):
            if value:
                yield f"{indent}{name}:"
                yield from _lines(value, system, indent + "  ")
        elif isinstance(value, list | tuple) and value and isinstance(value[0], Mapping):
            for at, one in enumerate(value, start=1):
                yield f"{indent}{name} {at}:"
                yield from _lines(one, system, indent + "  ")
        elif isinstance(value, list | tuple):
            if value:
                yield f"{indent}{name}: {', '.join(_shown(one, is_mm, system) for one in value)}"
        elif value is not None:
            yield f"{indent}{name}: {_shown(value, is_mm, system)}"


def _shown(value: Any, is_mm: bool, system: System) -> str:
    if is_mm:
        return format_length(value, system=system)
    return f"{value:.4g}" if isinstance(value, float) else str(value)
