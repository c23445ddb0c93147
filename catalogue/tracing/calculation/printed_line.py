"""Traced points laid on to the printed line that they were meant for; never unasked.

A click is seen at one place, and off by a pixel or so; a line is seen over its whole length. So each side is
looked at across itself at many places, the middle of the ink is found at each, and a course through those
middles says where the line runs past the points at its ends. A corner goes where the courses of its two sides
meet, a smooth point across its line. Where no line is seen a point stays as it is.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from catalogue.tracing.calculation.curve import Cubic, Point
from catalogue.tracing.calculation.homography import Floats
from catalogue.tracing.calculation.outline import FEWEST_POINTS, Node, Outline

REACH_PX = 6.0  # farther off than this, a point was meant for something else
STEP_PX = 0.5
LEAST_INK = 24.0  # of 255 darker than the paper beside it: a grid is fainter, a drawn line darker
CLEAR_PX = 10.0  # nearer to its ends the ink of the next side is in sight too
FEWEST_PLACES, MOST_PLACES = 6, 48  # on one side
BENDS = 2  # the degree of what a curve may be off by: its ends and its middle, each by itself
LEAST_SEEN = 0.6  # of a side: ink that lies here and there is other lines crossing
ROUNDS = 3  # a point that moved bends the curves beside it
LEAST_TURN = 0.35  # the sine of the angle at which two courses still meet in one place

Places: TypeAlias = NDArray[np.complex128]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Course:
    """Where the printed line runs past a point: a place on it, and its way."""

    at: Point
    way: Point


def onto_printed_line(nodes: Sequence[Node], grey: Floats, reach_px: float = REACH_PX) -> list[Node]:
    """The nodes, in pixels of `grey` (rows, columns; the middle of its first pixel is ½, ½), on its ink."""
    laid = list(nodes)
    for _ in range(ROUNDS if len(laid) >= FEWEST_POINTS else 0):
        sides = Outline(nodes=tuple(laid)).sides
        courses = [_courses(side, grey, reach_px) for side in sides]
        laid = [
            _moved(node, first, courses[index - 1][1], courses[index][0], reach_px)
            for index, (node, first) in enumerate(zip(laid, nodes, strict=True))
        ]
    return laid


def _moved(
    node: Node, first: Node, arriving: _Course | None, leaving: _Course | None, reach_px: float
) -> Node:
    at = _place(node, arriving, leaving)
    if abs(at - first.at) > reach_px:
        return first
    return Node(at=at, corner=node.corner, curved=node.curved, edge=node.edge)


def _place(node: Node, arriving: _Course | None, leaving: _Course | None) -> Point:
    seen = [course for course in (arriving, leaving) if course]
    if not seen:
        return node.at
    if node.corner and arriving and leaving:
        turn = (arriving.way.conjugate() * leaving.way).imag
        if abs(turn) > LEAST_TURN:
            apart = (arriving.way.conjugate() * (arriving.at - leaving.at)).imag
            return leaving.at + leaving.way * (apart / turn)
    return sum(course.at for course in seen) / len(seen)


def _courses(side: Cubic, grey: Floats, reach_px: float) -> tuple[_Course | None, _Course | None]:
    """The printed line past the start of a side and past its end."""
    places = int(min(MOST_PLACES, abs(side.end - side.start) / 2))
    if places < FEWEST_PLACES:
        return None, None
    margin = min(0.2, CLEAR_PX / abs(side.end - side.start))
    t = np.linspace(margin, 1 - margin, places)
    at, way = _along(side, t)
    offsets, ink = _ink_across(grey, at, 1j * way, reach_px)
    if np.median(ink) < LEAST_INK:
        return None, None
    seen = ink > 0.5 * np.median(ink)
    if seen.sum() < FEWEST_PLACES:
        return None, None
    fit = _fitted(t[seen], offsets[seen], 1 if side.is_straight else BENDS)
    if np.mean(np.abs(offsets - np.polyval(fit, t)) < 1) < LEAST_SEEN:
        return None, None
    return _course(side, 0.0, fit), _course(side, 1.0, fit)


def _fitted(t: Floats, offsets: Floats, degree: int) -> Floats:
    """The polynomial through most of the offsets; what lies far off has no say."""
    fit = np.array([float(np.median(offsets))])
    for _ in range(4):
        missed = np.abs(offsets - np.polyval(fit, t))
        near = missed <= 3 * float(np.median(missed)) + 0.25
        fit = np.polyfit(t[near], offsets[near], degree)
    return fit


def _course(side: Cubic, end: float, fit: Floats) -> _Course:
    """Where the line runs past one end of a side (0 its start, 1 its end), by its offsets from the side."""
    at, way = (complex(part[0]) for part in _along(side, np.array([end])))
    turned = way * (1 + 1j * float(np.polyval(np.polyder(fit), end)) / side.length())
    return _Course(at=at + 1j * way * float(np.polyval(fit, end)), way=turned / abs(turned))


def _along(side: Cubic, t: Floats) -> tuple[Places, Places]:
    """Places on a side and its way there, of length 1."""
    s = 1 - t
    a, b, c, d = side.start, side.handle_a, side.handle_b, side.end
    at = s**3 * a + 3 * s * s * t * b + 3 * s * t * t * c + t**3 * d
    slope = s * s * (b - a) + 2 * s * t * (c - b) + t * t * (d - c)
    return at, slope / np.maximum(np.abs(slope), 1e-12)


def _ink_across(grey: Floats, at: Places, across: Places, reach_px: float) -> tuple[Floats, Floats]:
    """How far off each place the middle of the ink lies, and how much darker than the paper it is."""
    steps = np.arange(-reach_px - 2, reach_px + 2 + STEP_PX / 2, STEP_PX)
    profile = _brightness(grey, at[:, None] + across[:, None] * steps)
    dark = np.percentile(profile, 75, axis=1)[:, None] - profile
    # Of two lines about as dark the nearer is meant.
    likely = dark * np.exp(-0.5 * (steps / reach_px) ** 2)
    peak = np.argmax(likely, axis=1)
    ink = np.take_along_axis(dark, peak[:, None], axis=1)[:, 0]
    beside = np.abs(steps - steps[peak][:, None]) <= 3
    weight = np.where(beside, np.maximum(dark - 0.5 * ink[:, None], 0), 0)
    total = weight.sum(axis=1)
    return np.where(total > 0, (weight * steps).sum(axis=1) / np.maximum(total, 1e-9), 0), ink


def _brightness(grey: Floats, places: Places) -> Floats:
    """Between pixels straight from one to the next; past the edge as at the edge."""
    height, width = grey.shape
    x = np.clip(places.real - 0.5, 0, width - 1.001)
    y = np.clip(places.imag - 0.5, 0, height - 1.001)
    left, top = x.astype(int), y.astype(int)
    right, foot = np.minimum(left + 1, width - 1), np.minimum(top + 1, height - 1)
    u, v = x - left, y - top
    upper = grey[top, left] * (1 - u) + grey[top, right] * u
    lower = grey[foot, left] * (1 - u) + grey[foot, right] * u
    return np.asarray(upper * (1 - v) + lower * v)
