"""Gathers, tiers, pleats and tucks as sheets, each sum as a person would write it."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from fitting.pattern.calculation.folded_row import AGREES_MM
from fitting.pattern.calculation.fullness import RATIOS, Gathers, Strips, gathers, strips, tiers
from fitting.pattern.calculation.pleats import Pleat, PleatGivens, Pleats, pleats
from fitting.pattern.calculation.tucks import TuckGivens, Tucks, tucks
from fitting.pattern.loading.sheet_answer import AnswerLine, Grid, SheetAnswer, Sum, number


@dataclass(frozen=True, slots=True, kw_only=True)
class ClothForStrips:
    """Strips cut across a cloth for a flat length; each `depth_mm` as cut."""

    width_mm: float
    depth_mm: float
    join_mm: float
    is_round: bool


def gathers_sheet(
    *, finished_mm: float | None, flat_mm: float | None, ratio: float | None, cloth: ClothForStrips | None
) -> SheetAnswer:
    """Any one of finished, flat and ratio from the other two. Raises Faults."""
    made = gathers(finished_mm=finished_mm, flat_mm=flat_mm, ratio=ratio)
    return _with_strips(
        SheetAnswer(
            figures={"finished": made.finished_mm, "flat": made.flat_mm, "ratio": made.ratio},
            lines=(_gathered(made, asked=ratio is None),),
            grids=(_ratios(made),),
        ),
        made.flat_mm,
        cloth,
    )


def _with_strips(worked: SheetAnswer, flat_mm: float, cloth: ClothForStrips | None) -> SheetAnswer:
    """A sheet with the strips that its flat length is joined from."""
    if cloth is None:
        return worked
    cut = _strips(flat_mm, cloth)
    lines = (
        AnswerLine(label="strips", parts=(flat_mm, f" from {cut.number} strips, joined ", cut.joined_mm)),
        AnswerLine(label="cloth", parts=(f"{cut.number} × ", cloth.depth_mm, " = ", cut.cloth_mm)),
    )
    figures = {"strips": cut.number, "joined": cut.joined_mm, "cloth": cut.cloth_mm}
    return replace(worked, figures={**worked.figures, **figures}, lines=(*worked.lines, *lines))


def _strips(flat_mm: float, cloth: ClothForStrips) -> Strips:
    return strips(
        flat_mm,
        cloth_width_mm=cloth.width_mm,
        depth_mm=cloth.depth_mm,
        join_mm=cloth.join_mm,
        is_round=cloth.is_round,
    )


def _gathered(made: Gathers, *, asked: bool) -> AnswerLine:
    ratio = number(made.ratio)
    if asked:
        return AnswerLine(label="ratio", parts=(made.flat_mm, " ÷ ", made.finished_mm, f" = {ratio}"))
    return AnswerLine(label="flat cloth", parts=(made.finished_mm, f" × {ratio} = ", made.flat_mm))


def _ratios(made: Gathers) -> Grid:
    rows: tuple[tuple[Sum, ...], ...] = tuple(
        (
            (name,),
            (number(least) if least == most else f"{number(least)} to {number(most)}",),
            (least * made.finished_mm,),
            (source,),
        )
        for name, least, most, source in RATIOS
    )
    return Grid(
        caption="What others give for this finished length",
        heads=("fullness", "flat ÷ finished", "at least", "who says so"),
        rows=rows,
    )


def tiers_sheet(
    *,
    top_mm: float,
    hem_mm: float | None,
    ratio: float | None,
    count: int | None,
    cloth: ClothForStrips | None = None,
) -> SheetAnswer:
    made = tiers(top_mm=top_mm, hem_mm=hem_mm, ratio=ratio, number=count)
    cut = [_strips(width, cloth) for width in made.widths_mm] if cloth else []
    rows: tuple[tuple[Sum, ...], ...] = tuple(
        (
            (f"tier {at}",),
            ((made.top_mm, *made.widths_mm)[at - 1], f" × {number(made.ratio, 3)}"),
            (width,),
            *(((str(one.number),), (one.cloth_mm,)) if (one := cut[at - 1] if cut else None) else ()),
        )
        for at, width in enumerate(made.widths_mm, start=1)
    )
    asked = made.asked_ratio
    lines = [
        AnswerLine(label="ratio", parts=(f"each tier {number(made.ratio, 3)} × the one above",)),
        AnswerLine(label="hem", parts=(made.hem_mm,)),
    ]
    if cut:
        lines.append(AnswerLine(label="cloth", parts=(sum(one.cloth_mm for one in cut), " in all")))
    heads = ("tier", "from the one above", "flat", *(("strips", "cloth") if cut else ()))
    return SheetAnswer(
        figures={"ratio": made.ratio, "hem": made.hem_mm, "tiers": len(made.widths_mm)}
        | ({"cloth": sum(one.cloth_mm for one in cut)} if cut else {}),
        lines=tuple(lines),
        grids=(Grid(caption="Flat width of each tier, from the top", heads=heads, rows=rows),),
        flags=((f"Asked for {number(asked, 3)}: whole tiers make it {number(made.ratio, 3)}.",),)
        if asked is not None
        else (),
    )


def pleats_sheet(kind: Pleat, known: PleatGivens, cloth: ClothForStrips | None = None) -> SheetAnswer:
    row = pleats(kind, known)
    worked = SheetAnswer(
        figures={
            "number": row.number,
            "finished": row.finished_mm,
            "flat": row.flat_mm,
            "width": row.width_mm,
            "depth": row.depth_mm,
            "ratio": row.ratio,
            "overlap": row.overlap_mm,
        },
        lines=(
            AnswerLine(label="number", parts=(f"{row.number} {kind} pleats",)),
            AnswerLine(label="width", parts=(row.finished_mm, f" ÷ {row.number} = ", row.width_mm)),
            AnswerLine(label="depth", parts=(row.depth_mm,)),
            AnswerLine(label="flat cloth", parts=_flat(row)),
            AnswerLine(label="ratio", parts=(row.flat_mm, " ÷ ", row.finished_mm, f" = {number(row.ratio)}")),
        ),
        flags=tuple(_pleat_flags(row, known)),
    )
    return _with_strips(worked, row.flat_mm, cloth)


def _flat(row: Pleats) -> Sum:
    folds = f"{2 * row.kind.folds} × {row.number} × "
    lying = (row.finished_mm, " + ") if row.kind.shows else ()
    return (*lying, folds, row.depth_mm, " = ", row.flat_mm)


def _pleat_flags(row: Pleats, known: PleatGivens) -> Iterable[Sum]:
    yield from _corrected(row, known, "pleats")
    if row.overlap_mm > AGREES_MM:
        yield (
            "Folds lie over the folds of their neighbours by ",
            row.overlap_mm,
            ": thick, but it can be sewn.",
        )


def _corrected(row: Pleats | Tucks, known: PleatGivens | TuckGivens, what: str) -> Iterable[Sum]:
    for name in row.corrected:
        asked_mm, made_mm = getattr(known, name), getattr(row, f"{name}_mm")
        if abs(asked_mm - made_mm) >= AGREES_MM:
            yield (
                f"The {name} asked for, ",
                asked_mm,
                f", gives no whole number of {what}: it becomes ",
                made_mm,
                ".",
            )


def tucks_sheet(known: TuckGivens, *, edge_mm: float, cloth: ClothForStrips | None = None) -> SheetAnswer:
    row = tucks(known, edge_mm=edge_mm)
    room_mm = row.finished_mm - 2 * edge_mm
    flags = list(_corrected(row, known, "tucks"))
    if row.depth_mm > row.spacing_mm + AGREES_MM:
        flags.append(("Each tuck lies over the stitching of the next.",))
    worked = SheetAnswer(
        figures={
            "number": row.number,
            "finished": row.finished_mm,
            "flat": row.flat_mm,
            "spacing": row.spacing_mm,
            "depth": row.depth_mm,
        },
        lines=(
            AnswerLine(label="tucks", parts=(f"{row.number}, with {row.number - 1} spaces between",)),
            AnswerLine(label="spacing", parts=(room_mm, f" ÷ {row.number - 1} = ", row.spacing_mm)),
            AnswerLine(label="depth", parts=(row.depth_mm,)),
            AnswerLine(
                label="flat cloth",
                parts=(row.finished_mm, f" + 2 × {row.number} × ", row.depth_mm, " = ", row.flat_mm),
            ),
        ),
        flags=tuple(flags),
    )
    return _with_strips(worked, row.flat_mm, cloth)
