"""The cutting line of a piece: each edge with its own allowance, corners carried out to a point.

Where two edges meet, their cutting lines are drawn on until they meet; a corner too sharp for that is cut
straight across. Points are complex, in millimetres.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from shapely import Polygon, difference, union_all

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.tracing.calculation.curve import Point, chord
from catalogue.tracing.calculation.outline import Outline

MITRE_LIMIT = 5.0  # as in a lay: a corner reaches no farther than five times its allowance
FLAT_TO_MM = 0.05
_SLIP_MM = 1e-6
_SLIT_MM2 = 1.0  # between two strips that rounding has not quite joined


@dataclass(frozen=True, slots=True)
class _Chord:
    start: Point
    end: Point
    out: Point  # of length 1
    allowance_mm: float


def cutting_line(
    outline: Outline, *, usual_mm: float, by_edge: Mapping[str, float] | None = None, name: str = ""
) -> Polygon:
    """The piece with its allowances; `by_edge` holds those that are not the usual one.

    Raises Faults where an allowance closes the piece round a hole.
    """
    chords = list(_chords(outline, usual_mm, by_edge or {}))
    seam_line = Polygon([(at.start.real, at.start.imag) for at in chords])
    if not seam_line.is_valid:
        raise Faults(outline.faults(name) or [Fault(name, "This outline crosses or touches itself.")])
    joints = list(zip([chords[-1], *chords[:-1]], chords, strict=True))
    added = [*map(_strip, chords), *(_corner(*joint) for joint in joints)]
    past = [too_far for joint in joints for too_far in _past(*joint)]
    whole = union_all([seam_line, *_polygons(added)], grid_size=1e-6)
    if past:
        whole = _without_slits(difference(whole, union_all(_polygons(past)), grid_size=1e-6))
    if not isinstance(whole, Polygon) or any(Polygon(hole).area > _SLIT_MM2 for hole in whole.interiors):
        raise Faults([Fault(name, "With this allowance the piece closes round a hole: make it smaller.")])
    return Polygon(whole.exterior)


def _without_slits(whole: Any) -> Any:
    """What is cut off along the end of a strip can leave a hair of it beside the piece."""
    parts = [part for part in getattr(whole, "geoms", [whole]) if part.area > _SLIT_MM2]
    return parts[0] if len(parts) == 1 else whole


def _chords(outline: Outline, usual_mm: float, by_edge: Mapping[str, float]) -> Iterator[_Chord]:
    turn = -1j if sum(side.swept_area() for side in outline.sides) > 0 else 1j
    for edge in outline.edges():
        allowance_mm = by_edge.get(edge.name, usual_mm)
        here = edge.sides[0].start
        for side in edge.sides:
            # Chords no farther than FLAT_TO_MM from the curve: by the bound on its second difference.
            bend = max(
                abs(side.start - 2 * side.handle_a + side.handle_b),
                abs(side.handle_a - 2 * side.handle_b + side.end),
            )
            for point in side.flattened(max(4, int((0.75 * bend / FLAT_TO_MM) ** 0.5) + 1)):
                if point != here:
                    yield _Chord(here, point, chord(here, point) * turn, allowance_mm)
                    here = point


def _strip(at: _Chord) -> list[Point]:
    if not at.allowance_mm:
        return []
    by = at.out * at.allowance_mm
    return [at.start, at.end, at.end + by, at.start + by]


def _corner(before: _Chord, here: _Chord) -> list[Point]:
    """What fills an outer corner between two strips; nothing where the outline turns inwards."""
    if not _turns_out(before, here):
        return []
    at, widest = here.start, max(before.allowance_mm, here.allowance_mm)
    one, other = _ends(before, here)
    point = _meeting(before, here)
    for wide, narrow in ((one, here), (other, before)):
        if (foot := _foot(at, wide, narrow)) is not None:
            # The wide strip is cut off here: the corner reaches no farther than its narrow neighbour's line.
            return [at, foot, other if narrow is here else one]
    reach, farthest = abs(point - at), MITRE_LIMIT * widest
    if reach <= farthest:
        return [at, one, point, other]
    middle = (point - at) / reach
    short = [((end - at) * middle.conjugate()).real for end in (one, other)]
    cut = [
        end + (point - end) * (farthest - by) / (reach - by)
        for end, by in zip((one, other), short, strict=True)
    ]
    return [at, one, *cut, other]


def _past(before: _Chord, here: _Chord) -> Iterator[list[Point]]:
    """Where a wide strip ends past the cutting line of a narrow neighbour: that corner of it is cut off."""
    if not _turns_out(before, here):
        return
    at, point, ends = here.start, _meeting(before, here), _ends(before, here)
    for wide, narrow, end in ((before, here, ends[0]), (here, before, ends[1])):
        if (foot := _foot(at, end, narrow)) is not None:
            yield [foot, point, point + wide.out, end + wide.out]


def _foot(at: Point, end: Point, narrow: _Chord) -> Point | None:
    """Where the end of a strip at a corner crosses its neighbour's cutting line; None where it does not."""
    far_mm = ((end - at) * narrow.out.conjugate()).real
    over_mm = far_mm - narrow.allowance_mm
    return at + (end - at) * (narrow.allowance_mm / far_mm) if over_mm > _SLIP_MM else None


def _turns_out(before: _Chord, here: _Chord) -> bool:
    along, next_along = before.end - before.start, here.end - here.start
    turn = (along.conjugate() * next_along).imag * (along.conjugate() * before.out).imag
    return turn < 0 and max(before.allowance_mm, here.allowance_mm) > 0


def _ends(before: _Chord, here: _Chord) -> tuple[Point, Point]:
    at = here.start
    return at + before.out * before.allowance_mm, at + here.out * here.allowance_mm


def _meeting(before: _Chord, here: _Chord) -> Point:
    """Where the two cutting lines, drawn on, meet."""
    (one, other), along, next_along = _ends(before, here), before.end - before.start, here.end - here.start
    cross = (along.conjugate() * next_along).imag
    return one + along * (((other - one).conjugate() * next_along).imag / cross)


def _polygons(rings: Sequence[Sequence[Point]]) -> list[Polygon]:
    return [Polygon([(p.real, p.imag) for p in points]).buffer(0) for points in rings if points]


def ring_of(polygon: Polygon) -> Sequence[tuple[float, float]]:
    return [(float(x), float(y)) for x, y in polygon.exterior.coords[:-1]]
