"""What a workroom holds of scans, calibrations and what was traced."""

from collections.abc import Iterator
from typing import IO
from uuid import uuid4

from django.db.models import Q
from django.utils import timezone

from catalogue.photographs.imaging import MOST_SCAN_BYTES, check_scan
from catalogue.tracing.calculation.calibration import MOST_PIXELS
from catalogue.tracing.calculation.geometry import (
    check_given,
    check_grid,
    check_level,
    check_marks,
    check_matrix,
    check_nodes,
    leads_somewhere,
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
from catalogue.workroom.reader.row_values import Broken, RowValues
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


def _traced(told: RowValues) -> Iterator[Broken]:
    """Every point that was traced lies on the scan, and every calibration leads it to some place."""
    scan, levels = told["scan"], told["traced_levels"] or []
    outlines = [piece["traced"] for piece in told["pieces"] or [] if piece.get("traced")]
    if scan is None:
        if told.is_said("scan") and (outlines or levels):
            yield "scan", "Pieces or levels of this plate are traced, and it has no scan."
        return
    points = [(node["x"], node["y"]) for one in outlines for node in one.get("nodes", ())]
    points += [point for one in outlines for mark in one.get("marks", ()) for point in mark["points"]]
    points += [point for level in levels for point in level.get("points", ())]
    for number, calibration in enumerate(scan.get("calibrations", ())):
        if "matrix" in calibration and not leads_somewhere(calibration["matrix"], points):
            yield (
                f"scan.calibrations[{number}].matrix",
                "This leads some of what was traced to no place at all.",
            )


def _calibration(told: RowValues) -> Iterator[Broken]:
    for name in ("number", "width", "height", "mm_per_px"):
        if told[name] is not None and told[name] <= 0:
            yield name, "This must be more than nothing."
    for name in ("relative_doubt", "worst_doubt", "residual_px"):
        if told[name] is not None and told[name] < 0:
            yield name, "This must not be negative."
    if (told["width"] or 0) * (told["height"] or 0) > 1.01 * MOST_PIXELS:
        yield "width", f"A flattened picture has up to {MOST_PIXELS // 1_000_000} million pixels."


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
        rule_of_whole=_traced,
    ),
    Kind(
        model=Calibration,
        part_of="scan",
        once="number",
        alike=lambda held: Q(number=held["number"]),
        rule=_calibration,
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
