"""How long the comparison of a whole outfit takes: 12 garments at 8 levels each; aimed at 20 ms or less.

Run by hand, from the top folder: python -m tests.benchmarks.comparison
"""

import statistics
import time
from collections.abc import Callable

from fitting.comparing.calculation.assessment import assess
from fitting.comparing.calculation.case import Case
from fitting.comparing.calculation.comparison import compare
from tests.makers.cases import make_case, make_piece, make_plate

GARMENTS, PIECES, ROUNDS = 12, 5, 30
LEVELS = ("neck", "bust", "under bust", "waist", "hip", "upper arm", "wrist", "hem")


def make_garment(number: int) -> Case:
    """Five pieces, each read at all eight levels; the body differs from garment to garment."""
    pieces = [make_piece(f"piece {one}", **dict.fromkeys(LEVELS, 0.375)) for one in range(PIECES)]
    return make_case(make_plate(*pieces), **{f"{level}_in": 28 + number / 4 for level in LEVELS})


def median_ms(work: Callable[[Case], object]) -> float:
    """One outfit through `work`: the median of several rounds, after a first to warm up."""
    outfit = [make_garment(number) for number in range(GARMENTS)]
    taken = []
    for _ in range(ROUNDS + 1):
        start = time.perf_counter()
        for garment in outfit:
            work(garment)
        taken.append((time.perf_counter() - start) * 1000)
    return statistics.median(taken[1:])


if __name__ == "__main__":
    print(f"{GARMENTS} garments, {len(LEVELS)} levels, {PIECES} pieces, median of {ROUNDS} rounds")
    print(f"compared:  {median_ms(compare):6.1f} ms")
    print(f"assessed:  {median_ms(assess):6.1f} ms, with routes and next step")
