"""Which pieces of a garment are laid on a cloth: of its working pattern, or of its plate."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from catalogue.plates.calculation.scale import ScaleNotUnderstood
from catalogue.plates.loading import cloths_of
from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.workroom.models import User
from fitting.comparing.loading.draft import draft_measure_mm
from fitting.comparing.showing.standing import garment_as_it_stands
from fitting.laying.loading.matching import SewnEdges, cannot_match
from fitting.laying.loading.pieces import PieceToLay, cloth_of, pieces_of_pattern, pieces_to_lay
from fitting.outfits.models.garment import Garment
from fitting.pattern.loading.garment_patterns import said_of
from fitting.pattern.loading.grading import GradedGarment, graded_garment
from fitting.pattern.loading.traced_plate import traced_plate
from fitting.pattern.loading.working import WorkingPattern, working_pattern

WORKING, DRAWN, GRADED = "working", "drawn", "graded"


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidPieces:
    """`cut`: which they are, of those `offered`. `drawn_as`: the cloth that they are drawn for, as a lining
    may have none of its own. `graded`: which of them are. `of`: a version, as it is said.
    """

    cut: str
    offered: tuple[tuple[str, str], ...]
    cloth: str
    drawn_as: str
    pieces: tuple[PieceToLay, ...]
    seams: tuple[SewnEdges, ...] = ()
    graded: tuple[str, ...] = ()
    is_drawn_out: bool = False
    version: int = 0
    of: str = ""

    @property
    def cannot_match(self) -> tuple[str, ...]:
        return tuple(cannot_match((piece.shape for piece in self.pieces if piece.shape), self.seams))

    @property
    def with_own(self) -> tuple[str, ...]:
        """Those whose own allowances count."""
        return tuple(piece.name for piece in self.pieces if piece.own_cut)


def laid_pieces(
    garment: Garment, plate: Plate | None, *, cloth: str, cut: str, by: User, at: datetime
) -> LaidPieces:
    """Of the newest version of the working pattern, unless `cut` says otherwise."""
    working = working_pattern(garment)
    offered = tuple(_offered(working, plate))
    if working and cut not in (DRAWN, GRADED):
        return _of_version(working, cloth, offered)
    graded = _graded(garment, plate, by=by, at=at) if plate and cut == GRADED else None
    body_mm = _draft_mm(garment, plate, by=by, at=at) if plate else None
    cloth, drawn_as = _drawn_as(cloth, cloths_of(plate) if plate else [])
    pieces = _of_plate(plate, drawn_as, graded, body_mm) if plate else []
    return LaidPieces(
        cut=cut if cut == GRADED else DRAWN,
        offered=offered,
        cloth=cloth,
        drawn_as=drawn_as,
        pieces=tuple(pieces),
        seams=tuple(
            ((seam.piece_a.name, seam.edge_a), (seam.piece_b.name, seam.edge_b))
            for seam in (plate.seams.all() if plate else ())
        ),
        graded=tuple(piece.name for piece in pieces if graded and piece.name in graded.shapes),
        is_drawn_out=body_mm is not None,
    )


def _offered(working: WorkingPattern | None, plate: Plate | None) -> Iterator[tuple[str, str]]:
    if working:
        yield WORKING, said_of(working.version)
    if plate:
        yield DRAWN, "as drawn"
        yield GRADED, "graded to the wearer"


def _of_version(working: WorkingPattern, cloth: str, offered: tuple[tuple[str, str], ...]) -> LaidPieces:
    pattern = working.pattern
    cloth, drawn_as = _drawn_as(cloth, list(dict.fromkeys(map(cloth_of, pattern.pieces))))
    return LaidPieces(
        cut=WORKING,
        offered=offered,
        cloth=cloth,
        drawn_as=drawn_as,
        pieces=tuple(pieces_of_pattern(pattern, drawn_as)),
        seams=tuple(
            ((seam.pieces[0], seam.edges[0]), (seam.pieces[1], seam.edges[1])) for seam in pattern.seams
        ),
        version=working.version.number,
        of=said_of(working.version),
    )


def _drawn_as(cloth: str, there: list[str]) -> tuple[str, str]:
    """The cloth asked for, and the one whose pieces are laid: a lining is cut by those of the outer cloth."""
    first = next(iter(there), "")
    cloth = cloth if cloth in Piece.ClothRole.values else first or Piece.ClothRole.OUTER
    return cloth, cloth if cloth in there else first


def _of_plate(
    plate: Plate, cloth: str, graded: GradedGarment | None, body_mm: float | None
) -> list[PieceToLay]:
    try:
        return pieces_to_lay(plate, cloth, graded=graded, body_mm=body_mm)
    except ScaleNotUnderstood:
        return []


def _draft_mm(garment: Garment, plate: Plate, *, by: User, at: datetime) -> float | None:
    """The wearer's measure that a proportional draft is drawn out for; None of another plate."""
    if not plate.is_draft:
        return None
    return draft_measure_mm(plate, garment_as_it_stands(garment, by=by, at=at).used)


def _graded(garment: Garment, plate: Plate, *, by: User, at: datetime) -> GradedGarment | None:
    """The pieces graded to the wearer, as far as they can be; the grading page says what is missing."""
    try:
        graded = graded_garment(garment, traced_plate(plate), by=by, at=at)
    except ScaleNotUnderstood:
        return None
    return graded if graded.shapes else None
