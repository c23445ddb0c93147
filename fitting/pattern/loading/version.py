"""Which version of its paper pattern a garment has come to."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Any


@dataclass(frozen=True, slots=True, kw_only=True)
class PatternVersion:
    """The paper pattern: 1 as first made, one more for each day on which an alteration reached the paper."""

    number: int
    day: date | None

    def __str__(self) -> str:
        return f"pattern version {self.number}{f' of {self.day:%-d %B %Y}' if self.day else ''}"


def version_after(alterations: Iterable[Any]) -> PatternVersion:
    """The version that a garment's alterations lead to, each with the days on which it reached its parts."""
    paper = (row.by_part.get("paper") for row in alterations)
    days = {part.done_on for part in paper if part and part.done_on}
    return PatternVersion(number=1 + len(days), day=max(days, default=None))
