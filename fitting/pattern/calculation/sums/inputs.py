"""What a sum may ask for, each told once for its page and for a file.

A value has the name of its input; a length is millimetres, and its name ends with `_mm`. None is not given.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import KW_ONLY, dataclass, field
from enum import StrEnum
from typing import Any

from fitting.pattern.calculation.sums.garment import GarmentFigures

Value = str | float | None


@dataclass(frozen=True, slots=True)
class Input:
    """One value. `name` is its key in a file, and where a fault of it is told; `box` its box on the page,
    where that is called otherwise.

    `first` fills the box. What `is_needed` must be given on the page, and in a file unless it has a default.
    """

    name: str
    label: str
    _: KW_ONLY
    box: str = ""
    hint: str | Callable[[GarmentFigures], str] = ""
    first: Value | Callable[[GarmentFigures], Value] = None
    is_needed: bool = False


@dataclass(frozen=True, slots=True)
class Length(Input):
    """`default` as one writes it. A length is more than nothing, unless its default is nothing itself."""

    _: KW_ONLY
    default: str = ""
    is_signed: bool = False

    @property
    def may_be_nothing(self) -> bool:
        return self.is_signed or self.default.startswith("0 ")


@dataclass(frozen=True, slots=True)
class Number(Input):
    """`offered`: what the page lets one choose from, in words."""

    _: KW_ONLY
    default: float | None = None
    least: float = 0
    most: float | None = None
    offered: Mapping[float, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Whole(Input):
    _: KW_ONLY
    most: int
    default: int | None = None
    least: int = 1


@dataclass(frozen=True, slots=True)
class Percent(Input):
    """A part of the whole: told in percent on the page, as a number up to 1 in a file."""


@dataclass(frozen=True, slots=True)
class Text(Input):
    """In `default` and in labels {at} is the number of the row."""

    _: KW_ONLY
    default: str
    size: int = 18


@dataclass(frozen=True, slots=True)
class Choice(Input):
    _: KW_ONLY
    words: type[StrEnum]


@dataclass(frozen=True, slots=True)
class YesNo(Input):
    """No, unless it is said."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Inputs that have a table of their own in a file, and stand after the others on the page.

    One with anything needed may be left out whole, and is None then; `says` is told of one given by half.
    """

    name: str
    inputs: tuple[Input, ...]
    says: str = ""

    @property
    def needed(self) -> tuple[Input, ...]:
        return tuple(one for one in self.inputs if one.is_needed)


@dataclass(frozen=True, slots=True, kw_only=True)
class InputRows:
    """The same asked several times: a list in a file, a table of boxes on the page.

    The page has a row for each of `first`, and so many `blank` ones, counted from `counts_from`. A row whose
    box of `marked_by` is empty is left out; its faults are told at `told_at`. What is `fixed` has no box.
    """

    name: str
    columns: tuple[Input, ...]
    caption: str
    heads: tuple[str, ...]
    marked_by: str
    told_at: str = ""
    says: str = ""
    first: Callable[[GarmentFigures], Sequence[Mapping[str, Value]]] = lambda known: ()
    blank: int = 0
    counts_from: int = 1
    labels: tuple[str, ...] = ()
    fixed: Mapping[str, Sequence[Any]] = field(default_factory=dict)


def value_name(one: Input | Group | InputRows) -> str:
    return f"{one.name}_mm" if isinstance(one, Length) else one.name


def from_garment(value: Any, known: GarmentFigures) -> Any:
    """What an input says by itself, or by what is known of the garment."""
    return value(known) if callable(value) else value
