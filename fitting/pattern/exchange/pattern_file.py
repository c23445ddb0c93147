"""Pieces and steps from JSON: what `pattern` reads. Points are millimetres, y downwards; lengths are text.

What may be left out: cut (2) and mirrored (true where it is cut an even number of times), levels, marks,
allowance (none), fastening, seams and sleeves (none), a seam's ease (as long as it is); of a node corner
(true), curved (false) and edge. What an answer adds to its pieces is read over: an answer is a file again.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.tracing.calculation.geometry import MARK_POINTS, MOST_MARKS, MOST_POINTS, has_its_points
from catalogue.tracing.calculation.outline import Node, Outline
from catalogue.tracing.calculation.tracing import Mark, edge_name
from catalogue.workroom.reader.entries import Entry, Notes, Table
from catalogue.workroom.reader.file_head import check_format
from catalogue.workroom.reader.strict_json import load
from fitting.pattern.calculation.grading.values import GradingJoin
from fitting.pattern.calculation.working.pattern import (
    Allowance,
    Pattern,
    PatternFastening,
    PatternPiece,
    PatternSeam,
    SleeveSeam,
)
from fitting.pattern.calculation.working.sleeves import parts_of
from fitting.pattern.exchange.pattern_steps import step_of
from fitting.pattern.exchange.pattern_values import few, name_of, pair_of, path_of, point_of

FORMAT, VERSION = "plate-and-toile pattern", 1
FARTHEST_MM = 1e6
MOST_PIECES, MOST_STEPS, MOST_CUT = 200, 500, 500
ASKED = ("name", "cut", "mirrored", "on_fold", "nodes", "levels", "marks", "allowance", "cloth")
ANSWERED = ("area_mm2", "perimeter_mm", "edges", "levels_mm", "cutting_line")


@dataclass(frozen=True, slots=True, kw_only=True)
class PatternFile:
    pattern: Pattern
    steps: tuple[Any, ...]
    defaults_used: Mapping[str, str]


def read_pattern(text: str) -> PatternFile:
    """A pattern and what is asked of it. Raises Faults with everything that is wrong with the file."""
    notes = Notes()
    top = Entry(load(text), notes).table(
        ("format", "version", "pieces", "fastening", "seams", "sleeves", "steps", "girths")
    )
    check_format(top, FORMAT, VERSION)
    found = _pieces(top["pieces"])
    overlap, gap = _fastening(top["fastening"])
    seams = tuple(_seam(entry) for entry in top["seams"].items())
    sleeves = tuple(_sleeve(entry) for entry in top["sleeves"].items())
    steps = tuple(step_of(entry) for entry in few(top["steps"], MOST_STEPS, "steps"))
    pattern = Pattern(pieces=tuple(found), seams=seams, sleeves=sleeves, overlap=overlap, gap=gap)
    if not notes.faults:
        _check_sewn(pattern, top["seams"], [zip(one.pieces, one.edges, strict=True) for one in seams])
        _check_sewn(pattern, top["sleeves"], [(*one.join.one, *one.join.other) for one in sleeves])
    misread = {fault.where for fault in notes.faults}
    for index, piece in enumerate(found):
        where = f"pieces[{index}].nodes"
        # An outline of which a point could not be read has had its fault already.
        if not any(one.startswith(where) for one in misread):
            notes.extend(Fault(where, sentence) for sentence in piece.faults())
    notes.extend(_unknown_pieces([piece.name for piece in found], steps))
    notes.refuse()
    pattern = replace(pattern, sleeves=tuple(_as_drawn(pattern, sleeve) for sleeve in sleeves))
    return PatternFile(pattern=pattern, steps=steps, defaults_used=dict(notes.defaults))


def _unknown_pieces(given: Sequence[str], steps: Sequence[Any]) -> Iterator[Fault]:
    """What steps ask of pieces that neither the file has nor an earlier step makes.

    Nothing is said once a name could not be read: it may have been the one.
    """
    known = {*given}
    for index, asked in enumerate(steps):
        if asked is None or not known or "" in known:
            return
        pieces = getattr(asked, "pieces", ())
        several = "pieces" if len(pieces) > 1 else "piece"
        named = [("piece", getattr(asked, "piece", "")), *((several, name) for name in pieces)]
        for key, name in [*named, *(("from", name) for name in getattr(asked, "donors", ()))]:
            if name and name not in known:
                yield Fault(
                    f"steps[{index}].{key}",
                    f"There is no piece “{name}”; until then there are: {', '.join(known)}.",
                )
        known |= {*getattr(asked, "names", ()), getattr(asked, "name", next(iter(known)))}


def _pieces(entry: Entry) -> list[PatternPiece]:
    if not entry.is_given:
        entry.fault("This is missing: give the pieces, each with its name and its nodes.")
    rows = few(entry, MOST_PIECES, "pieces")
    if entry.is_list and not entry.items():
        entry.fault("Give at least one piece.")
    found: list[PatternPiece] = []
    for row in rows:
        table = row.table(
            ("name", "cut", "mirrored", "nodes", "levels", "marks", "allowance", "cloth", *ANSWERED)
        )
        name = name_of(table["name"])
        if name and name in [piece.name for piece in found]:
            table["name"].fault(f"Another piece is named “{name}”: give each a name of its own.")
        found.append(_piece(table, name))
    return found


def _piece(table: Table, name: str) -> PatternPiece:
    mirrored = table["mirrored"].yes_or_no(True) if "mirrored" in table else None
    cut = table["cut"].whole(1 if mirrored is False else 2, least=1, most=MOST_CUT)
    if mirrored and cut % 2:
        table["cut"].fault("Half of a mirrored pair is cut mirrored: this must be an even number.")
    return PatternPiece(
        name=name,
        outline=Outline(nodes=_nodes(table["nodes"])),
        cut=cut,
        mirrored=cut % 2 == 0 if mirrored is None else mirrored,
        levels={level: path_of(entry) for level, entry in table["levels"].table().named().items()},
        marks=tuple(_mark(entry) for entry in few(table["marks"], MOST_MARKS, "marks on a piece")),
        allowance=_allowance(table["allowance"].table(("all", "edges"))),
        cloth=table["cloth"].text("") or "" if "cloth" in table else "",
        on_fold=table["on_fold"].yes_or_no(False) if "on_fold" in table else False,
    )


def _nodes(entry: Entry) -> tuple[Node, ...]:
    if not entry.is_given:
        entry.fault("This is missing: give the points of the outline.")
    rows = few(entry, MOST_POINTS, "points in an outline")
    nodes = []
    for row in rows:
        table = row.table(("at", "corner", "curved", "edge"))
        nodes.append(
            Node(
                at=point_of(table["at"]),
                corner=table["corner"].yes_or_no(True) if "corner" in table else True,
                curved=table["curved"].yes_or_no(False) if "curved" in table else False,
                edge=_edge(table["edge"]) if "edge" in table else "",
            )
        )
    return tuple(nodes)


def _edge(entry: Entry) -> str:
    return edge_name(entry.text("") or "")


def _mark(entry: Entry) -> Mark:
    table = entry.table(("kind", "points", "line", "count", "straight"))
    kind = table["kind"].text()
    if kind is not None and kind not in MARK_POINTS:
        table["kind"].fault(f"There is no such mark: it must be one of {', '.join(MARK_POINTS)}.")
        kind = None
    points = tuple(point_of(one) for one in table["points"].items())
    if not table["points"].is_given:
        table["points"].fault("This is missing: give the points of the mark.")
    straight = table["straight"].yes_or_no(False) if "straight" in table else False
    if kind and not _has_its_points(kind, len(points), straight):
        table["points"].fault(f"A {kind} does not have {len(points)} points.")
    return Mark(
        kind=kind or "notch",  # type: ignore[arg-type]
        points=points,
        line=table["line"].text("") or "" if "line" in table else "",
        count=table["count"].whole(1, least=1, most=99) if "count" in table else 1,
        is_straight=straight,
    )


def _has_its_points(kind: str, count: int, straight: bool) -> bool:
    """A dart that was parted has more points than one that is drawn."""
    return has_its_points(kind, count) or (kind == "dart" and straight and count >= 3)


def _allowance(table: Table) -> Allowance:
    return Allowance(
        usual_mm=table["all"].length("0 in") if "all" in table else 0.0,
        by_edge={name: entry.length() for name, entry in table["edges"].table().named().items()},
    )


def _fastening(entry: Entry) -> tuple[PatternFastening, PatternFastening]:
    table = entry.table(("overlap", "gap"))
    overlap, gap = (_by_level(table[name]) for name in ("overlap", "gap"))
    return overlap, gap


def _by_level(entry: Entry) -> PatternFastening:
    if entry.is_table:
        return PatternFastening(
            by_level={level: one.length() for level, one in entry.table().named().items()}
        )
    return PatternFastening(usual_mm=entry.length("0 in") if entry.is_given else 0.0)


def _seam(entry: Entry) -> PatternSeam:
    table = entry.table(("pieces", "edges", "ease", "mirrored_corners"))
    return PatternSeam(
        pieces=pair_of(table["pieces"]),
        edges=pair_of(table["edges"]),
        ease_mm=table["ease"].length(signed=True) if "ease" in table else None,
        mirrored_corners=table["mirrored_corners"].yes_or_no(False) if "mirrored_corners" in table else False,
    )


def _sleeve(entry: Entry) -> SleeveSeam:
    """A head and the armhole that it is set into, each a list of [piece, edge]."""
    table = entry.table(("head", "armhole"))
    head, armhole = (tuple(pair_of(row) for row in table[key].items()) for key in ("head", "armhole"))
    for key, run in (("head", head), ("armhole", armhole)):
        if not run and not table[key].is_list:
            table[key].fault("Give a list of [piece, edge].")
    return SleeveSeam(join=GradingJoin(one=head, other=armhole))


def _as_drawn(pattern: Pattern, sleeve: SleeveSeam) -> SleeveSeam:
    """Each part of a head keeps the ease that it has at first."""
    return replace(sleeve, eases_mm=parts_of(pattern, sleeve.join))


def _check_sewn(pattern: Pattern, entry: Entry, sewn: Iterable[Iterable[tuple[str, str]]]) -> None:
    for row, edges in zip(entry.items(), sewn, strict=True):
        for name, edge in edges:
            try:
                pattern.edge(name, edge, "edges")
            except Faults as faults:
                row.notes.extend(Fault(f"{row.path}.{one.where}", one.sentence) for one in faults.faults)
