"""An order for a lay from its JSON: what `lay` reads. Outline points are millimetres, other lengths are text.

What may be left out: selvedge, gap, repeat and allowance (none), direction (one-way, the one that never
buys too little), shrinkage (0), unit (1/8 yd), seconds (5), cut (1, or 2 for a mirrored pair),
mirrored_pair (false), name (its number), match (a piece's lowest point). Width, pieces and outlines must be
there. `selvedge` is the width of one; both are left out of use. `repeat` is a length along the cloth, or a
table of along, across, drop and one_more (whether one repeat more is bought); `match` is the point of a piece
that lies at one place of it.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from catalogue.lengths.calculation.errors import Faults
from catalogue.workroom.reader.entries import Entry, Notes, Table
from catalogue.workroom.reader.file_head import check_format
from catalogue.workroom.reader.strict_json import load
from fitting.laying.calculation.cloth import Cloth, Direction
from fitting.laying.calculation.lay_out import DEFAULT_SECONDS, LONGEST_SECONDS, MOST_COPIES, Order
from fitting.laying.calculation.piece import (
    LayPiece,
    Outline,
    OutlineNotUsable,
    Point,
    cut_outline,
    read_outline,
)
from fitting.laying.calculation.repeat import Repeat

FORMAT, VERSION = "plate-and-toile lay", 1
DEFAULT_UNIT = "1/8 yd"
MOST_POINTS = 2000
FARTHEST_MM = 1_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class LayFile:
    """An order, the shop's unit as typed and, by path, the defaults that stood in for what was left out."""

    order: Order
    unit: str
    defaults_used: Mapping[str, str]


def read_lay(text: str) -> LayFile:
    """An order from JSON text. Raises Faults with everything that is wrong with it."""
    return lay_from_json(load(text))


def lay_from_json(value: Any) -> LayFile:
    """An order from decoded JSON. Raises Faults."""
    notes = Notes()
    top = Entry(value, notes).table(("format", "version", "cloth", "seconds", "pieces"))
    check_format(top, FORMAT, VERSION)
    cloth = _cloth(top["cloth"])
    order = Order(cloth=cloth, pieces=_pieces(top["pieces"]), seconds=_seconds(top["seconds"]))
    if notes.faults:
        raise Faults(notes.faults)
    unit = top["cloth"].table()["unit"]
    return LayFile(
        order=order, unit=unit.text(DEFAULT_UNIT) or DEFAULT_UNIT, defaults_used=dict(notes.defaults)
    )


def _cloth(entry: Entry) -> Cloth:
    table = entry.table(("width", "selvedge", "direction", "gap", "shrinkage", "repeat", "unit"))
    shrinkage = table["shrinkage"].table(("length", "width"))
    cloth = Cloth(
        width_mm=table["width"].length(more_than_nothing=True),
        selvedge_mm=table["selvedge"].length("0 in"),
        direction=table["direction"].word(Direction, Direction.ONE_WAY) or Direction.ONE_WAY,
        gap_mm=table["gap"].length("0 in"),
        shrinkage_length=shrinkage["length"].number(0),
        shrinkage_width=shrinkage["width"].number(0),
        repeat=_repeat(table["repeat"]),
        unit_mm=table["unit"].length(DEFAULT_UNIT, more_than_nothing=True),
    )
    # A value that could not be read has had its fault already.
    named = {fault.where for fault in entry.notes.faults}
    for fault in cloth.faults():
        where = fault.where if table["repeat"].is_table else fault.where.removesuffix(".along")
        if (path := f"{entry.path}.{where}") not in named:
            entry.notes.fault(path, fault.sentence)
    return cloth


def _repeat(entry: Entry) -> Repeat:
    """A length, that of the repeat along the cloth; or a table where it repeats across, too."""
    if not entry.is_table:
        return Repeat(along_mm=entry.length("0 in"))
    table = entry.table(("along", "across", "drop", "one_more"))
    return Repeat(
        along_mm=table["along"].length("0 in"),
        across_mm=table["across"].length("0 in"),
        drop_mm=table["drop"].length("0 in"),
        one_more=table["one_more"].yes_or_no(False),
    )


def _seconds(entry: Entry) -> float:
    seconds = entry.number(DEFAULT_SECONDS)
    if seconds == 0 or seconds > LONGEST_SECONDS:
        entry.fault(f"The search takes more than 0 seconds, and no more than {LONGEST_SECONDS}.")
    return seconds


def _pieces(entry: Entry) -> tuple[LayPiece, ...]:
    if not entry.is_given:
        entry.fault("This is missing: give the pieces to lay, each with its outline.")
    pieces, names = [], set[str]()
    for number, one in enumerate(entry.items(), start=1):
        table = one.table(("name", "outline", "cut", "mirrored_pair", "allowance", "match"))
        name = _name(table["name"], number, names)
        if (piece := _piece(table, name)) is not None:
            pieces.append(piece)
    if entry.is_list and not entry.items():
        entry.fault("Give at least one piece.")
    return tuple(pieces)


def _name(entry: Entry, number: int, names: set[str]) -> str:
    name = entry.text(f"piece {number}")
    if name is not None and not name.strip():
        entry.fault("A piece needs a name, for its placements to be told by.")
    elif name in names:
        entry.fault(f"Another piece is named “{name}”: placements tell pieces by their names.")
    names.add(name or "")
    return name or ""


def _piece(table: Table, name: str) -> LayPiece | None:
    """None where the outline cannot be cut; its faults say why."""
    paired = table["mirrored_pair"].yes_or_no(False)
    cut = table["cut"]
    fewest = 2 if paired else 1
    copies = cut.whole(fewest, least=fewest, most=MOST_COPIES)
    if paired and copies % 2:
        cut.fault("Half of a mirrored pair is cut mirrored: this must be an even number.")
    allowance_mm = table["allowance"].length("0 in")
    outline = _outline(table["outline"])
    match = _point(table["match"]) if table["match"].is_given else None
    if outline is None or math.isnan(allowance_mm):
        return None
    try:
        cut_to = cut_outline(outline, allowance_mm)
    except OutlineNotUsable as error:
        table["allowance"].fault(error.sentence)
        return None
    return LayPiece(
        name=name,
        outline=outline,
        cut_outline=cut_to,
        copies=copies,
        mirrored_pair=paired,
        allowance_mm=allowance_mm,
        match=match,
    )


def _outline(entry: Entry) -> Outline | None:
    if not entry.is_given:
        entry.fault("This is missing: give the points of the outline in millimetres.")
    points = entry.items()
    if len(points) > MOST_POINTS:
        entry.fault(f"An outline has no more than {MOST_POINTS} points.")
        return None
    read = [_point(point) for point in points]
    if not entry.is_list or any(map(math.isnan, (number for point in read for number in point))):
        return None
    try:
        return read_outline(read)
    except OutlineNotUsable as error:
        entry.fault(error.sentence)
        return None


def _point(entry: Entry) -> Point:
    numbers = entry.items()
    if entry.is_list and len(numbers) != 2:
        entry.fault("A point has two numbers: x across the cloth and y along it, in millimetres.")
    if len(numbers) != 2:
        return math.nan, math.nan
    x, y = (_coordinate(number) for number in numbers)
    return x, y


def _coordinate(entry: Entry) -> float:
    number = entry.number(signed=True)
    if abs(number) > FARTHEST_MM:
        entry.fault("This is over a kilometre away: outline points are millimetres.")
    return number
