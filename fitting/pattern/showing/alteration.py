"""The alteration plan as a sheet: each edge at each level, the new edge, the allowance to cut with."""

from collections.abc import Iterable, Mapping, Sequence

from fitting.pattern.calculation.alteration import (
    AlterableSeam,
    AlterationPlan,
    alteration_plan,
    inlay_to_cut_mm,
    length_change,
)
from fitting.pattern.loading.shapes import PieceShape
from fitting.pattern.loading.worked import Grid, Line, Sum, Worked
from fitting.pattern.showing.altered_pieces import PlannedLevel, altered_pieces

STEP_MM = 50.8  # between the places of a new edge that are written out
COVERAGE = 2  # twice the standard uncertainty


def alteration_sheet(
    levels: Sequence[PlannedLevel],
    seams: Sequence[AlterableSeam],
    *,
    usual_mm: float,
    widths_mm: Mapping[str, Mapping[str, float]],
    shapes: Mapping[str, PieceShape] | None = None,
    lengths_mm: Mapping[str, float] | None = None,
) -> Worked:
    """Raises Faults as `alteration_plan` does. `widths_mm` by piece and level, `shapes`: for drawings.

    `lengths_mm`: by length, how much is added to it, or taken off below 0.
    """
    plan = alteration_plan([level.change for level in levels], seams)
    edges = sum(seam.edges for seam in seams)
    cut_mm = {
        level.change.level: inlay_to_cut_mm(
            usual_mm=usual_mm,
            difference_mm=-level.change.change_mm,
            expanded_doubt_mm=COVERAGE * level.u_mm,
            edges=edges,
        )
        for level in levels
    }
    return Worked(
        figures={f"{one.level}, {one.seam}, each": one.each_mm for one in plan.changes}
        | {f"{level}, allowance to cut": mm for level, mm in cut_mm.items()},
        lines=tuple(_lines(plan, levels)),
        grids=(
            _edges(plan),
            *_lengths(lengths_mm or {}),
            _along(plan, levels),
            _inlay(levels, cut_mm, usual_mm, edges),
        ),
        flags=tuple(_flags(plan)),
        drawings=tuple(altered_pieces(plan, levels, widths_mm, shapes or {})),
    )


def _lines(plan: AlterationPlan, levels: Iterable[PlannedLevel]) -> Iterable[Line]:
    for level in levels:
        parts: list[str | float] = []
        for one in plan.at_level(level.change.level):
            if not one.each_mm:
                continue
            sign = "" if not parts else " + "
            parts += [f"{sign}{one.edges} × ", one.each_mm, f" ({one.seam})"]
        if parts:
            yield Line(label=level.change.level, parts=(*parts, " = ", level.change.change_mm))


def _edges(plan: AlterationPlan) -> Grid:
    rows: tuple[tuple[Sum, ...], ...] = tuple(
        (
            (f"{one.level}: {one.seam}",),
            (" and ".join(one.pieces),),
            (str(one.edges),),
            (one.each_mm,),
            (one.total_mm,),
        )
        for one in plan.changes
        if one.each_mm
    )
    return Grid(
        caption="At each edge: add, or with a minus take off",
        heads=("level and seam", "pieces", "edges", "each edge", "in all"),
        rows=rows,
    )


def _lengths(lengths_mm: Mapping[str, float]) -> Iterable[Grid]:
    if not lengths_mm:
        return
    rows: list[tuple[Sum, ...]] = []
    for line, mm in lengths_mm.items():
        change = length_change(mm)
        rows.append(((line,), (mm,), (change.at_line_mm,), (change.at_hem_mm,), (change.fold_mm,)))
    yield Grid(
        caption="Each length: add, or with a minus take off",
        heads=("length", "in all", "at a line across the piece", "at the hem", "depth of the fold"),
        rows=tuple(rows),
    )


def _along(plan: AlterationPlan, levels: Sequence[PlannedLevel]) -> Grid:
    """The new edge of each seam at its levels, and every two inches between them."""
    named = {level.change.height_mm: level.change.level for level in levels}
    lowest = max(named)
    between = [STEP_MM * step for step in range(1, int(lowest / STEP_MM) + 1) if STEP_MM * step < lowest]
    heights = sorted({*named, *(one for one in between if one > min(named))})
    return Grid(
        caption="The new edge along each seam, fair between the levels",
        heads=("below the top of the seam", *plan.along),
        rows=tuple(
            (
                (height, f", {named[height]}") if height in named else (height,),
                *((curve.at(height),) for curve in plan.along.values()),
            )
            for height in heights
        ),
    )


def _inlay(levels: Sequence[PlannedLevel], cut_mm: Mapping[str, float], usual_mm: float, edges: int) -> Grid:
    rows: tuple[tuple[Sum, ...], ...] = tuple(
        (
            (level.change.level,),
            (
                usual_mm,
                " + (",
                max(0.0, level.change.change_mm),
                " + ",
                COVERAGE * level.u_mm,
                f") ÷ {edges}",
            ),
            (cut_mm[level.change.level],),
        )
        for level in levels
    )
    return Grid(
        caption="If the paper stays as drawn: the allowance to cut with, so that it can be let out",
        heads=("level", "usual + (missing + twice its doubt) ÷ edges", "allowance to cut"),
        rows=rows,
    )


def _flags(plan: AlterationPlan) -> Iterable[Sum]:
    for one in plan.flagged:
        yield (
            f"At the {one.level} each edge of the {one.seam} would take ",
            abs(one.each_mm),
            ", more than the ",
            one.most_each_mm,
            " that one edge should: share it over more seams, or grade the piece.",
        )
