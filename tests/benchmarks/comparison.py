"""How long the comparison of a whole outfit takes, against its sums alone: 12 garments at 8 levels each.

Run by hand, from the top folder: python -m tests.benchmarks.comparison
The floor is what `uncertainties` takes for a girth of five pieces less what is wanted, and its doubt. Aimed
at: 20 ms or less.
"""

import statistics
import time
from collections.abc import Callable

from uncertainties import ufloat

from fitting.comparing.calculation.assessment import assess
from fitting.comparing.calculation.case import Case
from fitting.comparing.calculation.comparison import compare
from tests.makers.cases import make_case, make_piece, make_plate

GARMENTS, PIECES, ROUNDS = 12, 5, 30
LEVELS = ("neck", "bust", "under bust", "waist", "hip", "upper arm", "wrist", "hem")
READING_MM = 9.525


def make_garment(number: int) -> Case:
    """Five pieces, each read at all eight levels; the body differs from garment to garment."""
    pieces = [make_piece(f"piece {one}", **dict.fromkeys(LEVELS, 0.375)) for one in range(PIECES)]
    return make_case(make_plate(*pieces), **{f"{level}_in": 28 + number / 4 for level in LEVELS})


def sums_alone(garment: Case) -> list[float]:
    """The doubt of each level's difference: five readings at one scale, cut twice, less the body."""
    scale = ufloat(8, 0.02)
    doubts = []
    for level in LEVELS:
        girth = sum(2 * (scale * ufloat(READING_MM, 0.4)) for _ in range(PIECES))
        body = garment.body.girths[level]
        doubts.append((girth - ufloat(body.mm, body.doubt_mm)).std_dev)
    return doubts


def median_ms(work: Callable[[Case], object]) -> float:
    """One outfit through `work`: the median of several rounds, after a first to warm up."""
    outfit = [make_garment(number) for number in range(GARMENTS)]
    taken = []
    for _ in range(ROUNDS + 1):
        start = time.process_time()
        for garment in outfit:
            work(garment)
        taken.append((time.process_time() - start) * 1000)
    return statistics.median(taken[1:])


if __name__ == "__main__":
    print(f"{GARMENTS} garments, {len(LEVELS)} levels, {PIECES} pieces, median of {ROUNDS} rounds")
    floor = median_ms(sums_alone)
    for name, ms in (("compared", median_ms(compare)), ("with routes and next step", median_ms(assess))):
        print(f"{name}: {ms:.1f} ms, {ms / floor:.2f} times the sums alone ({floor:.1f} ms)")
