"""Bias, piping, boning, fastenings and sewing time as sheets."""

from collections.abc import Sequence

from fitting.pattern.calculation.bias import bias_strips, continuous_length_mm, square_for_mm
from fitting.pattern.calculation.fastening import (
    BONE_SHORTER_MM,
    between_holes_mm,
    boning,
    crossed_lace_mm,
    even_row,
    piping_strip_mm,
    row_with_one_at,
    spiral_lace_mm,
)
from fitting.pattern.calculation.sewing_time import timed
from fitting.pattern.loading.sheet_answer import AnswerLine, Grid, SheetAnswer, Sum, number


def bias_sheet(
    *, total_mm: float, strip_mm: float, seam_mm: float, width_mm: float, length_mm: float | None
) -> SheetAnswer:
    """The strips for a length three ways. Raises Faults."""
    square_mm = square_for_mm(total_mm=total_mm, strip_mm=strip_mm, seam_mm=seam_mm)
    cut = bias_strips(total_mm, cloth_width_mm=width_mm, strip_mm=strip_mm, seam_mm=seam_mm)
    figures = {"square": square_mm, "strips": cut.number, "joined": cut.joined_mm, "cloth": cut.cloth_mm}
    lines = [
        AnswerLine(
            label="a square cut round",
            parts=("√(", total_mm, " × ", strip_mm, ") + ", seam_mm, " → ", square_mm, ", to whole inches"),
        ),
        AnswerLine(
            label="strips across the cloth",
            parts=(f"{cut.number} of ", cut.each_mm, ", joined ", cut.joined_mm, "; cloth ", cut.cloth_mm),
        ),
    ]  # fmt: skip
    if length_mm is not None:
        got_mm = continuous_length_mm(
            width_mm=width_mm, length_mm=length_mm, strip_mm=strip_mm, seam_mm=seam_mm
        )
        figures["from this piece"] = got_mm
        lines.append(
            AnswerLine(
                label="this piece cut round",
                parts=(
                    "(", width_mm, " − ", seam_mm, ") × (", length_mm, " − ", seam_mm, ") ÷ ", strip_mm,
                    " = ", got_mm, " of strip",
                ),
            )
        )  # fmt: skip
    return SheetAnswer(figures=figures, lines=tuple(lines))


def piping_sheet(*, cord_mm: float, allowance_mm: float, length_mm: float) -> SheetAnswer:
    strip_mm = piping_strip_mm(cord_mm=cord_mm, allowance_mm=allowance_mm)
    square_mm = square_for_mm(total_mm=length_mm, strip_mm=strip_mm, seam_mm=allowance_mm)
    return SheetAnswer(
        figures={"strip": strip_mm, "square": square_mm},
        lines=(
            AnswerLine(
                label="strip", parts=("π × ", cord_mm, " + 2 × ", allowance_mm, " = ", strip_mm, " wide")
            ),
            AnswerLine(label="a square cut round", parts=(square_mm, " gives ", length_mm, " of it")),
        ),
    )


def boning_sheet(channels_mm: Sequence[float], *, bone_width_mm: float, sides: int) -> SheetAnswer:
    """Raises Faults whose place is `channels[i]`, counted from 0."""
    made = boning(channels_mm, bone_width_mm=bone_width_mm, sides=sides)
    rows: tuple[tuple[Sum, ...], ...] = tuple(
        (
            (f"channel {at}",),
            (channel,),
            (channel, " − ", BONE_SHORTER_MM),
            (channel - BONE_SHORTER_MM,),
            (str(sides),),
        )
        for at, channel in enumerate(channels_mm, start=1)
    )
    return SheetAnswer(
        figures={"bones": made.count, "total": made.total_mm, "channel width": made.channel_width_mm},
        lines=(
            AnswerLine(label="bones", parts=(f"{len(channels_mm)} × {sides} = {made.count}",)),
            AnswerLine(label="boning in all", parts=(made.total_mm,)),
            AnswerLine(label="channel, stitching to stitching", parts=(made.channel_width_mm, " wide")),
        ),
        grids=(
            Grid(
                caption="Each bone ends short of its channel, so that it does not work through",
                heads=("channel", "its length", "sum", "bone", "how many"),
                rows=rows,
            ),
        ),
    )


def fastening_sheet(
    *,
    length_mm: float,
    spacing_mm: float,
    first_mm: float,
    last_mm: float,
    at_mm: float | None,
    gap_mm: float | None,
    from_edges_mm: Sequence[float],
    ends_mm: float,
) -> SheetAnswer:
    """Holes, buttons or hooks of one side; a lace where a gap to get in is given. Raises Faults."""
    ends = {"first_mm": first_mm, "last_mm": last_mm}
    row = even_row(length_mm, spacing_mm=spacing_mm, **ends)
    places, apart = row.places_mm, (row.spacing_mm,)
    if at_mm is not None:
        above, below = row_with_one_at(length_mm, spacing_mm=spacing_mm, at_mm=at_mm, **ends)
        places = (*above.places_mm, *below.places_mm[1:])
        apart = (above.spacing_mm, " above, ", below.spacing_mm, " below")
    figures = {"count": float(len(places)), "spacing": apart[0]}
    lines = [AnswerLine(label="on each side", parts=(f"{len(places)}, ", *apart, " apart"))]
    if gap_mm is not None:
        across_mm = between_holes_mm(gap_mm=gap_mm, from_edges_mm=from_edges_mm)
        figures |= {
            "crossed lace": crossed_lace_mm(row, across_mm=across_mm, ends_mm=ends_mm),
            "spiral lace": spiral_lace_mm(row, across_mm=across_mm, ends_mm=ends_mm),
        }
        said = (", opened by ", gap_mm, " to get in: holes ", across_mm, " apart across")
        lines += [
            AnswerLine(label="lace, crossed", parts=(figures["crossed lace"], *said)),
            AnswerLine(
                label="lace, in a spiral",
                parts=(figures["spiral lace"], *said, ", one side half a space lower"),
            ),
        ]
    rows: tuple[tuple[Sum, ...], ...] = tuple(((str(at),), (mm,)) for at, mm in enumerate(places, start=1))
    grid = Grid(caption="Places from the upper edge", heads=("", "from the edge"), rows=rows)
    return SheetAnswer(figures=figures, lines=tuple(lines), grids=(grid,))


def sewing_sheet(
    seams: Sequence[tuple[str, float, int]], *, sample_mm: float, minutes: float, per_inch: float
) -> SheetAnswer:
    """`seams`: name, length, times sewn. Raises Faults."""
    stitch = timed(sample_mm=sample_mm, minutes=minutes, stitches_per_inch=per_inch)
    rows: tuple[tuple[Sum, ...], ...] = tuple(
        (
            (name,),
            (mm, f" × {times}"),
            (f"{number(times * stitch.minutes(mm), 0)} minutes",),
        )
        for name, mm, times in seams
    )
    hours = stitch.hours(mm for _, mm, times in seams for _ in range(times))
    total_mm = sum(mm * times for _, mm, times in seams)
    return SheetAnswer(
        figures={"hours": hours, "stitches a minute": stitch.stitches_per_minute, "seam": total_mm},
        lines=(
            AnswerLine(
                label="your pace",
                parts=(sample_mm, f" at {number(per_inch)} an inch in {number(minutes)} minutes: "
                       f"{number(stitch.stitches_per_minute, 1)} stitches a minute"),
            ),
            AnswerLine(label="in all", parts=(total_mm, f" of seam, {number(hours, 1)} hours")),
        ),
        grids=(Grid(caption="Seam by seam", heads=("seam", "length", "time"), rows=rows),),
    )  # fmt: skip
