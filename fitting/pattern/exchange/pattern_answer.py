"""What a pattern comes to after its steps: as JSON, whose pieces can be read again, and as lines of text."""

from collections.abc import Mapping, Sequence
from typing import Any

from catalogue.lengths.calculation.lengths import System, format_length
from catalogue.tracing.calculation.outline import Outline
from catalogue.tracing.calculation.sides import traced_nodes
from catalogue.tracing.calculation.tracing import Mark
from fitting.pattern.calculation.sheets.cutting_line import ring_of
from fitting.pattern.calculation.working.cutting import cutting_line_of
from fitting.pattern.calculation.working.pattern import Pattern, PatternPiece
from fitting.pattern.calculation.working.sentences import said
from fitting.pattern.calculation.working.steps import BY_ASKED, Outcome

Answer = dict[str, Any]


def pattern_to_json(pattern: Pattern, steps: Sequence[tuple[Any, Outcome]], *, system: System) -> Answer:
    """`pattern` as it is after its steps; each of these with what was asked and what it made."""
    return {
        "pieces": [_piece(pattern, piece) for piece in pattern.pieces],
        "girths": pattern.girths(),
        "steps": [
            {
                "step": BY_ASKED[type(asked)].name,
                "said": said(asked, system),
                "changed": {
                    name: {figure: list(pair) for figure, pair in figures.items()}
                    for name, figures in taken.changed.items()
                },
                "broke": list(taken.broke),
            }
            for asked, taken in steps
        ],
    }


def _piece(pattern: Pattern, piece: PatternPiece) -> Answer:
    measures = piece.measures
    return {
        "name": piece.name,
        "cut": piece.cut,
        "mirrored": piece.mirrored,
        "nodes": _nodes(piece.outline),
        "levels": {level: [_point(at) for at in path] for level, path in piece.levels.items()},
        "marks": [_mark(mark) for mark in piece.marks],
        "allowance": {
            "all": _typed(piece.allowance.usual_mm),
            "edges": {edge: _typed(mm) for edge, mm in piece.allowance.by_edge.items()},
        },
        "area_mm2": measures.area_mm2,
        "perimeter_mm": measures.perimeter_mm,
        "edges": dict(measures.edges),
        "levels_mm": dict(measures.levels),
        "cutting_line": [[x, y] for x, y in ring_of(cutting_line_of(pattern, piece))],
    } | {key: value for key, value in (("cloth", piece.cloth), ("on_fold", piece.on_fold)) if value}


def _nodes(outline: Outline) -> list[Answer]:
    return [
        {"at": _point(node.at), "corner": node.corner, "curved": node.curved, "edge": node.edge}
        for node in traced_nodes(outline)
    ]


def _mark(mark: Mark) -> Answer:
    told: Answer = {"kind": mark.kind, "points": [_point(at) for at in mark.points]}
    if mark.line:
        told["line"] = mark.line
    if mark.count != 1:
        told["count"] = mark.count
    if mark.is_straight:
        told["straight"] = True
    return told


def _point(at: complex) -> list[float]:
    return [at.real, at.imag]


def _typed(mm: float) -> str:
    """A length as text that reads back as itself, but for what no ruler shows."""
    return f"{mm:.9f}".rstrip("0").rstrip(".") + " mm"


def pattern_text(
    pattern: Pattern,
    steps: Sequence[tuple[Any, Outcome]],
    *,
    defaults_used: Mapping[str, str],
    system: System,
) -> str:
    """Each step in a sentence with what it broke; then each piece and the girths, in a reader's unit."""

    def length(mm: float) -> str:
        return format_length(mm, system=system)

    lines = []
    for number, (asked, taken) in enumerate(steps, start=1):
        lines.append(f"{number}. {said(asked, system)}")
        lines += [f"   {sentence}" for sentence in taken.broke]
    for piece in pattern.pieces:
        measures = piece.measures
        lines += ["", f"{piece.name}, cut {piece.cut}{', half of them mirrored' if piece.mirrored else ''}"]
        lines += [f"  {edge}: {length(mm)}" for edge, mm in measures.edges.items()]
        lines += [f"  {level}, level: {length(mm)}" for level, mm in measures.levels.items()]
    if girths := pattern.girths():
        lines += [
            "",
            "Round the whole garment",
            *(f"  {level}: {length(mm)}" for level, mm in girths.items()),
        ]
    if defaults_used:
        used = (f"  {path}: {default}" for path, default in defaults_used.items())
        lines += ["", "Left out, so taken as", *used]
    return "\n".join(lines)
