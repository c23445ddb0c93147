"""How near and how fast a plate is traced: drawn plates with known truth, and a photograph of 40 megapixels.

    python -m tests.benchmarks.tracing

The grid on 20 drawn pages; pieces traced with clicks a pixel off; one large photograph from file to tiles.
"""

import json
import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import numpy as np
from PIL import Image

from catalogue.images import open_scan
from catalogue.measuring.calibration import Sheet, by_corners, by_grid, sheet_of
from catalogue.measuring.grid import find_grid
from catalogue.measuring.homography import apply
from catalogue.measuring.outline import Node, Outline
from catalogue.tiles import cut_tiles, flattened
from tests.drawn_plates import SQUARE_MM, DrawnPlate, drawn_plate

SEEDS = 20
PAGE, PITCH = (1500, 1125), 25
LARGE = (7300, 5480)  # 40 megapixels
DRAFTS = Path(__file__).resolve().parents[2] / "fixtures" / "demo" / "plates"
CLICK_PX = 1.0
# The trial's page was 6000 pixels wide: clicks are as fine against the pieces here.
FINE = 4


def grid_errors() -> list[float]:
    """The mean relative error of distances, for each seed."""
    errors = []
    for seed in range(SEEDS):
        drawn = drawn_plate(seed, size=PAGE, pitch=PITCH)
        found = find_grid(np.asarray(drawn.picture, dtype=np.float32))
        pixels = np.random.default_rng(seed).uniform([0, 0], PAGE, (400, 2))
        true, seen = apply(drawn.truth, pixels) / SQUARE_MM, apply(found.matrix, pixels)
        distances = [np.linalg.norm(points[::2] - points[1::2], axis=1) for points in (true, seen)]
        errors.append(float(np.abs(distances[1] / distances[0] - 1).mean()))
    return errors


def traced_errors() -> dict[str, float]:
    """The largest errors of a perimeter, an edge and a level's girth on the demo's plates, a pixel off."""
    worst = {"perimeter": 0.0, "edge": 0.0, "girth": 0.0}
    for seed, file in enumerate(sorted(DRAFTS.glob("*.traced.json"))):
        traced = json.loads(file.read_text(encoding="utf-8"))
        mm = SQUARE_MM / traced["square_px"]
        drawn = drawn_plate(seed, size=(PAGE[0] * FINE, PAGE[1] * FINE), pitch=PITCH * FINE)
        calibration = _calibrated(drawn)
        draw = np.random.default_rng(seed)
        girths: dict[str, list[float]] = {}
        for piece in traced["pieces"]:
            true = np.array([[node["x"] * mm, node["y"] * mm] for node in piece["nodes"]])
            clicked = drawn.to_px(true) + draw.normal(0, CLICK_PX, true.shape)
            seen = calibration.to_mm([complex(*at) for at in clicked])
            one = _outline(piece["nodes"], [complex(*at) for at in true])
            other = _outline(piece["nodes"], seen)
            _note(worst, "perimeter", one.perimeter, other.perimeter)
            for edge, same in zip(one.edges(), other.edges(), strict=True):
                _note(worst, "edge", edge.length, same.length)
            for level in traced["levels"]:
                start, end = (complex(*point) * mm for point in level["points"])
                widths = [sum(abs(b - a) for a, b in shape.spans(start, end)) for shape in (one, other)]
                sums = girths.setdefault(level["line"], [0.0, 0.0])
                sums[:] = [total + width for total, width in zip(sums, widths, strict=True)]
        for true_mm, seen_mm in girths.values():
            _note(worst, "girth", true_mm, seen_mm)
    return worst


def _calibrated(drawn: DrawnPlate):
    found = find_grid(np.asarray(drawn.picture, dtype=np.float32))
    size = drawn.picture.size
    # Counted from the page's own corner, as the truth is.
    shift = np.round(apply(found.matrix, drawn.to_px(np.zeros((1, 2)))))
    squares = found.squares - shift
    return by_grid(found.pixels, squares, square_mm=SQUARE_MM, residual_px=found.residual_px, size=size)


def _outline(nodes, places) -> Outline:
    return Outline(
        nodes=tuple(
            Node(at=at, corner=node["corner"], curved=node["curved"], edge=node["edge"])
            for node, at in zip(nodes, places, strict=True)
        )
    )


def _note(worst: dict[str, float], name: str, true: float, seen: float) -> None:
    worst[name] = max(worst[name], abs(seen / true - 1))


def large_photograph(file: Path) -> None:
    """From the file to flattened tiles, in this process: prints seconds and the peak of memory."""
    started = time.monotonic()
    with tempfile.TemporaryDirectory() as folder, file.open("rb") as sent:
        picture = open_scan(sent)
        cut_tiles(picture, Path(folder, "0"), lambda percent: None)
        scanned = time.monotonic()
        corners = [300 + 280j, 7000 + 240j, 7050 + 5200j, 260 + 5230j]
        found = by_corners(corners, across_mm=1500, down_mm=1100, size=picture.size)
        sheet: Sheet = sheet_of(found, picture.size)
        flat = flattened(picture, found.matrix, sheet)
        del picture
        cut_tiles(flat, Path(folder, "1"), lambda percent: None)
    peak_mb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    done = time.monotonic()
    print(
        f"40 Mpx: scan cut in {scanned - started:.1f} s, flattened and cut in {done - scanned:.1f} s, "
        f"peak {peak_mb:.0f} MB"
    )


def main() -> None:
    errors = np.array(grid_errors()) * 100
    print(f"grid, {SEEDS} seeds: mean distance error {errors.mean():.4f} %, worst seed {errors.max():.4f} %")
    for name, error in traced_errors().items():
        print(f"traced a pixel off, worst {name}: {100 * error:.2f} %")
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder, "large.jpg")
        noise = np.random.default_rng(1).integers(120, 255, (LARGE[1] // 8, LARGE[0] // 8, 3), dtype=np.uint8)
        Image.fromarray(noise).resize(LARGE).save(file, quality=90)
        command = [sys.executable, "-m", "tests.benchmarks.tracing", str(file)]
        subprocess.run(command, check=True, env=os.environ)


if __name__ == "__main__":
    large_photograph(Path(sys.argv[1])) if sys.argv[1:] else main()
