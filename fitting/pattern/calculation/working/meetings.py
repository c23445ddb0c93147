"""Where curves meet, and the direction in which one runs."""

from catalogue.tracing.calculation.curve import Cubic, Point, chord

_DEEPEST = 8


def derivatives(cubic: Cubic, t: float) -> tuple[Point, Point]:
    """The first and the second derivative at t; never quite nothing, where a handle lies on its end."""
    p0, p1, p2, p3 = cubic.start, cubic.handle_a, cubic.handle_b, cubic.end
    s = 1 - t
    speed = 3 * (s * s * (p1 - p0) + 2 * s * t * (p2 - p1) + t * t * (p3 - p2))
    bend = 6 * (s * (p2 - 2 * p1 + p0) + t * (p3 - 2 * p2 + p1))
    if abs(speed) > 1e-9:
        return speed, bend
    return (chord(cubic.at(max(0.0, t - 1e-3)), cubic.at(min(1.0, t + 1e-3))) or 1) * 1e-9, 0j


def meetings(a: Cubic, b: Cubic) -> list[tuple[float, float]]:
    """Where two curves meet: how far along each (t)."""
    if not _hulls_overlap(a, b):
        return []
    if a.is_straight and b.is_straight:
        return _lines_meeting(a, b)
    if b.is_straight:
        return [(t, u) for t in a.crossings(b.start, b.end) if -1e-9 <= (u := _along(b, a.at(t))) <= 1 + 1e-9]
    if a.is_straight:
        return [(t, u) for u, t in meetings(b, a)]
    return _curves_meeting(a, b)


def _along(line: Cubic, point: Point) -> float:
    return ((point - line.start) / (line.end - line.start)).real


def _lines_meeting(a: Cubic, b: Cubic) -> list[tuple[float, float]]:
    way, other = a.end - a.start, b.end - b.start
    cross = (way.conjugate() * other).imag
    if abs(cross) <= 1e-12 * abs(way) * abs(other):
        return []
    t = ((b.start - a.start).conjugate() * other).imag / cross
    u = ((b.start - a.start).conjugate() * way).imag / cross
    slack = 1e-9
    return [(t, u)] if -slack <= t <= 1 + slack and -slack <= u <= 1 + slack else []


def _curves_meeting(a: Cubic, b: Cubic) -> list[tuple[float, float]]:
    """By halves whose hulls overlap, until they are all but straight; then by Newton's rule."""
    found: list[tuple[float, float]] = []
    left = [(a, 0.0, 1.0, b, 0.0, 1.0, 0)]
    while left:
        one, t, t_end, other, u, u_end, depth = left.pop()
        if not _hulls_overlap(one, other):
            continue
        if depth == _DEEPEST:
            near = _newton(a, b, (t + t_end) / 2, (u + u_end) / 2)
            is_new = all(abs(near[0] - t) + abs(near[1] - u) > 1e-6 for t, u in found)
            if is_new and abs(a.at(near[0]) - b.at(near[1])) < 1e-6:
                found.append(near)
            continue
        halves, others = one.split(0.5), other.split(0.5)
        t_half, u_half = (t + t_end) / 2, (u + u_end) / 2
        left += [
            (half, *ends, other_half, *other_ends, depth + 1)
            for half, ends in zip(halves, ((t, t_half), (t_half, t_end)), strict=True)
            for other_half, other_ends in zip(others, ((u, u_half), (u_half, u_end)), strict=True)
        ]
    return found


def _hulls_overlap(a: Cubic, b: Cubic) -> bool:
    """Whether the boxes round their points do, in which each curve lies."""
    one, other = (
        (
            min(p.real for p in points),
            max(p.real for p in points),
            min(p.imag for p in points),
            max(p.imag for p in points),
        )
        for points in ((c.start, c.handle_a, c.handle_b, c.end) for c in (a, b))
    )
    across = one[0] <= other[1] and other[0] <= one[1]
    return across and one[2] <= other[3] and other[2] <= one[3]


def _newton(a: Cubic, b: Cubic, t: float, u: float) -> tuple[float, float]:
    for _ in range(8):
        off = b.at(u) - a.at(t)
        one, other = derivatives(a, t)[0], derivatives(b, u)[0]
        cross = (one.conjugate() * other).imag
        if abs(cross) < 1e-12:
            break
        t = min(1.0, max(0.0, t + (off.conjugate() * other).imag / cross))
        u = min(1.0, max(0.0, u + (off.conjugate() * one).imag / cross))
    return t, u
