"""What no sum of pattern work comes to: lengths of nothing or beyond any cloth, parts past counting.

A slip of the pen, such as pleats a tenth of a millimetre wide, is answered by a sentence, and at once.
"""

from collections.abc import Collection, Iterator, Mapping

from catalogue.lengths.calculation.errors import Fault, Faults

MOST_PARTS = 2000  # pleats, notches, holes, strips: more is a slip of the pen
MOST_TIERS = 40
FARTHEST_MM = 1e6

NOTHING, LESS, TOO_LONG = (
    "This must be more than nothing.",
    "This must not be less than nothing.",
    "This is over a kilometre: no cloth is so long.",
)


def unfit(values: Mapping[str, float | None], *, may_be_nothing: Collection[str] = ()) -> Iterator[Fault]:
    """Every value, by its name, that is no length; None is not given. What is no number is nothing."""
    for name, value in values.items():
        if value is None:
            continue
        if name in may_be_nothing:
            if not value >= 0:
                yield Fault(name, LESS)
        elif not value > 0:
            yield Fault(name, NOTHING)
        if value > FARTHEST_MM:
            yield Fault(name, TOO_LONG)


def check(values: Mapping[str, float | None], *, may_be_nothing: Collection[str] = ()) -> None:
    """Raises Faults for what is `unfit`."""
    if faults := list(unfit(values, may_be_nothing=may_be_nothing)):
        raise Faults(faults)


def counted(count: float, *, where: str, what: str, most: int = MOST_PARTS) -> float:
    """A count that was derived, as it is. Raises Faults for one that nobody would sew."""
    if not count <= most:
        raise Faults([Fault(where, f"This comes to more than {most:,} {what}: look at its measures again.")])
    return count
