"""Bias: strips cut at 45° to the grain, from a rectangle in one length or side by side across the cloth."""

import math
from dataclasses import dataclass

from catalogue.lengths.calculation.errors import Fault, Faults
from fitting.pattern.calculation.limits import check, counted

# A strip across the whole width is the diagonal of a square as wide as the cloth.
DIAGONAL = math.sqrt(2)
_SLIP = 1e-9


def _within(strip_mm: float, cloth_mm: float) -> None:
    if strip_mm > cloth_mm * (1 + _SLIP):
        raise Faults([Fault("strip", "This strip is wider than the cloth that it is cut from.")])


def continuous_length_mm(
    *, width_mm: float, length_mm: float, strip_mm: float, seam_mm: float = 0.0
) -> float:
    """Of one strip cut round a rectangle that was cut corner to corner and joined to a tube.

    Area ÷ width of the strip, the rectangle less one seam in each direction. Raises Faults for a strip of
    nothing or a rectangle that the seams use up.
    """
    check(
        {"width": width_mm, "length": length_mm, "strip": strip_mm, "seam": seam_mm}, may_be_nothing=["seam"]
    )
    if min(width_mm, length_mm) <= seam_mm:
        raise Faults([Fault("strip", "There must be cloth left beside the seams.")])
    _within(strip_mm, min(width_mm, length_mm) - seam_mm)
    return (width_mm - seam_mm) * (length_mm - seam_mm) / strip_mm


def square_for_mm(*, total_mm: float, strip_mm: float, seam_mm: float = 0.0, step_mm: float = 25.4) -> float:
    """The side of the square that gives `total_mm` of continuous strip, rounded up to whole steps.

    Raises Faults where the strip would be wider than the square.
    """
    check({"total": total_mm, "strip": strip_mm, "seam": seam_mm, "step": step_mm}, may_be_nothing=["seam"])
    side_mm = math.sqrt(total_mm * strip_mm) + seam_mm
    _within(strip_mm, math.ceil(side_mm / step_mm - _SLIP) * step_mm - seam_mm)
    return math.ceil(side_mm / step_mm - _SLIP) * step_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class BiasStrips:
    """Strips from selvedge to selvedge, joined along the grain; `cloth_mm` is the cloth they take."""

    number: int
    each_mm: float
    joined_mm: float
    cloth_mm: float


def bias_strips(
    total_mm: float, *, cloth_width_mm: float, strip_mm: float, seam_mm: float = 0.0
) -> BiasStrips:
    """As many strips as make `total_mm` once joined.

    A strip is as long as the cloth's diagonal and takes √2 of its width along the selvedge; the first and
    last leave a corner of cloth, together as long as the cloth is wide. Ends are cut along the grain, at
    45° to the strip: a join takes 2 × √2 of its seam from the length. Raises Faults where the joins leave
    nothing.
    """
    check(
        {"total": total_mm, "cloth_width": cloth_width_mm, "strip": strip_mm, "seam": seam_mm},
        may_be_nothing=["seam"],
    )
    _within(strip_mm, cloth_width_mm)
    each_mm, join_mm = cloth_width_mm * DIAGONAL, 2 * seam_mm * DIAGONAL
    if each_mm <= join_mm:
        raise Faults([Fault("seam", "The joins use up the strips.")])
    count = counted((total_mm - join_mm) / (each_mm - join_mm), where="total", what="strips")
    number = max(1, math.ceil(count - _SLIP))
    return BiasStrips(
        number=number,
        each_mm=each_mm,
        joined_mm=number * each_mm - (number - 1) * join_mm,
        cloth_mm=cloth_width_mm + number * strip_mm * DIAGONAL,
    )
