"""A plate that has outlines and no scan gets a sheet: the program draws them, and so knows its size."""

import math
import shutil
from collections.abc import Sequence
from datetime import datetime
from uuid import uuid4

import numpy as np
from PIL import Image, ImageDraw

from catalogue.actions.scan import cut_calibration, cut_scan, new_calibration
from catalogue.measuring.calibration import Calibration as Map
from catalogue.measuring.outline import Outline
from catalogue.models.trace import Calibration, PlateScan
from catalogue.plates.calculation.scale import RELATIVE_DOUBT
from catalogue.plates.models.plate import Plate
from catalogue.workroom.files import new_original
from catalogue.workroom.models import User

MARGIN_MM = 50.0
FINEST_MM = 0.5  # of a pixel: as fine as a scan of a plate of 1:8 at 400 dots to the inch
MOST_PIXELS = 3_000_000
PAPER, PENCIL = 255, 130


def begin_sheet(*, plate: Plate, outlines: Sequence[Outline], by: User, at: datetime) -> Calibration:
    """The sheet as the plate's scan, cut and calibrated: within the caller's transaction.

    Its doubt is that of what the outlines were drawn from, which the plate's row says.
    """
    points = [outline.flattened(0.5) for outline in outlines]
    corner, far = _box([point for line in points for point in line])
    across, down = far.real - corner.real, far.imag - corner.imag
    step = max(FINEST_MM, math.sqrt(across * down / MOST_PIXELS), max(across, down) / 30_000)
    doubt = RELATIVE_DOUBT[plate.read_from]
    matrix = np.array([[step, 0, corner.real], [0, step, corner.imag], [0, 0, 1]])
    found = Map(matrix=matrix, relative_doubt=doubt, worst_doubt=doubt)
    picture = Image.new("L", (math.ceil(across / step), math.ceil(down / step)), PAPER)
    for line in points:
        pixels = [((at.real - corner.real) / step, (at.imag - corner.imag) / step) for at in line]
        ImageDraw.Draw(picture).line([*pixels, pixels[0]], fill=PENCIL, width=2)
    return _kept(plate, picture, found, by, at)


def _box(points: Sequence[complex]) -> tuple[complex, complex]:
    across, down = [point.real for point in points], [point.imag for point in points]
    margin = complex(MARGIN_MM, MARGIN_MM)
    return complex(min(across), min(down)) - margin, complex(max(across), max(down)) + margin


def _kept(plate: Plate, picture: Image.Image, found: Map, by: User, at: datetime) -> Calibration:
    scan = PlateScan(plate=plate, stem=uuid4().hex, heartbeat=at)
    scan.folder.mkdir(mode=0o700, parents=True)
    try:
        with new_original(scan.original) as original:
            picture.save(original, "PNG")
        scan.save()
        # Cut here and not by a process of their own: the outlines are seen once their sheet is ready.
        cut_scan(scan.pk, looks_for_grid=False)
        scan.refresh_from_db()
        calibration = new_calibration(
            scan=scan,
            way=Calibration.Way.DRAWN,
            found=found,
            given={"points": [], "lengths": {}},
            by=by,
            at=at,
        )
        cut_calibration(calibration.pk)
        calibration.refresh_from_db()
        if not calibration.is_ready:
            raise OSError(calibration.fault or scan.fault)
    except BaseException:
        shutil.rmtree(scan.folder, ignore_errors=True)
        raise
    return calibration
