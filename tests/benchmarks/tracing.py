"""How near and how fast a plate is traced: drawn plates with known truth, and a photograph of 40 megapixels.

    python -m tests.benchmarks.tracing

Prints one table. The grid on 20 drawn pages; the demo's pieces on pages of 6000 × 4500 pixels, aslant,
blurred, noisy and unevenly lit, traced with clicks a pixel off each way, as clicked and laid on the printed
line; one large photograph from its file to tiles that can be traced, against Pillow alone, which opens it and
writes it twice; a point dragged among 300, against an empty page.
"""

import io
import json
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import numpy as np
from PIL import Image

from catalogue.photographs.imaging import open_scan
from catalogue.tracing.calculation.calibration import by_corners, by_grid, sheet_of
from catalogue.tracing.calculation.grid import find_grid
from catalogue.tracing.calculation.homography import apply
from catalogue.tracing.calculation.outline import Node, Outline
from catalogue.tracing.calculation.printed_line import onto_printed_line
from catalogue.tracing.imaging import cut_tiles, flat_strips, strips_of
from tests.benchmarks.dragging import dragging
from tests.makers.drawn_plates import SQUARE_MM, DrawnPlate, drawn_plate

SEEDS = 20
PAGE, PITCH = (1500, 1125), 25
LARGE = (7300, 5480)  # 40 megapixels
DRAFTS = Path(__file__).resolve().parents[2] / "fixtures" / "demo" / "plates"
CLICK_PX = 1.0
FINE = 4  # the trial's page was 6000 pixels wide: clicks are as fine against the pieces here
MOST = {"perimeter": 0.3, "edge": 1.0, "girth": 0.5}  # per cent


def grid_errors() -> list[float]:
    """The mean relative error of distances, for each seed."""
    errors = []
    for seed in range(SEEDS):
        drawn = drawn_plate(seed, size=PAGE, pitch=PITCH)
        found = find_grid(np.asarray(drawn.picture))
        pixels = np.random.default_rng(seed).uniform([0, 0], PAGE, (400, 2))
        true, seen = apply(drawn.truth, pixels) / SQUARE_MM, apply(found.matrix, pixels)
        distances = [np.linalg.norm(points[::2] - points[1::2], axis=1) for points in (true, seen)]
        errors.append(float(np.abs(distances[1] / distances[0] - 1).mean()))
    return errors


class Errors:
    """The largest relative errors of perimeters, edges and girths, and how many edges there were."""

    def __init__(self) -> None:
        self.worst = dict.fromkeys(MOST, 0.0)
        self.edges: list[float] = []

    def note(self, name: str, true: float, seen: float) -> None:
        error = abs(seen / true - 1)
        self.worst[name] = max(self.worst[name], error)
        if name == "edge":
            self.edges.append(error)

    def compare(self, true: list[Outline], seen: list[Outline], levels: dict[str, list]) -> None:
        for one, other in zip(true, seen, strict=True):
            self.note("perimeter", one.perimeter, other.perimeter)
            for edge, same in zip(one.edges(), other.edges(), strict=True):
                self.note("edge", edge.length, same.length)
        for ends in levels.values():
            sums = [sum(_width(shape, *line) for line in ends for shape in shapes) for shapes in (true, seen)]
            self.note("girth", *sums)


def traced_errors() -> tuple[Errors, Errors]:
    """Of the demo's plates as clicked, and with the points laid on the printed line."""
    clicked, laid = Errors(), Errors()
    for seed, file in enumerate(sorted(DRAFTS.glob("*.traced.json"))):
        traced = json.loads(file.read_text(encoding="utf-8"))
        mm = SQUARE_MM / traced["square_px"]
        shapes = [_outline(piece["nodes"], mm) for piece in traced["pieces"]]
        levels: dict[str, list] = {}
        for level in traced["levels"]:
            levels.setdefault(level["line"], []).append([complex(*at) * mm for at in level["points"]])
        flat = tuple([(p.real, p.imag) for p in shape.flattened(0.05)] for shape in shapes)
        size = (PAGE[0] * FINE, PAGE[1] * FINE)
        drawn = drawn_plate(seed, size=size, pitch=PITCH * FINE, outlines=flat)
        for errors, outlines in zip((clicked, laid), _by_hand(drawn, shapes, seed), strict=True):
            errors.compare(shapes, outlines, levels)
    return clicked, laid


def _by_hand(drawn: DrawnPlate, shapes: list[Outline], seed: int) -> Iterator[list[Outline]]:
    calibration, grey = _calibrated(drawn), np.asarray(drawn.picture)
    draw = np.random.default_rng(seed)
    traced = []
    for shape in shapes:
        places = drawn.to_px(np.array([[node.at.real, node.at.imag] for node in shape.nodes]))
        places += draw.normal(0, CLICK_PX, places.shape)
        traced.append(_moved(shape.nodes, [complex(*at) for at in places]))
    for nodes in (traced, [onto_printed_line(one, grey) for one in traced]):
        yield [
            Outline(nodes=tuple(_moved(one, calibration.to_mm([node.at for node in one])))) for one in nodes
        ]


def _calibrated(drawn: DrawnPlate):
    found = find_grid(np.asarray(drawn.picture))
    size = drawn.picture.size
    # Counted from the page's own corner, as the truth is.
    shift = np.round(apply(found.matrix, drawn.to_px(np.zeros((1, 2)))))
    squares = found.squares - shift
    return by_grid(found.pixels, squares, square_mm=SQUARE_MM, residual_px=found.residual_px, size=size)


def _outline(nodes, mm: float) -> Outline:
    names = ("corner", "curved", "edge")
    places = [complex(node["x"], node["y"]) * mm for node in nodes]
    return Outline(
        nodes=tuple(
            Node(at=at, **{name: node[name] for name in names})
            for node, at in zip(nodes, places, strict=True)
        )
    )


def _moved(nodes, places) -> list[Node]:
    return [
        Node(at=at, corner=node.corner, curved=node.curved, edge=node.edge)
        for node, at in zip(nodes, places, strict=True)
    ]


def _width(shape: Outline, start: complex, end: complex) -> float:
    return sum(abs(b - a) for a, b in shape.spans(start, end))


def large_photograph(step: str, file: Path) -> None:
    """One of the two processes that a scan goes through; prints its seconds and the peak of its memory."""
    started = time.monotonic()
    if step == "alone":
        with Image.open(file) as picture:
            for _ in range(2):
                picture.copy().save(io.BytesIO(), "JPEG", quality=90)
        used = resource.getrusage(resource.RUSAGE_SELF)
        print(json.dumps([time.monotonic() - started, used.ru_utime + used.ru_stime, _peak_mb()]))
        return
    with tempfile.TemporaryFile() as tiles, file.open("rb") as sent, ThreadPoolExecutor(1) as aside:
        picture = open_scan(sent)
        if step == "scan":
            grid = aside.submit(lambda: find_grid(np.asarray(picture.convert("L"))))
            cut_tiles(picture.size, strips_of(picture), tiles, lambda percent: None)
            grid.result()
        else:
            corners = [300 + 280j, 7000 + 240j, 7050 + 5200j, 260 + 5230j]
            found = by_corners(corners, across_mm=1500, down_mm=1100, size=picture.size)
            sheet = sheet_of(found, picture.size)
            strips = flat_strips(picture, found.matrix, sheet)
            cut_tiles((sheet.width, sheet.height), strips, tiles, lambda percent: None)
        took_s = time.monotonic() - started
    used = resource.getrusage(resource.RUSAGE_SELF)
    print(json.dumps([took_s, used.ru_utime + used.ru_stime, _peak_mb()]))


def _peak_mb() -> float:
    """Of this program alone: `ru_maxrss` would count that of the one which started it."""
    status = Path("/proc/self/status").read_text(encoding="ascii")
    return next(int(line.split()[1]) / 1024 for line in status.splitlines() if line.startswith("VmHWM"))


def large_photograph_rows() -> Iterator[tuple[str, str, str]]:
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder, "large.jpg")
        drawn = drawn_plate(3, size=(LARGE[0] // 4, LARGE[1] // 4), pitch=30).picture
        grain = np.random.default_rng(1).normal(0, 4, (LARGE[1], LARGE[0], 3)).astype(np.int16)
        page = np.asarray(drawn.resize(LARGE).convert("RGB"), dtype=np.int16)
        Image.fromarray((page + grain).clip(0, 255).astype(np.uint8)).save(file, quality=90)
        del grain, page
        command = [sys.executable, "-m", "tests.benchmarks.tracing"]
        seen = [
            json.loads(subprocess.run([*command, step, str(file)], check=True, capture_output=True).stdout)
            for step in ("scan", "calibration", "alone")
        ]
    (scan_s, scan_cpu_s, scan_mb), (flat_s, flat_cpu_s, flat_mb), (_, alone_cpu_s, alone_mb) = seen
    yield "40 Mpx: opened, cut, its grid found", f"{scan_s:.1f} s, {scan_cpu_s:.1f} s of processor", ""
    yield "40 Mpx: flattened and cut once calibrated", f"{flat_s:.1f} s, {flat_cpu_s:.1f} s of processor", ""
    yield "40 Mpx: ready to trace, both together", f"{scan_s + flat_s:.1f} s", "6 s"
    most_mb = max(scan_mb, flat_mb)
    yield "40 Mpx: most memory", f"{most_mb:.0f} MB", "600 MB"
    times = (scan_cpu_s + flat_cpu_s) / alone_cpu_s
    yield (
        "40 Mpx: processor and memory against Pillow alone",
        f"{times:.1f}, {most_mb / alone_mb:.1f} times",
        "",
    )


def rows() -> Iterator[tuple[str, str, str]]:
    errors = np.array(grid_errors()) * 100
    yield f"grid found, {SEEDS} pages: mean error of distances", f"{errors.mean():.4f} %", "0.03 %"
    yield "grid found, worst page", f"{errors.max():.4f} %", ""
    for said, found in zip(("as clicked", "laid on the printed line"), traced_errors(), strict=True):
        for name, most in MOST.items():
            yield f"{said}: worst {name}", f"{100 * found.worst[name]:.2f} %", f"{most} %"
        within = np.mean(np.array(found.edges) <= MOST["edge"] / 100)
        yield f"{said}: edges within 1 %", f"{100 * within:.0f} % of {len(found.edges)}", ""
    yield from large_photograph_rows()
    yield from dragging()


def main() -> None:
    print(f"| {'measured':<52} | {'result':<28} | aim |\n|{'-' * 54}|{'-' * 30}|-----|")
    for name, result, aim in rows():
        print(f"| {name:<52} | {result:<28} | {aim} |", flush=True)


if __name__ == "__main__":
    large_photograph(sys.argv[1], Path(sys.argv[2])) if sys.argv[1:] else main()
