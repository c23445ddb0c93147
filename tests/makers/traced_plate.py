"""A plate with a scan that was calibrated twice, and something in every column of what was traced on it."""

import io

from PIL import Image

from catalogue.lengths.models import TypedLength
from catalogue.plates.models.piece import Piece
from catalogue.plates.models.plate import Plate
from catalogue.tracing.models import Calibration, TracedLevel, TracedPiece, TracedReading
from catalogue.workroom.files import put
from tests.makers.long_work import make_work
from tests.makers.rows import NOON, make_scan, um

NODES = [
    {"x": 10.5, "y": 10.0, "corner": True, "curved": False, "edge": ""},
    {"x": 40.0, "y": 12.25, "corner": True, "curved": True, "edge": "side"},
    {"x": 38.0, "y": 60.0, "corner": False, "curved": True, "edge": ""},
    {"x": 9.0, "y": 58.0, "corner": True, "curved": False, "edge": "hem"},
]
MARKS = [
    {"kind": "grain", "line": "", "count": 1, "points": [[20.0, 50.0], [20.5, 20.0]]},
    # As it was kept before pleats were counted.
    {"kind": "length", "line": "front waist", "points": [[12.0, 12.0], [11.0, 40.0]]},
    {
        "kind": "pleat",
        "line": "",
        "count": 3,
        "points": [[25.0, 55.0], [25.0, 58.0], [27.0, 55.0], [27.0, 58.0]],
    },
]
GRID = {
    "matrix": [[0.02, 0.0, -0.2], [0.0, 0.02, -0.2], [0.0, 0.0, 1.0]],
    "pixels": [[10.0, 10.25], [60.25, 10.25], [10.0, 60.5], [60.25, 60.5]],
    "squares": [[0.0, 0.0], [1.0, 0.0], [0.0, 1.0], [1.0, 1.0]],
    "pitch_px": 50.2,
    "residual_px": 0.4,
}


def scan_file(colour: str = "ivory", side: int = 120) -> bytes:
    file = io.BytesIO()
    Image.new("RGB", (side, 90), colour).save(file, "PNG")
    return file.getvalue()


def trace_front(plate: Plate, front: Piece) -> None:
    stem = f"scan{plate.pk}of{plate.reference.workroom_id}"
    scan, first = make_scan(plate, stem=stem, is_photograph=True, width=120, height=90, grid=GRID)
    put(scan.original, scan_file())
    Calibration.objects.filter(pk=first.pk).update(width=60, height=45)
    second = Calibration.objects.create(
        scan=scan,
        number=2,
        way=Calibration.Way.CORNERS,
        given={
            "points": [[0.0, 0.0], [110.5, 1.0], [110.0, 80.0], [1.0, 80.0]],
            "lengths": {"across": "11 in", "down": "8 in"},
        },
        matrix=[[2.5, 0.01, 0.0], [0.02, 2.5, 0.0], [1e-05, 2e-05, 1.0]],
        relative_doubt=0.0021,
        worst_doubt=0.004,
        residual_px=0.25,
        left_mm=-1.5,
        top_mm=0.0,
        mm_per_px=2.5,
        width=120,
        height=91,
        made_at=NOON,
    )
    make_work(second)
    TracedPiece.objects.create(piece=front, nodes=NODES, marks=MARKS)
    TracedLevel.objects.create(plate=plate, line="waist", points=[[0.0, 45.0], [60.0, 45.0]])
    front.readings.filter(line="waist").update(doubt_um=90)
    TracedReading.objects.create(
        piece=front,
        line="waist",
        reading_um=um("3/4 in"),
        take_up_um=120,
        doubt_um=90,
        is_used=True,
        hand=TypedLength.read("11/16 in"),
        hand_take_up=TypedLength.read("1/16 in"),
    )
