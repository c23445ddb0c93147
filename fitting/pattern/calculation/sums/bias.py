"""Bias: strips cut at 45° to the grain, from a rectangle in one length or side by side across the cloth."""

import math
from dataclasses import asdict, dataclass

from catalogue.lengths.calculation.errors import Fault, Faults
from fitting.pattern.calculation.limits import check, counted
from fitting.pattern.calculation.sums import inputs as ask
from fitting.pattern.calculation.sums.declaration import Given, PatternSum
from fitting.pattern.calculation.sums.garment import GarmentFigures, at_waist, usual_allowance
from fitting.pattern.calculation.sums.sheet_answer import AnswerLine, SheetAnswer

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


def piping_strip_mm(*, cord_mm: float, allowance_mm: float) -> float:
    """The width of a bias strip round a cord of that thickness, with an allowance on both sides."""
    check({"cord": cord_mm, "allowance": allowance_mm}, may_be_nothing=["allowance"])
    return math.pi * cord_mm + 2 * allowance_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class _ThreeWays:
    """A length of strip from a square and across the cloth; what the piece at hand gives, if there is one."""

    square_mm: float
    strips: BiasStrips
    from_piece_mm: float | None


def _three_ways(
    *, total_mm: float, strip_mm: float, seam_mm: float, cloth_width_mm: float, length_mm: float | None
) -> _ThreeWays:
    cut = {"strip_mm": strip_mm, "seam_mm": seam_mm}
    return _ThreeWays(
        square_mm=square_for_mm(total_mm=total_mm, **cut),
        strips=bias_strips(total_mm, cloth_width_mm=cloth_width_mm, **cut),
        from_piece_mm=None
        if length_mm is None
        else continuous_length_mm(width_mm=cloth_width_mm, length_mm=length_mm, **cut),
    )


def _worked(made: _ThreeWays, given: Given) -> SheetAnswer:
    total_mm, strip_mm, seam_mm, width_mm, length_mm, cut, got_mm = (
        given["total_mm"], given["strip_mm"], given["seam_mm"], given["cloth_width_mm"], given["length_mm"],
        made.strips, made.from_piece_mm,
    )  # fmt: skip
    figures = {"square": made.square_mm, "strips": cut.number, "joined": cut.joined_mm, "cloth": cut.cloth_mm}
    square = ("√(", total_mm, " × ", strip_mm, ") + ", seam_mm, " → ", made.square_mm, ", to whole inches")
    across = (f"{cut.number} of ", cut.each_mm, ", joined ", cut.joined_mm, "; cloth ", cut.cloth_mm)
    lines = [
        AnswerLine(label="a square cut round", parts=square),
        AnswerLine(label="strips across the cloth", parts=across),
    ]
    if got_mm is not None:
        figures["from this piece"] = got_mm
        piece = (
            "(", width_mm, " − ", seam_mm, ") × (", length_mm, " − ", seam_mm, ") ÷ ", strip_mm,
            " = ", got_mm, " of strip",
        )  # fmt: skip
        lines.append(AnswerLine(label="this piece cut round", parts=piece))
    return SheetAnswer(figures=figures, lines=tuple(lines))


def _round_hem(known: GarmentFigures) -> float | None:
    return known.made_mm.get("hem") or known.finished_mm("waist")


_TOTAL = ask.Length("total", "Length wanted", box="total_mm", first=_round_hem, is_needed=True)
_STRIP = ask.Length("strip", "Width of the strip", box="strip_mm", first=38.1, is_needed=True)
_SEAM = ask.Length("seam", "Allowance at each join", box="seam_mm", default="0 in", first=6.35)
_CLOTH = ask.Length("cloth_width", "Width of the cloth", box="width_mm", first=1143.0, is_needed=True)

BIAS = PatternSum(
    key="bias",
    title="bias strips",
    says="Bias strips for a length: from a square, across the cloth, or from the piece you have.",
    group="Bias, bones and fastenings",
    inputs=(
        _TOTAL,
        _STRIP,
        _SEAM,
        _CLOTH,
        ask.Length("length", "Length of the piece you have", box="length_mm"),
    ),
    reckon=_three_ways,
    worked=_worked,
)

# A file asks for one of the three ways.
RECTANGLE = PatternSum(
    key="rectangle",
    says="One strip cut round it, less its joins.",
    command="bias",
    inputs=(
        ask.Length("width", "Width of the rectangle", is_needed=True),
        ask.Length("length", "Length of the rectangle", is_needed=True),
        _STRIP,
        _SEAM,
    ),
    reckon=continuous_length_mm,
    answer=lambda made_mm, given: {"strip_length_mm": made_mm},
)
SQUARE = PatternSum(
    key="square",
    says="The side of the square that gives a length, up to whole steps.",
    command="bias",
    inputs=(_TOTAL, _STRIP, _SEAM, ask.Length("step", "Rounded up to whole", default="1 in")),
    reckon=square_for_mm,
    answer=lambda side_mm, given: {"side_mm": side_mm},
)
BIAS_STRIPS = PatternSum(
    key="strips",
    says="Strips from selvedge to selvedge, joined.",
    command="bias",
    inputs=(_TOTAL, _STRIP, _CLOTH, _SEAM),
    reckon=bias_strips,
    answer=lambda cut, given: asdict(cut),
)


def _piped(*, cord_mm: float, allowance_mm: float, length_mm: float) -> tuple[float, float]:
    """The width of the strip, and the square that gives such a length of it."""
    strip_mm = piping_strip_mm(cord_mm=cord_mm, allowance_mm=allowance_mm)
    return strip_mm, square_for_mm(total_mm=length_mm, strip_mm=strip_mm, seam_mm=allowance_mm)


def _worked_piping(made: tuple[float, float], given: Given) -> SheetAnswer:
    strip_mm, square_mm = made
    strip = ("π × ", given["cord_mm"], " + 2 × ", given["allowance_mm"], " = ", strip_mm, " wide")
    return SheetAnswer(
        figures={"strip": strip_mm, "square": square_mm},
        lines=(
            AnswerLine(label="strip", parts=strip),
            AnswerLine(
                label="a square cut round", parts=(square_mm, " gives ", given["length_mm"], " of it")
            ),
        ),
    )


PIPING = PatternSum(
    key="piping",
    title="piping",
    says="The bias strip round a cord.",
    group="Bias, bones and fastenings",
    inputs=(
        ask.Length("cord", "Thickness of the cord", box="cord_mm", first=3.175, is_needed=True),
        ask.Length(
            "allowance", "Allowance on each side", box="allowance_mm", first=usual_allowance, is_needed=True
        ),
        ask.Length("length", "Length of piping", box="length_mm", first=at_waist, is_needed=True),
    ),
    reckon=_piped,
    worked=_worked_piping,
    told_at={"strip": "cord", "total": "length", "seam": "allowance"},
)
