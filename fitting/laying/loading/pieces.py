"""The pieces of a plate as they are laid: outlines where they were traced, else boxes from their readings."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from catalogue.lengths.calculation.levels import LINES
from catalogue.plates.loading import scale_of
from catalogue.plates.models.piece import Piece, Seam
from catalogue.plates.models.plate import Plate
from catalogue.tracing.calculation.curve import Point
from catalogue.tracing.calculation.tracing import LevelLine, TracedShape
from catalogue.tracing.loading.outlines import current_calibration, levels_of, map_of, shape_of
from catalogue.tracing.models import TracedPiece
from fitting.comparing.loading.draft import growth_of
from fitting.laying.calculation.lines import Lines, lines_of
from fitting.laying.loading.matching import LOWEST, Match, match_of
from fitting.pattern.calculation.motion import enlarged, upright
from fitting.pattern.calculation.sheets.cutting_line import ring_of
from fitting.pattern.calculation.sheets.sheet import Allowances
from fitting.pattern.calculation.working.pattern import Pattern, PatternPiece
from fitting.pattern.loading.garment_patterns import own_cutting_line
from fitting.pattern.loading.grading import GradedGarment

_TURNS = {Piece.Grain.ACROSS: 90.0, Piece.Grain.BIAS: 45.0}


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceToLay:
    """`shape` at full size as it was traced; None for a box, whose sides, unfolded, may not be known yet.

    `match`: where it is matched to a repeat. `own_cut`: its cutting line as it was set, where it was.
    `mirrored`: whether half of them are; None: by their number.
    """

    name: str
    shape: TracedShape | None
    width_mm: float | None
    length_mm: float | None
    cut: int
    on_fold: bool
    turn_deg: float
    match: Match = LOWEST
    own_cut: tuple[Point, ...] = ()
    mirrored: bool | None = None

    @property
    def is_traced(self) -> bool:
        return self.shape is not None

    @property
    def is_pair(self) -> bool:
        return self.cut % 2 == 0 and not self.on_fold if self.mirrored is None else self.mirrored

    @property
    def edge_names(self) -> list[str]:
        return [edge.name for edge in self.shape.outline.edges() if edge.name] if self.shape else []

    def lines(self, allowances: Allowances, *, half: bool = False) -> Lines | None:
        """As `calculation.lines.lines_of`; None for a box, too."""
        if self.shape is None:
            return None
        return lines_of(
            self.shape,
            allowances=allowances,
            turn_deg=self.turn_deg,
            is_on_fold=self.on_fold,
            half=half,
            match=self.match.at,
            own_cut=self.own_cut,
        )


def cloth_of(piece: PatternPiece) -> str:
    return piece.cloth if piece.cloth in Piece.ClothRole.values else Piece.ClothRole.OUTER


def pieces_of_pattern(pattern: Pattern, cloth: str) -> list[PieceToLay]:
    """Those of one cloth, in order, with the allowances that were set for them."""
    return [_of_pattern(pattern, piece) for piece in pattern.pieces if cloth_of(piece) == cloth]


def _of_pattern(pattern: Pattern, piece: PatternPiece) -> PieceToLay:
    lines = [LevelLine(line=name, start=path[0], end=path[-1]) for name, path in piece.levels.items()]
    cut = own_cutting_line(pattern, piece)
    to_lay = PieceToLay(
        name=piece.name,
        shape=piece.shape,
        width_mm=None,
        length_mm=None,
        cut=piece.cut,
        on_fold=piece.on_fold,
        turn_deg=0.0,
        match=match_of(piece.shape, lines),
        own_cut=tuple(complex(*place) for place in ring_of(cut)) if cut else (),
        mirrored=piece.mirrored,
    )
    if to_lay.lines(Allowances(usual_mm=0.0, by_edge={})) is not None:
        return to_lay
    # Its fold is not marked, so nobody knows where to open it: the box about it, twice as wide.
    points = upright(piece.shape)[0].outline.flattened()
    across, down = [at.real for at in points], [at.imag for at in points]
    return replace(
        to_lay,
        shape=None,
        width_mm=2 * (max(across) - min(across)),
        length_mm=max(down) - min(down),
        match=LOWEST,
        own_cut=(),
    )


def pieces_to_lay(
    plate: Plate,
    cloth: str,
    *,
    graded: GradedGarment | None = None,
    body_mm: float | None = None,
) -> list[PieceToLay]:
    """Those of one cloth, in order. Prefetch as `Plate.objects.for_detail_page`.

    `graded`: what is laid in place of pieces as they were drawn. `body_mm`: the measure of the body
    that a proportional draft is drawn out for; each outline as a whole, unless all its figures are plain.
    """
    growth = growth_of(plate, body_mm)
    chosen = [piece for piece in plate.pieces.all() if piece.cloth == cloth]
    calibration = current_calibration(plate)
    traced = (
        {one.piece_id: one for one in TracedPiece.objects.filter(piece__in=chosen).select_related("piece")}
        if calibration
        else {}
    )
    found = []
    for piece in chosen:
        match, by = LOWEST, 1.0 if _is_plain(piece) else growth
        shape = graded.shapes.get(piece.name) if graded else None
        if shape and graded:
            match = match_of(shape, graded.levels.get(piece.name, ()))
        elif calibration and piece.pk in traced:
            flat = map_of(calibration)
            drawn = shape_of(traced[piece.pk], flat)
            shape, match = enlarged(drawn, by), match_of(drawn, levels_of(plate, flat)).enlarged(by)
        sound = shape if shape and _can_be_cut(shape, piece) else None
        found.append(replace(_to_lay(piece, plate, sound, growth), match=match if sound else LOWEST))
    return found


def _is_plain(piece: Piece) -> bool:
    readings = piece.readings.all()
    return bool(readings) and all(reading.is_plain for reading in readings)


def _can_be_cut(shape: TracedShape, piece: Piece) -> bool:
    """Not where its outline is not whole yet, or its halves do not meet at the fold."""
    if len(shape.outline.nodes) < 3 or shape.outline.faults(piece.name):
        return False
    none = Allowances(usual_mm=0.0, by_edge={})
    return lines_of(shape, allowances=none, turn_deg=0.0, is_on_fold=piece.on_fold, half=False) is not None


def _to_lay(piece: Piece, plate: Plate, shape: TracedShape | None, growth: float) -> PieceToLay:
    scale, fold = scale_of(plate), 2 if piece.on_fold else 1
    read = {
        reading.line: (1.0 if reading.is_plain else growth) * reading.reading.mm
        for reading in piece.readings.all()
    }
    of_edges = 1.0 if _is_plain(piece) else growth
    across = [mm * scale.across * fold for line, mm in read.items() if LINES[line].kind == "girth"]
    along = [mm * scale.along for line, mm in read.items() if LINES[line].kind == "length"]
    along += [mm * scale.along * of_edges for mm in _edges_mm(piece, plate.seams.all())]
    width, length = max(across, default=None), max(along, default=None)
    if piece.grain == Piece.Grain.ACROSS:
        width, length = length, width
    return PieceToLay(
        name=piece.name,
        shape=shape,
        width_mm=width,
        length_mm=length,
        cut=piece.cut,
        on_fold=piece.on_fold,
        turn_deg=_TURNS.get(piece.grain, 0.0),
    )


def _edges_mm(piece: Piece, seams: Iterable[Seam]) -> list[float]:
    """Its edges as read on the page: no piece is shorter than its longest one is straight."""
    sides = [(seam.piece_a_id, seam.length_a) for seam in seams]
    sides += [(seam.piece_b_id, seam.length_b) for seam in seams]
    return [length.mm for key, length in sides if key == piece.pk and length]
