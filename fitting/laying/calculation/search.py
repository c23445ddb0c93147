"""How long a search for a lay goes on: a count of tries that follows from the seconds allowed, and the clock.

The count ends it on any machine at the same lay; the clock is a cap for machines that are too slow for it,
and a search that it ended says so.
"""

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple

from fitting.laying.calculation.repeat import Lattice
from fitting.laying.calculation.strip import PlacedCopy

SEED = 1  # the same pieces, the same tries


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """How long a search has run, of how long it may, and how many lays it has found so far."""

    seconds: float
    of_seconds: float
    lays: int


Watch = Callable[[Progress], bool]


class Ending(StrEnum):
    """What ended a search. Only the clock makes one file give two answers."""

    NONE_SHORTER = "no lay can be shorter"
    TRIES = "tries"
    CLOCK = "clock"
    STOPPED = "stopped"


class SearchResult(NamedTuple):
    """A lay, the place of the repeat at which its pieces match, and why no shorter one was looked for."""

    lay: list[PlacedCopy]
    place: Lattice
    ending: Ending
