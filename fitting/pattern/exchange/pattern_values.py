"""Values of a pattern file, each from one entry: points in millimetres, lines, names."""

from itertools import pairwise

from catalogue.workroom.reader.entries import Entry
from fitting.pattern.calculation.working.level_lines import Path
from fitting.pattern.calculation.working.paths import Line

FARTHEST_MM = 1e6
MOST_ON_A_LEVEL = 200


def few(entry: Entry, most: int, what: str) -> list[Entry]:
    rows = entry.items()
    if len(rows) > most:
        entry.fault(f"A file has no more than {most} {what}.")
        return []
    return rows


def point_of(entry: Entry) -> complex:
    numbers = entry.items()
    if not entry.is_given:
        entry.fault("This is missing: give a point, [x, y] in millimetres.")
    elif entry.is_list and len(numbers) != 2:
        entry.fault("A point has two numbers: x across and y down, in millimetres.")
    elif len(numbers) == 2:
        x, y = (one.number(signed=True) for one in numbers)
        if max(abs(x), abs(y)) > FARTHEST_MM:
            entry.fault("This is over a kilometre away: points are millimetres.")
        return complex(x, y)
    return 0j


def path_of(entry: Entry) -> Path:
    points = tuple(point_of(one) for one in few(entry, MOST_ON_A_LEVEL, "points in a level"))
    if entry.is_list and len(points) < 2:
        entry.fault("A level needs two points at least.")
    if any(a == b for a, b in pairwise(points)):
        entry.fault("Two points of this level that follow each other are the same.")
    return points


def line_of(entry: Entry) -> Line:
    points = [point_of(one) for one in entry.items()]
    if not entry.is_given:
        entry.fault("This is missing: give two points.")
    elif entry.is_list and len(points) != 2:
        entry.fault("A line has two points.")
    if len(points) != 2:
        return 0j, 1 + 0j
    if points[0] == points[1]:
        entry.fault("A line needs two points that lie apart.")
    return points[0], points[1]


def name_of(entry: Entry) -> str:
    name = entry.text()
    if name is not None and not name.strip():
        entry.fault("This needs a name.")
    return name or ""


def names_of(entry: Entry) -> tuple[str, ...]:
    """One name, or several in a list."""
    if entry.is_text:
        return (name_of(entry),)
    names = tuple(name_of(one) for one in entry.items())
    if not entry.is_given or (entry.is_list and not names):
        entry.fault(
            "This is missing: give at least one name." if not entry.is_given else "Give at least one."
        )
    return names


def pair_of(entry: Entry) -> tuple[str, str]:
    names = names_of(entry)
    if entry.is_given and (entry.is_list or entry.is_text) and len(names) != 2:
        entry.fault("Give two names.")
    return (names[0], names[1]) if len(names) == 2 else ("", "")
