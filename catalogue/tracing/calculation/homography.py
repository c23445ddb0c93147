"""The straight-line-keeping map from a picture's pixels to a flat page, and how far it may be off.

Normalised direct linear transformation, then Gauss-Newton on the distances on the page: Hartley and
Zisserman, Multiple View Geometry in Computer Vision, 2nd edition, algorithms 4.2 and 4.3.
"""

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Floats: TypeAlias = NDArray[np.float64]


def fit_homography(source: Floats, target: Floats, weights: Floats | None = None) -> Floats:
    """The 3 × 3 matrix that takes `source` (n, 2) to `target` (n, 2): exactly for four points, else at best.

    Raises ValueError where the points lie so that no map is fixed: three in a line, or two the same.
    """
    shift_a, shift_b = _normalising(source), _normalising(target)
    a, b = apply(shift_a, source), apply(shift_b, target)
    w = np.ones(len(a)) if weights is None else np.sqrt(weights)
    rows = np.zeros((2 * len(a), 9))
    rows[0::2, 0:2], rows[0::2, 2], rows[0::2, 6:8], rows[0::2, 8] = a, 1, -b[:, :1] * a, -b[:, 0]
    rows[1::2, 3:5], rows[1::2, 5], rows[1::2, 6:8], rows[1::2, 8] = a, 1, -b[:, 1:] * a, -b[:, 1]
    weighed = rows * np.repeat(w, 2)[:, None]
    # Of thousands of rows only their 9 × 9 products are kept: the digits that this costs come back below.
    _, sizes, turned = np.linalg.svd(weighed if len(a) == 4 else weighed.T @ weighed)
    if (
        sizes[7] < (1e-9 if len(a) == 4 else 1e-14) * sizes[0]
        or np.linalg.cond(turned[8].reshape(3, 3)) > 1e9
    ):
        raise ValueError("These points do not fix a page: some lie in one line or on each other.")
    matrix = np.linalg.inv(shift_b) @ turned[8].reshape(3, 3) @ shift_a
    matrix = matrix / matrix[2, 2]
    if len(source) > 4:
        for _ in range(3):
            matrix = _improved(matrix, source, target, w)
    return np.asarray(matrix, dtype=np.float64)


def apply(matrix: Floats, points: Floats) -> Floats:
    """Points (n, 2) through the map."""
    mapped = points @ matrix[:, :2].T + matrix[:, 2]
    return np.asarray(mapped[:, :2] / mapped[:, 2:])


def slopes(matrix: Floats, points: Floats) -> Floats:
    """How the map stretches round each point: the derivative of the target by the source, (n, 2, 2)."""
    mapped = points @ matrix[:, :2].T + matrix[:, 2]
    w = mapped[:, 2][:, None, None]
    at = mapped[:, :2, None] / w
    return np.asarray((matrix[None, :2, :2] - at * matrix[None, 2:3, :2]) / w)


def by_parameters(matrix: Floats, points: Floats) -> Floats:
    """How the target moves with each of the eight free numbers of the matrix: (n, 2, 8)."""
    mapped = points @ matrix[:, :2].T + matrix[:, 2]
    w = mapped[:, 2]
    at = mapped[:, :2] / w[:, None]
    moves = np.zeros((len(points), 2, 8))
    homogeneous = np.column_stack([points, np.ones(len(points))]) / w[:, None]
    moves[:, 0, 0:3] = moves[:, 1, 3:6] = homogeneous
    moves[:, :, 6:8] = -at[:, :, None] * (points / w[:, None])[:, None, :]
    return moves


def expected_error(matrix: Floats, source: Floats, click_px: float, places: Floats) -> Floats:
    """The relative standard uncertainty of a short distance at each of `places`, whichever way it runs.

    Clicks off by `click_px` each way move the map; what that does to the local stretch, averaged over the two
    directions, follows to first order (JCGM 100:2008, 5.1.2).
    """
    scale = slopes(matrix, source)
    moves = by_parameters(matrix, source).reshape(-1, 8)
    doubt = np.zeros((2 * len(source),) * 2)
    for index, slope in enumerate(scale):
        doubt[2 * index : 2 * index + 2, 2 * index : 2 * index + 2] = click_px**2 * slope @ slope.T
    # Columns of very different size: weighed, so that the inverse keeps its digits.
    size = np.linalg.norm(moves, axis=0)
    back = np.linalg.pinv(moves / size) / size[:, None]
    covariance = back @ doubt @ back.T
    steps = 1e-4 * np.sqrt(np.diag(covariance)) + 1e-18
    changes = np.stack(
        [
            (_log_stretch(_nudged(matrix, number, step), places) - _log_stretch(matrix, places)) / step
            for number, step in enumerate(steps)
        ],
        axis=-1,
    )
    variance = np.einsum("pdi,ij,pdj->pd", changes, covariance, changes)
    return np.asarray(np.sqrt(variance.mean(axis=1)))


def _log_stretch(matrix: Floats, places: Floats) -> Floats:
    return np.asarray(np.log(np.linalg.norm(slopes(matrix, places), axis=1)))


def _nudged(matrix: Floats, number: int, step: float) -> Floats:
    nudged = matrix.copy()
    nudged.flat[number] += step
    return nudged


def _improved(matrix: Floats, source: Floats, target: Floats, w: Floats) -> Floats:
    moves = (by_parameters(matrix, source) * w[:, None, None]).reshape(-1, 8)
    missed = ((target - apply(matrix, source)) * w[:, None]).reshape(-1)
    size = np.linalg.norm(moves, axis=0)
    moves /= size
    change = np.linalg.solve(moves.T @ moves, moves.T @ missed) / size
    better = matrix.copy()
    better.flat[:8] += change
    return better


def _normalising(points: Floats) -> Floats:
    middle = points.mean(axis=0)
    spread = np.sqrt(2) / max(float(np.mean(np.linalg.norm(points - middle, axis=1))), 1e-12)
    return np.array([[spread, 0, -spread * middle[0]], [0, spread, -spread * middle[1]], [0, 0, 1]])
