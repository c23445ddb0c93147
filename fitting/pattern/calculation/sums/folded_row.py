"""What a row of pleats and a row of tucks have in common: three of their five values give the others."""

import math
from collections.abc import Collection, Iterator, Mapping

from catalogue.lengths.calculation.errors import Fault
from fitting.pattern.calculation.sums.declaration import Given
from fitting.pattern.calculation.sums.sheet_answer import Sum

AGREES_MM = 0.5  # values given beyond need agree if they are this near
Known = Mapping[str, float | None]  # by name, None is asked for


def corrected(known: Known, got: Mapping[str, float]) -> tuple[str, ...]:
    """The names of what was asked for and is no longer so, since a row has a whole number."""
    asked = {name: value for name in got if (value := known[name]) is not None}
    return tuple(name for name, value in asked.items() if not math.isclose(value, got[name], rel_tol=1e-9))


def disagreeing(known: Known, got: Mapping[str, float], changed: Collection[str]) -> Iterator[Fault]:
    """With a number given nothing may be corrected; with more known than is needed, the depth may not."""
    fixed: set[str] = set()
    if known["number"] is not None:
        fixed = set(got)
    elif sum(value is not None for value in known.values()) > 3:
        fixed = {"depth"}
    for name in sorted(fixed.intersection(changed)):
        value = known[name]
        if value is not None and abs(got[name] - value) > AGREES_MM:
            yield Fault(name, "This does not agree with the others: leave one of them out.")


def changed(
    given: Given, got: Mapping[str, float], corrected: Collection[str], *, what: str
) -> Iterator[Sum]:
    """What was asked for and became another, for whoever asked."""
    for name in corrected:
        asked_mm, made_mm = given[f"{name}_mm"], got[name]
        if abs(asked_mm - made_mm) >= AGREES_MM:
            yield (
                f"The {name} asked for, ",
                asked_mm,
                f", gives no whole number of {what}: it becomes ",
                made_mm,
                ".",
            )
