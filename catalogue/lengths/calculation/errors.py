"""What can be wrong with something typed, told to the person who can put it right.

Faults are gathered, so that a person is shown all of them at once and not one after another.
"""

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing to put right: `where` it stands (a field or a path in a file) and a plain `sentence`."""

    where: str
    sentence: str

    def __str__(self) -> str:
        return f"{self.where}: {self.sentence}"


class Faults(ValueError):
    """Everything wrong with one input, in the order in which it was found."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults: tuple[Fault, ...] = tuple(faults)
        super().__init__("\n".join(str(fault) for fault in self.faults))


class NotUnderstood(ValueError):
    """Typed text that has no single meaning; `sentence` says what to type in its place."""

    def __init__(self, sentence: str) -> None:
        self.sentence = sentence
        super().__init__(sentence)


class LengthNotUnderstood(NotUnderstood):
    """A length that cannot be read, or that could be read in two ways."""


class DateNotUnderstood(NotUnderstood):
    """A date that is not in the extended date format, or that runs backwards."""
