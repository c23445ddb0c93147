"""Where curves meet, and the direction in which one runs."""

from catalogue.tracing.calculation.curve import Cubic, Point, chord


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


def _curves_meeting(a: Cubic, b: Cubic, steps: int = 48) -> list[tuple[float, float]]:
    """By their chords, then by Newton's rule."""
    found = []
    for i in range(steps):
        first = Cubic.straight(a.at(i / steps), a.at((i + 1) / steps))
        for j in range(steps):
            second = Cubic.straight(b.at(j / steps), b.at((j + 1) / steps))
            if first.start == first.end or second.start == second.end:
                continue
            for t, u in _lines_meeting(first, second):
                found.append(_newton(a, b, (i + t) / steps, (j + u) / steps))
    return found


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
