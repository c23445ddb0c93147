"""Fullness: how much flat cloth goes into a finished length, the strips that makes, and tiers of it.

Ratio = flat ÷ finished. Read off the plate, it is kept for the wearer, whose finished length is another.
"""

import math
from dataclasses import dataclass

from catalogue.lengths.calculation.errors import Fault, Faults
from fitting.pattern.calculation.limits import FARTHEST_MM, MOST_TIERS, check, counted

# Flat : finished, least and most. Each with who says so.
RATIOS = (
    ("straight ruffle", 4 / 3, 3 / 2, "L. I. Baldt, Clothing for Women, 1916"),
    ("bias ruffle", 5 / 4, 4 / 3, "L. I. Baldt, Clothing for Women, 1916"),
    ("taffeta ruche", 2.0, 2.0, "The New Dressmaker, 1921, ch. 28"),
    ("soft chiffon ruche", 3.0, 3.0, "The New Dressmaker, 1921, ch. 28"),
    ("side-plaited quilling", 3.0, 3.0, "The New Dressmaker, 1921, ch. 28"),
    ("gathers of light cloth", 1.5, 1.5, "general handbooks, from memory"),
    ("gathers of medium cloth", 2.0, 2.0, "general handbooks, from memory"),
    ("gathers of sheer cloth", 2.5, 3.0, "general handbooks, from memory"),
)

_SLIP = 1e-9  # a whole number stays one, whatever the last binary digit says


@dataclass(frozen=True, slots=True, kw_only=True)
class Gathers:
    """Flat cloth gathered to a finished length."""

    finished_mm: float
    flat_mm: float

    @property
    def ratio(self) -> float:
        return self.flat_mm / self.finished_mm

    def over(self, finished_mm: float) -> "Gathers":
        """The same fullness over another length: read off the plate, made for the wearer."""
        return Gathers(finished_mm=finished_mm, flat_mm=self.ratio * finished_mm)


def gathers(
    *, finished_mm: float | None = None, flat_mm: float | None = None, ratio: float | None = None
) -> Gathers:
    """From any two of the three. Raises Faults where they are not two, or leave nothing to gather."""
    if [finished_mm, flat_mm, ratio].count(None) != 1:
        raise Faults([Fault("finished", "Give two of the three: finished length, flat length, ratio.")])
    check({"finished": finished_mm, "flat": flat_mm, "ratio": ratio})
    if flat_mm is None:
        flat_mm = (finished_mm or 0.0) * (ratio or 0.0)
    if finished_mm is None:
        finished_mm = flat_mm / (ratio or 1.0)
    if flat_mm < finished_mm * (1 - _SLIP):
        raise Faults([Fault("flat", "There is less flat cloth than finished length: nothing to gather.")])
    check({"flat": flat_mm, "finished": finished_mm})
    return Gathers(finished_mm=finished_mm, flat_mm=flat_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Strips:
    """Strips cut across the cloth and joined to a flat length; `cloth_mm` is the cloth they take."""

    number: int
    joined_mm: float
    cloth_mm: float


def strips(
    flat_mm: float,
    *,
    cloth_width_mm: float,
    depth_mm: float,
    join_mm: float = 0.0,
    is_round: bool = False,
) -> Strips:
    """Whole strips for a flat length, each `depth_mm` of cloth as cut, `join_mm` the allowance at its ends.

    A round flounce is joined at both ends of every strip; in an open one the two outer ends are free.
    Raises Faults where the joins leave nothing of the width.
    """
    check(
        {"flat": flat_mm, "cloth_width": cloth_width_mm, "depth": depth_mm, "join": join_mm},
        may_be_nothing=["join"],
    )
    each_mm = cloth_width_mm - 2 * join_mm
    if each_mm <= 0:
        raise Faults([Fault("join", "The joins take up the whole width of the cloth.")])
    free_mm = 0.0 if is_round else 2 * join_mm
    count = counted((flat_mm - free_mm) / each_mm, where="cloth_width", what="strips")
    number = max(1, math.ceil(count - _SLIP))
    return Strips(number=number, joined_mm=number * each_mm + free_mm, cloth_mm=number * depth_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tiers:
    """Tiers gathered one to the next: `widths_mm` are flat widths from the top, each `ratio` × the last.

    The first is gathered to the top itself. `asked_ratio` is the one asked for, where whole tiers changed it.
    """

    top_mm: float
    ratio: float
    widths_mm: tuple[float, ...]
    asked_ratio: float | None = None

    @property
    def hem_mm(self) -> float:
        return self.widths_mm[-1]


def tiers(
    *, top_mm: float, hem_mm: float | None = None, ratio: float | None = None, number: int | None = None
) -> Tiers:
    """From the top girth and two of hem, ratio and number. From hem and ratio the number is made whole.

    Raises Faults where they are not two, or where the tiers would not widen.
    """
    if [hem_mm, ratio, number].count(None) != 1:
        raise Faults([Fault("ratio", "Give two of the three: hem, ratio, number of tiers.")])
    check({"top": top_mm, "hem": hem_mm})
    if (hem_mm is not None and hem_mm <= top_mm) or (ratio is not None and not 1 < ratio < math.inf):
        raise Faults([Fault("ratio", "Tiers widen: the hem is more than the top, the ratio more than 1.")])
    if number is not None and number < 1:
        raise Faults([Fault("number", "There is at least one tier.")])
    if number is None:
        count = math.log((hem_mm or 0) / top_mm) / math.log(ratio or 0)
        number = max(1, round(counted(count, where="ratio", what="tiers", most=MOST_TIERS)))
    counted(number, where="number", what="tiers", most=MOST_TIERS)
    each = ratio if hem_mm is None else (hem_mm / top_mm) ** (1 / number)
    each = each or 0.0
    check({"hem": top_mm * min(each, FARTHEST_MM) ** min(number, MOST_TIERS)})
    return Tiers(
        top_mm=top_mm,
        ratio=each,
        widths_mm=tuple(top_mm * each**step for step in range(1, number + 1)),
        asked_ratio=None if ratio is None or math.isclose(each, ratio) else ratio,
    )
