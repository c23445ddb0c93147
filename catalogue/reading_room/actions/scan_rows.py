"""The scan of a plate and what was traced on it, written from what an archive says of the plate."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from django.utils import timezone

from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.reading_room.exchange.writing import FileOf
from catalogue.tracing.actions.scan import delete_scan
from catalogue.tracing.kinds import CALIBRATION, SCAN, TRACED_LEVEL, TRACED_PIECE, TRACED_READING
from catalogue.tracing.models import Calibration, PlateScan, Tiled, TracedPiece
from catalogue.workroom.kinds import Kind
from catalogue.workroom.reader.columns import columns_of

Said = dict[str, Any]
# Stores the file of a scan that is new here, and gives its stem.
KeepScan = Callable[[Said], str]


@dataclass(frozen=True, slots=True, kw_only=True)
class ScanRows:
    """`file_of`: how an archive names the file of a scan that is here."""

    keep: KeepScan
    file_of: FileOf

    def write(self, plate: Plate, said: Said, pieces: Mapping[str, Piece]) -> None:
        """Make what was traced as said. Where the archive holds no scan, what is here stays."""
        if said["scan"] is None:
            for one in said["pieces"]:
                if one["traced_readings"]:
                    _replace(TRACED_READING, one["traced_readings"], piece=pieces[one["key"]])
            return
        self._write_scan(plate, said["scan"])
        _replace(TRACED_LEVEL, said["traced_levels"], plate=plate)
        for one in said["pieces"]:
            piece = pieces[one["key"]]
            _replace(TRACED_READING, one["traced_readings"], piece=piece)
            if one["traced"]:
                TracedPiece.objects.update_or_create(
                    piece=piece, defaults=columns_of(TRACED_PIECE, one["traced"])
                )

    def _write_scan(self, plate: Plate, said: Said) -> None:
        scan = PlateScan.objects.filter(plate=plate).first()
        if scan and self.file_of(scan) != said["file"]:
            # Of another picture: what was traced on it goes with it.
            delete_scan(scan=scan)
            scan = None
        if scan is None:
            scan = PlateScan(plate=plate, stem=self.keep(said), heartbeat=timezone.now())
        for name, value in columns_of(SCAN, said).items():
            setattr(scan, name, value)
        scan.save()
        for one in said["calibrations"]:
            _write_calibration(scan, columns_of(CALIBRATION, one))


def _write_calibration(scan: PlateScan, columns: Said) -> None:
    """One that is here already keeps its tiles, and one that says otherwise has them cut again."""
    here = scan.calibrations.filter(number=columns["number"])
    row = here.first() or Calibration(scan=scan)
    if row.pk and all(getattr(row, name) == value for name, value in columns.items()):
        return
    for name, value in columns.items():
        setattr(row, name, value)
    row.state, row.progress, row.fault = Tiled.State.WAITING, 0, ""
    row.heartbeat = timezone.now()
    row.save()


def _replace(kind: Kind, said: list[Said], **whole: Plate | Piece) -> None:
    """Rows without a key have nothing to be known by: they are written anew."""
    kind.model.objects.filter(**whole).delete()
    kind.model.objects.bulk_create(kind.model(**whole, **columns_of(kind, one)) for one in said)
