"""The steps of a pattern from JSON: each as the value that its step takes, with every fault at its place."""

from collections.abc import Callable, Mapping
from typing import Any, TypeAlias

from catalogue.workroom.reader.entries import Entry, Table, did_you_mean
from fitting.pattern.calculation.working import (
    corners,
    darts,
    edges,
    girths,
    grading,
    joining,
    layers,
    marking,
    mirroring,
    parting,
    sleeves,
    taking_over,
    truing,
)
from fitting.pattern.exchange.pattern_values import few, line_of, name_of, names_of, pair_of, point_of

# A key of the file, the field of the step that it fills, and how it is read.
Key: TypeAlias = tuple[str, str, Callable[[Entry], Any]]
Reader: TypeAlias = Callable[[Table], Any]


def step_of(entry: Entry) -> Any:
    """None where it cannot be read; its faults say why."""
    named = entry.table().entries.get("step")
    if named is None:
        if entry.is_table:
            entry.table()["step"].text()
        else:
            entry.table()
        return None
    word = named.text()
    if word not in READERS:
        if word is not None:
            named.fault(
                f"There is no such step{did_you_mean(word, READERS)}. They are: {', '.join(READERS)}."
            )
        return None
    keys, read = READERS[word]
    return read(entry.table(("step", *keys)))


def _reads(kind: type, *keys: Key) -> tuple[tuple[str, ...], Reader]:
    """The keys of a step, and what makes it of them."""

    def read(table: Table) -> Any:
        return kind(**{field: read_one(table[key]) for key, field, read_one in keys})

    return tuple(key for key, _, _ in keys), read


def _signed(entry: Entry) -> float:
    return entry.length(signed=True)


def _wide(entry: Entry) -> float:
    return entry.length(more_than_nothing=True)


def _or(default: str) -> Callable[[Entry], float]:
    return lambda entry: entry.length(default)


def _dart(entry: Entry) -> int:
    return entry.whole(0, most=199)


def _places(entry: Entry) -> tuple[float, ...]:
    return tuple(one.length(more_than_nothing=True) for one in few(entry, 50, "notches"))


def _own_or_none(entry: Entry) -> float | None:
    return entry.length() if entry.is_given else None


def _changes(entry: Entry) -> dict[str, float]:
    return _lengths(entry, signed=True, needed=True)


def _girths(entry: Entry) -> dict[str, float]:
    return _lengths(entry, needed=True)


def _lengths(entry: Entry, *, signed: bool = False, needed: bool = False) -> dict[str, float]:
    if needed and not entry.is_given:
        entry.fault("This is missing: give a length for each level.")
    return {
        name: one.length(signed=signed, more_than_nothing=needed and not signed)
        for name, one in entry.table().named().items()
    }


def _shares(entry: Entry) -> tuple[girths.LevelShare, ...]:
    if not entry.is_given:
        entry.fault("This is missing: give the edges that take the change, as [piece, edge, share].")
    found = []
    for row in few(entry, 500, "edges"):
        parts = row.items()
        if len(parts) != 3:
            if row.is_list:
                row.fault("Give a piece, an edge and a share: [piece, edge, share].")
            continue
        found.append(
            girths.LevelShare(piece=name_of(parts[0]), edge=name_of(parts[1]), share=parts[2].number())
        )
    named = [(one.piece, one.edge) for one in found]
    for at, one in enumerate(named):
        if one in named[:at]:
            entry.fault(f"{one[1]} of {one[0]} stands here twice: give each edge one share.")
    return tuple(found)


def _lengthen(table: Table) -> Any:
    if "piece" in table and "pieces" in table:
        table["pieces"].fault("Give “piece” or “pieces”, not both.")
    named = table["pieces"] if "pieces" in table else table["piece"]
    return parting.Lengthen(
        pieces=names_of(named), line=line_of(table["line"]), by_mm=table["by"].length(signed=True)
    )


def _take_over(table: Table) -> Any:
    names, given = names_of(table["pieces"]), names_of(table["edges"])
    donors, donor_edges = names_of(table["from"]), names_of(table["donor_edges"])
    for key, rows in (("edges", given), ("from", donors), ("donor_edges", donor_edges)):
        if names and rows and len(rows) != len(names):
            table[key].fault(f"Give {len(names)}, one for each of “pieces”, in their order.")
    hold = names_of(table["hold"])
    for word in hold:
        if word not in (taking_over.START, taking_over.END, ""):
            table["hold"].fault(f"This must be “{taking_over.START}” or “{taking_over.END}”.")
    if len(hold) not in (1, len(names)):
        table["hold"].fault("Give one word for all, or one for each of “pieces”.")
    return taking_over.TakeOverEdge(
        pieces=names,
        edges=given,
        donors=donors,
        donor_edges=donor_edges,
        hold=hold * len(names) if len(hold) == 1 else hold,
        blend_mm=table["blend"].length("2 in"),
    )


def _outer_layer(table: Table) -> Any:
    keep: list[str] = []
    keep_of: list[tuple[str, str]] = []
    for row in few(table["keep"], 500, "edges"):
        if row.is_text:
            keep.append(name_of(row))
        else:
            keep_of.append(pair_of(row))
    return layers.OuterLayer(
        pieces=names_of(table["pieces"]),
        by_mm=table["by"].length(),
        keep=tuple(keep),
        keep_of=tuple(keep_of),
    )


PIECE: Key = ("piece", "piece", name_of)
EDGE: Key = ("edge", "edge", name_of)
EDGES: Key = ("edges", "edges", names_of)
BOTH: tuple[Key, Key] = (("pieces", "pieces", pair_of), ("edges", "edges", pair_of))
BY: Key = ("by", "by_mm", _signed)
CUT: Key = ("cut", "cut", line_of)
NAME: Key = ("name", "name", name_of)
NAMES: Key = ("names", "names", pair_of)
LINE: Key = ("line", "line", line_of)
DART: Key = ("dart", "dart", _dart)
TO: Key = ("to", "to", point_of)
BLEND: Key = ("blend", "blend_mm", _or("2 in"))
SEAMS: Key = ("seams", "seams", _shares)

READERS: Mapping[str, tuple[tuple[str, ...], Reader]] = {
    "lengthen": (("piece", "pieces", "line", "by"), _lengthen),
    "spread": _reads(parting.Spread, PIECE, CUT, BY),
    "turn": _reads(parting.Turn, PIECE, CUT, BY),
    "full bust": _reads(parting.FullBust, PIECE, CUT, ("point", "point", point_of), BY),
    "move dart": _reads(darts.MoveDart, PIECE, DART, TO, ("short", "short_mm", _or("0 in"))),
    "part dart": _reads(darts.PartDart, PIECE, DART, TO, ("share", "share", lambda entry: entry.number(0.5))),
    "gather dart": _reads(darts.GatherDart, PIECE, DART),
    "add": _reads(edges.Add, PIECE, EDGE, BY),
    "move seam": _reads(edges.MoveSeam, *BOTH, BY),
    "cut": _reads(joining.Cut, PIECE, ("along", "along", line_of), NAMES),
    "join": _reads(joining.Join, *BOTH, NAME),
    "mirror": _reads(mirroring.Mirror, PIECE),
    "unfold": _reads(mirroring.Unfold, PIECE, EDGE),
    "copy": _reads(mirroring.Copy, PIECE, NAME),
    "sides": _reads(mirroring.Sides, PIECE, NAMES),
    "take over edge": (("pieces", "edges", "from", "donor_edges", "hold", "blend"), _take_over),
    "facing": _reads(edges.Facing, PIECE, EDGES, ("width", "width_mm", _wide), NAME),
    "band": _reads(edges.Band, PIECE, EDGES, ("height", "height_mm", _wide), NAME),
    "outer layer": (("pieces", "by", "keep"), _outer_layer),
    "allowance": _reads(
        edges.SetAllowance, PIECE, ("all", "all_mm", _own_or_none), ("edges", "edges_mm", _lengths)
    ),
    "true": _reads(truing.TrueEdges, *BOTH, ("gives_way", "gives_way", name_of)),
    "alter": _reads(girths.Alter, ("changes", "changes_mm", _changes), SEAMS),
    "grade": _reads(
        grading.Grade, ("girths", "girths_mm", _girths), ("lengths", "lengths_mm", _lengths), SEAMS
    ),
    "true sleeve": _reads(sleeves.TrueSleeve, PIECE),
    "move corner": _reads(
        corners.MoveCorner,
        PIECE,
        ("edges", "edges", pair_of),
        ("across", "across_mm", lambda entry: entry.length("0 in", signed=True)),
        ("down", "down_mm", lambda entry: entry.length("0 in", signed=True)),
    ),
    "slope shoulder": _reads(
        corners.SlopeShoulder,
        PIECE,
        ("shoulder", "shoulder", name_of),
        ("armhole", "armhole", name_of),
        BY,
    ),
    "true corner": _reads(corners.TrueCorner, *BOTH, ("end", "end", name_of), BLEND),
    "set grain": _reads(marking.SetGrain, PIECE, LINE),
    "match notches": _reads(marking.MatchNotches, *BOTH, ("at", "at_mm", _places)),
    "turn pitch": _reads(marking.TurnPitch, PIECE, EDGE, BY),
    "lay pleat": _reads(marking.LayPleat, PIECE, LINE, ("depth", "depth_mm", _wide)),
    "line with": _reads(marking.LineWith, PIECE, NAME, ("cloth", "cloth", name_of)),
    "wrap": _reads(marking.Wrap, PIECE, EDGE, ("width", "width_mm", _wide)),
}
