"""Grade traced pieces to a wearer, and measure again: every level to its girth, lengths, the sleeve too.

Each round moves the drawn points, and them only, measures what comes of it with the very functions that read
a traced plate, and corrects by what is still missing; a few rounds are enough. Nothing is taken on trust:
what cannot be kept, as two edges that part, is listed and never hidden.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from shapely import Polygon

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.tracing.calculation.tracing import LevelLine, TracedShape, level_widths
from fitting.pattern.calculation.grading.frame import Frame
from fitting.pattern.calculation.grading.heights import Heights
from fitting.pattern.calculation.grading.sleeve import SleeveHead
from fitting.pattern.calculation.grading.stretching import Stretching
from fitting.pattern.calculation.grading.values import (
    GradedJoin,
    GradedLine,
    GradedPiece,
    Grading,
    GradingJoin,
    PieceToGrade,
    WantedGirth,
    run_mm,
)

GOOD_MM = 0.05
ALLOWED_MM = 0.5
MOST_ROUNDS = 12
ROUGH_MM = 0.5
# Beyond these a grade no longer keeps a garment's cut: another route is wanted. Common practice, no source.
LEAST, MOST = 0.6, 1.6

Moved = Mapping[int, tuple[TracedShape, tuple[LevelLine, ...]]]


@dataclass(frozen=True, kw_only=True)
class _Try:
    """One way to move every piece."""

    stretchings: Mapping[int, Stretching]
    groups: tuple[Heights, Heights]

    def moved(self, pieces: Sequence[PieceToGrade]) -> Moved:
        still = {index: (piece.shape, piece.levels) for index, piece in enumerate(pieces)}
        return still | {
            index: self.stretchings[index].frame.moved(self.stretchings[index].amount, group.shift_of(index))
            for group in self.groups
            for index in group.frames
        }


def grade(
    pieces: Sequence[PieceToGrade],
    *,
    girths: Sequence[WantedGirth],
    lengths: Mapping[str, float] | None = None,
    joins: Sequence[GradingJoin] = (),
) -> Grading:
    """Grade pieces of one cloth, at full size, to girths and lengths wanted; others follow the nearest.

    Raises Faults where no level line crosses a piece, or where a girth is out of a grade's reach.
    """
    lengths = dict(lengths or {})
    drawn = {girth.level: _girth_mm(pieces, [(p.shape, p.levels) for p in pieces], girth) for girth in girths}
    _check(girths, drawn)
    frames = {index: frame for index, piece in enumerate(pieces) if (frame := Frame.of(piece))}
    wanted = _shares(pieces, lengths)
    this = _Try(
        stretchings={
            index: Stretching.of(frame, levels=list(drawn), lengths=wanted[index])
            for index, frame in frames.items()
        },
        groups=(
            Heights.of(frames, is_limb=False, wanted=lengths),
            Heights.of(frames, is_limb=True, wanted=lengths),
        ),
    )
    head = SleeveHead.of(pieces, joins, limbs=this.groups[1].frames)
    for _ in range(MOST_ROUNDS):
        moved = this.moved(pieces)
        this, off_mm = _corrected(this, moved, pieces, girths, wanted, head)
        if off_mm < GOOD_MM:
            break
    return _told(pieces, moved, girths, drawn, lengths, joins)


def _check(girths: Sequence[WantedGirth], drawn: Mapping[str, float]) -> None:
    faults = []
    for girth in girths:
        cloth_mm = drawn[girth.level] - girth.beside_mm
        if cloth_mm <= 0:
            faults.append(Fault(girth.level, "No piece that is traced crosses this level."))
        elif not LEAST <= (girth.wanted_mm - girth.beside_mm) / cloth_mm <= MOST:
            faults.append(
                Fault(girth.level, "The wearer is too far from the plate here for its cut to be graded.")
            )
    if not girths:
        faults.append(Fault("girths", "There is no girth to grade to."))
    if faults:
        raise Faults(faults)


def _shares(pieces: Sequence[PieceToGrade], lengths: Mapping[str, float]) -> list[dict[str, float]]:
    """What each piece has of each length wanted: one drawn in parts keeps its parts."""
    drawn = [piece.shape.lengths_mm() for piece in pieces]
    whole = {line: sum(one.get(line, 0.0) for one in drawn) for line in lengths}
    return [
        {line: lengths[line] * mm / whole[line] for line, mm in one.items() if line in lengths}
        for one in drawn
    ]


def _corrected(
    this: _Try,
    moved: Moved,
    pieces: Sequence[PieceToGrade],
    girths: Sequence[WantedGirth],
    wanted: Sequence[Mapping[str, float]],
    head: SleeveHead | None,
) -> tuple[_Try, float]:
    """The next try, and how far the worst line was off in this one."""
    off = [0.0]
    factors = {}
    for girth in girths:
        mm = _girth_mm(pieces, list(moved.values()), girth)
        off.append(abs(girth.wanted_mm - mm))
        factors[girth.level] = (girth.wanted_mm - girth.beside_mm) / (mm - girth.beside_mm)
    stretchings, measured = {}, {index: shape.lengths_mm() for index, (shape, _) in moved.items()}
    for index, one in this.stretchings.items():
        parts = {line: wanted[index][line] / measured[index][line] for line in one.at_length}
        off += [abs(wanted[index][line] - measured[index][line]) for line in one.at_length]
        stretchings[index] = one.by(levels=factors, lengths=parts)
    groups = []
    for group in this.groups:
        more = [wanted[one.piece][one.line] - measured[one.piece][one.line] for one in group.lengths]
        cap_mm = head.more_mm(moved) if head and group.is_limb else 0.0
        off += [abs(cap_mm), *map(abs, more)]
        groups.append(group.adding(more, cap_mm))
    return replace(this, stretchings=stretchings, groups=(groups[0], groups[1])), max(off)


def _girth_mm(
    pieces: Sequence[PieceToGrade],
    shapes: Sequence[tuple[TracedShape, tuple[LevelLine, ...]]],
    girth: WantedGirth,
) -> float:
    return girth.beside_mm + sum(
        piece.times(girth.level) * (width.width_mm - width.take_up_mm)
        for piece, (shape, levels) in zip(pieces, shapes, strict=True)
        for width in level_widths(shape, [level for level in levels if level.line == girth.level])
    )


def _told(
    pieces: Sequence[PieceToGrade],
    moved: Moved,
    girths: Sequence[WantedGirth],
    drawn: Mapping[str, float],
    lengths: Mapping[str, float],
    joins: Sequence[GradingJoin],
) -> Grading:
    """Everything measured again, beside the plain enlargement that is right where the plate was most off."""
    farthest = max(girths, key=lambda one: round(abs(one.wanted_mm - drawn[one.level]), 6))
    factor = (farthest.wanted_mm - farthest.beside_mm) / (drawn[farthest.level] - farthest.beside_mm)
    graded = tuple(
        GradedPiece(drawn=piece, shape=moved[index][0], levels=moved[index][1])
        for index, piece in enumerate(pieces)
    )
    reached = tuple(
        GradedLine(
            line=girth.level,
            drawn_mm=drawn[girth.level],
            plain_mm=factor * (drawn[girth.level] - girth.beside_mm) + girth.beside_mm,
            wanted_mm=girth.wanted_mm,
            graded_mm=_girth_mm(pieces, [(one.shape, one.levels) for one in graded], girth),
        )
        for girth in girths
    )
    along = tuple(_graded_lengths(graded, lengths, factor))
    return Grading(
        pieces=graded,
        girths=reached,
        lengths=along,
        joins=tuple(_graded_joins(graded, joins)),
        factor=factor,
        notes=(*_missed((*reached, *along)), *_notes(graded)),
    )


def _missed(lines: Sequence[GradedLine]) -> list[Fault]:
    said = "This could not be reached together with the others: check its line on the plate."
    return [Fault(line.line, said) for line in lines if abs(line.off_mm) > ALLOWED_MM]


def _graded_lengths(
    graded: Sequence[GradedPiece], lengths: Mapping[str, float], factor: float
) -> list[GradedLine]:
    before = [one.drawn.shape.lengths_mm() for one in graded]
    after = [one.shape.lengths_mm() for one in graded]
    return [
        GradedLine(
            line=line,
            drawn_mm=drawn_mm,
            plain_mm=factor * drawn_mm,
            wanted_mm=wanted_mm,
            graded_mm=sum(one.get(line, 0.0) for one in after),
        )
        for line, wanted_mm in lengths.items()
        if (drawn_mm := sum(one.get(line, 0.0) for one in before))
    ]


def _graded_joins(graded: Sequence[GradedPiece], joins: Sequence[GradingJoin]) -> list[GradedJoin]:
    edges = {(one.shape.name, name): mm for one in graded for name, mm in one.edges_mm.items()}
    before, after = ({edge: mm[at] for edge, mm in edges.items()} for at in (0, 1))
    return [
        GradedJoin(
            join=join,
            drawn_mm=(run_mm(before, join.one), run_mm(before, join.other)),
            graded_mm=(run_mm(after, join.one), run_mm(after, join.other)),
        )
        for join in joins
        if all(edge in before for edge in (*join.one, *join.other))
    ]


def _notes(graded: Sequence[GradedPiece]) -> list[Fault]:
    kept = [
        Fault(one.shape.name, "No level line crosses this piece: it is as drawn.")
        for one in graded
        if not level_widths(one.drawn.shape, one.drawn.levels)
    ]
    return kept + [
        fault
        for one in graded
        if not Polygon([(at.real, at.imag) for at in one.shape.outline.flattened(ROUGH_MM)]).is_valid
        for fault in one.shape.outline.faults(one.shape.name)
    ]
