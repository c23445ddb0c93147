"""The columns of a scan that hold points and maps: as our own pages keep them, or a sentence why not.

Geometry out of an archive is checked by this where it enters. The program reads it at its start: it stands on
nothing that takes long to load.
"""

import math
from collections.abc import Callable, Iterable, Sequence, Set
from typing import Any

from catalogue.lengths.calculation.levels import LINES
from catalogue.workroom.reader.faulty_value import MOST_NUMBER, FaultyValue, of_type, read_number, read_text

# How many points each mark has. A dart: one foot, its point, the other foot and, where it closes again, its
# second point; where its legs bow as many more on each of them, in turn. A pleat: the two ends of one fold
# line, then of the other.
MARK_POINTS: dict[str, tuple[int, int]] = {
    "grain": (2, 2),
    "fold": (2, 2),
    "notch": (1, 1),
    "dart": (3, 12),
    "pleat": (4, 4),
    "length": (2, 12),
}
MOST_POINTS, MOST_MARKS, MOST_ALIKE, LONGEST_NAME = 600, 200, 99, 60
MOST_CROSSINGS = 10_000
MOST_KNOWN = 12  # lengths that one calibration is made from
LONGEST_TYPED = 80


def has_its_points(kind: str, count: int) -> bool:
    """Whether a mark can have so many. Of a dart with one point an odd number: as many on either leg."""
    fewest, most = MARK_POINTS[kind]
    return fewest <= count <= most and (kind != "dart" or count % 2 == 1 or count % 4 == 0)


def points_wanted(kind: str, word: str) -> str:
    """How many it has, in words: “2 points”, “2 to 12 places”."""
    if kind == "dart":
        return f"3 {word}s, or 4 where it has two points; of legs that bow, as many more on each"
    fewest, most = MARK_POINTS[kind]
    return f"{f'{fewest} to {most}' if fewest < most else fewest} {word}{'s' if most > 1 else ''}"


def _list(given: Any, fewest: int, most: int, what: str) -> list[Any]:
    rows: list[Any] = of_type(given, list, "a list in brackets")
    if not fewest <= len(given) <= most:
        raise FaultyValue(
            f"This must be a list of {f'{fewest} to {most}' if fewest < most else fewest} {what}."
        )
    return rows


def _object(given: Any, needed: set[str], also: Set[str] = frozenset()) -> dict[str, Any]:
    said: dict[str, Any] = of_type(given, dict, "a table in braces")
    for name in sorted(needed - set(given)):
        raise FaultyValue(f"This does not say “{name}”.")
    for name in given:
        if name not in needed | also:
            raise FaultyValue(f"This key is not known here: “{name[:40]}”.")
    return said


def _each(rows: list[Any], what: str, read: Callable[[Any], Any]) -> None:
    for number, row in enumerate(rows, start=1):
        try:
            read(row)
        except FaultyValue as fault:
            raise FaultyValue(f"{what} {number}: {fault.sentence}") from None


def _point(given: Any) -> None:
    across, down = map(read_number, _list(given, 2, 2, "numbers"))
    if not math.hypot(across, down) < MOST_NUMBER:
        raise FaultyValue("This lies outside any scan.")


def _points(given: Any, fewest: int, most: int) -> None:
    _each(_list(given, fewest, most, "points"), "Point", _point)


def check_matrix(given: Any) -> None:
    rows = [_list(row, 3, 3, "numbers") for row in _list(given, 3, 3, "rows")]
    a, b, c = ([float(read_number(part, most=1e12)) for part in row] for row in rows)
    turned = (b[1] * c[2] - b[2] * c[1], b[2] * c[0] - b[0] * c[2], b[0] * c[1] - b[1] * c[0])
    volume = sum(one * other for one, other in zip(a, turned, strict=True))
    # Of rows that lie in one plane no way leads back from millimetres to pixels.
    if abs(volume) <= 1e-12 * math.prod(math.hypot(*row) for row in (a, b, c)):
        raise FaultyValue("This is no map: a plate would be flattened into a line.")


def check_given(given: Any) -> None:
    said = _object(given, {"points", "lengths"}, {"names"})
    _points(said["points"], 0, 2 * MOST_KNOWN)
    for name in ("lengths", "names"):
        typed = of_type(said.get(name, {}), dict, "a table in braces")
        if len(typed) > MOST_KNOWN or any(
            len(read_text(part)) > LONGEST_TYPED for pair in typed.items() for part in pair
        ):
            raise FaultyValue(f"“{name}” must hold up to {MOST_KNOWN} {name} as typed.")


def check_grid(given: Any) -> None:
    said = _object(given, {"matrix", "pixels", "squares", "pitch_px", "residual_px"})
    check_matrix(said["matrix"])
    for name in ("pixels", "squares"):
        _points(said[name], 4, MOST_CROSSINGS)
    if len(said["pixels"]) != len(said["squares"]):
        raise FaultyValue("Every crossing has one place in “pixels” and one in “squares”.")
    for name in ("pitch_px", "residual_px"):
        if read_number(said[name]) < 0:
            raise FaultyValue(f"“{name}” is less than nothing.")


def _node(given: Any) -> None:
    said = _object(given, {"x", "y", "corner", "curved"}, {"edge"})
    _point([said["x"], said["y"]])
    for name in ("corner", "curved"):
        of_type(said[name], bool, "true or false")
    if len(read_text(said.get("edge", ""))) > LONGEST_NAME:
        raise FaultyValue(f"An edge has up to {LONGEST_NAME} characters.")


def _mark(given: Any) -> None:
    said = _object(given, {"kind", "points"}, {"line", "count"})
    kind, line, count = said["kind"], said.get("line", ""), said.get("count", 1)
    if read_text(kind) not in MARK_POINTS:
        raise FaultyValue(f"There is no such mark: “{kind[:40]}”.")
    if read_text(line) and (line not in LINES or LINES[line].kind != "length"):
        raise FaultyValue(f"There is no such length: “{line[:40]}”.")
    if not 1 <= of_type(count, int, "a whole number") <= (MOST_ALIKE if kind == "pleat" else 1):
        raise FaultyValue(f"Pleats alike are counted from 1 to {MOST_ALIKE}, other marks once.")
    _points(said["points"], *MARK_POINTS[kind])
    if not has_its_points(kind, len(said["points"])):
        raise FaultyValue("Both legs of a dart have as many points.")


def check_level(given: Any) -> None:
    _points(given, 2, 2)
    if given[0] == given[1]:
        raise FaultyValue("A level line has two ends.")


def check_nodes(given: Any) -> None:
    _each(_list(given, 0, MOST_POINTS, "points"), "Point", _node)


def check_marks(given: Any) -> None:
    _each(_list(given, 0, MOST_MARKS, "marks"), "Mark", _mark)


def leads_somewhere(matrix: list[list[float]], points: Iterable[Sequence[float]]) -> bool:
    """Whether a map, as was read without a fault, takes all these pixels to millimetres that a plate has."""
    signs = set()
    for x, y in points:
        across, down, depth = (row[0] * x + row[1] * y + row[2] for row in matrix)
        if not max(abs(across), abs(down)) < MOST_NUMBER * abs(depth):
            return False
        signs.add(depth > 0)
    # Between two pixels on different sides of its horizon a line runs out to infinity.
    return len(signs) < 2
