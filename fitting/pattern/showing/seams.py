"""Seams as a sheet: which edges match, by how much the others differ, and where the notches come."""

from collections.abc import Iterable, Iterator, Sequence

from catalogue.tracing.calculation.tracing import TracedShape
from fitting.pattern.calculation.seam_match import SeamJoin, Stretch, notches
from fitting.pattern.calculation.seam_walk import SeamTolerance, WalkedSeam
from fitting.pattern.calculation.sleeve_walk import START
from fitting.pattern.calculation.sums.sheet_answer import Grid, Part, SheetAnswer, Sum
from fitting.pattern.calculation.sums.sleeve import AGAIN, differing, stretches_grid
from fitting.pattern.showing.seams_drawn import pieces_drawn, straightened

_MOVE_NOTCH = "In all they agree: move a notch, or ease it in on purpose."


def seams_sheet(
    walked: Sequence[tuple[WalkedSeam, SeamTolerance]],
    typed: Sequence[Stretch] = (),
    *,
    shapes: Sequence[TracedShape] = (),
    every_mm: float | None = None,
) -> SheetAnswer:
    """Every seam of a garment: those walked on its traced pieces, then those whose edges were typed."""
    seams = [seam for seam, _ in walked]
    wholes = [*(_whole(seam, allowed) for seam, allowed in walked), *typed]
    numbered = [(f"{at} · {one.name}", one) for at, one in enumerate(wholes, start=1)]
    parts = [_parts(at, seam) for at, seam in enumerate(seams, start=1)]
    notes = (
        (f"{at} · {seam.seam.name}: {seam.note}",) for at, seam in enumerate(seams, start=1) if seam.note
    )
    return SheetAnswer(
        figures={one.name: one.difference_mm for one in wholes},
        grids=(
            stretches_grid("Each seam at full size", "seam", numbered),
            *_grids_of_parts([part for own in parts for part in own], tuple(_notch_rows(seams, every_mm))),
        ),
        flags=(
            *(flag for own, whole in zip(parts, numbered, strict=False) for flag in _judged(own, whole)),
            *differing(numbered[len(seams) :]),
            *notes,
        ),
        drawings=(*pieces_drawn(seams, shapes), *straightened(seams)),
    )


def _parts(at: int, seam: WalkedSeam) -> list[tuple[str, Stretch]]:
    """Its stretches by name; none where it is walked as a whole."""
    stretches = seam.seam.stretches
    edge = seam.join.one[0][1]
    return [(f"{at} · {edge}, {part.name}", part) for part in stretches] if len(stretches) > 1 else []


def _grids_of_parts(
    parts: Sequence[tuple[str, Stretch]], notch_rows: tuple[tuple[Sum, ...], ...]
) -> Iterator[Grid]:
    if parts:
        yield stretches_grid("Stretch by stretch, from notch to notch", "seam and stretch", parts)
    if notch_rows:
        heads = ("seam and notch", "along the first edge", "along the second")
        yield Grid(caption="Notches, from the end that is named", heads=heads, rows=notch_rows)


def _whole(seam: WalkedSeam, allowed: SeamTolerance) -> Stretch:
    return Stretch(
        name=seam.seam.name,
        longer_mm=seam.one.length_mm,
        shorter_mm=seam.other.length_mm,
        ease_mm=allowed.ease_mm if allowed.ratio is None else 0.0,
        ratio=allowed.ratio,
    )


def _notch_rows(seams: Iterable[WalkedSeam], every_mm: float | None) -> Iterator[tuple[Sum, ...]]:
    for at, seam in enumerate(seams, start=1):
        start = f"from the {seam.start}" if seam.start else "from its start"
        for count, notch in enumerate(notches(seam.seam, every_mm=every_mm), start=1):
            name = _notch_name(seam, notch.ends) or f"notch {count}"
            yield (
                (f"{at} · {name}, {start}",),
                (notch.on_longer_mm,),
                (notch.on_shorter_mm,),
            )


def _notch_name(seam: WalkedSeam, ends: str) -> str:
    """The word for a notch of a sleeve by the stretch that it ends; empty for any other."""
    if seam.start != START:
        return ""
    is_gathered = any(one.name == "top" for one in seam.seam.stretches)
    front = "gathers begin" if is_gathered else "top of the head, shoulder seam"
    return {"front": front, "top": "gathers end", "back": "back pitch point"}.get(ends, "")


def _judged(parts: Sequence[tuple[str, Stretch]], whole: tuple[str, Stretch]) -> Iterator[tuple[Part, ...]]:
    """Stretch by stretch, where it has any; when they are off and the whole is not, a notch is."""
    is_notch = whole[1].joined is not SeamJoin.DIFFERS
    yield from differing(parts or [whole], _MOVE_NOTCH if parts and is_notch else AGAIN)
