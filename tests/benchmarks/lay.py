"""How much of the cloth a lay uses: garments against boxes, 200 orders judged from outside, public instances.

Run by hand, from the top folder: python -m tests.benchmarks.lay [FOLDER] [SECONDS]
FOLDER holds instances of the ESICUP collection as JSON (board, items with points, quantity, angles). Aimed
at, in 30 s on two cores: shirts 0.86, albano 0.85. The 26 pieces of a walking dress in 5 s: at least
10 % shorter, 0.90 times, than their boxes as rectpack packs them.
"""

import json
import sys
import time
from pathlib import Path

import rectpack
from hypothesis import HealthCheck, given, settings

from fitting.laying.calculation.cloth import Cloth, Direction
from fitting.laying.calculation.lay_out import Arrangement, Order, lay_out
from fitting.laying.calculation.piece import LayPiece
from fitting.laying.calculation.strip import bounds
from fitting.laying.exchange.lay_file import read_lay
from tests.makers.lays import LAYS, assert_sound, make_piece, orders

CASES = 200
_TENTHS = 10  # rectpack reckons in whole numbers: tenths of a millimetre, rounded down in its favour


def read_instance(file: Path, seconds: float) -> Order:
    """An instance's strip runs along x, ours along y: its shapes are turned by a quarter."""
    instance = json.loads(file.read_text(encoding="utf-8"))
    pieces = tuple(
        make_piece(item["id"], [(-y, x) for x, y in item["points"]], copies=item["quantity"])
        for item in instance["items"]
    )
    turns = max(len(item["angles"]) for item in instance["items"])
    direction = {1: Direction.ONE_WAY, 2: Direction.TWO_WAY, 4: Direction.ANY}[turns]
    width = max(y for _, y in instance["board"])
    return Order(cloth=Cloth(width_mm=width, direction=direction), pieces=pieces, seconds=seconds)


def timed(order: Order) -> tuple[Arrangement, float]:
    start = time.perf_counter()
    lay = lay_out(order)
    assert_sound(lay)
    return lay, time.perf_counter() - start


def boxes_length_mm(pieces: tuple[LayPiece, ...], width_mm: float) -> float:
    """The same pieces as boxes, kept upright, laid by a rectangle packer."""
    packer = rectpack.newPacker(rotation=False)
    for piece in pieces:
        left, low, right, high = bounds(piece.cut_outline)
        for _ in range(piece.copies):
            packer.add_rect(int((right - left) * _TENTHS), int((high - low) * _TENTHS))
    packer.add_bin(int(width_mm * _TENTHS), 10**9)
    packer.pack()
    assert len(packer.rect_list()) == sum(piece.copies for piece in pieces)
    return max(y + height for _, _, y, _, height, _ in packer.rect_list()) / _TENTHS


def compare_with_boxes() -> None:
    order = read_lay((LAYS / "walking_dress.json").read_text(encoding="utf-8")).order
    boxes_mm = boxes_length_mm(order.pieces, order.cloth.usable_width_mm)
    lay, taken_s = timed(order)
    print(
        f"walking dress    {len(lay.placements)} pieces in {taken_s:.1f} s: {lay.length_mm:.0f} mm,"
        f" {lay.length_mm / boxes_mm:.2f} times the boxes ({boxes_mm:.0f} mm), density {lay.density:.3f}"
    )


@settings(max_examples=CASES, deadline=None, suppress_health_check=list(HealthCheck))
@given(orders(seconds=0.3))
def judge_any_order(order: Order) -> None:
    assert_sound(lay_out(order))


if __name__ == "__main__":
    folder, seconds = [*sys.argv[1:], None, None][:2]
    compare_with_boxes()
    judge_any_order()
    print(f"any pieces       {CASES} lays: no overlap, nothing outside the cloth")
    for file in sorted(Path(folder).glob("*.json")) if folder else ():
        lay, taken_s = timed(read_instance(file, float(seconds or 30)))
        print(f"{file.stem:<16} density {lay.density:.4f} in {taken_s:.1f} s")
