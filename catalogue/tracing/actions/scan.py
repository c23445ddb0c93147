"""A scan comes, is cut into tiles, is calibrated. File first, then row; tiles by a process of their own."""

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from datetime import datetime
from functools import partial
from typing import Any
from uuid import uuid4

import numpy as np
from django.core.files.uploadedfile import UploadedFile
from django.db import transaction
from django.utils import timezone
from PIL import Image

from catalogue.photographs.imaging import ImageRefused, open_scan
from catalogue.plates.models.plate import Plate
from catalogue.tracing.calculation.calibration import Calibration as Map
from catalogue.tracing.calculation.calibration import Sheet, sheet_of
from catalogue.tracing.calculation.grid import find_grid
from catalogue.tracing.calculation.grid_waves import NoGridFound
from catalogue.tracing.imaging import cut_tiles, flat_strips, strips_of
from catalogue.tracing.models import Calibration, PlateScan, Tiled
from catalogue.workroom.faults import note_fault
from catalogue.workroom.files import new_original
from catalogue.workroom.index.filing import refiled
from catalogue.workroom.models import User
from catalogue.workroom.process import start_command

KEPT_CROSSINGS = 240  # of the grid found: enough for its map, few enough for a row


def keep_scan(*, plate: Plate, file: UploadedFile, is_photograph: bool, at: datetime) -> PlateScan:
    """Keep the file as it was sent, and have it opened and cut into tiles."""
    scan = PlateScan(plate=plate, stem=uuid4().hex, is_photograph=is_photograph, heartbeat=at)
    file.seek(0)
    with new_original(scan.original) as original:
        for chunk in file.chunks():
            original.write(chunk)
    with transaction.atomic():
        scan.save()
        transaction.on_commit(partial(start_command, "scan_cut", "scan", str(scan.pk)))
    return scan


@transaction.atomic
def delete_scan(*, scan: PlateScan) -> None:
    """The scan, its calibrations and what was traced on it; readings stay as they are."""
    with refiled(scan.plate.reference):
        for piece in scan.plate.pieces.filter(traced__isnull=False):
            piece.traced.delete()
        scan.plate.traced_levels.all().delete()
        scan.delete()
    transaction.on_commit(scan.forget_files)


@transaction.atomic
def calibrate(
    *, scan: PlateScan, way: str, found: Map, given: dict[str, Any], by: User, at: datetime
) -> Calibration:
    """A new calibration, which counts at once, and the process that cuts its picture.

    Raises CalibrationRefused.
    """
    with refiled(scan.plate.reference):
        calibration = new_calibration(scan=scan, way=way, found=found, given=given, by=by, at=at)
    transaction.on_commit(partial(start_command, "scan_cut", "calibration", str(calibration.pk)))
    return calibration


def new_calibration(
    *, scan: PlateScan, way: str, found: Map, given: dict[str, Any], by: User | None, at: datetime
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
        heartbeat=at,
        made_by=by,
        made_at=at,
    )


def cut_scan(pk: int, *, looks_for_grid: bool = True) -> None:
    """Open the scan as it was sent, cut it, and look for a grid. Faults are said in its row."""
    _cut(PlateScan.objects.get(pk=pk), partial(_scan_tiles, looks_for_grid=looks_for_grid))


def cut_calibration(pk: int) -> None:
    """Flatten the scan by one calibration and cut that."""
    _cut(Calibration.objects.select_related("scan").get(pk=pk), _calibration_tiles)


def start_waiting(workroom: int) -> None:
    """Start one process for whatever waits in a workroom, as after an archive was taken in."""
    if _waiting(workroom):
        start_command("scan_cut", "workroom", str(workroom))


def cut_waiting(workroom: int) -> None:
    """Cut in turn whatever waits in a workroom. The grids of scans came with them."""
    cuts = {PlateScan: partial(_scan_tiles, looks_for_grid=False), Calibration: _calibration_tiles}
    waiting = _waiting(workroom)
    for number, tiled in enumerate(waiting):
        for later in waiting[number:]:
            # What stands in line for this process is not stopped.
            type(later).objects.filter(pk=later.pk).update(heartbeat=timezone.now())
        _cut(tiled, cuts[type(tiled)])


def _waiting(workroom: int) -> list[Tiled]:
    waits = {"state": Tiled.State.WAITING}
    scans = PlateScan.objects.filter(plate__reference__workroom=workroom, **waits)
    calibrations = Calibration.objects.filter(scan__plate__reference__workroom=workroom, **waits)
    return [*scans, *calibrations.select_related("scan")]


def cut_again(*, tiled: Tiled, at: datetime) -> None:
    """Start once more what failed or was stopped."""
    kind = "scan" if isinstance(tiled, PlateScan) else "calibration"
    type(tiled).objects.filter(pk=tiled.pk).update(state=Tiled.State.WAITING, fault="", heartbeat=at)
    start_command("scan_cut", kind, str(tiled.pk))


def _cut(tiled: Tiled, cut: Callable[[Any, Callable[[int], None]], dict[str, Any]]) -> None:
    rows = type(tiled).objects.filter(pk=tiled.pk)
    # Two processes may have been started for it: only one update can win.
    if not rows.filter(state=Tiled.State.WAITING).update(state=Tiled.State.RUNNING, heartbeat=timezone.now()):
        return

    def told(percent: int) -> None:
        rows.update(progress=percent, heartbeat=timezone.now())

    try:
        found = cut(tiled, told)
        rows.update(state=Tiled.State.DONE, progress=100, fault="", **found)
    except ImageRefused as refused:
        rows.update(state=Tiled.State.FAILED, fault=refused.sentence)
    except Exception as fault:
        # The process has no screen: what is not said in the row is never seen.
        rows.update(state=Tiled.State.FAILED, fault=note_fault(fault))


def _opened(scan: PlateScan) -> Image.Image:
    with scan.original.open("rb") as file:
        return open_scan(file)


def _scan_tiles(scan: PlateScan, told: Callable[[int], None], *, looks_for_grid: bool) -> dict[str, Any]:
    picture = _opened(scan)
    with ThreadPoolExecutor(1) as aside:
        grid = aside.submit(_grid_in, picture) if looks_for_grid else None
        cut_tiles(picture.size, strips_of(picture), scan.tile_folder, told)
        found = grid.result() if grid else None
    size = {"width": picture.width, "height": picture.height}
    return {**size, "grid": found} if looks_for_grid else size


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


def _calibration_tiles(calibration: Calibration, told: Callable[[int], None]) -> dict[str, Any]:
    sheet = Sheet(
        left_mm=calibration.left_mm,
        top_mm=calibration.top_mm,
        width=calibration.width,
        height=calibration.height,
        mm_per_px=calibration.mm_per_px,
    )
    flat = flat_strips(_opened(calibration.scan), np.array(calibration.matrix), sheet)
    cut_tiles((sheet.width, sheet.height), flat, calibration.tile_folder, told)
    return {}
