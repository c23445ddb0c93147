"""Edges that are sewn together, asked one by one: a seam in stretches, and a sleeve in its armhole."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from catalogue.lengths.calculation.errors import Fault, Faults
from fitting.pattern.calculation.seam_match import SeamJoin, SeamMatch, Stretch, notches, sleeve_seam
from fitting.pattern.calculation.sums import inputs as ask
from fitting.pattern.calculation.sums.declaration import Answer, Given, PatternSum
from fitting.pattern.calculation.sums.garment import GarmentFigures
from fitting.pattern.calculation.sums.sheet_answer import AnswerLine, Grid, SheetAnswer, Sum, number

_WORDS = {
    SeamJoin.MATCHES: "they match",
    SeamJoin.EASED: "eased as said",
    SeamJoin.GATHERED: "gathered as said",
    SeamJoin.DIFFERS: "they differ",
}
AGAIN = "Measure both again, or ease it in on purpose."


def stretches_grid(caption: str, first: str, named: Iterable[tuple[str, Stretch]]) -> Grid:
    """Both edges of each stretch, and whether they match."""
    rows: tuple[tuple[Sum, ...], ...] = tuple(
        (
            (name,),
            (one.longer_mm,),
            (one.shorter_mm,),
            (one.difference_mm,),
            (one.ease_mm,) if one.ratio is None else (f"gathers, {number(one.ratio)} to 1",),
            (_WORDS[one.joined],),
        )
        for name, one in named
    )
    heads = (first, "first edge", "second edge", "difference", "allowed", "so")
    return Grid(caption=caption, heads=heads, rows=rows)


def differing(named: Iterable[tuple[str, Stretch]], advice: str = AGAIN) -> Iterator[Sum]:
    """A word for each stretch whose edges do not match."""
    for name, one in named:
        if one.joined is SeamJoin.DIFFERS:
            longer = "longer" if one.off_mm > 0 else "shorter"
            yield (
                f"{name}: the first edge is ",
                abs(one.off_mm),
                f" {longer} than the second asks for. {advice}",
            )


def _answer(seam: SeamMatch, given: Given) -> Answer:
    return {
        "first_mm": seam.longer_mm,
        "second_mm": seam.shorter_mm,
        "difference_mm": seam.longer_mm - seam.shorter_mm,
        "stretches": [
            {
                "name": one.name,
                "first_mm": one.longer_mm,
                "second_mm": one.shorter_mm,
                "off_mm": one.off_mm,
                "joined": one.joined.value,
            }
            for one in seam.stretches
        ],
        "notches": [
            {"first_mm": one.on_longer_mm, "second_mm": one.on_shorter_mm}
            for one in notches(seam, every_mm=given["notches_every_mm"])
        ],
    }


def _seam(*, stretches: Sequence[Mapping[str, Any]], notches_every_mm: float | None) -> SeamMatch:
    if not stretches:
        raise Faults([Fault("stretches", "Give at least one stretch, with the lengths of both its edges.")])
    faults = [
        Fault(f"stretches[{at}]", "A stretch is eased or gathered: give one of the two.")
        for at, one in enumerate(stretches)
        if one["ease_mm"] and one["ratio"] is not None
    ]
    if faults:
        raise Faults(faults)
    return SeamMatch(
        name="seam",
        stretches=tuple(
            Stretch(
                name=one["name"],
                longer_mm=one["first_mm"],
                shorter_mm=one["second_mm"],
                ease_mm=one["ease_mm"],
                ratio=one["ratio"],
            )
            for one in stretches
        ),
    )


SEAM = PatternSum(
    key="seam",
    says="Two edges that are sewn together, stretch by stretch from notch to notch.",
    command="seams",
    inputs=(
        ask.InputRows(
            name="stretches",
            columns=(
                ask.Text("name", "What it is called", default="stretch {at}"),
                ask.Length("first", "First edge", is_needed=True),
                ask.Length("second", "Second edge", is_needed=True),
                ask.Length("ease", "What the first is meant to be longer by", default="0 in", is_signed=True),
                ask.Number("ratio", "Gathers, to 1"),
            ),
            caption="Stretches",
            heads=(),
            marked_by="first",
        ),
        ask.Length("notches_every", "Notches at most so far apart"),
    ),
    reckon=_seam,
    answer=_answer,
)


def _sleeve(*, notches_every_mm: float | None, **edges: float) -> SeamMatch:
    return sleeve_seam(**edges)


def _worked(seam: SeamMatch, given: Given) -> SheetAnswer:
    named = [(one.name, one) for one in seam.stretches]
    difference = (seam.longer_mm, " − ", seam.shorter_mm, " = ", seam.longer_mm - seam.shorter_mm)
    notched = Grid(
        caption="Notches, from the front pitch point",
        heads=("notch", "along the head", "along the armhole"),
        rows=tuple(
            ((str(at),), (one.on_longer_mm,), (one.on_shorter_mm,))
            for at, one in enumerate(notches(seam, every_mm=given["notches_every_mm"]), start=1)
        ),
    )
    return SheetAnswer(
        figures={
            **{f"{one.name}, off": one.off_mm for one in seam.stretches},
            "head": seam.longer_mm,
            "armhole": seam.shorter_mm,
        },
        lines=(AnswerLine(label="head − armhole", parts=difference),),
        grids=(stretches_grid("Stretch by stretch", "stretch", named), notched),
        flags=tuple(differing(named)),
    )


def _edges(known: GarmentFigures) -> dict[str, float]:
    """From the pitch points of the traced pieces; else halves of what was read."""
    traced = {one.name: one for one in known.traced_sleeve()}
    if traced:
        return _from_pitch_points(traced)
    seam = next((one for one in known.seams if "head" in one.edge_a and "armhole" in one.edge_b), None)
    if seam is None or seam.a_mm is None or seam.b_mm is None:
        return {}
    head_mm, hole_mm = seam.a_mm / 2, seam.b_mm / 2
    ease_mm = max(0.0, head_mm - hole_mm)
    both = {"head": head_mm, "armhole": hole_mm, "ease": ease_mm}
    return {f"{edge}_{side}": mm for side in ("front", "back") for edge, mm in both.items()}


def _from_pitch_points(traced: Mapping[str, Stretch]) -> dict[str, float]:
    """Half of what is gathered over the top counts to the front, half to the back."""
    top, under = traced.get("top"), traced["under"]
    more_mm, into_mm = (top.longer_mm, top.shorter_mm) if top else (0.0, 0.0)
    edges = {"gathered": more_mm, "gathered_into": into_mm} if top else {}
    for side in ("front", "back"):
        edges[f"head_{side}"] = traced[side].longer_mm + more_mm / 2
        edges[f"armhole_{side}"] = traced[side].shorter_mm + into_mm / 2
        edges[f"ease_{side}"] = traced[side].ease_mm
    return edges | {"head_under": under.longer_mm, "armhole_under": under.shorter_mm}


def _edge(name: str, label: str) -> ask.Length:
    return ask.Length(name, label, box=f"{name}_mm", is_needed=True)


def _more(name: str, label: str) -> ask.Length:
    return ask.Length(name, label, box=f"{name}_mm", default="0 in")


SLEEVE = PatternSum(
    key="sleeve",
    title="sleeve head and armhole",
    says="Sleeve head against armhole, front and back apart, with the notches along both.",
    group="Alter and join",
    command="seams",
    inputs=(
        _edge("head_front", "Sleeve head, front, from the pitch point to the top"),
        _edge("head_back", "Sleeve head, back"),
        _edge("armhole_front", "Armhole, front"),
        _edge("armhole_back", "Armhole, back"),
        _more("ease_front", "Ease wanted, front"),
        _more("ease_back", "Ease wanted, back"),
        _more("gathered", "Of the head, gathered over the top"),
        _more("gathered_into", "Into so much of the armhole"),
        _more("head_under", "Sleeve head, beneath the pitch points"),
        _more("armhole_under", "Armhole, beneath the pitch points"),
        ask.Length(
            "notches_every",
            "Notches at most so far apart",
            box="every_mm",
            hint="Left empty: between the stretches only.",
        ),
    ),
    first=_edges,
    reckon=_sleeve,
    worked=_worked,
    answer=_answer,
)
