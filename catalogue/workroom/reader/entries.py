"""Strict reading of JSON: every value knows the path it stands at, and all that is wrong is gathered.

A value that is wrong or missing leaves a fault behind and a stand-in (not a number, an empty table) with
which reading goes on, so that a person is told of everything at once. What is left out is noted with its
default.
"""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches
from enum import StrEnum
from fractions import Fraction
from typing import Any, TypeVar

from catalogue.lengths.calculation.errors import Fault, Faults, LengthNotUnderstood
from catalogue.lengths.calculation.lengths import parse_length
from catalogue.workroom.reader.faulty_value import in_short, unfit

Word = TypeVar("Word", bound=StrEnum)

_ABSENT = object()


@dataclass(slots=True)
class Notes:
    """What reading one file has found: faults, up to so many, and the defaults used, each by its path."""

    faults: list[Fault] = field(default_factory=list)
    defaults: dict[str, str] = field(default_factory=dict)
    most: int | None = None

    def fault(self, path: str, sentence: str) -> None:
        """Raises Faults with what was noted where it is too much to go on."""
        if len(self.faults) == self.most:
            raise Faults([*self.faults, Fault("file", f"This has more faults than these {self.most:,}.")])
        # A fault is one line, whatever was typed.
        self.faults.append(Fault(in_short(path, 200), in_short(sentence, 400)))

    def extend(self, faults: Iterable[Fault]) -> None:
        for fault in faults:
            self.fault(fault.where, fault.sentence)

    def refuse(self) -> None:
        """Raises Faults with what was noted, if anything was."""
        if self.faults:
            raise Faults(self.faults)


class Entry:
    """One value of the file and the path it stands at; it may be absent."""

    __slots__ = ("_value", "notes", "path")

    def __init__(self, value: Any, notes: Notes, path: str = "") -> None:
        self._value, self.notes, self.path = value, notes, path

    @property
    def is_given(self) -> bool:
        return self._value is not _ABSENT

    @property
    def is_table(self) -> bool:
        return isinstance(self._value, dict)

    @property
    def is_text(self) -> bool:
        return isinstance(self._value, str)

    @property
    def is_yes_or_no(self) -> bool:
        return isinstance(self._value, bool)

    @property
    def is_list(self) -> bool:
        return isinstance(self._value, list)

    @property
    def is_null(self) -> bool:
        return self._value is None

    def fault(self, sentence: str) -> None:
        self.notes.fault(self.path or "file", sentence)

    def default(self, text: str) -> None:
        """Note that this was left out, and what is used in its place."""
        self.notes.defaults[self.path] = text

    def table(self, keys: Iterable[str] | None = None) -> "Table":
        """The members of an object; with `keys`, any other key is a fault."""
        table = Table(self)
        if not self.is_given:
            return table
        if not self.is_table:
            self._unfit("a table in braces")
            return table
        known = None if keys is None else tuple(keys)
        for key, value in self._value.items():
            entry = Entry(value, self.notes, f"{self.path}.{key}" if self.path else key)
            if known is not None and key not in known:
                entry.fault(f"This key is not known here{did_you_mean(key, known)}.")
            else:
                table.entries[key] = entry
            if key in getattr(self._value, "twice", ()):
                entry.fault("This key comes twice.")
        return table

    def items(self) -> list["Entry"]:
        """The values of a list."""
        if not self.is_given:
            return []
        if not self.is_list:
            self._unfit("a list in brackets")
            return []
        return [Entry(value, self.notes, f"{self.path}[{index}]") for index, value in enumerate(self._value)]

    def length(
        self, default: str | None = None, *, signed: bool = False, more_than_nothing: bool = False
    ) -> float:
        """Exact text to millimetres. Without a default it must be there; a bare number is refused."""
        mm = self.exact_length(default, signed=signed, more_than_nothing=more_than_nothing)
        return math.nan if mm is None else float(mm)

    def exact_length(
        self, default: str | None = None, *, signed: bool = False, more_than_nothing: bool = False
    ) -> Fraction | None:
        """As `length`, but exact; None where it cannot be read."""
        text = self.text(default, what='a length as text with its unit, for example "1 1/2 in"')
        if text is None:
            return None
        try:
            mm = parse_length(text, signed=signed)
        except LengthNotUnderstood as error:
            self.fault(error.sentence)
            return None
        if more_than_nothing and mm <= 0:
            self.fault("This must be more than nothing.")
            return None
        return mm

    def text(self, default: str | None = None, *, what: str = "text in quotes") -> str | None:
        if not self.is_given:
            return self._left_out(default, default)
        if not isinstance(self._value, str):
            self._unfit(what)
            return None
        return self._value

    def word(self, words: type[Word], default: Word | None = None) -> Word | None:
        """One of a set of words."""
        if not self.is_given:
            return self._left_out(default, default)
        if isinstance(self._value, str) and self._value in [word.value for word in words]:
            return words(self._value)
        self._unfit(f"one of: {', '.join(words)}")
        return None

    def one_of(self, words: tuple[str, ...]) -> str:
        """One of these words; the first of them stands in for what is none."""
        text = self.text()
        if text in words:
            return text or ""
        if text is not None:
            self._unfit(f"one of: {', '.join(words)}")
        return words[0]

    def whole(self, default: int | None = None, *, least: int = 0, most: int = 1000) -> int:
        """A whole number. 2.0 and true are none."""
        if not self.is_given:
            return self._left_out(default, None if default is None else str(default)) or 0
        if type(self._value) is not int:
            self._unfit("a whole number")
        elif not least <= self._value <= most:
            self.fault(f"This must be a whole number from {least} to {most}.")
        else:
            return self._value
        return least

    def number(self, default: float | None = None, *, signed: bool = False) -> float:
        """A finite number, not negative unless `signed`."""
        if not self.is_given:
            left_out = self._left_out(default, None if default is None else f"{default:g}")
            return math.nan if left_out is None else left_out
        if type(self._value) not in (int, float) or not abs(self._value) < 1e15:
            self._unfit("a number")
        elif self._value < 0 and not signed:
            self.fault("This must not be negative.")
        else:
            return float(self._value)
        return math.nan

    def yes_or_no(self, default: bool) -> bool:
        if not self.is_given:
            return bool(self._left_out(default, str(default).lower()))
        if not isinstance(self._value, bool):
            self._unfit("true or false")
            return default
        return self._value

    def _left_out(self, default: Any, text: str | None) -> Any:
        if default is None:
            self.fault("This is missing.")
        elif text is not None:
            self.default(text)
        return default

    def _unfit(self, what: str) -> None:
        self.fault(unfit(self._value, what))


@dataclass(slots=True)
class Table:
    """The members of one object, by key; asking for one that was left out gives an absent entry."""

    owner: Entry
    entries: dict[str, Entry] = field(default_factory=dict)

    def __getitem__(self, key: str) -> Entry:
        path = f"{self.owner.path}.{key}" if self.owner.path else key
        return self.entries.get(key) or Entry(_ABSENT, self.owner.notes, path)

    def __contains__(self, key: str) -> bool:
        return key in self.entries

    def named(self) -> Mapping[str, Entry]:
        return self.entries


def did_you_mean(key: str, known: Iterable[str]) -> str:
    """The known word nearest to a slip of the pen, as the end of a sentence; empty where none is near."""
    close = get_close_matches(key, list(known), n=1)
    return f"; did you mean “{close[0]}”" if close else ""
