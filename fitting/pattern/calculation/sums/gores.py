"""A skirt in gores, alike or of unequal shares, each with the curve that the hip asks for."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from catalogue.lengths.calculation.errors import Fault, Faults
from fitting.pattern.calculation.sums import inputs as ask
from fitting.pattern.calculation.sums.declaration import Answer, Given, PatternSum
from fitting.pattern.calculation.sums.garment import at_waist, skirt_length
from fitting.pattern.calculation.sums.ring import down, ring_told
from fitting.pattern.calculation.sums.shares import (
    LEAST_SWELL_MM,
    Gore,
    GoreShare,
    equal_shares,
    gores,
    swollen_edges,
    uneven_seams,
)
from fitting.pattern.calculation.sums.sheet_answer import (
    AnswerLine,
    Grid,
    SheetAnswer,
    Sketch,
    SketchWord,
    Stroke,
    Sum,
)

MOST_GORES = 40
_GAP_MM = 120.0


def _reckon(
    *, number: int | None, shares: Sequence[Mapping[str, Any]], **lengths_mm: float
) -> tuple[Gore, ...]:
    if (number is None) == (not shares):
        raise Faults([Fault("", "Give either the number of gores, all alike, or the shares of each.")])
    asked = equal_shares(number) if number else tuple(GoreShare(**row) for row in shares)
    try:
        return gores(asked, **lengths_mm)
    except Faults as faults:
        names = [share.name for share in asked]
        raise Faults(
            Fault(_place_of(fault.where, names), fault.sentence) for fault in faults.faults
        ) from faults


def _place_of(where: str, names: Sequence[str]) -> str:
    """`gores` tells a fault of a gore by its name; of gores all alike it is the hem that is wrong."""
    if where not in names:
        return where
    return f"shares[{names.index(where)}]" if len(names) > 1 else "hem"


def _answer(cut: Sequence[Gore], given: Given) -> Answer:
    return {
        "gores": [
            {
                "name": gore.name,
                **ring_told(gore.piece),
                "hip_room_mm": gore.hip_room_mm,
                "swell_each_mm": gore.swell_each_mm,
            }
            for gore in cut
        ],
        "uneven_seams": [
            {"gores": [one.name, other.name], "lengths_mm": [one.piece.length_mm, other.piece.length_mm]}
            for one, other in uneven_seams(cut)
        ],
    }


def _worked(cut: Sequence[Gore], given: Given) -> SheetAnswer:
    return SheetAnswer(
        figures={name: mm for gore in cut for name, mm in _figures(gore)},
        lines=tuple(
            AnswerLine(
                label=f"{gore.name}: room at the hip",
                parts=(gore.width_at_hip_mm, " − ", gore.hip_mm, " = ", gore.hip_room_mm),
            )
            for gore in cut
        ),
        grids=(
            Grid(
                caption="Each gore, sewn edge to sewn edge",
                heads=_GORE_HEADS,
                rows=tuple(_gore_row(gore, count) for gore, count in zip(cut, _counts(given), strict=True)),
            ),
        ),
        flags=(
            *(_too_narrow(gore) for gore in cut if gore.swell_each_mm > LEAST_SWELL_MM),
            *(_uneven(one, other) for one, other in uneven_seams(cut)),
        ),
        drawings=(_drawn(cut),),
    )


_GORE_HEADS = (
    "gore", "top", "hem", "length", "top curves by", "hem curves by", "room at the hip", "swell of each edge",
)  # fmt: skip


def _counts(given: Given) -> list[int]:
    """How often each gore is cut."""
    return [given["number"]] if given["number"] else [row["cut"] for row in given["shares"]]


def _figures(gore: Gore) -> Iterator[tuple[str, float]]:
    yield f"{gore.name}, top", gore.piece.top_mm
    yield f"{gore.name}, hem", gore.piece.hem_mm
    yield f"{gore.name}, hem curve", gore.piece.hem_curve_mm
    yield f"{gore.name}, swell", gore.swell_each_mm


def _gore_row(gore: Gore, count: int) -> tuple[Sum, ...]:
    piece = gore.piece
    sizes = (piece.top_mm, piece.hem_mm, piece.length_mm, piece.top_curve_mm, piece.hem_curve_mm)
    cells = (*sizes, gore.hip_room_mm, gore.swell_each_mm)
    return ((f"{gore.name}, cut {count}",), *((mm,) for mm in cells))


def _uneven(one: Gore, other: Gore) -> Sum:
    return (
        f"The seam of {one.name} and {other.name} is ",
        one.piece.length_mm,
        " long on one side and ",
        other.piece.length_mm,
        " on the other: give both one length, or slope one’s hem.",
    )


def _too_narrow(gore: Gore) -> Sum:
    return (
        f"{gore.name}: straight sides are too narrow at the hip by ",
        -gore.hip_room_mm,
        ". Let each edge that may swell out by ",
        gore.swell_each_mm,
        " there.",
    )


def _drawn(cut: Sequence[Gore]) -> Sketch:
    strokes, words, right = [], [], 0.0
    for gore in cut:
        outline = gore.piece.outline(straight_edge=gore.straight_edge)
        left, far = min(x for x, _ in outline), max(x for x, _ in outline)
        top = max(y for _, y in outline)
        moved = [(x - left + right, y - top) for x, y in outline]
        strokes.append(Stroke(points=down(moved), look="cloth", is_closed=True))
        strokes += [
            Stroke(points=tuple((x - left + right, top - y) for x, y in edge), look="new")
            for edge in swollen_edges(gore)
        ]
        middle = right + (far - left) / 2
        words.append(SketchWord(at=(middle, gore.piece.length_mm / 2), parts=(gore.name,)))
        words.append(SketchWord(at=(middle, gore.piece.length_mm * 0.92), parts=("hem ", gore.piece.hem_mm)))
        right += far - left + _GAP_MM
    names = ", ".join(gore.name for gore in cut)
    return Sketch(
        title="The gores, one of each",
        says=f"Outlines of {names}, grain upright, top above. Dashed: where an edge swells for the hip.",
        strokes=tuple(strokes),
        words=tuple(words),
    )


GORES = PatternSum(
    key="gores",
    title="gored skirt",
    says="Gores from waist, hip, hem and length, alike or of unequal shares, with the curves they need.",
    group="Skirts",
    command="skirt",
    inputs=(
        ask.Length("waist", "Waist", box="waist_mm", first=at_waist, is_needed=True),
        ask.Length(
            "hip",
            "Hip, with ease",
            box="hip_mm",
            first=lambda known: known.finished_mm("hip"),
            is_needed=True,
        ),
        ask.Length(
            "hip_depth",
            "Hip below the waist",
            box="hip_depth_mm",
            default="7 in",
            first=177.8,
            is_needed=True,
        ),
        ask.Length(
            "hem", "Hem, round", box="hem_mm", first=lambda known: known.made_mm.get("hem"), is_needed=True
        ),
        ask.Length("length", "Length", box="length_mm", first=skirt_length, is_needed=True),
        ask.Whole(
            "number",
            "Gores, all alike",
            least=2,
            most=MOST_GORES,
            first=6,
            hint="Or leave this empty and give each its share below.",
        ),
        ask.InputRows(
            name="shares",
            columns=(
                ask.Text("name", "gore {at}", box="gore", default="gore {at}"),
                ask.Whole("cut", "how often gore {at} is cut", most=MOST_GORES, default=1),
                *(
                    ask.Percent(name, f"share of gore {{at}} in the {name}, percent", is_needed=True)
                    for name in ("waist", "hip", "hem")
                ),
                ask.Length("length", "length of gore {at}"),
                ask.YesNo("straight_edge", "gore {at} has one straight edge", box="straight"),
            ),
            caption="Gores of unequal shares",
            heads=("", "gore", "cut", "waist, %", "hip, %", "hem, %", "own length", "one straight edge"),
            says="Each gore’s share of the whole, for one of it: times cut, every column comes to 100.",
            marked_by="name",
            told_at="hem",
            blank=5,
        ),
    ),
    reckon=_reckon,
    worked=_worked,
    answer=_answer,
)
