"""The steps of a working pattern: each takes a pattern and what is asked, and makes the next pattern.

    changed = take(pattern, Lengthen(pieces=("front",), line=(300j, 300 + 300j), by_mm=25.4))

`STEPS` is the table of them. After each the pieces it changed are tried: an outline that crosses itself is no
piece of paper, and the pattern before stands.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.lengths.calculation.lengths import System, format_length
from fitting.pattern.calculation.working import (
    corners,
    darts,
    edges,
    girths,
    grading,
    joining,
    layers,
    marking,
    mirroring,
    parting,
    sleeves,
    taking_over,
    truing,
)
from fitting.pattern.calculation.working.pattern import Pattern, PatternPiece

Change = tuple[float | None, float | None]
SEAM_OFF_MM = 0.5  # a seam that a step takes farther off than this is said to be broken
MOST_MM = 1e6
_ROUNDING_MM = 1e-3


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """`asks`: the kind of value that says what is asked of it."""

    name: str
    asks: type
    make: Callable[[Pattern, Any], Pattern]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What a step has made: by piece, what of it is no longer as it was; and what is now to be mended."""

    pattern: Pattern
    changed: Mapping[str, Mapping[str, Change]]
    broke: tuple[str, ...]


STEPS: Mapping[str, Step] = {
    step.name: step
    for step in (
        Step(name="lengthen", asks=parting.Lengthen, make=parting.lengthen),
        Step(name="spread", asks=parting.Spread, make=parting.spread),
        Step(name="turn", asks=parting.Turn, make=parting.turn),
        Step(name="full bust", asks=parting.FullBust, make=parting.full_bust),
        Step(name="move dart", asks=darts.MoveDart, make=darts.move_dart),
        Step(name="part dart", asks=darts.PartDart, make=darts.part_dart),
        Step(name="gather dart", asks=darts.GatherDart, make=darts.gather_dart),
        Step(name="add", asks=edges.Add, make=edges.add),
        Step(name="move seam", asks=edges.MoveSeam, make=edges.move_seam),
        Step(name="cut", asks=joining.Cut, make=joining.cut),
        Step(name="join", asks=joining.Join, make=joining.join),
        Step(name="mirror", asks=mirroring.Mirror, make=mirroring.mirror),
        Step(name="unfold", asks=mirroring.Unfold, make=mirroring.unfold),
        Step(name="copy", asks=mirroring.Copy, make=mirroring.copy),
        Step(name="sides", asks=mirroring.Sides, make=mirroring.sides),
        Step(name="take over edge", asks=taking_over.TakeOverEdge, make=taking_over.take_over_edge),
        Step(name="facing", asks=edges.Facing, make=edges.facing),
        Step(name="band", asks=edges.Band, make=edges.band),
        Step(name="outer layer", asks=layers.OuterLayer, make=layers.outer_layer),
        Step(name="allowance", asks=edges.SetAllowance, make=edges.set_allowance),
        Step(name="true", asks=truing.TrueEdges, make=truing.true_edges),
        Step(name="alter", asks=girths.Alter, make=girths.alter),
        Step(name="grade", asks=grading.Grade, make=grading.grade),
        Step(name="true sleeve", asks=sleeves.TrueSleeve, make=sleeves.true_sleeve),
        Step(name="move corner", asks=corners.MoveCorner, make=corners.move_corner),
        Step(name="slope shoulder", asks=corners.SlopeShoulder, make=corners.slope_shoulder),
        Step(name="true corner", asks=corners.TrueCorner, make=corners.true_corner),
        Step(name="set grain", asks=marking.SetGrain, make=marking.set_grain),
        Step(name="match notches", asks=marking.MatchNotches, make=marking.match_notches),
        Step(name="turn pitch", asks=marking.TurnPitch, make=marking.turn_pitch),
        Step(name="lay pleat", asks=marking.LayPleat, make=marking.lay_pleat),
        Step(name="line with", asks=marking.LineWith, make=marking.line_with),
        Step(name="wrap", asks=marking.Wrap, make=marking.wrap),
    )
}
BY_ASKED = {step.asks: step for step in STEPS.values()}


def take(pattern: Pattern, asked: Any, system: System = "cm") -> Outcome:
    """One step, told in the reader's unit. Raises Faults, and the pattern that was given stands untouched."""
    step = BY_ASKED[type(asked)]
    try:
        made = step.make(pattern, asked)
    except (ZeroDivisionError, OverflowError) as error:
        sentence = "With these figures nothing can be drawn: points lie on each other, or out of all bounds."
        raise Faults([Fault("", sentence)]) from error
    if faults := list(_broken_outlines(pattern, made)):
        raise Faults(faults)
    return outcome_of(pattern, made, system)


def outcome_of(before: Pattern, after: Pattern, system: System = "cm") -> Outcome:
    """What was made of a pattern, held against it as it was."""
    return Outcome(
        pattern=after,
        changed=_changes(before, after),
        broke=(*_broken_seams(before, after, system), *_broken_sleeves(before, after, system)),
    )


def _broken_outlines(before: Pattern, after: Pattern) -> Iterator[Fault]:
    known = {id(piece) for piece in before.pieces}
    for piece in after.pieces:
        if id(piece) in known:
            continue
        if any(abs(node.at) > MOST_MM or node.at != node.at for node in piece.outline.nodes):
            yield Fault("", f"{piece.name} would reach over a kilometre: take less.")
        elif piece.outline.faults(piece.name):
            sentence = f"{piece.name} would be turned inside out or cross itself: take less of it."
            yield Fault("", sentence)


def _changes(before: Pattern, after: Pattern) -> dict[str, dict[str, Change]]:
    """What each piece measured and measures; None before for what is new, after for what is gone."""
    old = {piece.name: piece for piece in before.pieces}
    new = {piece.name: piece for piece in after.pieces}
    found = {}
    for name in [*old, *(name for name in new if name not in old)]:
        was, now = _figures(old.get(name)), _figures(new.get(name))
        differ = {
            figure: (was.get(figure), now.get(figure))
            for figure in [*was, *(figure for figure in now if figure not in was)]
            if not _same(was.get(figure), now.get(figure))
        }
        if differ:
            found[name] = differ
    return found


def _figures(piece: PatternPiece | None) -> dict[str, float]:
    """Area, edges and levels by name; a level that is called as an edge is called “… level”."""
    if piece is None:
        return {}
    measures = piece.measures
    levels = {f"{name} level" if name in measures.edges else name: mm for name, mm in measures.levels.items()}
    return {"area_mm2": measures.area_mm2, **measures.edges, **levels}


def _same(one: float | None, other: float | None) -> bool:
    if one is None or other is None:
        return one is other
    return abs(one - other) <= 1e-6 * max(1.0, abs(one))


def _broken_seams(before: Pattern, after: Pattern, system: System) -> Iterator[str]:
    """Seams that were as they should be, and are so no more."""
    new = [seam for seam in after.seams if seam not in before.seams]
    gone = [seam for seam in before.seams if seam not in after.seams]
    for seam in gone:
        if all(seam.edges != one.edges for one in new):
            yield f"The seam of {seam.words} is gone: an edge was parted, or sewn already."
    for seam in after.seams:
        # Of a piece that was cut or made apart, the seam is told by its edges.
        old = next((one for one in gone if one.edges == seam.edges), seam) if seam in new else seam
        now, was = after.off_mm(seam), before.off_mm(old)
        if now is None:
            yield f"The seam of {seam.words} has lost an edge."
            continue
        ease = seam.ease_mm or 0.0
        # What was off before is not broken by this step; where no ease was given, it may be what was meant.
        worse = abs(now - ease) - (abs(was - ease) if was is not None else 0.0)
        if abs(now - ease) > SEAM_OFF_MM and worse > _ROUNDING_MM:
            which = seam.pieces[0] if now > ease else seam.pieces[1]
            off = f"on {which} it is {format_length(abs(now - ease), system=system)} too long"
            yield f"The seam of {seam.words} no longer meets: {off}. True the two edges."


def _broken_sleeves(before: Pattern, after: Pattern, system: System) -> Iterator[str]:
    """Sleeves whose head, by its parts, no longer has the ease in its armhole that it had."""
    for sleeve in after.sleeves:
        edges = {*sleeve.join.one, *sleeve.join.other}
        pieces = {name for name, _ in edges}
        if all(after_piece is before_piece for after_piece, before_piece in _both(before, after, pieces)):
            continue
        off = sleeves.sleeve_off_mm(after, sleeve.join, sleeve.eases_mm)
        parts = [
            f"{name} {format_length(abs(mm), system=system)} too {'long' if mm > 0 else 'short'}"
            for name, mm in off.items()
        ]
        if any(abs(mm) > SEAM_OFF_MM for mm in off.values()):
            head = sleeve.join.one[0][0]
            yield f"The head of {head} no longer meets its armhole: {', '.join(parts)}. True the sleeve."


def _both(
    before: Pattern, after: Pattern, names: Iterable[str]
) -> Iterator[tuple[PatternPiece | None, PatternPiece | None]]:
    old, new = ({piece.name: piece for piece in pattern.pieces} for pattern in (before, after))
    return ((new.get(name), old.get(name)) for name in names)
