"""A scan comes, is cut into tiles, is calibrated: file first, then row; tiles by long work."""

from concurrent.futures import ThreadPoolExecutor
from datetime import datetime
from typing import Any
from uuid import uuid4

import numpy as np
from django.core.files.uploadedfile import UploadedFile
from django.db import transaction
from PIL import Image

from catalogue.photographs.imaging import open_scan
from catalogue.plates.models.plate import Plate
from catalogue.tracing.calculation.calibration import FlatPicture, PixelMap, sheet_of
from catalogue.tracing.calculation.grid import find_grid
from catalogue.tracing.calculation.grid_waves import NoGridFound
from catalogue.tracing.imaging import Strip, cut_tiles, flat_strips, strips_of
from catalogue.tracing.models import Calibration, PlateScan, TiledPicture
from catalogue.workroom.files import open_file, put
from catalogue.workroom.index.filing import refiled
from catalogue.workroom.models import User
from catalogue.workroom.work.attempt import Attempt
from catalogue.workroom.work.engine import ask

KEPT_CROSSINGS = 240  # of the grid found: enough for its map, few enough for a row


def keep_scan(*, plate: Plate, file: UploadedFile, is_photograph: bool, at: datetime) -> PlateScan:
    """Keep the file as it was sent, and have it opened and cut into tiles."""
    scan = PlateScan(plate=plate, stem=uuid4().hex, is_photograph=is_photograph)
    put(scan.original, file)
    with transaction.atomic():
        scan.save()
        ask(scan, at=at)
    return scan


@transaction.atomic
def calibrate(
    *, scan: PlateScan, way: str, found: PixelMap, given: dict[str, Any], by: User, at: datetime
) -> Calibration:
    """A new calibration, which counts at once; long work cuts its picture. Raises CalibrationRefused."""
    with refiled(scan.plate.reference):
        calibration = new_calibration(scan=scan, way=way, found=found, given=given, by=by, at=at)
    ask(calibration, at=at)
    return calibration


def new_calibration(
    *, scan: PlateScan, way: str, found: PixelMap, given: dict[str, Any], by: User | None, at: datetime
) -> Calibration:
    """The row after those before, its picture still to be cut.

    Raises CalibrationRefused where the picture would be stretched out of all measure.
    """
    sheet = sheet_of(found, scan.size)
    last = scan.calibrations.first()
    return Calibration.objects.create(
        scan=scan,
        number=last.number + 1 if last else 1,
        way=way,
        given=given,
        matrix=found.matrix.tolist(),
        relative_doubt=found.relative_doubt,
        worst_doubt=found.worst_doubt,
        residual_px=found.residual_px,
        left_mm=sheet.left_mm,
        top_mm=sheet.top_mm,
        mm_per_px=sheet.mm_per_px,
        width=sheet.width,
        height=sheet.height,
        made_by=by,
        made_at=at,
    )


def cut_scan(scan: PlateScan, attempt: Attempt) -> dict[str, Any]:
    """Open the scan as it was sent, cut it, and look for a grid where none came with it."""
    looks_for_grid = scan.grid is None and not scan.calibrations.exists()
    picture = _opened(scan)
    with ThreadPoolExecutor(1) as aside:
        grid = aside.submit(_grid_in, picture) if looks_for_grid else None
        _cut(scan, picture.size, strips_of(picture), attempt)
        found = grid.result() if grid else scan.grid
    return {"width": picture.width, "height": picture.height, "grid": found}


def cut_calibration(calibration: Calibration, attempt: Attempt) -> dict[str, Any]:
    """Flatten the scan by one calibration and cut that."""
    sheet = FlatPicture(
        left_mm=calibration.left_mm,
        top_mm=calibration.top_mm,
        width=calibration.width,
        height=calibration.height,
        mm_per_px=calibration.mm_per_px,
    )
    flat = flat_strips(_opened(calibration.scan), np.array(calibration.matrix), sheet)
    _cut(calibration, (sheet.width, sheet.height), flat, attempt)
    return {}


def _cut(tiled: TiledPicture, size: tuple[int, int], strip: Strip, attempt: Attempt) -> None:
    file = attempt.scratch() / "tiles"
    with file.open("wb") as opened:
        cut_tiles(size, strip, opened, attempt.tell)
    attempt.keep(tiled.tiles, file)


def _opened(scan: PlateScan) -> Image.Image:
    with open_file(scan.original) as file:
        return open_scan(file)


def _grid_in(picture: Image.Image) -> dict[str, Any] | None:
    try:
        found = find_grid(np.asarray(picture.convert("L")))
    except NoGridFound:
        return None
    some = np.linspace(0, len(found.pixels) - 1, min(KEPT_CROSSINGS, len(found.pixels))).astype(int)
    return {
        "matrix": found.matrix.tolist(),
        "pixels": found.pixels[some].round(3).tolist(),
        "squares": found.squares[some].tolist(),
        "pitch_px": found.pitch_px,
        "residual_px": found.residual_px,
    }
