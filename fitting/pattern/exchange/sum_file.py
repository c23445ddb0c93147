"""A sum of pattern work from its JSON: a file holds one of several tables, each of its own sum.

    {"format": "plate-and-toile fullness", "version": 1, "pleats": {"kind": "knife", "finished": "92 cm", …}}

The table is read as the sum is declared. It is reckoned once nothing is wrong with the file, and what is
found wrong then is told by the keys of the table. Answers hold millimetres, in keys that end so.
"""

import json
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.calculation.lengths import System, format_length
from catalogue.workroom.reader.entries import Entry, Notes
from catalogue.workroom.reader.file_head import check_format
from catalogue.workroom.reader.strict_json import load
from fitting.pattern.calculation.sums import inputs as ask
from fitting.pattern.calculation.sums.declaration import Answer, PatternSum
from fitting.pattern.calculation.sums.table import of_command

VERSION = 1


def reckon_file(text: str, *, command: str) -> Answer:
    """The answer to JSON text, with the defaults used. Raises Faults with everything that is wrong."""
    notes, sums = Notes(), of_command(command)
    top = Entry(load(text), notes).table(("format", "version", *sums))
    check_format(top, f"plate-and-toile {command}", VERSION)
    given = [key for key in sums if key in top]
    if len(given) != 1 and not notes.faults:
        notes.fault("file", f"Give exactly one of: {', '.join(sums)}.")
    read = [(sums[key], top[key], _values(sums[key].inputs, top[key])) for key in given]
    notes.refuse()
    return _reckoned(*read[0]) | {"defaults_used": notes.defaults}


def _reckoned(asked: PatternSum[Any], entry: Entry, values: dict[str, Any]) -> Answer:
    try:
        answer = asked.answer(asked.reckon(**values), values)
        json.dumps(answer, allow_nan=False)
    except Faults as faults:
        raise Faults(
            Fault(f"{entry.path}.{fault.where}".rstrip("."), fault.sentence) for fault in faults.faults
        ) from faults
    except (ValueError, ArithmeticError) as error:
        raise Faults([Fault(entry.path, "These figures are beyond any cloth.")]) from error
    return answer


def _values(
    inputs: Iterable[ask.Input | ask.Group | ask.InputRows], entry: Entry, row: int = 0
) -> dict[str, Any]:
    table = entry.table([one.name for one in inputs])
    # Bare numbers last: answers list the defaults that were used in this order.
    return {
        ask.value_name(one): _value(one, table[one.name], row)
        for one in sorted(inputs, key=lambda one: isinstance(one, ask.Number))
    }


def _value(one: ask.Input | ask.Group | ask.InputRows, entry: Entry, row: int) -> Any:
    """None for what was left out and has no default."""
    match one:
        case ask.InputRows():
            return [_values(one.columns, each, at) for at, each in enumerate(entry.items(), start=1)]
        case ask.Group():
            return _values(one.inputs, entry) if entry.is_given or not one.needed else None
        case ask.YesNo():
            return entry.yes_or_no(False)
        case ask.Text():
            return entry.text(one.default.format(at=row))
        case ask.Percent():
            return entry.number()
        case ask.Choice():
            return entry.word(one.words)
    if not entry.is_given and not one.is_needed and one.default in (None, ""):
        return None
    match one:
        case ask.Length():
            return entry.length(
                one.default or None, signed=one.is_signed, more_than_nothing=not one.may_be_nothing
            )
        case ask.Whole():
            return entry.whole(one.default, least=one.least, most=one.most)
    return entry.number(one.default)


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
