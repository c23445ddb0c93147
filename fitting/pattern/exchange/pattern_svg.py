"""A pattern out of an SVG drawing: one that went out from here as it was, any other by its closed lines.

What lines do not show stands in the drawing as the JSON that is kept of a pattern (`data-kept`), and is read
as strictly as a row. What another program changed of a line holds; what it left out is as usual.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.tracing.calculation.tracing import LevelLine, level_widths
from catalogue.tracing.exchange.svg_outlines import ReadPiece, read_outlines
from catalogue.workroom.reader.codec import from_json, to_json
from catalogue.workroom.reader.strict_json import load_strictly
from fitting.pattern.calculation.working.pattern import Path, Pattern, PatternPiece

DRAWN = ("name", "outline", "levels", "marks")  # of a piece: what its lines say


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadPattern:
    """`is_whole`: the file says its seams and its fastening too. `left_out`: how often what was not read."""

    pattern: Pattern
    is_whole: bool
    left_out: Mapping[str, int]
    notes: tuple[str, ...]


def kept_of_pattern(pattern: Pattern) -> dict[str, Any]:
    """All but its pieces."""
    return {key: one for key, one in to_json(pattern, lean=True).items() if key != "pieces"}


def kept_of_piece(piece: PatternPiece) -> dict[str, Any]:
    """All that its lines do not say."""
    return {key: one for key, one in to_json(piece, lean=True).items() if key not in DRAWN}


def pattern_of_svg(text: str, *, unit: str = "") -> ReadPattern:
    """`unit`: what one user unit is, in place of what the file says. Raises XmlRefused, Faults."""
    read = read_outlines(text, unit=unit, with_handles=True)
    if faults := [fault for piece in read.pieces for fault in piece.faults]:
        raise Faults(faults)
    pieces = tuple(_piece(piece, read.levels) for piece in read.pieces)
    names = [piece.name for piece in pieces]
    if twice := next((name for name in names if names.count(name) > 1), None):
        raise Faults([Fault(twice, "Two pieces bear this name: give one of them another in the drawing.")])
    kept = _kept(read.kept, "the drawing")
    pattern = from_json(Pattern, {**kept, "pieces": []})
    pattern = replace(pattern, pieces=pieces)
    if faults := pattern.faults():
        raise Faults(faults)
    return ReadPattern(
        pattern=pattern,
        is_whole=bool(read.kept),
        left_out=read.left_out,
        notes=tuple(f"{piece.name}: {piece.note}" for piece in read.pieces if piece.note),
    )


def _piece(read: ReadPiece, lines: tuple[LevelLine, ...]) -> PatternPiece:
    if read.shape is None:
        raise Faults([Fault(read.name, "There is no outline of this piece.")])
    cut, on_fold = read.facts.get("cut", 2), read.facts.get("on_fold", False)
    said = {"cut": cut, "on_fold": on_fold, "mirrored": cut % 2 == 0 and not on_fold}
    if cloth := read.facts.get("cloth"):
        said["cloth"] = cloth
    levels: dict[str, Path] = {
        width.line: (width.spans[0][0], width.spans[-1][1]) for width in level_widths(read.shape, lines)
    }
    undrawn = {**said, **_kept(read.kept, read.name), "name": read.name, "outline": {"nodes": []}}
    piece = replace(
        from_json(PatternPiece, undrawn),
        outline=read.shape.outline,
        levels=levels | dict(read.levels),
        marks=read.shape.marks,
    )
    return piece.moved(lambda at: at - read.moved)


def _kept(text: str, where: str) -> dict[str, Any]:
    """Raises Faults where it is no JSON of ours."""
    if not text:
        return {}
    try:
        kept = load_strictly(text)
    except (ValueError, RecursionError):
        kept = None
    if not isinstance(kept, dict):
        raise Faults([Fault(where, "What was kept with it (data-kept) could not be read: take that out.")])
    return {key: one for key, one in kept.items() if key not in (*DRAWN, "pieces")}
