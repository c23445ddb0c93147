"""The plates that an outfit draws on: picture, pieces, readings, full size, seams, what is not known.

Traced pieces are drawn at a scale that can be said in one word and measured with a rule.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from catalogue.lengths.calculation.lengths import System
from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.showing import Writing
from catalogue.plates.calculation.findings import Finding
from catalogue.plates.calculation.scale import ScaleNotUnderstood
from catalogue.plates.loading import plate_findings
from catalogue.plates.models.piece import Piece, Reading, Seam
from catalogue.plates.models.plate import Plate
from catalogue.tracing.loading.drawing import traced_drawings
from catalogue.tracing.showing.figure import Figure, figure_of
from fitting.dossier.loading.pictures import AS_WIDE_AS_A_PAGE, Album, Picture
from fitting.fittings.showing.checks import disagreements
from fitting.outfits.models.garment import Garment

SCALES = (1, 2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 32, 40, 50)
WIDEST_MM, HIGHEST_MM = 178.0, 190.0  # within the margins of A4 and of Letter, with room for the table


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateDrawing:
    """On the paper the figure is drawn 1:`scale`."""

    figure: Figure
    scale: int


def plate_drawings(plates: Sequence[Plate], system: System) -> dict[int, PlateDrawing]:
    """By plate, of those on which anything is traced; as many queries for twelve plates as for one.

    `plates` come `with_newest_matrix`, with `traced_levels`, their pieces with `traced`.
    """
    drawings = traced_drawings(plates, with_levels=True).items()
    return {key: on_paper(figure_of(drawing, system)) for key, drawing in drawings}


def on_paper(figure: Figure) -> PlateDrawing:
    """At a scale at which it lies on a page of either paper."""
    needed = max(figure.width / WIDEST_MM, figure.height / HIGHEST_MM)
    return PlateDrawing(figure=figure, scale=next((one for one in SCALES if one >= needed), SCALES[-1]))


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceRow:
    """A piece with its reading at each line of the table, None where it is not there."""

    piece: Piece
    readings: tuple[Reading | None, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlatePage:
    """`full_size` stands under the readings: for each line what the first cloth comes to, with its doubt."""

    plate: Plate
    garments: tuple[str, ...]
    picture: Picture | None
    drawn: PlateDrawing | None
    labels: tuple[str, ...]
    rows: tuple[PieceRow, ...]
    full_size: tuple[Finding | None, ...]
    seams: tuple[Seam, ...]
    disagreements: tuple[str, ...]

    @property
    def asks_of_seams(self) -> bool:
        """Whether anything is known of its seams, or is to be found out."""
        is_unknown = self.plate.allowance == Plate.AllowanceKind.UNKNOWN
        return bool(self.seams or is_unknown or self.plate.reference.seam_evidence_note)


def plates_of(garments: Sequence[Garment]) -> dict[int, Plate]:
    """Each plate once with all its rows, in the order of the garments that are compared with it."""
    keys = dict.fromkeys(garment.plate_id for garment in garments if garment.plate_id)
    rows = Plate.objects.for_detail_page().with_newest_matrix().select_related("picture__reference")
    plates = rows.prefetch_related("pieces__traced", "traced_levels").in_bulk(list(keys))
    return {key: plates[key] for key in keys}


def plate_pages(
    plates: Mapping[int, Plate], garments: Sequence[Garment], *, album: Album, writing: Writing
) -> tuple[PlatePage, ...]:
    drawn = plate_drawings(list(plates.values()), writing.system)
    return tuple(
        _page(plate, [one.name for one in garments if one.plate_id == key], drawn.get(key), album, writing)
        for key, plate in plates.items()
    )


def _page(
    plate: Plate, garments: list[str], drawn: PlateDrawing | None, album: Album, writing: Writing
) -> PlatePage:
    pieces = list(plate.pieces.all())
    read = {reading.line for piece in pieces for reading in piece.readings.all()}
    lines = [key for key in LINES if key in read]
    found = {finding.line: finding for finding in _findings(plate)}
    return PlatePage(
        plate=plate,
        garments=tuple(garments),
        picture=album.picture(plate.picture, AS_WIDE_AS_A_PAGE),
        drawn=drawn,
        labels=tuple(LINES[key].label for key in lines),
        rows=tuple(
            PieceRow(piece=piece, readings=tuple(piece.by_line.get(key) for key in lines)) for piece in pieces
        ),
        full_size=tuple(found.get(key) for key in lines),
        seams=tuple(plate.seams.all()),
        disagreements=tuple(disagreements(plate, writing)),
    )


def _findings(plate: Plate) -> Iterable[Finding]:
    """Of the plate's first cloth: that is the one a comparison reads."""
    try:
        by_cloth = plate_findings(plate)
    except ScaleNotUnderstood:
        return ()
    first = next(iter(by_cloth.values()), None)
    return (*first.girths, *first.lengths) if first else ()
