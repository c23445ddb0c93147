"""The patterns that a garment can be cut by: its working pattern, or its plate as drawn or graded.

What is printed, laid and walked is taken from one of these. The newest version of the working pattern comes
first, where one was begun.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime

from django.utils import timezone
from shapely import Polygon

from catalogue.plates.calculation.scale import ScaleNotUnderstood
from catalogue.plates.loading import scale_of
from catalogue.plates.models.plate import Plate
from catalogue.tracing.calculation.tracing import LevelLine
from catalogue.tracing.loading.outlines import levels_of, map_of
from catalogue.workroom.models import User
from fitting.comparing.calculation.routes import Route, Standing
from fitting.comparing.exchange.answer import answer_from_json
from fitting.comparing.showing.standing import last_to_compare
from fitting.outfits.models.garment import Garment
from fitting.pattern.calculation.grading.values import GradingJoin
from fitting.pattern.calculation.motion import fold_edge
from fitting.pattern.calculation.seam_walk import SeamTolerance, WalkedSeam
from fitting.pattern.calculation.sleeve_walk import walk_seams
from fitting.pattern.calculation.working.cutting import cutting_line_of
from fitting.pattern.calculation.working.pattern import Allowance, Pattern, PatternPiece
from fitting.pattern.loading.grading import GradedGarment, graded_garment
from fitting.pattern.loading.plate_pieces import piece_as_drawn
from fitting.pattern.loading.traced_plate import TracedPlate, joins_of, traced_plate
from fitting.pattern.loading.version import version_after
from fitting.pattern.loading.working import working_pattern
from fitting.pattern.models import WorkingVersion

WORKING, DRAWN, GRADED = "working pattern", "as drawn", "graded"


@dataclass(frozen=True, slots=True, kw_only=True)
class GarmentPattern:
    """One of them. `label` is what it is chosen by, `made` how its pieces came about, `paper` its version.

    `joins`: its seams as they are walked. `keys`: what its pieces are chosen by. `still_drawn`: those pieces
    that could not be graded. `version`: that of a working pattern.
    """

    how: str
    label: str
    made: str
    paper: str
    pattern: Pattern
    joins: tuple[GradingJoin, ...] = ()
    keys: tuple[str, ...] = ()
    still_drawn: Mapping[str, str] = field(default_factory=dict)
    version: WorkingVersion | None = None

    def made_of(self, piece: PatternPiece) -> str:
        return self.still_drawn.get(piece.name, self.made)

    def walked(self) -> tuple[WalkedSeam, ...]:
        shapes = [piece.shape for piece in self.pattern.pieces]
        return walk_seams(shapes, self.joins, [SeamTolerance()] * len(self.joins))


def best_of(patterns: Mapping[str, GarmentPattern], asked: str = "") -> GarmentPattern | None:
    """The one that is asked for, else the first; None where nothing is drawn yet."""
    return patterns.get(asked) or next(iter(patterns.values()), None)


def garment_patterns(garment: Garment, *, by: User, at: datetime) -> dict[str, GarmentPattern]:
    """By what they are called, the one first that is taken unless the maker says.

    Graded pieces are offered last where the comparison rules grading out.
    """
    traced = traced_of(garment)
    found = [] if traced is None or not traced.shapes else list(_of_plate(garment, traced, by=by, at=at))
    if is_grading_ruled_out(garment):
        found.reverse()
    working = working_pattern(garment)
    if working:
        version = working.version
        found.insert(
            0,
            GarmentPattern(
                how=WORKING,
                label=said_of(version),
                made="working pattern",
                paper=f"version {version.number} of {_day(version.made_at)}",
                pattern=working.pattern,
                joins=tuple(join for join, _ in joins_of_pattern(working.pattern)),
                keys=tuple(piece.name for piece in working.pattern.pieces),
                version=version,
            ),
        )
    return {one.how: one for one in found}


def said_of(version: WorkingVersion) -> str:
    """A version as every page and drawing names it."""
    return f"working pattern, version {version.number} of {_day(version.made_at)}"


def _day(at: datetime) -> str:
    return f"{timezone.localdate(at):%-d %B %Y}"


def traced_of(garment: Garment) -> TracedPlate | None:
    """None without a plate, or with one that has no scale."""
    if not garment.plate_id:
        return None
    plate = Plate.objects.for_detail_page().get(pk=garment.plate_id)
    try:
        scale_of(plate)
    except ScaleNotUnderstood:
        return None
    return traced_plate(plate)


def is_grading_ruled_out(garment: Garment) -> bool:
    """By its newest comparison."""
    newest = garment.comparisons.first()
    routes = answer_from_json(newest.results).routes if newest else ()
    return any(one.route == Route.GRADE and one.standing == Standing.RULED_OUT for one in routes)


def joins_of_pattern(pattern: Pattern) -> list[tuple[GradingJoin, float]]:
    """Its seams whose edges are there, then its sleeves; each with by how much the first side is longer."""
    seams = [
        (
            GradingJoin(one=((seam.pieces[0], seam.edges[0]),), other=((seam.pieces[1], seam.edges[1]),)),
            seam.ease_mm or 0.0,
        )
        for seam in pattern.seams
        if pattern.off_mm(seam) is not None
    ]
    edges = {(piece.name, edge) for piece in pattern.pieces for edge in piece.edges}
    sleeves = [
        (sleeve.join, sum(sleeve.eases_mm.values()))
        for sleeve in pattern.sleeves
        if edges.issuperset((*sleeve.join.one, *sleeve.join.other))
    ]
    return [*seams, *sleeves]


def _of_plate(garment: Garment, traced: TracedPlate, *, by: User, at: datetime) -> list[GarmentPattern]:
    graded = graded_garment(garment, traced, by=last_to_compare(garment.outfit) or by, at=at)
    number = traced.calibration.number if traced.calibration else 0
    drawn_for = f" for {traced.plate.drawn_for_in_words}" if traced.plate.is_draft else ""
    made = f"as drawn{drawn_for}, calibration {number}"
    shared = {
        "paper": str(version_after(garment.alterations.all())),
        "joins": tuple(joins_of(traced)),
        "keys": tuple(str(piece.key) for piece in traced.shapes),
    }
    drawn = GarmentPattern(
        how=DRAWN, label="as drawn on the plate", made=made, pattern=Pattern(pieces=_drawn(traced)), **shared
    )
    if not graded.grading:
        return [drawn]
    return [
        GarmentPattern(
            how=GRADED,
            label="graded to the wearer",
            made=f"graded to measures of {graded.measured}",
            pattern=Pattern(pieces=_graded(traced, graded)),
            still_drawn={piece.name: made for piece in traced.shapes if piece.name not in graded.shapes},
            **shared,
        ),
        drawn,
    ]


def _drawn(traced: TracedPlate) -> tuple[PatternPiece, ...]:
    lines = levels_of(traced.plate, map_of(traced.calibration)) if traced.calibration else []
    return tuple(piece_as_drawn(piece, shape, lines) for piece, shape in traced.shapes.items())


def _graded(traced: TracedPlate, graded: GradedGarment) -> tuple[PatternPiece, ...]:
    lines: Sequence[LevelLine] = (
        levels_of(traced.plate, map_of(traced.calibration)) if traced.calibration else []
    )
    return tuple(
        piece_as_drawn(piece, graded.shapes.get(piece.name, shape), graded.levels.get(piece.name, lines))
        for piece, shape in traced.shapes.items()
    )


def own_cutting_line(pattern: Pattern, piece: PatternPiece) -> Polygon | None:
    """By the allowances that were set for it, none at its fold; None where the usual one counts."""
    if piece.allowance == Allowance():
        return None
    fold = fold_edge(piece.shape)
    if fold and fold.name:
        by_edge = {**piece.allowance.by_edge, fold.name: 0.0}
        piece = replace(piece, allowance=replace(piece.allowance, by_edge=by_edge))
    return cutting_line_of(pattern, piece)
