"""The steps of a pattern from JSON: each as the value that its step takes, with every fault at its place."""

from collections.abc import Callable, Mapping
from typing import Any, TypeAlias

from catalogue.workroom.reader.entries import Entry, Table, did_you_mean
from fitting.pattern.calculation.working import (
    darts,
    edges,
    girths,
    grading,
    joining,
    layers,
    mirroring,
    parting,
    taking_over,
    truing,
)
from fitting.pattern.exchange.pattern_values import few, line_of, name_of, names_of, pair_of, point_of

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


def _lengthen(table: Table) -> Any:
    if "piece" in table and "pieces" in table:
        table["pieces"].fault("Give “piece” or “pieces”, not both.")
    named = table["pieces"] if "pieces" in table else table["piece"]
    return parting.Lengthen(
        pieces=names_of(named), line=line_of(table["line"]), by_mm=table["by"].length(signed=True)
    )


def _spread(table: Table) -> Any:
    return parting.Spread(
        piece=name_of(table["piece"]), cut=line_of(table["cut"]), by_mm=table["by"].length(signed=True)
    )


def _turn(table: Table) -> Any:
    return parting.Turn(
        piece=name_of(table["piece"]), cut=line_of(table["cut"]), by_mm=table["by"].length(signed=True)
    )


def _move_dart(table: Table) -> Any:
    return darts.MoveDart(
        piece=name_of(table["piece"]),
        dart=table["dart"].whole(0, most=199),
        to=point_of(table["to"]),
        short_mm=table["short"].length("0 in"),
    )


def _add(table: Table) -> Any:
    return edges.Add(
        piece=name_of(table["piece"]),
        edge=name_of(table["edge"]),
        by_mm=table["by"].length(signed=True),
    )


def _move_seam(table: Table) -> Any:
    return edges.MoveSeam(
        pieces=pair_of(table["pieces"]), edges=pair_of(table["edges"]), by_mm=table["by"].length(signed=True)
    )


def _cut(table: Table) -> Any:
    return joining.Cut(
        piece=name_of(table["piece"]), along=line_of(table["along"]), names=pair_of(table["names"])
    )


def _join(table: Table) -> Any:
    return joining.Join(
        pieces=pair_of(table["pieces"]), edges=pair_of(table["edges"]), name=name_of(table["name"])
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


def _allowance(table: Table) -> Any:
    return edges.SetAllowance(
        piece=name_of(table["piece"]),
        all_mm=table["all"].length() if "all" in table else None,
        edges_mm={name: entry.length() for name, entry in table["edges"].table().named().items()},
    )


def _strip(kind: type, width: str) -> Reader:
    def read(table: Table) -> Any:
        return kind(
            piece=name_of(table["piece"]),
            edges=names_of(table["edges"]),
            name=name_of(table["name"]),
            **{f"{width}_mm": table[width].length(more_than_nothing=True)},
        )

    return read


def _true(table: Table) -> Any:
    return truing.TrueEdges(
        pieces=pair_of(table["pieces"]),
        edges=pair_of(table["edges"]),
        gives_way=name_of(table["gives_way"]),
    )


def _alter(table: Table) -> Any:
    return girths.Alter(
        changes_mm=_lengths(table["changes"], signed=True, needed=True), seams=_shares(table["seams"])
    )


def _grade(table: Table) -> Any:
    return grading.Grade(
        girths_mm=_lengths(table["girths"], needed=True),
        lengths_mm=_lengths(table["lengths"]),
        seams=_shares(table["seams"]),
    )


def _lengths(entry: Entry, *, signed: bool = False, needed: bool = False) -> dict[str, float]:
    if needed and not entry.is_given:
        entry.fault("This is missing: give a length for each level.")
    return {
        name: one.length(signed=signed, more_than_nothing=not signed)
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


def _of_piece(kind: type, *also: str) -> Reader:
    """A step that asks for a piece and names alone."""

    def read(table: Table) -> Any:
        given = {key: pair_of(table[key]) if key == "names" else name_of(table[key]) for key in also}
        return kind(piece=name_of(table["piece"]), **given)

    return read


READERS: Mapping[str, tuple[tuple[str, ...], Reader]] = {
    "lengthen": (("piece", "pieces", "line", "by"), _lengthen),
    "spread": (("piece", "cut", "by"), _spread),
    "turn": (("piece", "cut", "by"), _turn),
    "move dart": (("piece", "dart", "to", "short"), _move_dart),
    "add": (("piece", "edge", "by"), _add),
    "move seam": (("pieces", "edges", "by"), _move_seam),
    "cut": (("piece", "along", "names"), _cut),
    "join": (("pieces", "edges", "name"), _join),
    "mirror": (("piece",), _of_piece(mirroring.Mirror)),
    "unfold": (("piece", "edge"), _of_piece(mirroring.Unfold, "edge")),
    "copy": (("piece", "name"), _of_piece(mirroring.Copy, "name")),
    "sides": (("piece", "names"), _of_piece(mirroring.Sides, "names")),
    "take over edge": (("pieces", "edges", "from", "donor_edges", "hold", "blend"), _take_over),
    "facing": (("piece", "edges", "width", "name"), _strip(edges.Facing, "width")),
    "band": (("piece", "edges", "height", "name"), _strip(edges.Band, "height")),
    "outer layer": (("pieces", "by", "keep"), _outer_layer),
    "allowance": (("piece", "all", "edges"), _allowance),
    "true": (("pieces", "edges", "gives_way"), _true),
    "alter": (("changes", "seams"), _alter),
    "grade": (("girths", "lengths", "seams"), _grade),
}
