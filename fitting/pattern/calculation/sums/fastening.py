"""Holes, buttons or hooks in a row, spaced to come out even, and the lace through the holes."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from catalogue.lengths.calculation.errors import Fault, Faults
from fitting.pattern.calculation.limits import check, counted
from fitting.pattern.calculation.sums import inputs as ask
from fitting.pattern.calculation.sums.declaration import Given, PatternSum
from fitting.pattern.calculation.sums.garment import GarmentFigures
from fitting.pattern.calculation.sums.sheet_answer import AnswerLine, Grid, SheetAnswer

HOLE_FROM_EDGE_MM = 9.525  # 3/8 in; common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class FastenerRow:
    """Holes, buttons or hooks in a row, from its start; `spacing_mm` as corrected to come out even."""

    places_mm: tuple[float, ...]
    spacing_mm: float

    @property
    def count(self) -> int:
        return len(self.places_mm)


def even_row(
    length_mm: float, *, spacing_mm: float, first_mm: float = 0.0, last_mm: float = 0.0
) -> FastenerRow:
    """The nearest whole number of spaces between the first, so far from the start, and the last from the end.

    Raises Faults where nothing is left between them.
    """
    check(
        {"length": length_mm, "spacing": spacing_mm, "first": first_mm, "last": last_mm},
        may_be_nothing=["first", "last"],
    )
    between_mm = length_mm - first_mm - last_mm
    if between_mm <= 0:
        raise Faults([Fault("length", "The ends leave no room between the first and the last.")])
    count = counted(between_mm / spacing_mm, where="spacing", what="of them")
    spaces = max(1, math.floor(count + 0.5))
    step_mm = between_mm / spaces
    return FastenerRow(
        places_mm=tuple(first_mm + step_mm * at for at in range(spaces + 1)), spacing_mm=step_mm
    )


def row_with_one_at(
    length_mm: float, *, spacing_mm: float, at_mm: float, first_mm: float = 0.0, last_mm: float = 0.0
) -> tuple[FastenerRow, FastenerRow]:
    """Two rows that share their place at `at_mm`, such as a button at the waist where the strain is."""
    above = even_row(at_mm, spacing_mm=spacing_mm, first_mm=first_mm)
    below = even_row(length_mm - at_mm, spacing_mm=spacing_mm, last_mm=last_mm)
    return above, FastenerRow(
        places_mm=tuple(at_mm + place for place in below.places_mm), spacing_mm=below.spacing_mm
    )


def between_holes_mm(*, gap_mm: float, from_edges_mm: Sequence[float] = ()) -> float:
    """How far apart the holes lie across: the edges `gap_mm` apart to get in, each hole in from its edge."""
    named = {f"from_edge_{at}": mm for at, mm in enumerate(from_edges_mm, start=1)}
    check({"gap": gap_mm, **named}, may_be_nothing=["gap", *named])
    return gap_mm + sum(from_edges_mm)


def crossed_lace_mm(row: FastenerRow, *, across_mm: float, ends_mm: float = 0.0) -> float:
    """A lace crossing from hole to hole, as long as it must be with the holes `across_mm` apart to get in.

    One bar straight across, then two crossings for each space; `ends_mm` to tie, at both ends.
    """
    check({"across": across_mm, "ends": ends_mm}, may_be_nothing=["across", "ends"])
    return across_mm + 2 * (row.count - 1) * math.hypot(across_mm, row.spacing_mm) + 2 * ends_mm


def spiral_lace_mm(row: FastenerRow, *, across_mm: float, ends_mm: float = 0.0) -> float:
    """One lace from side to side in holes set half a space apart, each higher than the last.

    As long as it must be with the holes `across_mm` apart to get in; `ends_mm` to tie, at both ends.
    """
    check({"across": across_mm, "ends": ends_mm}, may_be_nothing=["across", "ends"])
    crossings = 2 * row.count - 1
    return crossings * math.hypot(across_mm, row.spacing_mm / 2) + 2 * ends_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class _Fastening:
    """`row` spaced evenly, for a lace; `places_mm` from the upper edge, `apart` how they are spaced."""

    row: FastenerRow
    places_mm: tuple[float, ...]
    apart: tuple[float, ...]


def _reckon(
    *,
    length_mm: float,
    spacing_mm: float,
    first_mm: float,
    last_mm: float,
    at_mm: float | None,
    **lace: object,
) -> _Fastening:
    ends = {"first_mm": first_mm, "last_mm": last_mm}
    row = even_row(length_mm, spacing_mm=spacing_mm, **ends)
    if at_mm is None:
        return _Fastening(row=row, places_mm=row.places_mm, apart=(row.spacing_mm,))
    above, below = row_with_one_at(length_mm, spacing_mm=spacing_mm, at_mm=at_mm, **ends)
    places_mm = (*above.places_mm, *below.places_mm[1:])
    return _Fastening(row=row, places_mm=places_mm, apart=(above.spacing_mm, below.spacing_mm))


def _worked(made: _Fastening, given: Given) -> SheetAnswer:
    count, apart = len(made.places_mm), made.apart
    spaced = apart if len(apart) == 1 else (apart[0], " above, ", apart[1], " below")
    figures = {"count": float(count), "spacing": apart[0]}
    lines = [AnswerLine(label="on each side", parts=(f"{count}, ", *spaced, " apart"))]
    if given["gap_mm"] is not None:
        lace, lace_lines = _laced(made.row, given)
        figures |= lace
        lines += lace_lines
    rows = tuple(((str(at),), (mm,)) for at, mm in enumerate(made.places_mm, start=1))
    grid = Grid(caption="Places from the upper edge", heads=("", "from the edge"), rows=rows)
    return SheetAnswer(figures=figures, lines=tuple(lines), grids=(grid,))


def _laced(row: FastenerRow, given: Given) -> tuple[dict[str, float], list[AnswerLine]]:
    gap_mm, ends_mm = given["gap_mm"], given["ends_mm"]
    across_mm = between_holes_mm(
        gap_mm=gap_mm, from_edges_mm=[given["from_edge_1_mm"], given["from_edge_2_mm"]]
    )
    crossed_mm = crossed_lace_mm(row, across_mm=across_mm, ends_mm=ends_mm)
    spiral_mm = spiral_lace_mm(row, across_mm=across_mm, ends_mm=ends_mm)
    said = (", opened by ", gap_mm, " to get in: holes ", across_mm, " apart across")
    return {"crossed lace": crossed_mm, "spiral lace": spiral_mm}, [
        AnswerLine(label="lace, crossed", parts=(crossed_mm, *said)),
        AnswerLine(label="lace, in a spiral", parts=(spiral_mm, *said, ", one side half a space lower")),
    ]


def _down_the_front(known: GarmentFigures) -> float | None:
    return known.made_mm.get("front waist") or known.made_mm.get("nape to waist")


FASTENING = PatternSum(
    key="fastening",
    title="lacing, buttons and hooks",
    says="Holes, buttons or hooks spaced to come out even, and the lace for getting in.",
    group="Bias, bones and fastenings",
    inputs=(
        ask.Length("length", "Length of the edge", first=_down_the_front, is_needed=True),
        ask.Length("spacing", "About so far apart", box="spacing_mm", first=25.4, is_needed=True),
        ask.Length("first", "The first from the upper edge", box="first_mm", default="0 in", first=12.7),
        ask.Length("last", "The last from the lower edge", box="last_mm", default="0 in", first=12.7),
        ask.Length(
            "at", "One of them exactly at", box="at_mm", hint="From the upper edge, such as at the waist."
        ),
        ask.Length(
            "gap", "Opened by, to get in", box="gap_mm", hint="For a lace; leave empty for buttons or hooks."
        ),
        *(
            ask.Length(
                f"from_edge_{at}",
                f"Holes in from their edge, {side}",
                box=f"from_edge_{at}_mm",
                default="0 in",
                first=HOLE_FROM_EDGE_MM,
            )
            for at, side in ((1, "one side"), (2, "the other side"))
        ),
        ask.Length("ends", "Each end of the lace, to tie", box="ends_mm", default="0 in", first=304.8),
    ),
    reckon=_reckon,
    worked=_worked,
)
