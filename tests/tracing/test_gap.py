"""The largest gap between two lines. Oracles: circles and lines worked by hand, shapely 2.2 and scipy 1.16
on points set so densely that no more than 0.01 mm is lost between them."""

import random
from cmath import rect
from math import cos, pi, tan

import numpy as np
import pytest
from scipy.spatial import KDTree
from shapely import LineString, hausdorff_distance

from catalogue.tracing.calculation.curve import Cubic
from catalogue.tracing.calculation.gap import largest_gap
from catalogue.tracing.calculation.outline import Node, Outline


def arc(radius: float, start: float, end: float, centre: complex = 0j) -> list[Cubic]:
    """Sides of an arc: a cubic of so few degrees keeps to its circle within 1e-9 of its radius."""
    step = (end - start) / 24
    reach = 4 / 3 * tan(step / 4)
    return [
        Cubic(
            centre + rect(radius, a),
            centre + rect(radius, a) * (1 + 1j * reach),
            centre + rect(radius, a + step) * (1 - 1j * reach),
            centre + rect(radius, a + step),
        )
        for a in (start + n * step for n in range(24))
    ]


def test_parallel_lines_lie_as_far_apart_as_they_are():
    gap = largest_gap([Cubic.straight(0j, 300 + 0j)], [Cubic.straight(12.5j, 300 + 12.5j)])
    assert gap.mm == pytest.approx(12.5)


def test_a_line_that_goes_on_is_gapped_by_what_it_is_longer_whichever_is_first():
    short, long = [Cubic.straight(0j, 100 + 0j)], [Cubic.straight(130 + 0j, 0j)]
    for pair in ((short, long), (long, short)):
        assert largest_gap(*pair).mm == pytest.approx(30)
    assert (largest_gap(short, long).first, largest_gap(short, long).second) == (100, 130)


def test_arcs_round_one_centre_lie_as_far_apart_as_their_radii():
    assert largest_gap(arc(200, 0, 1), arc(212, 0, 1)).mm == pytest.approx(12, abs=0.01)


@pytest.mark.parametrize("half_angle", [0.2, 0.7, 1.2])
def test_an_arc_rises_over_its_chord_by_its_sagitta_and_there(half_angle):
    curve = arc(180, pi / 2 - half_angle, pi / 2 + half_angle)
    gap = largest_gap(curve, [Cubic.straight(curve[0].start, curve[-1].end)])
    assert gap.mm == pytest.approx(180 * (1 - cos(half_angle)), abs=0.01)
    # The top of an arc is flat: within a hundredth of a millimetre of the most it may be well beside it.
    assert abs(gap.first - 180j) < 3
    assert abs(gap.second - gap.first) == pytest.approx(gap.mm)


def test_one_line_has_no_gap_to_itself_traced_the_other_way_round():
    curve = arc(150, 0, 2)
    back = [Cubic(side.end, side.handle_b, side.handle_a, side.start) for side in reversed(curve)]
    assert largest_gap(curve, back).mm < 0.01


def wandering(seed: int) -> tuple[Cubic, ...]:
    draw = random.Random(seed)  # noqa: S311  a shape, no secret
    nodes = tuple(
        Node(
            at=complex(40 * n, draw.uniform(-60, 60)), corner=draw.random() < 0.3, curved=draw.random() < 0.8
        )
        for n in range(9)
    )
    return Outline(nodes=nodes).sides[:-1]


@pytest.mark.parametrize("seed", range(6))
def test_wandering_lines_agree_with_scipy_and_shapely(seed):
    first, second = wandering(seed), wandering(seed + 100)
    gap = largest_gap(first, second).mm
    assert gap == pytest.approx(by_scipy(dense(first, 4000), dense(second, 4000)), abs=0.01)
    # Half a step is lost where it is most: its points are set more sparsely, since it tries each with each.
    by_shapely = hausdorff_distance(LineString(dense(first, 100)), LineString(dense(second, 100)))
    assert gap - 0.5 < by_shapely < gap + 0.01


def dense(sides: tuple[Cubic, ...], steps: int) -> np.ndarray:
    at = np.concatenate([side.at(np.linspace(0, 1, steps + 1)) for side in sides])
    return np.stack([at.real, at.imag], axis=1)


def by_scipy(first: np.ndarray, second: np.ndarray) -> float:
    return max(KDTree(a).query(b)[0].max() for a, b in ((first, second), (second, first)))
