"""The plate's part of a case: scale, allowance, pieces with their readings, fastening, lengths."""

import math
from collections.abc import Set

from catalogue.lengths.calculation.errors import NotUnderstood
from catalogue.plates.calculation.readings import DrawnPiece, FastenedWidth, PageReading, PlateReadings
from catalogue.plates.calculation.scale import RELATIVE_DOUBT, Scale, from_known, read_ratio
from catalogue.workroom.reader.entries import Entry, Table, did_you_mean


def read_plate(top: Table, lines: Set[str]) -> PlateReadings:
    """`lines` are the levels and lengths known so far; those that the readings name are known too."""
    pieces = _pieces(top["pieces"])
    read = {level for piece in pieces for level in piece.readings}
    lengths = {line: _length(entry) for line, entry in top["lengths"].table().entries.items()}
    known = {*lines, *read}
    fastening = top["fastening"].table(("overlap", "lacing_gap"))
    return PlateReadings(
        scale=_scale(top["scale"]),
        pieces=pieces,
        lengths=lengths,
        allowance_mm=_allowance(top["seam_allowance"]),
        rule_division_mm=top["rule_division"].length("1/16 in", more_than_nothing=True),
        drawing_doubt_mm=top["drawing_doubt"].length("1/16 in"),
        overlap=_fastened(fastening["overlap"], known),
        lacing_gap=_fastened(fastening["lacing_gap"], known),
    )


def is_known(entry: Entry, line: str, lines: Set[str]) -> bool:
    """Whether a key names a level or length that anything else names; a slip of the pen is a fault."""
    if line in lines:
        return True
    entry.fault(f"No reading, measure or known level has this name{did_you_mean(line, lines)}.")
    return False


def _scale(entry: Entry) -> Scale:
    if not entry.is_given:
        entry.fault("This is missing: give a ratio, or a length on the page and the same length full size.")
    table = entry.table(("ratio", "ratio_across", "page", "real", "relative_doubt"))
    relative_doubt = table["relative_doubt"].number(RELATIVE_DOUBT["book"])
    if relative_doubt >= 1:
        table["relative_doubt"].fault("A relative doubt is a part of the whole: at least 0 and less than 1.")
    along = _factor(table) if entry.is_table else math.nan
    across = _ratio(table["ratio_across"]) if "ratio_across" in table else along
    return Scale(along=along, across=across, relative_doubt=relative_doubt)


def _factor(table: Table) -> float:
    by_ratio, by_length = "ratio" in table, "page" in table or "real" in table
    if by_ratio == by_length:
        table.owner.fault("Give either a ratio, or page and real: one of the two.")
        return math.nan
    if by_ratio:
        return _ratio(table["ratio"])
    page_mm = table["page"].exact_length(more_than_nothing=True)
    real_mm = table["real"].exact_length(more_than_nothing=True)
    return math.nan if page_mm is None or real_mm is None else float(from_known(page_mm, real_mm))


def _ratio(entry: Entry) -> float:
    text = entry.text(what='a ratio as text, for example "1:8"')
    try:
        return math.nan if text is None else float(read_ratio(text))
    except NotUnderstood as error:
        entry.fault(error.sentence)
        return math.nan


def _allowance(entry: Entry) -> float | None:
    drawn = entry.table(("drawn",))["drawn"]
    word = drawn.text("none", what='"none", "not known", or a length at full size as text')
    if word == "none":
        return 0.0
    return None if word in (None, "not known") else drawn.length()


def _pieces(entry: Entry) -> tuple[DrawnPiece, ...]:
    if not entry.is_given:
        entry.fault("This is missing: give the pieces of the plate with their readings.")
    pieces = tuple(_piece(one, number) for number, one in enumerate(entry.items(), start=1))
    if entry.is_list and not pieces:
        entry.fault("Give at least one piece.")
    return pieces


def _piece(entry: Entry, number: int) -> DrawnPiece:
    table = entry.table(("name", "cut", "on_fold", "edges", "readings", "take_up", "doubt"))
    readings = table["readings"].table().entries
    take_up = table["take_up"].table().entries
    if not take_up and not table["take_up"].is_given:
        table["take_up"].default("none")
    for level, one in take_up.items():
        if level not in readings:
            one.fault("There is no reading at this level to take it up from.")
    doubt = table["doubt"].table().entries
    for level, one in doubt.items():
        if level not in readings:
            one.fault("There is no reading at this level to doubt.")
    on_fold = table["on_fold"].yes_or_no(False)
    edges = table["edges"]
    if not edges.is_given:
        edges.default("1" if on_fold else "2")
    return DrawnPiece(
        name=table["name"].text(f"piece {number}") or "",
        cut=table["cut"].whole(2, least=1),
        on_fold=on_fold,
        edges=edges.whole() if edges.is_given else None,
        readings={
            level: _reading(one, take_up.get(level), doubt.get(level)) for level, one in readings.items()
        },
    )


def _reading(entry: Entry, take_up: Entry | None, doubt: Entry | None, crossed_ends: int = 0) -> PageReading:
    """`doubt` is the reading's own, where no rule was held to it."""
    length_mm = entry.length(more_than_nothing=True)
    take_up_mm = take_up.length() if take_up else 0.0
    if take_up and take_up_mm > length_mm:
        take_up.fault("This takes up more than the reading itself.")
    u_mm = doubt.length() if doubt else None
    return PageReading(length_mm=length_mm, take_up_mm=take_up_mm, crossed_ends=crossed_ends, u_mm=u_mm)


def _length(entry: Entry) -> tuple[PageReading, ...]:
    if entry.is_list:
        readings = tuple(_length_reading(one) for one in entry.items())
        if not readings:
            entry.fault("Give at least one reading.")
        return readings
    return (_length_reading(entry),)


def _length_reading(entry: Entry) -> PageReading:
    table = entry.table(("reading", "take_up", "crossed_ends", "doubt"))
    take_up = table["take_up"]
    return _reading(
        table["reading"],
        take_up if take_up.is_given else None,
        table["doubt"] if table["doubt"].is_given else None,
        table["crossed_ends"].whole(0, most=2),
    )


def _fastened(entry: Entry, lines: Set[str]) -> FastenedWidth:
    if not entry.is_table:
        return FastenedWidth(everywhere_mm=entry.length("0 in"))
    levels = entry.table().entries
    return FastenedWidth(
        at_mm={level: one.length() for level, one in levels.items() if is_known(one, level, lines)}
    )
