"""The demo's plates as somebody has scanned, calibrated and traced them."""

import json

from catalogue.plates.models.plate import Plate
from catalogue.tracing.actions.scan import cut_calibration, cut_scan, new_calibration
from catalogue.tracing.actions.tracing import refresh_traced_readings
from catalogue.tracing.calculation.calibration import by_corners
from catalogue.tracing.loading.outlines import map_of
from catalogue.tracing.models import Calibration, PlateScan, TracedLevel, TracedPiece
from fitting.actions.demo.told import Told

LEFT_IN = 2  # squares left free at each side of the rectangle that is clicked on: the larger, the better
MM_PER_IN = 25.4


def trace_plate(told: Told, plate: Plate, key: str) -> None:
    """Keep the plate's picture as its scan, calibrated by its squares, with every piece and level traced."""
    traced = json.loads((told.folder / "plates" / f"{key}.traced.json").read_text(encoding="utf-8"))
    scan = PlateScan(plate=plate, stem=f"demo-{key}-{plate.pk}", heartbeat=told.at)
    scan.folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    scan.original.write_bytes((told.folder / "plates" / f"{key}.png").read_bytes())
    scan.save()
    # Cut here and not by a process of their own: the demo opens when they are there.
    cut_scan(scan.pk, looks_for_grid=False)
    scan.refresh_from_db()
    calibration = _calibrated(scan, traced["square_px"], told)
    pieces = {piece.name: piece for piece in plate.pieces.all()}
    for row in traced["pieces"]:
        TracedPiece.objects.create(piece=pieces[row["name"]], nodes=row["nodes"], marks=row["marks"])
    for level in traced["levels"]:
        TracedLevel.objects.create(plate=plate, line=level["line"], points=level["points"])
    refresh_traced_readings(plate=plate, flat=map_of(calibration))


def _calibrated(scan: PlateScan, square_px: float, told: Told) -> Calibration:
    across, down = (int(side / square_px) - 2 * LEFT_IN for side in scan.size)
    right, foot = LEFT_IN + across, LEFT_IN + down
    places = [(LEFT_IN, LEFT_IN), (right, LEFT_IN), (right, foot), (LEFT_IN, foot)]
    corners = [complex(x * square_px, y * square_px) for x, y in places]
    found = by_corners(corners, across_mm=across * MM_PER_IN, down_mm=down * MM_PER_IN, size=scan.size)
    given = {
        "points": [[at.real, at.imag] for at in corners],
        "lengths": {"across": f"{across} in", "down": f"{down} in"},
    }
    calibration = new_calibration(
        scan=scan, way=Calibration.Way.CORNERS, found=found, given=given, by=None, at=told.at
    )
    cut_calibration(calibration.pk)
    calibration.refresh_from_db()
    return calibration
