"""Traced pieces of several garments laid over each other: what may be chosen of each, and what was.

Whatever the address asks for that a piece does not have, as a point of another piece, takes its default.
"""

import math
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from catalogue.plates.models.piece import Piece
from catalogue.reading_room.calculation.shared_edges import (
    HeldEdges,
    LaidPiece,
    along_mm,
    held_edges,
    shared_names,
)
from catalogue.reading_room.calculation.side_by_side import ROLES, role_of
from catalogue.references.models.garment import ReferenceGarment
from catalogue.tracing.calculation.calibration import CLICK_PX
from catalogue.tracing.calculation.curve import Point
from catalogue.tracing.calculation.overlay import (
    UPRIGHT,
    Motion,
    UprightLine,
    held_points,
    shared_point,
    standing,
    upright_line,
)
from catalogue.tracing.calculation.tracing import LevelLine, TracedShape
from catalogue.tracing.loading.outlines import levels_of, map_of, shape_of
from catalogue.tracing.models import Calibration, TracedPiece

LETTERS = "ABCD"
Wanted: TypeAlias = Mapping[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class TracedOutline:
    """A piece with its outline at full size, as it lies on its plate."""

    piece: Piece
    shape: TracedShape
    levels: tuple[LevelLine, ...]
    click_mm: float
    relative_doubt: float


@dataclass(frozen=True, slots=True, kw_only=True)
class UprightPiece:
    """The piece that was chosen of a garment, upright: `points` are those it can be held by."""

    letter: str
    reference: ReferenceGarment
    choices: Sequence[TracedOutline]
    traced: TracedOutline
    lie: str
    upright: UprightLine | None
    shape: TracedShape
    points: Mapping[str, Point]

    @property
    def edges(self) -> list[str]:
        return list(self.shape.edges_mm()) or [""]


@dataclass(frozen=True, slots=True, kw_only=True)
class OverlayPiece:
    """A piece as it lies over the others, held by `point`."""

    stood: UprightPiece
    point: str
    edge: str
    laid: LaidPiece

    @property
    def letter(self) -> str:
        return self.stood.letter

    @property
    def reference(self) -> ReferenceGarment:
        return self.stood.reference

    @property
    def piece(self) -> Piece:
        return self.stood.traced.piece


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """The first piece and another: the edges chosen of them, and all that both have by one name."""

    first: OverlayPiece
    other: OverlayPiece
    chosen: HeldEdges
    along_mm: float
    starts_at: str
    shared: tuple[tuple[str, HeldEdges], ...]
    only_first: list[str]
    only_other: list[str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Overlay:
    """`without`: the garments of which nothing is traced. With fewer than two others no pair."""

    pieces: tuple[OverlayPiece, ...]
    pairs: tuple[Pair, ...]
    without: list[ReferenceGarment]
    upright: str


def overlay_of(references: Sequence[ReferenceGarment], asked: Wanted) -> Overlay:
    """What an address asks for, by the names of `name_of`."""
    traced = _traced(references)
    upright = asked.get("upright", "")
    wanted = {**asked, "upright": upright if upright in UPRIGHT else "grain"}
    laid = [reference for reference in references if traced[reference.pk]]
    role = _role_of_most([traced[reference.pk] for reference in laid])
    stood = [
        _stood(letter, reference, traced[reference.pk], role, wanted)
        for letter, reference in zip(LETTERS, laid, strict=False)
    ]
    point = shared_point([one.points for one in stood]) if stood else ""
    edge = _edge_of_all(stood)
    pieces = tuple(_chosen(one, wanted, point, edge) for one in stood)
    return Overlay(
        pieces=pieces,
        pairs=tuple(_pair(pieces[0], other) for other in pieces[1:]),
        without=[reference for reference in references if not traced[reference.pk]],
        upright=wanted["upright"],
    )


def name_of(reference: ReferenceGarment, choice: str) -> str:
    """What a choice of this garment is called in an address: “12-point”."""
    return f"{reference.pk}-{choice}"


def _traced(references: Sequence[ReferenceGarment]) -> dict[int, list[TracedOutline]]:
    """The closed outlines of each garment by its newest calibration; as many queries for four as for two."""
    rows = (
        TracedPiece.objects.filter(piece__plate__reference__in=references)
        .select_related("piece__plate")
        .prefetch_related("piece__plate__traced_levels")
        .order_by("piece__plate", "piece__order", "piece")
    )
    plates = {row.piece.plate_id for row in rows}
    calibrations = Calibration.objects.filter(scan__plate__in=plates).select_related("scan")
    newest: dict[int, Calibration] = {}
    for calibration in calibrations:  # The newest comes first.
        newest.setdefault(calibration.scan.plate_id, calibration)
    found: dict[int, list[TracedOutline]] = {reference.pk: [] for reference in references}
    for row in rows:
        if len(row.nodes) > 2 and row.piece.plate_id in newest:
            traced = _traced_piece(row, newest[row.piece.plate_id])
            found[row.piece.plate.reference_id].append(traced)
    return found


def _traced_piece(row: TracedPiece, calibration: Calibration) -> TracedOutline:
    flat = map_of(calibration)
    return TracedOutline(
        piece=row.piece,
        shape=shape_of(row, flat),
        levels=tuple(levels_of(row.piece.plate, flat)),
        click_mm=CLICK_PX * flat.mm_per_px(complex(row.nodes[0]["x"], row.nodes[0]["y"])),
        relative_doubt=calibration.relative_doubt,
    )


def _stood(
    letter: str, reference: ReferenceGarment, choices: Sequence[TracedOutline], role: str, wanted: Wanted
) -> UprightPiece:
    by_key = {str(one.piece.pk): one for one in choices}
    of_role = [one for one in choices if role_of(one.piece.name) == role]
    traced = by_key.get(wanted.get(name_of(reference, "piece"), "")) or (of_role or choices)[0]
    lie = wanted.get(name_of(reference, "lie"), "")
    line = upright_line(traced.shape, wanted["upright"])
    turned = standing(line, lie)
    shape = turned.shape(traced.shape)
    return UprightPiece(
        letter=letter,
        reference=reference,
        choices=choices,
        traced=traced,
        lie=lie,
        upright=line,
        shape=shape,
        points=held_points(shape, [turned.level(level) for level in traced.levels]),
    )


def _chosen(stood: UprightPiece, wanted: Wanted, point: str, edge: str) -> OverlayPiece:
    """`point` and `edge` are taken where the piece does not have those asked for."""
    asked = wanted.get(name_of(stood.reference, "point"), "")
    point = asked if asked in stood.points else point
    asked = wanted.get(name_of(stood.reference, "edge"), "")
    edge = next((name for name in (asked, edge) if name in stood.edges), stood.edges[0])
    traced, plate = stood.traced, stood.traced.piece.plate
    laid = LaidPiece(
        shape=Motion(shift=-stood.points[point]).shape(stood.shape),
        click_mm=traced.click_mm,
        drawing_mm=plate.drawing.mm,
        relative_doubt=traced.relative_doubt,
        turn_doubt=math.sqrt(2) * traced.click_mm / stood.upright.length_mm if stood.upright else 0.0,
    )
    return OverlayPiece(stood=stood, point=point, edge=edge, laid=laid)


def _role_of_most(garments: Sequence[Sequence[TracedOutline]]) -> str:
    """The role that most of the garments have a traced piece of."""
    roles = Counter(role for pieces in garments for role in {role_of(one.piece.name) for one in pieces})
    return max(ROLES, key=lambda role: roles[role])


def _edge_of_all(stood: Sequence[UprightPiece]) -> str:
    """The first edge of the first piece that all of them name."""
    return (
        next((name for name in stood[0].edges if all(name in one.edges for one in stood)), "")
        if stood
        else ""
    )


def _pair(first: OverlayPiece, other: OverlayPiece) -> Pair:
    both, only_first, only_other = shared_names(first.laid, other.laid)
    chosen = held_edges(first.laid, first.edge, other.laid, other.edge)
    return Pair(
        first=first,
        other=other,
        chosen=chosen,
        along_mm=along_mm(first.laid.edge(first.edge), chosen.gap.first),
        starts_at=_edge_before(first),
        shared=tuple((name, held_edges(first.laid, name, other.laid, name)) for name in both),
        only_first=only_first,
        only_other=only_other,
    )


def _edge_before(chosen: OverlayPiece) -> str:
    """The edge that the chosen one starts at; none where it is the only one."""
    names = [edge.name for edge in chosen.laid.shape.outline.edges()]
    before = names[names.index(chosen.edge) - 1]
    return "" if before == chosen.edge else before
