"""How a sum of pattern work is told, once: what it asks for, how it is reckoned, what it comes to.

Its page, its table in a file, the help and what is kept of it all come of that.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, Generic, TypeVar

from fitting.pattern.calculation.sums.garment import GarmentFigures
from fitting.pattern.calculation.sums.inputs import Group, Input, InputRows, Value
from fitting.pattern.calculation.sums.sheet_answer import SheetAnswer

Given = Mapping[str, Any]
Answer = dict[str, Any]
Made = TypeVar("Made")


@dataclass(frozen=True, slots=True, kw_only=True)
class PatternSum(Generic[Made]):
    """`key` is its table in a file, the end of its page's address, and what a kept one is kept as.

    One with a `title` has a page, listed under `group`; one with a `command` can be asked for by a file.
    Where it has no `reckon`, its page does that by itself, since it needs more than can be typed. `first`
    fills boxes that are filled together. `told_at`: the input beside which the page tells a fault of another
    name.
    """

    key: str
    says: str
    title: str = ""
    group: str = ""
    command: str = ""
    inputs: tuple[Input | Group | InputRows, ...] = ()
    first: Callable[[GarmentFigures], Mapping[str, Value]] = lambda known: {}
    reckon: Callable[..., Made] | None = None
    worked: Callable[[Made, Given], SheetAnswer] | None = None
    answer: Callable[[Made, Given], Answer] | None = None
    told_at: Mapping[str, str] = field(default_factory=dict)
