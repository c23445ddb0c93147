"""Seams as a sheet: which edges match, by how much the others differ, and where the notches come."""

from collections.abc import Iterable, Sequence

from fitting.bridge.pattern_work.worked import Grid, Line, Sum, Worked
from fitting.calculation.seam_match import Joined, Notch, Seam, Stretch, notches, sleeve_seam

_WORDS = {
    Joined.MATCHES: "they match",
    Joined.EASED: "eased as said",
    Joined.GATHERED: "gathered as said",
    Joined.DIFFERS: "they differ",
}


def seams_sheet(stretches: Sequence[Stretch]) -> Worked:
    """Every seam of a garment, each as one stretch."""
    rows: tuple[tuple[Sum, ...], ...] = tuple(
        (
            (one.name,),
            (one.longer_mm,),
            (one.shorter_mm,),
            (one.difference_mm,),
            (one.ease_mm,),
            (_WORDS[one.joined],),
        )
        for one in stretches
    )
    return Worked(
        figures={one.name: one.difference_mm for one in stretches},
        grids=(
            Grid(
                caption="Each seam at full size",
                heads=("seam", "first edge", "second edge", "difference", "ease said", "so"),
                rows=rows,
            ),
        ),
        flags=tuple(_flags(stretches)),
    )


def sleeve_sheet(*, every_mm: float | None, **edges: float) -> Worked:
    """Head against armhole, front and back apart. Raises Faults as `sleeve_seam` does."""
    seam = sleeve_seam(**edges)
    rows: tuple[tuple[Sum, ...], ...] = tuple(
        (
            (one.name,),
            (one.longer_mm,),
            (one.shorter_mm,),
            (one.difference_mm,),
            (_WORDS[one.joined],),
        )
        for one in seam.stretches
    )
    return Worked(
        figures={
            **{f"{one.name}, off": one.off_mm for one in seam.stretches},
            "head": seam.longer_mm,
            "armhole": seam.shorter_mm,
        },
        lines=(
            Line(
                label="head − armhole",
                parts=(seam.longer_mm, " − ", seam.shorter_mm, " = ", seam.longer_mm - seam.shorter_mm),
            ),
        ),
        grids=(
            Grid(
                caption="Stretch by stretch",
                heads=("stretch", "sleeve head", "armhole", "difference", "so"),
                rows=rows,
            ),
            _notches(seam, notches(seam, every_mm=every_mm)),
        ),
        flags=tuple(_flags(seam.stretches)),
    )


def _notches(seam: Seam, placed: Sequence[Notch]) -> Grid:
    return Grid(
        caption="Notches, from the front pitch point",
        heads=("notch", "along the head", "along the armhole"),
        rows=tuple(
            ((str(at),), (one.on_longer_mm,), (one.on_shorter_mm,)) for at, one in enumerate(placed, start=1)
        ),
    )


def _flags(stretches: Iterable[Stretch]) -> Iterable[Sum]:
    for one in stretches:
        if one.joined is Joined.DIFFERS:
            longer = "longer" if one.off_mm > 0 else "shorter"
            yield (
                f"{one.name}: the first edge is ",
                abs(one.off_mm),
                f" {longer} than the second asks for. Read both again, or ease it in on purpose.",
            )
