"""What a workroom holds of scans, calibrations and what was traced."""

from typing import IO
from uuid import uuid4

from django.db.models import Q
from django.utils import timezone

from catalogue.photographs.imaging import MOST_SCAN_BYTES, check_scan
from catalogue.tracing.calculation.geometry import (
    check_given,
    check_grid,
    check_level,
    check_marks,
    check_matrix,
    check_nodes,
)
from catalogue.tracing.models import (
    Calibration,
    PlateScan,
    TiledPicture,
    TracedLevel,
    TracedPiece,
    TracedReading,
)
from catalogue.workroom.deletions import Deletion, register_deletions
from catalogue.workroom.files import put
from catalogue.workroom.kinds import Kind, register
from catalogue.workroom.work.engine import put_in_line


def _keep(scan: PlateScan, opened: IO[bytes]) -> None:
    """The file may be large, and is stored as it is; the whole of it is looked at when it is cut."""
    scan.stem = uuid4().hex
    check_scan(opened)
    put(scan.original, opened)


def _cut_again(tiled: TiledPicture) -> None:
    put_in_line(tiled, at=timezone.now())


def _forget_traced(scan: PlateScan) -> None:
    """What was traced on another picture goes with it."""
    TracedPiece.objects.filter(piece__plate=scan.plate_id).delete()
    scan.plate.traced_levels.all().delete()
    scan.calibrations.all().delete()


register(
    Kind(
        model=PlateScan,
        part_of="plate",
        left_out=("stem", "width", "height"),
        checks={"grid": check_grid},
        files="scans/",
        most=MOST_SCAN_BYTES,
        keep=_keep,
        written=_cut_again,
        replaced=_forget_traced,
    ),
    Kind(
        model=Calibration,
        part_of="scan",
        once="number",
        alike=lambda held: Q(number=held["number"]),
        checks={"given": check_given, "matrix": check_matrix},
        written=_cut_again,
    ),
    Kind(
        model=TracedPiece,
        part_of="piece",
        checks={"nodes": check_nodes, "marks": check_marks},
        pixels_of=PlateScan,
    ),
    Kind(model=TracedLevel, part_of="plate", checks={"points": check_level}, pixels_of=PlateScan),
    Kind(model=TracedReading, part_of="piece", once="line", stays_unsaid=True),
)
register_deletions(
    Deletion(
        model=PlateScan,
        the="the scan",
        way=lambda scan: [scan.plate],
        has_page=True,
        says="Readings stay as they are.",
        key="plate",
    ),
)
