"""A lay as `lay` answers it: as JSON, nothing rounded, or as plain text to lay by."""

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from catalogue.lengths.calculation.errors import LengthNotUnderstood
from catalogue.lengths.calculation.lengths import System, format_length, parse_length
from catalogue.lengths.calculation.units import mm_per
from fitting.laying.calculation.boxes import is_corner_cut
from fitting.laying.calculation.lay_out import Arrangement
from fitting.laying.calculation.piece import Outline
from fitting.laying.calculation.piecing import Piecing
from fitting.laying.calculation.search import Ending
from fitting.laying.calculation.strip import Placement, bounds, placed_outline


@dataclass(frozen=True, slots=True, kw_only=True)
class PartAnswer:
    """Placed by its own `outline`: cut, with its allowance, in the coordinates of the whole piece."""

    name: str
    outline: Outline
    placements: tuple[Placement, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PiecingAnswer:
    """A piece that is joined, with its parts and where they lie."""

    piece: str
    copies: int
    mirrored_pair: bool
    lines_x_mm: tuple[float, ...]
    allowance_mm: float
    parts: tuple[PartAnswer, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RepeatAnswer:
    """The repeat on the table, once the cloth has shrunk, and the place at which all pieces match."""

    along_mm: float
    across_mm: float
    drop_mm: float
    place_mm: tuple[float, float]
    not_matched_across: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LayAnswer:
    """Lengths, density and every placement. The last two were not said of lays at first."""

    length_mm: float
    length_to_buy_mm: float
    density: float
    placements: tuple[Placement, ...]
    piecing: tuple[PiecingAnswer, ...]
    repeat: RepeatAnswer | None = None
    ended_by: str = ""
    said: tuple[str, ...] = ()


def lay_answer(lay: Arrangement) -> LayAnswer:
    repeat = lay.place.repeat
    return LayAnswer(
        length_mm=lay.length_mm,
        length_to_buy_mm=lay.length_to_buy_mm,
        density=lay.density,
        placements=lay.placements,
        piecing=tuple(_piecing(piecing, lay.placements) for piecing in lay.piecings),
        repeat=RepeatAnswer(
            along_mm=repeat.along_mm,
            across_mm=repeat.across_mm,
            drop_mm=repeat.drop_mm,
            place_mm=(lay.place.x, lay.place.y),
            not_matched_across=tuple(lay.unmatched),
        )
        if repeat.is_there
        else None,
        ended_by=lay.ending.value,
        said=tuple(lay_said(lay)),
    )


def lay_said(lay: Arrangement, system: System = "in") -> list[str]:
    """What one must know to trust the lay and to cut by it, a sentence each."""
    return [*_matched(lay, system), *_searched(lay), *_corners(lay)]


def _matched(lay: Arrangement, system: System) -> Iterator[str]:
    repeat = lay.place.repeat
    if not repeat.is_there:
        return
    ways = [("along", repeat.along_mm), ("across", repeat.across_mm)]
    lengths = " and ".join(f"{format_length(mm, system=system)} {word}" for word, mm in ways if mm)
    dropped = f", dropped by {format_length(repeat.drop_mm, system=system)}" if repeat.drop_mm else ""
    yield f"Every piece’s matching point lies at one place of the repeat: {lengths}{dropped}."
    if lay.unmatched:
        yield f"Not matched across, since the cloth leaves no room for it: {', '.join(lay.unmatched)}."
    is_turned = any(one.rotation_deg for one in lay.placements)
    if is_turned or (repeat.across_mm and any(one.mirrored for one in lay.placements)):
        yield "Turned or mirrored pieces match only where that place is the middle of a motif or stripe."
    if lay.cloth.repeat.one_more and repeat.along_mm:
        yield "One repeat more is bought, since the shop cuts anywhere in it."


def _searched(lay: Arrangement) -> Iterator[str]:
    if lay.place.repeat.is_there and lay.ending != Ending.NONE_SHORTER:
        yield (
            "Pieces that match were laid one after another, in many orders, and the shortest lay kept: "
            "one laid by hand may be shorter."
        )
    if lay.ending == Ending.CLOCK:
        yield "The clock ended the search: with more seconds, or on a quicker machine, it may be shorter."


def _corners(lay: Arrangement) -> Iterator[str]:
    """Of what is cut from a rectangle corner to corner: in which hand it comes out."""
    for piece in lay.order.pieces:
        turns = {one.rotation_deg for one in lay.placements if one.piece == piece.name}
        if piece.copies < 2 or piece.on_fold or not turns or not is_corner_cut(piece.cut_outline):
            continue
        if len(turns) > 1:
            each = "; each hand has rectangles of its own" if piece.mirrored_pair else ""
            yield (
                f"“{piece.name}” is cut corner to corner, two to a rectangle: the second, turned end "
                f"for end, comes out in the same hand{each}."
            )
        elif lay.cloth.turns_deg == (0,):
            yield (
                f"On one-way cloth “{piece.name}” is not turned end for end: two to a rectangle, cut corner "
                "to corner, come only from cloth laid double."
            )
        if piece.mirrored_pair and piece.copies // 2 % 2 and lay.cloth.turns_deg != (0,):
            yield f"A pair of “{piece.name}” out of one rectangle comes only from cloth laid double."


def _piecing(piecing: Piecing, placements: Sequence[Placement]) -> PiecingAnswer:
    return PiecingAnswer(
        piece=piecing.piece.name,
        copies=piecing.piece.copies,
        mirrored_pair=piecing.piece.mirrored_pair,
        lines_x_mm=tuple(piecing.lines_x_mm),
        allowance_mm=piecing.piece.allowance_mm,
        parts=tuple(
            PartAnswer(
                name=part.name,
                outline=part.cut_outline,
                placements=tuple(one for one in placements if one.piece == part.name),
            )
            for part in piecing.parts
        ),
    )


def lay_text(lay: Arrangement, *, unit: str, defaults_used: Mapping[str, str], system: System = "in") -> str:
    """The whole answer, ready to print: what to buy, where each piece lies, what is joined."""
    return "\n".join(_lines_of(lay, unit, defaults_used, system))


def _lines_of(lay: Arrangement, unit: str, defaults_used: Mapping[str, str], system: System) -> Iterator[str]:
    def written(mm: float) -> str:
        return format_length(mm, system=system)

    cloth = lay.cloth
    usable = f"{written(cloth.usable_width_mm)} of it to use"
    yield f"Lay on cloth {written(cloth.width_mm)} wide, {usable}, {cloth.direction}"
    yield ""
    yield f"Buy             {to_buy_text(lay.length_to_buy_mm, unit)}"
    yield f"Length laid     {written(lay.length_mm)}"
    yield f"Cloth in pieces {lay.density:.1%}"
    yield ""
    rows = [_HEADINGS, *(_row(lay, placement, written) for placement in lay.placements)]
    widths = [max(len(row[column]) for row in rows) for column in range(len(_HEADINGS))]
    for row in rows:
        words, figures = row[:3], row[3:]
        cells = [word.ljust(width) for word, width in zip(words, widths, strict=False)]
        cells += [figure.rjust(width) for figure, width in zip(figures, widths[3:], strict=True)]
        yield "  ".join(cells)
    for piecing in lay.piecings:
        yield ""
        yield _joined(piecing, written)
    if said := lay_said(lay, system):
        yield ""
        yield from said
    if defaults_used:
        yield ""
        yield "Defaults used: " + "; ".join(f"{path} {value}" for path, value in defaults_used.items())


_HEADINGS = ("piece", "", "", "from the left", "from the start", "width", "length")


def _row(lay: Arrangement, placement: Placement, written: Callable[[float], str]) -> tuple[str, ...]:
    """Where the box about a piece lies: what one measures on the table."""
    left, low, right, high = bounds(placed_outline(lay.cut_outlines[placement.piece], placement))
    turned = f"turned {placement.rotation_deg}°" if placement.rotation_deg else ""
    # An edge of the cloth is no minus, whatever rounding says.
    figures = (max(left, 0.0), max(low, 0.0), right - left, high - low)
    return (placement.piece, "mirrored" if placement.mirrored else "", turned, *map(written, figures))


def _joined(piecing: Piecing, written: Callable[[float], str]) -> str:
    left = bounds(piecing.piece.outline)[0]
    lines = ", ".join(written(x - left) for x in piecing.lines_x_mm)
    return (
        f"“{piecing.piece.name}” is wider than the cloth: {len(piecing.parts)} parts, joined along the warp "
        f"{lines} from its left side, with {written(piecing.piece.allowance_mm)} on both sides of each join."
    )


def to_buy_text(length_mm: float, unit: str) -> str:
    """A length written in the shop's unit as that is typed: for 1/8 yd 3 5/8 yd, for 10 cm 340 cm."""
    step_mm = parse_length(unit)
    bought_mm = round(length_mm / float(step_mm)) * step_mm
    word = _NUMBER.sub("", unit)
    try:
        amount = bought_mm / mm_per(word)
    except LengthNotUnderstood:  # a unit in two parts, such as 1 ft 6 in
        return format_length(bought_mm)
    if word in ("mm", "cm", "m") or amount.denominator > _FINEST:
        return f"{float(amount):.3f}".rstrip("0").rstrip(".") + f" {word}"
    return " ".join(str(part) for part in (*divmod(amount, 1), word) if part)


_NUMBER = re.compile(r"^[\d\s/⁄∕.,½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒-]*")
_FINEST = 64
