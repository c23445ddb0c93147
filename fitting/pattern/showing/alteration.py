"""The alteration plan as a sheet: each edge at each level, the new edge, the allowance to cut with."""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence

from fitting.pattern.calculation.alteration import (
    AlterableSeam,
    AlterationPlan,
    LevelChange,
    alteration_plan,
    inlay_to_cut_mm,
    length_change,
)
from fitting.pattern.calculation.sums.sheet_answer import AnswerLine, Grid, SheetAnswer, Sum
from fitting.pattern.loading.piece_shapes import PieceShape
from fitting.pattern.showing.altered_pieces import PlannedLevel, altered_pieces

STEP_MM = 50.8  # between the places of a new edge that are written out
MOST_STEPS = 60  # a seam is no longer than a person is tall
SEEN_MM = 6.35  # less than a quarter of an inch round the body is not worth a word
NOTHING = "Nothing is to be added or taken off: what was compared likeliest fits, or nobody can tell yet."
COVERAGE = 2  # twice the standard uncertainty


def alteration_sheet(
    levels: Sequence[PlannedLevel],
    seams: Sequence[AlterableSeam],
    *,
    usual_mm: float,
    widths_mm: Mapping[str, Mapping[str, float]],
    shapes: Mapping[str, PieceShape] | None = None,
    lengths_mm: Mapping[str, float] | None = None,
    left: Sequence[LevelChange] = (),
) -> SheetAnswer:
    """Raises Faults as `alteration_plan` does. `widths_mm` by piece and level, `shapes`: for drawings.

    `lengths_mm`: by length, how much is added to it, or taken off below 0. `left`: levels that stay as they
    are: the seam runs out to nothing at the next of them, above and below those that change.
    """
    if not levels and not lengths_mm:
        return SheetAnswer(flags=((NOTHING,),))
    changes = [level.change for level in levels]
    plan = alteration_plan([*changes, *_next_to(changes, left)], seams)
    cut_mm = {level.change.level: _cut_mm(plan, level, usual_mm) for level in levels}
    return SheetAnswer(
        figures={f"{one.level}, {one.seam}, each": one.each_mm for one in plan.changes}
        | {f"{level}, allowance to cut": mm for level, mm in cut_mm.items()},
        lines=tuple(_lines(plan, levels)),
        grids=(
            *([_edges(plan)] if levels else []),
            *_lengths(lengths_mm or {}),
            *_along(plan),
            *([_inlay(plan, levels, cut_mm, usual_mm)] if levels else []),
        ),
        flags=(*_flags(plan), *_crossed(plan, left)),
        drawings=tuple(altered_pieces(plan, levels, widths_mm, shapes or {})),
    )


def _cut_mm(plan: AlterationPlan, level: PlannedLevel, usual_mm: float) -> float:
    return inlay_to_cut_mm(
        usual_mm=usual_mm,
        difference_mm=-level.change.change_mm,
        expanded_doubt_mm=COVERAGE * level.u_mm,
        edges=plan.edges_at(level.change.level),
    )


def _lines(plan: AlterationPlan, levels: Iterable[PlannedLevel]) -> Iterable[AnswerLine]:
    for level in levels:
        parts: list[str | float] = []
        for one in plan.at_level(level.change.level):
            if not one.each_mm:
                continue
            sign = "" if not parts else " + "
            parts += [f"{sign}{one.edges} × ", one.each_mm, f" ({one.seam})"]
        if parts:
            each = (", on each of the two",) if level.change.limbs > 1 else ()
            yield AnswerLine(label=level.change.level, parts=(*parts, " = ", level.change.change_mm, *each))


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


def _along(plan: AlterationPlan) -> Iterator[Grid]:
    """The new edge at its levels and every two inches between them; one grid for seams of the same levels."""
    levels: dict[tuple[tuple[float, str], ...], list[str]] = {}
    for seam in plan.along:
        named = tuple(sorted((one.height_mm, one.level) for one in plan.changes if one.seam == seam))
        levels.setdefault(named, []).append(seam)
    for named, seams in levels.items():
        by_height = dict(named)
        first, last = named[0][0], named[-1][0]
        step_mm = max(STEP_MM, (last - first) / MOST_STEPS)
        between = (step_mm * step for step in range(math.ceil(first / step_mm), math.ceil(last / step_mm)))
        heights = sorted({*by_height, *between})
        yield Grid(
            caption="The new edge along each seam, fair between the levels",
            heads=("below the top of the seam", *seams),
            rows=tuple(
                (
                    (height, f", {by_height[height]}") if height in by_height else (height,),
                    *((plan.along[seam].at(height),) for seam in seams),
                )
                for height in heights
            ),
        )


def _inlay(
    plan: AlterationPlan, levels: Sequence[PlannedLevel], cut_mm: Mapping[str, float], usual_mm: float
) -> Grid:
    rows: tuple[tuple[Sum, ...], ...] = tuple(
        (
            (level.change.level,),
            (
                usual_mm,
                " + (",
                max(0.0, level.change.change_mm),
                " + ",
                COVERAGE * level.u_mm,
                f") ÷ {plan.edges_at(level.change.level)}",
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


def _next_to(changes: Sequence[LevelChange], left: Sequence[LevelChange]) -> Iterator[LevelChange]:
    """The nearest levels that stay, above the first that changes and below the last, on trunk and limb."""
    for limbs in {change.limbs for change in changes}:
        heights = [change.height_mm for change in changes if change.limbs == limbs]
        stay = [one for one in left if one.limbs == limbs and one.seams]
        above = [one for one in stay if one.height_mm < min(heights)]
        below = [one for one in stay if one.height_mm > max(heights)]
        yield from [max(above, key=lambda one: one.height_mm)] if above else []
        yield from [min(below, key=lambda one: one.height_mm)] if below else []


def _crossed(plan: AlterationPlan, left: Sequence[LevelChange]) -> Iterable[Sum]:
    """Levels that fit as they are, and that a fair seam would carry along."""
    for level in left:
        crossed_mm = 0.0 if plan.at_level(level.level) else plan.between_mm(level)
        if abs(crossed_mm) > SEEN_MM:
            yield (
                f"The {level.level} is left as it is, but a seam that runs fair between the levels above "
                f"and below would {'add' if crossed_mm > 0 else 'take off'} ",
                abs(crossed_mm),
                " there in all: write 0 at this level to hold it.",
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
