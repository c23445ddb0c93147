"""What the page of a working pattern says of its lines, of its seams, and of what a step changed."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.showing import Writing
from fitting.outfits.calculation.garment import Fit
from fitting.pattern.calculation.working.pattern import Pattern, PatternSeam, SleeveSeam
from fitting.pattern.calculation.working.sleeves import sleeve_off_mm
from fitting.pattern.calculation.working.steps import SEAM_OFF_MM
from fitting.pattern.calculation.working.truing import BOTH
from fitting.pattern.loading.wanted import Wanted, WantedLine
from fitting.pattern.showing.pattern_drawn import level_label
from fitting.pattern.showing.pattern_places import pair_key

AREA = "area_mm2"
SQUARE = {"in": (25.4**2, "in²"), "cm": (100.0, "cm²")}


@dataclass(frozen=True, slots=True, kw_only=True)
class PatternLine:
    """A level or a length of the pattern. `is_off`: it is not as it is wanted, by more than may be."""

    line: str
    label: str
    now_mm: float
    wanted: WantedLine | None = None
    says: str = ""
    is_off: bool = False

    @property
    def difference_mm(self) -> float | None:
        return self.now_mm - self.wanted.mm if self.wanted else None


@dataclass(frozen=True, slots=True, kw_only=True)
class SeamRow:
    """A seam, or a sleeve's head in its armhole. `lengths_mm`: of both edges, where there are just two.

    `mending`: where it does not meet and can be trued. `broken`: how a step says that it broke this one.
    """

    words: str
    lengths_mm: tuple[float, float] | None
    is_off: bool
    says: str
    broken: str
    mending: "Mending | None" = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Mending:
    """A step in one press: its `slug`, its boxes as they are sent, and what its button says."""

    slug: str
    boxes: Mapping[str, str]
    button: str
    of: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Broken:
    """What a step broke, and the step that would mend it, where one is known."""

    sentence: str
    mending: Mending | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeRow:
    piece: str
    figure: str
    before: str
    after: str
    by: str


def line_rows(pattern: Pattern, wanted: Wanted, writing: Writing) -> list[PatternLine]:
    """Its girths, then the lengths drawn on it, in the order of the body."""
    lengths = {
        line: mm for piece in reversed(pattern.pieces) for line, mm in piece.shape.lengths_mm().items()
    }
    found = {**pattern.girths(), **lengths}
    order = {line: at for at, line in enumerate(LINES)}
    return [
        _line_row(line, found[line], wanted, writing)
        for line in sorted(found, key=lambda line: (line in lengths, order.get(line, len(order))))
    ]


def _line_row(line: str, now_mm: float, wanted: Wanted, writing: Writing) -> PatternLine:
    row = PatternLine(line=line, label=level_label(line), now_mm=now_mm)
    one = wanted.lines.get(line)
    if one is None:
        says = "" if wanted.missing else "not measured on the wearer"
        return PatternLine(line=line, label=row.label, now_mm=now_mm, says=says)
    is_length = line in LINES and LINES[line].kind == "length"
    fits_mm = wanted.length_fits_mm if is_length else wanted.fits_mm
    off_mm = now_mm - one.mm
    small, large = ("too short", "too long") if is_length else ("too small", "too large")
    enough = off_mm > 0 and one.fit in (Fit.LOOSE, Fit.GATHERED)
    is_off = abs(off_mm) > fits_mm and not enough
    says = f"{writing.length(abs(off_mm))} {large if off_mm > 0 else small}"
    if writing.length(abs(off_mm)) == writing.length(0):
        says = "as wanted"
    elif enough:
        says = (
            f"{writing.length(off_mm)} more: {'to be gathered in' if one.fit is Fit.GATHERED else 'enough'}"
        )
    elif not is_off:
        says = f"fits: {writing.length(abs(off_mm))} {'more' if off_mm > 0 else 'less'} than wanted"
    elif abs(off_mm) <= one.doubt_mm:
        says += ", no more than the measure’s own doubt"
    return PatternLine(line=line, label=row.label, now_mm=now_mm, wanted=one, says=says, is_off=is_off)


def seam_rows(pattern: Pattern, writing: Writing) -> list[SeamRow]:
    """Its seams, then its sleeves."""
    return [
        *(_seam_row(pattern, seam, writing) for seam in pattern.seams),
        *(row for sleeve in pattern.sleeves if (row := _sleeve_row(pattern, sleeve, writing))),
    ]


def _seam_row(pattern: Pattern, seam: PatternSeam, writing: Writing) -> SeamRow:
    apart_mm, ease_mm = pattern.off_mm(seam), seam.ease_mm or 0.0
    told = f"The seam of {seam.words} "
    if apart_mm is None:
        says = "One of its edges is no longer there."
        return SeamRow(words=seam.words, lengths_mm=None, is_off=True, says=says, broken=told)
    one, other = (
        pattern.edge(piece, edge).length for piece, edge in zip(seam.pieces, seam.edges, strict=True)
    )
    off_mm = apart_mm - ease_mm
    is_off = abs(off_mm) > SEAM_OFF_MM
    longer = seam.pieces[0] if ease_mm > 0 else seam.pieces[1]
    eased = f", {longer} eased by {writing.length(abs(ease_mm))}" if abs(ease_mm) > SEAM_OFF_MM else ""
    at = 0 if off_mm > 0 else 1
    says = f"{seam.edges[at]} of {seam.pieces[at]} is {finely(abs(off_mm), writing)} too long{eased}"
    return SeamRow(
        words=seam.words,
        lengths_mm=(one, other),
        is_off=is_off,
        says=says if is_off else f"meets{eased}",
        broken=told,
        mending=_truing(seam) if is_off else None,
    )


def _truing(seam: PatternSeam) -> Mending:
    one, other = (pair_key(piece, edge) for piece, edge in zip(seam.pieces, seam.edges, strict=True))
    boxes = {"one": one, "other": other, "gives_way": BOTH}
    return Mending(slug="true", boxes=boxes, button="True these edges", of=seam.words)


def _sleeve_row(pattern: Pattern, sleeve: SleeveSeam, writing: Writing) -> SeamRow | None:
    """None where an edge of it is no longer there."""
    off = sleeve_off_mm(pattern, sleeve.join, sleeve.eases_mm)
    if not off:
        return None
    head = sleeve.join.one[0][0]
    parts = [
        f"{name} {finely(abs(mm), writing)} too {'long' if mm > 0 else 'short'}"
        for name, mm in off.items()
        if abs(mm) > SEAM_OFF_MM
    ]
    words = f"head of {head} in its armhole"
    mending = Mending(slug="true-sleeve", boxes={"piece": head}, button="True the sleeve", of=words)
    return SeamRow(
        words=words,
        lengths_mm=None,
        is_off=bool(parts),
        says=f"the head is {', '.join(parts)}" if parts else "meets, part by part",
        broken=f"The head of {head} ",
        mending=mending if parts else None,
    )


def finely(mm: float, writing: Writing) -> str:
    """A small length as a rule shows it; in millimetres where a rule would show nothing."""
    written = writing.length(mm)
    return f"{mm:.1f} mm" if written == writing.length(0) else written


def broken(sentences: Sequence[str], seams: Sequence[SeamRow]) -> list[Broken]:
    """Each with the step that would mend it, where that can be done in one."""
    return [
        Broken(
            sentence=sentence,
            mending=next((row.mending for row in seams if sentence.startswith(row.broken)), None),
        )
        for sentence in sentences
    ]


def change_rows(changed: Mapping[str, Mapping[str, Any]], writing: Writing) -> list[ChangeRow]:
    """Of each piece what it measured and measures; an area as whole squares of the reader's unit."""
    return [
        _change_row(piece, figure, before, after, writing)
        for piece, figures in changed.items()
        for figure, (before, after) in figures.items()
        if _is_seen(figure, before, after, writing)
    ]


def _is_seen(figure: str, before: float | None, after: float | None, writing: Writing) -> bool:
    if before is None or after is None:
        return True
    return _written(figure, before, writing) != _written(figure, after, writing)


def _change_row(
    piece: str, figure: str, before: float | None, after: float | None, writing: Writing
) -> ChangeRow:
    by = ""
    if before is not None and after is not None:
        sign = "+" if after > before else "−"
        by = f"{sign}{_written(figure, abs(after - before), writing)}"
    return ChangeRow(
        piece=piece,
        figure="area" if figure == AREA else level_label(figure),
        before="new" if before is None else _written(figure, before, writing),
        after="gone" if after is None else _written(figure, after, writing),
        by=by,
    )


def _written(figure: str, size: float, writing: Writing) -> str:
    if figure != AREA:
        return writing.length(size)
    square, unit = SQUARE[writing.system]
    return f"{size / square:.0f} {unit}"


def unmet(rows: Sequence[PatternLine], seams: Sequence[SeamRow]) -> Iterator[str]:
    """What is not yet as it should be, for the head of a page."""
    off = [row.label for row in rows if row.is_off]
    if off:
        yield f"Not yet as wanted: {', '.join(off)}."
    apart = sum(row.is_off for row in seams)
    if apart:
        yield f"{apart} seam{'s do' if apart > 1 else ' does'} not meet."
