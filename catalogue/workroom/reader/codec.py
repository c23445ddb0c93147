"""Frozen values as the JSON that is kept of them, and back: by the fields of their classes and nothing else.

A field is kept under its own name, or under the one its metadata says (`KEPT_AS`), so that a class and its
fields can be called otherwise without a row being lost; one that is `unsaid` is not kept where it says
nothing. What is read is as strict as a file from outside.
"""

from collections.abc import Mapping
from dataclasses import MISSING, Field, field, fields, is_dataclass
from enum import Enum, StrEnum
from types import NoneType, UnionType
from typing import Any, Literal, TypeVar, get_args, get_origin, get_type_hints

from catalogue.workroom.reader.entries import Entry, Notes

KEPT_AS, UNSAID = "kept as", "unsaid"
Value = TypeVar("Value")


def kept_as(name: str, **more: Any) -> Any:
    """A field that is kept under another name than its own."""
    return field(metadata={KEPT_AS: name}, **more)


def unsaid() -> Any:
    """A field that is kept only where it is not None."""
    return field(default=None, metadata={UNSAID: True})


def to_json(value: Any, *, lean: bool = False) -> Any:
    """Lean: without fields that hold their default, of values of which there are very many."""
    if is_dataclass(value):
        held = ((one, getattr(value, one.name)) for one in fields(value))
        return {
            _name(one): to_json(part, lean=lean)
            for one, part in held
            if not ((lean or UNSAID in one.metadata) and part == _usual(one))
        }
    if isinstance(value, Mapping):
        return {key: to_json(one, lean=lean) for key, one in value.items()}
    if isinstance(value, frozenset):
        return sorted(value)
    if isinstance(value, tuple | list):
        return [to_json(one, lean=lean) for one in value]
    if isinstance(value, complex):
        return [value.real, value.imag]
    return value.value if isinstance(value, Enum) else value


def _usual(one: Field[Any]) -> Any:
    return one.default_factory() if one.default_factory is not MISSING else one.default


def from_json(kind: type[Value], kept: Any) -> Value:
    """A value of this class. Raises Faults with everything that is wrong, by path."""
    notes = Notes()
    value = _read(kind, Entry(kept, notes))
    notes.refuse()
    return value


def _read(kind: Any, entry: Entry) -> Any:
    if is_dataclass(kind):
        return _record(kind, entry)
    inside = get_args(kind)
    if isinstance(kind, UnionType):
        return _read(next((one for one in inside if _fits(one, entry)), inside[0]), entry)
    if get_origin(kind) is Literal:
        return entry.one_of(inside)
    if get_origin(kind) is frozenset:
        return frozenset(_read(inside[0], one) for one in entry.items())
    if get_origin(kind) is tuple:
        kinds = inside[:1] * len(entry.items()) if inside[-1] is ... else inside
        if len(kinds) != len(entry.items()):
            entry.fault(f"This must have {len(kinds)} values.")
        return tuple(_read(one, value) for one, value in zip(kinds, entry.items(), strict=False))
    if get_origin(kind) is Mapping:
        return {key: _read(inside[1], one) for key, one in entry.table().named().items()}
    return entry.word(kind) if issubclass(kind, StrEnum) else READ[kind](entry)


def _fits(kind: Any, entry: Entry) -> bool:
    """Whether a value in JSON is of that kind, among those that may stand there."""
    for scalar, is_one in (
        (NoneType, entry.is_null),
        (str, entry.is_text),
        (bool, entry.is_yes_or_no),
    ):
        if is_one or kind is scalar:
            return is_one and kind is scalar
    return True


READ = {
    NoneType: lambda entry: None,
    str: lambda entry: entry.text(),
    float: lambda entry: entry.number(signed=True),
    bool: lambda entry: entry.yes_or_no(False),
    int: lambda entry: entry.whole(most=10**9),
    complex: lambda entry: complex(*_read(tuple[float, float], entry)),
}


def _record(kind: Any, entry: Entry) -> Any:
    """None where something in it is wrong: its faults say what, and nothing is made of it."""
    hints, table, held = get_type_hints(kind), entry.table(map(_name, fields(kind))), {}
    before = len(entry.notes.faults)
    for one in fields(kind):
        value = table[_name(one)]
        if value.is_given:
            held[one.name] = _read(hints[one.name], value)
        elif one.default is MISSING and one.default_factory is MISSING:
            value.fault("This is missing.")
    return kind(**held) if len(entry.notes.faults) == before else None


def _name(one: Field[Any]) -> str:
    return one.metadata.get(KEPT_AS, one.name)
