"""Calibration. Oracles: scikit-image 0.26 for the homography, one worked by hand, Monte Carlo for doubts."""

import numpy as np
import pytest
from skimage.transform import ProjectiveTransform

from catalogue.tracing.calculation.calibration import (
    CalibrationRefused,
    by_axes,
    by_bar,
    by_corners,
    sheet_of,
)
from catalogue.tracing.calculation.homography import apply, expected_error, fit_homography, slopes

SIZE = (6000, 4500)
CORNERS = (700 + 600j, 5200 + 500j, 5300 + 3900j, 600 + 4000j)


def array(points) -> np.ndarray:
    return np.array([[point.real, point.imag] for point in points])


def test_the_unit_square_goes_where_it_was_worked_by_hand():
    square = np.array([[0, 0], [1, 0], [1, 1], [0, 1]], dtype=float)
    matrix = fit_homography(square, np.array([[0, 0], [2, 0], [2, 1], [0, 2]], dtype=float))
    assert matrix == pytest.approx(np.array([[4, 0, 0], [0, 2, 0], [1, 0, 1]]), abs=1e-9)
    assert apply(matrix, np.array([[0.5, 0.5]]))[0] == pytest.approx([4 / 3, 2 / 3])


@pytest.mark.parametrize("seed", range(5))
def test_four_corners_agree_with_scikit_image(seed):
    draw = np.random.default_rng(seed)
    target = np.array([[0, 0], [900, 0], [900, 700], [0, 700]], dtype=float)
    source = array(CORNERS) + draw.uniform(-200, 200, (4, 2))
    theirs = ProjectiveTransform.from_estimate(source, target).params
    assert fit_homography(source, target) == pytest.approx(theirs / theirs[2, 2], rel=1e-6, abs=1e-9)


def test_many_noisy_points_are_fitted_nearer_than_by_the_linear_solution():
    draw = np.random.default_rng(4)
    truth = fit_homography(array(CORNERS), np.array([[0, 0], [900, 0], [900, 700], [0, 700]], dtype=float))
    source = draw.uniform(0, 4500, (400, 2))
    target = apply(truth, source) + draw.normal(0, 0.4, (400, 2))

    def missed(matrix) -> float:
        return float(np.square(apply(matrix, source) - target).sum())

    linear = ProjectiveTransform.from_estimate(source, target).params
    assert missed(fit_homography(source, target)) <= missed(linear) * (1 + 1e-9)


def test_three_corners_in_a_line_fix_no_page():
    line = np.array([[0, 0], [1, 1], [2, 2], [0, 2]], dtype=float)
    with pytest.raises(ValueError, match="do not fix a page"):
        fit_homography(line, np.array([[0, 0], [1, 0], [1, 1], [0, 1]], dtype=float))


@pytest.mark.parametrize(("share", "least", "most"), [(1.0, 0.01, 0.08), (0.15, 0.2, 2)])
def test_the_doubt_foretold_is_the_one_that_clicks_make(share, least, most):
    middle = sum(CORNERS) / 4
    corners = array([middle + (corner - middle) * share for corner in CORNERS])
    target = np.array([[0, 0], [900, 0], [900, 700], [0, 700]]) * share
    places = np.array([[600.0, 600], [3000, 2200], [5400, 4000]])
    foretold = expected_error(fit_homography(corners, target), corners, 1.0, places)
    draw = np.random.default_rng(1)

    def stretch(corners):
        return np.log(np.linalg.norm(slopes(fit_homography(corners, target), places), axis=1))

    seen = np.std([stretch(corners + draw.normal(0, 1, (4, 2))) for _ in range(600)], axis=0)
    assert foretold == pytest.approx(np.sqrt((seen**2).mean(axis=1)), rel=0.12)
    assert least < foretold.mean() * 100 < most


def test_a_small_rectangle_is_worth_far_less_than_a_large_one():
    large = by_corners(CORNERS, across_mm=900, down_mm=700, size=SIZE)
    middle = sum(CORNERS) / 4
    small = by_corners([middle + (c - middle) / 8 for c in CORNERS], across_mm=112.5, down_mm=87.5, size=SIZE)
    assert small.worst_doubt > 20 * large.worst_doubt
    assert large.worst_doubt < 0.001


def test_a_bar_gives_its_factor_and_owns_what_it_cannot_see():
    found = by_bar(100 + 100j, 1100 + 100j, real_mm=304.8, size=SIZE, is_photograph=False)
    assert found.to_mm([500 + 0j])[0] == pytest.approx(152.4)
    assert found.relative_doubt == pytest.approx(0.00332, abs=1e-4)  # √(0.003² + (√2 ÷ 1000)²)


def test_along_and_across_may_differ_and_the_page_be_turned():
    turn = np.exp(0.03j)
    down = (100 * turn, (100 + 2000j) * turn)
    across = (50 * turn, 1050 * turn)
    found = by_axes(down, 1000, across, 520, is_photograph=False)
    a, b = found.to_mm(list(down))
    c, d = found.to_mm(list(across))
    assert (abs(b - a), abs(d - c)) == (pytest.approx(1000), pytest.approx(520))
    assert (b - a).real == pytest.approx(0, abs=1e-9)


def test_corners_out_of_turn_are_refused():
    with pytest.raises(CalibrationRefused, match="in turn"):
        by_corners([CORNERS[i] for i in (0, 2, 1, 3)], across_mm=1, down_mm=1, size=SIZE)


def test_the_flattened_picture_holds_the_whole_scan_and_no_more_pixels_than_allowed():
    found = by_corners(CORNERS, across_mm=900, down_mm=700, size=SIZE)
    sheet = sheet_of(found, SIZE)
    assert sheet.width * sheet.height <= 60_100_000
    for corner in found.to_mm([0j, 6000 + 0j, 6000 + 4500j, 4500j]):
        assert sheet.left_mm - 1 <= corner.real <= sheet.left_mm + sheet.width * sheet.mm_per_px + 1


def test_points_kept_as_pixels_never_compound():
    points = [123.25 + 877.5j, 4000.125 + 3000j]
    found = by_corners(CORNERS, across_mm=900, down_mm=700, size=SIZE)
    again = points
    for _ in range(50):
        again = found.to_px(found.to_mm(again))
    assert again == pytest.approx(points, abs=1e-6)
