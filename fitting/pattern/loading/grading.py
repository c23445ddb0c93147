"""A garment's traced pieces graded to its wearer, and what came of it as a sheet to show.

A proportional draft is graded from what it was drawn for, since its tracing is that large.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime

from catalogue.lengths.calculation.errors import Faults
from catalogue.lengths.calculation.levels import LINES
from catalogue.plates.calculation.girth import FullSize, Reckoning
from catalogue.tracing.calculation.curve import Point
from catalogue.tracing.calculation.outline import Outline
from catalogue.tracing.calculation.tracing import LevelLine, TracedShape, level_widths
from catalogue.workroom.models import User
from fitting.comparing.calculation.case import Case
from fitting.comparing.loading.case import case_of, outfit_rows
from fitting.comparing.loading.readiness import CannotCompare, Hindrance, ready_case
from fitting.comparing.showing.standing import last_to_compare
from fitting.outfits.calculation.garment import Fit
from fitting.outfits.models.garment import Garment
from fitting.pattern.calculation.grading.grade import grade
from fitting.pattern.calculation.grading.values import (
    GradedJoin,
    GradedPiece,
    Grading,
    PieceToGrade,
    WantedGirth,
)
from fitting.pattern.calculation.motion import enlarged, shifted, upright
from fitting.pattern.calculation.seam_walk import named
from fitting.pattern.calculation.sums.sheet_answer import Grid, SheetAnswer, Sketch, Stroke
from fitting.pattern.loading.traced_plate import TracedPlate, joins_of, pieces_to_grade

FLAT_MM = 0.5
NOT_KNOWN = (
    "Whether the plate includes seam allowance is not known: graded as if its lines were seam lines. "
    "Girths come out right all the same; neck, armhole and shoulder may be off by an allowance."
)
AGREES = 0.05  # of a girth: more than a rule, a click and a drawing are off together


@dataclass(frozen=True, slots=True, kw_only=True)
class GradedGarment:
    """`grading` is there unless something is `missing`; `left_out` says which lines it could not count."""

    grading: Grading | None = None
    missing: tuple[Hindrance, ...] = ()
    faults: tuple[str, ...] = ()
    left_out: tuple[str, ...] = ()
    measured: str = ""
    shapes: dict[str, TracedShape] = field(default_factory=dict)
    levels: dict[str, tuple[LevelLine, ...]] = field(default_factory=dict)


def graded_garment(garment: Garment, traced: TracedPlate, *, by: User, at: datetime) -> GradedGarment:
    """Grade by the case that a comparison made now would have; a proportional draft from as it was drawn."""
    rows = outfit_rows(garment.outfit, by=last_to_compare(garment.outfit) or by, at=at)
    fetched = rows.garment(garment.pk)
    try:
        ready = ready_case(fetched, rows)
    except CannotCompare as fault:
        return GradedGarment(missing=fault.missing)
    # What was traced is as large as the draft was drawn: its figures must be so too.
    case = case_of(fetched, rows, ready.used, drawn_out=False) if traced.plate.is_draft else ready.case
    pieces = pieces_to_grade(traced, case.plate)
    girths, left_out = _wanted_girths(case, pieces)
    if case.plate.allowance_mm is None:
        left_out.insert(0, NOT_KNOWN)
    try:
        grading = grade(pieces, girths=girths, lengths=_wanted_lengths(case), joins=joins_of(traced))
    except Faults as faults:
        said = tuple(f"{_label(fault.where)}: {fault.sentence}" for fault in faults.faults)
        return GradedGarment(faults=said, left_out=tuple(left_out))
    return GradedGarment(
        grading=grading,
        left_out=tuple(left_out),
        measured=f"{ready.used.measures.taken_on:%-d %B %Y}",
        shapes={one.shape.name: one.shape for one in grading.pieces},
        levels={one.shape.name: one.levels for one in grading.pieces},
    )


def _wanted_girths(case: Case, pieces: list[PieceToGrade]) -> tuple[list[WantedGirth], list[str]]:
    """What each level is to reach; and, in a sentence each, those of which a piece is not traced."""
    reckoning, wanted, left_out = Reckoning.of(case.plate), [], []
    for level in case.levels:
        if case.fit_at(level) is Fit.GATHERED:
            continue
        full = reckoning.girth(level)
        absent = {term.name for term in full.terms} - _crossed_by(level, pieces)
        if absent:
            named = " and ".join(sorted(absent))
            left_out.append(f"{_label(level)}: not traced across {named}, so it follows its neighbours.")
            continue
        if abs(_traced_mm(level, pieces) - full.drawn_mm) > AGREES * full.drawn_mm:
            said = "the tracing does not give what was read: mark what its darts and pleats take up."
            left_out.append(f"{_label(level)}: {said}")
            continue
        girth = WantedGirth(
            level=level,
            wanted_mm=case.body.girths[level].mm + case.ease_at_mm(level),
            beside_mm=full.mm - full.drawn_mm,
        )
        if case.fit_at(level) is Fit.FITTED or _is_short(full, girth):
            wanted.append(girth)
    return wanted, left_out


def _is_short(full: FullSize, girth: WantedGirth) -> bool:
    """A loose level is set only where it has too little."""
    return full.mm < girth.wanted_mm


def _crossed_by(level: str, pieces: list[PieceToGrade]) -> set[str]:
    lines = {piece.shape.name: [line for line in piece.levels if line.line == level] for piece in pieces}
    return {piece.shape.name for piece in pieces if level_widths(piece.shape, lines[piece.shape.name])}


def _traced_mm(level: str, pieces: list[PieceToGrade]) -> float:
    return sum(
        piece.times(level) * (width.width_mm - width.take_up_mm)
        for piece in pieces
        for width in level_widths(piece.shape, piece.levels)
        if width.line == level
    )


def _wanted_lengths(case: Case) -> dict[str, float]:
    """Drawn lengths to reach: what is wanted, and the allowances that the plate's line crosses."""
    reckoning = Reckoning.of(case.plate)
    found = {}
    for line in case.lengths:
        if case.fit_at(line) in (Fit.FITTED, Fit.LOOSE):
            full = reckoning.length(line)
            wanted_mm = case.body.lengths[line].mm + case.ease_at_mm(line)
            found[line] = wanted_mm + full.drawn_mm - full.mm
    return found


def grade_sheet(graded: GradedGarment) -> SheetAnswer:
    """Every figure and drawing of a grading that could be made."""
    grading = graded.grading
    if grading is None:
        raise ValueError("There is no grading to show.")
    return SheetAnswer(
        grids=tuple(_grids(grading)),
        flags=(
            *((sentence,) for sentence in graded.left_out),
            *((f"{note.where}: {note.sentence}",) for note in grading.notes),
            *((f"Grading has parted {named(one.join)}: walk this seam on paper.",)
              for one in grading.joins if one.is_apart),
        ),
        drawings=tuple(_drawing(piece, grading.factor) for piece in grading.pieces),
    )  # fmt: skip


def _grids(grading: Grading) -> Iterator[Grid]:
    heads = ("as drawn", "enlarged plainly", "wanted", "graded", "off by")
    for caption, first, lines in (
        ("Girths, with what lies beside the drawn cloth", "level", grading.girths),
        ("Lengths, as drawn from edge to edge", "length", grading.lengths),
    ):
        if lines:
            yield Grid(
                caption=caption,
                heads=(first, *heads),
                rows=tuple(
                    (
                        (_label(one.line),),
                        *((mm,) for mm in (one.drawn_mm, one.plain_mm, one.wanted_mm, one.graded_mm)),
                        (one.off_mm,),
                    )
                    for one in lines
                ),
            )  # fmt: skip
    if grading.joins:
        yield Grid(
            caption="Edges that are sewn together: how much longer the first is than the second",
            heads=("seam", "drawn", "graded", "first, graded", "second, graded"),
            rows=tuple(map(_join_row, grading.joins)),
        )
    yield Grid(
        caption="What each edge has come to",
        heads=("piece and edge", "drawn", "graded", "longer by"),
        rows=tuple(
            ((f"{piece.shape.name}: {edge}",), (drawn,), (graded,), (graded - drawn,))
            for piece in grading.pieces
            for edge, (drawn, graded) in piece.edges_mm.items()
        ),
    )


def _join_row(one: GradedJoin) -> tuple[tuple[str | float, ...], ...]:
    return (
        (named(one.join),),
        (one.drawn_difference_mm,),
        (one.graded_difference_mm,),
        (one.graded_mm[0],),
        (one.graded_mm[1],),
    )


def _label(line: str) -> str:
    return LINES[line].label if line in LINES else line


def _drawing(piece: GradedPiece, factor: float) -> Sketch:
    """The piece as drawn, graded, and enlarged plainly, its grain laid on the graded grain and upright."""
    (drawn, _), (graded, _) = upright(piece.drawn.shape), upright(piece.shape)
    plain = enlarged(drawn, factor)
    plain = shifted(plain, _middle(graded) - _middle(plain))
    grain = (mark.points for mark in graded.marks if mark.kind == "grain")
    return Sketch(
        title=graded.name,
        says="Full: as drawn. Dashed in red: graded. Dashed in grey: the plate enlarged plainly.",
        strokes=(
            stroke_of(drawn.outline, "old"),
            stroke_of(plain.outline, "level"),
            stroke_of(graded.outline, "new"),
            *(Stroke(points=tuple((at.real, at.imag) for at in points), look="old") for points in grain),
        ),
    )


def _middle(shape: TracedShape) -> Point:
    grain = next((mark.points for mark in shape.marks if mark.kind == "grain"), None)
    points = grain or tuple(node.at for node in shape.outline.nodes)
    return sum(points) / len(points)


def stroke_of(outline: Outline, look: str) -> Stroke:
    points = tuple((round(at.real, 2), round(at.imag, 2)) for at in outline.flattened(FLAT_MM))
    return Stroke(points=points, look=look, is_closed=True)
