"""A sheet of readings, typed in one go, is kept in one go."""

from dataclasses import dataclass

from django.db import transaction

from catalogue.lengths.models import TypedLength
from catalogue.models.piece import Piece, Reading
from catalogue.models.plate import Fastening, Plate
from catalogue.workroom.index.filing import file_references


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
    reading.reading_um, reading.reading_text = typed.reading.um, typed.reading.text
    reading.take_up_um, reading.take_up_text = _columns(typed.take_up)
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
    fastening.overlap_um, fastening.overlap_text = _columns(widths.overlap)
    fastening.gap_um, fastening.gap_text = _columns(widths.gap)
    fastening.save()


def _columns(length: TypedLength | None) -> tuple[int | None, str]:
    return (None, "") if length is None else (length.um, length.text)
