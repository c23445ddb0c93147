"""A plate, its usual pieces and its seams kept; its sheet of readings, typed and kept in one go."""

from dataclasses import dataclass

from django.db import transaction
from django.db.models import Max

from catalogue.lengths.models import TypedLength
from catalogue.photographs.actions import PictureNotes, SentPicture, add_photos
from catalogue.plates.calculation.seam_order import ProposedSeam
from catalogue.plates.models.piece import Piece, Reading, Seam
from catalogue.plates.models.plate import Fastening, Plate
from catalogue.references.calculation import CuttingList
from catalogue.workroom.index.filing import file_references, refiled


@transaction.atomic
def keep_plate(*, plate: Plate, picture: SentPicture | None, notes: PictureNotes) -> Plate:
    """Save the plate; a picture sent with it becomes a photograph of its garment."""
    if picture:
        [plate.picture] = add_photos(reference=plate.reference, pictures=[picture], notes=notes)
    with refiled(plate.reference):
        plate.save()
    return plate


@transaction.atomic
def start_pieces(*, plate: Plate, cutting_list: CuttingList) -> list[Piece]:
    """Add the usual pieces of a kind of garment after those that the plate has."""
    first = next_place(plate)
    with refiled(plate.reference):
        return [
            Piece.objects.create(
                plate=plate, order=order, name=usual.name, cut=usual.cut, on_fold=usual.on_fold
            )
            for order, usual in enumerate(cutting_list.pieces, start=first)
        ]


def next_place(plate: Plate) -> int:
    return (plate.pieces.aggregate(last=Max("order"))["last"] or 0) + 1


@transaction.atomic
def take_seams(*, plate: Plate, proposed: list[ProposedSeam], evidence: str) -> list[Seam]:
    """Write the seams that a maker ticked, known in the way that the maker says."""
    return [
        Seam.objects.create(
            plate=plate,
            piece_a_id=seam.piece_a.key,
            edge_a=seam.edge_a,
            piece_b_id=seam.piece_b.key,
            edge_b=seam.edge_b,
            evidence=evidence,
        )
        for seam in proposed
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedPiece:
    cut: int
    on_fold: bool
    edges: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedReading:
    """What stands in the boxes of one piece at one line. An empty `reading`: the piece is not there.

    `is_plain` is asked on a proportional draft only; None leaves it as it is.
    """

    reading: TypedLength | None
    take_up: TypedLength | None
    crossed_ends: int
    is_plain: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedFastening:
    overlap: TypedLength | None
    gap: TypedLength | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingSheet:
    """Pieces by their key, readings by piece and line, fastenings by level ("" is every level)."""

    is_half: bool
    pieces: dict[int, TypedPiece]
    readings: dict[tuple[int, str], TypedReading]
    fastenings: dict[str, TypedFastening]

    @property
    def lines_read(self) -> set[str]:
        return {line for (_, line), typed in self.readings.items() if typed.reading is not None}


@transaction.atomic
def keep_readings(*, plate: Plate, sheet: ReadingSheet) -> None:
    """Write the sheet over what the plate had: a box left empty takes its reading away.

    Lines that the sheet does not name are left alone.
    """
    turned = plate.is_half != sheet.is_half
    for piece in plate.pieces.filter(pk__in=sheet.pieces):
        _keep_piece(piece, sheet.pieces[piece.pk], is_half=sheet.is_half, turned=turned)
    held = {
        (reading.piece_id, reading.line): reading for reading in Reading.objects.filter(piece__plate=plate)
    }
    for (piece_pk, line), typed in sheet.readings.items():
        _keep_reading(held.get((piece_pk, line)) or Reading(piece_id=piece_pk, line=line), typed)
    fastened = {fastening.line: fastening for fastening in plate.fastenings.all()}
    for line, widths in sheet.fastenings.items():
        _keep_fastening(fastened.get(line) or Fastening(plate=plate, line=line), widths)
    plate.is_half = sheet.is_half
    # Also marks the plate as changed: whoever still types on an older sheet is told.
    plate.save()
    file_references({plate.reference_id})


def _keep_piece(piece: Piece, typed: TypedPiece, *, is_half: bool, turned: bool) -> None:
    cut = typed.cut
    if turned and not typed.on_fold and cut == piece.cut and cut == (1 if is_half else 2):
        # The one box for the half doubles the pieces drawn singly; a number just typed stands.
        cut = 2 if is_half else 1
    if (cut, typed.on_fold, typed.edges) != (piece.cut, piece.on_fold, piece.edges):
        piece.cut, piece.on_fold, piece.edges = cut, typed.on_fold, typed.edges
        piece.save()


def _keep_reading(reading: Reading, typed: TypedReading) -> None:
    if typed.reading is None:
        if reading.pk:
            reading.delete()
        return
    before = _told_of(reading)
    reading.reading, reading.take_up = typed.reading, typed.take_up
    reading.crossed_ends = typed.crossed_ends
    reading.is_plain = reading.is_plain if typed.is_plain is None else typed.is_plain
    if before[:2] != (reading.reading_text, reading.take_up_text):
        reading.doubt_um = None  # no longer the one that was traced
    if not reading.pk or before != _told_of(reading):
        reading.save()


def _told_of(reading: Reading) -> tuple[str, str, int, bool]:
    return reading.reading_text, reading.take_up_text, reading.crossed_ends, reading.is_plain


def _keep_fastening(fastening: Fastening, widths: TypedFastening) -> None:
    if widths.overlap is None and widths.gap is None:
        if fastening.pk:
            fastening.delete()
        return
    fastening.overlap, fastening.gap = widths.overlap, widths.gap
    fastening.save()
